"""Find the cells on a sheet that labels name: beside, below, or inside the label's own cell."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.axes import NO_HEAD, NUMBER_FIRST, Head, Heads, is_unit_cell, read_head
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.lines import MOST_GAP, Line, Spot
from workbook_tools.labels.sections import FILLED_IN, Headings, is_value
from workbook_tools.labels.sheet_labels import SheetLabel, SheetLabels, is_head
from workbook_tools.labels.vocabulary import (
    Stage,
    Vocabulary,
    is_one_for_all,
    plain,
    stage_alone,
    stage_of,
    unit_in,
)
from workbook_tools.measurands.position import counts
from workbook_tools.quantities import LENGTH


class Scan:
    """Finds what the labels of one sheet name."""

    def __init__(self, sheet: Sheet, vocabulary: Vocabulary) -> None:
        self.sheet = sheet
        self.vocabulary = vocabulary
        self.heads = Heads(sheet, vocabulary)
        self.last_column = max((c for _, c in sheet.cells), default=0)
        self.last_row = max((r for r, _ in sheet.cells), default=0)
        self.headings = Headings(sheet, vocabulary, self.heads)
        self.labels = SheetLabels(sheet, vocabulary, self.heads, self.headings)
        self.unknown: list[tuple[str, int, int]] = []
        self._indexed: set[tuple[int, int]] = set()

    def spots(self) -> Iterator[Spot]:
        """Every cell that a label names; those of proposed labels are marked as such."""
        if self.vocabulary.is_elsewhere(self.sheet.title):
            return
        for row, column, content in self.sheet.texts:
            text = " ".join(content.split())
            if plain(text) in self.vocabulary.ignored or self.headings.elsewhere(row, column):
                continue
            inline = FILLED_IN.match(text)
            if inline and inline["value"]:
                label = self.labels.at(row, column, inline["label"])
                if label is not None and not is_unit(inline["value"]):
                    yield self._spot(label, row, column, "", NO_HEAD, inline["value"])
                    continue
            label = self.labels.at(row, column, text)
            if label is None or label.match.how == "proposal":
                yield from self._proposed(row, column, text, label)
                continue
            if self._titles_a_section(label):
                continue
            found = list(self._named_by(label))
            if label.match.term.id == "cylinder_count" and len(found) != 1:
                continue
            yield from found

    def counted(self) -> Iterator[tuple[int, int]]:
        """The typed numbers that head a row or a column of several, or count it: 1 2 3 4.

        Complete once the spots have been found.
        """
        yield from self._indexed
        for (row, column), cell in self.sheet.cells.items():
            if not isinstance(cell.value, (int, float)) or cell.formula:
                continue
            down = self.heads.counts_down(row, column)
            if self.heads.heads_a_column(row, column) or (down is not None and down.cylinder):
                yield row, column

    def no_engine(self) -> Iterator[tuple[int, int]]:
        """The typed numbers under headings of parts, prices and hours."""
        whole = self.vocabulary.is_elsewhere(self.sheet.title)
        for (row, column), cell in self.sheet.cells.items():
            typed = isinstance(cell.value, (int, float)) and not cell.formula
            if typed and (whole or self.headings.elsewhere(row, column)):
                yield row, column

    def _proposed(
        self, row: int, column: int, text: str, label: SheetLabel | None
    ) -> Iterator[Spot]:
        """What a label would name that only resembles one, or that can mean several things."""
        if len(text) > 50 or is_value(self.sheet.cells[row, column]) or is_head(text):
            return
        if self.vocabulary.job_field(text) or is_unit(text) or self._says_a_field(row, column):
            return
        bottom, right = self.sheet.merged.get((row, column), (row, column))
        if label is not None:
            yield from self._named_by(label)
        elif self._has_number_beside(row, right) or self._heads_numbers(bottom, column):
            self.unknown.append((text, row, column))

    def _says_a_field(self, row: int, column: int) -> bool:
        """Whether a text is what a job field's name beside or above it says: a customer."""
        job_field = self.vocabulary.job_field
        if job_field(self.heads.text(row, column - 1)):
            return True
        # A name above that has its own value beside it says nothing of what is below.
        return bool(job_field(self.heads.text(row - 1, column))) and self._stops(
            row - 1, column + 1
        )

    def _has_number_beside(self, row: int, column: int) -> bool:
        """Whether the next filled cell to the right, within reach of a label, holds a number."""
        for at in range(column + 1, column + 2 + MOST_GAP):
            cell = self.heads.cell(row, at)
            if cell is not None:
                return not cell.formula and NUMBER_FIRST.match(str(cell.value)) is not None
        return False

    def _heads_numbers(self, row: int, column: int) -> bool:
        """Whether a text stands over numbers, at least two of them, as the head of a column."""
        below = row + 1 + is_unit_cell(self.heads.text(row + 1, column))
        texts = [self.sheet.cells.get((below + step, column)) for step in (0, 1)]
        return all(
            c is not None and not c.formula and NUMBER_FIRST.match(str(c.value)) is not None
            for c in texts
        )

    def _titles_a_section(self, label: SheetLabel) -> bool:
        """Whether a label stands alone over texts that are no heads: a title of what follows."""
        columns = range(1, self.last_column + 1)
        filled = sum((label.top, column) in self.sheet.cells for column in columns)
        text = self.heads.text(label.bottom + 1, label.left)
        if filled > 1 or not text or label.right > label.left or NUMBER_FIRST.match(text):
            return False
        titles = self.heads.titles_a_table(label.bottom, label.left)
        return not titles and counts(text) is not None

    def _stops(self, row: int, column: int) -> bool:
        """Whether a text begins something else: another label, a job field, a head."""
        text = self.heads.text(row, column)
        if not text or NUMBER_FIRST.match(text):
            return False
        return self.labels.at(row, column, text) is not None or bool(
            self.vocabulary.job_field(text)
        )

    def _named_by(self, label: SheetLabel) -> Iterator[Spot]:
        """The cells that a label names: under a corner, to the right, else below."""
        if counts(label.text) is not None and self._counts(label):
            return
        corner = list(self._corner(label))
        if corner:
            yield from corner
            return
        across = list(self._across(label))
        below = list(self._below(label)) if self._heads_a_column(label, across) else []
        named = below or across
        if self._is_index(label, named):
            self._indexed |= {(spot.row, spot.column) for spot in named}
        else:
            yield from named

    def _is_index(self, label: SheetLabel, spots: list[Spot]) -> bool:
        """Whether cells only number what stands beside them: 1 2 3, and no sizes."""
        if label.match.term.id == "cylinder_count":
            return False
        numbers = [self._count(spot.row, spot.column) for spot in spots]
        if counts(label.text) is not None and None not in numbers:
            return True
        return len(numbers) > 2 and numbers == [*range(1, len(numbers) + 1)]

    def _counts(self, label: SheetLabel) -> bool:
        """Whether a label stands before the numbers of journals, and so heads a table."""
        numbers = [self.heads.count_at(label.top, label.right + step) for step in range(1, 6)]
        given = [n for n in numbers if n is not None]
        return len(given) > 1 and all(b - a in (1, 2) for a, b in pairwise(given))

    def _heads_a_column(self, label: SheetLabel, across: list[Spot]) -> bool:
        """Whether to look below: nothing to the right, or a head among others of its row."""
        if not across:
            return True
        if label.right > label.left and label.bottom == label.top:
            return self.heads.text(label.bottom + 1, label.left) != ""
        if across[0].column == label.right + 1:
            return False
        neighbors = (
            self.heads.text(label.top, label.left - 1),
            self.heads.text(label.top, label.right + 1),
        )
        return any(neighbors) and is_value(self.heads.cell(label.bottom + 1, label.left))

    def _spot(
        self, label: SheetLabel, row: int, column: int, unit: str, head: Head, inline: str = ""
    ) -> Spot:
        head = head.and_then(label.head)
        stage: Stage = (
            stage_of(label.meaning) or head.stage or self.headings.stage_over(label.top, label.left)
        )
        known = unit or head.unit or unit_in(label.text)
        if not known and label.match.term.kind is LENGTH:
            known = self.headings.unit_over(label.top, label.left)
        origin = (label.top, label.left)
        return Spot(label.match, row, column, label.text, known, head, stage, inline, origin)

    def _across(self, label: SheetLabel) -> Iterator[Spot]:
        """Values to the right; of a label merged over several rows, in each of them."""
        rows = list(range(label.top, label.bottom + 1))
        first = label.right + 1
        if len(rows) == 1 and _where(self.heads, label.top, first):
            below = label.top + 1
            while not self.heads.text(below, label.left) and _where(self.heads, below, first):
                rows.append(below)
                below += 1
        for row in rows:
            yield from self._row_values(label, row, first)

    def _row_values(self, label: SheetLabel, row: int, first: int) -> Iterator[Spot]:
        line = Line()
        for column in range(first, self.last_column + 1):
            if (row, column) not in self.heads.covered and self._ends(line, label, row, column):
                break
        # Cylinders at the end that have a head and no value were not measured either.
        found = line.found + ([(c, h, line.unit) for c, h in line.waiting] if line.found else [])
        filled = [spot for spot in found if (row, spot[0]) in self.sheet.cells]
        if len(filled) == 1 and (
            is_one_for_all(label.match.term) or self._below_the_table(row, found[0][0])
        ):
            # One for all cylinders, that happens to stand under the first one's head.
            found = [(c, replace(h, cylinder="", bank=""), u) for c, h, u in filled]
        for column, head, unit in found:
            yield self._spot(label, row, column, unit, line.own.and_then(head))

    def _ends(self, line: Line, label: SheetLabel, row: int, column: int) -> bool:
        """Whether a row of values ends before a cell; else the cell is taken in."""
        cell = self.sheet.cells.get((row, column))
        head = self.heads.of_column(row, column)
        if not head.numbers(label.match.term.of):
            head = Head(unit=head.unit, stage=head.stage)
        if cell is None:
            return line.blank(column, head)
        text = self.heads.text(row, column)
        if is_unit_cell(text) and not (text in ('"', "''") and head.says_which):
            return line.told_unit(text)
        if text and (self._stops(row, column) or line.ends_at(text)):
            return True
        where = _where(self.heads, row, column) or self.heads.counts_down(row, column)
        counted = isinstance(cell.value, (int, float)) and where is not None
        if where is not None and not line.found and (counted or not is_value(cell)):
            line.own = line.own.and_then(where)
            return False
        if not is_value(cell) and not (line.found and head.says_which):
            line.texts += 1
            return bool(line.found) or line.texts > 1
        line.take(column, head)
        return False

    def _below_the_table(self, row: int, column: int) -> bool:
        """Whether an empty row parts a cell from the heads of cylinders over it."""
        at = row - 1
        while at in self.heads.rows:
            if self.heads.heads_a_column(at, column):
                return False
            at -= 1
        return True

    def _corner(self, label: SheetLabel) -> Iterator[Spot]:
        """A label over row heads, with cylinders across beside it: the block's corner."""
        row = label.bottom + 1 + self.heads.titles_a_table(label.bottom, label.left)
        beside = self.heads.of_column(row, label.right + 1)
        if not beside.cylinder or self.heads.of_column(row, label.left).says_which:
            return
        while _where(self.heads, row, label.left) is not None or self._tells_when(row, label.left):
            yield from self._row_values(replace(label, top=row, bottom=row), row, label.left)
            row += 1

    def _tells_when(self, row: int, column: int) -> bool:
        """Whether a text says when or how its row was measured: "poured", "as received"."""
        return stage_alone(self.heads.text(row, column)) in ("found", "machined", "final")

    def _below(self, label: SheetLabel) -> Iterator[Spot]:
        """Values under a head; of a head merged over several columns, under each of them."""
        if self._heads_a_pair(label):
            yield from self._column_values(label, label.left + 1)
            return
        for column in range(label.left, label.right + 1):
            spots = list(self._column_values(label, column))
            if column == label.left or (spots and self._own_head(label, column)):
                yield from spots

    def _heads_a_pair(self, label: SheetLabel) -> bool:
        """Whether a head stands over the numbers 1 2 3 of cylinders, with the values beside."""
        row = label.bottom + 1 + is_unit_cell(self.heads.text(label.bottom + 1, label.left))
        if [self._count(row + step, label.left) for step in (0, 1)] != [1, 2]:
            return False
        beside = self.heads.cell(row, label.left + 1)
        return is_value(beside) and not self.heads.text(label.top, label.right + 1)

    def _count(self, row: int, column: int) -> int | None:
        """A small whole number, typed as one or as a text."""
        text = self.heads.text(row, column)
        return int(text) if re.fullmatch(r"\d{1,2}", text) else self.heads.count_at(row, column)

    def _own_head(self, label: SheetLabel, column: int) -> bool:
        """Whether a column under a merged head has a head of its own: thrust, axial."""
        text = self.heads.text(label.bottom + 1, column)
        return bool(text) and (label.bottom + 1, column) not in self.heads.covered

    def _column_values(self, label: SheetLabel, column: int) -> Iterator[Spot]:
        line = Line()
        for row in range(label.bottom + 1, self.last_row + 2):
            if self._ends_column(line, label, row, column):
                break
        found = line.found + ([(r, h, line.unit) for r, h in line.waiting] if line.found else [])
        for row, head, _ in found:
            whole = line.own.and_then(head)
            named = whole.stage or self._row_name_stage(row, label.left)
            yield self._spot(label, row, column, line.unit, replace(whole, stage=named))

    def _ends_column(self, line: Line, label: SheetLabel, row: int, column: int) -> bool:
        """Whether a column of values ends before a cell; else the cell is taken in."""
        cell = self.sheet.cells.get((row, column))
        head = self.heads.of_row(row, column)
        if cell is None:
            return self._blank_in_column(line, row, column, head)
        text = self.heads.text(row, column)
        if text and not line.found and self._heads_below(line, text):
            return False
        if (text and self._stops(row, column)) or self._row_names_another(row, label):
            return True
        if not is_value(cell) and not head.says_which:
            return True
        counted = label.match.term.id != "cylinder_count" and self.heads.counts_down(row, column)
        if counted and counted.of:
            return True
        line.found += [(r, h, "") for r, h in line.waiting] if head.says_which else []
        line.waiting = []
        line.found.append((row, head, ""))
        return False

    def _blank_in_column(self, line: Line, row: int, column: int, head: Head) -> bool:
        """Take in an empty cell of a column; whether its values end there."""
        if head.says_which:
            line.waiting.append((row, head))
            return False
        if any(self.heads.alone_in_its_row(row, c) for c in range(1, column)):
            return False
        line.gap += 1
        return bool(line.found or line.waiting) or line.gap > 1

    def _heads_below(self, line: Line, text: str) -> bool:
        """Take in a unit or a second head over the values of a column; whether it is one."""
        if is_unit_cell(text) and text not in ('"', "''"):
            line.unit = text
            return True
        under = None if NUMBER_FIRST.match(text) else read_head(text)
        if under is not None:
            line.own = line.own.and_then(under)
        return under is not None

    def _row_name_stage(self, row: int, column: int) -> Stage:
        """Whether a row's first text says that it holds means or limits, not readings."""
        for at in range(1, column):
            text = self.heads.text(row, at)
            if text:
                head = read_head(text)
                return "" if head and head.says_which else stage_alone(text)
        return ""

    def _row_names_another(self, row: int, label: SheetLabel) -> bool:
        """Whether a row's first text is a label of its own, for what stands in the row."""
        for at in range(1, label.left):
            text = self.heads.text(row, at)
            if text:
                first = self.labels.at(row, at, text)
                if first is None or first.match.how == "proposal":
                    return False
                return first.match.term != label.match.term
        return False


def _where(heads: Heads, row: int, column: int) -> Head | None:
    """A typed text that says where on a cylinder a row was measured: T, middle, thrust."""
    text = heads.text(row, column)
    head = read_head(text) if text else None
    return head if head is not None and (head.at or head.bank or head.cylinder) else None

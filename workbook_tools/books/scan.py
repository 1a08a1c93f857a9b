"""Find the cells on a sheet that labels name: beside, below, or inside the label's own cell."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from workbook_tools.books.cells import Sheet
from workbook_tools.books.content import is_measured, is_unit
from workbook_tools.books.headings import FILLED_IN, Headings, is_unit_cell, is_value
from workbook_tools.books.heads import NUMBER_FIRST, Head, Heads, counts_what, read_head
from workbook_tools.books.vocabulary import (
    Match,
    ParsedLabel,
    Stage,
    Vocabulary,
    parse_label,
    plain,
    staged,
)
from workbook_tools.quantities import LENGTH

# How many empty cells may part a label from its value.
MOST_GAP = 4
# What is put behind values that were looked at.
_TICKS = {"y", "yes", "n", "no", "ok", "x", "ja", "nein", "✓", "✔"}
# Units that can mean nothing else, wherever they stand in a label: "cc chamber".
_VOLUMES = ("cc", "ccm", "ml")
# Words behind a comma that do not make it another reading, and how alike others leave it.
_NO_OTHER = {"center to center", "c to c", "c c", "compressed", "crushed", "cold", "diametral"}
QUALIFIED = 90.0


@dataclass(frozen=True)
class Spot:
    """A cell that a label names, not read yet; inline: the text beside the label in one cell."""

    match: Match
    row: int
    column: int
    label: str
    unit: str
    head: Head
    stage: Stage
    inline: str = ""


@dataclass(frozen=True)
class _Label:
    """A label on the sheet with the cells it covers."""

    match: Match
    parsed: ParsedLabel
    text: str
    top: int
    left: int
    bottom: int
    right: int
    at: str = ""


class Scan:
    """Finds what the labels of one sheet name."""

    def __init__(self, sheet: Sheet, vocabulary: Vocabulary) -> None:
        self.sheet = sheet
        self.vocabulary = vocabulary
        self.heads = Heads(sheet, vocabulary)
        self.last_column = max((c for _, c in sheet.cells), default=0)
        self.last_row = max((r for r, _ in sheet.cells), default=0)
        self.headings = Headings(sheet, vocabulary, self.heads)
        self._labels: dict[tuple[int, int, str], _Label | None] = {}
        self.unknown: list[tuple[str, int, int]] = []

    def spots(self) -> Iterator[Spot]:
        """Every cell that a label names; those of proposed labels are marked as such."""
        if plain(self.sheet.title) in self.vocabulary.elsewhere:
            return
        for row, column, content in self.sheet.texts:
            text = " ".join(content.split())
            if plain(text) in self.vocabulary.ignored or self.headings.elsewhere(row, column):
                continue
            inline = FILLED_IN.match(text)
            if inline and inline["value"]:
                label = self._label(row, column, inline["label"])
                if label is not None and not is_unit(inline["value"]):
                    yield self._spot(label, row, column, "", Head(), inline["value"])
                    continue
            label = self._label(row, column, text)
            if label is None:
                yield from self._proposed(row, column, text)
                continue
            found = list(self._named_by(label))
            if label.match.term.name == "cylinder_count" and len(found) != 1:
                continue
            yield from found

    def counted(self) -> Iterator[tuple[int, int]]:
        """The typed numbers that head a row or a column of several: 1 2 3 4."""
        for (row, column), cell in self.sheet.cells.items():
            if not isinstance(cell.value, (int, float)) or cell.formula:
                continue
            down = self.heads.counts_down(row, column)
            if self.heads.heads_a_column(row, column) or (down is not None and down.cylinder):
                yield row, column

    def no_engine(self) -> Iterator[tuple[int, int]]:
        """The typed numbers under headings of parts, prices and hours."""
        whole = plain(self.sheet.title) in self.vocabulary.elsewhere
        for (row, column), cell in self.sheet.cells.items():
            typed = isinstance(cell.value, (int, float)) and not cell.formula
            if typed and (whole or self.headings.elsewhere(row, column)):
                yield row, column

    def _proposed(self, row: int, column: int, text: str) -> Iterator[Spot]:
        """What a label that only resembles a known one would name."""
        if len(text) > 50 or is_value(self.sheet.cells[row, column]) or self._is_head(text):
            return
        if self.vocabulary.job_field(text) or is_unit(text) or self._says_a_field(row, column):
            return
        parsed = staged(self.vocabulary, parse_label(text))
        match = self.vocabulary.propose(self.vocabulary.spelled_out(parsed.words))
        bottom, right = self.sheet.merged.get((row, column), (row, column))
        if match is not None:
            yield from self._named_by(_Label(match, parsed, text, row, column, bottom, right))
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

    def _label(self, row: int, column: int, text: str) -> _Label | None:
        """A text as a reading's label, None for any other text."""
        if len(text) > 60:
            return None
        key = (row, column, text)
        if key not in self._labels:
            self._labels[key] = self._read_label(row, column, text)
        return self._labels[key]

    def _read_label(self, row: int, column: int, text: str) -> _Label | None:
        whole = parse_label(text)
        parts = [whole, staged(self.vocabulary, whole)]
        last = whole.words.rpartition(" ")
        first = whole.words.partition(" ")
        if first[0] in _VOLUMES and first[2]:
            parts.append(replace(whole, words=first[2], unit=first[0]))
        if last[0] and is_unit(last[2]):
            unit = last[2] if last[2] in _VOLUMES else whole.unit
            parts.insert(0, replace(whole, unit=whole.unit or unit))
            parts.append(staged(self.vocabulary, replace(whole, words=last[0], unit=last[2])))
        spelled = [replace(p, words=self.vocabulary.spelled_out(p.words)) for p in parts]
        for parsed in dict.fromkeys((*parts, *spelled)):
            match = self.vocabulary.match(parsed.words)
            if parsed.words in self.vocabulary.by_subject:
                near = match is not None
                before = self._subject_before(row, column)
                over = self.headings.subjects(row, column, near)
                match = self.vocabulary.match(parsed.words, [before] if before else over)
            if match is not None:
                bottom, right = self.sheet.merged.get((row, column), (row, column))
                if not parsed.stage:
                    parsed = replace(parsed, stage=staged(self.vocabulary, whole).stage)
                return _Label(match, parsed, text, row, column, bottom, right)
        return self._qualified(row, column, text)

    def _subject_before(self, row: int, column: int) -> str:
        """The part that the label before it in its row is about: "Head gasket 0.039, bore 4.1"."""
        for at in range(column - 1, 0, -1):
            text = self.heads.text(row, at)
            if text and not NUMBER_FIRST.match(text) and not is_unit_cell(text):
                own = is_value(self.heads.cell(row, at + 1)) and not self._is_head(text)
                return self.vocabulary.subject_of(text) if own else ""
        return ""

    def _qualified(self, row: int, column: int, text: str) -> _Label | None:
        """A label with words behind a comma: where, when, or only like a label that is known."""
        head, comma, tail = text.partition(", ")
        label = self._label(row, column, head) if comma else None
        if label is None or label.parsed.stage:
            return label and replace(label, text=text)
        unit = parse_label(text).unit or label.parsed.unit
        words = plain(tail)
        stage = self.vocabulary.stages.get(words) or self.vocabulary.stages.get(words.split(" ")[0])
        where = read_head(" ".join(w for w in words.split() if w not in ("pin", "side", "end")))
        label = replace(label, text=text, parsed=replace(label.parsed, unit=unit))
        if stage:
            return replace(label, parsed=replace(label.parsed, stage=stage))
        if where is not None and where.at:
            return replace(label, at=where.at)
        if words in _NO_OTHER:
            return label
        return replace(label, match=replace(label.match, how="proposal", likeness=QUALIFIED))

    def _is_head(self, text: str) -> bool:
        return read_head(text) is not None or counts_what(text)

    def _stops(self, row: int, column: int) -> bool:
        """Whether a text begins something else: another label, a job field, a head."""
        text = self.heads.text(row, column)
        if not text or NUMBER_FIRST.match(text):
            return False
        return self._label(row, column, text) is not None or bool(self.vocabulary.job_field(text))

    def _named_by(self, label: _Label) -> Iterator[Spot]:
        """The cells that a label names: under a corner, to the right, else below."""
        if counts_what(label.text) and self._counts(label):
            return
        corner = list(self._corner(label))
        if corner:
            yield from corner
            return
        across = list(self._across(label))
        below = list(self._below(label)) if self._heads_a_column(label, across) else []
        yield from below or across

    def _counts(self, label: _Label) -> bool:
        """Whether a label stands before the numbers of journals, and so heads a table."""
        numbers = [self.heads.count_at(label.top, label.right + step) for step in range(1, 6)]
        given = [n for n in numbers if n is not None]
        return len(given) > 1 and all(b - a in (1, 2) for a, b in pairwise(given))

    def _heads_a_column(self, label: _Label, across: list[Spot]) -> bool:
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
        self, label: _Label, row: int, column: int, unit: str, head: Head, inline: str = ""
    ) -> Spot:
        if label.parsed.position and not head.cylinder:
            side = "".join(c for c in label.parsed.position if c.isalpha())
            number = "".join(c for c in label.parsed.position if c.isdigit())
            head = replace(head, cylinder=number, bank=head.bank or side)
        stage: Stage = (
            label.parsed.stage or head.stage or self.headings.stage_over(label.top, label.left)
        )
        known = unit or head.unit or label.parsed.unit
        if not known and label.match.term.kind is LENGTH:
            known = self.headings.unit_over(label.top, label.left)
        return Spot(
            label.match, row, column, label.text, known,
            replace(head, at=" ".join(p for p in (label.at, head.at) if p)), stage, inline,
        )  # fmt: skip

    def _across(self, label: _Label) -> Iterator[Spot]:
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

    def _row_values(self, label: _Label, row: int, first: int) -> Iterator[Spot]:
        found: list[tuple[int, Head, str]] = []
        waiting: list[tuple[int, Head]] = []
        unit, gap, texts, own = "", 0, 0, Head()
        ended = False
        for column in range(first, self.last_column + 1):
            if (row, column) in self.heads.covered:
                continue
            cell = self.sheet.cells.get((row, column))
            head = self.heads.of_column(row, column)
            if not head.counts_for(label.match.term.per):
                head = Head(unit=head.unit, stage=head.stage)
            if cell is None:
                if ended:
                    break
                if head.says_which and not head.stage:
                    waiting.append((column, head))
                    continue
                gap += 1
                if found or gap > MOST_GAP:
                    break
                continue
            text = self.heads.text(row, column)
            if is_unit_cell(text) and not (text in ('"', "''") and head.says_which):
                if found:
                    found = [(c, h, u or text) for c, h, u in found]
                    ended, waiting = True, []
                else:
                    unit = text
                continue
            if text and (self._stops(row, column) or (found and text.casefold() in _TICKS)):
                break
            if ended and text and not is_measured(text):
                break  # What stands behind the unit is a remark.
            where = _where(self.heads, row, column)
            if where is not None and not found and not is_value(cell):
                own = own.and_then(where)
                continue
            if not is_value(cell) and not (found and head.says_which):
                texts += 1
                if found or texts > 1:
                    break
                continue
            found += [(c, h, unit) for c, h in waiting] if found or head.says_which else []
            waiting = []
            found.append((column, head, unit))
        # Cylinders at the end that have a head and no value were not measured either.
        found += [(c, h, unit) for c, h in waiting] if found else []
        alone = sum(self._filled(row, c) for c, _, _ in found) == 1
        if alone and (label.match.term.per == "engine" or self._below_the_table(row, found[0][0])):
            # One for all cylinders, that happens to stand under the first one's head.
            found = [
                (c, replace(h, cylinder="", bank=""), u)
                for c, h, u in found
                if self._filled(row, c)
            ]
        for column, head, its_unit in found:
            yield self._spot(label, row, column, its_unit, own.and_then(head))

    def _below_the_table(self, row: int, column: int) -> bool:
        """Whether an empty row parts a cell from the heads of cylinders over it."""
        at = row - 1
        while at in self.heads.rows:
            if self.heads.heads_a_column(at, column):
                return False
            at -= 1
        return True

    def _filled(self, row: int, column: int) -> bool:
        return (row, column) in self.sheet.cells

    def _corner(self, label: _Label) -> Iterator[Spot]:
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
        stage = self.vocabulary.stages.get(plain(self.heads.text(row, column)), "")
        return stage in ("incoming", "finished")

    def _below(self, label: _Label) -> Iterator[Spot]:
        """Values under a head; of a head merged over several columns, under each of them."""
        if self._heads_a_pair(label):
            yield from self._column_values(label, label.left + 1)
            return
        for column in range(label.left, label.right + 1):
            spots = list(self._column_values(label, column))
            if column == label.left or (spots and self._own_head(label, column)):
                yield from spots

    def _heads_a_pair(self, label: _Label) -> bool:
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

    def _own_head(self, label: _Label, column: int) -> bool:
        """Whether a column under a merged head has a head of its own: thrust, axial."""
        text = self.heads.text(label.bottom + 1, column)
        return bool(text) and (label.bottom + 1, column) not in self.heads.covered

    def _column_values(self, label: _Label, column: int) -> Iterator[Spot]:
        unit, own, blanks = "", Head(), 0
        found: list[tuple[int, Head]] = []
        waiting: list[tuple[int, Head]] = []
        for row in range(label.bottom + 1, self.last_row + 2):
            cell = self.sheet.cells.get((row, column))
            head = self.heads.of_row(row, column)
            if cell is None:
                if head.says_which:
                    waiting.append((row, head))
                    continue
                if any(self.heads.alone_in_its_row(row, c) for c in range(1, column)):
                    continue
                blanks += 1
                if found or waiting or blanks > 1:
                    break
                continue
            text = self.heads.text(row, column)
            if not found and is_unit_cell(text) and text not in ('"', "''"):
                unit = text
                continue
            if text and not found and not NUMBER_FIRST.match(text):
                under = read_head(text, tuple(self.vocabulary.stages.items()))
                if under is not None:
                    own = own.and_then(under)
                    continue
            if text and self._stops(row, column):
                break
            if not is_value(cell) and not head.says_which:
                break
            found += waiting if head.says_which else []
            waiting = []
            found.append((row, head))
        found += waiting if found else []
        for row, head in found:
            named = self._row_name_stage(row, label.left)
            whole = own.and_then(head)
            yield self._spot(label, row, column, unit, replace(whole, stage=whole.stage or named))

    def _row_name_stage(self, row: int, column: int) -> Stage:
        """Whether a row's first text says that it holds means or limits, not readings."""
        for at in range(1, column):
            text = self.heads.text(row, at)
            if text:
                return self.vocabulary.stages.get(plain(text), "")
        return ""


def _where(heads: Heads, row: int, column: int) -> Head | None:
    """A typed text that says where on a cylinder a row was measured: T, middle, thrust."""
    text = heads.text(row, column)
    head = read_head(text) if text else None
    return head if head is not None and (head.at or head.bank or head.cylinder) else None

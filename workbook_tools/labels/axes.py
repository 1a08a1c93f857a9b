"""Heads of rows and columns: which cylinder, where on it, which stage, which unit."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from workbook_tools.books.cells import Cell, Sheet
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.vocabulary import NO_SIZES, Stage, Vocabulary, stage_alone, unit_in
from workbook_tools.measurands import Position
from workbook_tools.measurands.position import counts, parse
from workbook_tools.measurands.words import read_label

MOST_LEFT, MOST_UP = 24, 60
MOST_CYLINDERS = 16

# How a typed value begins: a number, perhaps with a mark before it, and no ordinal ("2nd gap").
NUMBER_FIRST = re.compile(
    r"(?!\d+(?:st|nd|rd|th)\b)(?!\d{1,2}[.)]\s+[^\W\d_]{4})['~<>≈±+\-−]?\s*[.,]?\d", re.IGNORECASE
)
# Where a piston that rocks is measured: the two stand apart.
_ROCKED = ("high side", "low side")
# A number alone or behind a sign of one; an ordinal may be of a ring.
_NUMBER_ALONE = re.compile(r"\W*(?:(?:no|nr|pos)\W*)?\d+\W*", re.IGNORECASE)
# Letters that name a place or a bank more often than a unit.
_PLACES = ("m", "l", "n", "k", "c", "f", "w")
# What is numbered apart from cylinders.
_BEARINGS = ("main", "cam_bearing", "bearing")


@dataclass(frozen=True)
class Head:
    """What the heads of a cell's row or column say; "" for what they do not say."""

    cylinder: str = ""
    bank: str = ""
    at: str = ""
    stage: Stage = ""
    unit: str = ""
    of: str = ""

    @property
    def says_which(self) -> bool:
        """Whether it tells one of several readings from the others."""
        return bool(self.cylinder or self.bank or self.at)

    def numbers(self, of: str) -> bool:
        """Whether its number can be of one of these: a main's is no cylinder's."""
        return not self.cylinder or of in ("rod", *_BEARINGS) or self.of not in _BEARINGS

    def and_then(self, outer: Head) -> Head:
        """This head with what an outer one adds."""
        at = " ".join(dict.fromkeys(p for p in (outer.at, self.at) if p))
        return Head(
            self.cylinder or outer.cylinder,
            self.bank or outer.bank,
            at,
            self.stage or outer.stage,
            self.unit or outer.unit,
            self.of or outer.of,
        )


NO_HEAD = Head()


@lru_cache(maxsize=4096)
def read_head(text: str) -> Head | None:
    """A text as the head of a row or column, None where it is anything else."""
    if is_unit_cell(text):
        return Head(unit=text.strip())
    if text.strip(" :.").casefold() in _ROCKED:
        return Head(at=text.strip(" :.").casefold())
    where = parse(text)
    if where is not None:
        return _head_of(where, text)
    stage = stage_alone(text)
    return Head(stage=stage, unit=unit_in(text)) if stage else None


def _head_of(where: Position, text: str) -> Head | None:
    """A position as a head; the numbers of rings and of pairs head nothing."""
    loose = where.number and not (where.of or where.bank or where.at)
    if where.last or where.of == "ring" or (loose and not _NUMBER_ALONE.fullmatch(text)):
        return None
    return Head(str(where.number or ""), where.bank, " ".join(where.at), of=where.of)


def is_unit_cell(text: str) -> bool:
    """Whether a cell's text is a unit; a lone M is the middle of a bore, an L a bank."""
    return is_unit(text) and text.strip().casefold() not in _PLACES


def _says_how_many(text: str) -> bool:
    """Whether a text over a single number says how many cylinders there are."""
    one = read_label(text).candidates
    return bool(one) and one[0].measurand == "cylinder_count"


class Heads:
    """The heads of one sheet's cells."""

    def __init__(self, sheet: Sheet, vocabulary: Vocabulary) -> None:
        self.sheet = sheet
        self.vocabulary = vocabulary
        self.covered = {
            (r, c): (top, left)
            for (top, left), (bottom, right) in sheet.merged.items()
            if (bottom - top + 1) * (right - left + 1) <= 4000
            for r in range(top, bottom + 1)
            for c in range(left, right + 1)
            if (r, c) != (top, left)
        }
        self.rows = {row for row, _ in sheet.cells}
        self.last_column = max((column for _, column in sheet.cells), default=0)

    def cell(self, row: int, column: int) -> Cell | None:
        """The cell that shows here: of a merged range its first."""
        return self.sheet.cells.get(self.covered.get((row, column), (row, column)))

    def text(self, row: int, column: int) -> str:
        """The typed text that shows here, "" for anything else."""
        cell = self.cell(row, column)
        if cell is None or cell.formula or not isinstance(cell.value, str):
            return ""
        return " ".join(cell.value.split())

    def _of_text(self, row: int, column: int) -> Head | None:
        text = self.text(row, column)
        return read_head(text) if text else None

    def _over_column(self, row: int, column: int) -> Head | None:
        """A text as the head of what stands below it; before or behind a value it is none."""
        head = self._of_text(row, column)
        if head is None:
            return None
        if head.unit and self._is_number(row, column - 1):
            return None
        return None if self._is_number(row, column + 1) else head

    def titles_a_table(self, row: int, column: int) -> bool:
        """Whether a text alone in its row stands over a row of numbered heads."""
        beside = [(row, column + 1), (row, column + 2), (row + 1, column)]
        if any(spot in self.sheet.cells for spot in beside):
            return False
        return all(self.heads_a_column(row + 1, column + step) for step in (1, 2))

    def heads_a_column(self, row: int, column: int) -> bool:
        """Whether a cell says which cylinder or place stands below it."""
        head = self._over_column(row, column)
        return self._counts_across(row, column) or (head is not None and head.says_which)

    def _is_number(self, row: int, column: int) -> bool:
        """Whether a cell holds a value that is no head itself."""
        cell = self.cell(row, column)
        if cell is None or self._counts_across(row, column):
            return False
        if isinstance(cell.value, str) and not cell.formula:
            return NUMBER_FIRST.match(cell.value) is not None and self._of_text(row, column) is None
        return True

    def count_at(self, row: int, column: int) -> int | None:
        """A small typed whole number that may count cylinders or journals."""
        cell = self.cell(row, column)
        value = cell.value if cell and not cell.formula else None
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            return None
        return int(value) if value == int(value) and 1 <= value <= MOST_CYLINDERS else None

    def _counts_across(self, row: int, column: int) -> bool:
        """Whether a number is one of a row of heads: 1 2 3 4, with no reading's label before."""
        here = self.count_at(row, column)
        if here is None:
            return False
        before, after = self.count_at(row, column - 1), self.count_at(row, column + 1)
        rising = [n for n in (before, after) if n is not None]
        if not rising or (before is not None and not 0 < here - before <= 2):
            return self._first_of_block(row, column)
        if after is not None and not 0 < after - here <= 2 and before is None:
            return False
        return not self._names_a_reading(row, column)

    def _first_of_block(self, row: int, column: int) -> bool:
        """Whether a second run of heads begins here: 1 3 5 7 | 2 4 6 8, or 1 2 | 1 2."""
        here, after = self.count_at(row, column), self.count_at(row, column + 1)
        if here not in (1, 2, 5) or after is None or here is None:
            return False
        return 0 < after - here <= 2 and not self._names_a_reading(row, column)

    def _names_a_reading(self, row: int, column: int) -> bool:
        """Whether the nearest text to the left is a reading's label, so that numbers are values."""
        for at in range(column - 1, max(0, column - 1 - MOST_LEFT), -1):
            text = self.text(row, at)
            if text:
                match = self.vocabulary.match(text)
                if match is None or match.how == "proposal" or counts(text) is not None:
                    return False
                corner = self._of_text(row + 1, at) is not None
                return match.term.id != "cylinder_count" and not corner
        return False

    def counts_down(self, row: int, column: int) -> Head | None:
        """A number as one of a column that counts cylinders or journals down."""
        here = self.count_at(row, column)
        if here is None:
            return None
        above, below = self.count_at(row - 1, column), self.count_at(row + 1, column)
        for at in range(row - 1, max(0, row - 1 - MOST_UP), -1):
            text = self.text(at, column)
            if text and (is_unit(text) or self.alone_in_its_row(at, column)):
                continue
            if text:
                of = counts(text)
                if of is None or (above is None and below is None and _says_how_many(text)):
                    return None
                return Head(str(here), of=of)
        rising = [b for b in (above, below) if b is not None]
        steps = all(0 < abs(here - b) <= 2 for b in rising)
        return Head(str(here)) if rising and steps and column == self._first_column(row) else None

    def alone_in_its_row(self, row: int, column: int) -> bool:
        """Whether a text stands alone between two numbers, as a remark between rows does."""
        if self.count_at(row - 1, column) is None or self.count_at(row + 1, column) is None:
            return False
        others = (c for c in range(1, self.last_column + 1) if c != column)
        return not any((row, c) in self.sheet.cells for c in others)

    def _first_column(self, row: int) -> int:
        return min((c for r, c in self.sheet.cells if r == row), default=0)

    def of_column(self, row: int, column: int, top: int = 0) -> Head:
        """What stands over a cell: cylinder, bank, place, stage and unit, from one or two rows.

        top: the row above which nothing belongs to the cell's table any more.
        """
        blank = False
        empty = (row, column) not in self.sheet.cells
        for at in range(row - 1, max(top, row - 1 - MOST_UP), -1):
            if at not in self.rows:
                blank = True
                continue
            head = self._over_column(at, column)
            if head is None and self._counts_across(at, column):
                head = Head(str(self.count_at(at, column)), of=self._row_counts(at, column))
            if head is None:
                if empty and self._counts_before(at, column):
                    return Head()  # A table with fewer columns than one further up.
                text = self.text(at, column)
                if text and not NUMBER_FIRST.match(text) and not self._is_remark(at, column):
                    return Head()
                continue
            if blank and not head.says_which and head.stage not in NO_SIZES:
                return Head()
            return self._with_outer(head, at, column, top)
        return Head()

    def _counts_before(self, row: int, column: int) -> bool:
        """Whether a row of cylinders or journals ends before a column."""
        if (row, column) in self.sheet.cells:
            return False
        at = column - 1
        while at > 0 and column - at < MOST_CYLINDERS and (row, at) not in self.sheet.cells:
            at -= 1
        if self._counts_across(row, at):
            return True
        head = self._over_column(row, at)
        return head is not None and bool(head.cylinder)

    def _row_counts(self, row: int, column: int) -> str:
        """What the nearest text before a row of numbers says that they number."""
        for at in range(column - 1, max(0, column - 1 - MOST_LEFT), -1):
            text = self.text(row, at)
            if text:
                return counts(text) or ""
        return ""

    def _with_outer(self, head: Head, row: int, column: int, top: int) -> Head:
        """A head with what the two rows over it add: a cylinder over heights, a bank over both."""
        for at in (row - 1, row - 2):
            if at <= top:
                break
            if at not in self.rows:
                break
            outer = self._over_column(at, column)
            if outer is None and self._counts_across(at, column):
                outer = Head(str(self.count_at(at, column)))
            if outer is not None and (outer.says_which or outer.stage):
                head = head.and_then(outer)
        if not head.bank:
            head = replace(head, bank=self._bank_over(row, column, top))
        return head

    def _bank_over(self, row: int, column: int, top: int) -> str:
        """The bank whose title stands over a block of columns without being merged over them."""
        for at in (row - 1, row - 2):
            if at <= top:
                break
            for left in range(column, max(0, column - 8), -1):
                outer = self._of_text(at, left)
                if outer is not None and outer.bank and not outer.cylinder:
                    return outer.bank
                if self.text(at, left) or (row, left) not in self.sheet.cells:
                    break
        return ""

    def of_row(self, row: int, column: int) -> Head:
        """What stands before a cell in its row: cylinder or journal, and where on it."""
        found = Head()
        for at in range(column - 1, max(0, column - 1 - MOST_LEFT), -1):
            head = self._of_text(row, at)
            if head is None and not self.text(row, at):
                head = self.counts_down(row, at)
            if head is not None:
                if head.unit:
                    continue
                found = found.and_then(head)
                if found.cylinder:
                    return found
            elif self.text(row, at) and not NUMBER_FIRST.match(self.text(row, at)):
                return found
        return found

    def _is_remark(self, row: int, column: int) -> bool:
        """Whether a text stands behind a value, or alone in its row under one."""
        if self._is_number(row, column - 1) or self._of_text(row, column) is not None:
            return True
        alone = not any((row, c) in self.sheet.cells for c in (column - 1, column + 1))
        return alone and self._is_number(row - 1, column)

"""Heads of rows and columns: which cylinder, where on it, which stage, which unit."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from workbook_tools.books.cells import Cell, Sheet
from workbook_tools.books.content import is_unit
from workbook_tools.books.vocabulary import Stage, Vocabulary, plain

MOST_LEFT, MOST_UP = 24, 60
MOST_CYLINDERS = 16

_NUMBERED = re.compile(
    r"(?P<what>cyl(?:inder)?|zyl(?:inder)?|journal|main|rod|pin|throw|lager|hauptlager|pleuel"
    r"|bearing|no|nr|#)"
    r"s?\.?\s*(?:no\.?|nr\.?)?\s*#?\s*(?P<number>\d{1,2})|#?\s*(?P<bare>\d{1,2})\.?"
    r"|(?P<side>[LRAB])[\s\-]?(?P<of>\d{1,2})|(?P<first>\d{1,2})[\s\-]?(?P<last>[LRAB])",
    re.IGNORECASE,
)
# How a typed value begins: a number, perhaps with a mark before it, and no ordinal ("2nd gap").
NUMBER_FIRST = re.compile(r"(?!\d+(?:st|nd|rd|th)\b)['~<>≈±+\-−]?\s*[.,]?\d", re.IGNORECASE)
_COUNTS = re.compile(
    r"(?:cyl(?:inder)?s?|zyl(?:inder)?|journals?|(?:main |rod )?bearings?|mains?|rods?|pins?"
    r"|throws?"
    r"|(?:haupt|pleuel)?lager|pleuel"
    r"|no|nr|#|position|pos)\.?\s*(?:no|nr|#|number)?\.?",
    re.IGNORECASE,
)
# Over a single number these say how many there are, and not which one it is.
_HOW_MANY = re.compile(r"(?:cyl(?:inder)?|zyl)s|zylinder", re.IGNORECASE)
_BANKS = {
    "left": "L", "left bank": "L", "bank left": "L", "lh": "L", "l": "L", "links": "L",
    "left side": "L", "driver side": "L", "bank a": "A", "a": "A", "bank 1": "1", "bank l": "L",
    "right": "R", "right bank": "R", "bank right": "R", "rh": "R", "r": "R", "rechts": "R",
    "right side": "R", "passenger side": "R", "bank b": "B", "bank 2": "2", "bank r": "R",
}  # fmt: skip
_WHERE = {
    "t": "top", "top": "top", "m": "middle", "mid": "middle", "middle": "middle",
    "center": "middle",
    "b": "bottom", "bottom": "bottom", "bot": "bottom", "oben": "top", "mitte": "middle",
    "unten": "bottom", "thrust": "thrust", "axial": "axial", "x": "thrust", "y": "axial",
    "front": "front", "rear": "rear", "upper": "upper", "lower": "lower",
    "high side": "high side", "low side": "low side",
    "quer": "thrust", "längs": "axial", "vertical": "vertical", "horizontal": "horizontal",
}  # fmt: skip


@dataclass(frozen=True)
class Head:
    """What the heads of a cell's row or column say; "" for what they do not say."""

    cylinder: str = ""
    bank: str = ""
    at: str = ""
    stage: Stage = ""
    unit: str = ""
    counts: str = ""

    @property
    def says_which(self) -> bool:
        """Whether it tells one of several readings from the others."""
        return bool(self.cylinder or self.bank or self.at)

    def counts_for(self, per: str) -> bool:
        """Whether its number can be one of these: a main's is no cylinder's."""
        if not self.cylinder or per in ("main", "rod"):
            return True
        return not re.fullmatch(r"(?:haupt)?(?:main|lager|journal|bearing)s?", self.counts.lower())

    def and_then(self, outer: Head) -> Head:
        """This head with what an outer one adds."""
        at = " ".join(dict.fromkeys(p for p in (outer.at, self.at) if p))
        return Head(
            self.cylinder or outer.cylinder,
            self.bank or outer.bank,
            at,
            self.stage or outer.stage,
            self.unit or outer.unit,
            self.counts or outer.counts,
        )


@lru_cache(maxsize=4096)
def read_head(text: str, vocabulary_stages: tuple[tuple[str, Stage], ...] = ()) -> Head | None:
    """A text as the head of a row or column, None where it is anything else."""
    even = text.strip(" :.").casefold()
    words = plain(text)
    found = _NUMBERED.fullmatch(even)
    if found:
        number = found["number"] or found["bare"] or found["of"] or found["first"]
        side = (found["side"] or found["last"] or "").upper()
        return Head(str(int(number)), side, counts=found["what"] or "")
    if words in _BANKS:
        # A lone B is a bottom as often as a bank: only with a word is it a bank.
        return Head(at="bottom") if words == "b" else Head(bank=_BANKS[words])
    parts = words.split()
    if parts and all(p in _WHERE for p in parts) and len(parts) <= 2:
        return Head(at=" ".join(_WHERE[p] for p in parts))
    if words in _WHERE:
        return Head(at=_WHERE[words])
    if is_unit(text):
        return Head(unit=text.strip())
    stage = dict(vocabulary_stages).get(words)
    if stage:
        bracket = re.search(r"[(\[]\s*([^()\[\]]+)\s*[)\]]", text)
        return Head(stage=stage, unit=bracket[1] if bracket and is_unit(bracket[1]) else "")
    return None


def counts_what(text: str) -> bool:
    """Whether a text heads a column of cylinder or journal numbers: "Cyl.", "No."."""
    return _COUNTS.fullmatch(text.strip(" :.")) is not None


class Heads:
    """The heads of one sheet's cells."""

    def __init__(self, sheet: Sheet, vocabulary: Vocabulary) -> None:
        self.sheet = sheet
        self.vocabulary = vocabulary
        self._stages = tuple(vocabulary.stages.items())
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
        return read_head(text, self._stages) if text else None

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
                match = self.vocabulary.match(plain(text))
                corner = self._of_text(row + 1, at) is not None
                return match is not None and match.term.name != "cylinder_count" and not corner
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
                how_many = (
                    _HOW_MANY.fullmatch(text.strip(" :.")) and above is None and below is None
                )
                return Head(str(here), counts=text) if counts_what(text) and not how_many else None
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
                head = Head(str(self.count_at(at, column)), counts=self._row_word(at, column))
            if head is None:
                if empty and self._counts_before(at, column):
                    return Head()  # A table with fewer columns than one further up.
                text = self.text(at, column)
                if text and not NUMBER_FIRST.match(text) and not self._is_remark(at, column):
                    return Head()
                continue
            if blank and not head.says_which and head.stage not in ("target", "computed"):
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

    def _row_word(self, row: int, column: int) -> str:
        for at in range(column - 1, max(0, column - 1 - MOST_LEFT), -1):
            text = self.text(row, at)
            if text:
                return text
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

"""Headings: what a block of a sheet is about, and when the sizes in it were taken."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from workbook_tools.books.cells import Cell, Sheet
from workbook_tools.labels.axes import NUMBER_FIRST, Heads, is_unit_cell, read_head
from workbook_tools.labels.cell_words import no_value
from workbook_tools.labels.vocabulary import Stage, Vocabulary, meaning_of, stage_of, unit_in
from workbook_tools.measurands.position import counts
from workbook_tools.measurands.tokens import tokens
from workbook_tools.measurands.words import Meaning
from workbook_tools.quantities import LENGTH, UnreadableText, unit_named

MOST_IN_HEADING = 50
# What a word that counts does not say: of which of the parts that are alike.
_ANY = ("", "cylinder", "bearing")
FILLED_IN = re.compile(
    r"^(?P<label>[^\W\d_][^:_]{1,40}?)\s*(?::|_{2,}|\.{3,})[\s_]*(?P<value>\S.*?)[\s_]*$"
)
_VALUE_WORDS = re.compile(
    r"(?:std|ft|flat\b.*|zero deck|flush|avg\b.*|l\.\d+|\.\d*[oO]\d+)", re.IGNORECASE
)


@dataclass(frozen=True)
class _Heading:
    row: int
    column: int
    text: str
    about: bool
    stage: Stage
    unit: str = ""
    counts: bool = False
    elsewhere: bool = False


class Headings:
    """The headings of one sheet: what its blocks are about, and when their sizes were taken."""

    def __init__(self, sheet: Sheet, vocabulary: Vocabulary, heads: Heads) -> None:
        self.sheet = sheet
        self.vocabulary = vocabulary
        self.heads = heads
        self._all = list(self._find())

    def _find(self) -> Iterator[_Heading]:
        """Texts that title a block: nothing to be read stands beside them."""
        for row, column, content in self.sheet.texts:
            text = " ".join(content.split())
            if len(text) > MOST_IN_HEADING or not self._titles(row, column, text):
                continue
            counted = counts(text) is not None
            before = self.heads.cell(row, column - 1)
            meaning = meaning_of(text)
            heading = _Heading(
                row,
                column,
                text,
                about=_is_about(text, meaning) and not (counted and counts(text) in _ANY),
                stage=_stage(meaning) if before is None or counted else "",
                # Without brackets it speaks of the whole book, and not only of its block.
                unit=unit_in(text) if text.endswith((")", "]")) else "",
                counts=counted,
                elsewhere=self.vocabulary.is_elsewhere(text),
            )
            if heading.about or heading.stage or heading.elsewhere or heading.unit:
                yield heading

    def _titles(self, row: int, column: int, text: str) -> bool:
        """Whether a text may title a block: no value, head or label of what stands beside it."""
        head = read_head(text)
        if (head and not head.stage) or FILLED_IN.match(text):
            return False
        if is_value(self.sheet.cells[row, column]):
            return False
        if self.vocabulary.job_field(self.heads.text(row, column - 1)):
            return False
        if self._only_a_label(row, column, text) and not self.heads.titles_a_table(row, column):
            return False
        _, right = self.sheet.merged.get((row, column), (row, column))
        counted = counts(text) is not None
        return not any(
            is_value(self.heads.cell(row, column))
            and not (counted and self.heads.count_at(row, column) is not None)
            for column in (right + 1, right + 2)
        )

    def _only_a_label(self, row: int, column: int, text: str) -> bool:
        """Whether a text names what stands right below it, or a property without a value."""
        match = self.vocabulary.match(text)
        if match is None or match.how == "proposal":
            return False
        below = is_value(self.heads.cell(row + 1, column)) and counts(text) is None
        return match.names_a_property or below

    def elsewhere(self, row: int, column: int) -> bool:
        """Whether the nearest heading over a cell says that numbers are counts and prices."""
        if not any(h.elsewhere for h in self._all):
            return False
        nearest = next(iter(self._over(row, column)), None)
        return nearest is not None and nearest.elsewhere

    def _over(self, row: int, column: int) -> list[_Heading]:
        """The headings over a cell, the nearest first; those of its own block before others."""
        left = column
        while left > 1 and any((r, left - 1) in self.sheet.cells for r in (row - 1, row, row + 1)):
            left -= 1
        over = [
            h
            for h in self._all
            if (h.column <= column and h.row < row)
            or (h.column < column and h.row == row and h.counts)
        ]
        return sorted(over, key=lambda h: (h.column < left, -h.row, -h.column))

    def over(self, row: int, column: int, near: bool = False) -> list[str]:
        """The nearest heading over a cell that is about a part, and the sheet's name.

        near: only a heading without an empty row before the cell, but for one behind it.
        """
        about = [h for h in self._over(row, column) if h.about]
        named = [h.text for h in about if not (near and self._parted(h.row, row))][:1]
        title = "" if near else self.sheet.title
        return [*named, *([title] if _is_about(title, meaning_of(title)) else [])]

    def unit_over(self, row: int, column: int) -> str:
        """The unit of length that the nearest heading over a label's block brings with it."""
        for heading in self._over(row, column):
            if self._parted(heading.row, row):
                continue
            try:
                of_length = bool(heading.unit) and unit_named(heading.unit)[0] is LENGTH
            except UnreadableText:
                of_length = False
            if of_length:
                return heading.unit
        return ""

    def _parted(self, top: int, bottom: int) -> bool:
        """Whether an empty row, other than the one behind a heading, lies between two rows."""
        return any(row not in self.heads.rows for row in range(top + 2, bottom))

    def stage_over(self, row: int, column: int) -> Stage:
        """The stage that a heading over a label or the sheet's name gives."""
        for heading in self._over(row, column):
            if heading.stage:
                return heading.stage
        return _stage(meaning_of(self.sheet.title))


def _is_about(text: str, meaning: Meaning) -> bool:
    """Whether a text names a part or a property, and not by a letter of a name or a unit."""
    if meaning.unit and not text.endswith((")", "]")):
        return False
    words = [t for t in tokens(text) if t.isalpha() and len(t) > 2 and t not in meaning.unknown]
    return len(words) > len(meaning.unknown) and bool(meaning.candidates or meaning.part)


def _stage(meaning: Meaning) -> Stage:
    """The stage that a heading gives its block; how good a number is it does not say."""
    stage = stage_of(meaning)
    if meaning.stage == "target":
        return stage if not meaning.unknown and not meaning.statistic else ""
    return stage if stage in ("found", "machined", "final") else ""


def is_value(cell: Cell | None) -> bool:
    """Whether a cell holds what can be read as a value, or says why there is none."""
    if cell is None:
        return False
    if cell.formula or not isinstance(cell.value, str):
        return True
    text = " ".join(cell.value.split())
    if is_unit_cell(text) and text not in ('"', "''"):
        return False
    if NUMBER_FIRST.match(text) or _VALUE_WORDS.fullmatch(text):
        return True
    return no_value(cell.value, text) is not None

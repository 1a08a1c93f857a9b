"""Headings: what a block of a sheet is about, and when the sizes in it were taken."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from workbook_tools.books.cell_words import no_value
from workbook_tools.books.cells import Cell, Sheet
from workbook_tools.books.content import is_unit
from workbook_tools.books.heads import NUMBER_FIRST, Heads, counts_what, read_head
from workbook_tools.books.vocabulary import Stage, Vocabulary, parse_label, plain
from workbook_tools.quantities import LENGTH, UnreadableText, unit_named

FILLED_IN = re.compile(
    r"^(?P<label>[^\W\d_][^:_]{1,40}?)\s*(?::|_{2,}|\.{3,})[\s_]*(?P<value>\S.*?)[\s_]*$"
)
_VALUE_WORDS = re.compile(
    r"(?:std|ft|flat\b.*|zero deck|flush|avg\b.*|l\.\d+|\.\d*[oO]\d+)", re.IGNORECASE
)
# Headings whose words say how good a number is are no stage of the work.
_NO_HEADING = {
    "spec", "specs", "specification", "std", "standard", "stock", "factory", "nominal", "low",
    "high", "min", "max", "minimum", "maximum", "total", "sum", "mean",
}  # fmt: skip


@dataclass(frozen=True)
class _Heading:
    row: int
    column: int
    subject: str
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
        self._stage_of_title = vocabulary.stage_of(sheet.title)
        self._all = list(self._find())

    def _find(self) -> Iterator[_Heading]:
        """Texts that title a block: nothing to be read stands beside them."""
        for row, column, content in self.sheet.texts:
            if len(content) > 50:
                continue
            text = " ".join(content.split())
            _, right = self.sheet.merged.get((row, column), (row, column))
            beside = [self.heads.cell(row, right + step) for step in (1, 2)]
            before = self.heads.cell(row, column - 1)
            if (
                is_value(self.sheet.cells[row, column])
                or is_unit(text)
                or read_head(text) is not None
            ):
                continue
            if FILLED_IN.match(text):
                continue
            if self._only_a_label(text) and not self.heads.titles_a_table(row, column):
                continue
            counted = counts_what(text)
            if not counted and any(is_value(b) for b in beside):
                continue
            subject = self.vocabulary.subject_of(text)
            stage = self.vocabulary.stage_of(text) if plain(text) not in _NO_HEADING else ""
            if before is not None and not counted:
                stage = ""
            if stage in ("target", "computed") and len(plain(text).split()) > 2:
                stage = ""  # A sentence that has such a word in it titles nothing.
            elsewhere = plain(text) in self.vocabulary.elsewhere
            # Without brackets it speaks of the whole book, and not only of its block.
            unit = parse_label(text).unit if text.endswith((")", "]")) else ""
            if subject or stage or elsewhere or unit:
                yield _Heading(row, column, subject, stage, unit, counted, elsewhere)

    def _only_a_label(self, text: str) -> bool:
        """Whether a text is a reading's label and no subject: "Gasket bore" without a value."""
        words = parse_label(text).words
        subjects = self.vocabulary.subjects.values()
        return words in self.vocabulary.by_word and not any(words in s for s in subjects)

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
            if h.column <= column and (h.row < row or (h.row == row and h.counts))
        ]
        return sorted(over, key=lambda h: (h.column < left, -h.row, -h.column))

    def subjects(self, row: int, column: int, near: bool) -> list[str]:
        """The subject of the nearest heading over a cell, else of the sheet's name.

        near: only of a heading without an empty row before the cell, but for one behind it.
        """
        named = [
            h.subject
            for h in self._over(row, column)
            if h.subject and not (near and self._parted(h.row, row))
        ]
        title = self.vocabulary.subject_of(self.sheet.title)
        return named[:1] or ([title] if title else [])

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
        return self._stage_of_title


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


def is_unit_cell(text: str) -> bool:
    """Whether a cell's text is a unit; a lone M is the middle of a bore, an L a bank."""
    return is_unit(text) and text.casefold() not in ("m", "l", "n", "k", "c", "f", "w")

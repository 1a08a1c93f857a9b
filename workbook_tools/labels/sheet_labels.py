"""The texts of a sheet that are labels, read below the headings over them."""

from __future__ import annotations

import re
from dataclasses import dataclass

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.axes import NUMBER_FIRST, Head, Heads, is_unit_cell, read_head
from workbook_tools.labels.sections import Headings, is_value
from workbook_tools.labels.vocabulary import MOST_LETTERS, Match, Vocabulary, meaning_of, plain
from workbook_tools.measurands.position import counts, parse
from workbook_tools.measurands.tokens import tokens
from workbook_tools.measurands.words import Meaning, says_which

# Parts whose number in the first column says of what the columns behind it are.
_NUMBERED_PARTS = ("main", "rod", "cam_bearing", "valve", "ring")


@dataclass(frozen=True)
class SheetLabel:
    """A label on the sheet with the cells it covers."""

    match: Match
    meaning: Meaning
    text: str
    top: int
    left: int
    bottom: int
    right: int

    @property
    def head(self) -> Head:
        """Which one the label itself says that its numbers are of."""
        meaning = self.meaning
        spelled = re.search(rf"\b{meaning.bank}\b", self.text) or any(
            len(word) > 1 and (where := parse(word)) and where.bank for word in tokens(self.text)
        )
        bank = meaning.bank if spelled or meaning.number else ""
        return Head(str(meaning.number or ""), bank, " ".join(meaning.at))


class SheetLabels:
    """The labels of one sheet, each read once."""

    def __init__(
        self, sheet: Sheet, vocabulary: Vocabulary, heads: Heads, headings: Headings
    ) -> None:
        self.sheet = sheet
        self.vocabulary = vocabulary
        self.heads = heads
        self.headings = headings
        self._labels: dict[tuple[int, int, str], SheetLabel | None] = {}

    def at(self, row: int, column: int, text: str) -> SheetLabel | None:
        """A text as a reading's label, None for any other text."""
        if len(text) > MOST_LETTERS or self.vocabulary.job_field(text):
            return None
        key = (row, column, text)
        if key not in self._labels:
            self._labels[key] = self._read_label(row, column, text)
        return self._labels[key]

    def _read_label(self, row: int, column: int, text: str) -> SheetLabel | None:
        """A text as a label below its headings; where these leave it open, as it stands alone."""
        alone = self.vocabulary.match(text)
        sure = alone is not None and alone.how != "proposal"
        before = self._before(row, column)
        near = sure and not says_which(text)
        over = [before] if before else self.headings.over(row, column, near)
        if alone is not None and alone.names_a_property:
            over = []
        below = self.vocabulary.match(text, over) if over else alone
        if alone is not None and sure and not _is_better_below(alone, below):
            over, below = [], alone
        bottom, right = self.sheet.merged.get((row, column), (row, column))
        meaning = meaning_of(text, over)
        if below is None or (alone is None and meaning.unknown):
            return None
        head = read_head(text)
        ring = below.term.of == "ring" and self._is_under_rings(over)
        if head and not ring and not self._names_alone(head, text, row, right + 1):
            return None
        return SheetLabel(below, meaning, text, row, column, bottom, right)

    def _before(self, row: int, column: int) -> str:
        """The label before one in its row that says of what it is: "Head gasket 0.039, bore 4.1".

        Before the head of a column that is the one over the numbers of what the row is about.
        """
        for at in range(column - 1, 0, -1):
            text = self.heads.text(row, at)
            if not text or NUMBER_FIRST.match(text) or is_unit_cell(text):
                continue
            if is_value(self.heads.cell(row, at + 1)) and not is_head(text):
                return text
            if counts(text) in _NUMBERED_PARTS:
                return text
        return ""

    def _names_alone(self, head: Head, text: str, row: int, column: int) -> bool:
        """Whether a numbered part names the number beside it: "Main #1 journal 2.4486".

        In a table the head of the column does.
        """
        words = [word for word in plain(text).split() if word.isalpha() and len(word) > 2]
        if head.of not in _NUMBERED_PARTS or len(words) < 2:
            return False
        while is_value(self.heads.cell(row, column)):
            row -= 1
        over = self.heads.text(row, column)
        return not over or self.vocabulary.match(over) is None

    def _is_under_rings(self, over: list[str]) -> bool:
        """Whether the headings over a place are about rings, so that it tells which: "top"."""
        matches = (self.vocabulary.match(heading) for heading in over)
        return any(match is not None and match.term.of == "ring" for match in matches)


def is_head(text: str) -> bool:
    """Whether a text says which one a number is of, or counts such."""
    return read_head(text) is not None or counts(text) is not None


def _is_better_below(alone: Match, below: Match | None) -> bool:
    """Whether a heading leaves less of a sure label to be assumed, or only changes the part."""
    if below is None or below.how == "proposal":
        return False
    if below.options and alone.options and below.options[0][1] < alone.options[0][1]:
        return True
    nouns = {alone.term.noun, below.term.noun}
    return len(nouns) == 1 or nouns <= {"diameter", "inside_diameter", "outside_diameter"}

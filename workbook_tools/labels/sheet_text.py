"""A sheet as the reader of labels sees it: the kind of each cell, and its text."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Collection, Hashable, Iterator, Mapping, Sequence
from functools import cached_property
from typing import Any, NamedTuple, TypeVar

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.blocks import Block, Marks, blocks
from workbook_tools.labels.cell_kinds import VALUES, At, CellKind, is_above_out, is_in, kinds_of
from workbook_tools.labels.cell_words import without_box
from workbook_tools.labels.letters import spelled_out
from workbook_tools.labels.margins import notes_in_margin
from workbook_tools.labels.vocabulary import Vocabulary, meaning_of
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.position import counts

# A number that counts, perhaps with a remark in brackets: "#2", "3.", "1°", "1 (flywheel)".
_COUNTED = re.compile(
    r"\s*#?\s*(\d{1,3})(?:\.|[°ºª]|st|nd|rd|th|er|re|e)?\s*(?:\([^\W\d][^()]*\)\s*)?"
)

# A longer text is no heading of all.
_MOST_WORDS = 4
# So many whole numbers that go on by one count.
_FEWEST_COUNTED = 3
# A larger merged range is a background, and no head of so many cells.
_MOST_MERGED = 4000


_Answer = TypeVar("_Answer")


class Asked(NamedTuple):
    """What is asked of a sheet's numbers, about which of its cells."""

    question: Callable[..., object]
    about: tuple[Hashable, ...]

    def answer(self, sheet: Sheet) -> object:
        """What a sheet answers."""
        return self.question(sheet, *self.about)


# What frames a title: "--- INTAKE ---", "*** MAINS ***".
_RULES = re.compile(r"^[-=*_~#.•·]{2,}\s*(?P<title>[^\W\d_].*?)\s*[-=*_~#.•·]{2,}$")


def _without_rules(text: str) -> str:
    told = _RULES.fullmatch(text)
    return told["title"] if told else text


class SheetText:
    """The cells of one sheet by kind and text, merged ranges filled.

    indexes: the numbers that only count rows or columns, as the reader finds them; aside: the
    cells below heads of remarks and prices; no_readings: those that the layout says are none;
    asked: all that was asked of numbers, on which what was read of the sheet depends, with the
    answers; prices: the numbers that totals add up, None as long as nobody looked; spelled_out:
    the texts that stand for a word of the sheet's language, as that word.
    """

    def __init__(self, sheet: Sheet, vocabulary: Vocabulary) -> None:
        self.sheet = sheet
        self.vocabulary = vocabulary
        self.kinds: Mapping[At, CellKind] = kinds_of(sheet)
        self.indexes: set[At] = set()
        self.aside: set[At] = set()
        self.no_readings: set[At] = set()
        self.asked: dict[Asked, Any] = {}
        self.prices: set[At] | None = None
        self._covered = _covered(sheet)
        self._texts = {
            at: text
            for at, cell in sheet.cells.items()
            if not cell.formula and isinstance(cell.value, str)
            if (text := _without_rules(without_box(" ".join(cell.value.split()))))
        }
        for at, text in self._texts.items():
            if is_in(text) and self.kinds[at] == "text" and not is_above_out(sheet, at):
                self._texts[at] = "Inlet"  # No inch, beside the exhaust.
        dates = [at for at, kind in self.kinds.items() if kind == "date"]
        dated = {at for r, c in dates for at in ((r - 1, c), (r, c - 1))}
        self.spelled_out = spelled_out(self._texts, dated)
        self._texts |= self.spelled_out
        ticks = [at for at in self.spelled_out if self.kinds.get(at) == "nothing"]
        self.kinds = {**self.kinds, **dict.fromkeys(ticks, "text")} if ticks else self.kinds
        self.notes = notes_in_margin(self._texts, self.kinds)
        self.blocks = self._blocks()

    def _blocks(self) -> list[Block]:
        """The blocks of the sheet.

        A size at the beginning of a row is no count that names it, and a count typed as a text
        is one; a head that only says which one leaves what is measured to the names of the rows.
        """
        kinds = {at: kind for at, kind in self.kinds.items() if at not in self.notes}
        told = set()
        for (row, column), kind in [*kinds.items()]:
            if kind == "number" and not _has_no_fraction(self.sheet, (row, column)):
                kinds[row, column] = "measured"
            elif kind == "measured" and is_whole(self.sheet, (row, column)):
                kinds[row, column] = "number"
            elif kind == "text" and self.kinds.get((row + 1, column)) in VALUES:
                told |= {(row, column)} if which_of(self.text(row, column)) is not None else set()
        counting = frozenset(at for at in self._texts if self._counts_down(at))
        notes = frozenset(at for at, text in self._texts.items() if _is_a_note(text)) - told
        begun = frozenset(self._counted_anew(counting))
        return blocks(kinds, Marks(frozenset(told), begun, counting, notes))

    def _counted_anew(self, heads: Collection[At]) -> Iterator[At]:
        """The heads of columns that count the rows as one further left does.

        Under the same head, or "no" behind a first column of cylinders in whatever order.
        """
        for row, column in heads:
            text = self._texts[row, column].casefold()
            before = [c for r, c in heads if r == row and c < column - 1]
            again = any(self._texts[row, c].casefold() == text for c in before)
            if again or (counts(text) == "" and self._counts_first(row, column)):
                yield row, column

    def _counts_first(self, row: int, column: int) -> bool:
        """Whether heads run on from one over numbers of parts up to a column behind others."""
        first = column
        while (row, first - 1) in self._texts:
            first -= 1
        part = counts(self._texts[row, first])
        numbers = ((row + n, first) for n in range(1, _FEWEST_COUNTED + 1))
        counted = all(is_whole(self.sheet, at) for at in numbers)
        return first < column - 1 and bool(part) and counted

    def _counts_down(self, at: At) -> bool:
        """Whether whole numbers below a text count: each is one more than the one above it."""
        row, column = at
        sheet = self.sheet
        first = whole_number(sheet, (row + 1, column))
        return first is not None and all(
            whole_number(sheet, (row + 1 + n, column)) == first + n
            for n in range(1, _FEWEST_COUNTED)
        )

    @cached_property
    def heading(self) -> str:
        """What stands over all of the sheet: its name, or its first text where that says more."""
        title = self.sheet.title
        if not self._texts or _says_what(title):
            return title
        first = min(self._texts)
        text = self._texts[first]
        alone = all(row != first[0] for row, column in self.kinds if column != first[1])
        short = len(text.split()) <= _MOST_WORDS and not any(map(str.isdigit, text))
        known = alone and short and first == min(self.kinds) and not self.is_job_field(*first)
        # When something was measured is said of the table below it only.
        return text if known and _says_what(text) and not meaning_of(text).stage else title

    @cached_property
    def rows_of_blocks(self) -> Mapping[int, list[tuple[int, ...]]]:
        """The filled columns of each row, block by block."""
        rows: dict[int, list[tuple[int, ...]]] = defaultdict(list)
        for block in self.blocks:
            for row, columns in block.rows.items():
                rows[row].append(columns)
        return rows

    @property
    def texts(self) -> Mapping[At, str]:
        """The typed texts of the sheet."""
        return self._texts

    def text(self, row: int, column: int) -> str:
        """The typed text that shows in a cell, "" for anything else."""
        at = row, column
        return self._texts.get(self._covered.get(at, at), "")

    def ask(self, question: Callable[..., _Answer], *about: Hashable) -> _Answer:
        """The answer of a function of the sheet and what it is asked about, noted as asked."""
        asked = Asked(question, about)
        if asked not in self.asked:
            self.asked[asked] = question(self.sheet, *about)
        answer: _Answer = self.asked[asked]
        return answer

    def whole_number(self, at: At) -> int | None:
        """A typed whole number below a thousand, else None; noted as asked."""
        return self.ask(whole_number, at)

    def is_whole(self, at: At) -> bool:
        """Whether a cell holds such a number, whichever it is; noted as asked."""
        return self.ask(is_whole, at)

    @cached_property
    def looks(self) -> Mapping[int, tuple[object, ...]]:
        """How the cells of each row look: columns, kinds, texts, formulas."""
        rows: dict[int, list[object]] = defaultdict(list)
        held = self.sheet.cells
        for at, kind in self.kinds.items():
            cell = held[at]
            look: object = cell.formula
            if not look and isinstance(cell.value, str):
                look = self.spelled_out.get(at) or cell.value
            rows[at[0]] += at[1], kind, look
            if at in self.sheet.struck:
                rows[at[0]].append("struck")
        return {row: tuple(looks) for row, looks in rows.items()}

    @cached_property
    def covered_looks(self) -> Mapping[int, tuple[object, ...]]:
        """How the covered cells of merged ranges look, by row: as the first cell of the range."""
        rows: dict[int, list[object]] = defaultdict(list)
        for (row, column), first in self._covered.items():
            rows[row] += column, first, self.kinds.get(first), self._texts.get(first)
        return {row: tuple(looks) for row, looks in rows.items()}

    def is_job_field(self, row: int, column: int) -> bool:
        """Whether a cell names a field of the job: its customer, its engine."""
        return bool(self.vocabulary.job_field(self.text(row, column)))

    def job_fields(self, row: int, columns: Sequence[int]) -> int:
        """How many cells of a row name a field of the job.

        Beside the word for a rebuild also those that can name something else: "apart", "running".
        """
        job = self.vocabulary.job
        texts = [self.text(row, column) for column in columns]
        if any(map(job.is_rebuilt, texts)):
            return sum(bool(job.labels(text)) for text in texts)
        return sum(bool(job.field(text)) for text in texts)

    def is_value(self, at: At) -> bool:
        """Whether a cell holds a number or what stands in its place."""
        return self.kinds.get(at) in (*VALUES, "nothing")

    def is_number(self, at: At) -> bool:
        """Whether a cell holds a number."""
        return self.kinds.get(at) in VALUES

    def is_covered(self, at: At) -> bool:
        """Whether a cell is one of a merged range, and not its first."""
        return at in self._covered

    def down_from(self, at: At) -> At:
        """The first cell of a range that is merged over several rows, any other as it is."""
        first = self._covered.get(at, at)
        return first if first[1] == at[1] else at


def _says_what(title: str) -> bool:
    """Whether all words of a title say what a sheet is about: a part, or when it was measured."""
    meaning = meaning_of(title)
    return bool(meaning.candidates or meaning.part or meaning.stage) and not meaning.unknown


def _is_a_note(text: str) -> bool:
    """Whether a text has more words than a label: "end play .005 ok", "guides are all new ones"."""
    if len(text.split()) + any(map(str.isdigit, text)) <= _MOST_WORDS:
        return False
    named = meaning_of(text).candidates[:1]
    return not named or named[0].cost > 1


def whole_number(sheet: Sheet, at: At) -> int | None:
    """A typed whole number below a thousand, else None."""
    cell = sheet.cells.get(at)
    value = cell.value if cell and not cell.formula else None
    if isinstance(value, float):
        if not value.is_integer():
            return None
        value = int(value)
    elif isinstance(value, str) and (found := _COUNTED.fullmatch(value)):
        value = int(found[1])
    good = isinstance(value, int) and not isinstance(value, bool) and 0 < value < 1000
    return value if good else None  # type: ignore[return-value]


def is_whole(sheet: Sheet, at: At) -> bool:
    """Whether a cell holds a typed whole number below a thousand."""
    return whole_number(sheet, at) is not None


def _has_no_fraction(sheet: Sheet, at: At) -> bool:
    value = sheet.cells[at].value
    return not isinstance(value, float) or value.is_integer()


def _covered(sheet: Sheet) -> dict[At, At]:
    """The first cell of the merged range that each cell stands in."""
    return {
        (r, c): (top, left)
        for (top, left), (bottom, right) in sheet.merged.items()
        if (bottom - top + 1) * (right - left + 1) <= _MOST_MERGED
        for r in range(top, bottom + 1)
        for c in range(left, right + 1)
        if (r, c) != (top, left)
    }

"""The numbers of columns that are prices and hours: a total adds them up, or their head says so."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterator, Sequence

from workbook_tools.labels.cell_kinds import VALUES, At
from workbook_tools.labels.sheet_text import SheetText, whole_number
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find
from workbook_tools.quantities import MASS

# A total is larger than sizes that happen to add up, and prices are exact to a cent.
_LEAST_TOTAL = 20
_CENT = 0.006
# So far below the last of its numbers a total may stand.
_ROWS_TO_A_TOTAL = 2
# Heads and their title stand in so many rows.
_ROWS_OF_HEADS = 3
# What is done, what it costs and how long it takes.
_FEWEST_HEADS = 3


def summed_once(cells: SheetText) -> Collection[At]:
    """The prices and hours of a sheet, with their totals; looked for once."""
    if cells.prices is None:
        cells.prices = summed(cells) | set(_below_heads_of_prices(cells))
    return cells.prices


def _below_heads_of_prices(cells: SheetText) -> Iterator[At]:
    """The numbers below the head of prices of a list, each behind what it is the price of.

    Such a list may stand beside anything.
    """
    for row, column in cells.texts:
        # Few texts stand over a number, which is quicker told than what they mean.
        over = cells.is_number((row + 1, column))
        if not over or not cells.vocabulary.is_priced(cells.text(row, column)):
            continue
        below = row + 1
        while cells.is_number((below, column)) and cells.text(below, column - 1):
            yield below, column
            below += 1
        yield from _of_a_price_list(cells, row, column)


def _of_a_price_list(cells: SheetText, row: int, column: int) -> Iterator[At]:
    """The numbers of a list whose heads are of prices and of nothing measured: "Each | Hrs"."""
    first = column
    while first > 1 and cells.text(row, first - 1):
        first -= 1
    heads = [cells.text(row, c) for c in range(first, column + 1)]
    meant = [meaning_of(head) for head in heads]
    # What is counted may be weighed in the same list.
    of_work = any(one.section in ("hours", "prices") for one in meant)
    if len(heads) < _FEWEST_HEADS or not of_work or any(one.candidates for one in meant):
        return
    below = row + 1
    while cells.text(below, first) and cells.is_number((below, column)):
        yield from ((below, c) for c in range(first + 1, column) if cells.is_number((below, c)))
        yield below, column
        below += 1


def summed(cells: SheetText) -> set[At]:
    """The numbers that a total below them adds up, with the total.

    A total beside the name of something measured is none: torques and lengths add up too.
    """
    columns: dict[int, list[At]] = defaultdict(list)
    for at, kind in cells.kinds.items():
        if kind in VALUES:
            columns[at[1]].append(at)
    return {
        at
        for column in columns.values()
        if any(_is_large(cells.sheet.cells[at].value) for at in column)
        for at in _summed_of(cells, column)
    }


def _is_large(value: object) -> bool:
    return isinstance(value, (int, float)) and value > _LEAST_TOTAL


def _summed_of(cells: SheetText, column: Sequence[At]) -> set[At]:
    found: set[At] = set()
    run: list[At] = []
    total, last = 0.0, 0
    for at in column:
        value = cells.sheet.cells[at].value
        if not isinstance(value, (int, float)) or at[0] > last + _ROWS_TO_A_TOTAL:
            run, total = [], 0.0
        if not isinstance(value, (int, float)):
            continue
        adds_up = len(run) >= 2 and abs(total - value) <= _CENT and value > _LEAST_TOTAL
        if adds_up and not _is_of_an_engine(cells, at, run[0]) and not _is_measured(cells, run):
            found |= {*run, at}
        run.append(at)
        total, last = total + value, at[0]
    return found


def _is_of_an_engine(cells: SheetText, at: At, first: At) -> bool:
    """Whether a sum and the first of its numbers stand where something is measured."""
    named = _is_named(cells, at) or _is_counted(cells, first)
    return named or _goes_on_counting(cells, at, first)


def _is_named(cells: SheetText, at: At) -> bool:
    """Whether a text before a number in its row names something measured."""
    texts = (cells.text(at[0], column) for column in range(1, at[1]))
    return any(text and meaning_of(text).candidates for text in texts)


def _is_measured(cells: SheetText, run: Sequence[At]) -> bool:
    """Whether numbers are masses, each in a row that is counted or named by a part.

    Four pistons and their total, or a piston, its pin, its rings and what they weigh together.
    """
    row, column = run[0]
    first = next((c for c in range(1, column) if (row, c) in cells.kinds), column)
    if first == column:
        return False
    numbers = [whole_number(cells.sheet, (r, first)) for r, _ in run]
    over = (cells.text(r, c) for r in range(row - _ROWS_OF_HEADS, row) for c in (first, column))
    weighed = any(map(_is_of_masses, filter(None, over)))
    counted = numbers == [*range(1, len(numbers) + 1)]
    named = sum(bool(meaning_of(cells.text(r, first)).part) for r, _ in run)
    return weighed and (counted or named * 2 > len(run))


def _is_of_masses(text: str) -> bool:
    """Whether a text says that something was weighed, or in grams."""
    meaning = meaning_of(text)
    terms = (find(one.measurand) for one in meaning.candidates[:1])
    return meaning.unit == MASS.name or any(t is not None and t.kind is MASS for t in terms)


def _goes_on_counting(cells: SheetText, at: At, first: At) -> bool:
    """Whether the rows of the numbers and their sum are counted through: no total has a number."""
    many = at[0] - first[0] + 1
    for column in range(1, at[1]):
        counted = [whole_number(cells.sheet, (first[0] + n, column)) for n in range(many)]
        if counted == [*range(1, many + 1)]:
            return True
    return False


def _is_counted(cells: SheetText, at: At) -> bool:
    """Whether the head over the first number of a column counts a part: no price is of "Cyl 2"."""
    said = which_of(cells.text(at[0] - 1, at[1]))
    return said is not None and bool(said.number and said.of)

"""What stands below a row that may be one of heads: values, names, sizes, products."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.block_titles import ReachedBlock
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.runs import is_firing_order, is_run
from workbook_tools.labels.several_sizes import placed_sizes
from workbook_tools.labels.sheet_text import whole_number
from workbook_tools.labels.titles import surely_measures
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.position import counts

# A list of steps has no size in its first ones.
_MOST_UNFILLED = 8
# Heads of more rows are none.
MOST_SUBHEADS = 3
_MANY_STEPS = 100
# So many rows tell that a column is so many times another, by no more than this in an engine.
_FEWEST_PRODUCTS, _MOST_TIMES = 4, 16
# So many ranges below a head are limits, whatever it is called.
_FEWEST_RANGES = 2
_A_RANGE = re.compile(r"\d*[.,]?\d+\s*(?:-|–|÷|to|bis)\s*\d*[.,]?\d+", re.IGNORECASE)


def days_over_sizes(reached: ReachedBlock, row: int) -> list[int]:
    """The columns headed by the days of their sizes: "Bore (mm) | 3 Feb | 19 Feb"."""
    first, *days = reached.block.rows[row]
    about = reached.cells.text(row, first)
    named = surely_measures(about) or (counts(about) is not None and bool(reached.titles))
    all_days = all(reached.cells.kinds[row, c] == "date" for c in days)
    below = all(reached.cells.is_number((row + 1, c)) for c in days)
    return days if len(days) > 1 and named and all_days and below else []


def over_names(reached: ReachedBlock, row: int) -> list[int]:
    """The columns of banks that stand over names, each with its values in the next column.

    "Left | | Right" over "front | 62.4 | front | 62.6".
    """
    told = [c for c in reached.block.rows[row] if c > reached.block.left]
    banks = [w.bank for c in told if (w := which_of(reached.cells.text(row, c))) and w.bank]
    over = all(
        (row, c + 1) not in reached.cells.kinds
        and reached.cells.kinds.get((row + 1, c)) == "text"
        and reached.cells.is_number((row + 1, c + 1))
        for c in told
    )
    return told if over and len(told) > 1 and len({*banks}) == len(told) else []


def is_named_below(reached: ReachedBlock, at: int, column: int) -> bool:
    """Whether the text below a row's first cell names something measured."""
    for row in reached.rows[at + 1 : at + 2]:
        text = reached.cells.text(row, column)
        if text:
            alone = which_of(text) is None and counts(text) is None
            return alone and bool(meaning_of(text).candidates)
    return False


def not_counted_below(reached: ReachedBlock, at: int, index: Sequence[int]) -> bool:
    """Whether what stands below an index is no index of its own."""
    if at + 1 >= len(reached.rows):
        return False
    below = tuple([(reached.rows[at + 1], c) for c in index])
    return not reached.cells.ask(_begins_to_count, below)


def first_values_below(reached: ReachedBlock, at: int, columns: Sequence[int]) -> set[int]:
    """The columns in which a value stands below, heads and units between left out."""
    found = set()
    for column in columns:
        looked = 0
        of_several = reached.rows[at] if _reaches_on(reached, reached.rows[at], column) else 0
        for row in reached.rows[at + 1 : at + 2 + _MOST_UNFILLED]:
            here = (row, column)
            if here not in reached.cells.kinds:
                continue
            looked += 1
            if looked > 1 + MOST_SUBHEADS:
                break
            text = reached.cells.text(row, column)
            if len(placed_sizes(text)) == 1:
                break  # "#2 75.8 cc" is headed by a title, if by anything.
            if reached.cells.is_value(here) or _A_RANGE.fullmatch(text):
                found.add(column)
                break
            is_head = text and (which_of(text) is not None or row == of_several + 1)
            if reached.cells.kinds[here] != "unit" and not is_head:
                break
    return found


def _reaches_on(reached: ReachedBlock, row: int, column: int) -> bool:
    """Whether a head is over several columns with heads of their own: merged, or left empty."""
    over = reached.cells.sheet.merged.get((row, column))
    if over is not None and over[1] > column:
        return True
    text = reached.cells.text(row, column)
    below = {reached.cells.kinds.get((row + 1, c)) for c in (column, column + 1)}
    alone = (row, column + 1) not in reached.cells.kinds and below == {"text"}
    alone = alone and len(reached.block.rows[row]) > 1
    said = which_of(text) if alone else None
    return alone and (bool(said.tells or said.stage) if said else surely_measures(text))


def stands_over_products(reached: ReachedBlock, row: int) -> bool:
    """Whether three texts stand over numbers of which the third are so many times the first."""
    below = tuple(r for r in reached.rows if r > row)
    texts = [c for c in reached.block.rows[row] if reached.cells.text(row, c)]
    firsts = [c for c in texts[1:] if {c + 1, c + 2} <= {*texts}]
    return any(reached.cells.ask(are_products, below, first) for first in firsts)


def is_size(reached: ReachedBlock, row: int, column: int) -> bool:
    """Whether a cell holds a number that does not only count."""
    return reached.cells.is_number((row, column)) and not reached.cells.is_whole((row, column))


def is_over_ranges(reached: ReachedBlock, text: str, row: int, column: int) -> bool:
    """Whether a head that names nothing stands over ranges: what it says are limits."""
    if which_of(text) is not None or surely_measures(text):
        return False
    below = [reached.cells.text(r, column) for r in reached.rows if r > row]
    held = [t for t in below if t]
    ranges = [t for t in held if _A_RANGE.match(t)]
    return len(ranges) >= _FEWEST_RANGES and len(ranges) * 2 > len(held)


def in_parts(reached: ReachedBlock, head: re.Match[str], row: int, column: int) -> str:
    """A head with the size that the numbers below it are so many of marked as such."""
    below = tuple(r for r in reached.rows if r > row and reached.cells.is_value((r, column)))
    step = float(head["step"].replace(",", "."))
    many = reached.cells.ask(_are_many_steps, below, column, step)
    if many:
        reached.cells.indexes.add((row, column))  # It says no size of its own.
    return f"{head['name']} ({head['step']})" if many else head[0]


def _begins_to_count(sheet: Sheet, cells: tuple[At, ...]) -> bool:
    """Whether numbers count from the first or second on, and are in no firing order."""
    whole = [whole_number(sheet, at) for at in cells]
    return is_run(whole) and whole[0] in (1, 2) and not is_firing_order(whole)


def _are_many_steps(sheet: Sheet, rows: tuple[int, ...], column: int, step: float) -> bool:
    """Whether most numbers of a column are many times a step."""
    numbers = [sheet.cells[row, column].value for row in rows]
    many = [n for n in numbers if isinstance(n, (int, float)) and abs(n) >= _MANY_STEPS * step]
    return len(many) * 2 > len(numbers)


def are_products(sheet: Sheet, rows: tuple[int, ...], first: int) -> bool:
    """Whether numbers of a column times a small whole one behind each are the next behind.

    One may be mistyped.
    """
    held = [[sheet.cells.get((row, c)) for c in (first, first + 1, first + 2)] for row in rows]
    values = [[c.value for c in three if c and isinstance(c.value, (int, float))] for three in held]
    full = [three for three in values if len(three) == len(held[0])]
    whole = all(float(n).is_integer() and 0 < n <= _MOST_TIMES for _, n, _ in full)
    told = whole and len({n for _, n, _ in full}) > 1 and len(full) >= _FEWEST_PRODUCTS
    right = sum(math.isclose(one * n, all_, rel_tol=1e-3) for one, n, all_ in full)
    return told and right >= len(full) - 1

"""Lines of typed numbers that are the differences of two lines above them, whatever their words."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import permutations
from typing import NamedTuple

from workbook_tools.labels.arithmetic import OfTwo
from workbook_tools.labels.line import Line
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot

# So many differences are no chance, one of which may be wrong.
_FEWEST, _MOST_WRONG = 3, 1
# Two sizes and their difference stand so many rows apart at most.
_FARTHEST = 4
# Typed differences are rounded as their sizes are.
_HALF = 0.51


class _Row(NamedTuple):
    """A line that stands in one row: its number, the row, and its numbers by column."""

    line: int
    row: int
    numbers: Mapping[int, float]


def typed_differences(
    found: Sequence[tuple[SheetText, Sequence[Spot], Line]],
) -> Mapping[int, OfTwo]:
    """The lines without a meaning whose numbers are what two lines above them leave.

    found: each line with its sheet and its spots. "Leaves | 0.055 | 0.058 | 0.055" below the
    journals and the bearings of rods is their clearance.
    """
    rows: dict[str, list[_Row]] = defaultdict(list)
    for number, (cells, spots, line) in enumerate(found):
        if (row := _in_one_row(number, spots, line)) is not None:
            rows[cells.sheet.title].append(row)
    return {
        row.line: of_two
        for of_sheet in rows.values()
        for row in of_sheet
        if not found[row.line][2].options and len(row.numbers) >= _FEWEST
        for of_two in _leave(row, of_sheet, found)
    }


def _in_one_row(number: int, spots: Sequence[Spot], line: Line) -> _Row | None:
    """A line of typed sizes that stand side by side, None for any other."""
    if len(line.typed) != len(line.values) or len(spots) < _FEWEST or line.over is not None:
        return None
    if any(spot.inline for spot in spots) or len({spot.row for spot in spots}) > 1:
        return None
    held = [spot for spot in spots if any(spot.which_one == w for w, _ in line.values)]
    if len(held) != len(line.values):
        return None
    numbers = {s.column: n for s, (_, n) in zip(held, line.values, strict=True)}
    return _Row(number, spots[0].row, numbers)


def _leave(
    row: _Row, others: Sequence[_Row], found: Sequence[tuple[SheetText, Sequence[Spot], Line]]
) -> Iterator[OfTwo]:
    near = [
        other
        for other in others
        if 0 < row.row - other.row <= _FARTHEST
        and found[other.line][2].options
        and row.numbers.keys() <= other.numbers.keys()
    ]
    least = _HALF * 10 ** -min(found[row.line][2].decimals, 6)
    for one, other in permutations(near, 2):
        wrong = sum(
            abs(one.numbers[c] - other.numbers[c] - size) > least for c, size in row.numbers.items()
        )
        if wrong <= _MOST_WRONG and len(row.numbers) - wrong >= _FEWEST:
            yield OfTwo(one.line, other.line, "-", typed=True)
            return

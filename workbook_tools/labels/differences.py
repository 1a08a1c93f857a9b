"""Lines of typed numbers that are what two lines before them leave, whatever their words."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import islice, permutations
from typing import NamedTuple

from workbook_tools.labels.arithmetic import OfTwo
from workbook_tools.labels.line import Line
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot

# So many differences are no chance, one of which may be wrong.
_FEWEST, _MOST_WRONG = 3, 1
# Two sizes and their difference stand so many rows or columns apart at most.
_FARTHEST = 4
# Typed differences are rounded as their sizes are, and stand in hundredths or thousandths too.
_HALF, _SCALES = 0.51, (1.0, 1e-3, 1e-2)
# A difference that is rounded to more of itself shows nothing.
_ROUGHEST = 0.1
_Found = Sequence[tuple[SheetText, Sequence[Spot], Line]]


class _Straight(NamedTuple):
    """A line in one row or column: its number, which row or column, and its numbers along it."""

    line: int
    at: int
    numbers: Mapping[int, float]


def typed_differences(found: _Found) -> Mapping[int, OfTwo]:
    """The lines whose numbers are what two lines before them leave.

    found: each line with its sheet and its spots. "Leaves | 0.055 | 0.058 | 0.055" below the
    journals and the bearings of rods is their clearance.
    """
    straight: dict[tuple[str, str], list[_Straight]] = defaultdict(list)
    for number, (cells, spots, line) in enumerate(found):
        for way, one in _straight(number, spots, line):
            straight[cells.sheet.title, way].append(one)
    return {
        one.line: of_two
        for alike in straight.values()
        for one in alike
        if len(one.numbers) >= _FEWEST and _may_be_left(found[one.line][2])
        for of_two in _leave(one, alike, found)
    }


def _straight(number: int, spots: Sequence[Spot], line: Line) -> Iterator[tuple[str, _Straight]]:
    """A line of typed sizes that stand in one row or column, nothing for any other."""
    if len(line.typed) != len(line.values) or len(spots) < _FEWEST or line.over is not None:
        return
    told_of = {w for w, _ in line.values}
    held = [spot for spot in spots if spot.which_one in told_of]
    if any(spot.inline for spot in spots) or len(held) != len(line.values):
        return
    told = [(s, n) for s, (_, n) in zip(held, line.values, strict=True)]
    if len({spot.row for spot in spots}) == 1:
        yield "row", _Straight(number, spots[0].row, {s.column: n for s, n in told})
    elif len({spot.column for spot in spots}) == 1:
        yield "column", _Straight(number, spots[0].column, {s.row: n for s, n in told})


def _may_be_left(line: Line) -> bool:
    """Whether a line may be a difference, for all that its words say."""
    return not line.options or any(
        order.is_difference for option in line.options for order in option.term.orders
    )


def _leave(one: _Straight, others: Sequence[_Straight], found: _Found) -> Iterator[OfTwo]:
    near = [
        other
        for other in others
        if 0 < one.at - other.at <= _FARTHEST and one.numbers.keys() <= other.numbers.keys()
    ]
    rounded = _HALF * 10 ** -min(found[one.line][2].decimals, 6)
    if rounded > _ROUGHEST * max(map(abs, one.numbers.values())):
        return
    for first, second in permutations(near, 2):
        if not _may_be_two(one, first, second, rounded):
            continue
        if any(_is_left(one, first, second, scale, rounded * scale) for scale in _SCALES):
            yield OfTwo(first.line, second.line, "-", typed=True)
            return


def _may_be_two(one: _Straight, first: _Straight, second: _Straight, rounded: float) -> bool:
    """Whether the first numbers of a line are left on any scale but so many as may be wrong.

    Most lines next to one another have nothing to do with each other, and are told by these.
    """
    for at, size in islice(one.numbers.items(), _MOST_WRONG + 1):
        left = first.numbers[at] - second.numbers[at]
        for scale in _SCALES:
            if abs(left - size * scale) <= rounded * scale:
                return True
    return False


def _is_left(
    one: _Straight, first: _Straight, second: _Straight, scale: float, least: float
) -> bool:
    """Whether numbers are what the second leaves of the first, all but one that may be wrong."""
    wrong = 0
    for at, size in one.numbers.items():
        if abs(first.numbers[at] - second.numbers[at] - size * scale) > least:
            wrong += 1
            if wrong > _MOST_WRONG:
                return False
    return len(one.numbers) - wrong >= _FEWEST

"""What sizes say of each other: meanings that break the table's order of two measurands."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from statistics import median_low

from workbook_tools.labels.line import Line
from workbook_tools.labels.sizes import si_factor
from workbook_tools.labels.vocabulary import NO_SIZES
from workbook_tools.labels.weights import weights
from workbook_tools.measurands import find
from workbook_tools.measurands.order import Order
from workbook_tools.measurands.table import all_measurands
from workbook_tools.quantities import System


def out_of_order(
    lines: Sequence[Line], sums: Sequence[Mapping[str, int]], system: System | None
) -> Iterator[tuple[int, str, str]]:
    """(line, meaning, why) where the sizes of another line speak against a meaning.

    sums: the weight of each meaning of each line so far. Only what a line is for sure speaks
    against what another may be, and only where another meaning of that one is in order with it.
    """
    sure = _sure(lines, sums, system)
    for number, line in enumerate(lines) if sure else ():
        if len(sums[number]) < 2 or not line.values or line.stage in NO_SIZES:
            continue
        held: set[str] = set()
        broken: dict[str, list[tuple[str, str]]] = defaultdict(list)
        for name in sums[number]:
            for other, order, first in _orders().get(name, ()):
                if number in sure.get(other, (number,)):
                    continue
                if (mine := _median(line, name, system)) is None:
                    continue
                theirs = median_low(sorted(sure[other].values()))
                if not _breaks(order, *((mine, theirs) if first else (theirs, mine))):
                    held.add(other)
                else:
                    broken[other].append((name, _in_words(name, other, order, first)))
        told = {name: why for other in held for name, why in broken[other]}
        yield from ((number, name, why) for name, why in told.items())


def _sure(
    lines: Sequence[Line], sums: Sequence[Mapping[str, int]], system: System | None
) -> dict[str, dict[int, float]]:
    """The lines that leave no doubt, by what they measure: {measurand: {line: size in SI}}."""
    needs = weights().choice
    found: dict[str, dict[int, float]] = defaultdict(dict)
    for number, line in enumerate(lines):
        if line.stage in NO_SIZES or not line.values or not sums[number]:
            continue
        (name, best), *others = sorted(sums[number].items(), key=lambda one: -one[1])
        if name not in _orders() or best < needs.to_read + needs.ahead_of_alike:
            continue
        if others and best - others[0][1] < needs.ahead:
            continue
        size = _median(line, name, system)
        if size is not None:
            found[name][number] = size
    return found


def _median(line: Line, name: str, system: System | None) -> float | None:
    """The size in the middle of a line as a measurand, in SI."""
    term = find(name)
    factor = si_factor(term, line.unit, line.system or system) if term else None
    return None if factor is None else median_low(sorted(line.sizes)) * factor


# By measurand: the other one of a rule, the rule, and whether the measurand is the first of it.
_Rules = Mapping[str, Sequence[tuple[str, Order, bool]]]


@cache
def _orders() -> _Rules:
    found: dict[str, list[tuple[str, Order, bool]]] = defaultdict(list)
    for one in all_measurands():
        for order in one.orders:
            if order.relation != "=" and find(order.other) is not None:
                found[one.id].append((order.other, order, True))
                found[order.other].append((one.id, order, False))
    return found


def _breaks(order: Order, one: float, other: float) -> bool:
    """Whether two sizes are far from their order: by more than any slip in the last digits."""
    by = weights().orders.far
    if order.relation == "/":
        return other > 0 and not order.low / by <= one / other <= order.high * by
    less, more = (one, other) if order.relation == "<" else (other, one)
    return less > more * by


def _in_words(name: str, other: str, order: Order, first: bool) -> str:
    mine, theirs = find(name), find(other)
    assert mine is not None
    assert theirs is not None
    a, b = (mine.name, theirs.name) if first else (theirs.name, mine.name)
    if order.relation == "/":
        return f"{a} is {order.low:g} to {order.high:g} times {b}:"
    return f"{a} is {'below' if order.relation == '<' else 'above'} {b}:"

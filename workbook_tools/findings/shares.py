"""Numbers that go by a size of their engine, and are far from what is usual for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from workbook_tools.findings.evidence import Evidence, Size, near
from workbook_tools.findings.finding import MORE, Finding, shown
from workbook_tools.findings.relations import behind
from workbook_tools.measurands import Measurand, find
from workbook_tools.measurands.order import Order
from workbook_tools.measurands.table import beside


def check_shares(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each line whose numbers are no usual share of what they go by.

    The shares are those of the table of measurands: a ring gap by its bore, a clearance by its
    journal. What was found is worn, and may be anything.
    """
    for name in dict.fromkeys(s.measurand for s in evidence.sizes):
        one = find(name)
        for order in one.orders if one is not None else ():
            if one is not None and order.relation == "/":
                yield from _outside(evidence, one, order)


def _outside(evidence: Evidence, one: Measurand, order: Order) -> Iterator[Finding]:
    others = [s for m in beside(order.other, one) for s in evidence.finished(m.id)]
    for size in evidence.of(one.id):
        if size.stage == "found" or size.place in evidence.judged or size.si <= 0:
            continue
        other = _of_the_same(size, near(others, size.place.sheet))
        if other is None or order.low <= size.si / other.si <= order.high:
            continue
        yield _finding(evidence, one, order, size, other)


def _of_the_same(size: Size, others: Sequence[Size]) -> Size | None:
    """The size of the same part, any of those that are alike where there is none."""
    others = [s for s in others if s.place != size.place and _is_usual(s)]
    same = [s for s in others if s.part.number == size.part.number and size.part.number]
    if same:
        return same[0]
    alike = others and max(s.si for s in others) <= _ALIKE * min(s.si for s in others)
    return others[0] if alike else None


def _is_usual(size: Size) -> bool:
    """Whether a size can be gone by."""
    one = find(size.measurand)
    return one is not None and size.si > 0 and one.is_usual(size.si)


# As much may sizes of one engine differ, for any of them to stand for all.
_ALIKE = 1.02


def _finding(evidence: Evidence, one: Measurand, order: Order, size: Size, other: Size) -> Finding:
    share = size.si / other.si
    side, limit = ("below", order.low) if share < order.low else ("above", order.high)
    here = frozenset({size.place})
    text = size.label.text if size.label else size.place.address
    by = find(other.measurand)
    unusual = (
        f"{share:.2g} of the {by.name.lower() if by else 'size'}, "
        f"{shown(other.number, other.unit)}: far {side} what is usual ({side} {limit:g} of it; "
        f"{one.ranges})."
    )
    return Finding(
        "unusual-share",
        size.place,
        f"{size.name} is {size.shown}{MORE}, {unusual}",
        "Check its decimal point and its unit, and measure again.",
        behind(evidence, size.place),
        group=("share", size.place.sheet, text, one.id),
        explains=here,
        rests_on=here,
        aside=f"{size.shown} is {unusual}",
    )

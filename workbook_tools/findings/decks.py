"""Deck clearances with the sign turned: against their siblings, against the stack of sizes."""

from __future__ import annotations

import statistics
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from workbook_tools.findings.evidence import Evidence, Size
from workbook_tools.findings.finding import Finding, shown
from workbook_tools.findings.turned import SIGN_ADVICE, both_readings
from workbook_tools.formulas.references import Place
from workbook_tools.measurands import find
from workbook_tools.measurands.order import evaluate
from workbook_tools.quantities import LENGTH, from_si, to_si

# Below this (SI), a deck clearance may have either sign from one cylinder to the next.
_LEAST = 0.003 * 0.0254
# One deck is turned only where it lies so many of the others' ranges from the nearest of them.
_RANGES_APART = 2.0


class _Stack(NamedTuple):
    """The deck clearance that the sizes of block, crank, rod and piston come to; si: in SI."""

    place: Place
    shown: str
    si: float


def check_decks(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each deck, and for all of them together, that goes the other way."""
    calls = evidence.calls("DECK_CLEARANCE")
    stacks = [
        _Stack(r.place, shown(float(f"{v:.4g}"), r.unit), to_si(v, LENGTH, r.system))
        for r, v in calls
    ] or list(_of_sizes(evidence))
    calculated = {r.place for r, _ in calls}
    decks = [d for d in evidence.of("deck_clearance") if d.place not in calculated]
    # Several stacks are of several cylinders or plans; only one can stand for all.
    yield from _one_turned(decks, stacks if len(stacks) == 1 else [])
    if stacks and decks:
        yield from _all_turned(decks, stacks[0])


def _of_sizes(evidence: Evidence) -> Iterator[_Stack]:
    """The stack of a book that has each size once and no call for it."""
    measurand = find("deck_clearance")
    for order in measurand.orders if measurand else ():
        sizes = {name: evidence.finished(name) for name in order.names}
        if order.relation == "=" and all(len(found) == 1 for found in sizes.values()):
            value = evaluate(order.formula, {name: found[0].si for name, found in sizes.items()})
            first = next(iter(sizes.values()))[0]
            comes = float(f"{from_si(value, LENGTH, first.system):.4g}")
            yield _Stack(Place(first.place.sheet, ""), shown(comes, first.unit), value)


def _one_turned(decks: Sequence[Size], stack: Sequence[_Stack]) -> Iterator[Finding]:
    """One deck that is as far the other way as its siblings and the stack of sizes are."""
    groups: dict[tuple[str, str], list[Size]] = {}
    for deck in decks:
        if deck.label is not None and deck.typed:
            groups.setdefault((deck.place.sheet, deck.label.text.casefold()), []).append(deck)
    by_sizes = [s.si for s in stack]
    for group in groups.values():
        turned = [
            d for d in group if _is_turned(d.si, [o.si for o in group if o is not d], by_sizes)
        ]
        # Where a third of a row is out of line, only the sizes say which part of it is wrong.
        if len(turned) * 3 <= len(group) or (len(turned) == 1 and stack):
            yield from (_finding(deck, group, stack) for deck in turned)


def _is_turned(value: float, siblings: Sequence[float], stack: Sequence[float]) -> bool:
    """Whether a deck lies among the others with the other sign, and far from them with its own."""
    sizes = [abs(v) for v in (*siblings, *stack)]
    if not siblings or len(sizes) < 2 or abs(value) < _LEAST:
        return False
    if any(v * value >= 0 for v in (*siblings, *stack)):
        return False
    least, most = min(sizes), max(sizes)
    return (
        least >= statistics.median(sizes) / 2
        and least / 2 <= abs(value) <= most * 2
        and abs(value) + least >= max(2 * _LEAST, _RANGES_APART * (most - least))
    )


def _finding(deck: Size, group: Sequence[Size], stack: Sequence[_Stack]) -> Finding:
    others = [d for d in group if d is not deck]
    numbers = [from_si(d.si, LENGTH, deck.system) for d in others]
    low, high = f"{min(numbers):.4g}", f"{max(numbers):.4g}"
    among = low if low == high else f"{low} to {high}"
    with_stack = ", as the sizes of block, crank, rod and piston do" if stack else ""
    return Finding(
        "deck-sign",
        deck.place,
        f"{deck.name} is {deck.shown}; its siblings say {among} {deck.unit}{with_stack}: about "
        f"as much, the other "
        f"way{both_readings(deck.call, 'deck_clearance')}.",
        SIGN_ADVICE,
        tuple(d.place for d in others),
        rests_on=frozenset({deck.place}),
    )


def _all_turned(decks: Sequence[Size], stack: _Stack) -> Iterator[Finding]:
    """Deck clearances measured one way and calculated from the sizes the other way."""
    mean = statistics.fmean(d.si for d in decks)
    apart = abs(stack.si - mean)
    spread = max(d.si for d in decks) - min(d.si for d in decks)
    if apart < _LEAST or spread > apart / 2 or stack.si * mean > 0:
        return
    if abs(stack.si + mean) > 0.5 * min(abs(stack.si), abs(mean)):
        return
    deck = decks[0]
    where = f" in {stack.place.address}" if stack.place.address else ""
    cells = (stack.place, *(d.place for d in decks[1:]))
    yield Finding(
        "deck-sign",
        deck.place,
        f"{deck.name} is {deck.shown}, but the sizes of block, crank, rod and piston give "
        f"{stack.shown}{where}: as much, the other "
        f"way{both_readings(deck.call, 'deck_clearance')}.",
        SIGN_ADVICE,
        tuple(p for p in cells if p.address),
        rests_on=frozenset({deck.place}),
    )

"""Deck clearances with the sign turned: against their siblings, against the stack of sizes."""

from __future__ import annotations

import statistics
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from workbook_tools.books.records import Argument, Book, Place, Record
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.measured import (
    in_si,
    named,
    number_of,
    parameter_of,
    shown,
    system_of,
)
from workbook_tools.findings.siblings import find_slips
from workbook_tools.findings.signs import ADVICE, both_readings, sign_doubts
from workbook_tools.quantities import LENGTH, from_si

# Below this (SI), a deck clearance may have either sign from one cylinder to the next.
_LEAST = 0.003 * 0.0254
# One deck is turned only where it lies so many of the others' ranges from the nearest of them.
_RANGES_APART = 2.0


@dataclass(frozen=True)
class _Deck:
    """A deck clearance as a call takes it; value in SI."""

    record: Record
    argument: Argument
    place: Place
    value: float


def check_decks(book: Book) -> Iterator[Finding]:
    """A finding for each deck, and for all of them together, that goes the other way."""
    if any(d.argument.name == "deck_clearance" for d in sign_doubts(book)):
        return
    calculated = [
        (r, in_si(float(r.value), LENGTH, system_of(r)))
        for r in book.records
        if r.function is not None
        and r.function.name == "DECK_CLEARANCE"
        and isinstance(r.value, (int, float))
    ]
    decks = _decks(book, {r.place for r, _ in calculated})
    # Several stacks are of several cylinders or plans; only one can stand for all.
    one = [v for _, v in calculated] if len(calculated) == 1 else []
    told = {s.reading.place for s in find_slips(book)}
    yield from (f for f in _one_turned(decks, one) if f.place not in told)
    if calculated and decks:
        yield from _all_turned(decks, *calculated[0])


def _decks(book: Book, stacks: set[Place]) -> list[_Deck]:
    """The measured deck clearances, each cell once."""
    found: dict[Place, _Deck] = {}
    for record in book.records:
        for argument in record.arguments:
            place = argument.place
            if argument.name != "deck_clearance" or place is None or place in stacks:
                continue
            parameter = parameter_of(record, argument)
            value = number_of(argument, parameter.kind, system_of(record)) if parameter else None
            if value is not None and place not in found:
                si = in_si(value, LENGTH, system_of(record))
                found[place] = _Deck(record, argument, place, si)
    return list(found.values())


def _one_turned(decks: Sequence[_Deck], stack: Sequence[float]) -> Iterator[Finding]:
    """One deck that is as far the other way as its siblings and the stack of sizes are."""
    groups: dict[tuple[str, str], list[_Deck]] = {}
    for deck in decks:
        label = deck.argument.label
        if label is not None and not deck.argument.formula:
            groups.setdefault((deck.place.sheet, label.text.casefold()), []).append(deck)
    for group in groups.values():
        turned = [
            deck
            for deck in group
            if _is_turned(deck.value, [d.value for d in group if d is not deck], stack)
        ]
        # Where a third of a row is out of line, only the sizes say which part of it is wrong.
        if len(turned) * 3 <= len(group) or (len(turned) == 1 and stack):
            yield from (_finding(deck, group, bool(stack)) for deck in turned)


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


def _finding(deck: _Deck, group: Sequence[_Deck], with_stack: bool) -> Finding:
    system = system_of(deck.record)
    numbers = [from_si(d.value, LENGTH, system) for d in group if d is not deck]
    low, high = f"{min(numbers):.4g}", f"{max(numbers):.4g}"
    among = low if low == high else f"{low} to {high}"
    stack = ", as the sizes of block, crank, rod and piston do" if with_stack else ""
    own = float(f"{from_si(deck.value, LENGTH, system):.4g}")
    return Finding(
        "disagreement",
        deck.place,
        f"{named(deck.argument.label, deck.place)} is {shown(own, deck.argument.unit)}; its "
        f"siblings say {among} {deck.argument.unit}{stack}: about as much, the other "
        f"way{both_readings(deck.record, deck.argument.name)}.",
        ADVICE,
    )


def _all_turned(decks: Sequence[_Deck], source: Record, stack: float) -> Iterator[Finding]:
    """Deck clearances measured one way and calculated from the sizes the other way."""
    mean = statistics.fmean(d.value for d in decks)
    if min(abs(stack), abs(mean)) < _LEAST or stack * mean > 0:
        return
    if abs(stack + mean) > 0.5 * min(abs(stack), abs(mean)):
        return
    deck = decks[0]
    own = float(f"{from_si(deck.value, LENGTH, system_of(deck.record)):.10g}")
    yield Finding(
        "disagreement",
        deck.place,
        f"{named(deck.argument.label, deck.place)} is {shown(own, deck.argument.unit)}, but the "
        f"sizes of block, crank, rod and piston give "
        f"{shown(float(f'{source.value:.4g}'), source.unit)} in {source.place.address}: as much, "
        f"the other way{both_readings(deck.record, deck.argument.name)}.",
        ADVICE,
    )

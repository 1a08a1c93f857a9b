"""Rounded before subtracting: a clearance from sizes that have lost their last digit."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cache

from workbook_tools.findings.evidence import (
    Evidence,
    measurands_of,
    parameter_of,
)
from workbook_tools.findings.finding import Finding, call_of, named, shown
from workbook_tools.jobs.records import Argument, Reading, Record
from workbook_tools.measurands import all_measurands
from workbook_tools.quantities import LENGTH

# Functions whose result is a small difference of large sizes.
_DIFFERENCES = (
    "PISTON_CLEARANCE", "BEARING_CLEARANCE", "HOT_PISTON_CLEARANCE", "HOT_BEARING_CLEARANCE",
    "RING_SIDE_CLEARANCE", "END_PLAY", "ROD_SIDE_CLEARANCE", "DECK_CLEARANCE",
    "BEARING_CLEARANCE_FROM_BORE", "PIN_CLEARANCE_IN_PISTON", "PIN_CLEARANCE_IN_ROD",
    "VALVE_GUIDE_CLEARANCE", "FIT",
)  # fmt: skip
_ROUND = re.compile(
    r"\b(?:(ROUND(?:UP|DOWN)?|TRUNC|FIXED)\([^;]*?[,;]\s*(-?\d+)\s*\)|INT\()", re.IGNORECASE
)
# Decimals that a clearance needs in its sizes: a tenth of a thousandth inch, a micrometer's
# hundredth is too coarse in millimeters.
_DECIMALS = {"inch": 4, "metric": 3}
# Fewest readings that are whole by chance only once in some thousand times, were they read
# finer: four that differ, and more where all are the same, for that may be honest work. Every
# second one is whole where half a step is read.
_FEWEST, _FEWEST_SAME, _FEWEST_OF_HALVES = 4, 6, 10
_DIFFERENCE = re.compile(r"(\w+) - (\w+)")


def check_rounding(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each size that is rounded before a clearance is taken from it."""
    items: set[tuple[str, str]] = set()
    for record in evidence.book.records:
        if record.function is None or record.function.name not in _DIFFERENCES:
            continue
        for argument in record.arguments:
            digits = _rounded_to(record, argument)
            item = (record.name, argument.label.text if argument.label else argument.text)
            if digits is not None and item not in items:
                items.add(item)
                yield _by_formula(record, argument, digits)
    yield from _by_digits(evidence)


def _rounded_to(record: Record, argument: Argument) -> int | None:
    """The decimals that a size is rounded to, where they are too few for a clearance."""
    parameter = parameter_of(record, argument)
    if parameter is None or parameter.kind is not LENGTH:
        return None
    for text in (argument.text, argument.formula):
        for found in _ROUND.finditer(text):
            digits = int(found[2]) if found[2] else 0
            if digits < _DECIMALS[record.system]:
                return digits
    return None


def _by_formula(record: Record, argument: Argument, digits: int) -> Finding:
    place = argument.place or record.place
    return Finding(
        "rounded-by-formula",
        place,
        f"{named(argument.label, place)} is rounded ({argument.formula or argument.text}) "
        f"before {call_of(record)} subtracts with it: the clearance may be "
        f"{shown(10.0**-digits / 2, argument.unit)} off.",
        "Subtract the readings as they are, and round only what is shown.",
        (record.place,) if record.place != place else (),
        group=("rounded", str(place)),
    )


@cache
def _mates() -> Mapping[str, frozenset[str]]:
    """The properties of which a small difference is taken, each with those it is taken from."""
    found: dict[str, set[str]] = {"housing_bore": {"journal"}, "journal": {"housing_bore"}}
    for measurand in all_measurands():
        for order in measurand.orders:
            pair = _DIFFERENCE.fullmatch(order.formula)
            # Stems, guides, rings and grooves are often read to 0.01 mm, and no finer.
            if pair is None or measurand.kind is not LENGTH or measurand.of in ("valve", "ring"):
                continue
            one, other = (m.property for name in pair.groups() for m in measurands_of(name)[:1])
            found.setdefault(one, set()).add(other)
            found.setdefault(other, set()).add(one)
    return {name: frozenset(mates) for name, mates in found.items()}


def _by_digits(evidence: Evidence) -> Iterator[Finding]:
    """Rows of sizes that all lack the last digit which their mates have."""
    rows = [(row, names) for row in evidence.rows if (names := _properties(evidence, row))]
    for row, names in rows:
        step = 10.0 ** (1 - _DECIMALS[row[0].system])
        values = [r.number for r in row]
        fewest = _FEWEST if len(set(values)) > 1 else _FEWEST_SAME
        if len(values) < fewest or not _all_whole(values, step):
            continue
        if row[0].stage in ("found", "machined"):
            continue  # No clearance is worked out of a size before it is finished.
        wanted = frozenset().union(*(_mates()[name] for name in names))
        beside = [r for other, has in rows if has & wanted for r in other
                  if _belong(evidence, r, row)]  # fmt: skip
        if not beside or sum(_all_whole([r.number], step) for r in beside) * 2 > len(beside):
            continue
        if len(values) < _FEWEST_OF_HALVES and _all_whole([r.number for r in beside], step / 2):
            continue
        if _is_read_again(row, [other for other, _ in rows], step):
            continue
        yield Finding(
            "rounded-readings",
            row[0].place,
            f"{row[0].name} and its {len(row) - 1} siblings are all whole steps of "
            f"{shown(step, row[0].unit)}, the sizes they are compared with are finer: the "
            f"clearances may be {shown(step / 2, row[0].unit)} off.",
            "Enter the readings with all their digits, and round only what is shown.",
            tuple(r.place for r in row[1:]),
        )


def _is_read_again(row: Sequence[Reading], rows: Sequence[Sequence[Reading]], step: float) -> bool:
    """Whether the same parts stand in another row with finer sizes: these are from before it."""
    parts = {(r.measurand, r.part) for r in row}
    return any(
        parts == {(r.measurand, r.part) for r in other}
        and not _all_whole([r.number for r in other], step)
        for other in rows
        if other is not row and other[0].place.sheet == row[0].place.sheet
    )


def _properties(evidence: Evidence, row: Sequence[Reading]) -> frozenset[str]:
    """What a row measures, where small differences are taken of it."""
    return frozenset(m.property for r in row for m in evidence.measures(r)) & _mates().keys()


def _belong(evidence: Evidence, mate: Reading, row: Sequence[Reading]) -> bool:
    """Whether a size is compared with one of a row: by a call, or as the same part's."""
    used = {id(u.record) for r in row for u in evidence.uses.get(r.place, ())}
    uses = evidence.uses.get(mate.place, ())
    if used and uses:
        return any(id(u.record) in used for u in uses)
    return mate.place.sheet == row[0].place.sheet and any(mate.part == r.part for r in row)


def _all_whole(values: list[float], step: float) -> bool:
    return all(abs(v / step - round(v / step)) < 1e-6 for v in values)

"""Unit slips that no judgment is needed for: two units for one cell."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

from workbook_tools.books.places import cells_of
from workbook_tools.findings.evidence import Evidence, Taken
from workbook_tools.findings.finding import Finding, named, shown
from workbook_tools.formulas.references import Place
from workbook_tools.quantities import READING, UnreadableText, scale, unit_named


def check_units_mixed(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each cell that is labeled in another unit than a call takes it in.

    And for each that one call takes in inches and another in millimeters.
    """
    taken = [t for t in evidence.taken if _is_bare(t)]
    told: set[Place] = set()
    for finding in (*_labels_against_calls(taken), *_calls_against_calls(taken)):
        if finding.place is not None and finding.place not in told:
            told.add(finding.place)
            yield finding


def _is_bare(taken: Taken) -> bool:
    """Whether a call of the book takes a bare number in a unit, from a cell."""
    value = taken.argument.value
    return (
        not taken.record.computed_by_batch  # Its arguments are converted already.
        and taken.argument.place is not None
        and taken.parameter.kind.has_units
        and isinstance(value, (int, float))
        and not isinstance(value, bool)
    )


@lru_cache(maxsize=1024)
def _factor(unit: str, si: str) -> float | None:
    """What one of a unit is in this unit of SI, None where it is no unit of that."""
    try:
        found, factor = unit_named(unit)
    except UnreadableText:
        return None
    return factor if found.si == si else None


def _labels_against_calls(bare: list[Taken]) -> Iterator[Finding]:
    for taken in bare:
        record, argument, kind = taken.record, taken.argument, taken.parameter.kind
        if argument.label is None or not argument.label.unit or not taken.number:
            continue
        labeled = _factor(argument.label.unit, kind.si)
        offset, factor = scale(kind, record.system)
        if labeled is None or offset or math.isclose(labeled, factor, rel_tol=1e-6):
            continue
        yield Finding(
            "label-unit-not-taken",
            taken.place,
            f"{named(argument.label, taken.place)} is {taken.number:.6g}, labeled "
            f"{argument.label.unit}, but {record.name} in {record.place.address} takes it as "
            f"{shown(taken.number, argument.unit)}.",
            'Give the call the book\'s unit system ("inch" or "metric" as its last argument), or '
            "write the unit into the cell.",
            (record.place,),
            explains=frozenset({taken.place}),
        )


def _calls_against_calls(bare: list[Taken]) -> Iterator[Finding]:
    seen: dict[Place, Taken] = {}
    for taken in bare:
        kind, place = taken.parameter.kind, taken.place
        if kind is READING or kind.inch == kind.metric or not taken.number:
            continue
        if len(cells_of(place)) != 1:
            continue
        first = seen.setdefault(place, taken)
        if first.argument.unit == taken.argument.unit:
            continue
        yield Finding(
            "two-units-taken",
            place,
            f"{named(taken.argument.label, place)} is {taken.number:.6g}: {first.record.name} in "
            f"{first.record.place.address} takes it in {first.argument.unit}, "
            f"{taken.record.name} in {taken.record.place.address} in {taken.argument.unit}.",
            'Give every call the same unit system, "inch" or "metric", as its last argument.',
            tuple(dict.fromkeys((first.record.place, taken.record.place))),
            explains=frozenset({place}),
        )

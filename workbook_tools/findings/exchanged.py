"""Bore and stroke that a book names one for the other, against the cylinders that were measured."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median

from workbook_tools.findings.evidence import Evidence, Size
from workbook_tools.findings.finding import Finding

# Oversizes and wear change a bore by less than this share; bore and stroke are told apart by more.
_NEAR = 0.04


def check_exchanged(evidence: Evidence) -> Iterator[Finding]:
    """A finding where the cylinders or pistons measure what the book names as its stroke."""
    bores = [s for s in evidence.of("bore") if not s.part.which]
    strokes = [s for s in evidence.of("stroke") if not s.part.which]
    measured = [s for s in evidence.of("bore") if s.part.number]
    measured = measured or [s for s in evidence.of("piston_diameter") if s.part.number]
    if not (bores and strokes and measured):
        return
    bore, stroke = bores[0], strokes[0]
    size = median(s.si for s in measured)
    apart = not _is_near(bore.si, size) and not _is_near(bore.si, stroke.si)
    if apart and _is_near(stroke.si, size):
        yield _finding(bore, stroke, measured)


def _is_near(one: float, other: float) -> bool:
    return abs(one - other) <= _NEAR * other


def _finding(bore: Size, stroke: Size, measured: list[Size]) -> Finding:
    first = measured[0]
    places = frozenset({bore.place, stroke.place})
    return Finding(
        "bore-and-stroke",
        bore.place,
        f"{bore.name} is {bore.shown} and {stroke.name} {stroke.shown}, but {first.name} measures "
        f"{first.shown}: the two are exchanged.",
        "Look the engine's bore and stroke up, and write each beside its own name.",
        (stroke.place, first.place),
        explains=places,
        rests_on=places,
    )

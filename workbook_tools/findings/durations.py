"""Cam durations that no cam has, from readings counted from the wrong center."""

from __future__ import annotations

import re
from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import Finding, words_of
from workbook_tools.measurands import find

# The mildest cams have 170 to 180 crank degrees at 0.050 in of lift (common practice, no source).
# A port of a two-stroke may have less, and cam degrees are half as many.
_FEW, _LEAST = 20.0, 120.0
_DURATION = re.compile(r"\b(?:duration|durée|dauer|öffnungsdauer|durata|duración)\b", re.IGNORECASE)
_NOT = re.compile(r"\bport|\bcam deg|\bcamshaft deg|kanal|lumière|lumbrera|luce", re.IGNORECASE)


def check_durations(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each duration under 120 crank degrees, typed or by the builder's arithmetic.

    The catalog's own function refuses readings that come to less.
    """
    typed = [(r.place, r.label, r.measurand, r.number) for r in evidence.readings if not r.uses]
    stated = [(s.place, s.label, s.measurand, s.value) for s in evidence.book.stated]
    for place, label, measurand, degrees in (*typed, *stated):
        if not _FEW < degrees < _LEAST or _is_of_port(measurand):
            continue
        words = words_of(label)
        if _DURATION.search(words) and not _NOT.search(words):
            here = frozenset({place})
            yield Finding(
                "duration-too-short",
                place,
                f"{label} ({place.address}) is {degrees:.4g} deg, less than any cam has (170 deg "
                "and more at 0.050 in of lift; common practice). Openings and closings are counted "
                "from different dead centers: one may be counted from the wrong one, or after "
                "instead of before.",
                "Read the wheel again, and say at each number from which dead center it is.",
                explains=here,
                rests_on=here,
            )


def _is_of_port(measurand: str) -> bool:
    """Whether something is measured of a port, which no cam opens."""
    term = find(measurand)
    return term is not None and term.part == "port"

"""Values that no usual engine has, and that one known slip would mend.

The limits are the usual ranges of the measurands: a value outside them is doubted and never
judged.
"""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence, Size, usual_range
from workbook_tools.findings.finding import MORE, Finding, shown
from workbook_tools.measurands.parts import is_one_of
from workbook_tools.quantities import ANGLE, LENGTH, Kind, System

# Where a slip is undone, the value must lie this far inside the limits.
_INSIDE = 1.1
_ADVICE = 'Check the number and its unit; a metric book says "metric" in every call.'
_RIGHT = "the decimal point is one place too far right and less was"
_LEFT = "the decimal point is one place too far left and more was"
_LEFT_TWO = "the decimal point is two places too far left and more was"


def check_plausible(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each number that only a slip of unit or decimal point explains."""
    told = set()
    for size in evidence.sizes:
        # Zero is a measurement never taken, or one of its own: flush, no lash.
        if not size.typed or not size.number or size.stage.startswith("limit"):
            continue
        # What is asked about already is doubted only where the book itself names its unit.
        if not size.sure and not (size.label and size.label.unit):
            continue
        limits = usual_range(size.measurand) if size.kind.si else None
        if size.place in told or limits is None or limits[0] <= size.si <= limits[1]:
            continue
        if 0 < size.si < limits[0] and _may_be_small(size):
            continue
        mends = [
            (factor, code, words)
            for factor, code, words in _slips(size.kind, size.system)
            if _is_well_inside(size.si / factor, limits)
        ]
        if mends:
            told.add(size.place)
            yield _finding(size, mends)


def _may_be_small(size: Size) -> bool:
    """Whether a call takes it as a point of a sweep, which can be as small as any."""
    function = size.call.function if size.call else None
    return any(
        is_one_of(size.measurand, p.measurand) and p.sizes.low == 0
        for p in (function.parameters if function else ())
        if p.measurand
    )


def _is_well_inside(value: float, limits: tuple[float, float]) -> bool:
    low, high = limits
    return (low * _INSIDE if low > 0 else low / _INSIDE) <= value <= high / _INSIDE


def _slips(kind: Kind, system: System) -> tuple[tuple[float, str, str], ...]:
    if kind is LENGTH:
        factor, other = (25.4, "millimeters") if system == "inch" else (1 / 25.4, "inches")
        return (
            (factor, "wrong-unit", f"{other} were"),
            (1000.0, "thousandths", "thousandths were"),
            (10.0, "slipped-decimal", _RIGHT),
            (0.1, "slipped-decimal", _LEFT),
            (0.01, "slipped-decimal", _LEFT_TWO),
        )
    if kind is ANGLE:
        words = "cam degrees counted as twice as many crank degrees were"
        return ((2.0, "cam-degrees-doubled", words),)
    return (
        (10.0, "slipped-decimal", "a tenth was"),
        (0.1, "slipped-decimal", "ten times as much was"),
        (1000.0, "thousandths", "a thousandth was"),
    )


def _finding(size: Size, mends: list[tuple[float, str, str]]) -> Finding:
    fits = " or ".join(
        f"{words} meant ({shown(size.number / factor, size.unit)})"
        for factor, _, words in mends[:2]
    )
    _, code, words = mends[0]
    text = size.label.text if size.label else size.place.address
    what = size.measurand.replace("_", " ")
    here = frozenset({size.place})
    return Finding(
        code,
        size.place,
        f"{size.name} is {size.shown}{MORE}; no usual engine has such a {what}. It fits if {fits}.",
        _ADVICE,
        group=("implausible", size.place.sheet, text, words),
        explains=here,
        rests_on=here,
    )

"""Values that no usual engine has, and that one known slip would mend.

The limits are the usual ranges of the measurands: a value outside them is doubted and never
judged.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from workbook_tools.findings.evidence import Evidence, Size, spot, usual_range
from workbook_tools.findings.finding import MORE, Finding, measured
from workbook_tools.formulas.references import Place
from workbook_tools.measurands.parts import is_one_of
from workbook_tools.quantities import ANGLE, LENGTH, Kind, System

# Where a slip is undone, the value must lie this far inside the limits.
_INSIDE = 1.1
# Nobody gives a size in as many thousandths.
_MOST_THOUSANDTHS = 1000.0
# So many numbers make a sweep; a slip would part two neighbors by more than this factor.
_FEWEST_OF_SWEEP, _JUMP = 5, 4.0
# Numbers of a row that differ by less than this share of themselves are of one thing.
_ALIKE = 0.01
_ADVICE = 'Check the number and its unit; a metric book says "metric" in every call.'
_RIGHT = "the decimal point is one place too far right and less was"
_LEFT = "the decimal point is one place too far left and more was"
_LEFT_TWO = "the decimal point is two places too far left and more was"


def check_plausible(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each number that only a slip of unit or decimal point explains."""
    told = set(_sweeps(evidence))
    lines = _lines_of_something_else(evidence)
    for size in evidence.sizes:
        # Zero is a measurement never taken, or one of its own: flush, no lash.
        if not size.typed or not size.number or size.stage.startswith("limit"):
            continue
        limits = usual_range(size.measurand) if size.kind.si else None
        if size.place in told or limits is None or limits[0] <= size.si <= limits[1]:
            continue
        if (size.place.sheet, spot(size.place)[0]) in lines or evidence.is_in_a_sentence(size):
            continue
        if 0 < size.si < limits[0] and _may_be_small(size):
            continue
        mends = [
            (factor, code, words)
            for factor, code, words in _slips(size.kind, size.system, abs(size.number))
            if _is_well_inside(size.si / factor, limits)
        ]
        if mends:
            told.add(size.place)
            yield _finding(size, mends)


def _lines_of_something_else(evidence: Evidence) -> frozenset[tuple[str, int]]:
    """Rows of sheets in which numbers under several heads are alike, and unusual under each.

    Such a row is of something that its heads do not name: sizes below a table of clearances.
    """
    odd: dict[tuple[str, int], list[tuple[str, float]]] = {}
    for size in evidence.sizes:
        limits = usual_range(size.measurand) if size.kind.si and size.typed else None
        if limits is not None and not limits[0] <= size.si <= limits[1]:
            line = size.place.sheet, spot(size.place)[0]
            odd.setdefault(line, []).append((size.measurand, size.number))
    return frozenset(
        line
        for line, found in odd.items()
        if len({name for name, _ in found}) > 1
        and max(n for _, n in found) - min(n for _, n in found)
        < _ALIKE * max(abs(n) for _, n in found)
    )


def _sweeps(evidence: Evidence) -> Iterator[Place]:
    """The cells of lines that run from small to large without a jump: a sweep, and no slip.

    A spring's load over its height, a valve's distance from the piston over the crank's angle.
    """
    found: dict[tuple[str, str], list[Size]] = {}
    for size in evidence.sizes:
        if size.typed and size.label is not None:
            found.setdefault((size.place.sheet, size.label.text), []).append(size)
    for sizes in found.values():
        ordered = sorted(sizes, key=lambda s: spot(s.place))
        numbers = [abs(s.number) for s in ordered]
        if len(numbers) < _FEWEST_OF_SWEEP or min(numbers) <= 0:
            continue
        jumps = [max(a, b) / min(a, b) for a, b in pairwise(numbers)]
        if max(numbers) >= 2 * min(numbers) and max(jumps) < _JUMP:
            yield from (size.place for size in ordered)


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


def _slips(kind: Kind, system: System, number: float) -> tuple[tuple[float, str, str], ...]:
    if kind is LENGTH:
        factor, other = (25.4, "millimeters") if system == "inch" else (1 / 25.4, "inches")
        return (
            (factor, "wrong-unit", f"{other} were"),
            *(((1000.0, "thousandths", "thousandths were"),) if number < _MOST_THOUSANDTHS else ()),
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
        f"{words} meant ({measured(size.number / factor, size.unit)})"
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

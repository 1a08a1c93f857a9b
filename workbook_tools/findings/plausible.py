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
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.measurands import find
from workbook_tools.measurands.parts import is_one_of
from workbook_tools.quantities import ANGLE, LENGTH, RATIO, TORQUE

# Where a slip is undone, the value must lie this far inside the limits.
_INSIDE = 1.1
# Sizes of one engine differ by less than this share.
_NEAR = 0.2
# Nobody gives a size in as many thousandths.
_MOST_THOUSANDTHS = 1000.0
# So many numbers make a sweep; a slip would part two neighbors by more than this factor.
_FEWEST_OF_SWEEP, _JUMP = 5, 4.0
_FEWEST_OF_LINE = 3
# What wears with its parts, and how many times the most that is usual a worn one may have.
_WEARS = (
    "clearance", "side_clearance", "end_play", "gap", "out_of_round", "taper", "runout", "flatness",
)  # fmt: skip
_WORN = 4.0
# So many times the most that is usual is more than a setting of one's own.
_FAR_ABOVE = 1.5
# So many other jobs tell what a column of a log means.
_FEWEST_JOBS = 2
# Numbers of a row that differ by less than this share of themselves are of one thing.
_ALIKE = 0.01
# A label that takes so many steps to its meaning names a part and no property: "Mains".
_ASSUMED = 2
_ADVICE = 'Check the number and its unit; a metric book says "metric" in every call.'
_RIGHT = "the decimal point is one place too far right and less was"
_LEFT = "the decimal point is one place too far left and more was"
_LEFT_TWO = "the decimal point is two places too far left and more was"


def check_plausible(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each number that only a slip of unit or decimal point explains."""
    told = set(_sweeps(evidence)) | set(_unusual_throughout(evidence))
    lines = _lines_of_something_else(evidence)
    for size in evidence.sizes:
        # Zero is a measurement never taken, or one of its own: flush, no lash.
        if not size.typed or not size.number or size.stage.startswith("limit"):
            continue
        limits = _limits(size)
        if size.place in told or limits is None or limits[0] <= size.si <= limits[1]:
            continue
        if (size.place.sheet, spot(size.place)[0]) in lines or evidence.is_in_a_sentence(size):
            continue
        if 0 < size.si < limits[0] and _may_be_small(size):
            continue
        if not size.sure and size.call is None and _names_a_part_alone(size):
            continue
        reading = evidence.by_place.get(size.place)
        if _is_as_in_other_jobs(evidence, size) or (reading and reading.usual_here):
            continue
        mends = [
            (factor, code, words)
            for factor, code, words in _slips(size, limits)
            if _is_well_inside(size.si / factor, limits)
            if words != _LEFT_TWO or _is_known(evidence, size, size.si / factor)
        ]
        if mends:
            told.add(size.place)
            yield _finding(size, mends)


def _names_a_part_alone(size: Size) -> bool:
    """Whether a label leaves open what of a part it means: what does not fit is asked about."""
    candidates = meaning_of(size.label.text).candidates if size.label else ()
    near = [c for c in candidates if c.cost <= candidates[0].cost + 1]
    terms = [term for c in near if (term := find(c.measurand)) is not None]
    # What stands in newton meters is the torque of its bolt.
    nouns = {t.noun for t in terms if t.kind is size.kind or size.kind is not TORQUE}
    return len(nouns) > 1 and candidates[0].cost >= _ASSUMED and not size.part.number


def _is_as_in_other_jobs(evidence: Evidence, size: Size) -> bool:
    """Whether the other jobs of a file have it about as large: what a column means is no slip."""
    others = (
        one
        for one in evidence.book.beside
        if (one.measurand, one.which, one.stage) == (size.measurand, size.part.which, size.stage)
    )
    found = next(others, None)
    if found is None or found.many < _FEWEST_JOBS:
        return False
    return found.least / _JUMP <= size.si <= found.most * _JUMP


def _limits(size: Size) -> tuple[float, float] | None:
    """The usual range of what a size is; what has no unit may be anything, but for a ratio."""
    usual = usual_range(size.measurand) if size.kind.si or size.kind is RATIO else None
    term = find(size.measurand)
    worn = size.stage in ("found", "target")  # What is wanted may be how far it may wear.
    if usual is not None and worn and term is not None and term.noun in _WEARS:
        return usual[0], usual[1] * _WORN
    return usual


def _unusual_throughout(evidence: Evidence) -> Iterator[Place]:
    """The cells of lines that no call takes and that are unusual in each of several cells.

    Such a line is of something else than its words seem to say, and is asked about.
    """
    found: dict[tuple[str, str], list[Size]] = {}
    for size in evidence.sizes:
        if size.typed and size.label is not None:
            text = "".join(c for c in size.label.text if not c.isdigit())
            found.setdefault((size.place.sheet, text), []).append(size)
    for sizes in found.values():
        limits = [_limits(size) for size in sizes]
        odd = [
            size.call is None and known is not None and not known[0] <= size.si <= known[1]
            for size, known in zip(sizes, limits, strict=True)
        ]
        if len(sizes) >= _FEWEST_OF_LINE and all(odd):
            yield from (size.place for size in sizes)


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


def _is_known(evidence: Evidence, size: Size, si: float) -> bool:
    """Whether another size of the same kind is near one: two places are lost by nobody else."""
    others = (s.si for s in evidence.of(size.measurand) if s.place != size.place)
    return any(abs(other - si) <= _NEAR * abs(si) for other in others)


def _is_well_inside(value: float, limits: tuple[float, float]) -> bool:
    low, high = limits
    return (low * _INSIDE if low > 0 else low / _INSIDE) <= value <= high / _INSIDE


def _slips(size: Size, limits: tuple[float, float]) -> Iterator[tuple[float, str, str]]:
    number = abs(size.number)
    if size.kind is LENGTH:
        factor, other = (25.4, "millimeters") if size.system == "inch" else (1 / 25.4, "inches")
        yield factor, "wrong-unit", f"{other} were"
        if number < _MOST_THOUSANDTHS:
            yield 1000.0, "thousandths", "thousandths were"
        yield 10.0, "slipped-decimal", _RIGHT
        yield 0.1, "slipped-decimal", _LEFT
        yield 0.01, "slipped-decimal", _LEFT_TWO
    elif size.kind is ANGLE:
        words = "cam degrees counted as twice as many crank degrees were"
        yield 2.0, "cam-degrees-doubled", words
        # Small angles are as usual as none; only one far too large is sure to be a slip.
        if size.si > _FAR_ABOVE * limits[1]:
            yield 10.0, "slipped-decimal", _RIGHT
    else:
        yield 10.0, "slipped-decimal", "a tenth was"
        yield 0.1, "slipped-decimal", "ten times as much was"
        if size.kind is not RATIO:
            yield 1000.0, "thousandths", "a thousandth was"


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

"""Two sizes that stand in each other's place: bore and stroke, or two lines of one part.

Bore and stroke are held against the cylinders that were measured, two lines of the same parts,
as gaps of top and second rings, against how they stand to each other in all other parts.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import combinations
from statistics import median

from workbook_tools.findings.evidence import WISHES, Evidence, Size
from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.resolution import resolution
from workbook_tools.measurands import find

# Oversizes and wear change a bore by less than this share; bore and stroke are told apart by more.
_NEAR = 0.04
# Lines that are nearer to each other than this share of themselves are not parted by it.
_LEAST_GAP, _LEAST_STEPS = 0.0005, 1.5
# So many other parts show how two lines stand to each other.
_FEWEST_OTHERS = 3


def check_exchanged(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each two sizes that stand in each other's place."""
    yield from _bore_and_stroke(evidence)
    yield from _lines_of_a_part(evidence)


def _lines_of_a_part(evidence: Evidence) -> Iterator[Finding]:
    """Two readings of a part that each fit the other's line, and not their own."""
    lines: dict[tuple[str, str, str], dict[str, dict[str, Size]]] = defaultdict(dict)
    for size in evidence.sizes:
        term = find(size.measurand)
        if term is None or not size.typed or not size.part.number or size.stage in WISHES:
            continue
        line = lines[term.noun, size.part.of, size.stage].setdefault(size.measurand, {})
        line.setdefault(size.part.which, size)
    for alike in lines.values():
        for one, other in combinations(alike.values(), 2):
            both = [which for which in one if which in other]
            for which in both if len(both) > _FEWEST_OTHERS else ():
                others = [w for w in both if w != which]
                mine = [one[w].si for w in others]
                theirs = [other[w].si for w in others]
                step = _step(one[which], [line[w] for line in (one, other) for w in others])
                if _stand_turned(one[which].si, other[which].si, mine, theirs, step):
                    yield _of_a_part(one[which], other[which], len(others))


def _step(size: Size, others: Sequence[Size]) -> float:
    """The step that sizes are written in, in SI, 0 where they are of several units."""
    alike = [other.number for other in others if other.unit == size.unit]
    if len(alike) < len(others) or not size.number:
        return 0.0
    return resolution(alike) * abs(size.si / size.number)


def _stand_turned(
    one: float, other: float, mine: list[float], theirs: list[float], step: float
) -> bool:
    """Whether two numbers fit each other's lines, which are parted by more than their step."""
    if max(mine) > min(theirs):
        one, other, mine, theirs = other, one, theirs, mine
    gap = min(theirs) - max(mine)
    if gap <= max(_LEAST_GAP * abs(min(theirs)), _LEAST_STEPS * step):
        return False
    # Exchanged they stand no further from their lines than a quarter of what parts these.
    return (
        min(theirs) - gap / 4 < one <= max(theirs) + gap / 4
        and min(mine) - gap / 4 <= other < max(mine) + gap / 4
    )


def _of_a_part(one: Size, other: Size, others: int) -> Finding:
    places = frozenset({one.place, other.place})
    return Finding(
        "exchanged-in-part",
        one.place,
        f"{one.name} is {one.shown} and {other.name} {other.shown}; in the other {others} it is "
        "the other way round, and each would fit on the other's line.",
        "Measure both again, and write each on its own line.",
        (other.place,),
        explains=places,
        rests_on=places,
    )


def _bore_and_stroke(evidence: Evidence) -> Iterator[Finding]:
    """A finding where the cylinders or pistons measure what the book names as its stroke."""
    bores = _bores(evidence)
    strokes = [s for s in evidence.of("stroke") if not s.part.which]
    measured = _measured(evidence)
    if not (bores and strokes and measured):
        return
    bore, stroke = bores[0], strokes[0]
    size = median(s.si for s in measured)
    apart = not _is_near(bore.si, size) and not _is_near(bore.si, stroke.si)
    if apart and _is_near(stroke.si, size):
        yield _finding(bore, stroke, measured)


def _bores(evidence: Evidence) -> Sequence[Size]:
    """What a book says of the bore as such, or of its nominal size.

    One that is no usual bore is asked about.
    """
    said = [s for s in evidence.of("bore") if not s.part.which and s.stage != "found"]
    nominal = [
        s
        for s in evidence.sizes
        if s.measurand == "bore" and s.stage == "target" and s.typed and not s.part.which
    ]
    # What a mean of the cylinders comes to says nothing of their nominal size.
    return [s for s in said if s.typed] or nominal or said or [
        Size(
            r.place, r.label, r.measurand, r.part, r.stage, r.number, r.si, r.kind, r.system,
            r.unit, typed=True, sure=False,
        )
        for r in evidence.readings
        if r.measurand == "bore" and r.state == "asked" and r.si is not None and r.kind is not None
        if not r.part.which and r.stage not in (*WISHES, "found")
    ]  # fmt: skip


def _measured(evidence: Evidence) -> Sequence[Size]:
    """What tells the size of the cylinders: bores, else pistons; else one of it, and as found."""
    bores, pistons = evidence.of("bore"), evidence.of("piston_diameter")
    for numbered in (bores, pistons):
        if several := [s for s in numbered if s.part.number]:
            return several
    return [s for s in (*pistons, *bores) if s.typed and (s in pistons or s.stage == "found")]


def _is_near(one: float, other: float) -> bool:
    return abs(one - other) <= _NEAR * other


def _finding(bore: Size, stroke: Size, measured: Sequence[Size]) -> Finding:
    first = measured[0]
    # What there is one of is doubted for no more than that the bore is not what is typed for it.
    alone = {s.place for s in measured if not s.part.number}
    places = frozenset({bore.place, stroke.place, *alone})
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

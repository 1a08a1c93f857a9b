"""Mating sizes that cannot belong together: a bore and its piston, a housing and its journal.

Where a call refuses them, one slip may explain it; where no call takes both, their order tells.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import NamedTuple

from workbook_tools.findings.evidence import Evidence, Size, Taken, near
from workbook_tools.findings.finding import Finding, call_of, named, shown
from workbook_tools.findings.practice_limits import BEARING, COATING, PISTON, STEPS, may_be_older
from workbook_tools.jobs.records import Record
from workbook_tools.measurands import find
from workbook_tools.measurands.table import all_measurands, beside

# The two sizes of a clearance that are nearly the same.
_PAIRS = {
    "PISTON_CLEARANCE": ("bore", "piston_diameter"),
    "BEARING_CLEARANCE": ("housing_bore", "journal"),
    "BEARING_CLEARANCE_FROM_BORE": ("bearing_bore", "journal"),
}
# What one of two mating sizes may be of what it should be.
_FACTORS = (
    (2.0, "half-or-double", "a radius was typed for a diameter"),
    (10.0, "slipped-decimal", "a decimal point slipped"),
    (25.4, "wrong-unit", "one is in inches and one in millimeters"),
)
# The same size of two cylinders is not this far apart, nor are the bores of cylinder and gasket.
_APART, _GASKET_APART = 0.01, 0.1


def check_mates(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each pair that a call refuses and one slip explains, and each out of order."""
    given = evidence.taken_by_call
    for record in evidence.book.records:
        if record.value is None and not record.missing and record.function is not None:
            names = _PAIRS.get(record.function.name, ())
            sizes = given.get(id(record), {})
            if names and all(name in sizes for name in names):
                yield from _refused(evidence, record, sizes, [sizes[name] for name in names])
    yield from _out_of_order(evidence)


class _Mend(NamedTuple):
    """A slip that, undone in one of two mating sizes, gives a clearance that is usual."""

    wrong: Taken
    code: str
    words: str


def _refused(
    evidence: Evidence, record: Record, sizes: Mapping[str, Taken], pair: Sequence[Taken]
) -> Iterator[Finding]:
    slips = list(_mended(record, sizes, pair))
    if not slips:
        return
    wrong = [s.wrong for s in slips]
    # Where either could be it, a size that agrees with its siblings is not.
    doubted = next((t for t in pair if t in wrong and not _fits_its_row(evidence, t)), wrong[0])
    other = pair[0] if doubted is pair[1] else pair[1]
    first, second = (
        f"{named(t.argument.label, t.place)} is {shown(t.number, t.argument.unit)}"
        for t in (doubted, other)
    )
    mends = {s.words: s.code for s in slips if s.wrong is doubted}
    places = frozenset(t.place for t in pair)
    yield Finding(
        next(iter(mends.values())),
        doubted.place,
        f"{first} and {second}, too far apart for {call_of(record)}. It fits if "
        f"{' or if '.join(mends)}.",
        "Measure both, and enter diameters in one unit.",
        (other.place,),
        explains=places,
        rests_on=places,
    )


def _mended(record: Record, sizes: Mapping[str, Taken], pair: Sequence[Taken]) -> Iterator[_Mend]:
    outer, inner = (t.si for t in pair)
    wall, other = (sizes[n].si if n in sizes else 0.0 for n in ("shell_wall", "other_wall"))
    walls = wall + (other or wall)
    usual = PISTON if "piston_diameter" in sizes else BEARING

    def fits(hole: float, shaft: float) -> bool:
        low, high = usual.limits(max(hole, shaft))
        return min(low, 0.0) <= hole - walls - shaft <= high

    for factor, code, words in _FACTORS:
        for way in (factor, 1 / factor):
            if fits(outer * way, inner):
                yield _Mend(pair[0], code, words)
            if fits(outer, inner * way):
                yield _Mend(pair[1], code, words)
    for step in STEPS[record.system]:
        for turn in () if step.of else (step.size, -step.size):
            if fits(outer + turn, inner):
                yield _Mend(pair[0], "one-turn", step.words)
            if fits(outer, inner + turn):
                yield _Mend(pair[1], "one-turn", step.words)


def _fits_its_row(evidence: Evidence, taken: Taken) -> bool:
    """Whether a size is near the same size of another cylinder, or near the gasket's bore."""
    if not taken.number:
        return False
    row = next((r for r in evidence.rows if any(x.place == taken.place for x in r)), ())
    if any(abs(r.number / taken.number - 1) < _APART for r in row if r.place != taken.place):
        return True
    return taken.argument.name in ("bore", "piston_diameter") and any(
        0 < gasket.si / taken.si - 1 < _GASKET_APART for gasket in evidence.of("gasket_bore")
    )


def _out_of_order(evidence: Evidence) -> Iterator[Finding]:
    """Sizes that are not below another, as the table of measurands says they must be."""
    for name in dict.fromkeys(s.measurand for s in evidence.sizes):
        one = find(name)
        for order in one.orders if one else ():
            if one is None or order.relation != "<" or order.doubted or name == "bore":
                continue  # The gasket's bore has its own check.
            larger = [s for m in beside(order.other, one) for s in evidence.finished(m.id)]
            sizes = evidence.finished(name)
            for size in sizes:
                above = _mates_of(size, near(larger, size.place.sheet))
                if not above or _has_its_clearance(evidence, size, above[0]):
                    continue
                in_order = _one_in_order(_again(size, sizes), _again(above[0], above))
                if not in_order or _is_copied(size, above[0], sizes, larger):
                    yield _turned_round(size, above[0])


def _mates_of(size: Size, others: Sequence[Size]) -> Sequence[Size]:
    """The sizes of the same part; one that there is only one of is every part's.

    A new part need not fit what was found before the other was machined.
    """
    others = [s for s in others if (s.stage == "found") == (size.stage == "found")]
    same = [s for s in others if s.part.which == size.part.which and s.place != size.place]
    alone = [s for s in others if not s.part.which]
    return same or (alone if len(alone) == 1 else ())


def _is_copied(size: Size, above: Size, sizes: Sequence[Size], larger: Sequence[Size]) -> bool:
    """Whether two mates were typed with the same number, and other pairs have room between them."""
    if size.si != above.si or not size.typed or not above.typed:
        return False
    others = [s for s in sizes if s is not size and s.place.sheet == size.place.sheet]
    pairs = ((other, _mates_of(other, near(larger, other.place.sheet))) for other in others)
    return any(other.si < theirs[0].si for other, theirs in pairs if theirs)


def _has_its_clearance(evidence: Evidence, size: Size, above: Size) -> bool:
    """Whether a clearance stands beside a new part and a size that may be older than that."""
    return (may_be_older(size, above) or may_be_older(above, size)) and any(
        s.typed and s.part.which == size.part.which and s.si > 0
        for name in _clearances().get((above.measurand, size.measurand), ())
        for s in evidence.finished(name)
    )


@cache
def _clearances() -> Mapping[tuple[str, str], Sequence[str]]:
    """What is the difference of two sizes, by the larger and the smaller."""
    found: dict[tuple[str, str], list[str]] = {}
    for measurand in all_measurands():
        for order in measurand.orders:
            if order.is_difference:
                found.setdefault((order.names[0], order.names[1]), []).append(measurand.id)
    return found


def _again(size: Size, sizes: Sequence[Size]) -> Sequence[Size]:
    """A size with the others of the same measurand and part on its sheet, of other lines.

    One of two may be what the part was before the work, whether its label says so or not.
    """
    here = [s for s in sizes if s.part.which == size.part.which and s.place != size.place]
    here = [s for s in here if s.place.sheet == size.place.sheet]
    return [size, *(s for s in here if (s.stage, _line(s)) != (size.stage, _line(size)))]


def _line(size: Size) -> str:
    return size.label.text if size.label else ""


def _one_in_order(sizes: Sequence[Size], above: Sequence[Size]) -> bool:
    return any(one.si <= other.si * (1 - COATING) for one in sizes for other in above)


def _turned_round(size: Size, above: Size) -> Finding:
    places = frozenset({size.place, above.place})
    return Finding(
        "sizes-out-of-order",
        size.place,
        f"{size.name} is {size.shown}, and {above.name} is {above.shown}: "
        f"{_words(size)} must be below {_words(above)}.",
        "Measure both again, and see whether one was typed for the other.",
        (above.place,),
        group=("order", size.place.sheet, size.measurand, above.measurand),
        explains=places,
        rests_on=places,
    )


def _words(size: Size) -> str:
    return size.measurand.replace("_", " ")

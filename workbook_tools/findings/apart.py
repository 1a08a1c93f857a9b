"""A finished size that is far from its siblings while its mate is not: a digit, or two exchanged.

Cylinders of one engine are finished alike, and so are its journals. One that has a size of its
own has a mate of its own; a size without a mate in the book may be an oversize by itself. What
mates with nothing, a chamber's volume or a rod's weight, is alike in all of an engine.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from statistics import median

from workbook_tools.findings.book_limits import own_limits
from workbook_tools.findings.evidence import Evidence, Size, measurands_of
from workbook_tools.findings.finding import Finding, measured
from workbook_tools.findings.relations import made_from
from workbook_tools.findings.scatter import OWN, center_and_spread
from workbook_tools.findings.slips import digits_exchanged
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.resolution import resolution
from workbook_tools.quantities import FORCE, LENGTH, MASS, SPRING_RATE, VOLUME

# What mates with what: both have a size of their own, or neither has.
_MATES = {
    "bore": "piston_diameter",
    "piston_diameter": "bore",
    "main_journal": "main_bearing_bore",
    "main_bearing_bore": "main_journal",
    "rod_journal": "rod_bearing_bore",
    "rod_bearing_bore": "rod_journal",
    "main_housing_bore": "",
    "rod_housing_bore": "",
    "pin_diameter": "small_end_bore",
    "small_end_bore": "pin_diameter",
    "intake_stem_diameter": "intake_guide_bore",
    "exhaust_stem_diameter": "exhaust_guide_bore",
}
# Siblings to compare with, at least; how many spreads and how far (SI) is far from them.
_FEWEST, _FAR, _LEAST = 3, 12.0, 4e-5
# With two digits exchanged it may be off by less, 86.957 among sizes near 86.975.
_LEAST_EXCHANGED = 1.2e-5
# Two siblings do where they are the same give or take this share of them.
_TWO, _THE_SAME = 2, 0.001
# Under- and oversizes go in steps of these (SI), give or take what a size scatters.
_STEPS, _NEAR_A_STEP = (0.25e-3, 0.254e-3), 0.1
# What is off by more than this share, and by no slip, is a size of something else.
_SOMETHING_ELSE = 0.4
# How alike a mate must differ to be of the same oversize.
_AS_FAR = 0.3
# What share of its siblings something without a mate must be off besides. Common practice, no
# source: as cast, chambers differ by less, and so do rods and springs of one engine.
_WORN = 2.0
_SHARES = {VOLUME: 0.05, MASS: 0.05, FORCE: 0.15, SPRING_RATE: 0.15, LENGTH: 0.01}
# How high springs stand goes with their shims, which are there in steps.
_SHARE_OF_SPRINGS = 0.03
# Parts that were matched weigh the same, give or take less than this share of it; then one that
# is off by this share is not of the set.
_MATCHED, _UNMATCHED = 0.003, 0.008
# A burette and a drop in it make as much (SI), and so many steps of what a line is written in
# are how it was rounded.
_LEAST_OF_VOLUME, _STEPS_OF_ROUNDING = 0.5e-6, 2.5
# Clearances and gaps scatter by a quarter of themselves. They are below this (SI), and what may
# be on either side of zero is off by so much at least.
_SMALL, _SHARE_OF_SMALL, _LEAST_OF_SIGNED = 0.008, 0.5, 1.5e-4


def check_apart(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each finished size that no sibling and no mate is like.

    What lies outside the book's own limits is told there, unless its digits are exchanged.
    """
    outside = {size.place for size, own in own_limits(evidence) if own.missed}
    for finding in _apart(evidence):
        if finding.code != "apart-from-siblings" or finding.place not in outside:
            yield finding


def _apart(evidence: Evidence) -> Iterator[Finding]:
    for name in dict.fromkeys(s.measurand for s in evidence.sizes):
        mate = _MATES.get(name, "")
        sizes = _finished(evidence, name)
        mates = {s.part.which: s.si for s in _finished(evidence, mate)} if mate else {}
        # What a function takes of mains and of rods alike has siblings on either.
        for sheet, of in dict.fromkeys((s.place.sheet, s.part.of) for s in sizes):
            row = [s for s in sizes if (s.place.sheet, s.part.of) == (sheet, of)]
            if name in _MATES:
                found = [f for f in row if _is_apart(f, row, mates)]
            else:
                found = [f for f in row if _is_unlike(f, row)]
            # Where a third of them is apart, the engine is built of several sizes.
            if len(found) * 3 <= len(row):
                yield from (_finding(evidence, one, row) for one in found)
        worn = [s for s in evidence.of(name) if s.typed and s.part.number and s.stage == "found"]
        for sheet in dict.fromkeys(s.place.sheet for s in worn):
            row = [s for s in worn if s.place.sheet == sheet and not evidence.is_withdrawn(s.place)]
            found = [f for f in row if _is_unlike(f, row, _WORN) or _is_exchanged(f, row)]
            if len(found) * 3 <= len(row):
                yield from (_finding(evidence, one, row) for one in found)


def _finished(evidence: Evidence, name: str) -> list[Size]:
    """The finished sizes of numbered parts, one of each and for each place on it."""
    found: dict[tuple[object, ...], Size] = {}
    sizes = [
        s
        for s in evidence.of(name)
        if s.typed and s.part.number and s.stage != "found"
        if not evidence.is_withdrawn(s.place)
    ]
    final = {s.part.which for s in sizes if s.stage == "final"}
    for size in sizes:
        if size.stage == "final" or size.part.which not in final:
            part = size.part
            found.setdefault((size.place.sheet, part.of, part.which, *part.at), size)
    return list(found.values())


def _is_apart(size: Size, row: Sequence[Size], mates: dict[str, float]) -> bool:
    others = [s.si for s in row if s is not size]
    if not _are_enough(others):
        return False
    center, spread = center_and_spread(others)
    off = size.si - center
    if abs(off) < max(_FAR * spread, _LEAST_EXCHANGED):
        return False
    exchanged = _exchanged(size, row) is not None
    if not exchanged and not _LEAST <= abs(off) <= _SOMETHING_ELSE * abs(center):
        return False
    theirs = [si for which, si in mates.items() if which != size.part.which]
    if size.part.which in mates and len(theirs) >= _FEWEST:
        mine = mates[size.part.which] - median(theirs)
        return abs(mine - off) > _AS_FAR * abs(off)
    # Without a mate in the book it may be an oversize of its own.
    step = any(abs(off / step - round(off / step)) <= _NEAR_A_STEP for step in _STEPS)
    return not step or exchanged


def _is_unlike(size: Size, row: Sequence[Size], worn: float = 1.0) -> bool:
    """Whether something that mates with nothing is far from its siblings.

    worn: how many times further apart such things may be; clearances wear without bound.
    """
    others = [s.si for s in row if s is not size]
    share = _SHARES.get(size.kind)
    if not _are_enough(others) or share is None or OWN.search(size.measurand):
        return False
    center, spread = center_and_spread(others)
    least = _LEAST
    if size.kind is LENGTH and max(map(abs, others)) < _SMALL:
        if worn != 1.0:
            return False
        share = _SHARE_OF_SMALL
        if any(m.signed for m in measurands_of(size.measurand)):
            least = _LEAST_OF_SIGNED
    elif size.measurand.endswith("_spring_height"):
        share = _SHARE_OF_SPRINGS
    elif size.kind is not LENGTH:
        least = _LEAST_OF_VOLUME if size.kind is VOLUME else 0.0
    if size.kind is MASS and worn == 1.0 and max(others) - min(others) <= _MATCHED * center:
        share = _UNMATCHED
    if abs(size.si - center) < max(_FAR * spread, worn * share * abs(center), least):
        return False
    same_unit = [s.number for s in row if s.unit == size.unit]
    return abs(size.number - median(same_unit)) >= _STEPS_OF_ROUNDING * resolution(same_unit)


def _are_enough(others: Sequence[float]) -> bool:
    """Whether siblings tell what one more should be: several, or two sizes that are the same."""
    if len(others) < _FEWEST:
        least, most = min(others, default=0.0), max(others, default=0.0)
        return len(others) == _TWO and least >= _SMALL and most - least <= _THE_SAME * most
    return True


def _is_exchanged(size: Size, row: Sequence[Size]) -> bool:
    """Whether a worn size is far from the others and among them with two digits exchanged."""
    others = [s.si for s in row if s is not size]
    if size.kind is not LENGTH or len(others) < _FEWEST or min(others) < _SMALL:
        return False
    center, spread = center_and_spread(others)
    return abs(size.si - center) > max(_FAR * spread, _LEAST) and _exchanged(size, row) is not None


def _exchanged(size: Size, row: Sequence[Size]) -> float | None:
    """The size with two of its digits exchanged that is among the others, None where none is."""
    others = [s.number for s in row if s is not size and s.unit == size.unit]
    if not others:
        return None
    center = median(others)
    step = resolution(others)
    near = max(max(others) - min(others), 2 * step)
    # Among worn and unworn ones it is nearer by far with its digits put right.
    near = min(near, abs(size.number - center) / 2)
    tried = digits_exchanged(size.number, step)
    return next((n for n in tried if abs(n - center) <= near), None)


def _finding(evidence: Evidence, size: Size, row: Sequence[Size]) -> Finding:
    others = [s for s in row if s is not size]
    exchanged = _exchanged(size, row)
    also: tuple[Place, ...] = (*made_from(evidence, size.place), *(s.place for s in others))
    here = frozenset({size.place})
    said = "and what it fits is no different" if size.measurand in _MATES else "and close together"
    if exchanged is not None:
        undone = measured(exchanged, size.unit)
        said = f"which it would be with two of its digits exchanged ({undone})"
    return Finding(
        "apart-from-siblings" if exchanged is None else "digits-exchanged",
        size.place,
        f"{size.name} is {size.shown}; the other {len(others)} are near "
        f"{measured(median(s.number for s in others), size.unit)}, {said}.",
        "Measure it again, and see whether a digit was misread or another size was meant.",
        also,
        explains=here,
        rests_on=here,
    )

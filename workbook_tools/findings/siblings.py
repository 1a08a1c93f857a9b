"""A reading that only a slip can part from its siblings: decimal point, unit, turn, half, sign.

Limits come from trade practice and from how readings scatter, not from any one set of books:
a reading is doubted only where it lies far outside the scatter of its siblings and one known
slip would put it back among them. The scatter is the median distance from the median.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from workbook_tools.findings.book_limits import FAULTS
from workbook_tools.findings.evidence import (
    Evidence,
    measurands_of,
)
from workbook_tools.findings.finding import Finding, measured, shown
from workbook_tools.findings.relations import made_from
from workbook_tools.findings.scatter import OWN, center_and_spread
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Reading
from workbook_tools.jobs.resolution import resolution
from workbook_tools.measurands import Measurand
from workbook_tools.quantities import FORCE, LENGTH, MASS, VOLUME

# So many spreads from the median a reading must lie to be doubted, and so many it may lie
# from it with the slip undone. Normal scatter passes six once in five hundred million.
FAR = 6.0
NEAR = 4.0
# Fewest siblings to compare with: sizes and factors of ten show beside two, half a clearance not.
FEW, SEVERAL = 2, 3
# Two are no row: with a slip undone they must be nearly the same, by this share of one of them.
PAIR, _ALIKE_IN_PAIR = 2, 0.3
# Where both are usual sizes only a slip makes one the other times a factor, give or take this.
_ALIKE_IF_USUAL = 0.1
_MADE_ALIKE = (LENGTH, VOLUME, MASS, FORCE)
# Signed depths are usual up to this share of the most that any engine has.
_WIDE = 0.5
# Numbers of which nothing says what they are belong together only if they differ by no more
# than this share of their median.
ALIKE = 0.3
# Micrometers are for sizes; below this (in, mm) a length is a clearance.
_LEAST_SIZE = {"inch": 0.2, "metric": 5.0}
# What has no number above this (SI) is a clearance and no size.
_MOST_CLEARANCE = 0.008
# One turn: of an inch thimble, of a dial caliper, of a metric thimble. Common practice, no
# source; metric from memory.
_TURNS = {
    "inch": ((0.025, "one turn of the micrometer"), (0.1, "one turn of the dial caliper")),
    "metric": ((0.5, "one turn of the micrometer"),),
}
# How near a turn the difference must be: the scatter, or this share of a turn.
_TURN_SLACK = 0.08
# For numbers of which no measurand says what they are.
_SIZE_WORDS = re.compile(
    r"\b(bore|journal|housing|pin|skirt|piston|diameter|height|length|width|stroke|crank|wall)s?\b",
    re.IGNORECASE,
)
_DEPTH_WORDS = re.compile(r"deck|crown|chamber|volume|dish|dome|height", re.IGNORECASE)
_SMALL_WORDS = re.compile(r"clearance|gap|lash|play|run.?out|taper|volume", re.IGNORECASE)
# What is so many times all others is a slip of the point or the unit, whatever their scatter.
_BEYOND = 8.0
_WRONG_WAY = "its sign is the wrong way round"
_SIGNS = {"deck_clearance": "deck-sign", "crown_volume": "crown-sign"}


@dataclass(frozen=True)
class Slip:
    """A reading, what it would be without the slip, and what the slip is."""

    reading: Reading
    code: str
    undone: float
    words: str
    center: float
    siblings: int
    misfit: float


_FACTORS: tuple[tuple[float, str, str], ...] = (
    (10.0, "slipped-decimal", "the decimal point is one place too far right"),
    (0.1, "slipped-decimal", "the decimal point is one place too far left"),
    (100.0, "slipped-decimal", "the decimal point is two places too far right"),
    (0.01, "slipped-decimal", "the decimal point is two places too far left"),
    (25.4, "wrong-unit", "millimeters stand where inches belong"),
    (1 / 25.4, "wrong-unit", "inches stand where millimeters belong"),
    (1000.0, "thousandths", "thousandths stand where whole units belong"),
    (0.001, "thousandths", "it is a thousandth of what belongs there"),
    (0.0254, "wrong-unit", "millimeters stand where thousandths of an inch belong"),
)


def check_siblings(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each reading that one slip parts from its siblings, each once."""
    found: dict[Place, tuple[Slip, tuple[Reading, ...]]] = {}
    for row in evidence.rows:
        for slip in _in_row(row):
            known = found.get(slip.reading.place)
            if known is None or slip.siblings > known[0].siblings:
                found[slip.reading.place] = slip, row
    for slip, row in found.values():
        reading = slip.reading
        yield Finding(
            slip.code,
            reading.place,
            f"{reading.name} is {reading.shown}; {_others(slip.siblings)} near "
            f"{measured(slip.center, reading.unit)}. It fits if {slip.words} "
            f"({measured(slip.undone, reading.unit)}).",
            "Look at the part and its first record, and measure again before it is changed.",
            (
                *made_from(evidence, reading.place),
                *(r.place for r in row if r.place != reading.place),
            ),
            explains=frozenset({reading.place}),
        )


def _others(siblings: int) -> str:
    return "the other one is" if siblings == 1 else f"the other {siblings} are"


def _in_row(row: Sequence[Reading]) -> Iterator[Slip]:
    if len(row) == PAIR:
        yield from _in_pair(*row)
    if _are_no_siblings(row):
        return
    doubted = []
    for place, reading in enumerate(row):
        others = [r.number for n, r in enumerate(row) if n != place]
        if len(others) >= FEW:
            slip = _slip(reading, others)
            if slip is not None:
                doubted.append(slip)
    # Where a third of a row is out of line, no one can say which part of it is wrong.
    if len(doubted) * 3 <= len(row):
        yield from doubted


def _in_pair(one: Reading, other: Reading) -> Iterator[Slip]:
    """Of two readings the one that is no usual size, and with one slip undone is as the other."""
    measures = measurands_of(one.measurand)
    alike = one.measurand == other.measurand and one.unit == other.unit and one.kind is not None
    if not alike or not measures or OWN.search(one.measurand):
        return
    usual = [
        r.si is not None and any(m.is_usual(r.si) for m in measures) and not _is_wide(r, measures)
        for r in (one, other)
    ]
    if not one.number or not other.number or not any(usual):
        return
    if (sign := _turned_in_pair(one, other)) is not None:
        yield sign
        return
    if not all(usual):
        within = _ALIKE_IN_PAIR
        odd, known = (other, one) if usual[0] else (one, other)
    elif one.kind not in _MADE_ALIKE or any(m.signed for m in measures):
        return
    elif one.kind is LENGTH and _is_small(one):
        return  # A clearance may be as small as this.
    else:
        within = _ALIKE_IF_USUAL
        known, odd = sorted((one, other), key=lambda r: _from_usual(r, measures[0]))
    for factor, code, words in _FACTORS:
        undone = odd.number / factor
        if abs(undone - known.number) <= within * abs(known.number):
            yield Slip(odd, code, undone, words, known.number, 1, abs(undone - known.number))
            return


# Two pistons of one engine come as near as this to each other, and stand so far (SI) from the
# face that one of them is not above it by chance.
_AS_DEEP, _CLEAR_OF_THE_FACE = 0.15, 2e-4


def _turned_in_pair(one: Reading, other: Reading) -> Slip | None:
    """Of two pistons, one below the deck and the other as far above it, the one above."""
    above, below = sorted((one, other), key=lambda r: r.number)
    if one.measurand != "deck_clearance" or not above.number < 0 < below.number:
        return None
    apart = abs(above.number + below.number)
    far = below.si is not None and below.si >= _CLEAR_OF_THE_FACE
    if not far or apart > _AS_DEEP * below.number:
        return None
    return Slip(above, "deck-sign", -above.number, _WRONG_WAY, below.number, 1, apart)


def _from_usual(reading: Reading, measure: Measurand) -> float:
    """How far a size is from the middle of what is usual, both on a scale of factors."""
    least, most = (max(abs(limit), 1e-9) for limit in measure.usual)
    return abs(math.log(abs(reading.si or least) / math.sqrt(least * most)))


def _is_wide(reading: Reading, measures: Sequence[Measurand]) -> bool:
    """Whether what may be on either side of zero is as far from it as only other engines have."""
    return reading.si is not None and any(
        m.signed and abs(reading.si) > _WIDE * max(map(abs, m.usual)) for m in measures
    )


def _are_no_siblings(row: Sequence[Reading]) -> bool:
    """Whether nothing says what numbers are, and they differ too much to be of one thing.

    The one that lies furthest out is left aside: it may be the slip.
    """
    if len(row) <= FEW or any(r.uses or r.kind is not None or r.measurand for r in row):
        return False
    ordered = sorted(r.number for r in row)
    reach = min(ordered[-2] - ordered[0], ordered[-1] - ordered[1])
    return reach > ALIKE * abs(ordered[len(ordered) // 2])


def _slip(reading: Reading, others: Sequence[float]) -> Slip | None:
    center, spread = center_and_spread(others)
    off = abs(reading.number - center)
    near_enough = off < FAR * spread or off < FAR * resolution(others)
    if near_enough and not _is_far_below(reading, others):
        return None
    spread = max(spread, resolution(others))
    near = NEAR * spread
    found = [
        Slip(reading, code, undone, words, center, len(others), misfit)
        for code, undone, words, slack in _undone(reading, center, spread, others)
        if (misfit := abs(undone - center)) <= max(near, slack) and misfit < off / 3
    ]
    return min(found, key=lambda s: s.misfit, default=None)


def _is_far_below(reading: Reading, others: Sequence[float]) -> bool:
    """Whether a number is a small part of the least of the others, however these scatter.

    What may be on either side of zero, or is a fault of form, can be as near to zero as any; but
    not nearer than a step of the gauge that the others were read with.
    """
    measures = measurands_of(reading.measurand)
    if len(others) < SEVERAL or not measures or not 0 < reading.number * _BEYOND <= min(others):
        return False
    near_zero = any(m.signed for m in measures) or OWN.search(reading.measurand)
    return not near_zero or reading.number < resolution(others) * 0.99


def _undone(
    reading: Reading, center: float, spread: float, others: Sequence[float]
) -> Iterator[tuple[str, float, str, float]]:
    """What a reading is with each known slip undone, and how near that must come at least."""
    value, siblings = reading.number, len(others)
    # Where a row scatters about zero, as a deck may, a factor or a sign means nothing.
    clear = abs(center) >= NEAR * spread
    beyond = abs(value) >= _BEYOND * max(map(abs, others)) or _is_far_below(reading, others)
    least, most = min(others), max(others)
    for factor, code, words in _FACTORS if clear or beyond else ():
        if not clear and not least <= value / factor <= most:
            continue
        # A clearance scatters by a quarter of itself; a factor of ten stands out all the same.
        yield code, value / factor, words, 0.25 * abs(center) if _is_small(reading) else 0.0
    if _is_size(reading, center):
        for turn, words in _TURNS[reading.system]:
            for sign, way in ((1, "high"), (-1, "low")):
                said = f"it was read {words} too {way}, {shown(turn, reading.unit)}"
                yield "one-turn", value - sign * turn, said, _TURN_SLACK * turn
    # Half of what is meant must itself lie far from it.
    fewest = FEW if _is_size(reading, center) else SEVERAL
    if siblings >= fewest and abs(center) >= 2 * FAR * spread and not _has_no_sides(reading):
        half = "the diameter is" if _is_size(reading, center) else "both sides together are"
        yield "half-or-double", value * 2, f"it is half of what is meant, and {half} twice it", 0.0
        yield "half-or-double", value / 2, "it is twice what is meant, counted once too often", 0.0
    if siblings >= SEVERAL and clear and value * center < 0:
        yield _SIGNS.get(reading.measurand, "wrong-sign"), -value, _WRONG_WAY, 0.0


def _has_no_sides(reading: Reading) -> bool:
    """Whether a reading is a depth, a height, a volume or a fault, which nobody takes per side.

    How far parts are from round scatters by more than half of itself.
    """
    measures = measurands_of(reading.measurand)
    if measures:
        return all(
            m.kind is not LENGTH or m.signed or "height" in m.noun or m.noun in FAULTS
            for m in measures
        )
    return reading.label is not None and _DEPTH_WORDS.search(reading.label.text) is not None


def _is_small(reading: Reading) -> bool:
    measures = measurands_of(reading.measurand)
    if measures:
        return all(m.kind is not LENGTH or m.usual[1] <= _MOST_CLEARANCE for m in measures)
    return reading.label is not None and _SMALL_WORDS.search(reading.label.text) is not None


def _is_size(reading: Reading, center: float) -> bool:
    """Whether a reading is a size that a micrometer or caliper gives."""
    if abs(center) < _LEAST_SIZE[reading.system] or _is_small(reading):
        return False
    if reading.kind is not None:
        return reading.kind is LENGTH
    return reading.label is not None and _SIZE_WORDS.search(reading.label.text) is not None

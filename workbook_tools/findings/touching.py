"""Parts that would touch: a valve and a piston, coils, ring ends, a shaft in too small a hole."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import NamedTuple

from workbook_tools.findings.evidence import Evidence, measurands_of
from workbook_tools.findings.finding import MORE, Finding, named, shown
from workbook_tools.findings.relations import behind
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Record
from workbook_tools.labels.label import Label
from workbook_tools.measurands.parts import is_one_of
from workbook_tools.quantities import LENGTH, System, from_si, to_si

_INCH = 0.0254


class Limit(NamedTuple):
    """The least of a clearance (SI) before parts touch, and why; gross, so that slips show.

    least: what no engine runs at, by common practice without a source; from memory all of them.
    """

    least: float
    why: str


# Steel rods stretch, and bearings give, by 0.010 to 0.025 in at high speed: an inline engine was
# seen to close 0.026 in at 6,500 rpm (common practice, no source).
_LIMITS: Mapping[str, Limit] = {
    "hot_quench": Limit(
        0.015 * _INCH, "a steel rod's stretch and the bearings' play take about that at speed"
    ),
    "running_quench": Limit(0.0, "the piston meets the head"),
    "intake_valve_to_piston": Limit(
        0.03 * _INCH, "the chain or belt gives, valves float, and rods stretch by as much"
    ),
    "exhaust_valve_to_piston": Limit(
        0.03 * _INCH, "the valve is hot and chased by the piston, and rods stretch by as much"
    ),
    "coil_bind_margin": Limit(0.02 * _INCH, "coils that touch break the spring or the rocker"),
    "hot_top_ring_gap": Limit(0.0, "the ends butt, and the ring scores the bore or breaks"),
    "hot_second_ring_gap": Limit(0.0, "the ends butt, and the ring scores the bore or breaks"),
}
# Filed gaps start at 0.0035 for each inch of bore; with less than half of that, ends butt in any
# engine (common practice, no source).
_LEAST_GAP = 0.0017
_GAPS = ("top_ring_gap", "second_ring_gap")
# What may be below zero: heights, skirts measured over their coating and, worked out, hot.
_MAY_BE_NEGATIVE = ("piston_clearance", "deck_clearance")
_PLAYS = ("_clearance", "_end_play", "_lash", "_ring_gap")
_ADVICE = "Measure again, and do not turn the engine over by its starter until it is settled."


class _Found(NamedTuple):
    """A clearance that was read or worked out: what it is of, where, how large in SI."""

    measurand: str
    place: Place
    label: Label | None
    si: float
    system: System
    judged: bool

    @property
    def shown(self) -> str:
        number = from_si(self.si, LENGTH, self.system)
        return shown(float(f"{number:.3g}"), LENGTH.unit(self.system))


def check_touching(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each clearance at which parts would touch, one for all of an item."""
    stretch = _stretch(evidence)
    bores = [s.si for s in evidence.finished("bore")]
    told: set[Place] = set()
    bore = min(bores, default=0.0)
    touching = [(f, why) for f in _all(evidence) if (why := _why(f, stretch, bore))]
    for found, why in sorted(touching, key=lambda one: one[0].si):
        if found.place not in told:
            told.add(found.place)
            yield _finding(found, why, behind(evidence, found.place))


def _all(evidence: Evidence) -> Iterator[_Found]:
    # One that is asked about, as it is so small, is of a line of which others are known.
    unsure = any(not s.sure for s in evidence.sizes)
    lines = {(s.place.sheet, s.label.text) for s in evidence.sizes if unsure and s.sure and s.label}
    for size in evidence.sizes:
        wished = size.stage.startswith("limit") or size.stage in ("target", "found")
        told = size.sure or (size.place.sheet, size.label.text if size.label else "") in lines
        if told and not wished and size.kind is LENGTH:
            judged = size.place in evidence.judged
            yield _Found(size.measurand, size.place, size.label, size.si, size.system, judged)
    for record in evidence.book.records:
        value = record.value
        length = record.function is not None and record.function.result is LENGTH
        if length and isinstance(value, (int, float)) and record.place.address:
            yield _of_result(record, float(value), evidence)


def _of_result(record: Record, value: float, evidence: Evidence) -> _Found:
    system = record.system
    return _Found(
        record.measurand, record.place, record.label, to_si(value, LENGTH, system), system,
        record.place in evidence.judged,
    )  # fmt: skip


def _stretch(evidence: Evidence) -> float:
    """How much the rods of this engine stretch, as the book works it out; 0.0 if it does not."""
    results = [
        to_si(value, LENGTH, record.system) for record, value in evidence.calls("ROD_STRETCH")
    ]
    return max(results, default=0.0)


def _why(found: _Found, stretch: float, bore: float) -> str:
    """Why parts would touch at a clearance, "" where they would not."""
    limit = _limit(found.measurand)
    if limit is not None:
        if found.measurand == "hot_quench" and found.si <= stretch:
            return "the rods stretch by more than that, as the book works it out"
        # What the builder judges by limits of his own is told by those, short of contact.
        least = 0.0 if found.judged else limit.least
        return limit.why if found.si < least or found.si < 0 else ""
    if found.measurand in _GAPS and 0 < found.si < _LEAST_GAP * bore and not found.judged:
        return "the ends butt when they warm up, and the ring scores the bore or breaks"
    if found.si < 0 and _is_play(found.measurand):
        return "that is an interference where a clearance belongs"
    return ""


@lru_cache(maxsize=1024)
def _limit(measurand: str) -> Limit | None:
    return next((_LIMITS[m.id] for m in measurands_of(measurand) if m.id in _LIMITS), None)


@lru_cache(maxsize=1024)
def _is_play(measurand: str) -> bool:
    if any(is_one_of(name, measurand) or name == measurand for name in _MAY_BE_NEGATIVE):
        return False
    measures = [m for m in measurands_of(measurand) if not m.id.startswith("hot_")]
    return bool(measures) and all(m.id.endswith(_PLAYS) for m in measures)


def _finding(found: _Found, why: str, sizes: tuple[Place, ...]) -> Finding:
    text = found.label.text if found.label else found.place.address
    place = frozenset({found.place})
    return Finding(
        "parts-touch",
        found.place,
        f"{named(found.label, found.place)} is {found.shown}{MORE}: {why} (common practice).",
        _ADVICE,
        sizes,
        group=("touching", found.place.sheet, text, found.measurand),
        explains=place,
        rests_on=place,
    )

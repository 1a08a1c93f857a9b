"""Openings and closings of valves that no pair of cams has together."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping

from workbook_tools.findings.evidence import WISHES, Evidence, Size
from workbook_tools.findings.finding import Finding, measured, shown

# From a dead center to the other, in degrees of the crank.
_HALF_TURN = 180.0
# What the middle of a lobe may be from top dead center, how long a valve may be open, and how
# much longer than its mate. Common practice, no source; wide, so that only slips show.
_CENTER, _OPEN, _APART = (85.0, 135.0), (150.0, 400.0), 45.0
_INTAKE = ("intake_opening", "intake_closing")
_EXHAUST = ("exhaust_opening", "exhaust_closing")
# Of slips that would mend it, one that leaves the lobes so much less alike is not told.
_AS_GOOD = 10.0
_SLIPS = ((10.0, "one place too far right"), (0.1, "one place too far left"))


def check_valve_events(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each event that makes a lobe no lobe, or unlike its mate.

    Told is the one event that a slip of its decimal point explains; where none does, all.
    """
    for events in _timings(evidence):
        degrees = {name: math.degrees(size.si) for name, size in events.items()}
        if not _wrong(degrees):
            continue
        mends = [
            (name, words, degrees[name] / factor)
            for name in degrees
            for factor, words in _SLIPS
            if not _wrong({**degrees, name: degrees[name] / factor})
        ]
        best = min((_unlike({**degrees, name: n}) for name, _, n in mends), default=0.0)
        near = [m for m in mends if _unlike({**degrees, m[0]: m[2]}) <= best + _AS_GOOD]
        yield _finding(events, degrees, near)


def _timings(evidence: Evidence) -> Iterator[Mapping[str, Size]]:
    """The four events of an engine, or of each bank or card, where they stand once each."""
    found: dict[tuple[str, str], dict[str, list[Size]]] = defaultdict(lambda: defaultdict(list))
    for size in evidence.sizes:
        is_event = size.measurand in (*_INTAKE, *_EXHAUST) and size.stage not in WISHES
        if is_event and size.typed and not evidence.is_withdrawn(size.place):
            found[size.place.sheet, size.part.which][size.measurand].append(size)
    for events in found.values():
        if len(events) == len((*_INTAKE, *_EXHAUST)) and all(len(s) == 1 for s in events.values()):
            yield {name: sizes[0] for name, sizes in events.items()}


def _open(degrees: Mapping[str, float], names: tuple[str, str]) -> float:
    return degrees[names[0]] + _HALF_TURN + degrees[names[1]]


def _center(degrees: Mapping[str, float], names: tuple[str, str]) -> float:
    """How far the middle of a lobe is from the top dead center at which both valves are open."""
    apart = degrees[names[1]] - degrees[names[0]]
    return (_HALF_TURN + (apart if names is _INTAKE else -apart)) / 2


def _wrong(degrees: Mapping[str, float]) -> bool:
    spans = [_open(degrees, names) for names in (_INTAKE, _EXHAUST)]
    centers = [_center(degrees, names) for names in (_INTAKE, _EXHAUST)]
    return (
        any(not _OPEN[0] <= span <= _OPEN[1] for span in spans)
        or any(not _CENTER[0] <= center <= _CENTER[1] for center in centers)
        or abs(spans[0] - spans[1]) > _APART
    )


def _unlike(degrees: Mapping[str, float]) -> float:
    """How much two lobes differ, in how long they last and in where their middles are."""
    spans, centers = (
        [of(degrees, names) for names in (_INTAKE, _EXHAUST)] for of in (_open, _center)
    )
    return abs(spans[0] - spans[1]) + abs(centers[0] - centers[1])


def _finding(
    events: Mapping[str, Size],
    degrees: Mapping[str, float],
    mends: list[tuple[str, str, float]],
) -> Finding:
    intake, exhaust = (_open(degrees, names) for names in (_INTAKE, _EXHAUST))
    names = list(dict.fromkeys(name for name, _, _ in mends)) or list(events)
    first = events[names[0]]
    fits = " or ".join(
        f"the decimal point of {events[name].name} is {words} ({measured(undone, 'deg')})"
        for name, words, undone in mends
    )
    others = tuple(s.place for s in events.values() if s is not first)
    listed = " and ".join(f"{events[n].name} is {shown(degrees[n], 'deg')}" for n in names)
    cells = frozenset(s.place for s in events.values())
    return Finding(
        "slipped-decimal" if mends else "does-not-fit",
        first.place,
        f"{listed}: with the other events the intake is open for {intake:.4g} deg and the "
        f"exhaust for {exhaust:.4g}, their middles {_center(degrees, _INTAKE):.4g} and "
        f"{_center(degrees, _EXHAUST):.4g} deg from top dead center, as no pair of cams is "
        f"(common practice).{f' It fits if {fits}.' if fits else ''}",
        "Read the wheel again, and say at each number from which dead center it is.",
        others,
        explains=cells,
        rests_on=frozenset({first.place}),
    )

"""The step in which a line of readings is written, from its finest digit."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Reading
from workbook_tools.measurands import find
from workbook_tools.quantities import LENGTH, from_si, to_si

# A length that is never above this (SI) is read to a thousandth of an inch at least.
_SMALL = 0.012
_FINEST = {"inch": 0.001, "metric": 0.01}


def resolution(values: Sequence[float]) -> float:
    """The step in which readings are written: 0.0005 where all are multiples of that."""
    decimals = max(map(_decimals, values))
    if max(map(abs, values)) > 10.0 ** (15 - decimals):
        return 10.0**-decimals  # A float has no more digits than these.
    common = math.gcd(*(round(abs(v) * 10**decimals) for v in values))
    return float((5 if common % 5 == 0 else 2 if common % 2 == 0 else 1) * 10.0**-decimals)


@lru_cache(maxsize=4096)
def _decimals(value: float) -> int:
    return len(f"{value:.7f}".rstrip("0").partition(".")[2])


def resolutions(readings: Sequence[Reading]) -> Mapping[Place, float]:
    """The step that the line of each reading is written in, by its cell, in the cell's unit."""
    written = steps(readings)
    return {
        r.place: from_si(step, r.kind, r.system) - from_si(0.0, r.kind, r.system)
        for r in readings
        if r.kind is not None
        if r.value is not None
        if (step := written.get((r.place.sheet, r.measurand))) is not None
    }


def steps(readings: Iterable[Reading]) -> Mapping[tuple[str, str], float]:
    """The step that each measurand is written in on each sheet, in SI."""
    written: dict[tuple[str, str], list[Reading]] = defaultdict(list)
    for reading in readings:
        if reading.value is not None and reading.kind is not None and reading.measurand:
            written[reading.place.sheet, reading.measurand].append(reading)
    found = {}
    for line, several in written.items():
        first = several[0]
        assert first.kind is not None
        step = resolution([r.number for r in several if r.unit == first.unit])
        if first.kind is LENGTH and (term := find(first.measurand)) and term.usual[1] < _SMALL:
            step = min(step, _FINEST[first.system])  # ".030" is no reading to a hundredth.
        origin = to_si(0.0, first.kind, first.system)
        found[line] = abs(to_si(step, first.kind, first.system) - origin)
    return found

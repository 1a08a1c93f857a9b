"""The expanded uncertainty of readings and results, where the shop says it of its gauges.

As the GUM (JCGM 100) has it: the standard uncertainty of a reading from its gauge and from the
step that it is written in, carried through the calls by their sensitivity coefficients, with
readings taken as independent of each other; U with a coverage factor of 2.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Book, Reading, Record
from workbook_tools.jobs.resolution import steps
from workbook_tools.jobs.sensitivity import Input, Makers, inputs, sensitivities
from workbook_tools.measurands.parts import is_one_of
from workbook_tools.quantities import COUNT, RATIO, from_si
from workbook_tools.settings.gauges import Gauge

COVERAGE = 2.0
# Numbers of these kinds are told and not measured.
_EXACT = (COUNT, RATIO)


class Uncertainty(NamedTuple):
    """The expanded uncertainty of a cell's number, in the cell's unit and in SI."""

    bare: float
    si: float
    unit: str


def uncertainties(book: Book, gauges: Sequence[Gauge]) -> Mapping[Place, Uncertainty]:
    """The expanded uncertainty of each number that all of it is known of, by its cell."""
    if not gauges:
        return {}
    of_readings = _of_readings(book.readings, gauges)
    found = {
        r.place: _expanded(of_readings[r.place], r) for r in book.readings if r.place in of_readings
    }
    makers = {r.place: r for r in book.records if r.whole and r.place.address}
    for record in book.records:
        if record.place.address and record.whole and isinstance(record.value, (int, float)):
            standard = _of_record(record, makers, of_readings)
            if standard is not None:
                found[record.place] = _expanded(standard, record)
    return found


def combined(slopes: Mapping[str, float], standard: Mapping[str, float]) -> float:
    """The combined standard uncertainty of what moves so with independent numbers."""
    return math.sqrt(sum((slope * standard[key]) ** 2 for key, slope in slopes.items()))


def _of_readings(readings: Iterable[Reading], gauges: Sequence[Gauge]) -> dict[Place, float]:
    """The standard uncertainty of each reading that a gauge is given for, in SI."""
    listed = list(readings)
    written = steps(listed)
    found = {}
    for reading in listed:
        gauge = _gauge(reading.measurand, gauges)
        if gauge is None or reading.si is None or reading.kind is None:
            continue
        # A number is written to the nearest step: a rectangle of that width.
        step = written.get((reading.place.sheet, reading.measurand), 0.0)
        found[reading.place] = math.hypot(gauge.expanded / COVERAGE, step / math.sqrt(12))
    return found


def _gauge(measurand: str, gauges: Sequence[Gauge]) -> Gauge | None:
    return next((g for g in gauges if any(is_one_of(measurand, m) for m in g.measures)), None)


def _of_record(record: Record, makers: Makers, of_readings: Mapping[Place, float]) -> float | None:
    """The combined standard uncertainty of a result in SI, None where a part of it is not known."""
    ends = inputs(record, makers)
    slopes = sensitivities(record, makers)
    if not ends or slopes.keys() != ends.keys():
        return None
    standard = {key: _of_input(one, of_readings) for key, one in ends.items()}
    known = {key: u for key, u in standard.items() if u is not None}
    if len(known) < len(ends) or not any(known.values()):
        return None
    return combined(slopes, known)


def _of_input(one: Input, of_readings: Mapping[Place, float]) -> float | None:
    argument = one.argument
    if argument.place is not None and argument.place in of_readings:
        return of_readings[argument.place]
    if argument.parts and all(place in of_readings for place, _ in argument.parts):
        return math.sqrt(sum((share * of_readings[p]) ** 2 for p, share in argument.parts))
    return 0.0 if one.parameter.kind in _EXACT else None


def _expanded(standard: float, of: Reading | Record) -> Uncertainty:
    kind = of.kind if isinstance(of, Reading) else of.function.result if of.function else None
    assert kind is not None
    bare = from_si(COVERAGE * standard, kind, of.system) - from_si(0.0, kind, of.system)
    return Uncertainty(bare, COVERAGE * standard, of.unit)

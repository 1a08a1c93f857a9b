"""The expanded uncertainty of readings and results, where the shop says it of its gauges.

As the GUM (JCGM 100) has it: the standard uncertainty of a reading from its gauge and from the
step that it is written in, carried through the calls by their sensitivity coefficients, those of
the book and those that the batch made. A reading that a result takes by several ways counts once,
with all of them. Readings by different gauges are taken as independent; those by one gauge share
what it is off by (5.2.4), so that they count as independent or as one, whichever gives more: a mean
of six is no better than the gauge. U with a coverage factor of 2.
"""

from __future__ import annotations

import math
import re
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from workbook_tools.formulas.references import Place, read_reference
from workbook_tools.jobs.records import Book, Reading, Record
from workbook_tools.jobs.resolution import steps
from workbook_tools.jobs.sensitivity import Input, Makers, inputs, is_exact, sensitivities
from workbook_tools.measurands import Position
from workbook_tools.measurands.parts import is_one_of
from workbook_tools.quantities import READING, Kind, System, from_si
from workbook_tools.settings.gauges import Gauge

COVERAGE = 2.0


# What has an uncertainty: a cell, or what the batch derived, which need not stand in one.
Key = Place | tuple[Place, str, Position]


class Uncertainty(NamedTuple):
    """The expanded uncertainty of a number, in its unit and in SI."""

    bare: float
    si: float
    unit: str

    @property
    def shown(self) -> str:
        """It with its unit, in two digits: more say nothing of it."""
        return f"{float(f'{self.bare:.2g}'):g} {self.unit}".strip()

    def unproved(self, value: float, low: float | None, high: float | None) -> str:
        """Which limit a number cannot be told from, "lower", "upper" or "" for none.

        All in the number's unit. A lower limit of 0 is none: nothing is rounder than round.
        """
        for side, limit in (("lower", low or None), ("upper", high)):
            # A number just as far off as the uncertainty is proved, however it rounds.
            if limit is not None and abs(value - limit) < self.bare * (1 - 1e-9):
                return side
        return ""


def key_of(record: Record) -> Key:
    """What a record's uncertainty is found by."""
    if record.computed_by_batch:
        return record.place, record.measurand, record.part
    return record.place


def uncertainties(book: Book, gauges: Sequence[Gauge]) -> Mapping[Key, Uncertainty]:
    """The expanded uncertainty of each number that all of it is known of."""
    return _uncertainties(book, tuple(gauges)) if gauges else {}


# What is found in a book and what is said of it ask for the same, one after the other.
@lru_cache(maxsize=1)
def _uncertainties(book: Book, gauges: tuple[Gauge, ...]) -> Mapping[Key, Uncertainty]:
    standard = _of_readings(book.readings, gauges)
    found: dict[Key, Uncertainty] = {
        r.place: _expanded(standard[r.place].si, r) for r in book.readings if r.place in standard
    }
    network = _network(book.records, standard)
    for record in book.records:
        in_its_place = record.computed_by_batch or (record.place.address and record.gives_its_cell)
        if in_its_place and isinstance(record.value, (int, float)):
            combined = _of_record(record, network)
            if combined is not None:
                found.setdefault(key_of(record), _expanded(combined, record))
    return found


def root_sum_square(contributions: Iterable[float]) -> float:
    """The combined standard uncertainty of independent contributions."""
    return math.sqrt(sum(one**2 for one in contributions))


class _Standard(NamedTuple):
    """The standard uncertainty of a reading, in SI and in its own unit, and by which gauge."""

    si: float
    bare: float
    gauge: str


class _Network(NamedTuple):
    """What results come from.

    standard: of the readings; makers: the calls that cells come from; same: cells that only
    repeat another, with that.
    """

    standard: Mapping[Place, _Standard]
    makers: Makers
    same: Mapping[Place, Place]


def _network(records: Sequence[Record], standard: Mapping[Place, _Standard]) -> _Network:
    makers: dict[Place, Record] = {}
    for record in records:
        # What the batch worked out beside a typed number did not make it.
        if record.place.address and record.gives_its_cell and not record.computed_by_batch:
            makers.setdefault(record.place, record)
    traced = (a for record in records for a in record.arguments)
    same = {
        a.place: there
        for a in traced
        if a.place is not None and (there := _repeated(a.formula, a.place.sheet)) is not None
    }
    makers |= {place: makers[there] for place, there in same.items() if there in makers}
    return _Network(standard, makers, same)


_REPEATS = re.compile(r'=(?:(?P<plain>[^(),"]+)|IF\((?P<cell>[^(),"]+)="","",(?P=cell)\))')


def _repeated(formula: str, sheet: str) -> Place | None:
    """The cell that a formula only repeats: =Block!E8, or IF(Block!E8="","",Block!E8)."""
    found = _REPEATS.fullmatch(formula)
    reference = read_reference(found["plain"] or found["cell"]) if found else None
    area = reference.area(sheet) if reference else None
    return area.place if area is not None and area.single else None


def _of_readings(readings: Iterable[Reading], gauges: Sequence[Gauge]) -> dict[Place, _Standard]:
    """The standard uncertainty of each reading that a gauge is given for."""
    listed = list(readings)
    written = steps(listed)
    numbers: dict[tuple[str, str], set[float]] = defaultdict(set)
    for one in listed:
        if one.value is not None:
            numbers[one.place.sheet, one.measurand].add(one.value)
    found = {}
    for reading in listed:
        gauge = _gauge(reading.measurand, gauges)
        if gauge is None or reading.si is None or reading.kind is None:
            continue
        line = reading.place.sheet, reading.measurand
        step = written.get(line, 0.0)
        if len(numbers[line]) == 1:
            # A cell drops the zeros at the end: 3.5 alone does not say that it was read to 0.5.
            step = min(step, gauge.expanded)
        # A number is written to the nearest step: a rectangle of that width.
        si = math.hypot(gauge.expanded / COVERAGE, step / math.sqrt(12))
        found[reading.place] = _Standard(si, _bare(si, reading.kind, reading.system), gauge.name)
    return found


def _gauge(measurand: str, gauges: Sequence[Gauge]) -> Gauge | None:
    return next((g for g in gauges if any(is_one_of(measurand, m) for m in g.measures)), None)


def _of_record(record: Record, network: _Network) -> float | None:
    """The combined standard uncertainty of a result in SI, None where a part of it is not known."""
    ends = inputs(record, network.makers)
    slopes = sensitivities(record, network.makers)
    measured = {key: one for key, one in ends.items() if not is_exact(one)}
    if not measured or slopes.keys() != measured.keys():
        return None
    by_cell: dict[Place, float] = defaultdict(float)
    for key, one in measured.items():
        cells = _cells(one, network.same)
        if not cells or any(place not in network.standard for place, _ in cells):
            return None
        for place, share in cells:
            of_cell = network.standard[place]
            in_its_unit = of_cell.bare if one.parameter.kind is READING else of_cell.si
            by_cell[place] += slopes[key] * share * in_its_unit
    by_gauge: dict[str, list[float]] = defaultdict(list)
    for place, contribution in by_cell.items():
        by_gauge[network.standard[place].gauge].append(contribution)
    return root_sum_square(
        max(root_sum_square(several), abs(sum(several))) for several in by_gauge.values()
    )


def _cells(one: Input, same: Mapping[Place, Place]) -> tuple[tuple[Place, float], ...]:
    """The cells that an input comes from, each with how far it moves with it."""
    argument = one.argument
    if argument.place is None:
        return argument.parts
    # What stands above the deck is taken with the other sign.
    sign = -1.0 if argument.text.startswith("-") else 1.0
    return ((same.get(argument.place, argument.place), sign),)


def _expanded(standard: float, of: Reading | Record) -> Uncertainty:
    kind = of.kind if isinstance(of, Reading) else of.function.result if of.function else None
    assert kind is not None
    return Uncertainty(_bare(COVERAGE * standard, kind, of.system), COVERAGE * standard, of.unit)


def _bare(apart: float, kind: Kind, system: System) -> float:
    """A difference in SI as one of bare numbers."""
    return from_si(apart, kind, system) - from_si(0.0, kind, system)

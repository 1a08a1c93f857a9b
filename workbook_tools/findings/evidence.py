"""What checks know of a book: its numbers by what they measure, rows of siblings, calls."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import NamedTuple

from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.books.places import cells_of
from workbook_tools.catalog import Parameter
from workbook_tools.findings.finding import named, shown
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.readings import in_bare_unit, number_of, position_of
from workbook_tools.jobs.records import Argument, Book, Reading, Record, Use, in_si
from workbook_tools.jobs.uses import declared, uses_by_place
from workbook_tools.jobs.verdicts import Judged, is_judge, judged_by
from workbook_tools.labels.label import Label
from workbook_tools.labels.nearest_text import is_position
from workbook_tools.measurands import Measurand, Position, Stage, find, of_property
from workbook_tools.measurands.parts import is_one_of
from workbook_tools.quantities import Kind, System

# Stages of what is aimed at, and no reading.
WISHES: tuple[Stage, ...] = ("target", "limit_low", "limit_high")
# A number within more words than a label has is compared with care; within more than these, no
# size is taken from the text.
_MOST_WORDS_OF_A_LABEL, _MOST_WORDS_OF_A_SIZE = 8, 14
# So many sizes in one sentence are the record of a part.
_A_RECORD = 3


class Taken(NamedTuple):
    """An argument that a call takes a single number for, bare and in SI."""

    record: Record
    argument: Argument
    parameter: Parameter
    number: float
    si: float

    @property
    def place(self) -> Place:
        """Its cell, or the formula's where it has none."""
        return self.argument.place or self.record.place


class Size(NamedTuple):
    """A number of a book that measures something: typed, computed, or written in a formula.

    sure: whether it was read and is not asked about; call: a call that takes it, None where
    there is none. The rest is as in Reading.
    """

    place: Place
    label: Label | None
    measurand: str
    part: Position
    stage: Stage
    number: float
    si: float
    kind: Kind
    system: System
    unit: str
    typed: bool
    sure: bool = True
    call: Record | None = None

    @property
    def name(self) -> str:
        """What the book calls it, with its cell."""
        return named(self.label, self.place)

    @property
    def shown(self) -> str:
        """The number with its unit, as people write it."""
        return shown(self.number, self.unit)


@dataclass(frozen=True)
class Evidence:
    """A book as checks look at it; everything is worked out once."""

    book: Book

    @cached_property
    def readings(self) -> tuple[Reading, ...]:
        """Every typed number that has a label or that a call uses."""
        return tuple(r for r in self.book.readings if r.value is not None and (r.label or r.uses))

    @cached_property
    def by_place(self) -> Mapping[Place, Reading]:
        """The readings by their cells."""
        return {r.place: r for r in self.readings}

    @cached_property
    def _at_place(self) -> Mapping[Place, Sequence[Reading]]:
        found: dict[Place, list[Reading]] = {}
        for reading in self.readings:
            found.setdefault(reading.place, []).append(reading)
        return found

    def reading_of(self, place: Place, measurand: str) -> Reading | None:
        """The reading of a cell, of several in it the one that measures this."""
        several = self._at_place.get(place, ())
        same = (r for r in several if is_one_of(r.measurand, measurand))
        return next(same, several[-1] if several else None)

    @cached_property
    def uses(self) -> Mapping[Place, Sequence[Use]]:
        """What calls take each cell for, the batch's own calls too."""
        return uses_by_place(self.book.records)

    @cached_property
    def given(self) -> tuple[tuple[Record, Argument, Parameter], ...]:
        """Every argument of a call, with the catalog's parameter that it is given for."""
        found = []
        for record in self.book.records:
            parameters = declared(record.function.name) if record.function else {}
            for argument in record.arguments:
                parameter = parameters.get(argument.name)
                if parameter is not None:
                    found.append((record, argument, parameter))
        return tuple(found)

    @cached_property
    def taken(self) -> tuple[Taken, ...]:
        """Every argument of a call that is one number."""
        return tuple(taken for one in self.given if (taken := _taken(*one)))

    @cached_property
    def taken_by_call(self) -> Mapping[int, Mapping[str, Taken]]:
        """The same by the id of the call's record and by the argument's name."""
        found: dict[int, dict[str, Taken]] = {}
        for taken in self.taken:
            found.setdefault(id(taken.record), {})[taken.argument.name] = taken
        return found

    @cached_property
    def sizes(self) -> tuple[Size, ...]:
        """Every number of which a call or a label says what it measures, once for each."""
        found: dict[tuple[Place, str], Size] = {}
        for reading in self.named:
            for size in self._of_reading(reading, self._names[reading.place, reading.measurand]):
                found[size.place, size.measurand] = size
        told = {place for place, _ in found} | self._withdrawn
        for taken in self.taken:
            place = taken.argument.place or taken.record.place
            if place in told:
                continue
            name = measurand_taken(taken.parameter)
            if name and (place, name) not in found:
                found[place, name] = _of_argument(taken, name)
        for stated in self.book.stated:
            si = stated.si
            if si is not None and (stated.place, stated.measurand) not in found:
                found[stated.place, stated.measurand] = Size(
                    stated.place, stated.label, stated.measurand, stated.part, stated.stage,
                    stated.value, si, stated.kind, stated.system, stated.unit, typed=False,
                )  # fmt: skip
        return tuple(found.values())

    def _of_reading(self, reading: Reading, names: Sequence[str]) -> Iterator[Size]:
        """A reading as each of the things that calls take it for, or that its label says."""
        reading = in_bare_unit(reading)
        si = reading.si
        if si is None or reading.kind is None:
            return
        uses = self.uses.get(reading.place, ())
        # What only a resembling label names is asked first; a long text explains something.
        explains = _words(reading) > _MOST_WORDS_OF_A_SIZE
        if not uses and (explains or all(e.how == "proposal" for e in reading.evidence)):
            return
        for name in names:
            call = next((u.record for u in uses if _is_for(name, named_by(u.parameter))), None)
            yield Size(
                reading.place, reading.label, name, reading.part, reading.stage, reading.number,
                si, reading.kind, reading.system, reading.unit, typed=True,
                sure=reading.state == "read" or bool(uses), call=call,
            )  # fmt: skip

    @cached_property
    def _names(self) -> Mapping[tuple[Place, str], tuple[str, ...]]:
        """What calls take each reading for, or its label where it says it more exactly."""
        uses = self.uses
        several = Counter(r.place for r in self.readings)
        found: dict[tuple[Place, str], tuple[str, ...]] = {}
        for r in self.readings:
            if r.place not in uses:
                found[r.place, r.measurand] = (r.measurand,) if r.measurand else ()
                continue
            taken = [named_by(u.parameter) for u in uses[r.place]]
            if several[r.place] > 1:  # Each of several numbers in a cell is what its name says.
                taken = [name for name in taken if is_one_of(r.measurand, name)]
            found[r.place, r.measurand] = _names_of(r.measurand, tuple(taken))
        return found

    @cached_property
    def named(self) -> tuple[Reading, ...]:
        """The readings of which a call or a label says what they measure."""
        return tuple(r for r in self.readings if self._names[r.place, r.measurand])

    def measures(self, reading: Reading) -> tuple[Measurand, ...]:
        """What a reading measures, by its label and by the calls that take it."""
        return _measures(self._names[reading.place, reading.measurand])

    def is_withdrawn(self, place: Place) -> bool:
        """Whether a number was struck through: there is one, and nothing is read of it."""
        return place in self._withdrawn

    @cached_property
    def _withdrawn(self) -> frozenset[Place]:
        return frozenset(
            r.place
            for r in self.book.readings
            if r.state == "refused" and r.value is None and isinstance(r.raw, (int, float))
        )

    def is_in_a_sentence(self, size: Size) -> bool:
        """Whether so many words stand around a number that it may be an example of something.

        A sentence with several sizes of one part is its record.
        """
        reading = self.reading_of(size.place, size.measurand)
        if reading is None or _words(reading) <= _MOST_WORDS_OF_A_LABEL:
            return False
        return not size.part.number or len(self._at_place[size.place]) < _A_RECORD

    def of(self, name: str) -> tuple[Size, ...]:
        """The sizes of a measurand, or of a property of any part; wishes and limits left out."""
        known = self._of.get(name)
        if known is None:
            sizes = self._finished_by_name
            found = [one for each in _names_within(name) for one in sizes.get(each, ())]
            known = self._of[name] = tuple(s for _, s in sorted(found, key=lambda one: one[0]))
        return known

    @cached_property
    def _of(self) -> dict[str, tuple[Size, ...]]:
        """The sizes that were asked for, by name."""
        return {}

    @cached_property
    def _finished_by_name(self) -> Mapping[str, Sequence[tuple[int, Size]]]:
        """The sure sizes by what they measure, each with its place among all."""
        found: dict[str, list[tuple[int, Size]]] = {}
        for n, size in enumerate(self.sizes):
            if size.sure and size.stage not in WISHES:
                found.setdefault(size.measurand, []).append((n, size))
        return found

    def finished(self, name: str) -> tuple[Size, ...]:
        """The same without sizes as found, where there are others."""
        sizes = self.of(name)
        return tuple(s for s in sizes if s.stage != "found") or sizes

    def calls(self, name: str) -> Sequence[tuple[Record, float]]:
        """The calls of this function that give a number, with it."""
        return self._calls.get(name, ())

    @cached_property
    def _calls(self) -> Mapping[str, Sequence[tuple[Record, float]]]:
        found: dict[str, list[tuple[Record, float]]] = {}
        for r in self.book.records:
            if r.function is None or isinstance(r.value, bool):
                continue
            if isinstance(r.value, (int, float)):
                found.setdefault(r.function.name, []).append((r, float(r.value)))
        return found

    @cached_property
    def verdicts_by_call(self) -> Mapping[int, tuple[Judged, ...]]:
        """Each number that a call judges as it was saved, by the id of the call's record."""
        return {id(r): tuple(judged_by(r)) for r in self.book.records if is_judge(r)}

    @cached_property
    def verdicts(self) -> tuple[Judged, ...]:
        """Each number that the book judges by limits of its own, as it was saved."""
        return tuple(j for several in self.verdicts_by_call.values() for j in several)

    @cached_property
    def judged(self) -> frozenset[Place | None]:
        """The cells that the book judges by limits of its own."""
        return frozenset(j.place for j in self.verdicts)

    @cached_property
    def makers(self) -> Mapping[Place, Record]:
        """The calls that are the whole of a cell, by the cell."""
        return {r.place: r for r in self.book.records if r.whole and r.function is not None}

    @cached_property
    def called(self) -> frozenset[Place]:
        """The cells of formulas that call a function of ours."""
        return frozenset(r.place for r in self.book.records if not r.computed_by_batch)

    @cached_property
    def failures(self) -> tuple[Record, ...]:
        """Records without a value; of calls within calls only the one that the trouble is in."""
        # An outer call comes before the calls in its arguments and takes over their problem; an
        # inner call that has a value only stands in a cell that has none.
        found: dict[tuple[Place, str, Place | None], Record] = {}
        for record in self.book.records:
            # What the batch would compute stands in no cell; the cell it needs tells it apart.
            argument = blamed_argument(record) if record.computed_by_batch else None
            key = record.place, record.problem, argument.place if argument else None
            if record.problem and (key not in found or record.value is None):
                found[key] = record
        return tuple(found.values())

    @property
    def finished_on(self) -> str:
        """When the engine was finished, as the book says it, "" where it gives no date."""
        text = self.book.job.finished.text
        return text if any(c.isdigit() for c in text) else ""

    @cached_property
    def rows(self) -> tuple[tuple[Reading, ...], ...]:
        """The readings that are siblings: one item of several cylinders, journals or valves.

        Where a position comes a second time under the same label, another table begins. Cells
        read together by one call (a bore at six places) are siblings too.
        """
        found: dict[tuple[str, ...], list[dict[str, Reading]]] = {}
        for reading in self.readings:
            label = reading.label
            if label is None or not (is_position(label.position) or _is_on_a_part(reading)):
                continue
            if is_position(label.text) and not reading.measurand:
                continue
            if reading.stage in WISHES:
                continue
            of = reading.part.of or of_what(label.position)
            # One head may stand over the gaps of several rings.
            key = (
                reading.place.sheet, label.text.casefold(), label.unit, of, reading.stage,
                reading.measurand,
            )  # fmt: skip
            tables = found.setdefault(key, [])
            free = [t for t in tables if label.position not in t]
            # The same label may stand over two columns, whose cells come by turns.
            lines = [t for t in free if _is_in_line(reading, next(iter(t.values())))]
            lines = lines or [t for t in free if len(free) > 1 and _is_below_one(reading, t)]
            table = lines[0] if lines else tables[-1] if tables and tables[-1] in free else {}
            if not table:
                tables.append(table)
            table[label.position] = reading
        return (*(tuple(t.values()) for ts in found.values() for t in ts), *self._read_together())

    def _read_together(self) -> Iterator[tuple[Reading, ...]]:
        for cells in dict.fromkeys(cells for _, _, cells in self.blocks):
            block = tuple(self.by_place[p] for p in cells if p in self.by_place)
            if len({r.label.text if r.label else "" for r in block}) > 1:
                yield block

    @cached_property
    def blocks(self) -> tuple[tuple[Record, Place, tuple[Place, ...]], ...]:
        """The ranges that calls take rows of readings from, each once, with its cells."""
        found: dict[tuple[Place, str], tuple[Record, Place, tuple[Place, ...]]] = {}
        for record, argument, parameter in self.given:
            if parameter.block and argument.place is not None:
                key = argument.place, record.name
                found.setdefault(key, (record, argument.place, cells_of(argument.place)))
        return tuple(found.values())


def _is_in_line(one: Reading, other: Reading) -> bool:
    """Whether two readings stand in one row or column."""
    (row, column), (their_row, their_column) = spot(one.place), spot(other.place)
    return row == their_row or column == their_column


def _is_on_a_part(reading: Reading) -> bool:
    """Whether a label says where on which part: "Cyl 1 top A", whose A may be of a bank too."""
    told = reading.label is not None and bool(reading.label.position)
    return told and bool(reading.part.number and reading.part.at)


def _is_below_one(reading: Reading, table: Mapping[str, Reading]) -> bool:
    """Whether a reading stands in the column of any of a table."""
    column = spot(reading.place)[1]
    return any(spot(other.place)[1] == column for other in table.values())


@lru_cache(maxsize=1)
def evidence_of(book: Book) -> Evidence:
    """A book as checks look at it, the same for all that look at it one after the other."""
    return Evidence(book)


def _words(reading: Reading) -> int:
    """How many words the text has that a number stands in."""
    return len(reading.raw.split()) if isinstance(reading.raw, str) else 0


def _taken(record: Record, argument: Argument, parameter: Parameter) -> Taken | None:
    number = number_of(argument.value, parameter.kind, record.system)
    if number is None:
        return None
    si = in_si(number, parameter.kind, record.system)
    return Taken(record, argument, parameter, number, number if si is None else si)


def _of_argument(taken: Taken, name: str) -> Size:
    record, argument = taken.record, taken.argument
    typed = argument.place is not None and not argument.formula
    return Size(taken.place, argument.label, name, position_of(argument.label), "",
                taken.number, taken.si, taken.parameter.kind, record.system, argument.unit,
                typed, call=record)  # fmt: skip


def named_by(parameter: Parameter) -> str:
    """The measurand, the property or only the name of a parameter."""
    return parameter.measurand or parameter.name


def measurand_taken(parameter: Parameter) -> str:
    """What a parameter measures: a measurand or a property, "" where it takes anything.

    Many parameters that do not say it are named by it.
    """
    name = named_by(parameter)
    return name if measurands_of(name) else ""


@lru_cache(maxsize=1024)
def _names_within(name: str) -> tuple[str, ...]:
    """A measurand, or a property of any part, with the measurands that are this property."""
    return tuple(dict.fromkeys((name, *(m.id for m in of_property(name)))))


@lru_cache(maxsize=4096)
def _names_of(named: str, uses: tuple[str, ...]) -> tuple[str, ...]:
    """What a number is, which a label names and calls take for these."""
    taken = [name for name in uses if measurands_of(name)]
    other = [name for name in dict.fromkeys(taken) if not is_one_of(named, name)]
    by_label = named and (not taken or len(other) < len(set(taken)))
    return (named, *other) if by_label else tuple(other)


@lru_cache(maxsize=1024)
def _measures(names: tuple[str, ...]) -> tuple[Measurand, ...]:
    return tuple(m for name in names for m in measurands_of(name))


@lru_cache(maxsize=4096)
def _is_for(name: str, taken: str) -> bool:
    return bool(measurands_of(taken)) and is_one_of(name, taken)


@lru_cache(maxsize=1024)
def measurands_of(name: str) -> tuple[Measurand, ...]:
    """The measurands that a name stands for: one, or a property of each part that has it."""
    one = find(name)
    return (one,) if one else of_property(name)


@lru_cache(maxsize=1024)
def usual_range(name: str) -> tuple[float, float] | None:
    """The usual range of a measurand in SI, of a property over all parts that have it."""
    ranges = [m.usual for m in measurands_of(name)]
    if not ranges:
        return None
    return min(low for low, _ in ranges), max(high for _, high in ranges)


def told_at(record: Record) -> tuple[Place, tuple[Place, ...]]:
    """Where a result is told, and the cells that its call takes.

    What the batch computes stands in no cell; the first size that it comes from does.
    """
    cells = tuple(a.place for a in record.arguments if a.place)
    return next((p for p in (record.place, *cells) if p.address), record.place), cells


def blamed_argument(record: Record) -> Argument | None:
    """The argument that a record's problem is about, where it was given at all."""
    return next((a for a in record.arguments if a.name == record.blamed), None)


def parameter_of(record: Record, argument: Argument) -> Parameter | None:
    """The catalog's parameter that an argument is given for."""
    return declared(record.function.name).get(argument.name) if record.function else None


def near(sizes: Sequence[Size], sheet: str) -> Sequence[Size]:
    """The sizes on this sheet, all of them where there is none."""
    return [s for s in sizes if s.place.sheet == sheet] or sizes


@lru_cache(maxsize=10_000)
def _spot_of(address: str) -> tuple[int, int]:
    row, column = coordinate_to_tuple(address.split(":")[0])
    return row, column


def spot(place: Place) -> tuple[int, int]:
    """(row, column) of a cell, of a range its first."""
    return _spot_of(place.address)


@lru_cache(maxsize=4096)
def number_at(position: str) -> int | None:
    """The number in a position, 4 of "Main 4"; None where there is none, or several."""
    found = re.findall(r"\d+", position)
    return int(found[0]) if len(found) == 1 else None


@lru_cache(maxsize=4096)
def of_what(position: str) -> str:
    """What a position numbers: "main" of "Main 4", "" where it is a number or side alone."""
    word = re.sub(r"[^a-z]", "", position.casefold())
    return word if len(word) > 1 and re.search(r"\d", position) else ""


# Another head or a turned sign moves a ratio by more than this; rounding by less.
RATIO_SLACK = 0.5

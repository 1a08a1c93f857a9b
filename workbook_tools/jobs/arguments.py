"""What each argument of a derived result is taken from, through other derived results too."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from workbook_tools.formulas.references import Place
from workbook_tools.jobs.batch_records import batch_record
from workbook_tools.jobs.derivable import Derivable, Derivables, Lacks, Way
from workbook_tools.jobs.known import Known
from workbook_tools.jobs.records import Record
from workbook_tools.jobs.sources import Readings, Source
from workbook_tools.labels.content import MISSING
from workbook_tools.labels.label import Label
from workbook_tools.measurands import find
from workbook_tools.measurands.measurand import Of

# What is numbered apart from the cylinders; rods, valves and rings are numbered as these.
_APART: tuple[Of, ...] = ("main", "cam_bearing", "bearing", "fastener_group")


@dataclass(frozen=True)
class Made:
    """A derived result: its record, and what its arguments were taken from."""

    record: Record
    sources: Mapping[str, Source]

    @property
    def open_end(self) -> Source | None:
        """The argument that stands in its way."""
        return next((s for s in self.sources.values() if not s.usable), None)

    @cached_property
    def source(self) -> Source:
        """It as an argument of another call."""
        record, bad = self.record, self.open_end
        label = Label(record.label.text if record.label else "")
        text = record.formula.removeprefix("=")
        if record.value is not None:
            return Source(text, record.value, None, label, by=record)
        if bad is None:
            return Source(text, None, None, label, record.problem)
        return bad._replace(text=text, value=None, problem=bad.problem or MISSING)


@dataclass(frozen=True)
class Network:
    """A job's readings, what may be derived from them, and what was already.

    cylinders: how many there are, where the book says it or they can be counted.
    """

    readings: Readings
    derivables: Derivables
    cylinders: Source | None
    made: dict[tuple[str, str], Made | None] = field(default_factory=dict)

    @cached_property
    def lacks(self) -> Lacks:
        """What names and ways lack, as in any job of the same form: it has the same names."""
        return self.derivables.lacks_of(self.readings.names, self.cylinders is not None)

    def result(self, entry: Derivable, position: str) -> Made | None:
        """A derived result of one position, None where an argument is nowhere in the book."""
        key = entry.measurand.id, position
        if key not in self.made:
            self.made[key] = None  # What needs itself is not derived.
            self.made[key] = _first(self._results(entry, position))
        return self.made[key]

    def _results(self, entry: Derivable, position: str) -> Iterator[Made]:
        if entry.unless_read and self.readings.was_read(entry.measurand.id):
            return
        # What a part is meant to be says nothing against what it was measured at.
        recorded = None if entry.target else self.readings.recorded(entry.measurand.id, position)
        for way in entry.ways:
            if self.readings.outlives(entry.measurand.id, way.measurands, position):
                continue
            sources = self._arguments(entry, way, position)
            if sources is not None:
                yield self._made(entry, way, sources, position, recorded)

    def _made(
        self,
        entry: Derivable,
        way: Way,
        sources: Mapping[str, Source],
        position: str,
        recorded: Known | None,
    ) -> Made:
        """A result of these sources, worked out once for all that is asked of a job."""
        system = self.readings.system

        def work() -> Made:
            return Made(batch_record(entry, way, sources, position, system, recorded), sources)

        of = entry, way, recorded, *sources.values()
        return self.readings.remembered.once(("made", position, system), of, work)

    def _arguments(self, entry: Derivable, way: Way, position: str) -> dict[str, Source] | None:
        found: dict[str, Source] = {}
        for parameter in way.function.parameters:
            if parameter.name in way.words:
                word = way.words[parameter.name]
                found[parameter.name] = self.readings.same(Source(f'"{word}"', word, None, None))
            if parameter.name not in way.arguments:
                continue
            names = way.arguments[parameter.name]
            if parameter.name == entry.mean_square:
                source = self._mean_square(names[0])
            elif parameter.block and len(names) == 1:
                source = self.readings.block(names[0])
            else:
                source = _sum([self.source(n, position, entry.measurand.of) for n in names])
            if source is None:
                return None
            found[parameter.name] = source
        return found

    def _mean_square(self, name: str) -> Source | None:
        """All cylinders' sizes as one, where there is one of each or one for all."""
        several = self.readings.mean_square(name)
        count = self.cylinders.value if self.cylinders else None
        if several is None or several[0] not in (1, count):
            return None
        return self.readings.same(several[1])

    def source(self, name: str, position: str, of: Of) -> Source | None:
        """What an argument takes: a reading, else what derives it, else the sum of its parts.

        position: that of the result, which is of this: the reading is of the same one, or of
        what that belongs to.
        """
        if name == "cylinder_count":
            return self.cylinders
        where = position if numbered_alike(of, name) else ""
        read = self.readings.source(name, where)
        if read is None and of == "engine":
            read = self.readings.agreed(name)
        if read is not None and (read.value is not None or read.problem):
            return read
        if not self.readings.was_read(name):
            for entry in self.derivables.of(name):
                made = self.result(entry, where)
                if made is not None:
                    return made.source
            parts = self._parts(name, where)
            if parts is not None:
                return parts
        return read._replace(problem="") if read is not None else None

    def _parts(self, name: str, position: str) -> Source | None:
        """The sum of the parts of a measurand that the book gives instead of it."""
        for names in self.derivables.sums.get(name, ()):
            there = [n for n in names if self.readings.has(n)]
            if there:
                return _sum([self.readings.source(n, position) for n in there])
        return None

    def positions(self, entry: Derivable) -> list[str]:
        """The positions that a result has, in the order of the book."""
        if entry.measurand.of == "engine":
            return [""]
        names = [n for n in self.leaves(entry) if numbered_alike(entry.measurand.of, n)]
        return self.readings.positions(dict.fromkeys(names))

    def leaves(self, entry: Derivable) -> Iterator[str]:
        """The readings that a result rests on, by each of its ways."""
        for name in (n for way in entry.ways for n in way.measurands):
            yield from self._leaves(name)

    def _leaves(self, name: str) -> Iterator[str]:
        inner = () if self.readings.was_read(name) else self.derivables.of(name)
        yield name
        for entry in inner:
            yield from self.leaves(entry)
        yield from (n for names in self.derivables.sums.get(name, ()) for n in names)

    def lacking(self, way: Way) -> list[str]:
        """What the book does not have at all of what a way to a result takes."""
        found = self.lacks.of_ways.get(way.measurands)
        if found is None:
            names = (n for name in way.measurands for n in self._lacking(name))
            found = self.lacks.of_ways[way.measurands] = list(dict.fromkeys(names))
        return found

    def _lacking(self, name: str) -> Iterable[str]:
        found = self.lacks.of_names.get(name)
        if found is None:
            found = self.lacks.of_names[name] = tuple(self._worked_lacking(name))
        return found

    def _worked_lacking(self, name: str) -> Iterable[str]:
        known = self.cylinders is not None if name == "cylinder_count" else self.readings.has(name)
        sums = self.derivables.sums.get(name, ())
        if known or any(self.readings.has(n) for names in sums for n in names):
            return ()
        inner = self.derivables.of(name)
        if any(not self.lacking(way) for entry in inner for way in entry.ways):
            return ()
        steps = [self.lacking(entry.ways[0]) for entry in inner if entry.step]
        return steps[0] if steps else (name,)


def numbered_alike(of: Of, name: str) -> bool:
    """Whether a measurand's numbers are those of what a result is of: a rod's are a cylinder's."""
    measurand = find(name)
    if measurand is None or of == "engine":
        return False
    if of in _APART or measurand.of in _APART:
        return measurand.of == of
    return True


def _first(results: Iterator[Made]) -> Made | None:
    """The first result that has a value, else the first that would have one."""
    found = None
    for made in results:
        if made.record.value is not None:
            return made
        found = found or made
    return found


def _sum(sources: Sequence[Source | None]) -> Source | None:
    """Several sources added up; only bare numbers can be."""
    given = [s for s in sources if s is not None]
    if len(given) != len(sources) or not given:
        return None
    bad = next((s for s in given if not s.usable), None)
    if len(given) == 1 or bad is not None:
        return bad or given[0]
    values = [s.value for s in given if isinstance(s.value, (int, float))]
    if len(values) != len(given):
        return None
    # How far a call that is added moves with its cells cannot be told as parts.
    parts = () if any(s.by for s in given) else tuple(p for s in given for p in _parts_of(s))
    return Source("+".join(s.text for s in given), sum(values), None, given[0].label, parts=parts)


def _parts_of(source: Source) -> tuple[tuple[Place, float], ...]:
    if source.place is None:
        return source.parts
    return ((source.place, -1.0 if source.text.startswith("-") else 1.0),)

"""What a book states, beside what its own sizes give for the same thing.

Two sources say what follows from what: the table of measurands (a clearance is a bore less a
piston), and the calls of the catalog that the book or the batch makes (a ratio comes from
volumes, these from sizes).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from workbook_tools.findings.evidence import Evidence, Size, spot
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.derivable import derivables
from workbook_tools.jobs.readings import position_of
from workbook_tools.jobs.records import Record, in_si
from workbook_tools.jobs.resolution import steps
from workbook_tools.jobs.sensitivity import Input, Work, again, inputs
from workbook_tools.measurands import Measurand, find
from workbook_tools.measurands.order import Order, evaluate
from workbook_tools.measurands.parts import is_one_of
from workbook_tools.measurands.table import all_measurands, of_property
from workbook_tools.quantities import LENGTH, READING

# A formula of this many sizes at most: more of them carry too much rounding.
_MOST_INPUTS = 4
# As much may the bores of one engine differ, for one of them to stand for all.
_ALIKE = 0.001
# What is said of a whole engine, and rounded by more than its digits tell.
ADVERTISED = ("displacement", "compression_ratio")

# The step that a measurand is written in on a sheet, in SI.
Written = Mapping[tuple[str, str], float]


@dataclass(frozen=True)
class Relation:
    """A stated number with what its sizes give, of one position.

    slack: how far both may be apart by the decimals that they are written with; by: the call
    that gives it, None where the table of measurands does.
    """

    term: Measurand
    stated: Size
    sizes: Mapping[str, Size]
    work: Work
    worked: float
    slack: float
    by: Record | None = None

    @property
    def holds(self) -> bool:
        """Whether both agree."""
        return abs(self.worked - self.stated.si) <= self.slack


@lru_cache(maxsize=1)
def relations(evidence: Evidence) -> tuple[tuple[Relation, ...], ...]:
    """Every relation of a book whose parts all stand in it, those of one formula together."""
    return tuple(_relations(evidence))


@lru_cache(maxsize=1)
def _links(evidence: Evidence) -> tuple[Mapping[Place, list[Place]], Mapping[Place, list[Place]]]:
    """The results of each cell's own part, and the cells that each result comes from."""
    made: dict[Place, list[Place]] = defaultdict(list)
    behind: dict[Place, list[Place]] = defaultdict(list)

    def link(result: Place, cell: Place) -> None:
        if result.address and cell.address and result != cell:
            made[cell].append(result)
            behind[result].append(cell)

    for relation in (one for several in relations(evidence) for one in several):
        for size in relation.sizes.values() if relation.stated.kind is LENGTH else ():
            if size.part.which == relation.stated.part.which:
                link(relation.stated.place, size.place)
    for record in evidence.book.records:
        if record.function is not None and record.function.result is LENGTH:
            for argument in record.arguments:
                if argument.place is not None and ":" not in argument.place.address:
                    link(record.place, argument.place)
    return made, behind


def made_from(evidence: Evidence, place: Place) -> tuple[Place, ...]:
    """The clearances and heights of its own part that a size makes, at their cells."""
    return tuple(dict.fromkeys(_links(evidence)[0].get(place, ())))


def behind(evidence: Evidence, place: Place) -> tuple[Place, ...]:
    """The sizes that a clearance or height comes from, at their cells."""
    return tuple(dict.fromkeys(_links(evidence)[1].get(place, ())))


def _relations(evidence: Evidence) -> Iterator[tuple[Relation, ...]]:
    written = steps(evidence.readings)
    told = set()
    for term, order in _orders():
        found = tuple(_by_order(evidence, term, order, written))
        told |= {(r.term.id, r.stated.place) for r in found}
        yield found
    by_term: dict[str, list[Relation]] = defaultdict(list)
    for relation in _by_calls(evidence, written):
        if (relation.term.id, relation.stated.place) not in told:
            by_term[relation.term.id].append(relation)
    yield from map(tuple, by_term.values())


@cache
def _orders() -> tuple[tuple[Measurand, Order], ...]:
    return tuple(
        (one, order)
        for one in all_measurands()
        for order in one.orders
        if order.relation == "=" and 1 < len(order.names) <= _MOST_INPUTS
    )


def _stated(evidence: Evidence, name: str) -> Iterator[Size]:
    """What a book states of a measurand: typed, or by the builder's own arithmetic.

    What a formula gives that stands there already is shown once more, and not stated again.
    """
    before: set[tuple[str, float]] = set()
    for size in sorted(_read(evidence, name), key=lambda s: not s.typed):
        if evidence.is_in_a_sentence(size):
            continue
        # A call of ours is recomputed already; what one is to work towards is only wanted.
        wanted = size.call is not None and "_FOR_" in size.call.name
        said = size.part.which, size.si
        again = not size.typed and said in before
        if size.place not in evidence.called and not wanted and not again:
            before.add(said)
            yield size


def _read(evidence: Evidence, name: str) -> Iterator[Size]:
    """The finished sizes of a measurand that were read without a question."""
    for size in evidence.finished(name):
        reading = evidence.reading_of(size.place, size.measurand)
        if reading is None or reading.state == "read":
            yield size


def _by_order(
    evidence: Evidence, term: Measurand, order: Order, written: Written
) -> Iterator[Relation]:
    """The relations that a formula of the table gives, at each position that has its sizes."""
    if not evidence.of(term.id):
        return
    stated = [s for s in _stated(evidence, term.id) if s.call is None and s.measurand == term.id]
    if not stated:
        return
    given = {name: _by_position(evidence, name, term) for name in order.names}
    if not all(given.values()):
        return

    def work(values: Mapping[str, float]) -> float | None:
        try:
            return float(evaluate(order.formula, values))
        except (ArithmeticError, ValueError, KeyError):
            return None

    for size in stated:
        if size.typed and term.id == "displacement":
            continue  # The call counts the cylinders.
        found = {name: s for name in order.names if (s := _at(given[name], size)) is not None}
        worked = work({name: s.si for name, s in found.items()})
        if len(found) == len(order.names) and worked is not None:
            slack = _slack(evidence, work, size, found, worked, written)
            yield Relation(term, size, found, work, worked, slack)


def _by_position(
    evidence: Evidence, name: str, term: Measurand
) -> Mapping[tuple[int, str], Sequence[Size]]:
    """The finished sizes of a measurand, or of the property as the same part has it."""
    names = [name] if find(name) else [m.id for m in of_property(name) if m.of == term.of]
    found: dict[tuple[int, str], list[Size]] = defaultdict(list)
    for one in names:
        for size in _read(evidence, one):
            found[size.part.number, size.part.bank].append(size)
    return found


def _at(sizes: Mapping[tuple[int, str], Sequence[Size]], stated: Size) -> Size | None:
    """The size of the same position, or the one that there is for all; None where two differ."""
    if stated.stage != "found":
        sizes = {
            at: kept
            for at, several in sizes.items()
            if (kept := [s for s in several if s.stage != "found"])
        }
    here = sizes.get((stated.part.number, stated.part.bank)) or sizes.get((0, ""))
    if here is None and not stated.part.number:
        # Of the whole engine: any of them stands for the others, where all are nearly alike.
        every = [s for several in sizes.values() for s in several]
        if not every:
            return None
        least, most = min(s.si for s in every), max(s.si for s in every)
        here = every[:1] if most - least <= _ALIKE * abs(most) else None
    if not here:
        return None
    same = [s for s in here if s.place.sheet == stated.place.sheet] or list(here)
    # Beside a size that says that it is of the finished part, one that says nothing may be older.
    done = [s for s in same if s.stage == stated.stage == "final"]
    same = done if len(done) < len(same) and done else same
    # Of several of one part, as two valves of a cylinder, each row or column is one's own.
    own = [s for s in same if _in_line(s.place, stated.place)] if len(same) > 1 else []
    same = own if len(own) == 1 else same
    first = same[0]
    if any(abs(s.si - first.si) > 1e-9 + 1e-7 * abs(first.si) for s in same):
        return None
    return first


def _in_line(one: Place, other: Place) -> bool:
    """Whether two cells stand in one row or column; what the batch works out stands in none."""
    if not one.address or not other.address:
        return False
    (row, column), (other_row, other_column) = spot(one), spot(other)
    return one.sheet == other.sheet and (row == other_row or column == other_column)


def _by_calls(evidence: Evidence, written: Written) -> Iterator[Relation]:
    """The relations that calls give: the book's own, and those that the batch makes."""
    calls: dict[str, list[tuple[Record, float]]] = defaultdict(list)
    for record in evidence.book.records:
        number = record.value
        if record.function is None or not isinstance(number, (int, float)) or record.problem:
            continue
        si = in_si(float(number), record.function.result, record.system)
        if si is not None and record.function.name in _functions():
            calls[record.function.name].append((record, si))
    for term, functions in _derived():
        made = [call for name in functions for call in calls.get(name, ())]
        for size in _alone(evidence, term) if made else ():
            yield from _nearest(evidence, term, size, made, written)


def _alone(evidence: Evidence, term: Measurand) -> Iterator[Size]:
    """What a book states of a measurand once; of several it is not known which is meant.

    A duration near the seat is another than the one at a lift. What a call takes is told
    there, but for what is advertised of the whole engine.
    """
    stated = [s for s in _stated(evidence, term.id) if s.si > 0 or term.signed]
    for size in stated:
        others = (s for s in stated if s.part.which == size.part.which)
        if term.id in ADVERTISED or (size.call is None and all(s.si == size.si for s in others)):
            yield size


@cache
def _derived() -> tuple[tuple[Measurand, tuple[str, ...]], ...]:
    """What the batch derives, but for what a part is only meant to be, with the functions."""
    found: dict[str, list[str]] = defaultdict(list)
    for entry in derivables().entries:
        if not entry.target:
            found[entry.measurand.id] += [way.function.name for way in entry.ways]
    return tuple((term, tuple(names)) for one, names in found.items() if (term := find(one)))


@cache
def _functions() -> frozenset[str]:
    return frozenset(name for _, names in _derived() for name in names)


def _nearest(
    evidence: Evidence,
    term: Measurand,
    stated: Size,
    made: Sequence[tuple[Record, float]],
    written: Written,
) -> Iterator[Relation]:
    """The relation to the call of the same position; what is advertised is held to any."""
    for_all = term.id in ADVERTISED
    fits = [
        (record, si)
        for record, si in made
        if record.place != stated.place or record.computed_by_batch
        if not record.measurand or is_one_of(term.id, record.measurand)
        if record.part.which == stated.part.which or (for_all and not stated.part.which)
    ]
    here = [call for call in fits if call[0].place.sheet == stated.place.sheet] or fits
    if not here:
        return
    record, worked = min(here, key=lambda call: abs(call[1] - stated.si))
    ends = inputs(record, evidence.makers)
    # What a mean takes is of any kind, and is held to its siblings instead.
    ends = {key: one for key, one in ends.items() if one.parameter.kind is not READING}
    sizes = {key: _size_of(evidence, one) for key, one in ends.items()}
    if any((s.place, s.measurand) == (stated.place, stated.measurand) for s in sizes.values()):
        return
    if stated.stage != "found" and any(s.stage == "found" for s in sizes.values()):
        return  # What was found before the work says nothing of what came of it.

    def work(values: Mapping[str, float]) -> float | None:
        return again(record, evidence.makers, values)

    slack = _slack(evidence, work, stated, sizes, worked, written)
    yield Relation(term, stated, sizes, work, worked, slack, record)


def _size_of(evidence: Evidence, one: Input) -> Size:
    """An end of a call's network: as it was read, or as the call takes it."""
    place, parameter = one.argument.place, one.parameter
    read = evidence.reading_of(place, parameter.measurand) if place else None
    if read is not None and read.si is not None and read.kind is not None:
        return Size(
            read.place, read.label, read.measurand or parameter.measurand, read.part, read.stage,
            read.number, read.si, read.kind, read.system, read.unit, typed=True,
        )  # fmt: skip
    return Size(
        place or one.record.place, one.argument.label, parameter.measurand or parameter.name,
        position_of(one.argument.label), "", one.number, one.si, parameter.kind,
        one.record.system, one.argument.unit, typed=False,
    )  # fmt: skip


def _slack(
    evidence: Evidence, work: Work, stated: Size, sizes: Mapping[str, Size], worked: float,
    written: Written,
) -> float:  # fmt: skip
    """How far both may be apart by the decimals that they are written with.

    And by what readings of one part differ, where their mean stands for them: a builder may go
    by the smallest.
    """
    slack = written.get(_line(stated), 0.0) / 2
    values = {name: s.si for name, s in sizes.items()}
    for name, size in sizes.items():
        half = written.get(_line(size), 0.0) / 2 + _half_apart(evidence, size, stated)
        moved = work({**values, name: values[name] + half})
        slack += abs((moved if moved is not None else worked) - worked)
    return 1.05 * slack + 1e-9 * abs(worked)


def _half_apart(evidence: Evidence, size: Size, stated: Size) -> float:
    """Half of what the readings differ by that a mean is of; 0.0 for what has a cell of its own."""
    if size.typed or (size.place.address and size.place != stated.place):
        return 0.0
    # What is worked out where the other is stated is of the same part.
    which = stated.part.which if size.place == stated.place else size.part.which
    same = [s.si for s in evidence.finished(size.measurand) if s.part.which == which]
    return (max(same) - min(same)) / 2 if same and which else 0.0


def _line(size: Size) -> tuple[str, str]:
    return size.place.sheet, size.measurand

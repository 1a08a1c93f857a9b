"""What reading a book gives: frozen records, passed on to findings and the summary."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, NamedTuple

from workbook_tools.books.cells import Trouble
from workbook_tools.catalog import Function, Parameter
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import (
    NO_OFFICE,
    Acceptance,
    FormRow,
    Job,
    JobField,
    LimitOrigin,
    Mark,
    Office,
)
from workbook_tools.labels.label import Label
from workbook_tools.measurands import Position, Stage
from workbook_tools.quantities import READING, TEXT, Kind, System, UnreadableText, to_si, unit_named

# A cell's content: a number, a text, TRUE or FALSE, nothing, or rows of these.
State = Literal["same", "stale", "not saved", "as saved", "error", "computed"]
# Which one a result is of where there is one for all.
THE_ONLY_ONE = Position()
ReadingState = Literal["read", "asked", "refused", "missing", "not understood"]
How = Literal["call", "layout", "exact word", "synonym", "proposal"]
NoReadingKind = Literal["index", "date", "price", "count", "note"]
QuestionKind = Literal[
    "what", "which one", "unit", "deck sign", "crown sign", "size", "twice", "cylinders",
    "job number", "dates",
]  # fmt: skip


class Argument(NamedTuple):
    """One argument of a call, traced to where it came from.

    text: as it stands in the formula; value: what it stands for (a number, a text, None for
    an empty cell, "omitted" is not listed); unit: of a bare number; place: the cell or range
    it refers to, None for literals and expressions; problem: why it cannot be used, "";
    formula: that of the one cell referred to, "" where that was typed. Of what the batch takes:
    by: the call that it made for this argument; parts: the cells that it is the mean or the sum
    of, and how far it moves with each.
    """

    name: str
    text: str
    value: object
    unit: str
    place: Place | None
    label: Label | None
    problem: str = ""
    formula: str = ""
    by: Record | None = None
    parts: tuple[tuple[Place, float], ...] = ()


class Record(NamedTuple):
    """One call of a worksheet function, recomputed and compared with what was saved.

    saved and recomputed are of the whole cell and can be compared; value is what the call
    itself gives, in unit. They differ where the call is part of a longer formula (whole is
    False). problem says why the call has no value; blamed names the parameter, missing tells
    whether a measurement was never taken, impossible whether no engine has it. A formula may
    guard against that and be the same as saved all the same: IF(B7="","",ENG.QUENCH(B7,B9)).
    Where a formula cannot be followed here, the state is "as saved", else one without a result
    is an "error". fresh is the cell's value recalculated from the typed readings up, None where
    that was not done.
    computed_by_batch: the book has no such formula, the batch made the call from the book's
    readings; its state is then "computed", and saved is what the builder wrote down for it,
    if anything. measurand, part: what the cell's result measures, and of which part.
    """

    place: Place
    label: Label | None
    formula: str
    function: Function | None
    name: str
    arguments: tuple[Argument, ...]
    saved: object
    recomputed: object
    value: object
    unit: str
    state: State
    whole: bool = True
    problem: str = ""
    blamed: str = ""
    missing: bool = False
    impossible: bool = False
    system: System = "inch"
    fresh: object = None
    computed_by_batch: bool = False
    measurand: str = ""
    part: Position = THE_ONLY_ONE

    @property
    def gives_its_cell(self) -> bool:
        """Whether the cell comes to the call's own number, with a guard around it or without."""
        cell, value = self.recomputed, self.value
        if self.whole or not isinstance(value, (int, float)):
            return self.whole
        return isinstance(cell, (int, float)) and math.isclose(cell, value, rel_tol=1e-9)


@dataclass(frozen=True)
class StaleFormula:
    """An ordinary formula that feeds calls and was saved with another value than it has."""

    place: Place
    label: Label | None
    formula: str
    saved: object
    fresh: object


class Use(NamedTuple):
    """What a call takes a cell for: the function's name, its parameter, unit and record."""

    function: str
    parameter: Parameter
    system: System
    unit: str
    record: Record


class Evidence(NamedTuple):
    """What says what a number is: a call, the layout, a label; and in its words."""

    how: How
    words: str


class Reading(NamedTuple):
    """A typed number of a book, known once, whatever told what it is.

    raw: the cell's content as it stands; measurand: what it measures, by the table of
    measurands, "" where nothing says it; part: of which cylinder, journal or ring; stage:
    found, machined, final, a target, a limit, or "" where the book does not say; value: the
    number in unit, None where it was refused; kind: of quantity, None where nothing says it
    or no bare number has the unit (thou, bar), so that limits beside it, bare too, stay in that;
    reason: why it is asked or refused; note: words beside the number and what was odd;
    evidence: what says so, the strongest first; uses: the calls' parameters that take it;
    usual_here: whether the book gives limits beside its line in which most of it lies, or its
    engine is as large.
    """

    place: Place
    label: Label | None
    raw: object
    measurand: str
    part: Position
    stage: Stage
    value: float | None
    kind: Kind | None
    system: System
    unit: str
    state: ReadingState
    reason: str = ""
    note: str = ""
    evidence: tuple[Evidence, ...] = ()
    uses: tuple[Use, ...] = ()
    usual_here: bool = False

    @property
    def name(self) -> str:
        """What the book calls it, with its cell."""
        return f"{self.label} ({self.place.address})" if self.label else self.place.address

    @property
    def number(self) -> float:
        """The number of a reading that has one. Raises ValueError for any other."""
        if self.value is None:
            raise ValueError(f"{self.place} has no number")
        return self.value

    @property
    def shown(self) -> str:
        """The number with its unit, as people write it."""
        number = "" if self.value is None else f"{self.value:.6g}"
        return f"{number} {self.unit}".strip()

    @property
    def si(self) -> float | None:
        """The number in SI, None where neither its kind nor its unit says what it is."""
        if self.kind is None and self.value is not None and self.unit:
            return _by_unit(self.value, self.unit)
        return in_si(self.value, self.kind, self.system)


class StatedResult(NamedTuple):
    """What a formula of the builder's own gives for something that a label names.

    The other fields are those of a reading; value is the saved one; takes: the cells that its
    formula refers to.
    """

    place: Place
    label: Label
    measurand: str
    part: Position
    stage: Stage
    value: float
    kind: Kind
    system: System
    unit: str
    takes: frozenset[Place] = frozenset()

    @property
    def si(self) -> float | None:
        """The number in SI."""
        return in_si(self.value, self.kind, self.system)


class NoReading(NamedTuple):
    """A typed number that measures nothing of an engine, and what it is."""

    place: Place
    kind: NoReadingKind
    value: object


class Question(NamedTuple):
    """What only the builder can settle of a job.

    text: the question, the same wherever the same is asked; places: the cells that it is about;
    guess: the measurand that is asked about, others: what else they may be, the likeliest first;
    costs: results that are not computed until it is answered, in words; table: of a layout that
    the answer goes into: "answers", "job", or "" for its top; answer: the line that says yes;
    instead: what to write where that is wrong.
    """

    kind: QuestionKind
    text: str
    places: tuple[Place, ...]
    table: Literal["answers", "job", ""]
    answer: str
    instead: str = ""
    guess: str = ""
    others: tuple[str, ...] = ()
    costs: tuple[str, ...] = ()


def _by_unit(value: float, unit: str) -> float | None:
    """A number in SI by its unit alone, None where that is no unit."""
    try:
        return value * unit_named(unit)[1]
    except UnreadableText:
        return None


def in_si(value: float | None, kind: Kind | None, system: System) -> float | None:
    """A bare number in SI, None where there is none or its kind is not known."""
    if value is None or kind is None or kind is TEXT or kind is READING:
        return None
    return to_si(value, kind, system)


@dataclass(frozen=True)
class Lack(Trouble):
    """A result that the batch would derive and cannot, and what stands in its way.

    result: what it is, with what it is of; cells: those that are empty or cannot be used;
    measurands: what the book does not have at all.
    """

    result: str = ""
    cells: tuple[Place, ...] = ()
    measurands: tuple[str, ...] = ()


@dataclass(frozen=True)
class TypedOver:
    """A typed number where its siblings have a formula.

    formula: what would stand there; sibling: the nearest cell that has it; result: what it
    would come to, None where that cannot be told.
    """

    place: Place
    label: Label | None
    value: float
    formula: str
    sibling: Place
    result: object


class UnlikeFormula(NamedTuple):
    """A formula that takes other cells than the formulas of its line, each for its own, do.

    value: as saved; takes: what it has, cells or a number; meant: the places that it would take
    as the others do; sibling: the nearest that does, of so many alike; result: what it would come
    to then, None where that cannot be told.
    """

    place: Place
    label: Label | None
    value: object
    takes: tuple[str, ...]
    meant: tuple[Place, ...]
    sibling: Place
    alike: int
    result: object


class Beside(NamedTuple):
    """What the other jobs of a file have for one thing, so many: the least and the most, in SI.

    cell: of a number that is not understood and stands in their column, which is in that system.
    """

    measurand: str
    which: str
    stage: Stage
    many: int
    least: float
    most: float
    cell: Place | None = None
    system: System = "inch"


class CutRange(NamedTuple):
    """A range in a formula that stops before the end of the line of which it takes the rest.

    place: of the formula; takes: the range; left_out: the cells of the same line beside it.
    """

    place: Place
    label: Label | None
    takes: Place
    left_out: tuple[Place, ...]


@dataclass(frozen=True, eq=False)
class Book:
    """A finished book as read: never the file itself, so that no report can touch it.

    Each is itself and no other, so that what is worked out of it can be remembered by it.

    not_recalculated: ordinary formulas that feed calls and could only be taken as saved,
    with the reason. typed_over: constants among calls;
    job_numbers: as each sheet gives it; marks: places for initials, signatures and ticks;
    accepted: deviations that the book says are.
    calculated_by: the program that calculated it before it was read, "" where it was read as
    saved. readings: every typed number, missing: empty cells that
    labels name beside others, no_readings: numbers that measure nothing; stated: what the
    builder's own formulas give; part: which of several jobs in one file this is, "" where the file
    is one job; shared: the places in it that are not of this job, nor of any other of the file,
    as of a list of gauges; saved: when, as the book itself says, "" where it does not;
    questions: what only the builder can settle; origins: of the limits that it judges by; forms:
    rows of its tables that measure no parts; unlike, cut_ranges: what is odd of its formulas;
    beside: what the other jobs of the file have.
    """

    file_name: str
    sha256: str
    job: Job
    records: tuple[Record, ...] = ()
    stale_formulas: tuple[StaleFormula, ...] = ()
    not_recalculated: tuple[tuple[Place, str], ...] = ()
    troubles: tuple[Trouble, ...] = ()
    calculated_by: str = ""
    typed_over: tuple[TypedOver, ...] = ()
    job_numbers: tuple[JobField, ...] = ()
    marks: tuple[Mark, ...] = ()
    accepted: tuple[Acceptance, ...] = ()
    office: Office = NO_OFFICE
    readings: tuple[Reading, ...] = ()
    missing: tuple[Reading, ...] = ()
    no_readings: tuple[NoReading, ...] = ()
    stated: tuple[StatedResult, ...] = ()
    part: str = ""
    shared: tuple[Place, ...] = ()
    saved: str = ""
    questions: tuple[Question, ...] = ()
    origins: tuple[LimitOrigin, ...] = ()
    forms: tuple[FormRow, ...] = ()
    unlike: tuple[UnlikeFormula, ...] = ()
    cut_ranges: tuple[CutRange, ...] = ()
    beside: tuple[Beside, ...] = ()

    @property
    def unsigned(self) -> tuple[Mark, ...]:
        """The marks that nobody made, or that say no."""
        return tuple(mark for mark in self.marks if mark.state != "made")

"""What reading a book gives: frozen records, passed on to findings and reports."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, NamedTuple

from workbook_tools.catalog import Function

if TYPE_CHECKING:
    from workbook_tools.books.readings import Reading

# A cell's content: a number, a text, TRUE or FALSE, nothing, or rows of these.
State = Literal["same", "stale", "not saved", "as saved", "error", "computed"]


class Place(NamedTuple):
    """Where something stands: sheet title and A1 address (or a range, B3:I3).

    What the batch computed itself stands in no cell: its address is "". A tuple, as is all
    that there is one of for each cell: these are quick to make and to look up.
    """

    sheet: str
    address: str

    def __str__(self) -> str:
        plain = self.sheet.replace("_", "").isalnum()
        sheet = self.sheet if plain else "'" + self.sheet.replace("'", "''") + "'"
        return f"{sheet}!{self.address}" if self.address else self.sheet


@dataclass(frozen=True)
class Label:
    """What the book calls a cell: the item's name, and which cylinder or journal it is of.

    text: "Deck clearance"; position: "Cyl 3", "" where there is only one; unit: as the
    label or a unit column gives it, "" where the book does not say.
    """

    text: str
    position: str = ""
    unit: str = ""

    def __str__(self) -> str:
        return f"{self.text}, {self.position}" if self.position else self.text


@dataclass(frozen=True)
class Argument:
    """One argument of a call, traced to where it came from.

    text: as it stands in the formula; value: what it stands for (a number, a text, None for
    an empty cell, "omitted" is not listed); unit: of a bare number; place: the cell or range
    it refers to, None for literals and expressions; problem: why it cannot be used, "";
    formula: that of the one cell referred to, "" where that was typed.
    """

    name: str
    text: str
    value: object
    unit: str
    place: Place | None
    label: Label | None
    problem: str = ""
    formula: str = ""


@dataclass(frozen=True)
class Record:
    """One call of a worksheet function, recomputed and compared with what was saved.

    saved and recomputed are of the whole cell and can be compared; value is what the call
    itself gives, in unit. They differ where the call is part of a longer formula (whole is
    False). problem says why the call has no value; blamed names the parameter, missing tells
    whether a measurement was never taken. A formula may guard against that and be the same
    as saved all the same: IF(B7="","",ENG.QUENCH(B7,B9)). Where a formula cannot be followed
    here, the state is "as saved", else one without a result is an "error". fresh is the
    cell's value recalculated from the typed readings up, None where that was not done.
    computed_by_batch: the book has no such formula, the batch made the call from the book's
    readings; its state is then "computed", and saved is what the builder wrote down for it,
    if anything.
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
    system: str = "inch"
    fresh: object = None
    computed_by_batch: bool = False


@dataclass(frozen=True)
class JobField:
    """A field of the job, and the cell that it was read from."""

    text: str
    place: Place | None = None


@dataclass(frozen=True)
class Job:
    """Who, what and when, as far as the book says it."""

    number: JobField = JobField("")
    customer: JobField = JobField("")
    engine: JobField = JobField("")
    builder: JobField = JobField("")
    started: JobField = JobField("")
    finished: JobField = JobField("")


@dataclass(frozen=True)
class StaleFormula:
    """An ordinary formula that feeds calls and was saved with another value than it has."""

    place: Place
    label: Label | None
    formula: str
    saved: object
    fresh: object


@dataclass(frozen=True)
class Trouble:
    """Something about the book itself that reading ran into: a sheet skipped, a loop."""

    place: Place | None
    message: str
    advice: str


class Written(NamedTuple):
    """A typed reading (a number, or a text that is a quantity) with what the book calls it.

    A line for a signature that nobody filled in is one with the value None, at the line.
    """

    place: Place
    label: Label | None
    value: object


@dataclass(frozen=True)
class TypedOver:
    """A typed number where its siblings have a formula.

    formula: what would stand there; sibling: the nearest cell that has it; result: what it
    would come to, None where that cannot be told.
    """

    place: Place
    label: Label
    value: float
    formula: str
    sibling: Place
    result: object


@dataclass(frozen=True)
class PartLine:
    """A part that the book says is short or to order, and what it says about it."""

    place: Place
    part: str
    said: str


@dataclass(frozen=True)
class Fastener:
    """A group of fasteners as tightened: (head of the column, what stands there) in order."""

    place: Place
    name: str
    said: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Office:
    """What the office needs of a book, as far as it says it.

    lash: whether lash is meant hot or cold, or preload; part_lists, signature_lines: how
    many places the book has for these, so that "none" and "not said" stay two things.
    """

    promised: JobField = JobField("")
    waiting: JobField = JobField("")
    use: JobField = JobField("")
    fuel: JobField = JobField("")
    oil: JobField = JobField("")
    lash: JobField = JobField("")
    firing_order: JobField = JobField("")
    parts: tuple[PartLine, ...] = ()
    part_lists: int = 0
    fasteners: tuple[Fastener, ...] = ()
    signature_lines: int = 0


@dataclass(frozen=True, eq=False)
class Book:
    """A finished book as read: never the file itself, so that no report can touch it.

    Each is itself and no other, so that what is worked out of it can be remembered by it.

    not_recalculated: ordinary formulas that feed calls and could only be taken as saved,
    with the reason. written: every typed reading; typed_over: constants among calls;
    job_numbers: as each sheet gives it; unsigned: lines for a signature without one.
    calculated_by: the program that calculated it before it was read, "" where it was read as
    saved. readings: what labels or a layout name in a book without worksheet functions; part: which
    of several jobs in one file this is, "" where the file is one job; shared: the places in it
    that are not of this job, nor of any other of the file, as of a list of gauges.
    """

    file_name: str
    sha256: str
    job: Job
    records: tuple[Record, ...] = ()
    stale_formulas: tuple[StaleFormula, ...] = ()
    not_recalculated: tuple[tuple[Place, str], ...] = ()
    troubles: tuple[Trouble, ...] = ()
    calculated_by: str = ""
    written: tuple[Written, ...] = ()
    typed_over: tuple[TypedOver, ...] = ()
    job_numbers: tuple[JobField, ...] = ()
    unsigned: tuple[Written, ...] = ()
    office: Office = Office()
    readings: tuple[Reading, ...] = ()
    part: str = ""
    shared: tuple[Place, ...] = ()

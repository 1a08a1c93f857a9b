"""Records of what a book says beside its numbers: the job, signatures, lists for the office."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

from workbook_tools.formulas.references import Place
from workbook_tools.labels.label import Label


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


MarkState = Literal["made", "empty", "no"]


class Mark(NamedTuple):
    """A place for initials, a signature or a tick, and what stands there.

    place: the cell, of a line its name's; label: what the line or head is called, and which row
    it is of; state: "no" where it says that it was not done; head: the cell of the head.
    """

    place: Place
    label: Label
    said: str
    state: MarkState
    head: Place


class Acceptance(NamedTuple):
    """A deviation that somebody accepts: what and which value, as it is said, who, when, why.

    place: of the line in the book, None where a file beside the books says it.
    """

    place: Place | None
    what: str
    value: str
    who: str
    when: str
    why: str

    def __str__(self) -> str:
        """The same as the end of a sentence: "R. Lund, 2025-05-28: as the card allows"."""
        by = ", ".join(filter(None, (self.who, self.when)))
        return f"{by}: {self.why.rstrip('.')}" if self.why else by


class LimitOrigin(NamedTuple):
    """What a book says of where a limit comes from: the limit's cell, and the words."""

    place: Place
    words: str


@dataclass(frozen=True)
class PartLine:
    """A part that the book says is short or to order, and what it says about it."""

    place: Place
    part: str
    said: str


class OpenItem(NamedTuple):
    """Something that a book says is still to be done, who is to do it and until when."""

    place: Place
    what: str
    who: str = ""
    until: str = ""


@dataclass(frozen=True)
class Fastener:
    """A group of fasteners as tightened: (head of the column, what stands there) in order."""

    place: Place
    name: str
    said: tuple[tuple[str, str], ...]


class FormCell(NamedTuple):
    """A cell of a table of paperwork; number: None where it holds none; unit: of its head."""

    place: Place
    text: str
    number: float | None
    unit: str


class FormRow(NamedTuple):
    """A row of a table that is no measuring of parts: what each column says, by its role.

    form: "pull" of a power run, "run" with its oil pressure, "part" received, "gauge" used.
    """

    form: str
    cells: tuple[tuple[str, FormCell], ...]

    def text(self, role: str) -> str:
        """What the column says, "" where it says nothing."""
        return next((cell.text for name, cell in self.cells if name == role), "")

    def cell(self, role: str) -> FormCell | None:
        """The cell of the column, None where it holds nothing."""
        return next((cell for name, cell in self.cells if name == role), None)


@dataclass(frozen=True)
class Office:
    """What the office needs of a book, as far as it says it.

    lash: whether lash is meant hot or cold, or preload; part_lists: how many places the book
    has for these, so that "none" and "not said" stay two things; open_items: those not closed;
    hours: of work booked on the job; kind: what the book says the engine is one of;
    scope: how much of it was built.
    """

    promised: JobField = JobField("")
    waiting: JobField = JobField("")
    use: JobField = JobField("")
    fuel: JobField = JobField("")
    oil: JobField = JobField("")
    lash: JobField = JobField("")
    firing_order: JobField = JobField("")
    gasket_reason: JobField = JobField("")
    corrected_to: JobField = JobField("")
    revision: JobField = JobField("")
    revised: JobField = JobField("")
    changed: JobField = JobField("")
    kind: JobField = JobField("")
    hours: JobField = JobField("")
    parts: tuple[PartLine, ...] = ()
    scope: JobField = JobField("")
    part_lists: int = 0
    fasteners: tuple[Fastener, ...] = ()
    open_items: tuple[OpenItem, ...] = ()


# What a book says that says nothing of it.
NO_OFFICE = Office()

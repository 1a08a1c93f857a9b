"""What would be read from each book and how sure that is, and a layout.toml to start from."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from workbook_tools.books.cells import BookError, OpenBook
from workbook_tools.books.opening import read_cells
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.known import contradictions
from workbook_tools.jobs.read import read_jobs
from workbook_tools.jobs.records import Book, Job
from workbook_tools.jobs.split import split_jobs
from workbook_tools.labels.candidate import Candidate
from workbook_tools.labels.candidates import Candidates, Unknown, propose
from workbook_tools.labels.content import (
    CROWN_SIGN_NOT_SAID,
    DECK_SIGN_NOT_SAID,
    UNIT_NOT_SAID,
)
from workbook_tools.labels.layout import NO_FORM, Form, Layout
from workbook_tools.labels.vocabulary import NO_SIZES
from workbook_tools.quantities import System


@dataclass(frozen=True)
class Question:
    """What the builder has to settle: the question, where it comes up, and the layout's answers.

    table: of the layout that the answer goes into, "" for its top; answer: a line of TOML,
    to be put right and freed of its # by the builder.
    """

    text: str
    places: tuple[Place, ...]
    table: str
    answer: str


@dataclass(frozen=True)
class JobSurvey:
    """One job of a book: its fields, readings, what the batch would compute, what is open."""

    name: str
    job: Job
    system: System | None
    system_from: str
    readings: tuple[Candidate, ...]
    unknown: tuple[Unknown, ...]
    computed: tuple[str, ...]
    not_computed: tuple[str, ...]
    questions: tuple[Question, ...]


@dataclass(frozen=True)
class BookSurvey:
    """One book: problem says why it could not be read; calls of worksheet functions it holds."""

    path: Path
    problem: str
    calls: int
    jobs: tuple[JobSurvey, ...]

    @property
    def questions(self) -> tuple[Question, ...]:
        """What is open in any of its jobs, each question once."""
        return tuple(dict.fromkeys(q for job in self.jobs for q in job.questions))


def survey_book(path: Path, layout: Layout | None = None) -> BookSurvey:
    """What would be read from a book and how sure that is, without writing anything.

    layout: the shop's own, where there is one already. A book that cannot be read is told of
    with its problem.
    """
    form = layout.form_of(path.name) if layout else NO_FORM
    try:
        parts = split_jobs(read_cells(path), form)
        books = read_jobs(path, layout)
    except BookError as error:
        return BookSurvey(path, str(error), 0, ())
    calls = sum(not r.computed_by_batch for book in books for r in book.records)
    jobs = tuple(
        _job_survey(part.name, part.book, book, form)
        for part, book in zip(parts, books, strict=True)
    )
    return BookSurvey(path, "", calls, jobs)


def _job_survey(name: str, cells: OpenBook, book: Book, form: Form) -> JobSurvey:
    mine = any(not record.computed_by_batch for record in book.records)
    found = Candidates((), (), None, "") if mine else propose(cells, form)
    computed = tuple(
        dict.fromkeys(
            record.label.text
            for record in book.records
            if record.computed_by_batch and record.value is not None and record.label
        )
    )
    open_ends = tuple(t.message for t in book.troubles)
    questions = () if mine else tuple(_questions(found, book, form))
    words = form.vocabulary().job
    unknown = tuple(label for label in found.unknown if not words.labels(label.text))
    return JobSurvey(
        name, book.job, found.system, found.system_from, found.readings, unknown,
        computed, open_ends, questions,
    )  # fmt: skip


def _questions(found: Candidates, book: Book, form: Form) -> Iterator[Question]:
    """What is open about a job's readings."""
    yield from _about_units(found)
    yield from _about_signs(found)
    yield from _about_labels(found)
    for one, other in contradictions(found.readings):
        yield Question(
            f"{one.name} {one.position} stands twice: {one.value:g} {one.unit} and "
            f"{other.value:g} {other.unit}; which one holds?",
            (one.place, other.place),
            "readings",
            f"{_key(one.name)} = {_text(str(one.place))}",
        )
    in_line = [r for r in found.readings if "numbered as they stand" in r.note]
    if in_line and not form.readings:
        first = in_line[0]
        yield Question(
            f"no head names the cylinders of {first.name}; are they in this order?",
            tuple(r.place for r in in_line),
            "readings",
            f"{_key(first.name)} = {_text(_range(in_line, first.name))}",
        )
    far: dict[str, list[Candidate]] = defaultdict(list)
    for reading in found.readings:
        if reading.far_from_usual:
            far[reading.name].append(reading)
    for name, readings in far.items():
        sizes = ", ".join(f"{r.value:g}" for r in readings[:3])
        yield Question(
            f"can the {name} be {sizes} {readings[0].unit}? That is far from what is usual",
            tuple(r.place for r in readings),
            "readings",
            f"{_key(name)} = {_text(_range(readings, name))}  # if so",
        )
    if form.cylinders is None and _cylinders_open(found):
        yield Question("how many cylinders has the engine?", (), "", "cylinders = 8")
    if not book.job.number.text:
        yield Question("which cell holds the job number?", (), "job", 'number = "Sheet1!B2"')
    for field, given in (("started", book.job.started), ("finished", book.job.finished)):
        if any(t.place == given.place and field in t.message for t in book.troubles):
            places = (given.place,) if given.place else ()
            asked = f"{field} {given.text}: day or month first?"
            yield Question(asked, places, "", 'dates = "day first"')


def _cylinders_open(found: Candidates) -> bool:
    """Whether neither a count nor numbered readings say how many cylinders there are."""
    names = {r.name for r in found.readings}
    numbered = {r.position for r in found.readings if r.of == "cylinder" and r.position}
    return "cylinder_count" not in names and len(numbered) < 2 and bool(names & {"bore", "stroke"})


def _about_units(found: Candidates) -> Iterator[Question]:
    without = [r for r in found.readings if r.content.reason == UNIT_NOT_SAID]
    if without:
        yield Question(
            "which unit have the numbers for which neither cell, heading nor book says it?",
            tuple(r.place for r in without),
            "",
            'units = "inch"  # or "metric"',
        )


def _about_signs(found: Candidates) -> Iterator[Question]:
    deck = [r for r in found.readings if r.content.reason == DECK_SIGN_NOT_SAID]
    if deck:
        yield Question(
            "what does a sign mean in the deck clearances?",
            tuple(r.place for r in deck),
            "",
            'deck_sign = "positive below"  # or "negative below"',
        )
    crown = [r for r in found.readings if r.content.reason == CROWN_SIGN_NOT_SAID]
    if crown:
        yield Question(
            "does a positive crown volume mean a dish or a dome?",
            tuple(r.place for r in crown),
            "",
            'crown_sign = "positive dish"  # or "negative dish"',
        )


def _about_labels(found: Candidates) -> Iterator[Question]:
    proposed: dict[tuple[str, str], list[Candidate]] = defaultdict(list)
    for reading in found.readings:
        if reading.how == "proposal":
            proposed[reading.label.text, reading.name].append(reading)
    for (label, name), readings in proposed.items():
        yield Question(
            f"is {label!r} the {name}? It is alike to {readings[0].likeness:.0f} of 100",
            tuple(r.place for r in readings),
            "readings",
            f"{_key(name)} = {_text(label)}  # if not: ignore_labels = [{_text(label)}] at the top",
        )


def _text(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def _key(name: str) -> str:
    return name if name.isalpha() else _text(name)


def _range(readings: list[Candidate], name: str) -> str:
    own = [r.place for r in readings if r.name == name]
    return f"{own[0]}:{own[-1].address}"


HEAD = """\
# How your books are laid out, as far as that could be told. Every line that begins with one #
# and a key is a guess or an open question: put it right, take the # away, and run the survey
# again with this file. What is not asked here is read from the books' own labels.
"""


def layout_of(book: BookSurvey) -> str:
    """A book's table of a layout.toml to start from: what is open, as lines to put right.

    "" for a book with worksheet functions of ours, or that could not be read: it needs none.
    """
    if book.problem or book.calls:
        return ""
    lines = ["", "[[book]]", f"files = [{_text(book.path.name)}]"]
    if len(book.jobs) > 1:
        names = ", ".join(job.name for job in book.jobs)
        lines.append(f"# Read as {len(book.jobs)} jobs: {names}")
    systems = {job.system for job in book.jobs}
    if len(systems) == 1 and (system := systems.pop()) is not None:
        lines += [f"# told by {book.jobs[0].system_from}", f"units = {_text(system)}"]
    lines += _answers(book, "")
    for table in ("job", "readings"):
        answers = _answers(book, table)
        read = _as_read(book) if table == "readings" else []
        if answers or read:
            lines += [f"[book.{table}]", *read, *answers]
    return "\n".join(lines) + "\n"


def _answers(book: BookSurvey, table: str) -> list[str]:
    lines: list[str] = []
    for question in book.questions:
        if question.table == table:
            where = ", ".join(str(p) for p in question.places[:4])
            more = f" and {len(question.places) - 4} more" if len(question.places) > 4 else ""
            lines.append(f"# {question.text}{f' ({where}{more})' if where else ''}")
            lines.append(f"# {question.answer}")
    return lines


def _as_read(book: BookSurvey) -> list[str]:
    """Comments that tell from where each reading is taken as it is."""
    taken: dict[tuple[str, str], list[Place]] = defaultdict(list)
    for job in book.jobs:
        for reading in job.readings:
            if reading.how in ("exact word", "synonym") and reading.stage not in NO_SIZES:
                taken[reading.name, reading.label.text].append(reading.place)
    return [
        f"# {name}: read by its label {_text(label)}, {places[0]}"
        + (f" to {places[-1].address}" if len(places) > 1 else "")
        for (name, label), places in taken.items()
    ]

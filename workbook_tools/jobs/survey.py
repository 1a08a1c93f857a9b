"""What would be read from each book, and how sure that is: by evidence, or certain."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import NamedTuple

from workbook_tools.books.cells import BookError, Trouble
from workbook_tools.books.opening import read_cells
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Job
from workbook_tools.jobs.questions import words_of
from workbook_tools.jobs.read import JobRead, jobs_with_candidates
from workbook_tools.jobs.records import Book, Lack, Question, Reading
from workbook_tools.labels.candidates import Unknown
from workbook_tools.labels.layout import NO_FORM, Layout
from workbook_tools.labels.line import Line, Weighed
from workbook_tools.labels.weights import weights
from workbook_tools.quantities import System


class Row(NamedTuple):
    """Readings that share a label: what they are, their values, and what says so.

    why: beyond the label's own words; certain: whether nothing else could be meant.
    """

    measurand: str
    stage: str
    label: str
    values: str
    places: tuple[Place, ...]
    why: str
    certain: bool


class NotRead(NamedTuple):
    """A number that was refused: its cell, what stands there, what it would be, and why."""

    place: Place
    raw: str
    measurand: str
    why: str


class NotComputed(NamedTuple):
    """A result that was not computed, or a sheet that was not read, in words.

    lacks: measurands that it waits for, and that numbers may be which are not understood.
    """

    words: str
    lacks: tuple[str, ...]


@dataclass(frozen=True)
class JobSurvey:
    """One job of a book: its fields, what is read and not, what the batch would compute.

    notes: what is odd about readings, with their cells; counts: what became of typed numbers.
    """

    name: str
    job: Job
    system: System | None
    system_from: str
    rows: tuple[Row, ...]
    refused: tuple[NotRead, ...]
    unknown: tuple[Unknown, ...]
    computed: tuple[str, ...]
    not_computed: tuple[NotComputed, ...]
    questions: tuple[Question, ...]
    notes: tuple[tuple[str, tuple[Place, ...]], ...]
    counts: tuple[tuple[str, int], ...]
    not_understood: tuple[Place, ...]


@dataclass(frozen=True)
class BookSurvey:
    """One book: problem says why it could not be read; calls of worksheet functions it holds."""

    path: Path
    problem: str
    calls: int
    jobs: tuple[JobSurvey, ...]

    @property
    def questions(self) -> tuple[Question, ...]:
        """What is open in any of its jobs."""
        return tuple(q for job in self.jobs for q in job.questions)


def survey_book(path: Path, layout: Layout | None = None, copy: Path | None = None) -> BookSurvey:
    """What would be read from a book and how sure that is, without writing anything.

    layout: the shop's own, where there is one already; copy: to read in place of a book that
    only another program can open. A book that cannot be read is told of with its problem.
    """
    form = layout.form_of(path.name) if layout else NO_FORM
    try:
        book = replace(read_cells(copy or path), file_name=path.name)
        jobs = tuple(jobs_with_candidates(book, form))
    except BookError as error:
        return BookSurvey(path, str(error), 0, ())
    calls = sum(not r.computed_by_batch for one in jobs for r in one.book.records)
    job_words = form.vocabulary().job
    return BookSurvey(
        path,
        "",
        calls,
        tuple(
            _job_survey(one, [u for u in one.candidates.unknown if not job_words.labels(u.text)])
            for one in jobs
        ),
    )


def _job_survey(one: JobRead, unknown: Sequence[Unknown]) -> JobSurvey:
    book, found = one.book, one.candidates
    computed = dict.fromkeys(
        record.label.text
        for record in book.records
        if record.computed_by_batch and record.value is not None and record.label
    )
    left = tuple(r.place for r in book.readings if r.state == "not understood")
    return JobSurvey(
        one.part.name,
        book.job,
        found.system,
        found.system_from,
        tuple(_rows(book.readings, _lines_at(one))),
        tuple(_refused(book.readings)),
        tuple(unknown),
        tuple(computed),
        tuple(_not_computed(t, bool(left)) for t in book.troubles),
        book.questions,
        _notes(book.readings),
        _counts(book),
        left,
    )


def _not_computed(trouble: Trouble, left: bool) -> NotComputed:
    """A trouble in words; left: whether numbers are not understood, which may be what it lacks."""
    lacks = trouble.measurands if left and isinstance(trouble, Lack) else ()
    return NotComputed(trouble.message, lacks)


def _notes(readings: Iterable[Reading]) -> tuple[tuple[str, tuple[Place, ...]], ...]:
    found: dict[str, list[Place]] = defaultdict(list)
    for reading in readings:
        if reading.state == "read" and reading.note:
            found[reading.note].append(reading.place)
    return tuple((note, tuple(places)) for note, places in found.items())


def _counts(book: Book) -> tuple[tuple[str, int], ...]:
    """What became of the typed numbers, as a page says it."""
    states = Counter(r.state for r in book.readings)
    said = (
        ("read", states["read"]), ("not sure", states["asked"]), ("refused", states["refused"]),
        ("not understood", states["not understood"]), ("no readings", len(book.no_readings)),
    )  # fmt: skip
    return tuple((words, count) for words, count in said if count)


def _lines_at(one: JobRead) -> Mapping[Place, Line]:
    return {place: found.line for found in one.candidates.lines for place in found.places}


def _rows(readings: Iterable[Reading], lines: Mapping[Place, Line]) -> Iterable[Row]:
    """A row for each set of readings that one label names in one stage."""
    groups: dict[tuple[str, str, str, str, str], list[Reading]] = defaultdict(list)
    for reading in readings:
        if reading.state == "read":
            label = reading.label.text if reading.label else ""
            how = str(reading.evidence[0].how) if reading.evidence else ""
            key = reading.place.sheet, reading.measurand, label, reading.stage, how
            groups[key].append(reading)
    for (_, measurand, label, stage, how), group in groups.items():
        line = lines.get(group[0].place)
        why = _reasons(line) if how not in _CERTAIN and line else ""
        yield Row(
            words_of(measurand) if measurand else label,
            stage.replace("_", " "),
            label,
            _values(group),
            tuple(r.place for r in group),
            why,
            how in _CERTAIN or not why or (line is not None and _leaves_no_doubt(line)),
        )


_CERTAIN = ("call", "layout", "exact word")


def _leaves_no_doubt(line: Line) -> bool:
    """Whether a line's words say it without anything to be assumed, and its sizes agree."""
    first = _chosen(line)
    if first is None:
        return line.exact
    words = next((r.weight for r in first.because if r.what == "words"), 0)
    return words >= weights().words.said and first.weight >= words


def _chosen(line: Line) -> Weighed | None:
    return next((w for w in line.ranked if line.chosen and w.term == line.chosen.term), None)


def _reasons(line: Line) -> str:
    """What a line was weighed by besides its words, and what comes next, in words."""
    first = _chosen(line)
    if first is None:
        return ""
    added = [r for r in first.because if r.weight > 0 and r.what != "words"]
    proofs = [r.what.rstrip(":").replace("_", " ") for r in added if r.what != "sizes"]
    said = proofs or ["its sizes fit"] * bool(added)
    after = next((w for w in line.ranked if w is not first and w.weight > 0), None)
    if after is not None and not proofs:
        said.append(f"next {words_of(after.term.id)}, {first.weight - after.weight} less")
    return "; ".join(said)


def _values(group: Sequence[Reading]) -> str:
    """Values in few words: all of up to three, the first and the last of more, and how many."""
    numbers = [f"{r.value:.6g}" for r in group if r.value is not None]
    units = {r.unit for r in group}
    unit = f" {units.pop()}" if len(units) == 1 else ""
    if len(numbers) > 3:
        return f"{numbers[0]} … {numbers[-1]}{unit} ({len(numbers)})"
    return f"{', '.join(numbers)}{unit}".strip()


def _refused(readings: Iterable[Reading]) -> Iterable[NotRead]:
    for reading in readings:
        if reading.state == "refused":
            why = reading.reason or reading.note
            yield NotRead(reading.place, str(reading.raw), words_of(reading.measurand), why)

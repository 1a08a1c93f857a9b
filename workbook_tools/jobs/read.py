"""From a book file to its jobs: each with every typed number known once, and every result."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.books.areas import CannotEvaluate
from workbook_tools.books.cells import OpenBook, Sheet, Trouble
from workbook_tools.books.opening import read_cells
from workbook_tools.books.recalculation import Recalculation
from workbook_tools.formulas.call_names import mentions_call
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.acceptances import acceptances
from workbook_tools.jobs.beside import beside
from workbook_tools.jobs.call_records import Tracing, traced_calls
from workbook_tools.jobs.decided import decide
from workbook_tools.jobs.derived import derived_records
from workbook_tools.jobs.form_tables import form_rows, of_gauges
from workbook_tools.jobs.known import Remembered, known
from workbook_tools.jobs.limit_origins import limit_origins
from workbook_tools.jobs.marks import marks_of
from workbook_tools.jobs.paperwork import read_office
from workbook_tools.jobs.part_job import job_of
from workbook_tools.jobs.question_costs import Asked
from workbook_tools.jobs.questions import questions_of
from workbook_tools.jobs.records import Book, Reading, Record
from workbook_tools.jobs.said_fields import job_numbers
from workbook_tools.jobs.split import JobPart, split_jobs, whole_book
from workbook_tools.labels.candidate import Candidate
from workbook_tools.labels.candidates import Candidates, differs, propose, settled_by_jobs
from workbook_tools.labels.layout import NO_FORM, Form, Layout
from workbook_tools.quantities import System


def read_book(path: Path, layout: Layout | None = None) -> Book:
    """Read a finished book: its job, every typed number, and a record of every call in it.

    path: the book's file, which is opened for reading only; layout: the shop's own, for what
    formulas and labels do not say. Of a file with several jobs this is the whole: see
    read_jobs. Raises BookError where it cannot be read as a book.
    """
    jobs = read_jobs(path, layout)
    if len(jobs) == 1:
        return jobs[0]
    names = ", ".join(job.part for job in jobs)
    told = Trouble(None, f"the file holds {len(jobs)} jobs: {names}", "summarize them apart")
    book = read_cells(path)
    form = layout.form_of(book.file_name) if layout else NO_FORM
    whole = read_whole(book, form)
    return replace(whole, troubles=(*whole.troubles, told))


def read_whole(book: OpenBook, form: Form = NO_FORM) -> Book:
    """All cells of a book as one job."""
    return _job(whole_book(book), form, whole=True).book


def read_jobs(path: Path, layout: Layout | None = None, name: str = "") -> tuple[Book, ...]:
    """Read each job of a file: one book where the file is one job, else one for each.

    name: of the builder's own file, where path is a copy of it under another name. The other
    parameters and errors are those of read_book. A job's part tells it from the others.
    """
    book = read_cells(path)
    book = replace(book, file_name=name or book.file_name)
    form = layout.form_of(book.file_name) if layout else NO_FORM
    return tuple(one.book for one in jobs_with_candidates(book, form))


@dataclass(frozen=True)
class JobRead:
    """One job of a file as read, with its own cells and what was weighed to read them."""

    book: Book
    part: JobPart
    candidates: Candidates


def jobs_with_candidates(book: OpenBook, form: Form = NO_FORM) -> Iterator[JobRead]:
    """Each job of an open book, with what was weighed to read it."""
    parts = split_jobs(book, form)
    if form.units is None and any(part.job is not None for part in parts):
        # A row has few sizes; those of the whole list say in which units they are.
        form = replace(form, units=propose(_calculated(whole_book(book)), form).system)
    if len(parts) == 1:
        yield _job(parts[0], form, whole=True)
        return
    first = [propose(_calculated(part), form, around=_around(part)) for part in parts]
    settled = settled_by_jobs(first)
    of_others = _system_of_most(first)
    jobs = []
    for part, own in zip(parts, first, strict=True):
        # A ticket with few sizes is in the units that all other tickets are in.
        as_others = replace(form, units=of_others) if own.system is None and of_others else form
        again = as_others is not form or differs(own, settled)
        candidates = propose(_calculated(part), as_others, settled, _around(part)) if again else own
        jobs.append(_job(part, form, whole=False, candidates=candidates))
    for job, found in zip(jobs, beside([job.book for job in jobs]), strict=True):
        yield replace(job, book=replace(job.book, beside=found))


# Fewer jobs say nothing of another one's units.
_FEWEST_JOBS = 2


def _system_of_most(found: Sequence[Candidates]) -> System | None:
    """The system that every job of a file is in of which it is known, None where they differ."""
    known = [one.system for one in found if one.system is not None]
    return known[0] if len(known) >= _FEWEST_JOBS and len({*known}) == 1 else None


def _job(part: JobPart, form: Form, whole: bool, candidates: Candidates | None = None) -> JobRead:
    """One job of a file, from its own cells and those that are nobody's.

    candidates: what its labels say, None where they were not looked at yet.
    """
    job, refused = job_of(part, form)
    candidates = candidates or propose(_calculated(part), form, around=_around(part))
    values = Tracing(part.cells, part=part, heads=_surest(candidates))
    calls = traced_calls(values)
    places = {given.place for given in vars(job).values()}
    forms = form_rows(part.own)
    gauges = of_gauges(forms)
    decided = decide(
        part.book, candidates, calls.records, values.label, places, gauges, job.engine.text
    )

    remembered = Remembered()

    def derive(
        readings: Sequence[Reading], cylinders: int | None
    ) -> tuple[tuple[Record, ...], tuple[Trouble, ...]]:
        facts = known(readings, decided.missing, decided.stated, remembered)
        return derived_records(
            facts, calls.records, decided.system, cylinders, remembered, job.engine
        )

    if decided.single and form.cylinders is None:
        form = replace(form, cylinders=1)
    derived, untold = derive(decided.readings, form.cylinders)
    own = part.own
    sheet = next((s.title for s in part.book.sheets), "")
    records = (*calls.records, *derived)
    asked = Asked(decided.readings, candidates, job, form, decided.system, records, sheet)
    marks = tuple(marks_of(own))
    book = Book(
        file_name=part.cells.file_name,
        sha256=part.cells.sha256,
        job=job,
        records=records,
        stale_formulas=calls.stale_formulas,
        not_recalculated=calls.not_recalculated,
        troubles=(*_troubles(part), *calls.troubles, *refused, *untold),
        typed_over=calls.typed_over,
        unlike=calls.unlike,
        cut_ranges=calls.cut_ranges,
        job_numbers=tuple(job_numbers(own)),
        marks=marks,
        accepted=tuple(acceptances(own, marks)),
        office=read_office(own),
        readings=decided.readings,
        missing=decided.missing,
        no_readings=decided.no_readings,
        stated=decided.stated,
        part=part.name,
        saved=part.cells.saved,
        questions=questions_of(asked, lambda readings, count: derive(readings, count)[0]),
        forms=forms,
        origins=limit_origins(own, calls.records, decided.readings),
    )
    return JobRead(book if whole else replace(book, shared=_shared(book, part)), part, candidates)


def _around(part: JobPart) -> OpenBook | None:
    """A job's cells with those that are of no job, None where there are no others."""
    return None if part.cells is part.book else part.cells


def _calculated(part: JobPart) -> OpenBook:
    """A job's cells with what its ordinary formulas come to where nothing was ever saved."""
    values = Recalculation(part.cells)
    sheets = []
    for sheet in part.book.sheets:
        worked = {
            at: cell._replace(value=number)
            for at, cell in sheet.cells.items()
            if cell.formula and cell.value is None and not mentions_call(cell.formula)
            if isinstance(number := _worked_out(values, sheet, at), (int, float))
        }
        sheets.append(replace(sheet, cells={**sheet.cells, **worked}) if worked else sheet)
    return replace(part.book, sheets=tuple(sheets))


def _worked_out(values: Recalculation, sheet: Sheet, at: tuple[int, int]) -> object:
    """What a formula comes to, None where that cannot be told."""
    try:
        return values.value(sheet, *at)
    except CannotEvaluate:
        return None


def _surest(candidates: Candidates) -> dict[tuple[str, int, int], Candidate]:
    """What known labels say of cells; the first where several name one."""
    found: dict[tuple[str, int, int], Candidate] = {}
    for candidate in (*candidates.calls, *candidates.readings):
        if candidate.how != "proposal":
            row, column = coordinate_to_tuple(candidate.place.address)
            found.setdefault((candidate.place.sheet, row, column), candidate)
    return found


def _troubles(part: JobPart) -> list[Trouble]:
    """What opening the file ran into on this job's sheets, and sheets that are nobody's."""
    titles = {sheet.title for sheet in part.cells.sheets if sheet.cells}
    told = [t for t in part.cells.troubles if t.place is None or t.place.sheet in titles]
    if part.left_out:
        told.append(
            Trouble(
                None,
                f"{part.left_out} more sheets of the file name a job and are told with none",
                "give each job of the file its number, or say in layout.toml what is a job",
            )
        )
    return told


def _shared(book: Book, part: JobPart) -> tuple[Place, ...]:
    """The places of a job's readings and results that belong to no job of the file."""
    places = [r.place for r in book.records]
    places += [a.place for r in book.records for a in r.arguments if a.place]
    places += [formula.place for formula in book.stale_formulas]
    places += [reading.place for reading in (*book.readings, *book.missing)]
    places += [number.place for number in book.no_readings]
    places += [stated.place for stated in book.stated]
    places += [place for place, _ in book.not_recalculated]
    return tuple(sorted({place for place in places if place.address and not part.owns(place)}))

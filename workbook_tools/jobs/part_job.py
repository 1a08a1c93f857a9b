"""The job of one part of a file: its fields with dates that cannot be misread."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from itertools import pairwise

from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.books.cells import OpenBook, Trouble
from workbook_tools.catalog import CellError
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.beside_titles import beside_titles
from workbook_tools.jobs.diaries import with_diary
from workbook_tools.jobs.field_values import DATES, field_text
from workbook_tools.jobs.job_fields import number_in_name, read_job
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.jobs.said_fields import said_fields
from workbook_tools.jobs.split import JobPart
from workbook_tools.jobs.titles import with_title
from workbook_tools.labels.cell_text import read_content
from workbook_tools.labels.content import Field
from workbook_tools.labels.dates import day_first_by, leading_date, read_date
from workbook_tools.labels.layout import NO_FORM, Form
from workbook_tools.labels.vocabulary import Vocabulary
from workbook_tools.measurands.tokens import phrase
from workbook_tools.quantities import TEXT


def job_of(part: JobPart, form: Form = NO_FORM) -> tuple[Job, tuple[Trouble, ...]]:
    """The job's fields, with the layout's cells before labels, and dates that were refused."""
    book = part.own
    words = form.vocabulary()
    job = part.job or read_job(book, words)
    found = {}
    for name, cells in form.job.items():
        sheet = book.sheet(cells.sheet) if cells.sheet else next(iter(book.sheets), None)
        cell = sheet.cells.get(coordinate_to_tuple(cells.range)) if sheet else None
        if sheet is not None and cell is not None and cell.value is not None:
            content = read_content(cell.value, Field(name, TEXT, day_first=form.day_first))
            text = content.text or field_text(cell.value)
            found[name] = JobField(text, Place(sheet.title, cells.range))
    job, taken = _numbered(part, replace(job, **found), words)
    if part.job is None:
        job = with_diary(book, with_title(book, job, words), words)
        job = beside_titles(book, job, words)
    job, refused = _dated(part, job, form.day_first, words)
    return job, (*taken, *_field_errors(part, job), *refused)


def _numbered(part: JobPart, job: Job, words: Vocabulary) -> tuple[Job, tuple[Trouble, ...]]:
    """The job with the number that its sheet or its file is named by, where the book gives none."""
    if job.number.text or job.number.place:
        return job, ()
    if part.name and (place := _number_of_block(part, words)):
        return replace(job, number=JobField(part.name, place)), ()
    names: list[tuple[str, Place | None]] = []
    if not part.name:
        names = [(part.own.file_name.rpartition(".")[0], None)]
    elif part.own.sheets[0].title == part.name:
        names = [(part.name, Place(part.name, ""))]
    for name, place in names:
        number = number_in_name(name, words)
        if number:
            told = Trouble(
                place,
                f"no cell gives the job number; {number} is from the name of the "
                f"{'sheet' if place else 'file'}",
                "write the number beside a label such as Job number",
            )
            return replace(job, number=JobField(number, place)), (told,)
    return job, ()


def _number_of_block(part: JobPart, words: Vocabulary) -> Place | None:
    """Where a block of a sheet holds its number, of whose label only the other blocks tell."""
    for sheet in part.own.sheets:
        for row, column, text in sheet.texts:
            beside = sheet.cells.get((row, column + 1))
            named = any(label.field == "number" for label in words.job.labels(text))
            if named and beside is not None and field_text(beside.value) == part.name:
                return Place.at(sheet.title, row, column + 1)
    return None


def _dated(
    part: JobPart, job: Job, day_first: bool | None, words: Vocabulary
) -> tuple[Job, tuple[Trouble, ...]]:
    """The job with its dates as YYYY-MM-DD, and a word on each that cannot be told."""
    given: dict[str, JobField] = {name: getattr(job, name) for name in DATES}
    from_1904 = part.own.days_from_1904

    def read(order: bool | None) -> dict[str, str]:
        field = Field("", TEXT, day_first=order, from_1904=from_1904)
        return {name: read_date(one.text, field).text for name, one in given.items()}

    if day_first is None:
        day_first = _order_of_dates(part, given, read, words)
    told = read(day_first)
    troubles = []
    for name, one in given.items():
        if told[name]:
            job = replace(job, **{name: replace(one, text=told[name])})
        elif one.text:
            content = read_date(one.text, Field("", TEXT, from_1904=from_1904))
            if content.reason:
                troubles.append(
                    Trouble(
                        one.place,
                        f"{name} {one.text!r}: {content.reason}",
                        'write the date as 2024-03-04, or give dates = "day first" in layout.toml',
                    )
                )
    return job, tuple(troubles)


def _order_of_dates(
    part: JobPart,
    given: dict[str, JobField],
    read: Callable[[bool | None], dict[str, str]],
    words: Vocabulary,
) -> bool | None:
    """Whether the day comes first: by the book's other dates, by its language, by what follows.

    Only where a date of the job can be two days; None where nothing tells.
    """
    orders = [read(order) for order in (None, True, False)]
    if all(orders[0][name] or not orders[1][name] for name in given):
        return None
    whole = part.whole or part.cells
    texts = [text for sheet in whole.sheets for _, _, text in sheet.texts]
    dates = [date for text in texts if (date := leading_date(text))]
    told = day_first_by([*dates, *(one.text for one in given.values())])
    if told is None:
        told = _by_language(whole, texts, words)
    if told is None:
        # A job is finished after it was started.
        runs = [all(o.values()) and o["started"] <= o["finished"] for o in orders[1:]]
        told = runs[0] if runs[0] != runs[1] and all(all(o.values()) for o in orders[1:]) else None
    return told


def _by_language(book: OpenBook, texts: list[str], words: Vocabulary) -> bool | None:
    """Whether the day comes first in the language of a book; None for English of no spelling."""
    votes = Counter(
        language
        for sheet in book.sheets
        for said in said_fields(sheet, words)
        for language in said.languages
    )
    if not votes:
        return None
    if votes["en"] < max(votes.values()):
        return True
    phrases = [phrase(text) for text in texts]
    british, american = (
        any(_holds(words_of, listed) for words_of in phrases)
        for listed in (words.job.day_first, words.job.month_first)
    )
    return british if british != american else None


def _holds(words: tuple[str, ...], listed: frozenset[tuple[str, ...]]) -> bool:
    return any((word,) in listed for word in words) or any(p in listed for p in pairwise(words))


def _field_errors(part: JobPart, job: Job) -> Iterator[Trouble]:
    """Fields of the job whose cell shows an error value, such as a failed look-up."""
    for item in fields(Job):
        given: JobField = getattr(job, item.name)
        sheet = part.own.sheet(given.place.sheet) if given.place else None
        if given.place is None or sheet is None or not given.place.address:
            continue
        cell = sheet.cells.get(coordinate_to_tuple(given.place.address))
        if cell is not None and isinstance(cell.value, CellError):
            yield Trouble(
                given.place,
                f"{item.name}: expected a text, the cell shows {cell.value.text}",
                "type it in, or mend the formula that looks it up",
            )

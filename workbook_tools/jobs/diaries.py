"""When a job began and was done by a diary: dates in a column, with what was done beside each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.field_values import DATES, field_text, fitting
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.labels.dates import leading_date
from workbook_tools.labels.vocabulary import Vocabulary
from workbook_tools.measurands.tokens import phrase

# Entries that make a column of dates a diary.
_FEWEST = 3
_LONGEST_PHRASE = 4
# Shorter words say as often where a part is.
_LEAST_LETTERS = 4


class _Entry(NamedTuple):
    """One line of a diary: its date as written, where that stands, and what it tells."""

    date: str
    at: tuple[int, int]
    told: str


def with_diary(book: OpenBook, job: Job, words: Vocabulary) -> Job:
    """The job with the first and the last day of its diary, where the book gives no other.

    Only where the first entry says that the work began, and the last that it was done.
    """
    if job.started.text and job.finished.text:
        return job
    for sheet in book.sheets:
        for entries in _diaries(sheet, words):
            for name, entry in zip(DATES, (entries[0], entries[-1]), strict=True):
                given: JobField = getattr(job, name)
                if not given.text and not given.place and _says(name, entry.told, words):
                    place = Place.at(sheet.title, *entry.at)
                    job = replace(job, **{name: JobField(entry.date, place)})
    return job


def _diaries(sheet: Sheet, words: Vocabulary) -> Iterator[list[_Entry]]:
    columns: dict[int, list[_Entry]] = {}
    cells = sheet.cells
    for (row, column), cell in cells.items():
        beside = cells.get((row, column + 1))
        told = isinstance(cell.value, str) or (beside and isinstance(beside.value, str))
        entry = _entry(sheet, row, column, cell.value, words) if told else None
        if entry is not None:
            columns.setdefault(column, []).append(entry)
    yield from (entries for entries in columns.values() if len(entries) >= _FEWEST)


def _entry(sheet: Sheet, row: int, column: int, value: object, words: Vocabulary) -> _Entry | None:
    """A date with a text beside it or behind it in its cell."""
    beside = sheet.cells.get((row, column + 1))
    if isinstance(value, str):
        date = leading_date(value)
        told = value[len(date) :].strip(" .:,;–-")
        if date and told:
            return _Entry(date, (row, column), told)
    if beside is None or not isinstance(beside.value, str):
        return None
    date = fitting(DATES[0], value, words, sure=False)
    return _Entry(date, (row, column), field_text(beside.value)) if date else None


def _says(name: str, told: str, words: Vocabulary) -> bool:
    """Whether an entry has a word for the beginning, or for the end, of a job."""
    said = phrase(told)
    return any(
        label.field == name
        for length in range(1, _LONGEST_PHRASE + 1)
        for at in range(len(said) - length + 1)
        if length > 1 or len(said[at]) >= _LEAST_LETTERS
        for label in words.job.labels(" ".join(said[at : at + length]))
    )

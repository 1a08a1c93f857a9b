"""The day and the hands beside the title of a sheet, such as that of the strip or the dyno."""

from __future__ import annotations

from collections.abc import Set
from dataclasses import replace

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.field_values import DATES, field_text, fitting
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.jobs.sure_names import is_called
from workbook_tools.labels.vocabulary import Vocabulary
from workbook_tools.measurands.tokens import phrase

_MOST_WORDS_OF_NAMES = 3
# The last cells of a title's row that a day can stand in.
_MOST_CELLS = 3
_LONGEST_PHRASE = 3


def beside_titles(book: OpenBook, job: Job, words: Vocabulary) -> Job:
    """The job with what stands beside the titles of its sheets, where nothing else says it.

    "STRIP | 5 Aug 2024" on the first sheet, "on the pump | 13 Sep 2024" on that of the dyno; a
    sheet of the assembly ends a job only where another one began it. "BUILD | Sal + Tom" names
    who built it.
    """
    first = [s for s in book.sheets if _is_of(s, words.job.first_days)]
    last = [s for s in book.sheets if s not in first and _is_of(s, words.job.last_days)]
    run = [s for s in last if _is_of(s, words.job.runs)]
    ending = run or (last if first else [])
    for name, sheets in zip(DATES, (first, ending[::-1]), strict=True):
        if _is_missing(job, name):
            found = next((one for s in sheets if (one := _day(s, name, words))), None)
            job = replace(job, **{name: found}) if found else job
    if _is_missing(job, "builder"):
        built = next((one for s in last if (one := _hands(s, words))), None)
        job = replace(job, builder=built) if built else job
    return job


def _is_missing(job: Job, name: str) -> bool:
    given: JobField = getattr(job, name)
    return not given.text and not given.place


def _is_of(sheet: Sheet, kinds: Set[tuple[str, ...]]) -> bool:
    """Whether a sheet's name or the text at its beginning has a word of a kind of sheets."""
    return _has(sheet.title, kinds) or any(_has(text, kinds) for _, text in _title_row(sheet)[:1])


def _has(text: str, kinds: Set[tuple[str, ...]]) -> bool:
    said = phrase(text)
    return any(
        said[at : at + length] in kinds
        for length in range(1, _LONGEST_PHRASE + 1)
        for at in range(len(said) - length + 1)
    )


def _title_row(sheet: Sheet) -> list[tuple[int, str]]:
    """The columns and texts of the first row, where that begins with a text; dates are texts."""
    row = [(c, cell.value) for c, cell in sheet.rows.get(_top(sheet), {}).items()]
    if not row or not isinstance(row[0][1], str):
        return []
    return [(column, field_text(value)) for column, value in row if value is not None]


def _top(sheet: Sheet) -> int:
    return min(sheet.rows, default=0)


def _day(sheet: Sheet, name: str, words: Vocabulary) -> JobField | None:
    """The only day in the first row, behind no label of anything else."""
    row, top = _title_row(sheet), _top(sheet)
    days = [
        (at, column, day)
        for at, (column, _) in enumerate(row[:_MOST_CELLS])
        if at and (day := fitting(name, sheet.cells[top, column].value, words, sure=False))
    ]
    if len(days) != 1:
        return None
    at, column, day = days[0]
    labels = words.job.labels(row[at - 1][1])
    if labels and not any(label.field == name for label in labels):
        return None
    return JobField(day, Place.at(sheet.title, top, column))


def _hands(sheet: Sheet, words: Vocabulary) -> JobField | None:
    """Who stands beside the title of a sheet that says no more than "Build"."""
    row, top = _title_row(sheet), _top(sheet)
    if len(row) < 2 or phrase(row[0][1]) not in words.job.last_days:
        return None
    column, text = row[1]
    few = len(text.replace("+", " ").replace("&", " ").split()) <= _MOST_WORDS_OF_NAMES
    is_typed = isinstance(sheet.cells[top, column].value, str)
    if not (few and is_typed and is_called(text, words)):
        return None
    return JobField(text, Place.at(sheet.title, top, column))

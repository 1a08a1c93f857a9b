"""Several jobs in one workbook: a sheet each, a block each, or a row each."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, replace
from itertools import pairwise

from openpyxl.utils.cell import coordinate_to_tuple, get_column_letter

from workbook_tools.books.cell_text import read_content
from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.books.content import Field
from workbook_tools.books.job_fields import field_text, read_job
from workbook_tools.books.layout import NO_FORM, Form
from workbook_tools.books.records import Job, JobField, Place, Trouble
from workbook_tools.books.vocabulary import Vocabulary
from workbook_tools.units import TEXT


@dataclass(frozen=True)
class JobPart:
    """One job of a workbook: its name in the book ("" where the book is one job) and its cells.

    job: its fields where column heads name them, None where labels beside them do.
    """

    name: str
    book: OpenBook
    job: Job | None = None


@dataclass(frozen=True)
class _Number:
    """A job number as a sheet gives it, with its label's cell."""

    row: int
    column: int
    text: str


def split_jobs(book: OpenBook, form: Form = NO_FORM) -> tuple[JobPart, ...]:
    """The jobs of a workbook, each with the cells that are its own.

    form: says whether jobs are sheets, blocks or rows; left out, that is told by where job
    numbers stand: different ones on several sheets, or several of them on one. Sheets
    without a job number belong to every job. A book of one job is one part, as it is.
    """
    vocabulary = form.vocabulary()
    numbers = {s.title: list(_numbers(s, vocabulary)) for s in book.sheets}
    rows = {s.title: _job_rows(s, vocabulary) for s in book.sheets}
    scheme = form.jobs
    if scheme == "one":
        return (JobPart("", book),)
    if scheme == "rows" or (scheme is None and any(len(r) > 1 for r in rows.values())):
        parts = [p for s in book.sheets for p in _row_parts(book, s, rows[s.title], vocabulary)]
        if parts:
            return tuple(parts)
    if scheme == "blocks" or (scheme is None and any(_differ(n) > 1 for n in numbers.values())):
        parts = [p for s in book.sheets for p in _block_parts(book, s, numbers[s.title])]
        if len(parts) > 1:
            return tuple(parts)
    first = {title: found[0].text for title, found in numbers.items() if found}
    if scheme == "sheets":
        mine = [s for s in book.sheets if s.title in first or not first]
        return _sheet_parts(book, [s.title for s in mine if not s.hidden])
    if scheme is None and len(set(first.values())) > 1 and _differ_as_jobs(book, first):
        return _sheet_parts(book, list(first))
    return (JobPart("", book),)


def _differ(numbers: list[_Number]) -> int:
    return len({n.text for n in numbers})


def _differ_as_jobs(book: OpenBook, first: Mapping[str, str]) -> bool:
    """Whether sheets with job numbers are jobs of their own, each with readings.

    One job's book can have an inner sheet left over from the last job; two numbers on
    sheets of different names and kinds are then a slip, not two jobs.
    """
    sheets = [s for s in book.sheets if s.title in first]
    labels = [
        {str(c.value).strip().casefold() for c in s.cells.values() if isinstance(c.value, str)}
        for s in sheets
    ]
    if len(sheets) != len(set(first.values())):
        return False
    return all(len(a & b) >= 0.5 * min(len(a), len(b)) for a, b in pairwise(labels))


def _numbers(sheet: Sheet, vocabulary: Vocabulary) -> Iterator[_Number]:
    """The job numbers of a sheet with the cells of their labels, row by row."""
    for row, column, text in sheet.texts:
        label, colon, rest = text.partition(":")
        if vocabulary.job_field(label) != "number":
            continue
        if colon and rest.strip():
            yield _Number(row, column, rest.strip())
            continue
        _, right = sheet.merged.get((row, column), (row, column))
        for at in range(right + 1, right + 4):
            beside = sheet.cells.get((row, at))
            if beside is None:
                continue
            text = str(beside.value).strip()
            if text and not vocabulary.job_field(text) and not beside.formula:
                yield _Number(row, column, text)
            break


def _sheet_parts(book: OpenBook, titles: list[str]) -> tuple[JobPart, ...]:
    """A part for each of these sheets; every other sheet belongs to all of them."""
    common = tuple(s for s in book.sheets if s.title not in titles)
    own = [s for s in book.sheets if s.title in titles]
    if len(own) < 2:
        return (JobPart("", book),)
    return tuple(JobPart(s.title, replace(book, sheets=(s, *common))) for s in own)


def _only(sheet: Sheet, top: int, bottom: int, left: int, right: int) -> Sheet:
    """A sheet with the cells of one block."""
    cells = {
        (r, c): cell
        for (r, c), cell in sheet.cells.items()
        if top <= r <= bottom and left <= c <= right
    }
    return replace(sheet, cells=cells)


def _block_parts(book: OpenBook, sheet: Sheet, numbers: list[_Number]) -> Iterator[JobPart]:
    """The blocks of a sheet, each from its job number to the next, below or beside it."""
    seen: dict[str, _Number] = {}
    for number in numbers:
        seen.setdefault(number.text, number)
    starts = list(seen.values())
    if not starts:
        return
    by_row: dict[int, list[_Number]] = defaultdict(list)
    for number in starts:
        by_row[number.row].append(number)
    rows = sorted(by_row)
    last = max((r for r, _ in sheet.cells), default=0)
    for row, below in zip(rows, [*rows[1:], last + 2], strict=True):
        top = _block_top(sheet, row)
        bottom = (_block_top(sheet, below) if below <= last else below) - 1
        beside = sorted(by_row[row], key=lambda n: n.column)
        edges = [n.column for n in beside[1:]]
        for number, left, right in zip(
            beside, [1, *edges], [*(e - 1 for e in edges), 16384], strict=True
        ):
            block = _only(sheet, top, bottom, left, right)
            yield JobPart(number.text, replace(book, sheets=(block,)))


def _block_top(sheet: Sheet, row: int) -> int:
    """The first row of a block: titles that stand directly over its job number are its own."""
    while row > 1 and any(r == row - 1 for r, _ in sheet.cells):
        row -= 1
        if sum(r == row for r, _ in sheet.cells) > 1:
            return row + 1
    return row


def _job_rows(sheet: Sheet, vocabulary: Vocabulary) -> list[int]:
    """The rows of a table in which each row is a job: a head "Job", readings beside it."""
    for row, column, text in sheet.texts:
        if vocabulary.job_field(text) != "number":
            continue
        heads = [c.value for (r, _), c in sheet.cells.items() if r == row]
        readings = sum(isinstance(h, str) and _names_reading(vocabulary, h) for h in heads)
        below: list[int] = []
        while (row + len(below) + 1, column) in sheet.cells:
            below.append(row + len(below) + 1)
        if readings >= 2 and below:
            return below
    return []


def _names_reading(vocabulary: Vocabulary, text: str) -> bool:
    match = vocabulary.match(text)
    return match is not None and match.how != "proposal"


def _row_parts(
    book: OpenBook, sheet: Sheet, rows: list[int], vocabulary: Vocabulary
) -> Iterator[JobPart]:
    """A part for each row of a table of jobs, with the table's heads over it."""
    if not rows:
        return
    head = min(rows) - 1
    for row in rows:
        # The heads move down to the row, so that the row's cells keep their addresses.
        cells = {
            (r if r == row else r + row - head - 1, c): cell
            for (r, c), cell in sheet.cells.items()
            if r <= head or r == row
        }
        first = min(c for r, c in sheet.cells if r == row)
        name = str(sheet.cells[row, first].value)
        moved = replace(sheet, cells=cells, merged={})
        job = _job_in_row(sheet, head, row, vocabulary)
        yield JobPart(name, replace(book, sheets=(moved,)), job)


def _job_in_row(sheet: Sheet, head: int, row: int, vocabulary: Vocabulary) -> Job:
    """The job's fields of one row, by the heads of their columns."""
    found = {}
    for (r, column), cell in sheet.cells.items():
        name = vocabulary.job_field(str(cell.value)) if r == head else ""
        value = sheet.cells.get((row, column))
        if name and name not in found and value is not None and value.value is not None:
            place = Place(sheet.title, f"{get_column_letter(column)}{row}")
            found[name] = JobField(field_text(value.value), place)
    return Job(**found)


def job_of(part: JobPart, form: Form = NO_FORM) -> tuple[Job, tuple[Trouble, ...]]:
    """The job's fields, with the layout's cells before labels, and dates that were refused."""
    book = part.book
    job = part.job or read_job(book, form.vocabulary().job_words)
    found = {}
    for name, cells in form.job.items():
        sheet = book.sheet(cells.sheet) if cells.sheet else next(iter(book.sheets), None)
        cell = sheet.cells.get(coordinate_to_tuple(cells.range)) if sheet else None
        if sheet is not None and cell is not None and cell.value is not None:
            content = read_content(cell.value, Field(name, TEXT, day_first=form.day_first))
            found[name] = JobField(content.text or str(cell.value), Place(sheet.title, cells.range))
    job = replace(job, **found)
    troubles = []
    for item in fields(Job):
        given: JobField = getattr(job, item.name)
        if item.name not in ("started", "finished") or not given.text:
            continue
        content = read_content(
            given.text,
            Field(item.name, TEXT, day_first=form.day_first, from_1904=book.days_from_1904),
        )
        if content.text:
            job = replace(job, **{item.name: replace(given, text=content.text)})
        elif content.reason:
            troubles.append(
                Trouble(
                    given.place,
                    f"{item.name} {given.text!r}: {content.reason}",
                    'write the date as 2024-03-04, or give dates = "day first" in layout.toml',
                )
            )
    return job, tuple(troubles)

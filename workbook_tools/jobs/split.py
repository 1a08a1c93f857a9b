"""Several jobs in one workbook: a sheet each, a block each, or a row each."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, field, fields, replace
from itertools import pairwise

from openpyxl.utils.cell import coordinate_to_tuple, range_boundaries

from workbook_tools.books.cells import Cell, OpenBook, Sheet, Trouble
from workbook_tools.catalog import CellError
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.job_fields import field_text, read_job
from workbook_tools.jobs.records import Job, JobField
from workbook_tools.labels.cell_text import read_content
from workbook_tools.labels.content import Field
from workbook_tools.labels.layout import NO_FORM, Form
from workbook_tools.labels.vocabulary import Vocabulary
from workbook_tools.quantities import TEXT


@dataclass(frozen=True)
class JobPart:
    """One job of a workbook: its name in the book ("" where the book is one job) and its cells.

    own: the cells that are this job's alone, from which all that is said of the job comes;
    cells: these, and what belongs to no job, where they stand in the file; book: the same as
    it is read for labels, with the heads of a table moved to the job's row; job: its fields
    where column heads name them, None where labels beside them do; taken: the cells of all
    jobs of the file, by sheet; left_out: how many sheets name a job and are of none.
    """

    name: str
    book: OpenBook
    own: OpenBook
    cells: OpenBook
    job: Job | None = None
    taken: Mapping[str, Set[tuple[int, int]]] = field(default_factory=dict)
    left_out: int = 0

    def of_another(self, sheet: str, row: int, column: int) -> bool:
        """Whether a cell belongs to another job of the file."""
        own = self.own.sheet(sheet)
        at = (row, column)
        return at in self.taken.get(sheet, ()) and (own is None or at not in own.cells)

    def owns(self, place: Place) -> bool:
        """Whether a place lies in cells that are this job's alone."""
        sheet = self.own.sheet(place.sheet)
        if sheet is None or not place.address:
            return sheet is not None
        left, top, right, bottom = range_boundaries(place.address)
        return any(
            (row, column) in sheet.cells
            for row in range(top or 1, (bottom or 1) + 1)
            for column in range(left or 1, (right or 1) + 1)
        )


@dataclass(frozen=True)
class _Number:
    """A job number as a sheet gives it, with its label's cell."""

    row: int
    column: int
    text: str


def split_jobs(book: OpenBook, form: Form = NO_FORM) -> tuple[JobPart, ...]:
    """The jobs of a workbook, each with the cells that are its own.

    form: says whether jobs are sheets, blocks or rows; left out, that is told by where job
    numbers stand: different ones on several sheets, or several of them on one. Cells that
    are in no job's area and name no job are shared by all. A book of one job is one part.
    """
    vocabulary = form.vocabulary()
    parts = _split(book, form, vocabulary)
    return _apart(book, parts, vocabulary) if len(parts) > 1 else parts


def _apart(book: OpenBook, parts: Sequence[JobPart], vocabulary: Vocabulary) -> tuple[JobPart, ...]:
    """Jobs with what each may see of the book: its own cells, and those that are nobody's."""
    owned: dict[str, set[tuple[int, int]]] = defaultdict(set)
    for part in parts:
        for sheet in part.own.sheets:
            owned[sheet.title].update(sheet.cells)
    shared: dict[str, Sheet] = {}
    left_out = 0
    for sheet in book.sheets:
        taken = owned.get(sheet.title, set())
        rest = replace(sheet, cells={at: c for at, c in sheet.cells.items() if at not in taken})
        job = read_job(replace(book, sheets=(rest,)), vocabulary.job_words)
        if job.number.text or job.customer.text:
            left_out += not taken
            rest = replace(sheet, cells={})
        shared[sheet.title] = rest
    return tuple(replace(_seen(part, shared), taken=owned, left_out=left_out) for part in parts)


def _seen(part: JobPart, shared: Mapping[str, Sheet]) -> JobPart:
    """A job with the cells that are its own and those that are shared."""
    own = {sheet.title: sheet for sheet in part.own.sheets}
    cells = tuple(
        replace(rest, cells=rest.cells | own[title].cells) if title in own else rest
        for title, rest in shared.items()
    )
    read = tuple(s for s in part.book.sheets if s.title in own or shared[s.title].cells)
    return replace(
        part, book=replace(part.book, sheets=read), cells=replace(part.book, sheets=cells)
    )


def whole_book(book: OpenBook) -> JobPart:
    """All cells of a book as one job."""
    return _part("", book)


def _part(
    name: str, book: OpenBook, own: OpenBook | None = None, job: Job | None = None
) -> JobPart:
    return JobPart(name, book, own or book, book, job)


def _split(book: OpenBook, form: Form, vocabulary: Vocabulary) -> tuple[JobPart, ...]:
    numbers = {s.title: list(_numbers(s, vocabulary)) for s in book.sheets}
    rows = {s.title: _job_rows(s, vocabulary) for s in book.sheets}
    scheme = form.jobs
    if scheme == "one":
        return (_part("", book),)
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
    return (_part("", book),)


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
            text = field_text(beside.value)
            if text and not vocabulary.job_field(text) and not beside.formula:
                yield _Number(row, column, text)
            break


def _sheet_parts(book: OpenBook, titles: list[str]) -> tuple[JobPart, ...]:
    """A part for each of these sheets; every other sheet belongs to all of them."""
    common = tuple(s for s in book.sheets if s.title not in titles)
    own = [s for s in book.sheets if s.title in titles]
    if len(own) < 2:
        return (_part("", book),)
    return tuple(
        _part(s.title, replace(book, sheets=(s, *common)), replace(book, sheets=(s,))) for s in own
    )


# The first and the last row, the first and the last column.
_Edges = tuple[int, int, int, int]


def _only(
    sheet: Sheet, top: int, bottom: int, left: int, right: int
) -> dict[tuple[int, int], Cell]:
    """The cells of one block of a sheet."""
    return {
        (r, c): cell
        for (r, c), cell in sheet.cells.items()
        if top <= r <= bottom and left <= c <= right
    }


def _block_parts(book: OpenBook, sheet: Sheet, numbers: list[_Number]) -> Iterator[JobPart]:
    """The blocks of a sheet, each from its job number to the next, below or beside it."""
    seen: dict[str, _Number] = {}
    for number in numbers:
        seen.setdefault(number.text, number)
    starts = list(seen.values())
    if not starts:
        return
    found = _blocks(sheet, starts)
    again = [n for n in numbers if any(n.text != b.text and _lies_in(n, e) for b, e in found)]
    if again:
        # A job that goes on below another one: what stands there is not that other job's.
        found = _blocks(sheet, [*starts, *again])
    cells: dict[str, dict[tuple[int, int], Cell]] = defaultdict(dict)
    for number, edges in found:
        cells[number.text] |= _only(sheet, *edges)
    for name, own in cells.items():
        # A name of the book is of one cell, and says nothing of the other blocks.
        yield _part(name, replace(book, sheets=(replace(sheet, cells=own),), names={}))


def _lies_in(number: _Number, edges: _Edges) -> bool:
    top, bottom, left, right = edges
    return top <= number.row <= bottom and left <= number.column <= right


def _blocks(sheet: Sheet, starts: Sequence[_Number]) -> list[tuple[_Number, _Edges]]:
    """(first row, last row, first column, last column) of the block of each job number."""
    found = []
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
            found.append((number, (top, bottom, left, right)))
    return found


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
    by_row: dict[int, dict[tuple[int, int], Cell]] = defaultdict(dict)
    for at, cell in sheet.cells.items():
        by_row[at[0]][at] = cell
    heads = {at: cell for at, cell in sheet.cells.items() if at[0] <= head}
    for row in rows:
        # The heads move down to the row, so that the row's cells keep their addresses.
        own = by_row[row]
        cells = {(r + row - head - 1, c): cell for (r, c), cell in heads.items()}
        moved = replace(sheet, cells=cells | own, merged={})
        name = field_text(next(iter(own.values())).value) or f"row {row}"
        job = _job_in_row(sheet, head, row, vocabulary)
        alone = replace(book, sheets=(replace(sheet, cells=own),), names={})
        yield _part(name, replace(book, sheets=(moved,)), alone, job)


def _job_in_row(sheet: Sheet, head: int, row: int, vocabulary: Vocabulary) -> Job:
    """The job's fields of one row, by the heads of their columns."""
    found = {}
    for (r, column), cell in sheet.cells.items():
        name = vocabulary.job_field(str(cell.value)) if r == head else ""
        value = sheet.cells.get((row, column))
        if name and name not in found and value is not None and value.value is not None:
            place = Place.at(sheet.title, row, column)
            found[name] = JobField(field_text(value.value), place)
    return Job(**found)


def job_of(part: JobPart, form: Form = NO_FORM) -> tuple[Job, tuple[Trouble, ...]]:
    """The job's fields, with the layout's cells before labels, and dates that were refused."""
    book = part.own
    job = part.job or read_job(book, form.vocabulary().job_words)
    found = {}
    for name, cells in form.job.items():
        sheet = book.sheet(cells.sheet) if cells.sheet else next(iter(book.sheets), None)
        cell = sheet.cells.get(coordinate_to_tuple(cells.range)) if sheet else None
        if sheet is not None and cell is not None and cell.value is not None:
            content = read_content(cell.value, Field(name, TEXT, day_first=form.day_first))
            text = content.text or field_text(cell.value)
            found[name] = JobField(text, Place(sheet.title, cells.range))
    job = replace(job, **found)
    troubles = list(_field_errors(part, job))
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


def _field_errors(part: JobPart, job: Job) -> Iterator[Trouble]:
    """Fields of the job whose cell shows an error value, such as a failed look-up."""
    for item in fields(Job):
        given: JobField = getattr(job, item.name)
        sheet = part.own.sheet(given.place.sheet) if given.place else None
        if given.place is None or sheet is None:
            continue
        cell = sheet.cells.get(coordinate_to_tuple(given.place.address))
        if cell is not None and isinstance(cell.value, CellError):
            yield Trouble(
                given.place,
                f"{item.name}: expected a text, the cell shows {cell.value.text}",
                "type it in, or mend the formula that looks it up",
            )

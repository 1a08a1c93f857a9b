"""Lists of jobs: a row or a column each, below or beside the names of their fields."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise, takewhile

from openpyxl.utils import get_column_letter

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.field_values import DATES, field_text, fitting, rebuild_of
from workbook_tools.jobs.list_heads import (
    as_values_tell,
    fields_of,
    has_values,
    is_of_jobs,
    key_of,
    numbered_by_first_column,
    values_below,
    values_beside,
    with_unnamed,
)
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.jobs.said_fields import said_fields
from workbook_tools.labels.job_labels import JobLabel
from workbook_tools.labels.vocabulary import Vocabulary
from workbook_tools.labels.which_told import which_of
from workbook_tools.labels.written_limits import limit_in
from workbook_tools.measurands.position import counts

At = tuple[int, int]
# A number of fewer digits may count cylinders as well.
_DIGITS_OF_A_JOB = 3
# So many fields with a sure number over a list are those of one job.
_FIELDS_OF_A_HEAD = 3
# What a row between heads and jobs may say that its numbers are.
_LIMITS = ("limit_low", "limit_high", "target")
# What stands over values and names nothing.
_VALUE = "value"
# A list goes on past so many empty rows.
_MOST_EMPTY = 1
# Below a gap a row has at least this share of the fields that the first row has.
_ALIKE = 0.6
# A job that goes on in the next column has so many numbers there.
_FEWEST_BESIDE = 4
# A column of a log names jobs in this share of its cells at least.
_OF_JOBS = 0.8


@dataclass(frozen=True)
class ListedJob:
    """One job of a list: its fields, its name, and where its own cells lie.

    lines: its rows, or its columns where across is set; heads: what stands before the first
    of them and names its cells; first: the first of all jobs' lines; limits: the rows between
    the heads and that one which say what all jobs are held against, and are of none.
    """

    name: str
    job: Job
    lines: tuple[int, ...]
    first: int
    across: bool = False
    limits: tuple[int, ...] = ()
    beside_limits: bool = False

    def cells(self, sheet: Sheet) -> dict[At, Cell]:
        """The job's own cells."""
        side = 1 if self.across else 0
        return {at: cell for at, cell in sheet.cells.items() if at[side] in self.lines}

    def with_heads(self, sheet: Sheet) -> Sheet:
        """The sheet as the job is read for labels: its own cells below or beside the heads.

        The heads of rows move down to the job's, so that its cells keep their addresses.
        """
        own = self.cells(sheet)
        if self.across:
            heads = {at: cell for at, cell in sheet.cells.items() if at[1] < self.first}
            # Its number over its readings says that they are the job's, and names nothing.
            own = {
                at: cell._replace(value=_VALUE) if self._repeats_number(at, cell) else cell
                for at, cell in own.items()
            }
            return replace(sheet, cells=heads | own)
        down = min(self.lines) - self.first
        # The heads stand directly over the job, whatever stood between.
        to = {
            r: r + down + sum(limit > r for limit in self.limits)
            for r in range(1, self.first)
            if r not in self.limits
        }
        heads = {(to[r], c): cell for (r, c), cell in sheet.cells.items() if r in to}
        merged = {
            (to[r], c): (to[last], right)
            for (r, c), (last, right) in sheet.merged.items()
            if r in to and last in to
        }
        # Where rows of other jobs stand between its own, the last row of heads comes again.
        parted = [b - self.first for a, b in pairwise(sorted(self.lines)) if b > a + 1]
        again = {
            (self.first - 1 + further, c): cell
            for further in parted
            for (r, c), cell in sheet.cells.items()
            if to.get(r) == self.first - 1 + down
        }
        return replace(sheet, cells=again | heads | own, merged=merged)

    def _repeats_number(self, at: At, cell: Cell) -> bool:
        place = self.job.number.place
        first = place is not None and place.address == f"{get_column_letter(at[1])}{at[0]}"
        # Beside what all jobs are held against it heads this one's values.
        return (self.beside_limits or not first) and field_text(cell.value) == self.name


def listed_jobs(sheet: Sheet, vocabulary: Vocabulary) -> list[ListedJob]:
    """The jobs of a sheet that lists several, [] where it does not."""
    rows = _in_rows(sheet, vocabulary)
    return rows if len(rows) > 1 else _in_columns(sheet, vocabulary)


def with_logs(
    book: OpenBook, lists: Mapping[str, list[ListedJob]], vocabulary: Vocabulary
) -> dict[str, list[ListedJob]]:
    """Lists of jobs by sheet, with the logs of what was done to those jobs, a row a piece of it."""
    names = {job.name for jobs in lists.values() for job in jobs}
    return {
        s.title: lists[s.title] or (list(_logged(s, names, vocabulary)) if names else [])
        for s in book.sheets
    }


def _logged(sheet: Sheet, names: Set[str], vocabulary: Vocabulary) -> Iterator[ListedJob]:
    """The jobs whose names a column of a sheet holds, each with the rows that name it."""
    columns: dict[int, dict[int, str]] = {}
    for (row, column), cell in sorted(sheet.cells.items()):
        said = fitting("number", cell.value, vocabulary) if cell.value is not None else ""
        if said in names:
            columns.setdefault(column, {})[row] = said
    for column, named in sorted(columns.items()):
        first = min(named)
        below = [r for r in sheet.columns[column] if r >= first]
        limits = tuple(takewhile(partial(_is_of_limits, sheet), range(first - 1, 0, -1)))
        head = (first - 1 - len(limits), column)
        if not _may_number_jobs(sheet, head, named, below, vocabulary):
            continue
        if len(set(named.values())) < 2 or len(named) < _OF_JOBS * len(below):
            continue
        for name in dict.fromkeys(named.values()):
            rows = tuple(r for r, said in named.items() if said == name)
            place = Place.at(sheet.title, rows[0], column)
            yield ListedJob(name, Job(number=JobField(name, place)), rows, first, limits=limits)
        return


def _may_number_jobs(
    sheet: Sheet, head: At, named: Mapping[int, str], below: Sequence[int], vocabulary: Vocabulary
) -> bool:
    """Whether a column's head names something of a job, or leaves its numbers to say it alone.

    A count of cylinders may be as many numbers of jobs, but says nothing of a job.
    """
    cell = sheet.cells.get(head)
    if cell is not None and cell.value is not None:
        return bool(vocabulary.job.labels(str(cell.value)))
    return len(named) == len(below) and not any(_is_count(name) for name in named.values())


def _is_count(name: str) -> bool:
    return name.isdecimal() and len(name) < _DIGITS_OF_A_JOB


def _in_rows(sheet: Sheet, vocabulary: Vocabulary) -> list[ListedJob]:
    """A list with a job in each row, or in some rows each, under heads of its fields."""
    heads: dict[int, dict[int, tuple[JobLabel, ...]]] = {}
    for row, column, text in sheet.texts:
        labels = vocabulary.job.labels(text)
        if labels:
            heads.setdefault(row, {})[column] = labels
    for row, all_named in heads.items():
        if len(all_named) < 2:
            continue
        values = values_below(sheet, row)
        named = as_values_tell(all_named, values, vocabulary)
        fields = numbered_by_first_column(sheet, row, fields_of(named), vocabulary)
        key = key_of(fields, named)
        if len(fields) < 2 or not key or has_values(sheet, row, fields, vocabulary):
            continue
        columns = with_unnamed(fields, _heads_at(sheet, row, fields), values, vocabulary)
        found = list(_rows_below(sheet, row, columns, key, vocabulary))
        if len(found) > 1 and is_of_jobs(sheet, row, named, fields, vocabulary):
            if all(_is_count(job.name) for job in found) and _is_one_jobs(sheet, row, vocabulary):
                continue
            return found
    return []


def _is_one_jobs(sheet: Sheet, row: int, vocabulary: Vocabulary) -> bool:
    """Whether what stands over a row names the one job that a sheet is of.

    The lines below, which only count themselves, are then what was done or measured for it.
    """
    over = [one for one in said_fields(sheet, vocabulary) if one.label[0] < row and one.text]
    numbered = any(one.name == "number" and one.sure for one in over)
    return numbered and len({one.name for one in over}) >= _FIELDS_OF_A_HEAD


def _heads_at(sheet: Sheet, row: int, fields: Mapping[str, int]) -> dict[int, str]:
    """The texts of a row of heads, "" for columns among the fields that have none."""
    filled = {c: cell.value for c, cell in sheet.rows.get(row, {}).items()}
    among = range(max(1, min(fields.values()) - 1), max(fields.values()) + 2)
    bare = dict.fromkeys((c for c in among if filled.get(c) is None), "")
    return bare | {c: value for c, value in filled.items() if isinstance(value, str)}


def _rows_below(
    sheet: Sheet, head: int, columns: Mapping[str, int], key: str, vocabulary: Vocabulary
) -> Iterator[ListedJob]:
    """The jobs below a row of heads, each with its rows; one that says only its number is none."""
    last = max(sheet.rows, default=0)
    found: dict[str, list[int]] = {}
    name, empty, first_fields = "", 0, 0
    for row in range(head + 1, last + 1):
        if row not in sheet.rows:
            empty += 1
            if empty > _MOST_EMPTY:
                break
            continue
        if _is_divider(sheet, row):
            continue
        held = _fields_at(sheet, row, columns, vocabulary)
        if empty and found and held < _ALIKE * first_fields:
            break  # What stands below a gap is another table.
        first_fields, empty = first_fields or held, 0
        name = _named_at(sheet, row, columns, key, vocabulary, name)
        if name:
            found.setdefault(name, []).append(row)
    # Heads may go on below the names of the fields: "cyl 1", "cyl 2".
    first = min((rows[0] for rows in found.values()), default=head + 1)
    limits = tuple(row for row in range(head + 1, first) if _is_of_limits(sheet, row))
    for name, rows in found.items():
        job = _job_at(sheet, rows, columns, vocabulary)
        # What says nothing but a number is a line that nobody filled in, or no job's at all.
        if sum(bool(getattr(job, field).text) for field in columns) > 1:
            yield ListedJob(name, job, tuple(rows), first, limits=limits)


def _is_divider(sheet: Sheet, row: int) -> bool:
    """Whether a row only parts a list from its next month or year: "--- 2024 ---"."""
    held = [cell.value for cell in sheet.rows.get(row, {}).values()]
    return len(held) == 1 and isinstance(held[0], str)


def _is_of_limits(sheet: Sheet, row: int) -> bool:
    """Whether a row below heads says what is wanted of all: a word for it, and numbers."""
    values = [cell.value for cell in sheet.rows.get(row, {}).values()]
    texts = [value for value in values if isinstance(value, str)]
    numbers = any(isinstance(value, (int, float)) for value in values)
    numbers = numbers or any(limit_in(text).limit for text in texts)
    told = (which_of(text) for text in texts)
    return numbers and any(which is not None and which.stage in _LIMITS for which in told)


def _named_at(
    sheet: Sheet, row: int, columns: Mapping[str, int], key: str, vocabulary: Vocabulary, above: str
) -> str:
    """The job that a row is of, that of the row above where it names none; "" for no job's."""
    cell = sheet.cells.get((row, columns[key]))
    if cell is not None and (said := fitting(key, cell.value, vocabulary)):
        return said
    if cell is not None and cell.value is not None:
        return ""  # A sum, a remark: of no job.
    return above if _goes_on(sheet, row, columns) else ""


def _fields_at(sheet: Sheet, row: int, columns: Mapping[str, int], vocabulary: Vocabulary) -> int:
    """How many fields a row has a value for that fits."""
    held = ((name, sheet.cells.get((row, column))) for name, column in columns.items())
    return sum(cell is not None and bool(fitting(n, cell.value, vocabulary)) for n, cell in held)


def _goes_on(sheet: Sheet, row: int, columns: Mapping[str, int]) -> bool:
    """Whether a row without a job's number belongs to the job above: it names no other."""
    return not any((row, column) in sheet.cells for column in columns.values())


def _job_at(
    sheet: Sheet, rows: Sequence[int], columns: Mapping[str, int], vocabulary: Vocabulary
) -> Job:
    found = {}
    for name, column in columns.items():
        for row in rows:
            cell = sheet.cells.get((row, column))
            text = fitting(name, cell.value, vocabulary) if cell else ""
            if text:
                found[name] = JobField(text, Place.at(sheet.title, row, column))
                break
    return Job(**found)


def _in_columns(sheet: Sheet, vocabulary: Vocabulary) -> list[ListedJob]:
    """A list with a job in each column, beside the names of its fields."""
    named: dict[int, dict[int, tuple[JobLabel, ...]]] = {}
    for row, column, text in sheet.texts:
        labels = vocabulary.job.labels(text)
        if labels:
            named.setdefault(column, {})[row] = labels
    for column, below in named.items():
        values = values_beside(sheet, column)
        rows = fields_of(as_values_tell(below, values, vocabulary))
        rows |= _numbered_by_rebuilds(sheet, column, rows, vocabulary)
        if "number" not in rows or len(rows) < 2:
            continue
        heads = {r: text for r, c, text in sheet.texts if c == column}
        rows = with_unnamed(rows, heads, values, vocabulary)
        jobs = _columns_beside(sheet, column, rows, vocabulary)
        if len({job.name for job in jobs}) > 1:
            return jobs
    return []


def _numbered_by_rebuilds(
    sheet: Sheet, labels: int, rows: Mapping[str, int], vocabulary: Vocabulary
) -> dict[str, int]:
    """The row of jobs' numbers that no label heads: rebuilds side by side over their dates."""
    if "number" in rows:
        return {}
    if places := _numbered_by_places(sheet, labels, rows):
        return places
    if not all(name in rows for name in DATES):
        return {}
    for row in range(min(rows.values()) - 1, 0, -1):
        held = sheet.rows.get(row, {})
        cells = [(c, cell.value) for c, cell in held.items() if c > labels]
        counted = [(c, one) for c, value in cells if (one := rebuild_of(value)) is not None]
        words = {word for _, (word, _) in counted}
        dated = all(
            any(
                (cell := sheet.cells.get((rows[name], c)))
                and fitting(name, cell.value, vocabulary, sure=False)
                for name in DATES
            )
            for c, _ in counted
        )
        if len(counted) > 1 and len(words) == 1 and dated:
            return {"number": row}
        if cells:
            break
    return _numbered_by_codes(sheet, labels, rows, vocabulary)


# Where each of several jobs stands: "Bench 1", "Stand 2".
_PLACE_OF_A_JOB = re.compile(r"(?P<word>[^\W\d_]{3,})\s*#?(?P<number>\d{1,2})")


# What is told of each of several jobs that are counted, and how much of it.
_OF_ONE_OF_SEVERAL = ("engine", "customer", "builder", *DATES)
_FEWEST_TOLD = 2


def _numbered_by_places(sheet: Sheet, labels: int, rows: Mapping[str, int]) -> dict[str, int]:
    """The row over engines or customers that counts where each of them stands."""
    told = [row for name, row in rows.items() if name in _OF_ONE_OF_SEVERAL]
    for row in range(min(rows.values(), default=0), 0, -1):
        places = {
            c: found
            for c, cell in sheet.rows.get(row, {}).items()
            if c > labels and isinstance(cell.value, str)
            if (found := _PLACE_OF_A_JOB.fullmatch(cell.value.strip()))
        }
        words = {found["word"].casefold() for found in places.values()}
        numbers = [int(found["number"]) for _, found in sorted(places.items())]
        named = [row for row in told if all((row, c) in sheet.cells for c in places)]
        several = len(numbers) > 1 and len(words) == 1 and len(named) >= _FEWEST_TOLD
        if several and counts(*words) is None:
            return {"number": row} if numbers == sorted({*numbers}) else {}
    return {}


def _numbered_by_codes(
    sheet: Sheet, labels: int, rows: Mapping[str, int], vocabulary: Vocabulary
) -> dict[str, int]:
    """The row over the dates of several jobs that holds a code of its own for each of them."""
    dated = [
        c
        for c, cell in sheet.rows.get(rows["started"], {}).items()
        if c > labels and fitting("started", cell.value, vocabulary)
    ]
    for row in range(min(rows.values()) - 1, 0, -1):
        held = [cell.value if (cell := sheet.cells.get((row, c))) else None for c in dated]
        codes = [fitting("number", v, vocabulary) for v in held if isinstance(v, str)]
        if len(dated) > 1 and len(set(filter(None, codes))) == len(dated):
            return {"number": row}
    return {}


def _columns_beside(
    sheet: Sheet, labels: int, rows: Mapping[str, int], vocabulary: Vocabulary
) -> list[ListedJob]:
    last = max(sheet.columns, default=0)
    columns: dict[int, str] = {}
    counted: set[int] = set()
    wide: dict[int, list[int]] = {}
    limits = _columns_of_limits(sheet, rows["number"], labels)
    for column in range(labels + 1 + len(limits), last + 1):
        cell = sheet.cells.get((rows["number"], column))
        empty = columns and (cell is None or cell.value is None)
        if empty and _is_more(sheet, rows, column, wide.setdefault(max(columns), [])):
            continue
        said = fitting("number", cell.value, vocabulary) if cell else ""
        rebuilt = bool(cell and rebuild_of(cell.value))
        if not said and cell and (rebuilt or _is_a_place(cell.value)):
            said = field_text(cell.value)
            counted |= {column} if rebuilt else set()
        if said:
            columns[column] = said
        elif columns and cell and vocabulary.job.labels(str(cell.value)):
            break  # "Phone" has its own value behind it, and that is no job.
        elif empty and not _is_of_notes(sheet, column):
            break  # "spare block" between two jobs is of none.
    found = []
    for column, name in columns.items():
        across = {field: (row, column) for field, row in rows.items()}
        job = _job_in(sheet, across, vocabulary)
        if column in counted and not (job.started.text or job.finished.text):
            return []  # Cylinders are counted side by side too, but none has a day.
        number = JobField(name, Place.at(sheet.title, rows["number"], column))
        job = replace(job, number=number)
        if not (job.customer.text or job.engine.text or job.started.text):
            return []
        own = (column, *wide.get(column, ()))
        first = min(columns)
        found.append(ListedJob(name, job, own, first, across=True, beside_limits=bool(limits)))
    return found


def _columns_of_limits(sheet: Sheet, row: int, labels: int) -> list[int]:
    """The columns behind the labels that say what all jobs are held against: "Min", "Max"."""
    found = []
    for column in range(labels + 1, labels + 1 + len(_LIMITS)):
        cell = sheet.cells.get((row, column))
        told = which_of(cell.value) if cell and isinstance(cell.value, str) else None
        if told is None or told.stage not in _LIMITS or told.tells:
            break
        found.append(column)
    return found


def _is_a_place(value: object) -> bool:
    found = _PLACE_OF_A_JOB.fullmatch(value.strip()) if isinstance(value, str) else None
    return found is not None and counts(found["word"]) is None and which_of(found[0]) is None


def _is_of_notes(sheet: Sheet, column: int) -> bool:
    """Whether a column holds no number: what is noted beside a job, or nothing at all."""
    held = sheet.columns.get(column, {}).values()
    return not any(isinstance(cell.value, (int, float)) for cell in held)


def _is_more(sheet: Sheet, rows: Mapping[str, int], column: int, more: list[int]) -> bool:
    """Whether a column is of the job before it, or empty behind such columns.

    more: those that are of it already, to which this one is added.
    """
    if _goes_beside(sheet, rows, column, fewest=1 if more else _FEWEST_BESIDE):
        more.append(column)
        return True
    return bool(more) and column not in sheet.columns


def _goes_beside(sheet: Sheet, rows: Mapping[str, int], column: int, fewest: int) -> bool:
    """Whether a column holds more readings of the job before it, and says nothing of a job.

    fewest: how many; one where others go beside already, as the last main bearing of all.
    """
    if any((row, column) in sheet.cells for row in rows.values()):
        return False
    held = sheet.columns.get(column, {})
    numbers = [row for row, cell in held.items() if isinstance(cell.value, (int, float))]
    beside = [row for row in numbers if (row, column - 1) in sheet.cells]
    return len(beside) >= fewest and len(beside) == len(numbers)


def _job_in(sheet: Sheet, places: Mapping[str, At], vocabulary: Vocabulary) -> Job:
    found = {}
    for name, at in places.items():
        cell = sheet.cells.get(at)
        text = fitting(name, cell.value, vocabulary) if cell else ""
        if text:
            found[name] = JobField(text, Place.at(sheet.title, *at))
    return Job(**found)

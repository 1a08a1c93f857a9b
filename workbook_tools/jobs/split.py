"""Several jobs in one workbook: a sheet each, a block each, or a row each."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, field, replace
from itertools import pairwise

from openpyxl.utils.cell import range_boundaries

from workbook_tools.books.cells import Cell, OpenBook, Sheet, Trouble
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.field_values import DATES, number_key, rebuild_of
from workbook_tools.jobs.job_fields import number_in_name, read_job
from workbook_tools.jobs.job_tables import ListedJob, listed_jobs, with_logs
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.jobs.said_fields import OF_ENGINE, said_fields
from workbook_tools.jobs.said_in_text import Said
from workbook_tools.jobs.shared_formulas import formulas_by_job
from workbook_tools.jobs.titles import with_title
from workbook_tools.labels.layout import NO_FORM, Form
from workbook_tools.labels.vocabulary import Vocabulary, meaning_of


@dataclass(frozen=True)
class JobPart:
    """One job of a workbook: its name in the book ("" where the book is one job) and its cells.

    own: the cells that are this job's alone, from which all that is said of the job comes;
    cells: these, and what belongs to no job, where they stand in the file; book: the same as
    it is read for labels, with the heads of a table moved to the job's row; job: its fields
    where column heads name them, None where labels beside them do; taken: the cells of all
    jobs of the file, by sheet; left_out: how many sheets name a job and are of none; whole:
    the file with all its sheets.
    """

    name: str
    book: OpenBook
    own: OpenBook
    cells: OpenBook
    job: Job | None = None
    taken: Mapping[str, Set[tuple[int, int]]] = field(default_factory=dict)
    left_out: int = 0
    whole: OpenBook | None = None

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


def split_jobs(book: OpenBook, form: Form = NO_FORM) -> tuple[JobPart, ...]:
    """The jobs of a workbook, each with the cells that are its own.

    form: says whether jobs are sheets, blocks or rows; left out, that is told by where job
    numbers stand: different ones on several sheets, or several of them on one. Cells that
    are in no job's area and name no job are shared by all. A book of one job is one part.
    """
    vocabulary = form.vocabulary()
    said = {sheet.title: said_fields(sheet, vocabulary) for sheet in book.sheets}
    kept = book if form.jobs else _without_left_over(book, said, vocabulary)
    parts = _split(kept, form, said, vocabulary)
    parts = _apart(kept, parts, vocabulary) if len(parts) > 1 else parts
    return tuple(replace(part, whole=book) for part in parts)


_Saids = Mapping[str, Sequence[Said]]
# Fields that stand at the head of a job which has a sheet of its own.
_FEWEST_FIELDS = 3
# The share of texts that sheets of several jobs have in common, and sheets of one form.
_HALF, _ALIKE = 0.5, 0.6


def _without_left_over(book: OpenBook, said: _Saids, vocabulary: Vocabulary) -> OpenBook:
    """The book without sheets that are named as forms or as old, and are of no job of it.

    Such a sheet names another job than the others do, or has the labels of a job and nothing
    beside them; or it is hidden, and its name is another job's number.
    """
    left = {s.title for s in book.sheets if vocabulary.job.is_left_over(s.title)}
    keys = {_key(said[s.title]) for s in book.sheets if s.title not in left} - {""}
    dropped = [
        s.title
        for s in book.sheets
        if keys and _key(said[s.title]) not in keys
        if (s.title in left and (_has_labels(s, vocabulary) or _numbers_another(s.title, keys)))
        or _is_hidden_of_another(s, keys, vocabulary)
    ]
    if not dropped:
        return book
    told = tuple(
        Trouble(
            None,
            f"the sheet {title!r} is not read: by its name it is an empty form, an old copy or "
            "another job's, and its job number is not the book's",
            "give it another name if it belongs to this job",
        )
        for title in dropped
    )
    sheets = tuple(s for s in book.sheets if s.title not in dropped)
    return replace(book, sheets=sheets, troubles=(*book.troubles, *told))


_LONG_NUMBER = re.compile(r"\d{3,}")


def _numbers_another(title: str, keys: Collection[str]) -> bool:
    """Whether the name of a sheet has a number as a job has, of none of these: "0871 old"."""
    told = {number for key in keys for number in _LONG_NUMBER.findall(key)}
    return any(
        number not in told and any(len(number) == len(other) for other in told)
        for number in _LONG_NUMBER.findall(title)
    )


def _is_hidden_of_another(sheet: Sheet, keys: Set[str], vocabulary: Vocabulary) -> bool:
    """Whether a hidden sheet is named by a number that is written as a job's, and is none."""
    if sheet.hidden and _numbers_another(sheet.title, keys):
        return True
    number = number_in_name(sheet.title, vocabulary) if sheet.hidden else ""
    shapes = {_shape(key) for key in keys}
    return bool(number) and _shape(number) in shapes and _even(number) not in map(_even, keys)


def _even(number: str) -> str:
    return re.sub(r"[\W_]+", "-", number).casefold()


def _shape(number: str) -> str:
    """A number of a job with any digit for each of its own."""
    return re.sub(r"\d", "0", _even(number))


def _has_labels(sheet: Sheet, vocabulary: Vocabulary) -> bool:
    found = {vocabulary.job_field(text) for _, _, text in sheet.texts} - {""}
    return len(found) >= _FEWEST_FIELDS or "number" in found


def _key(said: Sequence[Said]) -> str:
    """What tells the job of a sheet from others: its number, else its customer."""
    for name in ("number", "customer"):
        found = next((s.text for s in said if s.name == name and s.text), "")
        if found:
            return found
    return ""


def _apart(book: OpenBook, parts: Sequence[JobPart], vocabulary: Vocabulary) -> tuple[JobPart, ...]:
    """Jobs with what each may see of the book: its own cells, and those that are nobody's."""
    found = formulas_by_job(book, [{s.title: set(s.cells) for s in p.own.sheets} for p in parts])
    parts = [_with_formulas(book, p, own) for p, own in zip(parts, found, strict=True)]
    mixed = {title for own in found for title in own}
    owned: dict[str, set[tuple[int, int]]] = defaultdict(set)
    for part in parts:
        for sheet in part.own.sheets:
            owned[sheet.title].update(sheet.cells)
    shared: dict[str, Sheet] = {}
    left_out = 0
    for sheet in book.sheets:
        taken = owned.get(sheet.title, set())
        rest = replace(sheet, cells={at: c for at, c in sheet.cells.items() if at not in taken})
        job = read_job(replace(book, sheets=(rest,)), vocabulary)
        if job.number.text or job.customer.text:
            left_out += not taken
            rest = replace(sheet, cells={})
        shared[sheet.title] = rest
    return tuple(
        replace(_seen(part, shared, mixed), taken=owned, left_out=left_out) for part in parts
    )


def _with_formulas(
    book: OpenBook, part: JobPart, formulas: Mapping[str, Set[tuple[int, int]]]
) -> JobPart:
    """A job with formulas on other sheets that are its own."""
    more = tuple(
        replace(sheet, cells={at: sheet.cells[at] for at in formulas[sheet.title]})
        for sheet in book.sheets
        if sheet.title in formulas
    )
    return replace(part, own=replace(part.own, sheets=(*part.own.sheets, *more)))


def _seen(part: JobPart, shared: Mapping[str, Sheet], mixed: Set[str]) -> JobPart:
    """A job with the cells that are its own and those that are shared.

    mixed: sheets of no one job, on which jobs have formulas of their own.
    """
    own = {sheet.title: sheet for sheet in part.own.sheets}
    cells = {
        title: replace(rest, cells=rest.cells | own[title].cells) if title in own else rest
        for title, rest in shared.items()
    }
    read = tuple(
        cells[s.title] if s.title in mixed else s
        for s in part.book.sheets
        if s.title in own or shared[s.title].cells
    )
    return replace(
        part,
        book=replace(part.book, sheets=read),
        cells=replace(part.book, sheets=tuple(cells.values())),
    )


def whole_book(book: OpenBook) -> JobPart:
    """All cells of a book as one job."""
    return _part("", book)


def _part(
    name: str, book: OpenBook, own: OpenBook | None = None, job: Job | None = None
) -> JobPart:
    return JobPart(name, book, own or book, book, job)


def _split(book: OpenBook, form: Form, said: _Saids, vocabulary: Vocabulary) -> tuple[JobPart, ...]:
    scheme = form.jobs
    if scheme == "one":
        return (_part("", book),)
    numbers = [s for one in said.values() for s in one if s.name == "number" and s.text]
    key = "number" if numbers else "customer"
    # The number of an engine beside that of its job makes no second one.
    without = OF_ENGINE if any(s.rank != OF_ENGINE for s in numbers) else None
    starts = _told_alike(
        {s.title: _starts(said[s.title], key, without) for s in book.sheets}, vocabulary
    )
    if scheme in ("rows", None):
        lists = {s.title: listed_jobs(s, vocabulary) for s in book.sheets}
        lists = with_logs(book, lists, vocabulary)
        parts = _list_parts(book, lists, said, vocabulary)
        if parts and (scheme or not _is_index(lists, starts)):
            names = {job.name for jobs in lists.values() for job in jobs}
            return (*parts, *_beside_lists(book, lists, starts, said, names))
    if scheme == "blocks" or (scheme is None and any(_differ(n) > 1 for n in starts.values())):
        parts = [p for s in book.sheets for p in _block_parts(book, s, starts[s.title])]
        if len(parts) > 1:
            return tuple(parts)
    if scheme in ("sheets", None):
        return _of_sheets(book, starts, said, vocabulary, told=scheme is not None)
    return (_part("", book),)


def _starts(said: Sequence[Said], key: str, without: int | None) -> list[Said]:
    """Where jobs begin on a sheet: their numbers, or customers in a book without numbers.

    without: the rank of words that hold only in a book that has no others.
    """
    found = [s for s in said if s.name == key and s.text and s.rank != without]
    # A parts' order has a number of its own, beside another label.
    same = [(s.sure, s.rank, s.languages) for s in found]
    return [s for s, one in zip(found, same, strict=True) if one == same[0]]


def _told_alike(starts: Mapping[str, list[Said]], vocabulary: Vocabulary) -> dict[str, list[Said]]:
    """Where jobs begin, with one text for each number, however its sheets write it."""
    first: dict[str, str] = {}
    for found in starts.values():
        for one in found:
            first.setdefault(number_key(one.text, vocabulary), one.text)
    return {
        title: [one._replace(text=first[number_key(one.text, vocabulary)]) for one in found]
        for title, found in starts.items()
    }


def _differ(starts: list[Said]) -> int:
    return len({start.text for start in starts})


def _is_index(lists: Mapping[str, list[ListedJob]], starts: Mapping[str, list[Said]]) -> bool:
    """Whether lists only tell of jobs that have sheets of their own."""
    own = {s.text for title, found in starts.items() if not lists[title] for s in found}
    return any(job.name in own for jobs in lists.values() for job in jobs)


def _of_sheets(
    book: OpenBook,
    starts: Mapping[str, list[Said]],
    said: _Saids,
    vocabulary: Vocabulary,
    *,
    told: bool,
) -> tuple[JobPart, ...]:
    """A part for each job that has a sheet of its own, or several."""
    groups: dict[str, list[str]] = defaultdict(list)
    for title, found in starts.items():
        if found:
            groups[found[0].text].append(title)
    if told:
        mine = [s for s in book.sheets if starts[s.title] or not groups]
        return _sheet_parts(book, {s.title: [s.title] for s in mine if not s.hidden})
    if not groups:
        groups = _by_title(book, vocabulary)
    if not any(s.name == "number" and s.text for one in said.values() for s in one):
        alike = _by_form(book, said)
        groups = alike if len(alike) > len(groups) else groups
    if len(groups) > 1 and _differ_as_jobs(book, groups, said):
        named = _named_by_number(book, groups)
        return _sheet_parts(book, {t[0]: [*t, *named.get(n, ())] for n, t in groups.items()})
    return (_part("", book),)


def _named_by_number(
    book: OpenBook, groups: Mapping[str, Sequence[str]]
) -> Mapping[str, Sequence[str]]:
    """The sheets of no group by the only job whose number is in their names: "2211 crank".

    Those of a book that is named by its job are of this, where the sheets of others are hidden.
    """
    taken = {title for titles in groups.values() for title in titles}
    found: dict[str, list[str]] = defaultdict(list)
    of_file = _named_in(book.file_name, groups)
    hidden = {s.title for s in book.sheets if s.hidden}
    # The sheets of a job that another book was begun with stay in it, hidden.
    only_one = bool(of_file) and all({*t} <= hidden for n, t in groups.items() if n not in of_file)
    for title in (s.title for s in book.sheets if s.title not in taken):
        numbers = _named_in(title, groups) or (of_file if only_one else [])
        if len(numbers) == 1:
            found[numbers[0]].append(title)
    return found


def _named_in(name: str, numbers: Iterable[str]) -> list[str]:
    """The numbers of jobs that stand in the name of a sheet or a file."""
    return [n for n in numbers if re.search(rf"(?<!\w){re.escape(n)}(?!\w)", name)]


def _by_title(book: OpenBook, vocabulary: Vocabulary) -> dict[str, list[str]]:
    """Sheets that are named by a job's number each."""
    numbers = {s.title: number_in_name(s.title, vocabulary) for s in book.sheets}
    return {number: [title] for title, number in numbers.items() if number}


def _by_form(book: OpenBook, said: _Saids) -> dict[str, list[str]]:
    """Sheets that are one form filled in anew for each engine, of a shop without numbers.

    Their heads stand in the same cells and say another engine, or another day it was begun.
    """
    filled = {s.title: [one for one in said[s.title] if one.text] for s in book.sheets}
    heads = {
        title: frozenset((one.name, one.label) for one in found)
        for title, found in filled.items()
        if len({one.name for one in found}) >= _FEWEST_FIELDS
    }
    form = next(iter(heads.values()), frozenset())
    if len(heads) < 2 or any(head != form for head in heads.values()):
        return {}
    groups: dict[str, list[str]] = defaultdict(list)
    for title in heads:
        told = [s.text for name in ("engine", "started") for s in filled[title] if s.name == name]
        groups[" ".join(told)].append(title)
    # One job's sheets may have one head each too, over other measurements.
    alone = all(len(titles) == 1 for titles in groups.values())
    return groups if alone and _are_alike(book, groups, _ALIKE) else {}


def _differ_as_jobs(book: OpenBook, groups: Mapping[str, list[str]], said: _Saids) -> bool:
    """Whether sheets with job numbers are jobs of their own, each with readings.

    One job's book can have an inner sheet left over from the last job; two numbers on
    sheets of different names and kinds are then a slip, not two jobs.
    """
    first = [titles[0] for titles in groups.values()]
    heads = [{s.name for s in said[title] if s.text} for title in first]
    alone = all(len(titles) == 1 for titles in groups.values())
    if alone and all(len(names) >= _FEWEST_FIELDS for names in heads):
        return True
    dated = all("number" in names and names & {*DATES} for names in heads)
    if alone and dated and _measure_engines(book, first):
        return True
    return _are_alike(book, groups, _HALF)


# What a sheet measures that is of a whole engine, and how much two of them have in common.
_OF_AN_ENGINE, _MEASURED_ALIKE = "bore", 3
# A label that leaves more to be assumed measures nothing in particular.
_MOST_ASSUMED = 2


def _measure_engines(book: OpenBook, titles: Sequence[str]) -> bool:
    """Whether each of these sheets measures an engine, in whatever words."""
    measured = [
        {
            candidates[0].measurand
            for _, _, text in sheet.texts
            if (candidates := meaning_of(text).candidates) and candidates[0].cost <= _MOST_ASSUMED
        }
        for sheet in book.sheets
        if sheet.title in titles
    ]
    return all(_OF_AN_ENGINE in one for one in measured) and all(
        len(a & b) >= _MEASURED_ALIKE for a, b in pairwise(measured)
    )


def _are_alike(book: OpenBook, groups: Mapping[str, list[str]], share: float) -> bool:
    """Whether groups of sheets have this share of their texts in common."""
    labels = [
        {
            str(c.value).strip().casefold()
            for s in book.sheets
            for c in s.cells.values()
            if s.title in titles and isinstance(c.value, str)
        }
        for titles in groups.values()
    ]
    return all(len(a & b) >= share * min(len(a), len(b)) for a, b in pairwise(labels))


def _sheet_parts(book: OpenBook, groups: Mapping[str, list[str]]) -> tuple[JobPart, ...]:
    """A part for each of these groups of sheets; every other sheet belongs to all of them."""
    if len(groups) < 2:
        return (_part("", book),)
    taken = {title for titles in groups.values() for title in titles}
    common = tuple(s for s in book.sheets if s.title not in taken)
    own = {
        name: tuple(s for s in book.sheets if s.title in titles) for name, titles in groups.items()
    }
    return tuple(
        _part(name, replace(book, sheets=(*sheets, *common)), replace(book, sheets=sheets))
        for name, sheets in own.items()
    )


def _list_parts(
    book: OpenBook, lists: Mapping[str, Sequence[ListedJob]], said: _Saids, vocabulary: Vocabulary
) -> list[JobPart]:
    """A part for each job that lists name, with what names its cells on each of their sheets."""
    parts = []
    for name, listed in _by_name(lists).items():
        sheets = [(s, listed[s.title]) for s in book.sheets if s.title in listed]
        # A sheet that is named by a job's number holds the rest of that job.
        named = tuple(s for s in book.sheets if s.title.strip() == name and not lists[s.title])
        own = (*(replace(sheet, cells=job.cells(sheet)) for sheet, job in sheets), *named)
        read = (*(job.with_heads(sheet) for sheet, job in sheets), *named)
        alone = replace(book, sheets=own, names={})
        fields = _with_what_holds_for_all(_fields_of_lists(listed), lists, listed, said)
        if rebuild_of(fields.number.text):
            # Of an engine whose rebuilds stand side by side the title of the sheet tells.
            whole = tuple(sheet for sheet, _ in sheets)
            fields = with_title(replace(book, sheets=whole), fields, vocabulary)
        parts.append(_part(name, replace(book, sheets=read), alone, fields))
    return parts


def _by_name(lists: Mapping[str, Sequence[ListedJob]]) -> Mapping[str, dict[str, ListedJob]]:
    """The jobs that lists name, each with where it stands on each sheet that lists it.

    The first rebuild of one engine is another job than that of the engine on the next sheet:
    such numbers are told apart by what else is said of them.
    """
    found: dict[str, dict[str, ListedJob]] = defaultdict(dict)
    for title, jobs in lists.items():
        for job in jobs:
            found[job.name][title] = job
    parted: dict[str, dict[str, ListedJob]] = {}
    for name, listed in found.items():
        jobs = list(listed.values())
        if rebuild_of(name) and any(_contradict(a.job, b.job) for a, b in pairwise(jobs)):
            parted |= {f"{title} {name}": {title: job} for title, job in listed.items()}
        else:
            parted[name] = listed
    return parted


def _contradict(one: Job, other: Job) -> bool:
    """Whether two lists say that a job began or ended on different days."""
    return any(
        getattr(one, name).text
        and getattr(other, name).text
        and getattr(one, name).text != getattr(other, name).text
        for name in DATES
    )


def _beside_lists(
    book: OpenBook,
    lists: Mapping[str, Sequence[ListedJob]],
    starts: Mapping[str, list[Said]],
    said: _Saids,
    names: Set[str],
) -> Iterator[JobPart]:
    """The jobs that sheets of their own hold in a book whose other sheets list jobs."""
    for sheet in book.sheets:
        found = [s for s in starts[sheet.title] if s.text not in names]
        fields = {s.name for s in said[sheet.title] if s.text}
        if lists[sheet.title] or not found or len(fields) < _FEWEST_FIELDS:
            continue
        if _differ(found) > 1:
            yield from _block_parts(book, sheet, found)
        else:
            own = replace(book, sheets=(sheet,))
            yield _part(found[0].text, own, replace(own, names={}))


def _fields_of_lists(listed: Mapping[str, ListedJob]) -> Job:
    """The fields of a job on several lists: of each what the list that says most says first."""
    jobs = sorted((job.job for job in listed.values()), key=lambda job: -len(_said_by(job)))
    return replace(jobs[0], **{k: v for job in reversed(jobs) for k, v in _said_by(job).items()})


# What may stand once over a list of rebuilds: whose engine it is, and who builds it.
_FOR_ALL = ("engine", "customer", "builder")


def _with_what_holds_for_all(
    fields: Job,
    lists: Mapping[str, Sequence[ListedJob]],
    listed: Mapping[str, ListedJob],
    said: _Saids,
) -> Job:
    """The fields of a job, with those that no job of its list says and the sheet says once."""
    for title in listed:
        own = {name for job in lists[title] for name in _said_by(job.job)}
        for name in _FOR_ALL:
            once = [s for s in said[title] if s.name == name and s.text and s.beside and s.sure]
            if name in own or getattr(fields, name).text or len(once) != 1:
                continue
            given = JobField(once[0].text, Place.at(title, *once[0].at))
            fields = replace(fields, **{name: given})
    return fields


def _said_by(job: Job) -> dict[str, JobField]:
    return {name: given for name, given in vars(job).items() if given.text}


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


def _block_parts(book: OpenBook, sheet: Sheet, numbers: list[Said]) -> Iterator[JobPart]:
    """The blocks of a sheet, each from its job number to the next, below or beside it."""
    seen: dict[str, Said] = {}
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


def _lies_in(number: Said, edges: _Edges) -> bool:
    row, column = number.label
    top, bottom, left, right = edges
    return top <= row <= bottom and left <= column <= right


def _blocks(sheet: Sheet, starts: Sequence[Said]) -> list[tuple[Said, _Edges]]:
    """(first row, last row, first column, last column) of the block of each job number."""
    found = []
    by_row: dict[int, list[Said]] = defaultdict(list)
    for number in starts:
        by_row[number.label[0]].append(number)
    rows = sorted(by_row)
    last = max((r for r, _ in sheet.cells), default=0)
    for row, below in zip(rows, [*rows[1:], last + 2], strict=True):
        top = _block_top(sheet, row)
        bottom = (_block_top(sheet, below) if below <= last else below) - 1
        beside = sorted(by_row[row], key=lambda n: n.label[1])
        edges = [n.label[1] for n in beside[1:]]
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

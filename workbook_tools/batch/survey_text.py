"""A survey of books as plain text for the terminal."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from workbook_tools.batch.batch import each_done, named_books
from workbook_tools.batch.workers import TOO_LARGE, staff, unforeseen
from workbook_tools.catalog import tables
from workbook_tools.jobs.survey import HEAD, BookSurvey, JobSurvey, layout_of, survey_book
from workbook_tools.labels.candidate import Candidate
from workbook_tools.labels.layout import Layout, layouts_beside
from workbook_tools.summary.cells import joined

MOST_PLACES = 8
# What one message about a cylinder has that the same about another has not.
_WHICH = re.compile(r"\b(?:Cyl|Main|Rod) \w+|\([A-Z]{1,3}\d+\)")
_HOW = {
    "exact word": "by its label",
    "synonym": "by its label",
    "layout": "by the layout",
    "proposal": "NOT READ, only alike",
}


@dataclass(frozen=True)
class SurveyedBook:
    """What is left of a book's survey: its text, its table of a layout, how much is open.

    problem: why it could not be read.
    """

    path: Path
    text: str
    layout: str = ""
    questions: int = 0
    problem: str = ""


@dataclass(frozen=True)
class Survey:
    """What would be read from each book, and files left aside with the reason."""

    books: tuple[SurveyedBook, ...]
    left_aside: tuple[tuple[Path, str], ...] = ()

    @property
    def questions(self) -> int:
        """How many questions are open in all books."""
        return sum(book.questions for book in self.books)

    @property
    def text(self) -> str:
        """What would be read from each book, how sure that is, and what is open.

        Readings stand one line a label: name, values, unit, cells, and how they were found.
        """
        skipped = "".join(f"Skipped {path}: {why}.\n" for path, why in self.left_aside)
        count = self.questions
        books = "1 book" if len(self.books) == 1 else f"{len(self.books)} books"
        asked = {0: "no open questions", 1: "1 open question"}.get(count, f"{count} open questions")
        return skipped + "".join(book.text for book in self.books) + f"{books}, {asked}.\n"

    @property
    def layout(self) -> str:
        """A layout.toml to start from: what is open about each book, as lines to put right."""
        return HEAD + "".join(book.layout for book in self.books)


def survey(
    named: Sequence[Path],
    layout: Layout | None = None,
    each: Callable[[Sequence[Path]], Iterable[Path]] = iter,
    *,
    jobs: int = 0,
) -> Survey:
    """Survey every book in the files and folders named, without writing anything.

    layout: the shop's own, where there is one already; without it each book's is the
    layout.toml beside it. each, jobs: as for `read_builds`. A book that cannot be read is
    listed with its problem. Raises NoBooks where there is nothing to read, LayoutError for a
    layout beside the books that cannot be followed.
    """
    found = named_books(named)
    tables.current()
    beside = {} if layout else layouts_beside(found.books, named)
    tasks = [(path, layout or beside.get(path)) for path in found.books]
    books: dict[int, SurveyedBook] = {}
    with each_done(each, found.books) as done, staff(jobs, _surveyed, _not_read) as run:
        for n, book in run(tasks):
            books[n] = book
            done()
    unread = tuple(_not_read((path, None), why) for path, why in found.unread)
    return Survey((*unread, *(books[n] for n in sorted(books))), found.left_aside)


_Asked = tuple[Path, Layout | None]


def _surveyed(asked: _Asked) -> SurveyedBook:
    try:
        book = survey_book(*asked)
    except MemoryError:
        return _not_read(asked, TOO_LARGE)
    except Exception as error:
        # Whatever a strange book brings out, it must not cost the others.
        return _not_read(asked, unforeseen(error, "it could not be surveyed"))
    if book.problem:
        return _not_read(asked, book.problem)
    questions = len(book.questions)
    return SurveyedBook(asked[0], survey_text(book), layout_of(book), questions)


def _not_read(asked: _Asked, reason: str) -> SurveyedBook:
    return SurveyedBook(asked[0], f"{asked[0]}\n  NOT READ: {reason}\n\n", problem=reason)


def survey_text(book: BookSurvey) -> str:
    """What would be read from a book."""
    lines = [str(book.path)]
    if book.calls:
        calls = "1 call" if book.calls == 1 else f"{book.calls} calls"
        lines.append(f"  {calls} of worksheet functions say what is what; no layout is needed.")
    else:
        for job in book.jobs:
            lines += _job_lines(job)
    return "\n".join([*lines, "", ""])


def _job_lines(job: JobSurvey) -> list[str]:
    fields = ", ".join(
        f"{name} {field.text}" + (f" ({field.place})" if field.place else "")
        for name, field in vars(job.job).items()
        if field.text
    )
    lines = [f"  Job {job.name}" if job.name else "  Job", f"    {fields or 'no job fields found'}"]
    system = f"{job.system}, told by {job.system_from}" if job.system else "not said"
    lines.append(f"    Units: {system}")
    if not job.readings:
        lines.append("    No readings found.")
    lines += [f"    {line}" for line in _reading_lines(job.readings)]
    if job.unknown:
        named = ", ".join(f"{u.text!r} ({u.place})" for u in job.unknown[:12])
        more = f" and {len(job.unknown) - 12} more" if len(job.unknown) > 12 else ""
        lines.append(f"    Labels not known, left alone: {named}{more}")
    if job.computed:
        lines.append(f"    The batch would compute: {', '.join(job.computed)}")
    alike: dict[str, list[str]] = defaultdict(list)
    for message in job.not_computed:
        alike[_WHICH.sub("", message)].append(message)
    for first, *others in alike.values():
        more = f" (and {len(others)} more like it)" if others else ""
        lines.append(f"    Open: {first}{more}")
    for question in job.questions:
        over = len(question.places) - MOST_PLACES
        where = joined(question.places[:MOST_PLACES]) + (f" and {over} more" if over > 0 else "")
        lines.append(f"    ? {question.text}{f' ({where})' if where else ''}")
    return lines


def _reading_lines(readings: tuple[Candidate, ...]) -> list[str]:
    """A line for each set of readings that one label names in one stage."""
    groups: dict[tuple[str, str, str, str], list[Candidate]] = defaultdict(list)
    for reading in readings:
        groups[reading.name, reading.label.text, reading.stage, reading.how].append(reading)
    return [line for group in groups.values() for line in _group_lines(group)]


def _group_lines(group: list[Candidate]) -> list[str]:
    first = group[0]
    values = ", ".join(_value(r) for r in group)
    units = {r.unit for r in group if r.unit}
    unit = f" {units.pop()}" if len(units) == 1 else ""
    alike = f" {first.likeness:.0f} of 100" if first.how == "proposal" else ""
    stage = f", {first.stage}" if first.stage else ""
    lines = [
        f"{first.name}{stage}: {values}{unit}  [{_HOW[first.how]} {first.label.text!r}{alike}; "
        f"{joined(r.place for r in group)}]"
    ]
    doubts: dict[str, list[Candidate]] = defaultdict(list)
    for reading in group:
        told = "; ".join(t for t in (reading.note, reading.content.reason) if t)
        offer = f" (perhaps {reading.content.offer})" if reading.content.offer else ""
        if told:
            doubts[told + offer].append(reading)
    return lines + [f"  - {joined(r.place for r in rs)}: {told}" for told, rs in doubts.items()]


def _value(reading: Candidate) -> str:
    if reading.value is not None:
        return f"{reading.value:g}"
    if reading.content.kind == "empty":
        return "(empty)"
    return f"({reading.content.kind}: {reading.content.raw!s})"

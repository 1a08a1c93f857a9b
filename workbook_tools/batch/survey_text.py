"""A survey of books as plain text for the terminal: first what is open, then what is read."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from textwrap import shorten, wrap

from workbook_tools.batch.batch import each_done, named_books
from workbook_tools.batch.lost import TOO_LARGE, unforeseen
from workbook_tools.batch.survey_layout import OpenEnds, layout_of
from workbook_tools.batch.workers import staff
from workbook_tools.catalog import tables
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.questions import line_of_answer
from workbook_tools.jobs.records import Question
from workbook_tools.jobs.survey import BookSurvey, JobSurvey, NotComputed, NotRead, Row, survey_book
from workbook_tools.labels.candidates import Unknown
from workbook_tools.labels.layout import Layout, layouts_of
from workbook_tools.measurands.lexicon import senses
from workbook_tools.summary.cells import joined

WIDTH = 80
# So many places and books are named of one question, and so many labels that are not known.
_MOST_PLACES, _MOST_BOOKS, _MOST_ANSWERS, _MOST_UNKNOWN = 6, 3, 4, 24
_NAME, _VALUES = 28, 27


@dataclass(frozen=True)
class SurveyedBook:
    """What is left of a book's survey: what is open, and what is read as text.

    text: what is read; problem: why it could not be read; the rest is what is open.
    """

    path: Path
    text: str
    questions: tuple[Question, ...] = ()
    unknown: tuple[Unknown, ...] = ()
    refused: tuple[NotRead, ...] = ()
    not_computed: tuple[NotComputed, ...] = ()
    problem: str = ""


@dataclass(frozen=True)
class Survey:
    """What would be read from each book, and files left aside with the reason."""

    books: tuple[SurveyedBook, ...]
    left_aside: tuple[tuple[Path, str], ...] = ()

    @property
    def questions(self) -> int:
        """How many questions are open, each counted once over all books."""
        return len(_asked_once(self.books))

    @property
    def text(self) -> str:
        """What is open in all books, then what is read of each: by evidence, then for certain."""
        skipped = [f"Skipped {path}: {why}." for path, why in self.left_aside]
        unread = [f"NOT READ {b.path}: {b.problem}" for b in self.books if b.problem]
        lines = [*skipped, *unread, *([""] if skipped or unread else [])]
        lines += _open_lines(self.books)
        read = [book.text for book in self.books if not book.problem]
        books = "1 book" if len(self.books) == 1 else f"{len(self.books)} books"
        count = self.questions
        asked = {0: "no open questions", 1: "1 open question"}.get(count, f"{count} open questions")
        return "\n".join([*lines, *read, f"{books}, {asked}.", ""])

    @property
    def layout(self) -> str:
        """A layout.toml to start from: what is open about all books, as lines to put right."""
        return layout_of([OpenEnds(b.path.name, b.questions, b.unknown) for b in self.books])


def survey(
    named: Sequence[Path],
    layout: Layout | None = None,
    each: Callable[[Sequence[Path]], Iterable[Path]] = iter,
    *,
    stand_ins: Mapping[Path, Path] | None = None,
    jobs: int = 0,
) -> Survey:
    """Survey every book in the files and folders named, without writing anything.

    layout: the shop's own, where there is one already; without it each book's is the
    layout.toml beside it. each, stand_ins, jobs: as for `read_builds`. A book that cannot be
    read is listed with its problem. Raises NoBooks where there is nothing to read, LayoutError
    for a layout beside the books that cannot be followed.
    """
    found = named_books(named)
    tables.current()
    beside = {} if layout else layouts_of(found.books, named)
    copies = stand_ins or {}
    tasks = [(path, layout or beside.get(path), copies.get(path)) for path in found.books]
    books: dict[int, SurveyedBook] = {}
    with each_done(each, found.books) as done, staff(jobs, _surveyed, _not_read, senses) as run:
        for n, book in run(tasks):
            books[n] = book
            done()
    unread = tuple(_not_read((path, None, None), why) for path, why in found.unread)
    return Survey((*unread, *(books[n] for n in sorted(books))), found.left_aside)


# A book, its layout, and the copy to read in its place.
_Asked = tuple[Path, Layout | None, Path | None]


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
    return SurveyedBook(
        asked[0],
        "\n".join([*_book_lines(book), ""]),
        tuple(_once_in_a_book(book.questions)),
        tuple(u for job in book.jobs for u in job.unknown),
        tuple(r for job in book.jobs for r in job.refused),
        tuple(t for job in book.jobs for t in job.not_computed),
    )


def _once_in_a_book(questions: Iterable[Question]) -> Iterator[Question]:
    """Each question of the jobs of a book once, with the cells and costs of all."""
    found: dict[tuple[str, str], list[Question]] = defaultdict(list)
    for question in questions:
        found[question.text, question.answer].append(question)
    for same in found.values():
        places = tuple(dict.fromkeys(p for q in same for p in q.places))
        costs = tuple(dict.fromkeys(c for q in same for c in q.costs))
        yield same[0]._replace(places=places, costs=costs)


def _not_read(asked: _Asked, reason: str) -> SurveyedBook:
    return SurveyedBook(asked[0], "", problem=reason)


# A question, and each book where it comes up with its cells there.
_Once = tuple[Question, list[tuple[SurveyedBook, Question]]]


def _asked_once(books: Iterable[SurveyedBook]) -> list[_Once]:
    """Each question once, however many books ask it; what costs most results first."""
    found: dict[tuple[str, str], list[tuple[SurveyedBook, Question]]] = defaultdict(list)
    for book in books:
        for question in book.questions:
            found[question.kind, question.text].append((book, question))
    once = [(several[0][1], several) for several in found.values()]
    return sorted(once, key=lambda o: -sum(len(q.costs) for _, q in o[1]))


def _open_lines(books: Sequence[SurveyedBook]) -> Iterator[str]:
    """What could not be settled: questions with what they cost, then what is left over."""
    once = _asked_once(books)
    if once:
        yield "To settle, what costs most first"
        yield ""
    for number, (question, several) in enumerate(once, 1):
        yield from _question_lines(number, question, several)
        yield ""
    yield from _listed("Not computed, or not read", _with_book(books, _not_computed))
    yield from _listed(
        "Numbers that were refused",
        _with_book(
            books,
            lambda b: [
                f"{r.place} {shorten(r.raw, 24, placeholder='…')}: {r.why}" for r in b.refused
            ],
        ),
    )
    yield from _unknown_lines(books)


def _not_computed(book: SurveyedBook) -> Iterator[str]:
    """What was not computed, with a line that names what it waits for."""
    asked = any(question.costs for question in book.questions)
    for one in book.not_computed:
        if one.lacks and not asked:
            line = line_of_answer(cells="Sheet!B2", **{"is": one.lacks[0]})
            yield f"{one.words}. If the book has it, say in which cell: {line}"
        else:
            yield one.words


def _question_lines(
    number: int, question: Question, several: Sequence[tuple[SurveyedBook, Question]]
) -> Iterator[str]:
    cells = sum(len(q.places) for _, q in several)
    names = list(dict.fromkeys(book.path.name for book, _ in several))
    counted = [_count(cells, "cell")] * bool(cells) + [_count(len(names), "book")]
    yield from _wrapped(f"{number}. {question.text} ({', '.join(counted)})", "", "   ")
    for name in names[:_MOST_BOOKS]:
        places = [p for book, q in several if book.path.name == name for p in q.places]
        yield from _wrapped(f"{name}: {_where(places)}".rstrip(": "), "   ", "     ")
    if len(names) > _MOST_BOOKS:
        yield f"   and {_count(len(names) - _MOST_BOOKS, 'more book')}"
    costs = list(dict.fromkeys(cost for _, q in several for cost in q.costs))
    if costs:
        yield from _wrapped(f"Until then: no {', no '.join(costs)}", "   ", "     ")
    answers = list(dict.fromkeys(q.answer for _, q in several))
    yield from (f"   {answer}" for answer in answers[:_MOST_ANSWERS])
    if len(answers) > _MOST_ANSWERS:
        yield f"   and {len(answers) - _MOST_ANSWERS} more like it, in the layout of --out"
    if question.instead:
        yield from _wrapped(question.instead, "   ", "   ")


def _where(places: Sequence[Place]) -> str:
    over = len(places) - _MOST_PLACES
    whole = joined(places)
    if len(whole) < WIDTH:
        return whole
    return joined(places[:_MOST_PLACES]) + (f" and {over} more" if over > 0 else "")


def _with_book(
    books: Sequence[SurveyedBook], told: Callable[[SurveyedBook], Iterable[str]]
) -> dict[str, list[str]]:
    """What is told of books, with the names of those that it is told of."""
    found: dict[str, list[str]] = defaultdict(list)
    for book in books:
        for one in dict.fromkeys(told(book)):
            found[one].append(book.path.name)
    return found


def _listed(title: str, found: dict[str, list[str]]) -> Iterator[str]:
    if not found:
        return
    yield title
    for one, names in found.items():
        more = f" and {len(names) - 1} more" if len(names) > 1 else ""
        yield from _wrapped(f"{names[0]}{more}: {one}", "   ", "     ")
    yield ""


def _unknown_lines(books: Sequence[SurveyedBook]) -> Iterator[str]:
    """The labels that nothing is known of, each once."""
    found: dict[str, int] = defaultdict(int)
    for book in books:
        for unknown in book.unknown:
            found[unknown.text] += 1
    if not found:
        return
    by_count = sorted(found, key=lambda text: -found[text])
    named = [f"{t!r}" + (f" ×{found[t]}" if found[t] > 1 else "") for t in by_count]
    more = len(named) - _MOST_UNKNOWN
    text = ", ".join(named[:_MOST_UNKNOWN]) + (f" and {more} more" if more > 0 else "")
    yield "Labels beside numbers that are not known, and left alone"
    yield from _wrapped(text, "   ", "   ")
    yield ""


def _book_lines(book: BookSurvey) -> Iterator[str]:
    """What is read from a book: by evidence, then for certain."""
    yield str(book.path)
    if book.calls:
        calls = "1 call" if book.calls == 1 else f"{book.calls} calls"
        yield f"  {calls} of worksheet functions say what is what."
    for job in book.jobs:
        yield from _job_lines(job)


def _job_lines(job: JobSurvey) -> Iterator[str]:
    fields = ", ".join(
        f"{name} {field.text}" for name, field in vars(job.job).items() if field.text
    )
    yield from _wrapped(f"Job: {fields or 'no job fields found'}", "  ", "    ")
    system = f"{job.system}, told by {job.system_from}" if job.system else "not said"
    yield from _wrapped(f"Units: {system}", "  ", "    ")
    counts = [f"{count} {words}" for words, count in job.counts]
    number = _count(sum(count for _, count in job.counts), "typed number")
    yield from _wrapped(f"{number}: {', '.join(counts) or 'none'}", "  ", "    ")
    if job.not_understood:
        yield from _wrapped(f"Not understood: {_where(job.not_understood)}", "  ", "    ")
    if job.computed:
        yield from _wrapped(f"Computed from them: {', '.join(job.computed)}", "  ", "    ")
    for title, certain in (("Read by evidence", False), ("Certain", True)):
        rows = [row for row in job.rows if row.certain is certain]
        if rows:
            yield f"  {title}"
            yield from _rows_lines(rows)
    if job.notes:
        yield "  Noted"
    for note, places in job.notes:
        yield from _wrapped(f"{note}: {_where(places)}", "    ", "      ")


def _rows_lines(rows: Sequence[Row]) -> Iterator[str]:
    """A line for each label: what it is, its values, its cells; then what says so."""
    sheets = list(dict.fromkeys(row.places[0].sheet for row in rows))
    for sheet in sheets:
        yield f"    {sheet}:"
        for row in rows:
            if row.places[0].sheet == sheet:
                yield from _row_lines(row)


def _row_lines(row: Row) -> Iterator[str]:
    name = f"{row.measurand}, {row.stage}" if row.stage else row.measurand
    start = f"      {shorten(name, _NAME, placeholder='…'):<{_NAME}} "
    start += f"{shorten(row.values, _VALUES, placeholder='…'):<{_VALUES}} "
    cells = _where([Place("", p.address) for p in row.places]).rpartition("!")[2]
    if len(start + cells) <= WIDTH:
        yield start + cells
    else:
        yield start.rstrip()
        yield from _wrapped(cells, "        ", "        ")
    if not row.certain:
        why = f"{row.label!r}" + (f": {row.why}" if row.why else "")
        yield from _wrapped(why, "        ", "        ")


def _wrapped(text: str, first: str, rest: str) -> list[str]:
    return wrap(
        text, WIDTH, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False
    ) or [first.rstrip()]


def _count(number: int, noun: str) -> str:
    return f"1 {noun}" if number == 1 else f"{number} {noun}s"

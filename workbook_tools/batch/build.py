"""One book of a batch: read, checked and made into files, and what the batch keeps of it."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import NamedTuple

from workbook_tools.batch.last_books import LastBooks
from workbook_tools.batch.lost import TOO_LARGE, unforeseen
from workbook_tools.books.cells import BookError
from workbook_tools.books.saved import saved_by
from workbook_tools.findings import check
from workbook_tools.findings.code import FindingKind
from workbook_tools.findings.copied import Block, blocks_of
from workbook_tools.findings.copies import numbers_of
from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.paper_records import Job
from workbook_tools.jobs.read import read_jobs
from workbook_tools.jobs.records import Book
from workbook_tools.labels.layout import Layout
from workbook_tools.labels.vocabulary import vocabulary
from workbook_tools.measurands.lexicon import senses
from workbook_tools.render.data import csv_rows
from workbook_tools.render.handover import build_files
from workbook_tools.render.html import load_templates
from workbook_tools.render.templates import TemplateError
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.data_rows import Rows
from workbook_tools.summary.finding_order import counted_by_kind
from workbook_tools.summary.month_facts import MonthFacts, month_facts
from workbook_tools.summary.standing import Standing
from workbook_tools.summary.summary import summarize

# What every batch has of each build; prints and sheets come on request.
PLAIN_KINDS = ("html", "json")
# Bytes that a row of a table takes, about.
_ROW = 300


@dataclass(frozen=True)
class Wanted:
    """What is the same for all books of a batch: the shop, its layout, the kinds of files.

    month: whether each build also tells what a month needs of it; rows: whether it has its tables
    as rows, for a program, in place of lines for the batch's files.
    """

    layout: Layout | None = None
    shop: Shop = field(default_factory=Shop)
    kinds: tuple[str, ...] = PLAIN_KINDS
    month: bool = False
    rows: bool = False


@dataclass(frozen=True)
class Task:
    """One book to read.

    path: the file; layout: the one beside it, for a batch that has none; copy: one that
    LibreOffice calculated, to read in its place, told of by the file's own name and sha256;
    content: the bytes to read, for a machine that has no such path; together: findings that
    only the whole batch shows, by the number of the job in the file; earlier: the data of
    copies of its builds that were given out before, as JSON by which part of the file each is.
    """

    path: Path
    sha256: str
    layout: Layout | None = None
    copy: Path | None = None
    content: bytes | None = None
    together: Mapping[int, tuple[Finding, ...]] = field(default_factory=dict)
    earlier: Mapping[str, str] = field(default_factory=dict)


class Tables(NamedTuple):
    """The readings and findings of a build as rows of the batch's tables."""

    readings: Rows
    findings: Rows


@dataclass(frozen=True)
class Build:
    """What a batch has of one build, with its book gone.

    standing: how it stands; results: how many calls it has; blocks: its rows of readings, to
    be compared with those of other books; files: {end of the file name: content}, with
    readings and findings as lines of the batch's tables; month: what a month needs, tables: the
    rows of readings and findings, None where nobody asked for it;
    saved, numbers: when, and a hash of each reading, by which copies of one job are told.
    """

    file_name: str
    sha256: str
    part: str
    job: Job
    standing: Standing
    results: int
    findings: tuple[Finding, ...]
    blocks: tuple[Block, ...]
    files: Mapping[str, bytes]
    readings_csv: str
    findings_csv: str
    month: MonthFacts | None = None
    tables: Tables | None = None
    saved: str = ""
    numbers: bytes = b""

    @property
    def findings_by_kind(self) -> tuple[tuple[FindingKind, int], ...]:
        """(kind, how many), only kinds that there are."""
        return counted_by_kind(self.findings)

    @property
    def size(self) -> int:
        """Characters and bytes of what fills whole pages."""
        tables = len(self.readings_csv) + len(self.findings_csv)
        rows = sum(map(len, self.tables)) * _ROW if self.tables else 0
        return tables + rows + sum(map(len, self.files.values()))

    @property
    def brief(self) -> Build:
        """The same without what fills whole pages, for keeping many."""
        return replace(
            self,
            blocks=tuple(block.shared for block in self.blocks),
            files={},
            readings_csv="",
            findings_csv="",
            month=None,
            tables=None,
        )


@dataclass(frozen=True)
class Result:
    """The builds in one file, or the reason why there are none."""

    builds: tuple[Build, ...] = ()
    refused: str = ""


def build_of(
    book: Book,
    findings: Sequence[Finding],
    shop: Shop,
    kinds: Iterable[str] = PLAIN_KINDS,
    *,
    month: bool = False,
    rows: bool = False,
    earlier: str = "",
) -> Build:
    """A book with its findings as a build; month: with what a month needs of it.

    rows: with its tables as rows, in place of lines; earlier: the data of the copy before, as
    JSON, "" without one. Raises TemplateError.
    """
    summary = summarize(book, findings, json.loads(earlier) if earlier else None, shop.gauges)
    tables = Tables(summary.reading_rows, summary.finding_rows)
    return Build(
        file_name=summary.file_name,
        sha256=summary.sha256,
        part=book.part,
        job=summary.job,
        standing=summary.standing,
        results=summary.results,
        findings=summary.findings,
        blocks=blocks_of(book),
        files=build_files("", summary, shop, kinds),
        readings_csv="" if rows else csv_rows(tables.readings),
        findings_csv="" if rows else csv_rows(tables.findings),
        month=month_facts(summary, shop.units) if month else None,
        tables=tables if rows else None,
        saved=book.saved,
        numbers=numbers_of(book),
    )


def _checked(book: Book, shop: Shop) -> tuple[Finding, ...]:
    return check(book, shop.finished, shop.accepted, shop.gauges)


def prepare() -> None:
    """Load what every book needs that is to be read and made into pages."""
    senses()
    vocabulary().match("Bore (mm)")  # With what every label is looked up by.
    load_templates()


def work(task: Task, wanted: Wanted, last: LastBooks | None = None) -> Result:
    """Read one book and make its builds. Raises TemplateError, and nothing else.

    last: the books that this process read for the same batch, None to read each anew.
    """
    try:
        builds = tuple(
            build_of(
                book,
                findings + task.together.get(n, ()),
                wanted.shop,
                wanted.kinds,
                month=wanted.month,
                rows=wanted.rows,
                earlier=task.earlier.get(book.part, ""),
            )
            for n, (book, findings) in enumerate(_read_and_checked(task, wanted, last))
        )
    except BookError as error:
        return Result(refused=str(error))
    except TemplateError:
        raise
    except MemoryError:
        return Result(refused=TOO_LARGE)
    except Exception as error:
        # Whatever a strange book brings out, it must not cost the others.
        return Result(refused=unforeseen(error, "it could not be summarized"))
    return Result(builds)


def refused(_: Task, reason: str) -> Result:
    """The result of a task that was lost."""
    return Result(refused=reason)


def _read_and_checked(
    task: Task, wanted: Wanted, last: LastBooks | None
) -> Iterator[tuple[Book, tuple[Finding, ...]]]:
    """Each job of a book with what is found in it, as far as it was not read for the batch yet."""
    # A copy may change while the builder's own book, which it is known by, stays.
    keeping = last if task.copy is None else None
    known = keeping.find(task.path, task.sha256) if keeping else None
    if known is not None:
        yield from known
        return
    checked = []
    for book in _read(task, wanted.layout or task.layout):
        checked.append((book, _checked(book, wanted.shop)))
        yield checked[-1]
    if keeping:
        keeping.keep(task.path, tuple(checked))


def _read(task: Task, layout: Layout | None) -> tuple[Book, ...]:
    if task.content is None:
        read = read_jobs(task.copy or task.path, layout, task.path.name)
    else:
        with tempfile.TemporaryDirectory() as folder:
            here = Path(folder, task.path.name)
            here.write_bytes(task.content)
            read = read_jobs(here, layout)
    if task.copy is None:
        return read
    # A copy was saved when it was made; the book itself says when the builder saved it.
    saved = saved_by(task.path)
    return tuple(
        replace(book, sha256=task.sha256, calculated_by="LibreOffice", saved=saved) for book in read
    )

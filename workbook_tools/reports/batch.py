"""A batch: read every book that is named, check it, write its summary, go on."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from workbook_tools.books.cells import BookError
from workbook_tools.books.folder import find_books
from workbook_tools.books.layout import Layout
from workbook_tools.books.reading import read_jobs
from workbook_tools.books.records import Book
from workbook_tools.findings import check, check_batch
from workbook_tools.findings.finding import Finding
from workbook_tools.reports.html import Unreadable
from workbook_tools.reports.output import INDEX, PLAIN_KINDS, write_outputs
from workbook_tools.reports.shop import Shop


class NoBooks(Exception):
    """Nothing to read where books were expected; the message says what was looked for."""


@dataclass(frozen=True)
class Outcome:
    """What a batch came to: how many books and findings, what was not read, where it lies."""

    read: int
    findings: int
    unread: tuple[tuple[Path, str], ...]
    left_aside: tuple[tuple[Path, str], ...]
    index: Path

    @property
    def sentence(self) -> str:
        """The outcome in a line or two, for the end of a command."""
        books = "1 build" if self.read == 1 else f"{self.read} builds"
        found = {0: "no findings", 1: "1 finding"}.get(self.findings, f"{self.findings} findings")
        lost = f", {len(self.unread)} not read" if self.unread else ""
        return f"{books} summarized, {found}{lost}.\nOpen {self.index}"


@dataclass(frozen=True)
class ReadBuilds:
    """The builds of a batch with their findings, in the order of their files.

    unread: files that could not be read as books, with the reason; left_aside: lock files.
    """

    builds: tuple[tuple[Book, tuple[Finding, ...]], ...]
    unread: tuple[tuple[Path, str], ...]
    left_aside: tuple[tuple[Path, str], ...]


def _as_it_comes(paths: Sequence[Path]) -> Iterable[Path]:
    return paths


def read_builds(
    named: Sequence[Path],
    layout: Layout | None = None,
    each: Callable[[Sequence[Path]], Iterable[Path]] = _as_it_comes,
    stand_ins: Mapping[Path, Path] | None = None,
) -> ReadBuilds:
    """Read every book in the files and folders named, each job of it, and check them all.

    layout: the shop's own, for books that do not say everything; each: hands the books on
    one by one, and may show progress; stand_ins: recalculated copies to read in place of
    books, which are told of by their own name and content. A book that cannot be read is
    listed with its reason and never stops the others. Raises NoBooks where there is nothing
    to read.
    """
    try:
        found = find_books(named)
    except FileNotFoundError as missing:
        raise NoBooks(f"There is no file or folder {missing}.") from None
    if not found.books:
        where = ", ".join(str(path) for path in named)
        raise NoBooks(f"No books in {where}: looked for .xlsx, .xlsm and .ods files.")
    books: list[Book] = []
    unread: list[tuple[Path, str]] = []
    for path in each(found.books):
        try:
            read = read_jobs((stand_ins or {}).get(path, path), layout)
            if stand_ins and path in stand_ins:
                own = hashlib.sha256(path.read_bytes()).hexdigest()
                read = tuple(replace(job, file_name=path.name, sha256=own) for job in read)
        except BookError as error:
            unread.append((path, str(error)))
        else:
            books.extend(read)
    together = check_batch(books)
    builds = tuple((book, check(book) + together.get(n, ())) for n, book in enumerate(books))
    return ReadBuilds(builds, tuple(unread), found.left_aside)


def summarize_books(
    named: Sequence[Path],
    folder: Path,
    each: Callable[[Sequence[Path]], Iterable[Path]] = _as_it_comes,
    *,
    layout: Layout | None = None,
    shop: Shop | None = None,
    kinds: Sequence[str] = PLAIN_KINDS,
    stand_ins: Mapping[Path, Path] | None = None,
) -> Outcome:
    """Summarize every book in the files and folders named.

    folder: where the pages, data and tables go; made where it is missing. shop: who hands
    the summaries over; kinds: of files for each build; the rest as for `read_builds`, NoBooks
    included. Raises TemplateError for a template of the shop's own that does not work.
    """
    batch = read_builds(named, layout, each, stand_ins)
    write_outputs(
        folder,
        batch.builds,
        [Unreadable(path.name, reason) for path, reason in batch.unread],
        shop or Shop(),
        kinds,
    )
    return Outcome(
        read=len(batch.builds),
        findings=sum(len(findings) for _, findings in batch.builds),
        unread=batch.unread,
        left_aside=batch.left_aside,
        index=folder / INDEX,
    )

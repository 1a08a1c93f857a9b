"""A batch: read every book that is named, check it, write its summary, go on."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from workbook_tools.books.cells import BookError
from workbook_tools.books.folder import find_books
from workbook_tools.books.reading import read_book
from workbook_tools.books.records import Book
from workbook_tools.findings import check, check_batch
from workbook_tools.reports.html import Unreadable
from workbook_tools.reports.output import INDEX, write_outputs


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
        books = "1 book" if self.read == 1 else f"{self.read} books"
        found = {0: "no findings", 1: "1 finding"}.get(self.findings, f"{self.findings} findings")
        lost = f", {len(self.unread)} not read" if self.unread else ""
        return f"{books} summarized, {found}{lost}.\nOpen {self.index}"


def _as_it_comes(paths: Sequence[Path]) -> Iterable[Path]:
    return paths


def summarize_books(
    named: Sequence[Path],
    folder: Path,
    each: Callable[[Sequence[Path]], Iterable[Path]] = _as_it_comes,
) -> Outcome:
    """Summarize every book in the files and folders named.

    folder: where the pages, data and tables go; made where it is missing. each: hands the
    books on one by one, and may show progress. A book that cannot be read is listed with its
    reason and never stops the others. Raises NoBooks where there is nothing to read.
    """
    try:
        found = find_books(named)
    except FileNotFoundError as missing:
        raise NoBooks(f"There is no file or folder {missing}.") from None
    if not found.books:
        where = ", ".join(str(path) for path in named)
        raise NoBooks(f"No books in {where}: looked for .xlsx and .xlsm files.")
    books: list[Book] = []
    unread: list[tuple[Path, BookError]] = []
    for path in each(found.books):
        try:
            book = read_book(path)
        except BookError as error:
            unread.append((path, error))
        else:
            books.append(book)
    together = check_batch(books)
    builds = [(book, check(book) + together.get(n, ())) for n, book in enumerate(books)]
    write_outputs(folder, builds, [Unreadable(path.name, str(error)) for path, error in unread])
    return Outcome(
        read=len(builds),
        findings=sum(len(findings) for _, findings in builds),
        unread=tuple((path, str(error)) for path, error in unread),
        left_aside=found.left_aside,
        index=folder / INDEX,
    )

"""Open at release: a finished date although signatures are missing."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.books.records import Book
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.missing import released


def check_release(book: Book) -> Iterator[Finding]:
    """A finding for each line for a signature left open in a book that is dated finished.

    A missing reading says itself whether the engine is dated finished.
    """
    finished = released(book)
    for line in book.unsigned if finished else ():
        name = line.label.text if line.label else "The signature"
        yield Finding(
            "missing reading",
            line.place,
            f"{name} ({line.place.address}) has nothing beside it. The engine is dated finished "
            f"({finished}).",
            "Have it signed by whoever did or saw it.",
        )

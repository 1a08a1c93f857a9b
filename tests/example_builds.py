"""The example books as read and as summarized, once for all tests of a process."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book
from workbook_tools.jobs.records import Book
from workbook_tools.summary.summary import Summary, summarize

EXAMPLES = Path(__file__).parents[1] / "example_books"


@cache
def example_book(name: str) -> Book:
    """One of the example books, by its file's name without the ending."""
    return read_book(EXAMPLES / f"{name}.xlsx")


@cache
def example_summary(name: str) -> Summary:
    """Its summary, with its findings."""
    book = example_book(name)
    return summarize(book, check(book))

"""The books that a process read last, for those that are to be summarized once more.

What the books of a batch show together is known only when all were read; it changes what a
summary says, and nothing of what was read.
"""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass, field
from pathlib import Path

from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.records import Book

# Readings and results of all books that are kept, some megabytes: a few build books, or dozens
# of small ones.
_MOST_KEPT = 8_000

# Each job of a file, with what was found in it.
Checked = tuple[tuple[Book, tuple[Finding, ...]], ...]


@dataclass
class LastBooks:
    """The books that were read last, by their path and content, the latest last."""

    books: OrderedDict[tuple[Path, str], Checked] = field(default_factory=OrderedDict)
    kept: int = 0

    def keep(self, path: Path, checked: Checked) -> None:
        """Keep a book, and forget those that were read before it where there is no more room."""
        key = path, checked[0][0].sha256
        self.kept += _size(checked) - _size(self.books.pop(key, ()))
        self.books[key] = checked
        while self.kept > _MOST_KEPT:
            self.kept -= _size(self.books.popitem(last=False)[1])

    def find(self, path: Path, sha256: str) -> Checked | None:
        """A book that was kept, None where it was not or was saved since."""
        return self.books.get((path, sha256))


def _size(checked: Checked) -> int:
    return sum(len(book.readings) + len(book.records) for book, _ in checked)

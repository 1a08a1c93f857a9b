"""What a summary has to warn about, one module a kind of check."""

from __future__ import annotations

from workbook_tools.books.records import Book
from workbook_tools.findings.bands import check_bands
from workbook_tools.findings.finding import Finding, FindingKind
from workbook_tools.findings.missing import check_missing
from workbook_tools.findings.stale import check_stale
from workbook_tools.findings.unreadable import check_unreadable

_CHECKS = (check_bands, check_missing, check_unreadable, check_stale)


def check(book: Book) -> tuple[Finding, ...]:
    """Every finding on a book, the ones about the engine before those about the file."""
    return tuple(finding for one in _CHECKS for finding in one(book))


__all__ = ["Finding", "FindingKind", "check"]

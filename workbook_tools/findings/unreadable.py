"""Unreadable: a cell that holds something a call cannot use, or a call that cannot be made."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.books.records import Book, Record
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.missing import blamed_argument


def _follows_from_another(record: Record, failed: set[tuple[str, str]]) -> bool:
    """Whether a call failed only because a cell that it refers to failed before it."""
    argument = blamed_argument(record)
    if argument is None or argument.place is None:
        return False
    place = argument.place
    return (place.sheet, place.address) in failed and "the error" in record.problem


def check_unreadable(book: Book) -> Iterator[Finding]:
    """A finding for each cell that a call refuses, at that cell, and for troubled formulas."""
    for trouble in book.troubles:
        yield Finding("unreadable", trouble.place, f"{trouble.message}.", f"{trouble.advice}.")
    failed = {
        (r.place.sheet, r.place.address) for r in book.records if r.state == "error" or r.problem
    }
    seen = set()
    for record in book.records:
        if record.state != "error" or record.missing or _follows_from_another(record, failed):
            continue
        finding = _finding(record)
        if finding not in seen:
            seen.add(finding)
            yield finding


def _finding(record: Record) -> Finding:
    argument = blamed_argument(record)
    if argument is None or argument.place is None:
        return Finding(
            "unreadable",
            record.place,
            f"{record.name} in {record.place.address} has no result: {record.problem}.",
            "Correct the formula in the book.",
        )
    name = str(argument.label) if argument.label else argument.name.replace("_", " ")
    return Finding(
        "unreadable",
        argument.place,
        f"{name} ({argument.place.address}) cannot be used by {record.name} in "
        f"{record.place.address}: {argument.problem}.",
        "Put the number alone into the cell, with its unit where it differs from the book's, "
        "and the remark beside it.",
    )

"""Summaries as data: JSON for one book, tidy tables for a batch."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Any

from workbook_tools.books.records import Book
from workbook_tools.findings.finding import Finding
from workbook_tools.summary.build_data import build_data
from workbook_tools.summary.items import plain_results, reading_items
from workbook_tools.summary.summary import sorted_findings

READING_COLUMNS = (
    "file",
    "job",
    "sheet",
    "cell",
    "label",
    "position",
    "function",
    "parameter",
    "value",
    "unit",
    "state",
)
FINDING_COLUMNS = ("file", "job", "sheet", "cell", "kind", "message", "advice")

# What makes a spreadsheet take a text for a formula; the wide forms are read the same way.
_FORMULA = re.compile(r"\s*[=+\-@\uff1d\uff0b\uff0d\uff20]|[\t\r\n]")
_PLAIN_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")


def book_json(book: Book, findings: Sequence[Finding]) -> str:
    """A build as JSON text, one line for each reading, result and finding.

    Raises nothing.
    """
    return _json(build_data(book, findings)) + "\n"


def _json(value: Any, depth: int = 0) -> str:
    """A value as JSON text; lists and the upper two levels of objects are broken into lines."""
    if isinstance(value, list) and value and isinstance(value[0], dict):
        return "[\n" + ",\n".join(map(_compact, value)) + "\n]"
    if isinstance(value, dict) and depth < 2:
        parts = (f"{_compact(name)}: {_json(part, depth + 1)}" for name, part in value.items())
        return "{\n" + ",\n".join(parts) + "\n}"
    return _compact(value)


# One line for each call: a person finds it, and json's fast encoder, which knows no other
# layout, can be used.
_compact = json.JSONEncoder(ensure_ascii=False, allow_nan=False).encode


def reading_rows(book: Book) -> list[tuple[object, ...]]:
    """Every reading and every result of a book, one row each, by READING_COLUMNS."""
    return [
        (
            book.file_name,
            book.job.number.text,
            item.place.sheet,
            item.place.address,
            item.label,
            item.position,
            item.function,
            item.parameter,
            item.text if item.value is None else item.value,
            item.of.unit,
            item.state,
        )
        for item in (*reading_items(book), *plain_results(book).values())
    ]


def readings_csv(books: Iterable[Book]) -> str:
    """Every reading and every result of a batch, one row each, as CSV text.

    parameter: what a reading is used as, "result" for what a call gives; state: of a
    reading "read", "missing" or "refused", of a result as recalculation says it. A reading
    that was typed with its own unit stands converted to the unit given. Raises nothing.
    """
    return csv_table(READING_COLUMNS, (row for book in books for row in reading_rows(book)))


def finding_rows(book: Book, findings: Sequence[Finding]) -> list[tuple[object, ...]]:
    """Every finding on a book, one row each, by FINDING_COLUMNS."""
    return [
        (
            book.file_name,
            book.job.number.text,
            finding.place.sheet if finding.place else "",
            finding.place.address if finding.place else "",
            finding.kind,
            finding.message,
            finding.advice,
        )
        for finding in sorted_findings(book, findings)
    ]


def findings_csv(builds: Iterable[tuple[Book, Sequence[Finding]]]) -> str:
    """Every finding of a batch, one row each, as CSV text. Raises nothing."""
    return csv_table(FINDING_COLUMNS, (row for build in builds for row in finding_rows(*build)))


@lru_cache(maxsize=4096)
def neutral(text: str) -> str:
    """A text that no spreadsheet takes for a formula when it opens the table."""
    if _PLAIN_NUMBER.fullmatch(text) or not _FORMULA.match(text):
        return text
    return "'" + text


def csv_table(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """A table as CSV text, in which no text can pass for a formula. Raises nothing."""
    return csv_rows([columns]) + csv_rows(rows)


def csv_rows(rows: Iterable[Sequence[object]]) -> str:
    """The lines of a table as CSV text, in which no text can pass for a formula."""
    # Quotes round every text, so that one with a semicolon stays whole in a program whose
    # lists are separated by semicolons.
    target = io.StringIO()
    writer = csv.writer(target, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\n")
    for row in rows:
        writer.writerow([neutral(cell) if isinstance(cell, str) else cell for cell in row])
    return target.getvalue()

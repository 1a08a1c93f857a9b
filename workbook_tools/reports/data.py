"""Summaries as data: JSON for one book, tidy tables for a batch."""

from __future__ import annotations

import csv
import datetime
import io
import json
import math
import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Any

from workbook_tools.books.records import Argument, Book, Label, Record
from workbook_tools.catalog import CellError
from workbook_tools.findings.finding import Finding
from workbook_tools.reports.items import in_order, plain_results, reading_items
from workbook_tools.reports.summary import sorted_findings

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
    """A book, its calls and its findings as JSON text.

    Numbers that JSON cannot hold are null; errors and dates are texts. Calls stand as the
    book is read, findings by kind. A book that was calculated before it was read says by what.
    Raises nothing.
    """
    job = {name: field.text for name, field in vars(book.job).items()}
    calls = [_call(record) for record in in_order(book)]
    found = [_finding(finding) for finding in sorted_findings(book, findings)]
    parts = (
        ("book", _compact(_file(book))),
        ("job", _compact(job)),
        ("calls", _one_a_line(calls)),
        ("findings", _one_a_line(found)),
    )
    return "{\n" + ",\n".join(f'"{name}": {text}' for name, text in parts) + "\n}\n"


# One line for each call: a person finds it, and json's fast encoder, which knows no other
# layout, can be used.
_compact = json.JSONEncoder(ensure_ascii=False, allow_nan=False).encode


def _one_a_line(rows: Sequence[dict[str, Any]]) -> str:
    return "[\n" + ",\n".join(map(_compact, rows)) + "\n]" if rows else "[]"


def _file(book: Book) -> dict[str, str]:
    told = {"file": book.file_name, "sha256": book.sha256}
    return told | ({"calculated_by": book.calculated_by} if book.calculated_by else {})


def _call(record: Record) -> dict[str, Any]:
    return {
        "sheet": record.place.sheet,
        "cell": record.place.address,
        "label": _text(record.label),
        "function": record.function.full_name if record.function else record.name,
        "arguments": [_argument(argument) for argument in record.arguments],
        "saved": _plain(record.saved),
        "recomputed": _plain(record.recomputed),
        "unit": record.unit,
        "state": record.state,
        "position": record.label.position if record.label else "",
        "formula": record.formula,
        "value": _plain(record.value),
        "fresh": _plain(record.fresh),
        "problem": record.problem,
    }


def _argument(argument: Argument) -> dict[str, Any]:
    return {
        "name": argument.name,
        "text": argument.text,
        "value": _plain(argument.value),
        "unit": argument.unit,
        "cell": argument.place.address if argument.place else "",
        "label": _text(argument.label),
        "sheet": argument.place.sheet if argument.place else "",
        "position": argument.label.position if argument.label else "",
        "problem": argument.problem,
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "kind": finding.kind,
        "sheet": finding.place.sheet if finding.place else "",
        "cell": finding.place.address if finding.place else "",
        "message": finding.message,
        "advice": finding.advice,
    }


def _text(label: Label | None) -> str:
    return label.text if label else ""


def _plain(value: object) -> Any:
    """A cell's content as JSON holds it."""
    if isinstance(value, tuple):
        return [_plain(part) for part in value]
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if value is None or isinstance(value, (bool, int, str)):
        return value
    if isinstance(value, CellError):
        return value.text
    if isinstance(value, (datetime.date, datetime.time)):
        return value.isoformat()
    return str(value)


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

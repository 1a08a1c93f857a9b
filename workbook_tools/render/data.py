"""Summaries as data: JSON for one book, tidy tables for a batch."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import Any

from workbook_tools.summary.data_rows import FINDING_COLUMNS, READING_COLUMNS
from workbook_tools.summary.summary import Summary

# What makes a spreadsheet take a text for a formula; the wide forms are read the same way.
_FORMULA = re.compile(r"\s*[=+\-@\uff1d\uff0b\uff0d\uff20]|[\t\r\n]")
_PLAIN_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")


def book_json(summary: Summary) -> str:
    """A build as JSON text, one line for each reading, result and finding.

    Raises nothing.
    """
    return _json(summary.data) + "\n"


def builds_json(builds: Sequence[Mapping[str, Any]]) -> str:
    """The data of builds as a JSON list, each laid out as in a file of its own."""
    return "[" + ",\n".join(map(_json, builds)) + "]\n"


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
_compact = json.JSONEncoder(ensure_ascii=False, allow_nan=False, check_circular=False).encode


def readings_csv(summaries: Iterable[Summary]) -> str:
    """The readings and results of builds, one row each, as CSV text. Raises nothing."""
    return csv_table(READING_COLUMNS, (row for s in summaries for row in s.reading_rows))


def findings_csv(summaries: Iterable[Summary]) -> str:
    """The findings of builds, one row each, as CSV text. Raises nothing."""
    return csv_table(FINDING_COLUMNS, (row for s in summaries for row in s.finding_rows))


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

"""The fields of a job: beside their labels, in cells with names, in a title."""

from __future__ import annotations

import datetime
import re
from collections.abc import Mapping
from dataclasses import fields

from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import range_boundaries

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.catalog import CellError
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Job, JobField
from workbook_tools.labels.vocabulary import vocabulary

# Job fields as builders label them; a book's defined names are tried first.
JOB_WORDS = vocabulary().job_words
_JOB_NAMES = vocabulary().job_names


def field_text(value: object) -> str:
    """A job field's content as text, "" of an error; dates so that none can be misread."""
    if value is None or isinstance(value, CellError):
        return ""
    if isinstance(value, datetime.datetime):
        return value.date().isoformat() if value.time() == datetime.time() else value.isoformat(" ")
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return " ".join(str(value).split())


def _named_field(book: OpenBook, wanted: tuple[str, ...]) -> JobField | None:
    """What a field's named cell says; an empty field where that cell is empty, None if none."""
    named = None
    for name in wanted:
        text = book.names.get(name)
        if not text or "!" not in text:
            continue
        title, _, reference = text.rpartition("!")
        sheet = book.sheet(title.strip("'").replace("''", "'"))
        if sheet is None:
            continue
        try:
            left, top, _, _ = range_boundaries(reference.replace("$", ""))
        except ValueError:
            continue
        if left is None or top is None:
            continue
        cell = sheet.cells.get((top, left))
        found = field_text(cell.value if cell else None)
        if found or (cell and isinstance(cell.value, CellError)):
            return JobField(found, Place(sheet.title, f"{get_column_letter(left)}{top}"))
        named = JobField("")
    return named


def labeled_fields(
    book: OpenBook, words: Mapping[str, tuple[str, ...]] = JOB_WORDS
) -> dict[str, JobField]:
    """The job fields of a book that stand beside or below one of their labels.

    words: the labels of each field. The first place of a field that says anything holds.
    """
    fields_of: dict[str, list[str]] = {}
    for name, labels in words.items():
        for label in labels:
            fields_of.setdefault(label, []).append(name)
    found: dict[str, JobField] = {}
    for sheet in book.sheets:
        for row, column, content in sheet.texts:
            text, colon, rest = content.strip().partition(":")
            for name in fields_of.get(text.strip().rstrip(".").lower(), ()):
                if name not in found:
                    field = _field_at(sheet, row, column, rest if colon else "")
                    if field is not None:
                        found[name] = field
    return found


def _field_at(sheet: Sheet, row: int, column: int, rest: str) -> JobField | None:
    """What a job field's label says; rest: of its own cell, behind a colon."""
    if rest.strip():
        return JobField(field_text(rest), Place(sheet.title, f"{get_column_letter(column)}{row}"))
    beside = [c for c in range(column + 1, column + 5) if (row, c) in sheet.cells]
    at = (row, beside[0]) if beside else (row + 1, column)
    if beside and _is_field_name(sheet.cells[at]):
        at = (row + 1, column)  # Names side by side, with what they say below.
    elif not beside and (row + 1, column + 1) in sheet.cells:
        return None  # The next line, with what that says beside it.
    cell = sheet.cells.get(at)
    value = field_text(cell.value) if cell else ""
    if cell is None or _is_field_name(cell):
        return None
    if not value and not isinstance(cell.value, CellError):
        return None
    return JobField(value, Place(sheet.title, f"{get_column_letter(at[1])}{at[0]}"))


def _is_field_name(cell: Cell) -> bool:
    if not isinstance(cell.value, str):
        return False
    even = cell.value.strip(" :.").lower()
    return any(even in words for words in JOB_WORDS.values())


# Rows that a sheet's title stands in.
_TITLE_ROWS = 5


def _number_in_title(book: OpenBook, words: tuple[str, ...]) -> dict[str, JobField]:
    """The job number that a title brings with it: "Bearing clearances, job 25-140"."""
    named = "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))
    number = re.compile(
        rf"(?<!\w)(?:{named})(?!\w)[\s.:#]*(?P<number>(?=[\w/-]*\d)[\w/-]{{2,20}})(?!\w)",
        re.IGNORECASE,
    )
    for sheet in book.sheets:
        for row, column, text in sheet.texts:
            found = number.search(text) if row <= _TITLE_ROWS else None
            if found:
                place = Place(sheet.title, f"{get_column_letter(column)}{row}")
                return {"number": JobField(found["number"], place)}
    return {}


def read_job(book: OpenBook, words: Mapping[str, tuple[str, ...]] = JOB_WORDS) -> Job:
    """The job's fields, from defined names first, then from labels; empty where not found.

    words: the labels of each field, where a shop has more of them than the trade.
    """
    labeled = labeled_fields(book, words)
    if "number" not in labeled:
        labeled |= _number_in_title(book, words["number"])
    found = {
        item.name: _named_field(book, _JOB_NAMES[item.name])
        or labeled.get(item.name)
        or JobField("")
        for item in fields(Job)
    }
    return Job(**found)

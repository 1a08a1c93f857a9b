"""The fields of a job: in cells with names, beside their labels, in a title, in the file's name."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import fields

from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import range_boundaries

from workbook_tools.books.cells import OpenBook
from workbook_tools.catalog import CellError
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.field_values import field_text, number_key
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.jobs.said_fields import TITLE_ROWS, likeliest, said_fields
from workbook_tools.jobs.said_in_text import Said, number_within
from workbook_tools.labels.vocabulary import Vocabulary, vocabulary


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


def _number_in_title(book: OpenBook, words: Vocabulary) -> JobField | None:
    for sheet in book.sheets:
        for row, column, text in sheet.texts:
            number = number_within(text, words) if row <= TITLE_ROWS else ""
            if number:
                return JobField(number, Place.at(sheet.title, row, column))
    return None


def read_job(book: OpenBook, words: Vocabulary | None = None) -> Job:
    """The job's fields, from defined names first, then from labels; empty where not found.

    words: the trade's, with those of a shop where it has more.
    """
    words = words or vocabulary()
    said = {sheet.title: said_fields(sheet, words) for sheet in book.sheets}
    numbered = likeliest(said, "number")
    if numbered is not None:
        said = {
            title: one for title, one in said.items() if not _of_another(one, numbered[1], words)
        }
    found: dict[str, JobField] = {}
    for item in fields(Job):
        best = likeliest(said, item.name, numbered[0] if numbered else "")
        sheet = book.sheet(best[0]) if best else None
        labeled = best[1].field(sheet) if best and sheet else None
        if labeled is None and item.name == "number":
            labeled = _number_in_title(book, words)
        named = _named_field(book, words.job.names[item.name])
        found[item.name] = named or labeled or JobField("")
    return Job(**found)


def _of_another(said: Sequence[Said], number: Said, words: Vocabulary) -> bool:
    """Whether a sheet gives the number of another job, whose fields its others are."""
    numbers = {
        number_key(one.text, words)
        for one in said
        if one.name == "number" and one.sure and one.text
    }
    return bool(numbers) and bool(number.text) and number_key(number.text, words) not in numbers


# A number with which a file or a sheet is named after its job, and no year.
_LEADING = re.compile(
    r"#?(?P<code>(?:[A-Za-z]{1,4}-?)?\d{2,6}[-_]\d{2,5}|[A-Za-z]{1,4}-\d{2,6}|\d{4,6})(?![^\W_])"
)
_YEAR = re.compile(r"(?:19|20)\d\d(?:[-_](?:0?[1-9]|1[0-2]))?")

# Four digits that are as likely the size of an engine.
_SIZE = re.compile(r"\d\d[05]0")


def number_in_name(name: str, words: Vocabulary) -> str:
    """The job's number that a file or a sheet is named by, "" where it is named by none."""
    even = name.replace("_", " ").strip()
    number = number_within(even, words)
    if number:
        return number
    found = _LEADING.match(name.strip())
    if not found or _YEAR.fullmatch(found["code"]) or _SIZE.fullmatch(found["code"]):
        return ""
    return found["code"]

"""What a book lists as still open before the engine leaves, and the hours booked on the job."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from functools import lru_cache

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.field_values import field_text
from workbook_tools.jobs.list_words import ListWord, is_word, says_nothing
from workbook_tools.jobs.paper_records import JobField, OpenItem

_UNIT = re.compile(r"(?:,\s*(?:h|hrs?|hours)|\((?:h|hrs?|hours)\)|\[h\])\s*$", re.IGNORECASE)
_NUMBER = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:h|hrs?|hours|std|stunden)?\.?", re.IGNORECASE)
_HEADS: tuple[ListWord, ...] = ("who", "until", "closed")
_MOST_ROWS = 200
_MOST_COLUMNS = 20
_MOST_RIGHT = 4
# No job takes longer; a larger number is that of a meter.
_MOST_HOURS = 2000.0


def open_items(book: OpenBook) -> Iterator[OpenItem]:
    """What lists of open items name that nothing beside it says is closed, as a book is read."""
    for sheet in book.sheets:
        for row, column, text in sheet.texts:
            if not _heads_open_items(text):
                continue
            _, colon, rest = " ".join(text.split()).partition(":")
            if colon and rest.strip():
                if not says_nothing(rest, "not_closed"):
                    yield OpenItem(Place.at(sheet.title, row, column), rest.strip())
                continue
            yield from _listed(sheet, row, column)


# The books of a month have the same labels.
@lru_cache(maxsize=4096)
def _heads_open_items(text: str) -> bool:
    return is_word(" ".join(text.split()).partition(":")[0].strip(" ."), "open")


@lru_cache(maxsize=4096)
def _says_hours(text: str) -> bool:
    return is_word(_UNIT.sub("", " ".join(text.split())).strip(" .:"), "hours")


@lru_cache(maxsize=4096)
def _heads_hours(text: str) -> bool:
    return is_word(" ".join(text.split()).strip(" .:"), "hours_head")


def _listed(sheet: Sheet, row: int, column: int) -> Iterator[OpenItem]:
    heads = _heads_right(sheet, row, column)
    who = next((c for c, head in heads.items() if is_word(head, "who")), None)
    until = next((c for c, head in heads.items() if is_word(head, "until")), None)
    closed = [c for c, head in heads.items() if is_word(head, "closed")]
    if not heads and (beside := _text(sheet, row, column + 1)):
        if not says_nothing(beside, "not_closed"):
            yield OpenItem(Place.at(sheet.title, row, column + 1), beside)
        return
    for at in range(row + 1, row + 1 + _MOST_ROWS):
        said = _text(sheet, at, column)
        if not said:
            return
        done = any(not says_nothing(_text(sheet, at, c), "not_closed") for c in closed)
        if not done and not says_nothing(said, "not_closed"):
            yield OpenItem(
                Place.at(sheet.title, at, column),
                said,
                _text(sheet, at, who) if who else "",
                _text(sheet, at, until) if until else "",
            )


def _heads_right(sheet: Sheet, row: int, column: int) -> dict[int, str]:
    """The heads that stand right of one, by their columns; none where it heads no table."""
    heads = {}
    for at in range(column + 1, column + 1 + _MOST_COLUMNS):
        cell = sheet.cells.get((row, at))
        if cell is not None and isinstance(cell.value, str) and not cell.formula:
            heads[at] = " ".join(cell.value.split()).strip(" .:")
    known = [h for h in heads.values() if any(is_word(h, name) for name in _HEADS)]
    return heads if known else {}


def hours_booked(book: OpenBook) -> JobField:
    """The hours of work that a book gives for the job, empty where it gives none.

    A stated total comes first, then the sum of a column of hours beside one of work. The
    hours that an engine has run are none.
    """
    for sheet in book.sheets:
        for row, column, text in sheet.texts:
            if _says_hours(text):
                for at in range(column + 1, column + 1 + _MOST_RIGHT):
                    hours = _hours(sheet.cells.get((row, at)))
                    if hours is not None:
                        return JobField(f"{hours:g}", Place.at(sheet.title, row, at))
    for sheet in book.sheets:
        for row, column, text in sheet.texts:
            if _heads_hours(text):
                total = _column_of_hours(sheet, row, column)
                if total:
                    return JobField(f"{total:g}", Place.at(sheet.title, row, column))
    return JobField("")


def _column_of_hours(sheet: Sheet, row: int, column: int) -> float:
    """The sum of a column of typed hours, 0 where no column of work stands beside it."""
    reach = range(max(1, column - _MOST_COLUMNS), column + _MOST_COLUMNS + 1)
    if not any(is_word(_text(sheet, row, at), "work") for at in reach):
        return 0.0
    total = 0.0
    for at in range(row + 1, row + 1 + _MOST_ROWS):
        cell = sheet.cells.get((at, column))
        hours = _hours(cell)
        if hours is None or (cell is not None and cell.formula):
            break
        total += hours
    return round(total, 6)


def _hours(cell: Cell | None) -> float | None:
    value = cell.value if cell else None
    if isinstance(value, str) and (found := _NUMBER.fullmatch(value.strip())):
        value = float(found[1].replace(",", "."))
    if isinstance(value, datetime.timedelta):
        value = value.total_seconds() / 3600
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return None
    return float(value) if 0 < value <= _MOST_HOURS else None


def _text(sheet: Sheet, row: int, column: int) -> str:
    cell = sheet.cells.get((row, column))
    return field_text(cell.value) if cell else ""

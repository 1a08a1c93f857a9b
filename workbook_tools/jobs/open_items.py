"""What a book lists as still open before the engine leaves, and the hours booked on the job."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.field_values import field_text
from workbook_tools.jobs.records import JobField, OpenItem

# Heads of a column of what is open, and of those beside it: whose it is, till when, and what
# says that it is done. In the trade's words, common practice, no source.
_OPEN = re.compile(
    r"what is open|open (?:items?|points?)|still (?:open|to do)|to do|to-do|punch list"
    r"|offene punkte|noch offen|zu erledigen"
    r"|(?:points?|travaux) (?:ouverts?|restants?)|reste à faire"
    r"|pendientes?|por hacer|in sospeso|da fare|punti aperti",
    re.IGNORECASE,
)
_WHO = re.compile(r"who|by whom|for|wer|qui|quién|quien|chi", re.IGNORECASE)
_UNTIL = re.compile(
    r"(?:until|till|by|due|due (?:by|date)|bis|pour le|jusqu'au|hasta|entro)", re.IGNORECASE
)
_CLOSED = re.compile(
    r"closed(?: by| on)?|done(?: by| on)?|finished(?: on)?|erledigt(?: am| von)?|fait(?: le)?"
    r"|hecho(?: el)?|fatto(?: il)?",
    re.IGNORECASE,
)
# What stands in a cell where there is nothing to say, or where the thing is not closed.
_NOTHING = re.compile(
    r"[\s_.…·:\-–/]*|no|not yet|open|none|nothing|n/?a|keine?|nein|aucun|non|nada|niente",
    re.IGNORECASE,
)
_HOURS = re.compile(
    r"(?:total |shop |bench |labou?r )(?:labou?r )?(?:hours|hrs|time)"
    r"|(?:hours|hrs) (?:booked|worked|spent|on the job|total)"
    r"|arbeitsstunden|stunden (?:gesamt|gebucht)|heures (?:passées|de travail)"
    r"|horas (?:de trabajo|totales)|ore (?:di lavoro|totali)",
    re.IGNORECASE,
)
_HOURS_HEAD = re.compile(r"hours|hrs|h|stunden|std|heures|horas|ore", re.IGNORECASE)
_WORK = re.compile(
    r"work|operation|task|job done|labou?r|arbeit|tätigkeit|travail|opération|trabajo|tarea|lavoro"
    r"|lavorazione",
    re.IGNORECASE,
)
_UNIT = re.compile(r"(?:,\s*(?:h|hrs?|hours)|\((?:h|hrs?|hours)\)|\[h\])\s*$", re.IGNORECASE)
_NUMBER = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:h|hrs?|hours|std|stunden)?\.?", re.IGNORECASE)
_MOST_ROWS = 200
_MOST_COLUMNS = 20
_MOST_RIGHT = 4
# No job takes longer; a larger number is that of a meter.
_MOST_HOURS = 2000.0


def open_items(book: OpenBook) -> Iterator[OpenItem]:
    """What lists of open items name that nothing beside it says is closed, as a book is read."""
    for sheet in book.sheets:
        for row, column, text in sheet.texts:
            words, colon, rest = " ".join(text.split()).partition(":")
            if not _OPEN.fullmatch(words.strip(" .")):
                continue
            if colon and rest.strip():
                if not _NOTHING.fullmatch(rest):
                    yield OpenItem(Place.at(sheet.title, row, column), rest.strip())
                continue
            yield from _listed(sheet, row, column)


def _listed(sheet: Sheet, row: int, column: int) -> Iterator[OpenItem]:
    heads = _heads_right(sheet, row, column)
    who = next((c for c, head in heads.items() if _WHO.fullmatch(head)), None)
    until = next((c for c, head in heads.items() if _UNTIL.fullmatch(head)), None)
    closed = [c for c, head in heads.items() if _CLOSED.fullmatch(head)]
    if not heads and (beside := _text(sheet, row, column + 1)):
        if not _NOTHING.fullmatch(beside):
            yield OpenItem(Place.at(sheet.title, row, column + 1), beside)
        return
    for at in range(row + 1, row + 1 + _MOST_ROWS):
        said = _text(sheet, at, column)
        if not said:
            return
        done = any(not _NOTHING.fullmatch(_text(sheet, at, c)) for c in closed)
        if not done and not _NOTHING.fullmatch(said):
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
    known = [h for h in heads.values() if any(p.fullmatch(h) for p in (_WHO, _UNTIL, _CLOSED))]
    return heads if known else {}


def hours_booked(book: OpenBook) -> JobField:
    """The hours of work that a book gives for the job, empty where it gives none.

    A stated total comes first, then the sum of a column of hours beside one of work. The
    hours that an engine has run are none.
    """
    for sheet in book.sheets:
        for row, column, text in sheet.texts:
            if _HOURS.fullmatch(_UNIT.sub("", " ".join(text.split())).strip(" .:")):
                for at in range(column + 1, column + 1 + _MOST_RIGHT):
                    hours = _hours(sheet.cells.get((row, at)))
                    if hours is not None:
                        return JobField(f"{hours:g}", Place.at(sheet.title, row, at))
    for sheet in book.sheets:
        for row, column, text in sheet.texts:
            if _HOURS_HEAD.fullmatch(" ".join(text.split()).strip(" .:")):
                total = _column_of_hours(sheet, row, column)
                if total:
                    return JobField(f"{total:g}", Place.at(sheet.title, row, column))
    return JobField("")


def _column_of_hours(sheet: Sheet, row: int, column: int) -> float:
    """The sum of a column of typed hours, 0 where no column of work stands beside it."""
    reach = range(max(1, column - _MOST_COLUMNS), column + _MOST_COLUMNS + 1)
    if not any(_WORK.fullmatch(_text(sheet, row, at)) for at in reach):
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

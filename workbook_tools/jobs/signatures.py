"""Lines for signatures that nobody filled in, and the job number that each sheet gives."""

from __future__ import annotations

import re
from collections.abc import Iterator

from workbook_tools.books.cells import Cell, OpenBook, Sheet, is_typed_text
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import JobField, UnsignedLine
from workbook_tools.jobs.said_fields import said_fields
from workbook_tools.labels.label import Label
from workbook_tools.labels.vocabulary import vocabulary

# How far to the right of its line a signature may stand, past merged cells.
# Fewer texts side by side are no heads of a table, which ends where so many rows are empty, or
# after as many rows as no table of an engine has.
_FEWEST_HEADS = 3
_TABLE_ENDS = 2
_MOST_ROWS = 200
_MOST_RIGHT = 6
_SIGNATURE = re.compile(
    r"(?:signed|signature|initials|sign(?:ed)?[- ]?off|(?:second|final) check"
    r"|(?:check|releas|witness|inspect|approv|pass|measur|assembl|torqu)ed (?:by|off))"
    r"(?: (?:by|off))?(?: \(?(?:initials|lead|second person)\)?)?",
    re.IGNORECASE,
)
# What is done, without "by": the head of a section or a column unless a line follows it.
_DONE = re.compile(
    r"(?:second |final )?check(?:ed)?|released|witnessed|inspected|approved|passed", re.IGNORECASE
)
# What stands on a printed form where nothing was filled in.
_BLANK = re.compile(r"[\s_.…·:\-\[\]()/]*")


def job_numbers(book: OpenBook) -> Iterator[JobField]:
    """The job number that each sheet gives, the first on it, for the sheets that give one."""
    for sheet in book.sheets:
        said = said_fields(sheet, vocabulary())
        found = next((one for one in said if one.name == "number" and one.sure and one.text), None)
        if found is not None:
            yield found.field(sheet)


def unsigned_lines(book: OpenBook) -> Iterator[UnsignedLine]:
    """Lines for a signature or initials with nothing beside or below them."""
    for sheet in book.sheets:
        for row, column, content in sheet.texts:
            even = " ".join(content.split())
            text, _, rest = even.partition(":")
            text = text.rstrip(" _.…")
            line = _SIGNATURE.fullmatch(text) or (text != even and _DONE.fullmatch(text))
            if not line or not _BLANK.fullmatch(rest):
                continue
            span = _table_under(sheet, row, column)
            filled = (
                _column_is_filled(sheet, row, column, span)
                if span
                else _is_filled(sheet, row, column)
            )
            if not filled:
                yield UnsignedLine(Place.at(sheet.title, row, column), Label(text))


def _table_under(sheet: Sheet, row: int, column: int) -> range | None:
    """The columns of the table that a text is a head of, None where it heads no column.

    A table's heads stand side by side, with numbers or formulas under some of them.
    """
    first = last = column
    while is_typed_text(sheet, row, first - 1):
        first -= 1
    while is_typed_text(sheet, row, last + 1):
        last += 1
    span = range(first, last + 1)
    if len(span) < _FEWEST_HEADS:
        return None
    below = [sheet.cells.get((r, c)) for r in (row + 1, row + 2) for c in span]
    figures = [c for c in below if c is not None and (c.formula or not isinstance(c.value, str))]
    return span if len(figures) >= 2 else None


def _column_is_filled(sheet: Sheet, row: int, column: int, span: range) -> bool:
    """Whether anything is written under a head, as far as its table goes on."""
    gap = 0
    for at in range(row + 1, row + 1 + _MOST_ROWS):
        cell = sheet.cells.get((at, column))
        if cell is not None and not _is_blank(cell):
            return not (_is_line(cell) or _table_under(sheet, at, column))
        gap = 0 if any((at, c) in sheet.cells for c in span) else gap + 1
        if gap == _TABLE_ENDS:
            break
    return False


def _is_filled(sheet: Sheet, row: int, column: int) -> bool:
    """Whether something is written beside a line, or below it where it heads a column."""
    below = sheet.cells.get((row + 1, column))
    if below is not None and not _is_blank(below) and not _is_line(below):
        # A text below with its own value beside it is the next line, no entry in a column.
        beside = [sheet.cells.get((r, column + 1)) for r in (row, row + 1)]
        if beside[0] is not None or beside[1] is None:
            return True
    for at in range(column + 1, column + 1 + _MOST_RIGHT):
        cell = sheet.cells.get((row, at))
        if cell is not None and not _is_blank(cell):
            return not _is_line(cell)
    return False


def _is_blank(cell: Cell) -> bool:
    return cell.value is None or (
        isinstance(cell.value, str) and _BLANK.fullmatch(cell.value) is not None
    )


def _is_line(cell: Cell) -> bool:
    """Whether a text is itself the name of a line to be filled in."""
    if not isinstance(cell.value, str):
        return False
    even = " ".join(cell.value.split())
    text = even.rstrip(" :_.…").lower()
    return (
        even.endswith(":")
        or text == "date"
        or _SIGNATURE.fullmatch(text) is not None
        or any(label.sure for label in vocabulary().job.labels(text))
    )

"""Read an OpenDocument spreadsheet (.ods): cells, formulas and names, as for .xlsx.

The format is OASIS OpenDocument 1.2, part 1 (content) and part 2 (OpenFormula). pandas and
calamine give values without formulas and lose error values, so content.xml is read here.
"""

from __future__ import annotations

import datetime
import re
import zipfile
from collections.abc import Iterator
from typing import NamedTuple
from xml.etree import ElementTree

from workbook_tools.books.cells import MOST_ROWS, BookError, Cell, Sheet, bounded, filled
from workbook_tools.catalog import CellError
from workbook_tools.formulas.references import cell_address

MIMETYPES = (
    b"application/vnd.oasis.opendocument.spreadsheet",
    b"application/vnd.oasis.opendocument.spreadsheet-template",
)
_OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
_TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
_TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
_STYLE = "{urn:oasis:names:tc:opendocument:xmlns:style:1.0}"
_CALC = "{urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0}"
# More cells than this in one repeated run are formatting, not content.
_MOST_REPEATED = 2_000
# Cells of a sheet that stand in the file once and again by their repeats; a finished book has
# some thousands of cells.
_MOST_CELLS = 500_000

_REFERENCE = re.compile(r"\[([^\[\]]*)\]")
_PIECES = re.compile(r'("(?:[^"]|"")*"|\{[^{}]*\}|\[[^\[\]]*\])')


def _address(part: str) -> str:
    """`$Sheet1.$A$1` as `Sheet1!$A$1`, `.A1` as `A1`."""
    sheet, dot, cell = part.rpartition(".")
    if not dot or not sheet:
        return cell
    return f"{sheet.removeprefix('$')}!{cell}"


def _reference(text: str) -> str:
    """What stands in OpenFormula's square brackets, as other programs write it."""
    first, colon, last = text.partition(":")
    start = _address(first)
    return f"{start}:{_address(last).rpartition('!')[2]}" if colon else start


def _array(text: str) -> str:
    """An array constant: OpenFormula parts columns by ; and rows by |."""
    pieces = re.split(r'("(?:[^"]|"")*")', text)
    pieces[::2] = [piece.replace(";", ",").replace("|", ";") for piece in pieces[::2]]
    return "".join(pieces)


def formula_text(stored: str) -> str:
    """A stored formula (of:=ENG.QUENCH([.A1];[.B1])) as .xlsx files hold it, without "=".

    Raises nothing; what is no OpenFormula comes back as it is, without its prefix.
    """
    text = re.sub(r"^(?:\w+:)?=", "", stored)
    pieces = _PIECES.split(text)
    for index, piece in enumerate(pieces):
        if piece.startswith('"'):
            continue
        if piece.startswith("{"):
            pieces[index] = _array(piece)
        elif piece.startswith("["):
            pieces[index] = _reference(piece[1:-1])
        else:
            pieces[index] = piece.replace(";", ",")
    return "".join(pieces)


def _shown(cell: ElementTree.Element) -> str:
    """The text that a cell shows; its paragraphs on lines of their own."""
    return "\n".join("".join(p.itertext()) for p in cell.findall(f"{_TEXT}p"))


def _date(text: str) -> datetime.datetime | str:
    try:
        return datetime.datetime.fromisoformat(text)
    except ValueError:
        return text


def _value(cell: ElementTree.Element) -> object:
    """A cell's saved value."""
    if cell.get(f"{_CALC}value-type") == "error":
        return CellError(_shown(cell))
    kind = cell.get(f"{_OFFICE}value-type")
    if kind in ("float", "percentage", "currency"):
        number = float(cell.get(f"{_OFFICE}value", "nan"))
        # Calc has no errors but in what it shows: Err:502 stands over a value of 0.
        shown = _shown(cell)
        if re.fullmatch(r"Err:\d{3}|#[A-Z/0!?]+", shown):
            return CellError(shown)
        return number
    if kind == "boolean":
        return cell.get(f"{_OFFICE}boolean-value") == "true"
    if kind == "date":
        return _date(cell.get(f"{_OFFICE}date-value", ""))
    if kind == "string":
        return cell.get(f"{_OFFICE}string-value", _shown(cell))
    if kind == "time":
        return _shown(cell)
    return None


def _area(cell: ElementTree.Element, row: int, column: int) -> str:
    """The range that an array formula fills, "" for any other cell."""
    across = cell.get(f"{_TABLE}number-matrix-columns-spanned")
    down = cell.get(f"{_TABLE}number-matrix-rows-spanned")
    if across is None or down is None:
        return ""
    last = cell_address(row + int(down) - 1, column + int(across) - 1)
    return filled(f"{cell_address(row, column)}:{last}")


def _repeats(element: ElementTree.Element, what: str) -> int:
    return max(1, int(element.get(f"{_TABLE}number-{what}-repeated", "1")))


def _rows(table: ElementTree.Element) -> Iterator[tuple[int, int, ElementTree.Element]]:
    """(first row number, how many alike, row element), rows in groups included."""
    at = 1
    for row in table.iter(f"{_TABLE}table-row"):
        count = _repeats(row, "rows")
        yield at, count, row
        at += count


class _Styles(NamedTuple):
    """The names of the styles that hide a sheet, and of those that strike a cell through."""

    hiding: frozenset[str]
    striking: frozenset[str]


def _styles(root: ElementTree.Element) -> _Styles:
    hiding, striking = set(), set()
    for style in root.findall(f"{_OFFICE}automatic-styles/{_STYLE}style"):
        name = style.get(f"{_STYLE}name", "")
        table = style.find(f"{_STYLE}table-properties")
        text = style.find(f"{_STYLE}text-properties")
        if table is not None and table.get(f"{_TABLE}display") == "false":
            hiding.add(name)
        if text is not None and text.get(f"{_STYLE}text-line-through-style", "none") != "none":
            striking.add(name)
    return _Styles(frozenset(hiding), frozenset(striking))


def _hidden_columns(table: ElementTree.Element) -> frozenset[int]:
    """The columns that are not shown; those to the end of the sheet hold nothing."""
    found: set[int] = set()
    at = 1
    for column in table.iter(f"{_TABLE}table-column"):
        count = _repeats(column, "columns")
        if column.get(f"{_TABLE}visibility") in ("collapse", "filter"):
            found.update(range(at, at + min(count, _MOST_REPEATED)))
        at += count
    return frozenset(found)


def _sheet(table: ElementTree.Element, styles: _Styles) -> Sheet:
    struck: set[tuple[int, int]] = set()
    cells: dict[tuple[int, int], Cell] = {}
    merged: dict[tuple[int, int], tuple[int, int]] = {}
    hidden_rows: set[int] = set()
    for first, alike, row in _rows(table):
        if row.get(f"{_TABLE}visibility") in ("collapse", "filter"):
            last = min(first + min(alike, _MOST_REPEATED), MOST_ROWS + 1)
            hidden_rows.update(range(first, last))
        for column, count, cell in _cells(row):
            here = dict(
                _repeated(cell, (first, column), (alike, count), room=_MOST_CELLS - len(cells))
            )
            cells.update(here)
            if cell.get(f"{_TABLE}style-name") in styles.striking:
                struck.update(here)
            across = int(cell.get(f"{_TABLE}number-columns-spanned", "1"))
            down = int(cell.get(f"{_TABLE}number-rows-spanned", "1"))
            if across > 1 or down > 1:
                merged[first, column] = (first + down - 1, column + across - 1)
    return Sheet(
        title=table.get(f"{_TABLE}name", ""),
        cells=cells,
        names=_names(table),
        merged=merged,
        struck=frozenset(struck),
        hidden_rows=frozenset(hidden_rows),
        hidden_columns=_hidden_columns(table),
        hidden=table.get(f"{_TABLE}style-name") in styles.hiding,
        protected=table.get(f"{_TABLE}protected") == "true",
    )


def _cells(row: ElementTree.Element) -> Iterator[tuple[int, int, ElementTree.Element]]:
    """(first column number, how many alike, cell element) of a row, covered cells included."""
    at = 1
    for cell in row:
        if cell.tag in (f"{_TABLE}table-cell", f"{_TABLE}covered-table-cell"):
            count = _repeats(cell, "columns")
            yield at, count, cell
            at += count


def _repeated(
    cell: ElementTree.Element, first: tuple[int, int], alike: tuple[int, int], room: int
) -> Iterator[tuple[tuple[int, int], Cell]]:
    """The cells that an element stands for, by (row, column); none where it holds nothing.

    first: the row and column of the first; alike: how many rows and columns; room: how many
    more cells a sheet may have. Raises BookError where it repeats more than that.
    """
    value = _value(cell)
    stored = cell.get(f"{_TABLE}formula")
    if value is None and stored is None:
        return
    down, across = alike
    if across * down > _MOST_REPEATED:
        across, down = min(across, _MOST_REPEATED), 1
    if across * down > 1 and across * down > room:
        raise BookError(
            f"a sheet repeats its cells more than {_MOST_CELLS:,} times",
            "copy its used cells into a new book and give that",
        )
    formula = formula_text(stored) if stored else ""
    top, left = first
    for row in range(top, top + down):
        for column in range(left, left + across):
            yield (row, column), Cell(bounded(value), formula, _area(cell, row, column))


def _names(scope: ElementTree.Element) -> dict[str, str]:
    """The defined names of a book or a sheet, in lower case, with what they stand for."""
    found: dict[str, str] = {}
    for group in scope.findall(f"{_TABLE}named-expressions"):
        for item in group:
            name = item.get(f"{_TABLE}name", "").lower()
            address = item.get(f"{_TABLE}cell-range-address")
            expression = item.get(f"{_TABLE}expression")
            if name and address:
                found[name] = _reference(address)
            elif name and expression:
                found[name] = formula_text(expression)
    return found


def read_opendocument(archive: zipfile.ZipFile) -> tuple[tuple[Sheet, ...], dict[str, str]]:
    """The sheets and the book's own names of an OpenDocument spreadsheet.

    Raises BookError where it is locked, or where its content is no spreadsheet's.
    """
    if b"manifest:encryption-data" in archive.read("META-INF/manifest.xml"):
        raise BookError(
            "the book is locked with a password", "save a copy without a password and give that"
        )
    content = archive.read("content.xml")
    root = ElementTree.fromstring(content)
    book = root.find(f"{_OFFICE}body/{_OFFICE}spreadsheet")
    if book is None:
        raise BookError("this is no spreadsheet", "give .xlsx, .xlsm or .ods files")
    tables = book.findall(f"{_TABLE}table")
    styles = _styles(root)
    return tuple(_sheet(table, styles) for table in tables), _names(book)

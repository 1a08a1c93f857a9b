"""Open a builder's book read-only: its cells with formulas and saved values, nothing else.

The file is read once, into memory, and never written. What is no readable workbook is
refused with one line that says what it is and what to do.
"""

from __future__ import annotations

import hashlib
import io
import re
import warnings
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

from openpyxl.packaging.relationship import get_dependents, get_rels_path
from openpyxl.reader.excel import ExcelReader, _find_workbook_part  # type: ignore[attr-defined]
from openpyxl.reader.workbook import WorkbookParser
from openpyxl.styles.numbers import BUILTIN_FORMATS, is_date_format, is_timedelta_format
from openpyxl.utils.cell import range_boundaries
from openpyxl.utils.datetime import CALENDAR_MAC_1904, WINDOWS_EPOCH
from openpyxl.workbook.defined_name import DefinedNameList
from openpyxl.worksheet._reader import (
    COL_TAG,
    FORMULA_TAG,
    MERGE_TAG,
    PROT_TAG,
    ROW_TAG,
    TABLE_TAG,
    WorkSheetParser,
)
from openpyxl.worksheet.formula import ArrayFormula, DataTableFormula
from openpyxl.worksheet.merge import MergeCells
from openpyxl.worksheet.table import Table as TablePart
from openpyxl.worksheet.table import TablePartList
from openpyxl.xml.constants import ARC_STYLE, SHEET_MAIN_NS
from openpyxl.xml.functions import fromstring, iterparse

from workbook_tools.book_files import UnfitFile, check_unpacked, read_bytes
from workbook_tools.books.cells import BookError, Cell, OpenBook, Sheet, Table, bounded, filled
from workbook_tools.books.opendocument import MIMETYPES, read_opendocument
from workbook_tools.catalog import CellError

# What programs hold to; a file that does not was not written by one.
MOST_COLUMNS = 16_384
# A sheet part larger than this is first rid of its formatted blank cells.
LARGE_PART = 2_000_000


def _refuse_other_kinds(data: bytes) -> None:
    """Name, by their content, the files that are no .xlsx or .xlsm workbook."""
    if not data:
        raise BookError("the file is empty", "look for a whole copy")
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        if "EncryptedPackage".encode("utf-16-le") in data:
            raise BookError(
                "the book is locked with a password",
                "save a copy without a password (File, Info or Save As, Tools) and give that",
            )
        raise BookError("this is an old .xls book", "open it and save it as .xlsx")
    if not data.startswith(b"PK"):
        raise BookError("this is not a workbook", "give .xlsx, .xlsm or .ods files")


def _check_parts(archive: zipfile.ZipFile, size: int) -> None:
    names = set(archive.namelist())
    if any(name.endswith("workbook.bin") for name in names):
        raise BookError("this is a binary .xlsb book", "open it and save it as .xlsx")
    if "[Content_Types].xml" not in names and not _is_opendocument(archive):
        raise BookError("this is an archive but not a workbook", "give .xlsx, .xlsm or .ods files")
    try:
        check_unpacked(archive, size)
    except UnfitFile as unfit:
        raise BookError(unfit.message, unfit.advice) from None
    for item in archive.infolist():
        with archive.open(item) as part:
            head = part.read(_HEAD).replace(b"\0", b"")
        if _declares_a_type(head):
            raise BookError(
                f"the book's part {item.filename} declares a document type",
                "open it in a spreadsheet program and save it anew",
            )


# Every spreadsheet program starts a part's first element within so many bytes.
_HEAD = 4096
_BEFORE_AN_ELEMENT = re.compile(rb"<\?.*?\?>|<!--.*?-->", re.DOTALL)


def _declares_a_type(head: bytes) -> bool:
    """Whether a part may declare a document type, whose entities can unfold to any size.

    No spreadsheet program writes one. It stands before the first element, so a part of which
    the head has no element hides something.
    """
    if not head.lstrip(b"\xef\xbb\xbf\xfe\xff \t\r\n").startswith(b"<"):
        return False
    rest = _BEFORE_AN_ELEMENT.sub(b"", head)
    return b"<!DOCTYPE" in rest or (len(head) >= _HEAD // 2 and not re.search(rb"<\w", rest))


def _is_opendocument(archive: zipfile.ZipFile) -> bool:
    return "mimetype" in archive.namelist() and archive.read("mimetype").strip() in MIMETYPES


def _opendocument(path: Path, data: bytes, archive: zipfile.ZipFile) -> OpenBook:
    try:
        sheets, names = read_opendocument(archive)
    except (KeyError, ValueError, SyntaxError) as error:
        raise _unfit(error) from None
    return OpenBook(path.name, hashlib.sha256(data).hexdigest(), sheets, names)


def _unfit(error: Exception) -> BookError:
    first = next(iter(str(error).splitlines()), "")[:200]
    return BookError(
        f"the book's parts do not fit together ({type(error).__name__}: {first})",
        "open it in a spreadsheet program and save it anew",
    )


_BLANK_CELL = re.compile(rb"<c\s[^<>]*/>")
_BLANK_ROW = re.compile(rb"<row\s[^<>]*(?:/>|>\s*</row>)")


def _without_blanks(archive: zipfile.ZipFile, data: bytes) -> bytes:
    """The archive with formatted but empty cells taken out of large sheets.

    Formatting a million rows leaves a million cells that hold nothing; reading each of them
    would take minutes.
    """
    large = {
        item.filename
        for item in archive.infolist()
        if item.file_size > LARGE_PART and re.match(r"xl/worksheets/[^/]+\.xml$", item.filename)
    }
    if not large:
        return data
    slim = io.BytesIO()
    with zipfile.ZipFile(slim, "w", zipfile.ZIP_STORED) as target:
        for item in archive.infolist():
            part = archive.read(item)
            if item.filename in large:
                part = _BLANK_ROW.sub(b"", _BLANK_CELL.sub(b"", part))
            target.writestr(item.filename, part)
    return slim.getvalue()


class _BothParser(WorkSheetParser):
    """openpyxl's reader of a sheet, giving a cell's formula and its saved value in one pass.

    openpyxl itself gives one or the other, at the price of reading the book twice, and reads
    much that concerns only a book that is to be saved again.
    """

    def rows(self) -> Iterator[list[dict[str, Any]]]:
        """The cells of one row after the other."""
        element: Any
        for _, element in iterparse(self.source):
            tag = element.tag
            if tag == ROW_TAG:
                _, cells = self.parse_row(element)
                yield cells
            elif tag == COL_TAG:
                self.parse_column_dimensions(element)
            elif tag == PROT_TAG:
                self.parse_sheet_protection(element)
            elif tag == MERGE_TAG:
                self.merged_cells = MergeCells.from_tree(element)
            elif tag == TABLE_TAG:
                self.tables = TablePartList.from_tree(element) or TablePartList()
            else:
                continue
            element.clear()

    def parse_cell(self, element: Any) -> dict[str, Any]:
        self.data_only = True
        cell: dict[str, Any] = super().parse_cell(element)
        if element.find(FORMULA_TAG) is not None:
            if cell["value"] is None and element.get("t") == "str":
                # A formula that gave an empty text; openpyxl shows it as never calculated.
                cell["value"] = ""
            cell["formula"] = self.parse_formula(element)  # type: ignore[no-untyped-call]
        return cell


class _Parts(WorkbookParser):
    """openpyxl's reader of what a workbook says of its sheets and names.

    openpyxl itself fills in a new workbook with them, which takes as long as all the rest.
    """

    def __init__(self, archive: zipfile.ZipFile, path: str) -> None:
        self.archive = archive
        self.workbook_part_name = path
        self.keep_links = False
        self.defined_names = DefinedNameList()
        self.wb: Any = SimpleNamespace(epoch=WINDOWS_EPOCH)


@dataclass(frozen=True)
class _Styles:
    """The cell styles, by number, that make dates, lengths of time, and text struck through."""

    dates: frozenset[int] = frozenset()
    durations: frozenset[int] = frozenset()
    struck: frozenset[int] = frozenset()


def _read_styles(archive: zipfile.ZipFile) -> _Styles:
    if ARC_STYLE not in archive.namelist():
        return _Styles()
    root: Any = fromstring(archive.read(ARC_STYLE))

    def each(path: str) -> list[Any]:
        return list(root.findall("/".join(f"{{{SHEET_MAIN_NS}}}{tag}" for tag in path.split("/"))))

    codes = dict(BUILTIN_FORMATS)
    codes.update((int(f.get("numFmtId")), f.get("formatCode")) for f in each("numFmts/numFmt"))
    strikes = [font.find(f"{{{SHEET_MAIN_NS}}}strike") for font in each("fonts/font")]
    struck = {
        n for n, s in enumerate(strikes) if s is not None and s.get("val") not in ("0", "false")
    }
    styles = each("cellXfs/xf")
    formats = [codes.get(int(style.get("numFmtId", 0)), "General") for style in styles]
    return _Styles(
        frozenset(n for n, code in enumerate(formats) if is_date_format(code)),
        frozenset(n for n, code in enumerate(formats) if is_timedelta_format(code)),
        frozenset(n for n, style in enumerate(styles) if int(style.get("fontId", 0)) in struck),
    )


def _read_sheet(
    reader: Any, epoch: Any, styles: _Styles, listed: Any, path: str, names: Mapping[str, str]
) -> Sheet:
    """One sheet by the path of its part; listed: what the workbook says of it; names: its own."""
    cells: dict[tuple[int, int], Cell] = {}
    struck: list[tuple[int, int]] = []
    with reader.archive.open(path) as source:
        parser = _BothParser(
            source,
            reader.shared_strings,
            epoch=epoch,
            date_formats=styles.dates,
            timedelta_formats=styles.durations,
        )
        for row in parser.rows():
            for item in row:
                cell = _cell(item)
                if cell is not None:
                    cells[item["row"], item["column"]] = cell
                    if item["style_id"] in styles.struck:
                        struck.append((item["row"], item["column"]))
    return Sheet(
        listed.name,
        cells,
        dict(names),
        dict(_tables(reader.archive, path, parser)),
        merged=_merged(parser),
        struck=frozenset(struck),
        hidden_rows=frozenset(int(row) for row, a in parser.row_dimensions.items() if _hidden(a)),
        hidden_columns=frozenset(_hidden_columns(parser)),
        hidden=listed.state != "visible",
        protected=bool(getattr(getattr(parser, "protection", None), "sheet", False)),
    )


def _hidden(attributes: Mapping[str, str]) -> bool:
    return attributes.get("hidden") in ("1", "true")


def _hidden_columns(parser: Any) -> Iterator[int]:
    for attributes in parser.column_dimensions.values():
        if _hidden(attributes):
            last = min(int(attributes["max"]), MOST_COLUMNS)
            yield from range(int(attributes["min"]), last + 1)


def _merged(parser: Any) -> dict[tuple[int, int], tuple[int, int]]:
    """The last (row, column) of each merged range, by its first."""
    if not parser.merged_cells:
        return {}
    ranges = [item.ref for item in parser.merged_cells.mergeCell]
    bounds = [range_boundaries(str(ref)) for ref in ranges]
    return {
        (top, left): (bottom, right)
        for left, top, right, bottom in bounds
        if left and top and right and bottom
    }


def _tables(archive: zipfile.ZipFile, path: str, parser: Any) -> Iterator[tuple[str, Table]]:
    """The tables of a sheet, by name in lower case."""
    parts = parser.tables.tablePart
    if not parts:
        return
    relations = get_dependents(archive, get_rels_path(path))  # type: ignore[no-untyped-call]
    for part in parts:
        content: Any = fromstring(archive.read(relations.get(part.id).target))
        table: Any = TablePart.from_tree(content)
        left, top, _, bottom = range_boundaries(table.ref)
        if left is None or top is None or bottom is None:
            continue
        columns = {c.name.lower(): left + n for n, c in enumerate(table.tableColumns)}
        yield (
            table.displayName.lower(),
            Table(top + (table.headerRowCount or 0), bottom - (table.totalsRowCount or 0), columns),
        )


def _cell(item: dict[str, Any]) -> Cell | None:
    """A parsed cell, None where it holds nothing."""
    value = item["value"]
    value = CellError(str(value)) if item["data_type"] == "e" else bounded(value)
    content = item.get("formula")
    if isinstance(content, ArrayFormula):
        return Cell(value, (content.text or "").lstrip("="), filled(content.ref))
    if content is None or isinstance(content, DataTableFormula):
        # A text of nothing but spaces is as empty as the cell looks.
        blank = value is None or (isinstance(value, str) and not value.strip())
        return None if blank else Cell(value)
    return Cell(value, str(content).removeprefix("="))


def _read_parts(data: bytes) -> tuple[tuple[Sheet, ...], dict[str, str], bool]:
    """The sheets and the defined names of a workbook archive; whether days count from 1904."""
    with warnings.catch_warnings():
        # openpyxl warns of parts that it cannot keep when it saves; nothing is saved here.
        warnings.simplefilter("ignore")
        # Of what openpyxl.load_workbook does, the steps that cells depend on.
        reader: Any = ExcelReader(io.BytesIO(data), read_only=True, keep_links=False)
        reader.read_manifest()
        reader.read_strings()
        parts = _Parts(reader.archive, _find_workbook_part(reader.package).PartName[1:])
        parts.parse()
        styles = _read_styles(reader.archive)
        names: dict[Any, dict[str, str]] = {
            at: {name.lower(): item.attr_text for name, item in found.items() if item.attr_text}
            for at, found in parts.defined_names.by_sheet().items()
        }
        epoch = parts.wb.epoch
        sheets = tuple(
            _read_sheet(reader, epoch, styles, listed, link.target, names.get(at, {}))
            for at, (listed, link) in enumerate(parts.find_sheets())
            if link.target in reader.valid_files and "chartsheet" not in link.Type
        )
    if getattr(parts.wb, "calculation", None) and parts.wb.calculation.fullCalcOnLoad:
        sheets = _without_placeholders(sheets)
    return sheets, names.get("global", {}), epoch == CALENDAR_MAC_1904


def _without_placeholders(sheets: tuple[Sheet, ...]) -> tuple[Sheet, ...]:
    """Sheets that wait for their first calculation, without the 0 saved for each formula.

    A program that writes books and cannot calculate may save 0 as every result, and ask for
    calculation when the book is opened.
    """
    results = [c.value for sheet in sheets for c in sheet.cells.values() if c.formula]
    if any(isinstance(value, bool) or value != 0 for value in results):
        return sheets
    return tuple(
        replace(
            sheet,
            cells={
                at: cell._replace(value=None) if cell.formula else cell
                for at, cell in sheet.cells.items()
            },
        )
        for sheet in sheets
    )


def cannot_open(error: OSError | UnfitFile) -> BookError:
    """Why a file cannot be opened, and what to do."""
    if isinstance(error, UnfitFile):
        return BookError(error.message, error.advice)
    return BookError(
        f"the file cannot be opened: {error.strerror or error}",
        "close it elsewhere, check the connection, and run again",
    )


def read_cells(path: Path) -> OpenBook:
    """Read every filled cell of a book.

    path: an .xlsx, .xlsm or .ods file; it is opened for reading only. Returns its sheets with
    formulas and saved values. Raises BookError where the file cannot be read as a book, and
    says why: not a workbook, locked, cut off, too large, not readable at all.
    """
    try:
        data = read_bytes(path)
    except (OSError, UnfitFile) as error:
        raise cannot_open(error) from None
    _refuse_other_kinds(data)
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            _check_parts(archive, len(data))
            if _is_opendocument(archive):
                return _opendocument(path, data, archive)
            slim = _without_blanks(archive, data)
    except (BookError, MemoryError):
        raise
    except Exception as error:
        # zipfile has no one error for archives that are broken.
        raise BookError(
            f"the file is damaged or cut off ({error})",
            "copy it again, or open it and save it anew",
        ) from None
    try:
        sheets, names, from_1904 = _read_parts(slim)
    except MemoryError:
        raise BookError("the book is too large for this machine", "split it up") from None
    except Exception as error:
        # Whatever openpyxl trips over in a broken part, the batch must go on with the rest.
        raise _unfit(error) from None
    return OpenBook(
        file_name=path.name,
        sha256=hashlib.sha256(data).hexdigest(),
        sheets=sheets,
        names=names,
        days_from_1904=from_1904,
    )

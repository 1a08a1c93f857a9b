"""The sheets of an .xlsx or .xlsm workbook: cells with formulas and saved values, and names.

openpyxl's public reader gives formulas or values, and builds a workbook that could be saved
again, so that a book would be read twice and in twice the time. Of its insides this module
rests on the following, and no other module on any; openpyxl is bound to the versions that have
them, and tests/books/test_openpyxl_contract.py says which part is missing and what it gives:

- `openpyxl.reader.excel`: `_find_workbook_part`, and of `ExcelReader` `read_manifest`,
  `archive`, `package` and `shared_strings`: which part is the workbook;
- `openpyxl.reader.strings`: `read_string_table`: texts;
- `openpyxl.reader.workbook`: of `WorkbookParser` `parse`, `rels`, `find_sheets`, and that it
  needs no more than the attributes that `_Parts` sets: sheets, names, the start of days;
- `openpyxl.worksheet._reader`: the tags, and of `WorkSheetParser` `parse_cell`, `parse_row`,
  `parse_formula`, `parse_column_dimensions`, `parse_sheet_protection` with what they leave:
  cells, formulas, hidden rows and columns, protection.
"""

from __future__ import annotations

import datetime
import io
import warnings
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from types import SimpleNamespace
from typing import Any

from openpyxl.packaging.relationship import get_dependents, get_rels_path
from openpyxl.reader.excel import ExcelReader, _find_workbook_part  # type: ignore[attr-defined]
from openpyxl.reader.strings import read_string_table
from openpyxl.reader.workbook import WorkbookParser
from openpyxl.styles.numbers import BUILTIN_FORMATS, is_date_format, is_timedelta_format
from openpyxl.utils.cell import range_boundaries
from openpyxl.utils.datetime import CALENDAR_MAC_1904, WINDOWS_EPOCH, from_ISO8601
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
from openpyxl.xml.constants import SHEET_MAIN_NS
from openpyxl.xml.functions import fromstring, iterparse

from workbook_tools.books.cells import MOST_COLUMNS, BookError, Cell, Sheet, Table, bounded, filled
from workbook_tools.catalog import CellError


def _require_root(root: Any, name: str) -> None:
    """Refuse a part of another namespace, in which nothing would be found."""
    if root.tag != f"{{{SHEET_MAIN_NS}}}{name}":
        raise ValueError(f"expected a {name} of SpreadsheetML, got {root.tag}")


def _date(text: str | None) -> object:
    """A date, time or length of time in ISO 8601."""
    try:
        value = from_ISO8601(text)  # type: ignore[no-untyped-call]
    except (ValueError, OverflowError, TypeError):
        return text
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return datetime.datetime.combine(value, datetime.time())
    return value


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
        _require_root(element, "worksheet")

    def parse_cell(self, element: Any) -> dict[str, Any]:
        self.data_only = True
        if element.get("t") == "d":
            # A date as ISO 8601 writes it; one that is none stays the text that it is.
            element.set("t", "str")
            cell: dict[str, Any] = super().parse_cell(element)
            cell["value"] = _date(cell["value"])
        else:
            cell = super().parse_cell(element)
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

    def path_of(self, kind: str) -> str:
        """The path of the workbook's one part of a kind, "" where it has none."""
        return next((r.target for r in self.links if r.Type.endswith(f"/{kind}")), "")

    @property
    def links(self) -> list[Any]:
        """What the workbook says of its own parts."""
        named: Any = self.rels
        return list(named.values())


def _require_parts(parts: _Parts) -> None:
    """Refuse a workbook without a part that it names and that cells come from."""
    there = set(parts.archive.namelist())
    for link in parts.links:
        kind = link.Type.rpartition("/")[2]
        if kind in ("worksheet", "sharedStrings", "styles") and link.target not in there:
            raise BookError(
                f"the book's part {link.target} is missing",
                "take a whole copy, or open it in a spreadsheet program and save it anew",
            )


@dataclass(frozen=True)
class _Styles:
    """The cell styles, by number, that make dates, lengths of time, and text struck through."""

    dates: frozenset[int] = frozenset()
    durations: frozenset[int] = frozenset()
    struck: frozenset[int] = frozenset()


def _read_styles(archive: zipfile.ZipFile, path: str) -> _Styles:
    if not path:
        return _Styles()
    root: Any = fromstring(archive.read(path))
    _require_root(root, "styleSheet")

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


def read_openxml(data: bytes) -> tuple[tuple[Sheet, ...], dict[str, str], bool]:
    """The sheets and the book's own names of a workbook archive; whether days count from 1904.

    data: the archive, in the namespaces of Transitional. Raises BookError where a part is
    missing, and what openpyxl raises where parts do not fit together.
    """
    with warnings.catch_warnings():
        # openpyxl warns of parts that it cannot keep when it saves; nothing is saved here.
        warnings.simplefilter("ignore")
        # Of what openpyxl.load_workbook does, the steps that cells depend on.
        reader: Any = ExcelReader(io.BytesIO(data), read_only=True, keep_links=False)
        reader.read_manifest()
        parts = _Parts(reader.archive, _find_workbook_part(reader.package).PartName[1:])
        parts.parse()
        _require_parts(parts)
        strings = parts.path_of("sharedStrings")
        if strings:
            with reader.archive.open(strings) as source:
                reader.shared_strings = read_string_table(source)
        styles = _read_styles(reader.archive, parts.path_of("styles"))
        names: dict[Any, dict[str, str]] = {
            at: {name.lower(): item.attr_text for name, item in found.items() if item.attr_text}
            for at, found in parts.defined_names.by_sheet().items()
        }
        epoch = parts.wb.epoch
        sheets = tuple(
            _read_sheet(reader, epoch, styles, listed, link.target, names.get(at, {}))
            for at, (listed, link) in enumerate(parts.find_sheets())
            if link.Type.endswith("/worksheet")
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

"""The sheets of an .xlsx or .xlsm workbook: cells with formulas and saved values, and names.

openpyxl's public reader gives formulas or values, and builds a workbook that could be saved
again, so that a book would be read twice and in twice the time. Of its insides this module
rests on the following, and no other module on any; openpyxl is bound to the versions that have
them, and tests/books/test_openpyxl_contract.py says which part is missing and what it gives:

- `openpyxl.reader.excel`: `_find_workbook_part`: which part is the workbook;
- `openpyxl.reader.workbook`: of `WorkbookParser` `parse`, `rels`, `find_sheets`, and that it
  needs no more than the attributes that `_Parts` sets: sheets, names, the start of days;
- `openpyxl.worksheet._reader`: the tags, and of `WorkSheetParser` `parse_cell`, `parse_row`,
  `parse_formula`, `parse_column_dimensions`, `parse_sheet_protection` with what they leave:
  cells, formulas, hidden rows and columns, protection.

What a program writes alike into all of its books (the list of parts, the workbook's own part,
styles) is parsed once for the same bytes; the commonest cells are read without `parse_cell`.
"""

from __future__ import annotations

import datetime
import io
import warnings
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from types import SimpleNamespace
from typing import Any

from openpyxl.packaging.manifest import Manifest
from openpyxl.packaging.relationship import get_dependents, get_rels_path
from openpyxl.reader.excel import _find_workbook_part  # type: ignore[attr-defined]
from openpyxl.reader.workbook import WorkbookParser
from openpyxl.utils.cell import coordinate_to_tuple, range_boundaries
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
from openpyxl.worksheet.table import Table as TablePart
from openpyxl.worksheet.table import TablePartList
from openpyxl.xml.constants import SHEET_MAIN_NS
from openpyxl.xml.functions import fromstring, iterparse

from workbook_tools.books.cells import MOST_COLUMNS, BookError, Cell, Sheet, Table, bounded, filled
from workbook_tools.books.shared_parts import (
    MOST_AT_ONCE,
    Styles,
    read_styles,
    read_texts,
    require_root,
)
from workbook_tools.catalog import CellError


def _date(text: str | None) -> object:
    """A date, time or length of time in ISO 8601."""
    try:
        value = from_ISO8601(text)  # type: ignore[no-untyped-call]
    except (ValueError, OverflowError, TypeError):
        return text
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return datetime.datetime.combine(value, datetime.time())
    return value


_VALUE = f"{{{SHEET_MAIN_NS}}}v"
_DATA = f"{{{SHEET_MAIN_NS}}}sheetData"
# A cell with its (row, column) and the number of its style; None where it holds nothing.
_Placed = tuple[tuple[int, int], int, Cell | None]


@lru_cache(maxsize=16384)
def _row_and_column(address: str) -> tuple[int, int]:
    return coordinate_to_tuple(address)


class _BothParser(WorkSheetParser):
    """openpyxl's reader of a sheet, giving a cell's formula and its saved value in one pass.

    openpyxl itself gives one or the other, at the price of reading the book twice, and reads
    much that concerns only a book that is to be saved again.
    """

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.merged: list[str] = []

    def rows(self, size: int) -> Iterator[list[_Placed]]:
        """The cells of one row after the other; size: bytes of the sheet's part."""
        element: Any
        for element in self._elements(size):
            tag = element.tag
            if tag == ROW_TAG:
                cells: Any = self.parse_row(element)[1]  # What parse_cell gives, each.
                yield cells
            elif tag == COL_TAG:
                self.parse_column_dimensions(element)
            elif tag == PROT_TAG:
                self.parse_sheet_protection(element)
            elif tag == MERGE_TAG:
                self.merged += [ref for item in element if (ref := item.get("ref"))]
            elif tag == TABLE_TAG:
                self.tables = TablePartList.from_tree(element) or TablePartList()
            else:
                continue
            element.clear()
        require_root(element, "worksheet")

    def _elements(self, size: int) -> Iterator[Any]:
        """The elements of the sheet that hold rows and all else that is read; the root last."""
        if size > MOST_AT_ONCE:
            for _, element in iterparse(self.source):
                yield element
            return
        source: Any = self.source
        root: Any = fromstring(source.read())
        for part in root:
            yield from part if part.tag == _DATA else part.iter()
        yield root

    def parse_cell(self, element: Any) -> _Placed:  # type: ignore[override]
        return self._common_cell(element) or self._any_cell(element)

    def _common_cell(self, element: Any) -> _Placed | None:
        """A number or a text, typed or of an ordinary formula; None for any other cell."""
        place, kind, style = element.get("r"), element.get("t", "n"), element.get("s")
        style_id = int(style) if style else 0
        if not place or kind not in ("n", "s", "str") or style_id in self.date_formats:
            return None
        text: str | None = None
        formula: str | None = None
        for child in element:
            if child.tag == _VALUE and text is None:
                text = child.text or ""
            elif child.tag == FORMULA_TAG and formula is None and "t" not in child.attrib:
                formula = child.text or ""
            else:
                return None
        value: object = text or None
        if text and kind == "n":
            value = float(text) if "." in text or "E" in text or "e" in text else int(text)
        elif text and kind == "s":
            value = self.shared_strings[int(text)]
        elif kind == "str" and formula is not None:
            value = text or ""  # A formula that gave an empty text.
        at = _row_and_column(place)
        self.col_counter = at[1]
        if formula is None and isinstance(value, float):
            return at, style_id, Cell(bounded(value))  # As most cells are.
        return at, style_id, _typed(value) if formula is None else Cell(bounded(value), formula)

    def _any_cell(self, element: Any) -> _Placed:
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
        return (cell["row"], cell["column"]), cell["style_id"], _cell(cell)


class _Parts(WorkbookParser):
    """openpyxl's reader of what a workbook says of its sheets and names.

    openpyxl itself fills in a new workbook with them, which takes as long as all the rest.
    """

    def __init__(self, archive: Any, path: str) -> None:
        self.archive = archive
        self.workbook_part_name = path
        self.keep_links = False
        self.defined_names = DefinedNameList()
        self.wb: Any = SimpleNamespace(epoch=WINDOWS_EPOCH)

    @property
    def links(self) -> list[Any]:
        """What the workbook says of its own parts."""
        named: Any = self.rels
        return list(named.values())


@dataclass(frozen=True)
class _Outline:
    """What a workbook's own part says: its sheets, names and other parts, and of its days.

    links: (kind, path) of each part; sheets: (title, state, path) of each worksheet with the
    number by which names are of it; full_calculation: whether it is to be calculated when opened.
    """

    links: tuple[tuple[str, str], ...]
    sheets: tuple[tuple[int, str, str | None, str], ...]
    names: Mapping[Any, Mapping[str, str]]
    epoch: Any
    full_calculation: bool

    def path_of(self, kind: str) -> str:
        """The path of the workbook's one part of a kind, "" where it has none."""
        return next((path for own, path in self.links if own == kind), "")


@lru_cache(maxsize=8)
def _workbook_path(types: bytes) -> str:
    """The path of the workbook's own part; types: the list of the archive's parts."""
    root: Any = fromstring(types)
    manifest: Any = Manifest.from_tree(root)
    name: str = _find_workbook_part(manifest).PartName
    return name[1:]


@lru_cache(maxsize=8)
def _outline(path: str, workbook: bytes, relations: bytes) -> _Outline:
    """A workbook's outline by the path and the bytes of its part and those of its relations."""
    contents = {path: workbook, get_rels_path(path): relations}  # type: ignore[no-untyped-call]
    parts = _Parts(SimpleNamespace(read=contents.__getitem__), path)
    parts.parse()
    calculation = getattr(parts.wb, "calculation", None)
    return _Outline(
        tuple((link.Type.rpartition("/")[2], link.target) for link in parts.links),
        tuple(
            (at, listed.name, listed.state, link.target)
            for at, (listed, link) in enumerate(parts.find_sheets())
            if link.Type.endswith("/worksheet")
        ),
        {
            at: {name.lower(): item.attr_text for name, item in found.items() if item.attr_text}
            for at, found in parts.defined_names.by_sheet().items()
        },
        parts.wb.epoch,
        bool(calculation and calculation.fullCalcOnLoad),
    )


def _require_parts(archive: zipfile.ZipFile, outline: _Outline) -> None:
    """Refuse a workbook without a part that it names and that cells come from."""
    there = set(archive.namelist())
    for kind, path in outline.links:
        if kind in ("worksheet", "sharedStrings", "styles") and path not in there:
            raise BookError(
                f"the book's part {path} is missing",
                "take a whole copy, or open it in a spreadsheet program and save it anew",
            )


def _read_sheet(
    archive: zipfile.ZipFile, outline: _Outline, styles: Styles, texts: list[str], number: int
) -> Sheet:
    """One sheet by its place in the outline; texts: those that cells share."""
    at, title, state, path = outline.sheets[number]
    cells: dict[tuple[int, int], Cell] = {}
    struck: list[tuple[int, int]] = []
    with archive.open(path) as source:
        parser = _BothParser(
            source,
            texts,
            epoch=outline.epoch,
            date_formats=styles.dates,
            timedelta_formats=styles.durations,
        )
        for row in parser.rows(archive.getinfo(path).file_size):
            for place, style, cell in row:
                if cell is not None:
                    cells[place] = cell
                    if style in styles.struck:
                        struck.append(place)
    return Sheet(
        title,
        cells,
        dict(outline.names.get(at, {})),
        dict(_tables(archive, path, parser)),
        merged=_merged(parser),
        struck=frozenset(struck),
        hidden_rows=frozenset(int(row) for row, a in parser.row_dimensions.items() if _hidden(a)),
        hidden_columns=frozenset(_hidden_columns(parser)),
        hidden=state != "visible",
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
    bounds = [range_boundaries(ref) for ref in parser.merged]
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
        return _typed(value)
    return Cell(value, str(content).removeprefix("="))


def _typed(value: object) -> Cell | None:
    """A cell without a formula, None where it looks empty, as with a text of spaces."""
    if value is None or (isinstance(value, str) and not value.strip()):
        return None
    return Cell(bounded(value))


def read_openxml(data: bytes) -> tuple[tuple[Sheet, ...], dict[str, str], bool]:
    """The sheets and the book's own names of a workbook archive; whether days count from 1904.

    data: the archive, in the namespaces of Transitional. Raises BookError where a part is
    missing, and what openpyxl raises where parts do not fit together.
    """
    with warnings.catch_warnings():
        # openpyxl warns of parts that it cannot keep when it saves; nothing is saved here.
        warnings.simplefilter("ignore")
        # Of what openpyxl.load_workbook does, the steps that cells depend on.
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            path = _workbook_path(archive.read("[Content_Types].xml"))
            relations: str = get_rels_path(path)  # type: ignore[no-untyped-call]
            outline = _outline(path, archive.read(path), archive.read(relations))
            _require_parts(archive, outline)
            texts = read_texts(archive, outline.path_of("sharedStrings"))
            styled = outline.path_of("styles")
            styles = read_styles(archive.read(styled)) if styled else Styles()
            sheets = tuple(
                _read_sheet(archive, outline, styles, texts, number)
                for number in range(len(outline.sheets))
            )
    if outline.full_calculation:
        sheets = _without_placeholders(sheets)
    return sheets, dict(outline.names.get("global", {})), outline.epoch == CALENDAR_MAC_1904


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

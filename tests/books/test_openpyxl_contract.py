"""What the reader of .xlsx books rests on inside openpyxl, part by part.

None of it is promised by openpyxl, and a new version may do without. A failure here names the
part and what books would lose; the module that rests on it is books/openxml.py, and no other.
"""

import ast
import importlib
import inspect
import io
import zipfile
from pathlib import Path
from types import SimpleNamespace

import pytest
import xlsxwriter
from each_case import each
from openpyxl.packaging.manifest import Manifest
from openpyxl.reader import excel
from openpyxl.reader.strings import read_string_table
from openpyxl.reader.workbook import WorkbookParser
from openpyxl.utils.datetime import CALENDAR_MAC_1904, WINDOWS_EPOCH
from openpyxl.workbook.defined_name import DefinedNameList
from openpyxl.worksheet import _reader
from openpyxl.xml.constants import SHEET_MAIN_NS
from openpyxl.xml.functions import fromstring

from workbook_tools.books import openxml, shared_parts

# Where it stands, its name, and what no book could be read for without it.
RESTS_ON = [
    ("openpyxl.reader.excel", "_find_workbook_part", "any book: which part is the workbook"),
    ("openpyxl.reader.workbook", "WorkbookParser.parse", "sheets, names, the start of days"),
    ("openpyxl.reader.workbook", "WorkbookParser.rels", "which part holds which sheet"),
    ("openpyxl.reader.workbook", "WorkbookParser.find_sheets", "sheets in their order"),
    ("openpyxl.worksheet._reader", "WorkSheetParser.parse_row", "rows, and which are hidden"),
    ("openpyxl.worksheet._reader", "WorkSheetParser.parse_cell", "saved values"),
    ("openpyxl.worksheet._reader", "WorkSheetParser.parse_formula", "formulas, shared ones too"),
    (
        "openpyxl.worksheet._reader",
        "WorkSheetParser.parse_column_dimensions",
        "which columns are hidden",
    ),
    (
        "openpyxl.worksheet._reader",
        "WorkSheetParser.parse_sheet_protection",
        "whether a sheet is protected",
    ),
    ("openpyxl.worksheet._reader", "COL_TAG", "which columns are hidden"),
    ("openpyxl.worksheet._reader", "FORMULA_TAG", "formulas"),
    ("openpyxl.worksheet._reader", "MERGE_TAG", "merged cells"),
    ("openpyxl.worksheet._reader", "PROT_TAG", "whether a sheet is protected"),
    ("openpyxl.worksheet._reader", "ROW_TAG", "any cell"),
    ("openpyxl.worksheet._reader", "TABLE_TAG", "tables: references to their columns"),
]


@each(("module", "name", "lost"), RESTS_ON)
def test_openpyxl_has_the_part(module, name, lost):
    found = importlib.import_module(module)
    for step in name.split("."):
        assert hasattr(found, step), f"openpyxl has no {module}.{name}; lost: {lost}"
        found = getattr(found, step)


def private_imports(path):
    """(module, name) of what a module takes from openpyxl's readers and private modules."""
    return {
        (node.module, alias.name)
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("openpyxl")
        for alias in node.names
        if node.module.startswith("openpyxl.reader") or "._" in f"{node.module}.{alias.name}"
    }


def test_one_module_rests_on_private_parts_and_only_on_those_named_here():
    package = Path(openxml.__file__).parents[1]
    takes = {p: private_imports(p) for p in package.rglob("*.py") if private_imports(p)}
    assert [p.name for p in takes] == ["openxml.py"]
    named = {(module, name.split(".")[0]) for module, name, _ in RESTS_ON}
    assert takes[Path(openxml.__file__)] == named


@pytest.fixture(scope="module")
def book():
    """A book with one of each thing that the reader takes from those parts."""
    target = io.BytesIO()
    with xlsxwriter.Workbook(target, {"in_memory": True, "date_1904": True}) as made:
        sheet = made.add_worksheet("Deck")
        sheet.write_row(0, 0, ["Deck clearance", 0.006])
        sheet.set_row(2, None, None, {"hidden": True})
        sheet.set_column(3, 4, None, None, {"hidden": True})
        made.add_worksheet("Notes")
        made.define_name("deck", "=Deck!$B$1")
        made.define_name("Notes!own", "=Notes!$A$1")
    return target.getvalue()


def workbook_parser(book):
    """openpyxl's parser of a workbook with the attributes that the reader gives it."""
    archive = zipfile.ZipFile(io.BytesIO(book))
    types = fromstring(archive.read("[Content_Types].xml"))
    path = excel._find_workbook_part(Manifest.from_tree(types)).PartName
    parser = WorkbookParser.__new__(WorkbookParser)
    parser.archive, parser.workbook_part_name = archive, path.removeprefix("/")
    parser.keep_links, parser.defined_names = False, DefinedNameList()
    parser.wb = SimpleNamespace(epoch=WINDOWS_EPOCH)
    parser.parse()
    return path, parser


def test_the_manifest_says_which_part_is_the_workbook(book):
    path, _ = workbook_parser(book)
    assert path == "/xl/workbook.xml"


def test_the_workbook_is_parsed_without_a_new_one_to_fill(book):
    _, parser = workbook_parser(book)
    sheets = [(listed.name, listed.state, link.target) for listed, link in parser.find_sheets()]
    assert sheets == [
        ("Deck", "visible", "xl/worksheets/sheet1.xml"),
        ("Notes", "visible", "xl/worksheets/sheet2.xml"),
    ]
    assert parser.wb.epoch == CALENDAR_MAC_1904
    assert parser.wb.calculation.fullCalcOnLoad is True
    names = parser.defined_names.by_sheet()
    assert names["global"]["deck"].attr_text == "Deck!$B$1"
    assert names[1]["own"].attr_text == "Notes!$A$1"
    kinds = {link.Type.rpartition("/")[2] for link in parser.rels.values()}
    assert kinds >= {"worksheet", "sharedStrings", "styles"}


TEXTS = {
    "plain": ("<t>Deck  clearance</t>", "Deck  clearance"),
    "spaces around": ('<t xml:space="preserve"> deck </t>', " deck "),
    "nothing": ("<t/>", ""),
    "in two fonts": ("<r><t>Deck </t></r><r><rPr><b/></rPr><t>clearance</t></r>", "Deck clearance"),
    "escaped": ("<t>_x005F_x0041_</t>", "_x0041_"),
    "with its reading": ('<t>head</t><rPh sb="0" eb="1"><t>h</t></rPh>', "head"),
}


def test_shared_texts_are_what_openpyxl_reads(tmp_path):
    items = "".join(f"<si>{xml}</si>" for xml, _ in TEXTS.values())
    part = f'<sst xmlns="{SHEET_MAIN_NS}">{items}</sst>'
    with zipfile.ZipFile(tmp_path / "texts.zip", "w") as archive:
        archive.writestr("texts.xml", part)
        read = shared_parts.read_texts(archive, "texts.xml")
    assert read == read_string_table(io.BytesIO(part.encode()))
    assert read == [text for _, text in TEXTS.values()]


def sheet_parser(**more):
    return _reader.WorkSheetParser(io.BytesIO(), ["Deck"], data_only=True, **more)


def element(tag, xml):
    made = fromstring(f'<{tag} xmlns="{SHEET_MAIN_NS}" {xml}')
    assert made.tag == f"{{{SHEET_MAIN_NS}}}{tag}"
    return made


CELLS = {
    "number": ('r="B3"><v>0.006</v></c>', 0.006, "n"),
    "text": ('r="B3" t="s"><v>0</v></c>', "Deck", "s"),
    "own text": ('r="B3" t="inlineStr"><is><t>deck</t></is></c>', "deck", "s"),
    "yes": ('r="B3" t="b"><v>1</v></c>', True, "b"),
    "error": ('r="B3" t="e"><v>#REF!</v></c>', "#REF!", "e"),
    "formula": ('r="B3"><f>A1+1</f><v>2</v></c>', 2, "n"),
    "formula with a text": ('r="B3" t="str"><f>A1</f><v>ok</v></c>', "ok", "s"),
    "formula with no text": ('r="B3" t="str"><f>A1</f><v></v></c>', None, "str"),
}


@pytest.mark.parametrize("kind", CELLS)
def test_a_cell_is_parsed_to_its_saved_value(kind):
    xml, value, data_type = CELLS[kind]
    cell = sheet_parser().parse_cell(element("c", xml))
    assert (cell["row"], cell["column"]) == (3, 2)
    assert (cell["value"], cell["data_type"], cell["style_id"]) == (value, data_type, 0)


@pytest.mark.parametrize("kind", CELLS)
def test_a_common_cell_is_read_as_any_cell(kind):
    made = element("c", CELLS[kind][0])
    parser = openxml._BothParser(io.BytesIO(), ["Deck"], data_only=True)
    common = parser._common_cell(made)
    assert common is None or common == parser._any_cell(made)
    assert parser.parse_cell(made) == parser._any_cell(made)


@pytest.mark.parametrize("size", [0, openxml.MOST_AT_ONCE + 1])
def test_a_sheet_is_read_alike_at_once_and_row_by_row(size):
    sheet = (
        f'<worksheet xmlns="{SHEET_MAIN_NS}"><cols><col min="2" max="2" hidden="1"/></cols>'
        '<sheetData><row r="2" hidden="1"><c r="A2"><v>1</v></c><c t="s"><v>0</v></c></row>'
        '<row><c><f>A2*2</f><v>2</v></c></row></sheetData><sheetProtection sheet="1"/>'
        '<mergeCells count="1"><mergeCell ref="A5:B6"/></mergeCells></worksheet>'
    )
    parser = openxml._BothParser(io.BytesIO(sheet.encode()), ["Deck"], data_only=True)
    cells = {at: cell for row in parser.rows(size) for at, _, cell in row}
    assert cells == {(2, 1): (1, "", ""), (2, 2): ("Deck", "", ""), (3, 1): (2, "A2*2", "")}
    assert openxml._merged(parser) == {(5, 1): (6, 2)}
    assert [*openxml._hidden_columns(parser)] == [2]
    assert list(parser.row_dimensions) == ["2"]
    assert parser.protection.sheet is True


def test_a_number_in_the_style_of_a_date_is_one():
    parser = sheet_parser(epoch=WINDOWS_EPOCH, date_formats={2}, timedelta_formats=set())
    cell = parser.parse_cell(element("c", 'r="A1" s="2"><v>46298</v></c>'))
    assert (cell["value"].isoformat(), cell["style_id"]) == ("2026-10-03T00:00:00", 2)


def test_rows_and_cells_without_a_place_follow_the_ones_before():
    parser = sheet_parser()
    row, cells = parser.parse_row(
        element("row", 'r="4"><c r="B4"><v>1</v></c><c><v>2</v></c></row>')
    )
    assert (row, [(c["row"], c["column"]) for c in cells]) == (4, [(4, 2), (4, 3)])
    row, cells = parser.parse_row(element("row", 'hidden="1"><c><v>3</v></c></row>'))
    assert (row, [(c["row"], c["column"]) for c in cells]) == (5, [(5, 1)])
    assert list(parser.row_dimensions) == ["5"]
    assert parser.row_dimensions["5"]["hidden"] == "1"


def test_formulas_of_every_kind_are_parsed():
    parser = sheet_parser()

    def formula(xml):
        return parser.parse_formula(element("c", xml))

    assert formula('r="B1"><f>A1+1</f></c>') == "=A1+1"
    assert formula('r="C1"><f t="shared" ref="C1:C2" si="0">A1*2</f></c>') == "=A1*2"
    assert formula('r="C2"><f t="shared" si="0"/></c>') == "=A2*2"
    array = formula('r="D1"><f t="array" ref="D1:D2">A1:A2</f></c>')
    assert (array.ref, array.text) == ("D1:D2", "=A1:A2")
    table = formula('r="E1"><f t="dataTable" ref="E1:E2" r1="A1"/></c>')
    assert type(table).__name__ == "DataTableFormula"


def test_columns_and_protection_are_kept_where_the_reader_looks():
    parser = sheet_parser()
    assert not parser.merged_cells
    assert not parser.tables.tablePart
    assert getattr(parser, "protection", None) is None
    parser.parse_column_dimensions(element("col", 'min="4" max="5" hidden="1"/>'))
    (column,) = parser.column_dimensions.values()
    assert (column["min"], column["max"], column["hidden"]) == ("4", "5", "1")
    parser.parse_sheet_protection(element("sheetProtection", 'sheet="1"/>'))
    assert parser.protection.sheet is True


def test_the_parser_goes_through_rows_and_cells_by_the_methods_that_are_overridden():
    # The reader overrides parse_cell, and parse_row must call it.
    class Marking(_reader.WorkSheetParser):
        def parse_cell(self, found):
            return {**super().parse_cell(found), "mark": True}

    parser = Marking(io.BytesIO(), [])
    _, cells = parser.parse_row(element("row", "><c><v>1</v></c></row>"))
    assert cells[0]["mark"]
    assert parser.source is not None
    assert {"epoch", "date_formats", "timedelta_formats"} <= set(
        inspect.signature(_reader.WorkSheetParser).parameters
    )

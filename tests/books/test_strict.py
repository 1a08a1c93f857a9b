"""Books in the namespaces of ISO/IEC 29500 Strict are read as those of Transitional are.

The Strict books are made from Transitional ones by the differences that the standard lists:
the namespaces of ISO/IEC 29500-1 for those of ISO/IEC 29500-4, relationship types among them,
and dates as ISO 8601 texts in cells of type "d" (ISO/IEC 29500-1, 18.18.11).
"""

import datetime
import io
import re
import zipfile
from dataclasses import asdict
from pathlib import Path

import openpyxl
import pytest
from openpyxl.styles import Font
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.table import Table

from workbook_tools.books.opening import read_cells
from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book

EXAMPLES = Path(__file__).parents[2] / "example_books"
NAMESPACES = {
    b"http://schemas.openxmlformats.org/spreadsheetml/2006/main": b"http://purl.oclc.org/ooxml/spreadsheetml/main",
    b"http://schemas.openxmlformats.org/officeDocument/2006/relationships": b"http://purl.oclc.org/ooxml/officeDocument/relationships",
    b"http://schemas.openxmlformats.org/drawingml/2006/": b"http://purl.oclc.org/ooxml/drawingml/",
}  # fmt: skip


def strict(content, change=lambda _, part: part):
    """The bytes of a Transitional book as a Strict one; change: what else, of (name, part)."""
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as source, zipfile.ZipFile(made, "w") as target:
        for name in source.namelist():
            part = source.read(name)
            for transitional, own in NAMESPACES.items():
                part = part.replace(transitional, own)
            if name == "xl/workbook.xml":
                part = part.replace(b"<workbook ", b'<workbook conformance="strict" ', 1)
            target.writestr(name, change(name, part))
    return made.getvalue()


def a_book():
    workbook = openpyxl.Workbook()
    sheet = workbook.active
    sheet.title = "Deck"
    sheet.append(["Job no.", "26-101"])
    sheet.append(["Deck clearance (in)", 0.006])
    sheet.append(["Gasket (in)", 0.038])
    sheet.append(["Quench", "=ENG.QUENCH(deck,B3)"])
    sheet.append(["Finished", datetime.datetime(2026, 10, 3)])
    sheet.append(["Struck", 1.5, True])
    sheet["B6"].font = Font(strike=True)
    sheet.merge_cells("C1:D1")
    sheet.row_dimensions[3].hidden = True
    sheet.column_dimensions["F"].hidden = True
    sheet.append(["Ring", "Gap"])
    sheet.append(["top", 0.018])
    sheet.add_table(Table(displayName="Gaps", ref="A7:B8"))
    workbook.create_sheet("Away").sheet_state = "hidden"
    workbook.defined_names["deck"] = DefinedName("deck", attr_text="Deck!$B$2")
    made = io.BytesIO()
    workbook.save(made)
    return made.getvalue()


@pytest.fixture
def both(tmp_path):
    def write(content, change=lambda _, part: part):
        paths = tmp_path / "transitional.xlsx", tmp_path / "strict.xlsx"
        for path, made in zip(paths, (content, strict(content, change)), strict=True):
            path.write_bytes(made)
        return paths

    return write


def test_cells_names_tables_and_what_is_hidden_are_the_same(both):
    transitional, own = (read_cells(path) for path in both(a_book()))
    assert [*map(asdict, own.sheets)] == [*map(asdict, transitional.sheets)]
    assert own.names == transitional.names == {"deck": "Deck!$B$2"}
    deck = own.sheets[0]
    assert deck.cells[2, 1].value == "Deck clearance (in)"
    assert deck.cells[4, 2].formula == "ENG.QUENCH(deck,B3)"
    assert deck.cells[5, 2].value == datetime.datetime(2026, 10, 3)
    assert deck.struck == {(6, 2)}
    assert deck.merged == {(1, 3): (1, 4)}
    assert (deck.hidden_rows, deck.hidden_columns) == ({3}, {6})
    assert set(deck.tables) == {"gaps"}
    assert own.sheets[1].hidden


@pytest.mark.parametrize("name", ["inch_v8.xlsx", "flat_twin.xlsx", "metric_inline_four.xlsx"])
def test_records_and_findings_are_those_of_the_transitional_book(both, name):
    transitional, own = (read_book(path) for path in both((EXAMPLES / name).read_bytes()))
    assert own.records == transitional.records
    assert own.job == transitional.job
    assert [f.message for f in check(own)] == [f.message for f in check(transitional)]
    assert own.records


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("2026-10-03", datetime.datetime(2026, 10, 3)),
        ("2026-10-03T14:30:00", datetime.datetime(2026, 10, 3, 14, 30)),
        ("2026-10-03T14:30:00.250Z", datetime.datetime(2026, 10, 3, 14, 30, 0, 250_000)),
        ("14:30:00", datetime.time(14, 30)),
        ("in October", "in October"),
        ("2026-13-41", "2026-13-41"),
    ],
)
def test_dates_in_iso_8601_are_dates(both, text, value):
    dated = re.compile(rb'<c r="B5"[^>]*><v>[^<]*</v></c>')
    cell = f'<c r="B5" s="1" t="d"><v>{text}</v></c>'.encode()

    def change(name, part):
        return dated.sub(cell, part) if name.endswith("sheet1.xml") else part

    assert read_cells(both(a_book(), change)[1]).sheets[0].cells[5, 2].value == value


def test_a_date_cell_with_a_formula_has_both(both):
    dated = re.compile(rb'<c r="B5"[^>]*><v>[^<]*</v></c>')
    cell = b'<c r="B5" t="d"><f>TODAY()</f><v>2026-10-03</v></c>'

    def change(name, part):
        return dated.sub(cell, part) if name.endswith("sheet1.xml") else part

    found = read_cells(both(a_book(), change)[1]).sheets[0].cells[5, 2]
    assert (found.value, found.formula) == (datetime.datetime(2026, 10, 3), "TODAY()")


def test_a_large_strict_sheet_is_rid_of_its_blank_cells_and_read(both):
    blank = b"".join(b'<row r="%d"><c r="A%d" s="1"/></row>' % (n, n) for n in range(20, 80_000))

    def change(name, part):
        return part.replace(b"</sheetData>", blank + b"</sheetData>") if "sheet1" in name else part

    transitional, own = both(a_book(), change)
    assert read_cells(own).sheets[0].cells == read_cells(transitional).sheets[0].cells


def test_styles_are_found_where_the_book_says_they_are(tmp_path):
    """Not only at their usual name: dates would be plain numbers."""
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(a_book())) as source, zipfile.ZipFile(made, "w") as target:
        for name in source.namelist():
            part = source.read(name).replace(b"styles.xml", b"looks.xml")
            target.writestr(name.replace("styles.xml", "looks.xml"), part)
    path = tmp_path / "book.xlsx"
    path.write_bytes(made.getvalue())
    assert read_cells(path).sheets[0].cells[5, 2].value == datetime.datetime(2026, 10, 3)

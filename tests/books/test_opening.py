"""Files that are no books, or broken ones, are refused with one line that says what to do."""

import datetime
import io
import os
import zipfile

import openpyxl
import pytest
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.formula import ArrayFormula

from workbook_tools.books.cells import BookError
from workbook_tools.books.folder import find_books
from workbook_tools.books.opening import read_cells
from workbook_tools.catalog import CellError


def saved(tmp_path, workbook, name="book.xlsx"):
    path = tmp_path / name
    workbook.save(path)
    return path


def test_cells_formulas_and_names(tmp_path):
    workbook = openpyxl.Workbook()
    sheet = workbook.active
    sheet.title = "Deck sheet"
    sheet["A1"], sheet["B1"] = "Job", "24-017"
    sheet["B2"] = datetime.datetime(2026, 10, 3)
    sheet["B3"] = "=ENG.QUENCH(A3,2)"
    sheet["C3"] = ArrayFormula("C3:D3", "=ENG.QUENCH(A3:B3,2)")
    sheet["A4"] = "#VALUE!"
    workbook.defined_names["Job_Number"] = DefinedName("Job_Number", attr_text="'Deck sheet'!$B$1")
    book = read_cells(saved(tmp_path, workbook))
    (read,) = book.sheets
    assert read.cells[1, 2].value == "24-017"
    assert read.cells[2, 2].value == datetime.datetime(2026, 10, 3)
    assert (read.cells[3, 2].formula, read.cells[3, 2].value) == ("ENG.QUENCH(A3,2)", None)
    assert read.cells[3, 3].area == "C3:D3"
    assert read.cells[4, 1].value == CellError("#VALUE!")
    assert book.names == {"job_number": "'Deck sheet'!$B$1"}
    assert len(book.sha256) == 64


def test_reading_leaves_the_file_as_it_was(tmp_path):
    workbook = openpyxl.Workbook()
    workbook.active["A1"] = 4.03
    path = saved(tmp_path, workbook)
    os.utime(path, ns=(1_000_000_000, 1_000_000_000))
    before = path.read_bytes(), path.stat().st_mtime_ns
    path.chmod(0o444)
    read_cells(path)
    assert (path.read_bytes(), path.stat().st_mtime_ns) == before


def refused(path):
    with pytest.raises(BookError) as caught:
        read_cells(path)
    return caught.value


def archive(**parts):
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as target:
        for name, content in parts.items():
            target.writestr(name.replace("__", "/"), content)
    return data.getvalue()


OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"


@pytest.mark.parametrize(
    ("content", "message", "advice"),
    [
        (b"", "the file is empty", "whole copy"),
        (b"bore,stroke\n4,3.5\n", "not a workbook", ".xlsx"),
        (b"<html><table></table></html>", "not a workbook", ".xlsx"),
        (OLE + bytes(600), "old .xls book", "install LibreOffice, through which it is read"),
        (
            OLE + bytes(600) + "EncryptedPackage".encode("utf-16-le"),
            "password",
            "without a password",
        ),
        (archive(**{"a.txt": "x"}), "an archive but not a workbook", ".xlsx"),
        (archive(**{"xl__workbook.bin": "x", "[Content_Types].xml": ""}), ".xlsb", ".xlsx"),
        (archive(**{"[Content_Types].xml": "<Types/>"}), "do not fit together", "save it anew"),
    ],
    ids=["empty", "csv", "html", "xls", "locked", "zip", "xlsb", "hollow"],
)
def test_what_is_no_book_is_named(tmp_path, content, message, advice):
    path = tmp_path / "book.xlsx"
    path.write_bytes(content)
    error = refused(path)
    assert message in error.message
    assert advice in error.advice


def test_a_book_that_was_cut_off(tmp_path):
    path = saved(tmp_path, openpyxl.Workbook())
    path.write_bytes(path.read_bytes()[:-200])
    assert "damaged or cut off" in refused(path).message


def test_a_part_that_was_garbled(tmp_path):
    path = saved(tmp_path, openpyxl.Workbook())
    data = bytearray(path.read_bytes())
    with zipfile.ZipFile(path) as source:
        start = source.getinfo("xl/worksheets/sheet1.xml").header_offset + 60
    data[start : start + 40] = bytes(40)
    path.write_bytes(bytes(data))
    error = refused(path)
    assert "damaged" in error.message or "fit together" in error.message


def test_an_archive_that_unpacks_beyond_reason(tmp_path):
    path = tmp_path / "book.xlsx"
    path.write_bytes(archive(**{"[Content_Types].xml": "x", "xl__big.xml": " " * 80_000_000}))
    assert "unpack to 80 MB" in refused(path).message


def test_a_part_that_declares_entities_is_refused(tmp_path):
    path = saved(tmp_path, openpyxl.Workbook())
    changed = tmp_path / "bomb.xlsx"
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(changed, "w") as target:
        for item in source.infolist():
            content = source.read(item)
            if item.filename.endswith("sheet1.xml"):
                content = b'<!DOCTYPE a [<!ENTITY b "c"><!ENTITY d "&b;&b;">]>' + content
            target.writestr(item, content)
    assert "sheet1.xml declares a document type" in refused(changed).message


def test_missing_file_says_so(tmp_path):
    assert "cannot be opened" in refused(tmp_path / "none.xlsx").message


@pytest.mark.slow
def test_a_million_formatted_blank_rows_cost_little(tmp_path):
    """The blank cells of a formatted sheet are dropped before any is made an object."""
    path = saved(tmp_path, openpyxl.Workbook())
    blank = "".join(
        f'<row r="{r}" s="1" customFormat="1"><c r="A{r}" s="1"/><c r="B{r}" s="1"/></row>'
        for r in range(2, 1_000_000)
    )
    part = (
        '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>'
        '<row r="1"><c r="A1"><v>4.03</v></c></row>' + blank + '<row r="1000000">'
        '<c r="B1000000"><v>7</v></c></row></sheetData></worksheet>'
    )
    changed = tmp_path / "blank.xlsx"
    with (
        zipfile.ZipFile(path) as source,
        zipfile.ZipFile(changed, "w", zipfile.ZIP_DEFLATED) as target,
    ):
        for item in source.infolist():
            content = part if item.filename.endswith("sheet1.xml") else source.read(item)
            target.writestr(item, content)
    (sheet,) = read_cells(changed).sheets
    assert {place: cell.value for place, cell in sheet.cells.items()} == {
        (1, 1): 4.03,
        (1_000_000, 2): 7,
    }


def test_folders_are_searched_and_lock_files_left_aside(tmp_path):
    (tmp_path / "october").mkdir()
    for name in ("a.xlsx", "october/b.XLSM", "old.xls", "~$a.xlsx", ".~lock.a.xlsx#", "note.txt"):
        (tmp_path / name).write_bytes(b"x")
    found = find_books([tmp_path, tmp_path / "a.xlsx"])
    assert [p.name for p in found.books] == ["a.xlsx", "b.XLSM", "old.xls"]
    assert {(p.name, why.split(":")[0]) for p, why in found.left_aside} == {
        ("~$a.xlsx", "a lock file"),
        (".~lock.a.xlsx#", "a lock file"),
    }
    with pytest.raises(FileNotFoundError):
        find_books([tmp_path / "none"])

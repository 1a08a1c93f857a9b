"""Archives that readers take differently, or that unfold to any size: refused with the reason."""

import io
import re
import warnings
import zipfile

import pytest
from craft import SHEET, archive, good_book, good_ods, parts, with_cell, with_part

from workbook_tools.books import parts as book_parts
from workbook_tools.books.cells import BookError
from workbook_tools.books.opening import read_cells


@pytest.fixture
def book(tmp_path):
    def write(content, name="book.xlsx"):
        path = tmp_path / name
        path.write_bytes(content)
        return path

    return write


def appended(content, name, part):
    made = io.BytesIO(content)
    with zipfile.ZipFile(made, "a") as opened, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        opened.writestr(name, part)
    return made.getvalue()


STRINGS = "xl/sharedStrings.xml"


@pytest.mark.parametrize("name", [SHEET, STRINGS, SHEET.upper(), SHEET.replace("/", "\\")])
def test_a_part_that_is_there_twice_is_refused(book, name):
    other = parts(good_book())[STRINGS if name == STRINGS else SHEET].replace(b"0.006", b"0.060")
    with pytest.raises(BookError, match=r"holds its part .* twice"):
        read_cells(book(appended(good_book(), name, other)))


def test_the_content_of_an_ods_that_is_there_twice_is_refused(book):
    with pytest.raises(BookError, match=r"holds its part content\.xml twice"):
        read_cells(book(appended(good_ods(), "content.xml", b"<a/>"), "book.ods"))


@pytest.mark.parametrize("method", [zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_a_part_that_is_packed_as_no_program_packs_it_is_refused(book, method):
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", method) as target:
        for name, part in parts(good_book()).items():
            target.writestr(name, part)
    with pytest.raises(BookError, match="packed in an unusual way"):
        read_cells(book(made.getvalue()))


@pytest.mark.parametrize("before", [4_000, 70_000, 300_000])
def test_a_document_type_after_a_long_comment_is_found(book, before):
    # Elements in the comment, so that its head looks like a part's.
    hidden = b"<!--" + b"<a> " * (before // 4) + b"--><!DOCTYPE a [<!ENTITY e 'x'>]>"
    declaration = re.compile(rb"<\?xml.*?\?>\s*")
    made = with_part(
        good_book(), SHEET, lambda xml: declaration.sub(lambda m: m[0] + hidden, xml, count=1)
    )
    with pytest.raises(BookError, match=r"sheet1\.xml declares a document type"):
        read_cells(book(made))


@pytest.mark.parametrize("name", [SHEET, STRINGS, "xl/workbook.xml", "xl/styles.xml"])
def test_elements_deep_within_one_another_are_refused_before_they_are_parsed(
    book, name, monkeypatch
):
    def never(*_, **__):
        raise AssertionError("a part was parsed")

    monkeypatch.setattr("workbook_tools.books.opening.read_openxml", never)
    deep = b"<a>" * 300_000 + b"</a>" * 300_000
    made = with_part(good_book(), name, lambda xml: re.sub(rb"(</\w+>)\s*$", deep + rb"\1", xml))
    with pytest.raises(BookError, match=f"{name} has more than 256 elements within one another"):
        read_cells(book(made))


def test_a_part_as_deep_as_is_allowed_is_read(book):
    inside = book_parts.DEEPEST - 4  # Worksheet, sheetData, row and cell stand around it.
    for depth, fits in ((inside, True), (inside + 1, False)):
        made = with_cell(good_book(), b'<c r="B40">' + b"<a>" * depth + b"</a>" * depth + b"</c>")
        if fits:
            assert read_cells(book(made)).sheets[0].cells[6, 2].formula
        else:
            with pytest.raises(BookError, match="within one another"):
                read_cells(book(made))


def test_the_kind_of_an_ods_is_not_unpacked_to_see_what_it_is(book):
    made = archive({**parts(good_ods()), "mimetype": b" " * 60_000_000})
    assert len(made) < 100_000
    with pytest.raises(BookError, match="would unpack to 60 MB"):
        read_cells(book(made, "book.ods"))
    made = archive({**parts(good_ods()), "mimetype": b" " * 40_000_000})
    with pytest.raises(BookError, match="an archive but not a workbook"):
        read_cells(book(made, "book.ods"))


NUMBER = b'<table:table-cell office:value-type="float" office:value="1" %s/>'
ACROSS = NUMBER % b'table:number-columns-repeated="2000"' * 1_000
DOWN = b'<table:table-row table:number-rows-repeated="2000">' + NUMBER % b"" + b"</table:table-row>"


@pytest.mark.parametrize(
    "row",
    [b"<table:table-row>" + ACROSS + b"</table:table-row>", DOWN * 1_000],
    ids=["cells", "rows"],
)
def test_an_ods_that_repeats_its_cells_without_end_is_refused(book, row, monkeypatch):
    monkeypatch.setattr("workbook_tools.books.opendocument._MOST_CELLS", 50_000)
    end = b"</table:table>"
    made = with_part(good_ods(), "content.xml", lambda xml: xml.replace(end, row + end))
    assert len(made) < 20_000
    with pytest.raises(BookError, match="repeats its cells more than 50,000 times"):
        read_cells(book(made, "book.ods"))


def test_hidden_rows_of_an_ods_end_where_a_sheet_does(book):
    hidden = (
        b'<table:table-row table:visibility="collapse" table:number-rows-repeated="2000">'
        b"<table:table-cell/></table:table-row>"
    )
    end = b"</table:table>"
    made = with_part(good_ods(), "content.xml", lambda xml: xml.replace(end, hidden * 2_000 + end))
    (sheet,) = read_cells(book(made, "book.ods")).sheets
    assert len(sheet.hidden_rows) == 1_048_576 - 4
    assert max(sheet.hidden_rows) == 1_048_576


@pytest.mark.parametrize("name", [SHEET, STRINGS, "xl/styles.xml"])
def test_a_part_that_is_named_and_missing_is_told_of(book, name):
    named = parts(good_book())
    del named[name]
    with pytest.raises(BookError, match=f"the book's part {name} is missing; take a whole copy"):
        read_cells(book(archive(named)))
    # Nor does it help that the list of the parts no longer has it.
    types = "[Content_Types].xml"
    named[types] = re.sub(rb'<Override PartName="/%s"[^>]*>' % name.encode(), b"", named[types])
    with pytest.raises(BookError, match=f"the book's part {name} is missing"):
        read_cells(book(archive(named)))


def test_a_sheet_in_another_namespace_is_refused(book):
    made = with_part(
        good_book(), SHEET, lambda xml: xml.replace(b"spreadsheetml/2006/main", b"other", 1)
    )
    with pytest.raises(BookError, match="expected a worksheet of SpreadsheetML"):
        read_cells(book(made))


def test_a_book_without_a_cell_is_refused(book):
    cells = re.compile(rb"<sheetData>.*</sheetData>", re.DOTALL)
    made = with_part(good_book(), SHEET, lambda xml: cells.sub(b"<sheetData/>", xml))
    with pytest.raises(BookError, match="no filled cell was found on any sheet"):
        read_cells(book(made))


def test_a_book_without_a_sheet_is_refused(book):
    made = with_part(
        good_book(), "xl/workbook.xml", lambda xml: re.sub(rb"<sheet [^>]*/>", b"", xml)
    )
    with pytest.raises(BookError, match="the book has no worksheet"):
        read_cells(book(made))
    end = rb"<table:table .*</table:table>"
    made = with_part(good_ods(), "content.xml", lambda xml: re.sub(end, b"", xml, flags=re.DOTALL))
    with pytest.raises(BookError, match="the book has no worksheet"):
        read_cells(book(made, "book.ods"))

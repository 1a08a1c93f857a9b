"""An .ods book, annotated: what is added to content.xml, and that all else stays."""

import re
import zipfile

import openpyxl
import pytest
from test_annotated import FIRST, builders_book

from workbook_tools.annotate import annotate
from workbook_tools.annotate.open_document import open_formula
from workbook_tools.books.opendocument import formula_text
from workbook_tools.books.opening import read_cells
from workbook_tools.hosts.archive import EditError
from workbook_tools.jobs.read import read_book

CELLS = [f"D{row}" for row in range(FIRST, FIRST + 6)]


def parts(path):
    with zipfile.ZipFile(path) as package:
        return {name: package.read(name) for name in package.namelist()}


@pytest.mark.parametrize(
    ("text", "stored"),
    # OASIS OpenDocument 1.2 part 2, 5.8 (references), 5.13 (inline arrays), 6.2 (separators).
    [
        ("ENG.QUENCH('Left; bank'!$A$1,B2)", "ENG.QUENCH([$'Left; bank'.$A$1];[.B2])"),
        ("SUM('It''s'!B3:B9)*25.4", "SUM([$'It''s'.B3:.B9])*25.4"),
        ('IF(A1="a,b",{1,2;3,4},deck)', 'IF([.A1]="a,b";{1;2|3;4};deck)'),
    ],
)
def test_a_formula_is_spelled_as_openformula(text, stored):
    assert open_formula(text) == stored
    assert formula_text(f"of:={stored}") == text


@pytest.fixture(scope="module")
def book(recalculated, tmp_path_factory):
    """The builder's book as LibreOffice saves it, with a chart, a note and a list."""
    folder = tmp_path_factory.mktemp("open document")
    return recalculated(builders_book(folder / "book.xlsx"), "ods")


def test_only_the_content_changes_and_what_was_in_it_stays(book, tmp_path):
    annotate(book, tmp_path / "new.ods")
    before, after = parts(book), parts(tmp_path / "new.ods")
    assert {name for name in before if before[name] != after.get(name)} == {"content.xml"}
    assert list(before) == list(after)
    own = re.sub(
        rb'<table:table [^>]*table:name="ENG".*?</table:table>'
        rb"|<style:style [^>]*workbook-tools.*?</style:style>"
        rb"|<table:named-range [^>]*/>",
        b"",
        after["content.xml"],
    )
    empty = re.compile(rb"<table:named-expressions[^>]*(/>|></table:named-expressions>)")
    assert empty.sub(b"", own) == empty.sub(b"", before["content.xml"])
    with zipfile.ZipFile(tmp_path / "new.ods") as package:
        first = package.infolist()[0]
    # OASIS OpenDocument 1.2 part 3, 3.3: the first member, not compressed.
    assert (first.filename, first.compress_type) == ("mimetype", zipfile.ZIP_STORED)


def test_it_is_read_by_its_calls_and_names(book, tmp_path):
    report = annotate(book, tmp_path / "new.ods")
    assert report.names["engine"] == "'Build sheet'!$B$3"
    assert read_cells(tmp_path / "new.ods").names["engine"] == "'Build sheet'!$B$3"
    read = read_book(tmp_path / "new.ods")
    calls = [r for r in read.records if not r.computed_by_batch]
    assert len(calls) == 7
    assert {r.state for r in calls} == {"same"}
    assert read.job.number.text == "2207"


def test_calls_take_the_place_of_arithmetic(book, tmp_path):
    report = annotate(book, tmp_path / "new.ods", replace=True)
    assert [one.place.address for one in report.replaced] == CELLS
    before, after = (read_cells(path).sheets[0].cells for path in (book, tmp_path / "new.ods"))
    for row in range(FIRST, FIRST + 6):
        assert after[row, 4].formula == f"ENG.PISTON_CLEARANCE(B{row},C{row})"
    changed = {at for at in before if before[at] != after[at]}
    assert changed == {(row, 4) for row in range(FIRST, FIRST + 6)}


@pytest.mark.slow
def test_libreoffice_gives_the_same_values_before_and_after(book, recalculated, tmp_path):
    annotate(book, tmp_path / "new.ods", replace=True)
    before, after = (
        openpyxl.load_workbook(recalculated(path, "xlsx"), data_only=True)
        for path in (book, tmp_path / "new.ods")
    )
    for row in before["Build sheet"].iter_rows():
        for cell in row:
            old, new = cell.value, after["Build sheet"][cell.coordinate].value
            assert new == (pytest.approx(old, rel=1e-9) if isinstance(old, float) else old)
    told = [cell.value for cell in after["ENG"]["E"]]
    assert told.count("agrees") == 6
    assert set(after.defined_names) >= {"job_number", "customer", "engine"}


def test_what_cannot_be_done_says_what_to_do(book, tmp_path):
    with pytest.raises(EditError, match="Leave out --portable: in LibreOffice"):
        annotate(book, tmp_path / "new.ods", carry=True)
    annotate(book, tmp_path / "new.ods")
    with pytest.raises(EditError, match="has a sheet ENG already"):
        annotate(tmp_path / "new.ods", tmp_path / "again.ods")
    signed = tmp_path / "signed.ods"
    with zipfile.ZipFile(signed, "w") as package:
        for name, data in {**parts(book), "META-INF/documentsignatures.xml": b"<x/>"}.items():
            package.writestr(name, data)
    with pytest.raises(EditError, match="is signed"):
        annotate(signed, tmp_path / "other.ods")

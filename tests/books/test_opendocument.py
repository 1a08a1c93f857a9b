"""OpenDocument books: formulas as other files hold them, values of every type, names."""

import zipfile

import pytest

from workbook_tools.books.cells import BookError
from workbook_tools.books.opendocument import formula_text
from workbook_tools.books.opening import read_cells
from workbook_tools.catalog import CellError
from workbook_tools.jobs.read import read_book

NAMESPACES = (
    'xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
    'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" '
    'xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" '
    'xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0" '
    'xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0"'
)


@pytest.fixture
def make_ods(tmp_path):
    """make_ods(rows of XML, names) -> path of a book with one sheet, Deck, of the style ta1."""

    def make(rows, names="", manifest="<manifest/>", before="", styles=""):
        path = tmp_path / "book.ods"
        with zipfile.ZipFile(path, "w") as archive:
            archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
            archive.writestr("META-INF/manifest.xml", manifest)
            archive.writestr(
                "content.xml",
                f"{before}<office:document-content {NAMESPACES}>"
                f"<office:automatic-styles>{styles}</office:automatic-styles>"
                "<office:body><office:spreadsheet>"
                f'<table:table table:name="Deck" table:style-name="ta1">{rows}</table:table>{names}'
                "</office:spreadsheet></office:body></office:document-content>",
            )
        return path

    return make


@pytest.mark.parametrize(
    ("stored", "text"),
    [
        ("of:=ENG.QUENCH([.A1];[.B$2])", "ENG.QUENCH(A1,B$2)"),
        ("of:=ENG.QUENCH([$'Left; bank'.$A$1];0.04)", "ENG.QUENCH('Left; bank'!$A$1,0.04)"),
        ("of:=SUM([.A1:.B3];[$Deck.C1:.C9])", "SUM(A1:B3,Deck!C1:C9)"),
        ('of:=IF([.A1]="a;b";{1;2|3;4};"[.A1]")', 'IF(A1="a;b",{1,2;3,4},"[.A1]")'),
    ],
)
def test_openformula_becomes_the_text_of_other_files(stored, text):
    assert formula_text(stored) == text


def test_values_repeats_and_merged_cells(make_ods):
    rows = (
        '<table:table-row table:number-rows-repeated="2"><table:table-cell/></table:table-row>'
        "<table:table-row>"
        '<table:table-cell office:value-type="string" table:number-columns-spanned="2" '
        'table:number-rows-spanned="1"><text:p>Deck <text:span>clearance</text:span></text:p>'
        "</table:table-cell><table:covered-table-cell/>"
        '<table:table-cell office:value-type="float" office:value="0.004" '
        'table:number-columns-repeated="3"><text:p>0.004</text:p></table:table-cell>'
        '<table:table-cell office:value-type="date" office:date-value="2026-10-03"/>'
        '<table:table-cell office:value-type="boolean" office:boolean-value="true"/>'
        '<table:table-cell office:value-type="string" office:string-value="" '
        'calcext:value-type="error"><text:p>#VALUE!</text:p></table:table-cell>'
        "</table:table-row>"
        '<table:table-row table:number-rows-repeated="1048000"><table:table-cell '
        'table:number-columns-repeated="1024"/></table:table-row>'
    )
    (sheet,) = read_cells(make_ods(rows)).sheets
    values = {place: cell.value for place, cell in sheet.cells.items()}
    assert values[3, 1] == "Deck clearance"
    assert [values[3, c] for c in (3, 4, 5)] == [0.004] * 3
    assert values[3, 6].isoformat() == "2026-10-03T00:00:00"
    assert values[3, 7] is True
    assert values[3, 8] == CellError("#VALUE!")
    assert len(values) == 7
    assert sheet.merged == {(3, 1): (3, 2)}


def test_what_is_hidden_or_struck_through_is_known(make_ods):
    """OpenDocument 1.2 part 1: table:display, table:visibility, style:text-line-through-style."""
    styles = (
        '<style:style style:name="ta1" style:family="table">'
        '<style:table-properties table:display="false"/></style:style>'
        '<style:style style:name="ce1" style:family="table-cell">'
        '<style:text-properties style:text-line-through-style="solid"/></style:style>'
        '<style:style style:name="ce2" style:family="table-cell">'
        '<style:text-properties style:text-line-through-style="none"/></style:style>'
    )
    number = '<table:table-cell office:value-type="float" office:value="4" table:style-name="{}"/>'
    rows = (
        "<table:table-column/>"
        '<table:table-column table:visibility="collapse" table:number-columns-repeated="2"/>'
        f'<table:table-row table:visibility="collapse">{number.format("ce2")}</table:table-row>'
        f"<table:table-row>{number.format('ce2')}{number.format('ce1')}</table:table-row>"
    )
    (sheet,) = read_cells(make_ods(rows, styles=styles)).sheets
    assert sheet.hidden
    assert sheet.struck == {(2, 2)}
    assert sheet.hidden_rows == {1}
    assert sheet.hidden_columns == {2, 3}
    (shown,) = read_cells(make_ods(rows)).sheets
    assert not shown.hidden
    assert shown.struck == frozenset()


def test_calls_and_names_are_followed(make_ods):
    rows = (
        '<table:table-row><table:table-cell office:value-type="float" office:value="0.004"/>'
        '<table:table-cell table:formula="of:=ENG.QUENCH(deck;0.04)" office:value-type="float" '
        'office:value="0.044"/></table:table-row>'
    )
    names = (
        '<table:named-expressions><table:named-range table:name="deck" '
        'table:cell-range-address="$Deck.$A$1"/></table:named-expressions>'
    )
    (record,) = read_book(make_ods(rows, names)).records
    assert (record.state, str(record.arguments[0].place)) == ("same", "Deck!A1")


def test_a_locked_book_and_one_with_entities_are_refused(make_ods):
    with pytest.raises(BookError, match="password"):
        read_cells(make_ods("", manifest="<m xmlns:manifest='x'><manifest:encryption-data/></m>"))
    bomb = '<!DOCTYPE a [<!ENTITY b "c"><!ENTITY d "&b;&b;">]>'
    with pytest.raises(BookError, match="document type"):
        read_cells(make_ods("", before=bomb))

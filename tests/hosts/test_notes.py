"""Notes on cells of a copy: read by openpyxl and LibreOffice, with nothing else changed."""

import zipfile

import openpyxl
import pytest
from rich_books import rich_book, with_members

from workbook_tools.formulas.references import Place
from workbook_tools.hosts.notes import write_with_notes

# What openpyxl cannot read of the rich book is none of its notes.
pytestmark = pytest.mark.filterwarnings("ignore:.*extension is not supported")

DECK = "Deck & quench"
NOTES = {
    Place(DECK, "B2"): "Sign is turned: <check> & measure",
    Place(DECK, "B3"): "Thin",
    Place("Parts", "A2:B3"): "Two\nlines",
}


def notes_of(path):
    return {
        (sheet.title, cell.coordinate): cell.comment.text
        for sheet in openpyxl.load_workbook(path)
        for row in sheet.iter_rows()
        for cell in row
        if cell.comment
    }


def members(path):
    with zipfile.ZipFile(path) as package:
        return {name: package.read(name) for name in package.namelist()}


@pytest.fixture(params=[".xlsx", ".xlsm"])
def marked(request, tmp_path):
    book = rich_book(tmp_path / f"rich{request.param}")
    out = tmp_path / f"marked{request.param}"
    write_with_notes(book, out, NOTES)
    return book, out


def test_a_note_is_added_to_what_is_there(marked):
    book, out = marked
    assert notes_of(book) == {(DECK, "B2"): "Measured over the pin, both sides."}
    assert notes_of(out) == {
        (DECK, "B2"): "Measured over the pin, both sides.\n\nSign is turned: <check> & measure",
        (DECK, "B3"): "Thin",
        ("Parts", "A2"): "Two\nlines",
    }


def test_nothing_else_is_changed(marked):
    before, after = map(members, marked)
    changed = {name for name in before if before[name] != after[name]}
    assert changed == {
        "[Content_Types].xml",
        "xl/comments1.xml",
        "xl/drawings/vmlDrawing1.vml",
        # Of the sheet without notes: the element that names them, and the relations.
        "xl/worksheets/sheet2.xml",
        "xl/worksheets/_rels/sheet2.xml.rels",
    }
    assert set(after) - set(before) == {"xl/comments2.xml", "xl/drawings/vmlDrawing2.vml"}
    # Around the one new element each byte of the sheet is as it was.
    sheet, old = after["xl/worksheets/sheet2.xml"], before["xl/worksheets/sheet2.xml"]
    start = sheet.index(b"<legacyDrawing")
    end = sheet.index(b"/>", start) + 2
    assert sheet[:start] + sheet[end:] == old


def test_two_copies_have_the_same_bytes(marked, tmp_path):
    book, out = marked
    again = tmp_path / f"again{book.suffix}"
    write_with_notes(book, again, NOTES)
    assert again.read_bytes() == out.read_bytes()


def test_cells_whose_threaded_comment_hides_the_note_are_named(tmp_path):
    book = rich_book(tmp_path / "rich.xlsx")
    rels = "xl/worksheets/_rels/sheet1.xml.rels"
    kind = "http://schemas.microsoft.com/office/2017/10/relationships/threadedComment"
    target = "../threadedComments/threadedComment1.xml"
    relation = f'<Relationship Id="rId99" Type="{kind}" Target="{target}"/></Relationships>'
    thread = (
        '<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/'
        'threadedcomments"><threadedComment ref="B2" id="{1}"><text>Again?</text>'
        "</threadedComment></ThreadedComments>"
    )
    threaded = with_members(
        book,
        tmp_path / "threaded.xlsx",
        **{
            rels: members(book)[rels].replace(b"</Relationships>", relation.encode()),
            "xl/threadedComments/threadedComment1.xml": thread.encode(),
        },
    )
    assert write_with_notes(threaded, tmp_path / "out.xlsx", NOTES) == (Place(DECK, "B2"),)
    assert write_with_notes(book, tmp_path / "other.xlsx", NOTES) == ()


def test_libreoffice_shows_the_notes(recalculated, tmp_path):
    out = tmp_path / "marked.xlsx"
    write_with_notes(rich_book(tmp_path / "rich.xlsx"), out, NOTES)
    texts = notes_of(recalculated(out))
    assert texts.keys() == notes_of(out).keys()
    assert texts[DECK, "B2"].endswith("Sign is turned: <check> & measure")


def test_prefixed_markup_is_kept(tmp_path):
    """Some programs write every element with a prefix, and empty lists as one tag."""
    book = openpyxl.Workbook()
    book.active["A1"] = 4.03
    book.save(tmp_path / "plain.xlsx")
    name = "xl/worksheets/sheet1.xml"
    text = members(tmp_path / "plain.xlsx")[name].decode()
    text = text.replace("<", "<x:").replace("<x:/", "</x:").replace("<x:?", "<?")
    prefixed = with_members(
        tmp_path / "plain.xlsx",
        tmp_path / "prefixed.xlsx",
        **{name: text.replace("xmlns=", "xmlns:x=").encode()},
    )
    write_with_notes(prefixed, tmp_path / "out.xlsx", {Place("Sheet", "A1"): "Measure it"})
    assert notes_of(tmp_path / "out.xlsx") == {("Sheet", "A1"): "Measure it"}
    assert b"<x:legacyDrawing " in members(tmp_path / "out.xlsx")[name]

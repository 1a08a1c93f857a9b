"""The copy to review in a spreadsheet, and the layout that its corrections make."""

import openpyxl
import pytest
from typer.testing import CliRunner

from workbook_tools.batch.review_answers import corrections
from workbook_tools.batch.review_copy import HEADS, review_copy
from workbook_tools.books.cells import BookError
from workbook_tools.books.own_output import REVIEW, own_output
from workbook_tools.cli import app
from workbook_tools.jobs.read import read_book
from workbook_tools.labels.layout import read_layout

ROWS = [
    ["Job no.", "31", "Customer", "A. Lund"],
    ["Cylinders", 4],
    ["Stroke (in)", 3.5],
    ["Bore dimeter (in)", 4.03],
    ["Odd height (in)", 0.25, 0.26],
    [],
    ["Cyl", 1, 2],
    ["Top gap (in)", 0.016, 0.017],
    ["Glorp", 7],
    ["Sum", "=B8+C8"],
    ["Gasket (in)", 0.04],
    ["Quench (in)", "=ENG.QUENCH(0.002,B11)"],
]


@pytest.fixture
def book(make_book):
    return make_book({"Build": ROWS, "Review": [["a note"]]}, file_name="31.xlsx")


@pytest.fixture
def corrected(book, tmp_path):
    """A function that corrects {(cell, head): text} in a review copy, and gives its file."""

    def correct(changes):
        path = tmp_path / "copies" / "review.xlsx"
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(review_copy(book))
        opened = openpyxl.load_workbook(path)
        listed = opened.worksheets[0]
        rows = {row[1].value: row for row in listed.iter_rows(min_row=5)}
        for (cell, head), text in changes.items():
            rows[cell][HEADS.index(head)].value = text
        opened.save(path)
        return path

    return correct


def test_a_copy_lists_every_number_with_lists_to_choose_from(book, corrected):
    opened = openpyxl.load_workbook(corrected({}))
    listed, copied = opened.worksheets[0], opened["Build"]
    rows = {row[1].value: [c.value for c in row] for row in listed.iter_rows(min_row=5)}
    assert {"B2", "B3", "B4", "B5", "C5", "B7", "C7", "B8", "C8", "B9"} <= rows.keys()
    assert rows["B8"][4:9] == ["read", "Top ring gap", "Cyl 1", "none", "in"]
    assert rows["B4"][4:6] == ["not sure", None]
    assert "perhaps Bore" in rows["B4"][9]
    offered = {v.formula1 for v in listed.data_validations.dataValidation}
    assert len(offered) == 4
    assert "Top ring gap" in {c.value for c in opened["Names"]["A"]}
    # The copy shows what stands in the book, tinted and noted where it is a number.
    assert [c.value for c in copied[8]][:3] == ["Top gap (in)", 0.016, 0.017]
    assert "read: Top ring gap, Cyl 1, in" in copied["B8"].comment.text
    tints = {copied[cell].fill.fgColor.rgb for cell in ("B8", "B4", "B9", "B7", "A8")}
    assert len(tints) == 5
    assert opened.sheetnames[1] == "Build"
    assert opened["Review"]["A1"].value == "a note"


def test_corrections_become_answers_that_are_read(book, corrected, tmp_path):
    copy = corrected(
        {
            ("B4", "What it is"): "Bore",
            ("B5", "What it is"): "Compression height",
            ("C5", "What it is"): "Compression height",
            ("B8", "Stage"): "found",
            ("C8", "Of which"): "Cyl 4",
            ("B9", "What it is"): "no reading",
        }
    )
    found = corrections(copy)
    assert found.numbers == 6
    layout = tmp_path / "layout.toml"
    layout.write_text(found.layout, encoding="utf-8")
    told = read_layout(layout)
    read = {r.place.address: r for r in read_book(book, told).readings}
    assert (read["B4"].measurand, read["B4"].state) == ("bore", "read")
    assert {read[c].measurand for c in ("B5", "C5")} == {"compression_height"}
    assert (read["B8"].stage, read["C8"].part.short) == ("found", "Cyl 4")
    assert "B9" not in read
    # What a label means holds for all books, what stands in one cell for this one.
    shared = told.form_of("another.xlsx").answers
    assert {a.label for a in shared} >= {"Bore dimeter (in)", "Odd height (in)", "Glorp"}
    assert all(a.cells is None for a in shared)


def test_a_name_that_is_not_known_is_told_with_its_cell(corrected):
    with pytest.raises(BookError, match=r"'Review 2'!F\d+: is: 'bor' is not a reading"):
        corrections(corrected({("B4", "What it is"): "bor"}))


def test_what_a_formula_takes_is_corrected_in_the_formula(corrected):
    with pytest.raises(BookError, match="a formula takes Build!B11 for what it is"):
        corrections(corrected({("B11", "What it is"): "Deck clearance"}))


def test_a_copy_is_no_book_and_a_book_no_copy(book, corrected):
    assert own_output(corrected({})) == REVIEW
    with pytest.raises(BookError, match="its list of numbers is not there"):
        corrections(book)
    assert review_copy(book) == review_copy(book)


def test_the_commands_go_round(book, tmp_path):
    copy, layout = tmp_path / "c" / "review.xlsx", tmp_path / "c" / "layout.toml"
    copy.parent.mkdir()
    run = CliRunner().invoke
    done = run(app, ["survey", str(book), "--marked", str(copy)])
    assert (done.exit_code, "Wrote" in done.output) == (0, True), done.output
    again = run(app, ["survey", str(book), "--marked", str(copy)])
    assert (again.exit_code, "nothing is overwritten" in again.output) == (2, True)
    same = run(app, ["survey", str(copy), "--out", str(layout)])
    assert (same.exit_code, "nothing was corrected" in same.output) == (2, True)
    opened = openpyxl.load_workbook(copy)
    row = next(r for r in opened.worksheets[0].iter_rows(min_row=5) if r[1].value == "B4")
    row[5].value = "Bore"
    opened.save(copy)
    made = run(app, ["survey", str(copy), "--out", str(layout)])
    assert (made.exit_code, "corrections of 1 number" in made.output) == (0, True), made.output
    assert read_layout(layout).forms[-1].answers[0].measurand == "bore"

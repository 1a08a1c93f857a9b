"""Numbers written as text: told before a copy is made portable, and made numbers in it."""

import zipfile

import ironcalc
import openpyxl
import pytest
from typer.testing import CliRunner

from workbook_tools.annotate.text_numbers import text_numbers
from workbook_tools.cli import app

CELLS = {
    "A1": 0.002,
    "A2": "38 thou",
    "A3": "0.041",
    "A4": "as last time",
    "A5": '="0."&"04"',
    "A6": "0,96 mm",
    "A7": "street",
    "A8": "0.0021 in",
    "B1": "=ENG.QUENCH(A1,A2)",
    "B2": "=ENG.QUENCH(A1,A3)",
    "B3": "=ENG.QUENCH(A1,A4)",
    "B4": "=ENG.QUENCH(A1,A5)",
    "B5": '=ENG.QUENCH(0.05,A6,"metric")',
    "B6": '=ENG.QUENCH(A1,"40 thou")',
    "B7": '=ENG.RING_GAP_FACTOR(A7,"top")',
    "B8": "=ENG.MEAN_READING(A8:A8,1)",
}


@pytest.fixture
def book(tmp_path):
    made = openpyxl.Workbook()
    made.active.title = "Deck & quench"
    for address, value in CELLS.items():
        made.active[address] = value
    path = tmp_path / "book.xlsx"
    made.save(path)
    return path


def run(*words):
    return CliRunner().invoke(app, ["portable", *map(str, words)])


def test_what_only_an_add_in_reads_is_found(book):
    found = {one.place.address: (one.text, one.number) for one in text_numbers(book)}
    # 38 thou are 0.038 in; a bare text is what it says; a note is wrong everywhere.
    assert found == {
        "A2": ("38 thou", 0.038),
        "A3": ("0.041", 0.041),
        "A6": ("0,96 mm", 0.96),
        "B6": ("40 thou", None),
        # A reading is of any kind: as a bare number it would have lost its unit.
        "A8": ("0.0021 in", None),
    }


def test_a_text_that_calls_take_in_two_units_is_no_number(book):
    made = openpyxl.load_workbook(book)
    made.active["B9"] = '=ENG.QUENCH(0.05,A2,"metric")'
    made.save(book)
    found = {one.place.address: one.number for one in text_numbers(book)}
    assert found["A2"] is None
    assert found["A3"] == 0.041


def test_it_is_told_before_the_copy_is_written(book, tmp_path):
    done = run(book, "--out", tmp_path / "new.xlsx")
    assert done.exit_code == 0
    assert "5 numbers written as text, which without an add-in give #VALUE!" in done.stderr
    assert "'Deck & quench'!A2 \"38 thou\"" in done.stderr
    assert "With --numbers they become numbers in the copy." in done.stderr
    assert openpyxl.load_workbook(tmp_path / "new.xlsx").active["A2"].value == "38 thou"


def test_in_the_copy_they_are_numbers_and_calculate(book, tmp_path):
    done = run(book, "--out", tmp_path / "new.xlsx", "--numbers")
    assert "'Deck & quench'!A2: \"38 thou\" is now 0.038" in done.stdout
    assert "2 numbers written as text" in done.stderr
    model = ironcalc.load_from_xlsx(str(tmp_path / "new.xlsx"), "en", "UTC", "en")
    model.evaluate()
    for row, value in ((1, 0.04), (2, 0.043), (5, 1.01)):
        assert model.get_cell_value(0, row, 2) == pytest.approx(value, rel=1e-12)
    assert model.get_cell_value(0, 3, 2) == "#VALUE!"
    # Only these cells and the main part, which carries the functions, are changed.
    before, after = (_members(path) for path in (book, tmp_path / "new.xlsx"))
    changed = {name for name in before if before[name] != after[name]}
    assert changed == {"xl/workbook.xml", "xl/worksheets/sheet1.xml"}
    assert openpyxl.load_workbook(book).active["A2"].value == "38 thou"


def test_functions_are_not_taken_out_and_put_in_at_once(book, tmp_path):
    done = run(book, "--out", tmp_path / "new.xlsx", "--numbers", "--remove")
    assert done.exit_code == 2
    assert "leave out --numbers" in done.stderr


def _members(path):
    with zipfile.ZipFile(path) as package:
        return {name: package.read(name) for name in package.namelist()}


def test_what_cannot_be_followed_hides_no_other_text(book):
    made = openpyxl.load_workbook(book)
    for address, formula in {
        "C1": '=ENG.QUENCH("x',
        "C2": "=ENG.QUENCH(Nowhere!A2,A2)",
        "C3": "=ENG.QUENCH(no_such_name,A2)",
        "C4": "=ENG.WHY(A2)",
        "C5": "=ENG.NO_SUCH(A7)",
        "C6": "=ENG.QUENCH(0.05,A2,Nowhere!A1)",
    }.items():
        made.active[address] = formula
    before = text_numbers(book)
    made.save(book)
    assert text_numbers(book) == before


def test_of_no_book_there_are_none(tmp_path):
    path = tmp_path / "book.xlsx"
    path.write_bytes(b"PK\3\4 no more than this")
    assert text_numbers(path) == ()

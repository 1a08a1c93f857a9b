"""The book of functions: fresh, passed over as no job, and right in two spreadsheet engines."""

import zipfile
from pathlib import Path

import ironcalc
import openpyxl
import pytest
from typer.testing import CliRunner

from workbook_tools.books.folder import find_books
from workbook_tools.books.own_output import FUNCTIONS, own_output, without_own_output
from workbook_tools.catalog import entries
from workbook_tools.cli import app
from workbook_tools.functions_book import write_functions_book
from workbook_tools.hosts.portable import portability

KEPT = Path(__file__).parents[1] / "example_books" / "functions" / "functions.xlsx"


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    path = tmp_path_factory.mktemp("functions") / "functions.xlsx"
    write_functions_book(path)
    return path


@pytest.fixture(scope="module")
def model(made):
    """The book as an engine calculates it that has nothing of ours but the book."""
    found = ironcalc.load_from_xlsx(str(made), "en", "UTC", "en")
    found.evaluate()
    return found


def members(path):
    with zipfile.ZipFile(path) as package:
        return {name: package.read(name) for name in package.namelist()}


def compared(path):
    """[(function, sheet number, row of its comparison)] of a book of functions."""
    found = []
    for number, sheet in enumerate(openpyxl.load_workbook(path)):
        name = ""
        for row, (text,) in enumerate(sheet.iter_rows(max_col=1, values_only=True), 1):
            name = text if str(text).startswith("ENG.") else name
            if text == "Compared":
                found.append((name, number, row))
    return found


def agreeing(sheet):
    return next(
        row[1] for row in sheet.iter_rows(values_only=True) if "with what" in str(row[0]).lower()
    )


def test_the_kept_book_is_fresh(made):
    assert members(KEPT) == members(made), "run python example_books/functions_book.py"


def test_it_is_passed_over_as_no_book():
    assert own_output(KEPT) == FUNCTIONS
    assert without_own_output(find_books([KEPT.parent])).books == ()


def test_every_function_has_its_example_once(made):
    names = [name for name, _, _ in compared(made)]
    assert sorted(names) == sorted(f.full_name for f in entries() if not f.sees_cell)


def test_with_nothing_else_installed_all_agree_that_can(made, model):
    alone = {f.full_name for f in entries() if not portability()[f.name]}
    for name, sheet, row in compared(made):
        told = model.get_cell_value(sheet, row, 4)
        assert told == ("agrees" if name in alone else "needs an add-in"), name
    start = openpyxl.load_workbook(made)["Start"]
    [at] = [c.row for c in start["A"] if c.value == "With what was expected"]
    assert model.get_cell_value(0, at, 2) == f"{len(alone)} of {len(alone)} agree"


def test_a_changed_box_changes_the_result(made):
    [(_, sheet, row)] = [one for one in compared(made) if one[0] == "ENG.QUENCH"]
    found = ironcalc.load_from_xlsx(str(made), "en", "UTC", "en")
    # The box of the gasket's thickness stands above that of the units, these above the result.
    found.update_cell_with_number(sheet, row - 4, 4, 0.039)
    found.evaluate()
    assert found.get_cell_value(sheet, row - 2, 4) == pytest.approx(0.037)
    assert found.get_cell_value(sheet, row, 4) == "differs"


@pytest.mark.slow
def test_in_libreoffice_with_the_add_in_all_agree(recalculated, made):
    book = openpyxl.load_workbook(recalculated(made), data_only=True)
    number = len(list(entries())) - 1
    assert agreeing(book["Start"]) == f"{number} of {number} agree"
    told = [cell.value for cell in book["Reasons"]["D"] if cell.value]
    assert any("gasket_thickness" in str(text) for text in told)


def test_the_command_writes_it_and_overwrites_nothing(tmp_path):
    out = tmp_path / "functions.xlsx"
    done = CliRunner().invoke(app, ["functions", "--book", str(out)])
    assert (done.exit_code, out.exists()) == (0, True)
    again = CliRunner().invoke(app, ["functions", "--book", str(out)])
    assert again.exit_code == 2
    assert "exists already" in again.stderr

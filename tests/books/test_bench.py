"""A formula tried on the cells of a book: what it comes to, from what, and why it has nothing."""

import openpyxl
import pytest

from workbook_tools.books.bench import CannotEvaluate, try_formula, try_in_book
from workbook_tools.books.opening import read_cells


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    made = openpyxl.Workbook()
    build = made.active
    build.title = "Build"
    build["B7"], build["B9"], build["B10"] = 0.002, 0.038, "none"
    build["B12"] = "=ENG.QUENCH(B7,Parts!B2)"
    build["B13"] = "=ENG.QUENCH(B7,B8)"
    build["B14"] = "=ENG.QUENCH(B7,B10)"
    build["B15"] = "=ENG.QUENCH(B7+0.001,ENG.GASKET_FOR_QUENCH(0.04,B7))"
    build["B16"] = "=B7*2"
    parts = made.create_sheet("Parts")
    parts["B2"] = "38 thou"
    path = tmp_path_factory.mktemp("bench") / "book.xlsx"
    made.save(path)
    return read_cells(path)


def test_a_cell_is_worked_out_anew_from_what_its_arguments_come_to(book):
    tried = try_in_book(book, "Build!B12")
    assert tried.formula == "ENG.QUENCH(B7,Parts!B2)"
    assert [tuple(vars(one).values()) for one in tried.given] == [
        ("deck_clearance", "B7", 0.002),
        ("gasket_thickness", "Parts!B2", "38 thou"),
    ]
    assert (tried.result.value, tried.result.unit) == (pytest.approx(0.040), "in")


@pytest.mark.parametrize("asked", ["B12", "=B12", "QUENCH(B7,Parts!B2)", "ENG.QUENCH(B7;Parts!B2)"])
def test_cells_of_the_first_sheet_need_no_sheet_and_our_names_no_prefix(book, asked):
    assert try_in_book(book, asked).result.value == pytest.approx(0.040)


@pytest.mark.parametrize(
    ("asked", "why"),
    [
        ("B13", "gasket_thickness: expected a length above 0, got an empty cell"),
        ("B14", "gasket_thickness: expected a length"),
    ],
)
def test_a_cell_without_a_result_says_which_argument_is_at_fault(book, asked, why):
    tried = try_in_book(book, asked)
    assert tried.result is None
    assert tried.problem.startswith(why)
    assert len(tried.given) == 2


def test_arguments_that_are_worked_out_are_shown_with_what_they_come_to(book):
    values = [one.value for one in try_in_book(book, "B15").given]
    assert values == [pytest.approx(0.003), pytest.approx(0.038)]


def test_a_cell_without_a_call_is_shown_as_it_is(book):
    assert try_in_book(book, "B16").result.value == pytest.approx(0.004)
    assert try_in_book(book, "B10").result.value == "none"
    assert try_in_book(book, "B10").given == ()


@pytest.mark.parametrize(
    ("asked", "why"),
    [
        ("Build!B99", "Build!B99 is empty"),
        ("Nope!B1", "there is no sheet 'Nope'; choose one of Build, Parts"),
        ("Biuld!B1", "there is no sheet 'Biuld'; the nearest is Build"),
        ("QUNCH(B1,B2)", r"there is no function QUNCH; the nearest is ENG\.QUENCH"),
        ("QUENCH(1", "not closed"),
        ("", "there is no formula"),
    ],
)
def test_what_cannot_be_asked_is_refused(book, asked, why):
    with pytest.raises(CannotEvaluate, match=why):
        try_in_book(book, asked)


def test_without_a_book_our_names_need_no_prefix_and_those_of_every_program_stay_theirs():
    assert try_formula('quench(0.002; "38 thou")').value == pytest.approx(0.040)
    assert try_formula("POWER(2,3)").value == 8
    assert try_formula('IF(1>2,"quench(",VERDICT(1,0,2))').value == "ok"

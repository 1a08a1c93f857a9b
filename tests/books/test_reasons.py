"""What the batch says of a cell that shows an error, and that such words are never stale."""

import openpyxl
import pytest
from reasons_book import check_words, save_reasons_book

from workbook_tools.books.areas import CannotEvaluate
from workbook_tools.books.opening import read_cells
from workbook_tools.books.recalculation import Recalculation
from workbook_tools.catalog import ArgumentError
from workbook_tools.findings import check
from workbook_tools.formulas.references import cell_address
from workbook_tools.jobs.read import read_book


@pytest.fixture(scope="module")
def path(tmp_path_factory):
    made = tmp_path_factory.mktemp("reasons") / "book.xlsx"
    save_reasons_book(made)
    return made


def test_the_reason_of_an_error_is_told_in_words(path):
    values = Recalculation(read_cells(path))
    sheet = values.book.sheets[0]
    told = {
        cell_address(row, column): values.evaluate(values.parts(cell.formula), sheet, row)
        for (row, column), cell in sheet.cells.items()
        if column in (3, 4) and cell.formula
    }
    check_words(told, error="#VALUE!")


@pytest.mark.parametrize("saved", ["Build!B12: as another program said it", None])
def test_words_about_a_cell_are_no_result_and_never_stale(tmp_path, saved):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet["A1"], sheet["A2"] = 0.002, 0.038
    sheet["A3"] = "=ENG.QUENCH(A1,A2)"
    sheet["A4"] = "=ENG.WHY(A3)"
    path = tmp_path / "book.xlsx"
    book.save(path)
    with_values(path, {"A3": "0.04", "A4": saved})
    read = read_book(path)
    assert [r.name for r in read.records] == ["ENG.QUENCH"]
    assert not [f for f in check(read) if "stale" in f.code or f.code == "never-calculated"]


@pytest.mark.parametrize(
    ("formulas", "told"),
    [
        ({"A1": "=ENG.WHY(A1)"}, "refer to each other"),
        ({"A1": "=ENG.WHY(A2)", "A2": "=ENG.WHY(A1)"}, "refer to each other"),
        ({"A1": "=ENG.WHY(A2)", "A2": "=ENG.QUENCH(A3,"}, "cannot be followed here"),
        ({"A1": "=ENG.WHY(Nowhere!B2)"}, "there is no sheet"),
        ({"A1": '=ENG.WHY("A2")'}, "cell: expected a reference to a cell"),
        ({"A1": "=ENG.WHY(A2)", "A2": "=ENG.QUENCH(OFFSET(A3,1,0),1)"}, "cannot be followed here"),
    ],
)
def test_what_cannot_be_followed_is_said_and_costs_nothing_else(tmp_path, formulas, told):
    book = openpyxl.Workbook()
    for address, formula in formulas.items():
        book.active[address] = formula
    book.active["C1"] = "=ENG.QUENCH(0.002,0.038)"
    path = tmp_path / "book.xlsx"
    book.save(path)
    values = Recalculation(read_cells(path))
    sheet = values.book.sheets[0]
    try:
        words = str(values.evaluate(values.parts(formulas["A1"][1:]), sheet, 1))
    except (ArgumentError, CannotEvaluate) as why:
        words = str(why)
    assert told in words
    assert [r.value for r in read_book(path).records if r.place.address == "C1"] == [0.04]


def with_values(path, values):
    """Put saved values into the cells with formulas of the only sheet."""
    import zipfile

    with zipfile.ZipFile(path) as package:
        members = {name: package.read(name) for name in package.namelist()}
    name = "xl/worksheets/sheet1.xml"
    text = members[name].decode()
    for address, value in values.items():
        if value is None:
            continue
        number = value.replace(".", "").isdigit()
        old = f'<c r="{address}">'
        assert old in text
        text = text.replace(old, old if number else f'<c r="{address}" t="str">')
        start = text.index(f'<c r="{address}"')
        at = text.index("<v", start)
        end = text.index("</c>", start)
        text = f"{text[:at]}<v>{value}</v>{text[end:]}"
    members[name] = text.encode()
    with zipfile.ZipFile(path, "w") as package:
        for member, data in members.items():
            package.writestr(member, data)

"""The add-in in a real LibreOffice: every function, bad input, round trips, the wizard.

Two books are calculated and saved as .xlsx, then as .ods, then again from the .ods.
"""

from __future__ import annotations

import itertools
import zipfile
from dataclasses import dataclass

import openpyxl
import pytest
from each_case import each
from examples import EXAMPLES, example, shortest, takes_options
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.formula import ArrayFormula
from reasons_book import check_words, save_reasons_book

from workbook_tools.catalog import UNITS_HELP, calculate, entries, find
from workbook_tools.hosts import libreoffice

CALLS = [
    (function.name, form)
    for function in entries()
    if function.name in EXAMPLES  # tests/test_examples.py fails for one that has none
    and not function.sees_cell
    for form in ("inch", "metric", "shortest")
    if (form != "metric" or function.takes_units)
    and (form != "shortest" or takes_options(function))
]

# Cells that the formulas below refer to.
INPUTS = {
    "A1": -0.002,
    "A2": 0.042,
    "A3": "38 thou",
    "A5": "as last time",
    "A6": 0,
    "A7": '=""',
    "A8": "=1/0",
    "A9": "0,96 mm",
    "C1": 0.001,
    "D1": 0.002,
    "F1": 0.004,
    "C2": 0.001,
    "D2": "=1/0",
    "E2": 0.003,
    "C3": 0.0021,
    "D3": 0.0012,
    "E3": 0.0031,
    "P3": "=ENG.VERDICT(A2,0.035,0.045)",
    "P4": "=ENG.VERDICT(A1,0.035,0.045)",
}
# formula -> what it gives, by arithmetic on the cells above; thou is 0.001 in, an inch 25.4 mm.
VALUES = {
    "=ENG.QUENCH(A1,A2)": 0.040,
    "=ENG.QUENCH(A1,A3)": 0.036,
    '=ENG.QUENCH(A1,"42 thou")': 0.040,
    '=ENG.QUENCH("-0.05 mm",A9)': 0.91 / 25.4,
    '=ENG.QUENCH(-0.05,0.96,"metric")': 0.91,
    '=ENG.QUENCH(A1,A2,"Metric")': 0.040,
    '=ENG.QUENCH(A1,"40 thou","metric")': -0.002 + 1.016,
    "=eng.quench(A1,A2)*2": 0.080,
    "=ENG.QUENCH(-A1/2,MAX(A1:A2))": 0.043,
    "=ENG.QUENCH(A6,A2)": 0.042,
    "=SUM(ENG.QUENCH(C3:E3,A2))": 0.0064 + 3 * 0.042,
    "=IF(ENG.QUENCH(A1,A2)>0.035,1,2)": 1,
    '=ENG.VERDICT(ENG.QUENCH(A1,A2),0.035,"45 thou")': "ok",
    "=ENG.VERDICT(A1,0.035,0.045)": "low",
    '=IF(ENG.VERDICT(A2,0.035,0.045)="ok",1,2)': 1,
    '=IF(ENG.JUDGE(C3:E3,3,0.0015,0.0025)="low and high",1,2)': 1,
    '=COUNTIF(P3:P4,"ok")': 1,
}
ERRORS = {
    "an impossible zero": "=ENG.QUENCH(A1,A6)",
    "an empty cell where zero is impossible": "=ENG.QUENCH(A1,A4)",
    "an empty cell, given as a range": "=ENG.QUENCH(A4:A4,A2)",
    "an empty text": "=ENG.QUENCH(A7,A2)",
    "a text that is no quantity": "=ENG.QUENCH(A5,A2)",
    "a wrong dimension": '=ENG.QUENCH(A1,"63 cc")',
    "an impossible geometry": "=ENG.DECK_CLEARANCE(9,14,6,1.5)",
    "an error": "=ENG.QUENCH(A8,A2)",
    "no second argument": "=ENG.QUENCH(A1)",
    "a skipped argument": "=ENG.QUENCH(A1,)",
    "too many arguments": '=ENG.QUENCH(A1,A2,"inch",1)',
    "an unknown unit system": '=ENG.QUENCH(A1,A2,"imperial")',
    "an empty cell for the unit system": "=ENG.QUENCH(A1,A2,A4)",
    "a missing reading": "=ENG.MEAN_READING(C1:F1,4)",
    "an unknown word": '=ENG.RING_GAP_FACTOR("street","oil")',
    "ranges of two sizes": "=SUM(ENG.QUENCH(C1:D1,C3:E3))",
    "an empty cell in a summed range": "=SUM(ENG.QUENCH(C1:F1,A2))",
    "an error in a range": "=SUM(ENG.QUENCH(C2:E2,A2))",
    "an unknown function": "=ENG.QUENCHES(A1,A2)",
}
# formula -> what its cell holds to the last digit, where doubles alone give 0.00409999999999933.
EXACT = {
    "=ENG.PISTON_CLEARANCE(4.031,4.0269)": 0.0041,
    "=ENG.QUENCH(-0.002,0.008)": 0.006,
    '=ENG.PISTON_CLEARANCE(102.3874,102.2833,"metric")': 0.1041,
}
# range -> formula entered over it, and what its cells show; None stands for an error.
ARRAYS = {
    "H1:K1": ("=ENG.QUENCH(C1:F1,A2)", [0.043, 0.044, None, 0.046]),
    "H2:J2": ("=ENG.QUENCH(C2:E2,A2)", [None, None, None]),
    # A text in a table would be equal to no other text there, so it takes single cells only.
    "H3:J3": ("=ENG.VERDICT(C3:E3,0.0015,0.0025)", [None, None, None]),
    "H4:J4": ('=ENG.VERDICT(C2:E2,"1 cc","2 cc")', [None, None, None]),
}


def _put(sheet, row, column, value):
    sheet.cell(row, column).value = value
    return f"{get_column_letter(column)}{row}"


def _functions_book(path):
    """One row for each call in CALLS: the formula in column A, its arguments behind it."""
    book = openpyxl.Workbook()
    calls, blocks = book.active, book.create_sheet("Blocks")
    calls.title = "Calls"
    wide = book.create_sheet("Wide")
    free_row, wide_row = 1, 1
    for row, (name, form) in enumerate(CALLS, 1):
        references = []
        for column, value in enumerate(_arguments(name, form), 2):
            if isinstance(value, tuple):
                corners = [
                    _put(blocks, free_row + r, 1 + c, cell)
                    for r, line in enumerate(value)
                    for c, cell in enumerate(line)
                ]
                references.append(f"Blocks!{corners[0]}:{corners[-1]}")
                free_row += len(value)
            else:
                references.append(f"Calls!{_put(calls, row, column, value)}")
        formula = f"=ENG.{name}({','.join(references)})"
        expected = _expected(name, form)
        calls.cell(row, 1).value = formula
        if isinstance(expected, tuple):
            last = f"{get_column_letter(len(expected[0]))}{wide_row + len(expected) - 1}"
            area = f"A{wide_row}:{last}"
            wide[f"A{wide_row}"] = ArrayFormula(area, formula)
            wide_row += len(expected)
    book.save(path)


def _arguments(name, form):
    return shortest(name) if form == "shortest" else example(name, form)


def _expected(name, form):
    return calculate(find(name), _arguments(name, form)).value


def _cases_book(path):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Cases"
    for address, value in INPUTS.items():
        sheet[address] = value
    for row, formula in enumerate([*VALUES, *ERRORS.values()], 1):
        sheet[f"M{row}"] = formula
        sheet[f"N{row}"] = f"=SUM(M{row},1)"
        sheet[f"O{row}"] = f"=AVERAGE(M{row},1)"
    for row, formula in enumerate(EXACT, 1):
        sheet[f"Q{row}"] = formula
    for area, (formula, _) in ARRAYS.items():
        sheet[area.split(":")[0]] = ArrayFormula(area, formula)
    book.save(path)


def _stale_book(path, calculated):
    """The calculated cases with another number saved in the first cell than its formula gives."""
    with zipfile.ZipFile(calculated) as source, zipfile.ZipFile(path, "w") as target:
        for member in source.namelist():
            data = source.read(member)
            if member == "xl/worksheets/sheet1.xml":
                fresh = data.replace(b"<v>0.04</v>", b"<v>77</v>", 1)
                assert fresh != data
                data = fresh
            target.writestr(member, data)


@dataclass(frozen=True)
class Book:
    """The cells of a saved book: {sheet: {address: formula}} and the same of values."""

    formulas: dict
    values: dict


def _read(path):
    def cells(book):
        return {
            sheet.title: {
                cell.coordinate: getattr(cell.value, "text", cell.value)
                for row in sheet.iter_rows()
                for cell in row
            }
            for sheet in book
        }

    return Book(
        cells(openpyxl.load_workbook(path)), cells(openpyxl.load_workbook(path, data_only=True))
    )


@pytest.fixture(scope="module")
def saved(profile, tmp_path_factory):
    """{name: the file} of the books as calculated and saved by LibreOffice."""
    made = tmp_path_factory.mktemp("books")
    _functions_book(made / "functions.xlsx")
    _cases_book(made / "cases.xlsx")
    save_reasons_book(made / "reasons.xlsx")
    first = libreoffice.recalculate(
        [made / f"{name}.xlsx" for name in ("functions", "cases", "reasons")],
        made / "xlsx",
        profile,
    )
    _stale_book(made / "stale.xlsx", first[1])
    as_ods = libreoffice.recalculate([*first, made / "stale.xlsx"], made / "ods", profile, to="ods")
    again = libreoffice.recalculate(as_ods, made / "again", profile)
    return {
        "functions": _read(first[0]),
        "cases": _read(first[1]),
        "reasons": _read(first[2]),
        "functions from .ods": _read(again[0]),
        "cases from .ods": _read(again[1]),
        "reasons from .ods": _read(again[2]),
        "stale": _read(again[3]),
        "ods": as_ods,
    }


def _same(got, expected, where=""):
    if isinstance(expected, str):
        assert got == expected, where
    else:
        assert isinstance(got, (int, float)), (got, where)
        # A result ends where its digits do.
        assert got == pytest.approx(expected, rel=5.1e-12, abs=1e-15), where


def _is_error(value):
    return isinstance(value, str) and value.startswith("#")


@each("name", dict.fromkeys(name for name, _ in CALLS))
def test_every_function_gives_the_value_of_the_catalog(saved, name):
    forms = [(row, form) for row, (n, form) in enumerate(CALLS, 1) if n == name]
    for book, (row, form) in itertools.product(("functions", "functions from .ods"), forms):
        expected = _expected(name, form)
        single = expected[0][0] if isinstance(expected, tuple) else expected
        _same(saved[book].values["Calls"][f"A{row}"], single, (book, form))
        formula = saved[book].formulas["Calls"][f"A{row}"]
        assert formula.startswith(f"=ENG.{name}("), (book, form)


def test_a_function_that_gives_a_table_fills_it(saved):
    row = 1
    for name, form in CALLS:
        expected = _expected(name, form)
        if isinstance(expected, tuple):
            for line in expected:
                for column, value in enumerate(line, 1):
                    address = f"{get_column_letter(column)}{row}"
                    _same(saved["functions"].values["Wide"][address], value)
                row += 1
    assert row > 1


@each("book", ["cases", "cases from .ods"])
@each("formula", VALUES)
def test_quantities_units_and_nesting(saved, book, formula):
    row = list(VALUES).index(formula) + 1
    expected = VALUES[formula]
    cells = saved[book]
    _same(cells.values["Cases"][f"M{row}"], expected)
    assert cells.formulas["Cases"][f"M{row}"] == formula.replace("eng.quench", "ENG.QUENCH")


def test_a_result_has_no_digits_that_are_but_noise(saved):
    assert 4.031 - 4.0269 != 0.0041
    values = saved["cases"].values["Cases"]
    assert [values[f"Q{row}"] for row in range(1, len(EXACT) + 1)] == list(EXACT.values())


@each("book", ["cases", "cases from .ods"])
@each("case", ERRORS)
def test_bad_input_is_an_error_that_spreads(saved, book, case):
    row = len(VALUES) + list(ERRORS).index(case) + 1
    values = saved[book].values["Cases"]
    for column in "MNO":
        assert _is_error(values[f"{column}{row}"]), (column, values[f"{column}{row}"])


@pytest.mark.parametrize("area", ARRAYS)
def test_a_range_gives_an_array_with_errors_in_their_places(saved, area):
    first, last = area.split(":")
    _, expected = ARRAYS[area]
    addresses = [f"{chr(c)}{first[1:]}" for c in range(ord(first[0]), ord(last[0]) + 1)]
    for address, value in zip(addresses, expected, strict=True):
        got = saved["cases"].values["Cases"][address]
        if value is None:
            assert _is_error(got), (address, got)
        else:
            _same(got, value)


@pytest.mark.parametrize("book", ["reasons", "reasons from .ods"])
def test_a_cell_tells_why_another_shows_an_error(saved, book):
    check_words(saved[book].values["Build"], error="Err:502")
    assert saved[book].formulas["Build"]["D5"] == "=ENG.WHY('Main bearings'!B3)"


def test_every_cell_is_calculated_on_load(saved):
    assert saved["stale"].values["Cases"]["M1"] == pytest.approx(0.040)


def test_an_ods_file_keeps_the_formula_text(saved):
    with zipfile.ZipFile(saved["ods"][1]) as package:
        content = package.read("content.xml").decode()
    assert 'table:formula="of:=ENG.QUENCH([.A1];[.A2])"' in content
    assert "workbooktools" not in content


@pytest.fixture(scope="module")
def session(profile, in_session):
    typed = {
        "A1": "-0.002",
        "A2": "0.042",
        "B1": "=eng.quench(A1;A2)",
        "B2": "=ENG.QUENCH(A1;0)",
        "B3": '=ENG.QUENCH(A1;"63 cc")',
        "B4": "=SUM(B1:B3)",
        "B5": "=AVERAGE(B1:B3)",
        "C1": "=ENG.WHY(B1)",
    }
    return in_session(profile, typed)


def test_a_typed_formula_is_calculated(session):
    assert "it is 0.04 in." in session["cells"]["C1"]["text"]
    assert session["cells"]["B1"]["value"] == pytest.approx(0.040, rel=1e-12)
    assert session["cells"]["B1"]["formula"] == "=ENG.QUENCH(A1;A2)"


@pytest.mark.parametrize("address", ["B2", "B3", "B4", "B5"])
def test_bad_input_is_an_invalid_argument(session, address):
    # LibreOffice, Help, "Error Codes in LibreOffice Calc": 502 is an invalid argument.
    assert session["cells"][address]["error"] == 502
    assert session["cells"][address]["text"] == "Err:502"


@each("function", list(entries()))
def test_the_function_wizard_shows_the_texts_of_the_catalog(session, function):
    [shown] = [f for f in session["functions"] if f["Name"] == function.full_name]
    assert shown["Description"].startswith(function.summary)
    helps = [(p.name, p.help, p.optional) for p in function.parameters]
    if function.takes_units:
        helps.append(("units", UNITS_HELP, True))
    assert [a["name"] for a in shown["Arguments"]] == [name for name, _, _ in helps]
    for argument, (_, help_text, optional) in zip(shown["Arguments"], helps, strict=True):
        assert argument["help"].endswith(help_text)
        assert argument["optional"] == optional
        assert argument["help"].startswith("Optional") == optional


def test_the_function_wizard_lists_nothing_else(session):
    assert len(session["functions"]) == len(list(entries()))

"""Calls through xlwings' own argument conversion, from COM-shaped arguments to what VBA gets."""

from __future__ import annotations

import subprocess
import sys
from decimal import Decimal

import pytest
from com_stand_ins import FUNCTIONS, OMITTED, VT_ERROR, Cells, ComTime, error, windows
from each_case import each
from examples import EXAMPLES, example, shortest, takes_options
from excel_book_stand_in import OpenBook
from reasons_book import check_words, save_reasons_book

from workbook_tools.catalog import ArgumentError, calculate, entries, find
from workbook_tools.quantities.noise import ended

CALLS = [
    (function.name, form)
    for function in entries()
    if function.name in EXAMPLES  # tests/test_examples.py fails for one that has none
    and not function.sees_cell
    for form in ("inch", "metric", "shortest")
    if (form != "metric" or function.takes_units)
    and (form != "shortest" or takes_options(function))
]


@pytest.fixture(scope="module")
def call():
    """call("ENG_QUENCH", 0.002): what VBA gets back; arguments left out are passed as such."""

    with windows() as excel:

        def udf(name, *arguments):
            names = list(getattr(excel.functions, name).__xlfunc__["argmap"])
            given = [*arguments, *[OMITTED] * (len(names) - len(arguments))]
            return excel.server.CallUDF(FUNCTIONS, name, given, None, None)

        yield udf


def arguments_of(name, form):
    return shortest(name) if form == "shortest" else example(name, form)


def com_value(argument):
    """A typed argument as VBA passes it: a number is a double, a table an array."""
    if isinstance(argument, tuple):
        return tuple(tuple(com_value(cell) for cell in row) for row in argument)
    return float(argument) if isinstance(argument, int) else argument


def com_cells(argument):
    """The same argument as a reference to cells."""
    value = com_value(argument)
    return Cells(*value) if isinstance(value, tuple) else Cells((value,))


def as_com(value):
    """A result of the catalog, ended, in the shape in which xlwings' server returns it."""
    if not isinstance(value, tuple):
        return ended(value) if isinstance(value, float) else value
    rows = [[as_com(cell) for cell in row] for row in value]
    if len(rows) == 1:
        return rows[0] if len(rows[0]) > 1 else rows[0][0]
    return rows


def is_error(value):
    return getattr(value, "varianttype", None) == VT_ERROR


@each("name", dict.fromkeys(name for name, _ in CALLS))
def test_every_function_gives_what_the_catalog_gives(call, name):
    for form in (form for n, form in CALLS if n == name):
        arguments = arguments_of(name, form)
        expected = as_com(calculate(find(name), arguments).value)
        for pass_on in (com_value, com_cells):
            assert call(f"ENG_{name}", *map(pass_on, arguments)) == expected, (form, pass_on)


# Sums and unit conversions by hand: an inch is 25.4 mm, a thou 0.001 in.
@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        ((Cells((-0.002,)), Cells((0.042,))), 0.040),
        ((0.0, 0.04), 0.04),
        ((0.002, "38 thou"), 0.040),
        ((0.002, Cells(("0,96 mm",))), 0.002 + 0.96 / 25.4),
        ((0.05, 1.0, "metric"), 1.05),
        ((0.05, 1.0, Cells(("Metric",))), 1.05),
        ((0.002, Decimal("0.04")), 0.042),
        # From a macro, where whole numbers come as such.
        ((1, 2, "metric"), 3.0),
    ],
)
def test_quench_by_hand(call, arguments, expected):
    assert call("ENG_QUENCH", *arguments) == pytest.approx(expected, rel=1e-12)


@each(
    "cell",
    [None, "", True, "as last time", "4.5 cc", ComTime(2026, 3, 31)]
    + [error(e) for e in ("#N/A", "#DIV/0!", "#VALUE!", "#NAME?", "#REF!", "#NUM!", "#NULL!")]
    # xlwings does not know these and passes their codes on as numbers.
    + [error("#SPILL!"), error("#CALC!")],
)
@each("pass_on", [lambda cell: cell, lambda cell: Cells((cell,))])
def test_what_is_no_reading_gives_an_error_value(call, cell, pass_on):
    # Deck clearance takes zero and either sign, so that nothing but its nature refuses a cell.
    assert is_error(call("ENG_QUENCH", pass_on(cell), 0.04))


def test_a_typed_zero_is_a_reading_and_an_empty_cell_is_none(call):
    assert call("ENG_QUENCH", Cells((0.0,)), 0.04) == 0.04
    assert is_error(call("ENG_QUENCH", Cells((None,)), 0.04))


def test_a_place_left_empty_between_commas_gives_an_error_value(call):
    assert is_error(call("ENG_QUENCH", OMITTED, 0.04))


def test_a_wrong_unit_system_or_an_impossible_value_gives_an_error_value(call):
    assert is_error(call("ENG_QUENCH", 0.002, 0.04, "imperial"))
    assert is_error(call("ENG_QUENCH", 0.002, 0.0))
    assert is_error(call("ENG_QUENCH", 0.002, -0.04))


@pytest.mark.parametrize(
    ("rows", "shape"),
    [
        (((0.001,), (None,), (0.003,)), [[0.041], ["error"], [0.043]]),
        (((0.001, None, 0.003),), [0.041, "error", 0.043]),
        (((0.001, error("#N/A")), ("2 thou", "?")), [[0.041, "error"], [0.042, "error"]]),
    ],
)
@pytest.mark.parametrize("pass_on", [lambda rows: rows, lambda rows: Cells(*rows)])
def test_a_range_gives_a_matching_array_with_errors_in_place(
    call,
    rows,
    shape,
    pass_on,
):
    def simple(value):
        if isinstance(value, list):
            return [simple(part) for part in value]
        return "error" if is_error(value) else round(value, 12)

    assert simple(call("ENG_QUENCH", pass_on(rows), 0.04)) == shape


def test_two_ranges_of_different_size_give_an_error_value(call):
    assert is_error(call("ENG_QUENCH", ((0.1,), (0.2,)), ((0.1,), (0.2,), (0.3,))))


def test_a_reading_that_was_not_taken_is_counted(call):
    taken = Cells((0.0021, 0.0023), (0.0022, 0.0020))
    missing = Cells((0.0021, 0.0023), (None, 0.0020))
    assert call("ENG_MEAN_READING", taken, 4.0) == pytest.approx(0.00215, rel=1e-12)
    assert is_error(call("ENG_MEAN_READING", missing, 4.0))
    assert is_error(call("ENG_MEAN_READING", Cells((0.1, error("#N/A"))), 2.0))


@pytest.mark.parametrize("text", ["#N/A", "#CALC!"])
def test_an_error_among_readings_is_never_skipped(call, text):
    assert is_error(call("ENG_MEAN_READING", Cells((0.1, error(text))), 1.0))
    blocks = [
        (name, position)
        for name in {name for name, _ in CALLS}
        for position, parameter in enumerate(find(name).parameters)
        if parameter.block
    ]
    assert blocks
    for name, position in blocks:
        arguments = list(map(com_value, example(name)))
        *rows, (*line, _) = arguments[position]
        arguments[position] = Cells(*rows, (*line, error(text)))
        assert is_error(call(f"ENG_{name}", *arguments)), name


def test_every_function_refuses_an_empty_cell_as_its_first_argument(call):
    for name in {name for name, _ in CALLS}:
        rest = example(name)[1:]
        with pytest.raises(ArgumentError):
            calculate(find(name), [None, *rest])
        assert is_error(call(f"ENG_{name}", Cells((None,)), *map(com_cells, rest))), name


def test_without_xlwings_the_package_works_and_the_functions_say_what_to_install():
    program = (
        "import sys; sys.modules['xlwings'] = sys.modules['win32com'] = None\n"
        "import workbook_tools.catalog, workbook_tools.hosts.excel as excel\n"
        "from pathlib import Path\n"
        "try: excel.connect(excel.Places(Path(), Path()))\n"
        "except excel.ExcelError as error: print(error)\n"
        "try: import workbook_tools.hosts.excel.functions\n"
        "except ImportError as error: print(error)\n"
    )
    told = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True)
    assert told.stderr == ""
    connected, imported = told.stdout.splitlines()
    assert r'pip install "PATH\TO\THE\CLONE[excel]"' in connected
    assert r'pip install "PATH\TO\THE\CLONE[excel]"' in imported
    assert "workbook-tools portable" in imported


def test_a_cell_tells_why_another_shows_an_error(call, tmp_path):
    save_reasons_book(tmp_path / "book.xlsx")
    book = OpenBook(tmp_path / "book.xlsx")
    told = {a: call("ENG_WHY", cells) for a, cells in book.pointed_at("ENG.WHY").items()}
    check_words(told, error="#VALUE!")

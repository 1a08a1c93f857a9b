"""Formulas that break what reads them cost their own cell, and are told with its address."""

from __future__ import annotations

import pytest

from workbook_tools.formulas.references import Place
from workbook_tools.jobs.read import read_book

GOOD = [["Deck (in)", 0.01], ["Gasket (in)", 0.04], ["Quench (in)", "=ENG.QUENCH(B1,B2)"]]


def read(make_book, *formulas):
    """{address: record} of a small good book with more formulas below, and its troubles."""
    path = make_book({"S": [*GOOD, *([f"Item {n}", f] for n, f in enumerate(formulas))]})
    book = read_book(path)
    return {r.place.address: r for r in book.records}, book.troubles


@pytest.mark.parametrize(
    "formula",
    ["=ENG.QUENCH(B1,B2,)", "=ENG.QUENCH(B1,B2, )", "=IF(TRUE,ENG.QUENCH(B1,B2,),)"],
)
def test_an_empty_last_argument_is_one_that_was_left_out(make_book, formula):
    records, _ = read(make_book, formula)
    assert records["B4"].value == pytest.approx(0.05)
    assert not records["B4"].problem


@pytest.mark.parametrize("formula", ["=ENG.QUENCH(B1,)", "=ENG.QUENCH(,)", "=ENG.QUENCH(B1,B2,,)"])
def test_an_empty_argument_that_is_needed_is_refused(make_book, formula):
    records, _ = read(make_book, formula)
    assert "expected" in records["B4"].problem
    assert records["B3"].value == pytest.approx(0.05)


@pytest.mark.parametrize(
    ("step", "length"), [("=B{}", 3000), ("=B{}+0", 900), ("=ENG.QUENCH(B{},0.01)-0.01", 300)]
)
def test_a_chain_of_cells_that_were_never_saved_is_followed_to_its_end(make_book, length, step):
    chain = [["", step.format(row - 1)] for row in range(5, 5 + length)]
    rows = [*GOOD, ["Start", 0.01], *chain, ["End", f"=ENG.QUENCH(B{4 + length},B2)"]]
    book = read_book(make_book({"S": rows}))
    last = next(r for r in book.records if r.place.address == f"B{5 + length}")
    assert last.value == pytest.approx(0.05)
    assert not last.problem


def test_a_long_chain_that_ends_in_an_impossible_cell_is_told_as_such(make_book):
    chain = [["", f"=B{row - 1}"] for row in range(5, 405)]
    rows = [*GOOD, ["Start", "=NOSUCH(1)"], *chain, ["End", "=ENG.QUENCH(B404,B2)"]]
    records = {r.place.address: r for r in read_book(make_book({"S": rows})).records}
    assert "does not know" in records["B405"].problem
    assert records["B3"].value == pytest.approx(0.05)


@pytest.mark.parametrize("number", ["1" + "0" * 400, "1e400", "-1e999", "9" * 400 + "%"])
def test_a_number_beyond_all_costs_its_own_cell(make_book, number):
    records, _ = read(make_book, f"=ENG.QUENCH({number},B2)", f"=ENG.DISPLACEMENT(4,3,{number})")
    assert "expected a length" in records["B4"].problem
    assert "expected a" in records["B5"].problem
    assert records["B3"].value == pytest.approx(0.05)


@pytest.mark.parametrize(
    ("start", "depth"),
    [("ENG.QUENCH(", 65), ("ENG.QUENCH(", 300), ("ENG.QUENCH(", 900), ("1+ENG.QUENCH(", 250)],
)
def test_calls_nested_beyond_what_a_program_allows_cost_their_own_cell(make_book, start, depth):
    records, troubles = read(make_book, "=" + start * depth + "B1" + ",B2)" * depth)
    (told,) = [t for t in troubles if t.place == Place("S", "B4")]
    assert "too deeply" in told.message
    assert records["B3"].value == pytest.approx(0.05)


# As thin a gasket as lets each of the 64 quenches be one that an engine can have.
@pytest.mark.parametrize("start", ["ENG.QUENCH(", "0.01+ENG.QUENCH(", "IF(TRUE,ENG.QUENCH("])
def test_calls_nested_as_deep_as_a_program_allows_are_read(make_book, start):
    end = ",0.01)" + ",0)" * start.count("IF")
    records, troubles = read(make_book, "=" + start * 64 + "B1" + end * 64)
    assert not troubles
    assert records["B4"].value is not None
    assert not records["B4"].problem


@pytest.mark.parametrize(
    "formula",
    [
        "=ENG.QUENCH({},B2)",
        "=ENG.QUENCH({1,},B2)",
        "=ENG.QUENCH([,B2)",
        "=ENG.QUENCH(''!B1,B2)",
        "=ENG.QUENCH(T[#All],B2)",
        "=ENG.QUENCH(B0,B2)",
        "=ENG.QUENCH(XFE1,B2)",
        "=ENG.QUENCH(" + "(" * 900 + "B1" + ")" * 900 + ",B2)",
        "=" + "SUM(" * 900 + "ENG.QUENCH(B1,B2)" + ")" * 900,
        "=" + "LET(a,B1," * 200 + "ENG.QUENCH(a,B2)" + ")" * 200,
    ],
)
def test_odd_formulas_leave_the_other_cells_as_they_are(make_book, formula):
    records, troubles = read(make_book, formula)
    assert records["B3"].value == pytest.approx(0.05)
    assert "B4" in records or any(t.place == Place("S", "B4") for t in troubles)

"""Recalculation from the readings up: what feeds the calls is judged too."""

import pytest

from workbook_tools.findings import check
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.read import read_book

ROWS = [
    ["Deck height", 9.0],
    ["Stack", "=7.5+1.496"],
    ["Deck clearance", "=B1-B2"],
    ["Quench", "=ENG.QUENCH(B3,0.04)"],
    ["Rounded", "=ROUND(B4,2)"],
    ["Verdict", "=ENG.VERDICT(B5,0.03,0.06)"],
]


def test_a_stale_ordinary_formula_is_told_with_what_follows(make_book):
    saved = {"B2": 8.996, "B3": 0.002, "B4": 0.042, "B5": 0.04, "B6": "ok"}
    book = read_book(make_book({"S": ROWS}, {"S": saved}))
    assert [r.state for r in book.records] == ["same", "same"]
    (stale,) = book.stale_formulas
    assert (stale.place, stale.saved, stale.fresh) == (
        Place("S", "B3"), 0.002, pytest.approx(0.004))  # fmt: skip
    assert book.records[0].fresh == pytest.approx(0.044)
    (finding,) = check(book)
    assert "saved as 0.002" in finding.message
    assert "=B1-B2 comes to 0.004" in finding.message
    assert "ENG.QUENCH in B4 then comes to 0.044, not 0.042" in finding.message


def test_a_book_that_was_saved_in_step_has_nothing_stale(make_book):
    saved = {"B2": 8.996, "B3": 0.004, "B4": 0.044, "B5": 0.04, "B6": "ok"}
    book = read_book(make_book({"S": ROWS}, {"S": saved}))
    assert book.stale_formulas == ()
    assert check(book) == ()


def test_calls_that_feed_formulas_that_feed_calls_settle(make_book):
    """Saved values are all of an older state; every step has to move."""
    saved = {"B2": 8.99, "B3": 0.01, "B4": 0.05, "B5": 0.05, "B6": "ok"}
    book = read_book(make_book({"S": ROWS}, {"S": saved}))
    fresh = {r.place.address: r.fresh for r in book.records}
    assert fresh == {"B4": pytest.approx(0.044), "B6": "ok"}
    assert {f.place.address: f.fresh for f in book.stale_formulas} == {
        "B2": pytest.approx(8.996),
        "B3": pytest.approx(0.004),
        "B5": pytest.approx(0.04),
    }


def test_what_the_engine_does_not_know_keeps_its_saved_value_and_is_said(make_book):
    rows = [["=NO_SUCH_FUNCTION(1)", "=A1+0.5", "=ENG.QUENCH(B1,0.04)"]]
    book = read_book(make_book({"S": rows}, {"S": {"A1": 0.5, "B1": 1.0, "C1": 1.04}}))
    assert [(p.address, "does not know" in why) for p, why in book.not_recalculated] == [
        ("A1", True)
    ]
    assert book.stale_formulas == ()
    assert book.records[0].state == "same"


def test_today_is_never_stale(make_book):
    rows = [["=TODAY()", "=ENG.QUENCH(0.01,IF(A1>0,0.03,0.03))"]]
    book = read_book(make_book({"S": rows}, {"S": {"A1": 45000, "B1": 0.04}}))
    assert book.stale_formulas == ()


def test_chained_calls_are_judged_from_the_readings_up(make_book):
    rows = [[0.004, "=ENG.QUENCH(A1,0.02)", "=ENG.QUENCH(B1,0.02)"]]
    book = read_book(make_book({"S": rows}, {"S": {"B1": 0.03, "C1": 0.05}}))
    first, second = book.records
    assert (first.state, second.state) == ("stale", "same")
    assert second.fresh == pytest.approx(0.044)

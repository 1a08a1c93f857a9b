"""Cards of one form, a job each: a result typed over, and weights that were taken from another."""

from __future__ import annotations

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs

RESULT = "=2*(E8+H4)+C8+H3"


def card(number, piston, ends, result=RESULT):
    """A balancing card with weights of four pistons and rods, and what comes of them."""
    total, big, small = ends
    rows = [[n, piston, piston, total, big, small] for n in range(1, 5)]
    rows[0] += ["Pin", 118]
    rows[1] += ["Rings", 43.6]
    rows[3] += ["Bobweight", result]
    return [
        ["Card", number],
        ["Cyl", "Piston rec'd g", "Piston matched g", "Rod total g", "Rod big g", "Rod small g"],
        *rows,
        [],
        ["avg", *[f"=AVERAGE({c}3:{c}6)" for c in "BCDEF"]],
    ]


ENDS = (595.8, 438.8, 157.0)


@pytest.fixture
def told(make_book):
    """told(cards) -> {(code, job, cell): message} of a file of these cards."""

    def of(*cards):
        sheets = {rows[0][1]: rows for rows in cards}
        books = read_jobs(make_book(sheets))
        return {
            (f.code, book.part, f.place.address): f.message
            for book in books
            for f in check(book)
            if f.place
        }

    return of


def test_a_result_typed_where_the_other_cards_have_a_formula(told):
    cards = [card(f"B-61{n}", 512.5 + n, ENDS) for n in range(1, 4)]
    found = told(*cards, card("B-617", 471.5, ENDS, 1824))
    message = found["typed-over", "B-617", "H6"]
    assert message.endswith("H6 on B-611 has a formula, which comes to 1554.3 here.")


@pytest.mark.parametrize(
    "cards",
    [
        # As the formula has it, rounded.
        [card("B-617", 471.5, ENDS, 1554)],
        # Nothing was weighed: the number is all that there is.
        [[*card("B-617", 471.5, ENDS, 1824)[:7], ["avg"]]],
    ],
)
def test_a_typed_number_that_may_stand(told, cards):
    found = told(*[card(f"B-61{n}", 512.5 + n, ENDS) for n in range(1, 4)], *cards)
    assert not [key for key in found if key[0] == "typed-over"]


def test_ends_that_weigh_more_than_the_rod_are_those_of_another(told):
    found = told(card("B-611", 512.5, ENDS), card("B-617", 497, (598.3, 548.0, 162.0)))
    assert {job for code, job, _ in found if code == "contradicts-its-sizes"} == {"B-617"}
    assert "3 more of the line" in found["contradicts-its-sizes", "B-617", "D3"]
    # With caps and bolts a rod may be more than its ends.
    more = told(card("B-611", 512.5, ENDS), card("B-617", 497, (640.0, 438.8, 157.0)))
    assert not [key for key in more if key[0] == "contradicts-its-sizes"]

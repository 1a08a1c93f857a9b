"""Typed totals of a balance card that do not add up. That shops keep them so is common practice,
no source; the sums are arithmetic."""

from __future__ import annotations

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book

CARD = [["Balance card", "(g)"], ["Piston", 412], ["Pin", 118], ["Rings", 42], ["Locks", 4]]


@pytest.fixture
def told(make_book):
    """told(rows) -> {cell: message} of the totals that are told of."""

    def totals(rows):
        found = check(read_book(make_book({"S": rows})))
        return {f.place.address: f.message for f in found if f.code == "total-not-sum"}

    return totals


@pytest.mark.parametrize(
    ("label", "total", "why"),
    [
        ("Total", 567, "two of its digits are exchanged"),
        ("Total weight", 458, "it leaves out Pin (B3), 118 g"),
        ("Summe", 578, "one digit is another"),
    ],
)
def test_a_total_with_one_slip_says_which(told, label, total, why):
    assert why in told([*CARD, [label, total]])["B6"]


@pytest.mark.parametrize("total", [576, 576.4, 1152, 288, 640])
def test_a_total_that_agrees_or_counts_otherwise_is_not_told(told, total):
    # Twice the sum is that of two cylinders, and 640 is explained by no one slip.
    assert not told([*CARD, ["Total", total]])


def test_totals_of_a_table_are_told_row_by_row(told):
    rows = [["cyl (grams)", "piston", "pin", "rings", "locks", "total"]]
    rows += [[n, 412, 118, 42, 4, 576] for n in range(1, 5)]
    rows[3][5] = 572
    assert list(told(rows)) == ["F4"]
    assert "leaves out locks" in told(rows)["F4"]


def test_what_is_not_weighed_has_no_total(told):
    assert not told([["Torque (Nm)", ""], ["Main", 90], ["Rod", 60], ["Head", 80], ["Total", 203]])

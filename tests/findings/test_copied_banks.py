"""Banks and bores whose readings are another one's are told; what was set alike is not."""

from __future__ import annotations

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book

LEFT = [4.0302, 4.0298, 4.0305, 4.0300]
OTHER = [4.0301, 4.0299, 4.0304, 4.0303]


@pytest.fixture
def copied(make_book):
    """copied(rows) -> {cell: message} of what looks copied in a book of these rows."""

    def of(rows):
        findings = check(read_book(make_book({"S": rows})))
        return {f.place.address: f.message for f in findings if f.code == "copied-part"}

    return of


def by_bank(right):
    heads = [f"{bank}{n}" for bank in "LR" for n in (1, 2, 3, 4)]
    return [["Bore (in)", *heads], ["Found", *LEFT, *right]]


def through(first, second):
    return [["Cyl", *range(1, 9)], ["Bore (in)", *first, *second]]


def by_turns(odd, even):
    sizes = [size for pair in zip(odd, even, strict=True) for size in pair]
    return [["Cyl", *range(1, 9)], ["Bore (in)", *sizes]]


@pytest.mark.parametrize(
    ("table", "cell", "ours", "theirs"),
    [
        (lambda right: through(LEFT, right), "F2", "5, 6, 7, 8", "1, 2, 3, 4"),
        (lambda right: by_turns(LEFT, right), "C2", "2, 4, 6, 8", "1, 3, 5, 7"),
        (by_bank, "F2", "R1, R2, R3, R4", "L1, L2, L3, L4"),
    ],
    ids=["half by half", "odd and even", "by name"],
)
def test_a_bank_copied_from_the_other_is_told(copied, table, cell, ours, theirs):
    told = copied(table(LEFT))
    assert list(told) == [cell]
    assert f"the same for the cylinders {ours} as for {theirs}, one by one" in told[cell]
    assert copied(table(OTHER)) == {}


def test_what_was_set_alike_is_no_copy(copied):
    lash = [0.014, 0.016, 0.018, 0.015]
    assert copied([["Cyl", *range(1, 9)], ["Intake lash (in)", *lash, *lash]]) == {}


def test_bores_that_are_all_alike_are_no_copy(copied):
    assert copied(through([4.03, 4.03, 4.03, 4.03], [4.03, 4.03, 4.03, 4.03])) == {}


HEIGHTS = [
    ["Bore (mm)", 1, 2, 3, 4, 5, 6],
    ["Top", 86.012, 86.014, 86.013, 86.011, 86.015, 86.016],
    ["Middle", 86.010, 86.009, 86.011, 86.008, 86.013, 86.012],
    ["Bottom", 86.005, 86.007, 86.006, 86.004, 86.009, 86.008],
]


def test_all_readings_of_one_bore_copied_from_the_one_before_are_told(copied):
    assert copied(HEIGHTS) == {}
    told = copied([HEIGHTS[0], *([*row[:4], row[3], *row[5:]] for row in HEIGHTS[1:])])
    assert list(told) == ["E2"]
    assert "has the same numbers as 3 in all 3 lines" in told["E2"]


def test_a_round_bore_reads_the_same_everywhere(copied):
    assert copied([HEIGHTS[0], *([row[0], *[86.01] * 6] for row in HEIGHTS[1:])]) == {}

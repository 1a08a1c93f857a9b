"""A cylinder whose readings are all those of its neighbor is told; coarse readings are not."""

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book

HEADS = ["Cyl", "Bore (mm)", "Piston (mm)", "Top ring gap (mm)", "Second ring gap (mm)",
         "Oil ring gap (mm)", "Deck clearance (mm)"]  # fmt: skip
ROWS = [
    [1, 70.504, 70.421, 0.25, 0.25, 0.22, 1.12],
    [2, 70.507, 70.424, 0.27, 0.24, 0.20, 1.08],
    [3, 70.502, 70.418, 0.28, 0.26, 0.23, 1.15],
    [4, 70.509, 70.425, 0.26, 0.27, 0.21, 1.11],
]


@pytest.fixture
def found(make_book):
    def of(rows):
        findings = check(read_book(make_book({"S": [HEADS, *rows]})))
        return {f.place.address: f for f in findings if f.code == "copied-part"}

    return of


def test_a_cylinder_copied_from_the_one_before_is_told(found):
    assert found(ROWS) == {}
    told = found([*ROWS[:3], [4, *ROWS[2][1:]]])
    assert list(told) == ["B5"]
    assert told["B5"].message == "Cyl 4 has the same numbers as Cyl 3 in all 6 lines."
    assert [place.address for place in told["B5"].places] == ["B5", "C5", "D5", "E5", "F5", "G5"]


def test_one_reading_of_its_own_among_few_is_enough(found):
    assert found([*ROWS[:3], [4, 70.503, *ROWS[2][2:]]]) == {}


def test_readings_that_are_alike_everywhere_say_nothing(found):
    alike = [[n, 70.50, 70.42, 0.25, 0.25, 0.20, 1.1] for n in range(1, 5)]
    assert found(alike) == {}


MORE = ["Piston clearance top (mm)", "Chamber volume (cc)", "Piston mass (g)", "Pin mass (g)"]
OWN = [[0.084, 41.2, 301.5, 88.1], [0.083, 41.4, 301.2, 88.4], [0.082, 41.1, 301.9, 88.2]]


def test_many_lines_in_a_row_are_told_where_others_differ(make_book):
    last = [4, *ROWS[2][1:], *OWN[2][:2], 301.4, 88.3]
    rows = [[*row, *own] for row, own in zip(ROWS[:3], OWN, strict=True)]
    book = make_book({"S": [[*HEADS, *MORE], *rows, last]})
    (told,) = [f for f in check(read_book(book)) if f.code == "copied-part"]
    assert told.message == "Cyl 4 has the same numbers as Cyl 3 in 8 lines."


# Two ways across a bore at three heights, the way told by letters alone.
HEIGHTS = [
    ["Cyl.", "Haut", None, "Milieu", None, "Bas", None],
    [None, "T", "L", "T", "L", "T", "L"],
]
ACROSS = [
    [1, 98.017, 98.014, 98.013, 98.012, 98.011, 98.009],
    [2, 98.019, 98.015, 98.016, 98.011, 98.013, 98.010],
    [3, 98.018, 98.016, 98.014, 98.013, 98.012, 98.008],
    [4, 98.016, 98.013, 98.012, 98.014, 98.010, 98.011],
]


def test_a_cylinder_copied_at_all_its_heights_is_told(make_book):
    def told(rows):
        book = read_book(make_book({"Cylindres": [["Alésages mm"], *HEIGHTS, *rows]}))
        return [f.message for f in check(book) if f.code == "copied-part"]

    assert told(ACROSS) == []
    copied = [*ACROSS[:2], [3, *ACROSS[1][1:]], ACROSS[3]]
    assert len(told(copied)) == 1

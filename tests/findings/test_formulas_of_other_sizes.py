"""Digits exchanged near the others, and results that take more than the sizes beside them."""

from __future__ import annotations

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book


@pytest.fixture
def found(make_book):
    """found(rows, saved) -> {cell: code} of what is told of a book of these rows."""

    def codes(rows, saved):
        book = read_book(make_book({"S": rows}, {"S": saved}))
        return {f.place.address: f.code for f in check(book) if f.place is not None}

    return codes


def test_two_digits_exchanged_are_told_near_the_others(found):
    bores = [86.975, 86.975, 86.974, 86.975, 86.957, 86.975, 86.976, 86.975]
    rows = [["Cylinder", *range(1, 9)], ["Bore (mm)", *bores], ["Piston (mm)", *[86.925] * 8]]
    assert found(rows, {}).get("F2") == "digits-exchanged"
    whole = [*bores[:4], 86.970, *bores[5:]]
    assert "F2" not in found([rows[0], ["Bore (mm)", *whole], rows[2]], {})


CYLINDERS = [
    ["Cyl (in)", "Bore", "Bore across", "Piston", "Clearance"],
    *([n, 4.0302, 4.0302, 4.0262, f"=B{n + 1}-D{n + 1}"] for n in (1, 2, 3)),
]


def test_a_clearance_of_a_mean_is_not_held_to_one_of_the_bores(found):
    last = [4, 4.0302, 4.0312, 4.0262, "=AVERAGE(B5:C5)-D5"]
    saved = {"E2": 0.0040, "E3": 0.0040, "E4": 0.0040, "E5": 0.0045}
    assert "contradicts-its-sizes" not in found([*CYLINDERS, last], saved).values()

"""What is worked out from a wrong number is told with it, as a colleague would."""

from __future__ import annotations

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs

HEAD = [["Job", "31"], ["Engine", "inline four"]]


@pytest.fixture
def found(make_book):
    """found(rows) -> {code: finding} of what is found on a book of these rows."""

    def codes(rows):
        (book,) = read_jobs(make_book({"S": rows}))
        return {finding.code: finding for finding in check(book)}

    return codes


def test_an_exchanged_stroke_is_told_with_the_displacement_that_takes_it(found):
    rows = [
        ["Bore nominal (mm)", 79], ["Stroke (mm)", 92], [], ["Cyl", 1, 2, 3, 4],
        ["Bore (mm)", 92.01, 92.02, 92.01, 92.01],
        ["Displacement (cc)", "=PI()/4*(B7/10)^2*B4/10*4"],
    ]  # fmt: skip
    told = found([*HEAD, *rows])["bore-and-stroke"]
    assert "Displacement (B8) is worked out from them." in told.message
    assert "S!B8" in map(str, told.places)


def test_a_sum_cut_short_is_told_with_what_takes_it(found):
    rows = [
        ["Piston (g)", 402], ["Pin (g)", 118], ["Rings (g)", 38], ["Rod small end (g)", 171],
        ["Rod big end (g)", 402], ["Rod bearing (g)", 44],
        ["Reciprocating weight (g)", "=B3+B4+B6"], ["Rotating weight (g)", "=SUM(B7:B8)"],
        ["Bobweight (g)", "=0.5*2*B9+2*B10"],
    ]  # fmt: skip
    told = [f for f in found([*HEAD, *rows]).values() if f.place and f.place.address == "B9"]
    assert all("Bobweight (g) (B11) is worked out from it." in f.message for f in told)


def test_a_number_that_is_only_out_of_its_band_is_told_alone(found):
    """A clearance out of its limits was measured; nothing that takes it is wrong by that."""
    rows = [
        ["", "limit low", "limit high", "measured"],
        ["Stroke (mm)", 79.95, 80.05, 80.2], ["Bore (mm)", 80, 80.02, 80.01],
        ["Displacement (cc)", None, None, "=PI()/4*(D5/10)^2*D4/10*4"],
    ]  # fmt: skip
    told = found([*HEAD, *rows]).get("out-of-band")
    assert told is not None
    assert "worked out from" not in told.message

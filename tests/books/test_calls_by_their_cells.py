"""What a call's cells tell of it: which bearing it is for.

That shops keep such sheets is common practice, no source.
"""

from __future__ import annotations

import pytest
from example_builds import EXAMPLES

from workbook_tools.jobs.read import read_jobs


def read_one(make_book, rows):
    (book,) = read_jobs(make_book({"S": [["Job", "55218"], ["Engine", "four"], [], *rows]}))
    return book


def record_at(book, address):
    return next(r for r in book.records if r.place.address == address)


def test_a_clearance_is_of_the_bearing_whose_sizes_it_takes(make_book):
    rows = [
        ["Cylinder", 1, 2],
        ["Big end housing", 1.8955, 1.8954],
        ["Shell", 0.0723, 0.0724],
        ["Crankpin", 1.7487, 1.7488],
        ["Oil", "=ENG.BEARING_CLEARANCE(B5,B6,B7)", "=ENG.BEARING_CLEARANCE(C5,C6,C7)"],
    ]
    book = read_one(make_book, rows)
    assert record_at(book, "B8").measurand == "rod_bearing_clearance"
    # The general function on cells of no bearing keeps its general name.
    bare = read_one(make_book, [["a", 1.8955], ["b", 0.0723], ["c", 1.7487], ["d", rows[4][1]]])
    assert {r.measurand for r in bare.records} <= {"bearing_clearance"}


def test_the_mean_of_readings_is_what_is_worked_out_of_it(make_book):
    rows = [
        ["Hole", "Top", "Middle", "Bottom", "Mean", "Piston", "Fit"],
        *([n, 4.0403, 4.0402, 4.0401, f"=ENG.MEAN_READING(B{r}:D{r})", 4.0352,
           f"=ENG.PISTON_CLEARANCE(E{r},F{r})"] for n, r in ((1, 5), (2, 6))),
    ]  # fmt: skip
    book = read_one(make_book, rows)
    mean = record_at(book, "E5")
    assert (mean.measurand, mean.unit, mean.part.which) == ("bore", "in", "1")
    by_cell = {r.place.address: r for r in book.readings}
    assert [by_cell[at].measurand for at in ("B5", "C5", "D6")] == ["bore"] * 3
    assert by_cell["C6"].si == pytest.approx(4.0402 * 0.0254)
    # Nothing is worked out of this one.
    bare = read_one(make_book, [row[:5] for row in rows])
    assert record_at(bare, "E5").measurand == ""


def test_the_mean_of_a_side_has_the_number_of_what_is_worked_out_of_it() -> None:
    (job,) = read_jobs(EXAMPLES / "flat_twin.xlsx")
    means = [r for r in job.records if r.place.address in ("B16", "C16")]
    told = [
        (r.measurand, r.part.number, r.part.bank) for r in means if r.place.sheet == "Cylinders"
    ]
    assert told == [("bore", 1, "L"), ("bore", 2, "R")]

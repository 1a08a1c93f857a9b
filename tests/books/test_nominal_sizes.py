"""Sizes written as hundredths or tenths over a nominal size, and their neighbors.

That shops write sizes so, with a gauge set to a ring, is common practice, no source.
"""

from __future__ import annotations

import pytest

from workbook_tools.jobs.read import read_jobs


def told(book):
    return {r.place.address: (r.measurand, r.part.which, r.value, r.state) for r in book.readings}


def test_amounts_beside_a_column_of_nominal_sizes(make_book):
    rows = [
        ["Job", "118"],
        ["Amounts in hundredths of a mm over nominal"],
        [],
        ["Part", "Nominal mm", 1, 2, 3],
        ["Liner bore", 98, 2, 1, 2],
        ["Piston skirt", 97.88, -1, 0, -1],
        ["Piston clearance 1/100", None, 15, 13, 15],
    ]
    (book,) = read_jobs(make_book({"S": rows}))
    found = told(book)
    assert found["C5"] == ("bore", "1", 98.02, "read")
    assert found["D5"] == ("bore", "2", 98.01, "read")
    assert found["C6"] == ("piston_diameter", "1", 97.87, "read")
    assert found["D6"] == ("piston_diameter", "2", 97.88, "read")
    assert found["C7"] == ("piston_clearance", "1", 0.15, "read")
    assert next(r.note for r in book.readings if r.place.address == "C5") == (
        "over the nominal 98 mm"
    )


def test_amounts_in_the_unit_of_their_head(make_book):
    rows = [
        ["Job", "118"],
        [],
        ["Cyl", "Nominal in", "Bore (thou)", "Clearance (thou)"],
        [1, 4.25, 5, 6],
        [2, 4.25, 6, 6.5],
    ]
    (book,) = read_jobs(make_book({"S": rows}))
    found = told(book)
    assert found["C4"] == ("bore", "1", 4.255, "read")
    assert found["C5"] == ("bore", "2", 4.256, "read")
    assert found["D4"] == ("piston_clearance", "1", 0.006, "read")


def test_a_nominal_size_in_the_title_over_a_table(make_book):
    rows = [
        ["Job", "77"],
        [],
        ["Cylinder bores, set on 86.00 (deviation in 1/100 mm)"],
        ["Cyl", 1, 2, 3, 4],
        ["top", "+1", "+2", "+1", "+1"],
        ["bottom", 1, 1, 2, 1],
    ]
    (book,) = read_jobs(make_book({"S": rows}))
    top = [r.value for r in book.readings if r.place.address in ("B5", "C5", "D5", "E5")]
    assert top == [86.01, 86.02, 86.01, 86.01]


@pytest.mark.parametrize("label", ["Stroke", "Deck clearance"])
def test_sizes_stay_sizes_below_a_note_about_amounts(make_book, label):
    size = {"Stroke": 84.0, "Deck clearance": 0.5}[label]
    rows = [
        ["Job", "77"], ["Bore gauge set on 86.00, deviations in 1/100 mm"], [],
        [f"{label} (mm)", size],
    ]  # fmt: skip
    (book,) = read_jobs(make_book({"S": rows}))
    assert [r.value for r in book.readings if r.place.address == "B4"] == [size]

"""Engines of one cylinder, and of a front and a rear one, as their builders' books name them.

That builders write so is common practice, no source; sizes are from memory, and sound with each
other.
"""

from __future__ import annotations

import pytest
from small_sheet import in_words, told

from workbook_tools.jobs.read import read_jobs

SIZES = [["Bore (mm)", 66.253], ["Piston (mm)", 66.19], ["Stroke (mm)", 72]]


def positions(make_book, engine, rows=SIZES):
    job = [["Job", "26-041"], ["Customer", "Ostrow"], ["Engine", engine], []]
    (book,) = read_jobs(make_book({"S": [*job, *rows]}))
    return {r.measurand: in_words(r) for r in book.readings}


@pytest.mark.parametrize(
    "engine",
    ["Marlow 250 single", "Einzylinder Dornfeld", "Marlow 250 two-stroke", "Dornfeld 250 Zweitakt"],
)
def test_a_name_tells_an_engine_of_one_cylinder(make_book, engine):
    assert positions(make_book, engine)["bore"] == "bore 1 66.253 mm"


@pytest.mark.parametrize("engine", ["Marlow 500 twin", "Marlow 350", "Marlow type 7", "Marlow"])
def test_a_name_that_does_not_tell_numbers_nothing(make_book, engine):
    assert positions(make_book, engine)["bore"] == "bore 66.253 mm"


def test_sizes_of_a_second_cylinder_are_of_no_single(make_book):
    rows = [["", "Cyl 1", "Cyl 2"], ["Bore (mm)", 66.253, 66.252], ["Piston (mm)", 66.19, 66.19]]
    assert positions(make_book, "Marlow single", rows)["bore"] == "bore 2 66.252 mm"


@pytest.mark.parametrize(
    "ends",
    [
        ("FRONT CYLINDER", "REAR CYLINDER"),
        ("Front jug", "Rear jug"),
        ("Zylinder vorn", "Zylinder hinten"),
        ("Cilindro anteriore", "Cilindro posteriore"),
    ],
)
@pytest.mark.parametrize("after", ["done", "redone"])
def test_a_twins_cylinders_over_found_and_done(tmp_path, ends, after):
    rows = [
        ["", "", "", ends[0], "", ends[1]],
        ["Item", "Unit", "Limit", "found", after, "found", after],
        ["Cylinder bore", "in", "max 3.7530", 3.7521, 3.7553, 3.7524, 3.7554],
        ["Top ring gap", "thou", "15 - 22", 31, 17, 34, 18],
        ["Oil rail gap", "thou", "15 - 50", None, 25, None, 26],
    ]
    found = told(tmp_path, rows)
    assert found["D7"] == "bore 1 found 3.7521 in"
    assert found["E7"] == "bore 1 final 3.7553 in"
    assert found["F8"] == "top_ring_gap 2 found 0.034 in"
    assert found["G9"] == "oil_ring_gap 2 final 0.026 in"


def test_a_word_nobody_knows_behind_one_of_two_found_says_nothing(tmp_path):
    rows = [
        ["", "", "Cyl 1", "", "Cyl 2"],
        ["Item", "Unit", "found", "plonk", "found", "after"],
        ["Cylinder bore", "in", 3.7521, 3.7553, 3.7524, 3.7554],
    ]
    assert "final" not in told(tmp_path, rows).get("D7", "")

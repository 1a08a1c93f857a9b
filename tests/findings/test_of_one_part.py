"""Sizes of one part that stand in several lines: before the work and after it, coarse and fine.

That a part is measured more than once in a job is common practice, no source.
"""

from __future__ import annotations

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs

HEAD = [["Job", "26-041"], ["Engine", "four"]]


@pytest.fixture
def told(make_book):
    """told(rows) -> {(code, cell)} of what is found on a job with these rows below its head."""

    def of(*rows):
        (book,) = read_jobs(make_book({"S": [*HEAD, *rows]}))
        return {(f.code, f.place.address) for f in check(book) if f.place}

    return of


JOURNALS = (49.946, 49.944, 49.945, 49.946, 49.945)
SHELLS = (50.002, 50.001, 50.003, 50.002, 50.001)
FIVE = ("Main", 1, 2, 3, 4, 5)
OLD = ("Main journal mm", 50.2, 50.19, 50.21, 50.2, 50.18)


def test_a_journal_before_the_work_need_not_go_into_the_new_bearing(told):
    bearing = ("Main bearing bore mm", *SHELLS)
    found = told(FIVE, OLD, ("Main journal ground mm", *JOURNALS), bearing)
    assert not {code for code, _ in found} & {"sizes-out-of-order", "rounded-readings"}
    assert told(FIVE, OLD, bearing)


@pytest.mark.parametrize(
    ("pistons", "is_coarse"),
    [((90.455, 90.455, 90.45, 90.455), False), ((90.453, 90.457, 90.451, 90.456), True)],
)
def test_sizes_to_half_a_step_may_be_whole_by_chance(told, pistons, is_coarse):
    bores = ("Bore mm", 90.51, 90.5, 90.51, 90.51)
    found = told(("Cylinder", 1, 2, 3, 4), bores, ("Piston mm", *pistons))
    assert (("rounded-readings", "B4") in found) == is_coarse


def test_a_clearance_is_held_to_the_bore_as_it_was_finished(told):
    heads = ("Bore in", "Bore finished in", "Piston in", "Piston clearance final thou")
    right = told(heads, (4.0538, 4.0812, 4.0772, 4.0))
    wrong = told(heads, (4.0538, 4.0812, 4.0772, 2.8))
    assert not right
    assert ("contradicts-its-sizes", "D4") in wrong


def test_a_size_without_a_unit_is_asked_about_and_fits_as_well_as_any(make_book):
    rows = [
        ["Cylinder", 1, 2, 3, 4],
        ["Bore mm", 90.51, 90.5, 90.51, 90.51],
        ["Piston mm", 90.45, 90.455, 90.45, 90.455],
        ["Stroke mm", 69],
        ["Top ring gap in", 0.016, 0.016, 0.017, 0.017],
        [],
        ["RODS", "rod journal mm", "rod w/ brg", "clr", "side in"],
        *[[f"rod {n}", 54.98, 55.035, f"=C{n + 9}-B{n + 9}", 0.012] for n in range(1, 5)],
    ]
    (book,) = read_jobs(make_book({"S": [*HEAD, *rows]}))
    codes = {f.code for f in check(book)}
    assert "unusable-cell" in codes
    assert "does-not-fit" not in codes


def test_what_fits_none_of_several_parts_is_another_thing(told):
    journals = [(n, 2.089 + n / 10000) for n in range(1, 5)]
    found = told(
        ("Rod journal in", ""),
        ("No", "Rod journal in"),
        *journals,
        (),
        ("Rod bearing bore in", 2.5),
    )
    assert "does-not-fit" not in {code for code, _ in found}


@pytest.mark.parametrize(("clearances", "is_silent"), [((0.078, 0.079, 0.079), True), ((), False)])
def test_a_new_piston_and_an_old_bore_with_the_clearance_that_came_of_it(
    told, clearances, is_silent
):
    rows = [("Cylinder", 1, 2, 3), ("Bore mm", 76.08, 76.07, 76.14)]
    rows += [("Piston new mm", 76.424, 76.425, 76.424)]
    found = told(*rows, ("Piston clearance mm", *clearances))
    assert bool(found) != is_silent


def test_one_clearance_of_a_new_piston_is_not_held_to_the_old_bore(told):
    heads = ("Bore in", "Piston new in", "Piston clearance thou")
    assert told(heads, (4.0035, 4.0272, 2.8)) == set()
    assert told(heads, (4.031, 4.0272, 2.8)) == {("contradicts-its-sizes", "C4")}

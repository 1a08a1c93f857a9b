"""A number of cylinders that the readings, the engine's name or a displacement contradict."""

from __future__ import annotations

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs

FOUR = [
    ["Cylinder", 1, 2, 3, 4],
    ["Bore mm", 98.481, 98.48, 98.482, 98.48],
    ["Piston mm", 98.366, 98.365, 98.366, 98.364],
    ["Top ring gap mm", 0.4, 0.42, 0.4, 0.4],
]


@pytest.fixture
def told(make_book):
    """told(rows, saved) -> {cell: message} of the counts that are wrong in a book of these."""

    def of(rows, saved=None):
        (book,) = read_jobs(make_book({"S": rows}, {"S": saved or {}}))
        found = [f for f in check(book) if f.place]
        assert not [f for f in found if "has readings of" in f.message]
        return {f.place.address: f.message for f in found if f.code == "wrong-cylinder-count"}

    return of


@pytest.mark.parametrize(("cylinders", "is_wrong"), [(6, True), (4, False)])
def test_a_number_that_the_readings_contradict(told, cylinders, is_wrong):
    found = told([["Job", "R-19"], ["No. of cylinders", cylinders], *FOUR])
    assert ("B2" in found) == is_wrong
    assert not is_wrong or "cylinders 1 to 4" in found["B2"]


def test_five_bearings_are_no_fifth_cylinder(told):
    stray = [["Cylinder", 1, 2, 3, 4, 5], ["Bore finish um", 0.2, 0.25, 0.2, 0.2, 0.22]]
    more = [["Second ring gap mm", 0.4, 0.4, 0.42, 0.4], ["Oil ring gap mm", 0.3, 0.3, 0.3, 0.32]]
    found = told([["Job", "R-19"], ["No. of cylinders", 6], *FOUR, *more, [], *stray])
    assert "B2" in found


@pytest.mark.parametrize(("engine", "is_wrong"), [("Harrow V8", True), ("Harrow V6", False)])
def test_a_displacement_of_another_number(told, engine, is_wrong):
    rows = [
        ["Job", "R-19"],
        ["Engine", engine],
        ["Stroke in", 3.53],
        ["Displacement cu in", "=B6*B6*0.7854*B3*6"],
        ["Cylinder", 1, 2],
        ["Bore in", 3.9505, 3.9506],
    ]
    found = told(rows, {"B4": 259.61})
    assert set(found) == ({"B4"} if is_wrong else set())
    assert not is_wrong or "with 6 cylinders; the engine has 8" in found["B4"]

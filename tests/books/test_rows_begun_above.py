"""Tables that write the number of a cylinder once, before the first of its rows.

That shops fill in tables so is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest
from books.small_sheet import Rows, check_told

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs


@pytest.mark.parametrize("first", [[1, 2], ["Cyl 1", "Cyl 2"]], ids=["number", "name"])
def test_valves_of_a_cylinder_in_rows(tmp_path: Path, first: list[object]) -> None:
    rows: Rows = [
        ["", "Valve", "Stem", "Guide (mm)"],
        [first[0], "IN", 7.965, 8.004],
        ["", "EX", 7.951, 8.007],
        [first[1], "IN", 7.966, 8.005],
        ["", "EX", 7.952, 8.008],
    ]
    check_told(
        tmp_path,
        rows,
        {
            "C6": "intake_stem_diameter 1 7.965 mm",
            "C7": "exhaust_stem_diameter 1 7.951 mm",
            "D8": "intake_guide_bore 2 8.005 mm",
            "D9": "exhaust_guide_bore 2 8.008 mm",
        },
    )


@pytest.mark.parametrize(
    ("names", "heads", "expected"),
    [
        (
            ["EV", "AV"],
            ["Schaft", "Führung (mm)"],
            {"C7": "exhaust_stem_diameter 1 7.951 mm", "D9": "exhaust_guide_bore 2 8.008 mm"},
        ),
        (
            ["F", "R"],
            ["Inlet stem", "Inlet guide (mm)"],
            {"C7": "intake_stem_diameter 1 rear 7.951 mm"},
        ),
    ],
)
def test_names_in_short_below_a_number(
    tmp_path: Path, names: list[str], heads: list[str], expected: dict[str, str]
) -> None:
    rows: Rows = [
        ["Cyl", "", *heads],
        [1, names[0], 7.965, 8.004],
        ["", names[1], 7.951, 8.007],
        [2, names[0], 7.966, 8.005],
        ["", names[1], 7.952, 8.008],
    ]
    check_told(tmp_path, rows, expected)


def test_heights_below_the_name_of_a_cylinder(tmp_path: Path) -> None:
    rows: Rows = [
        ["", "", "Bore (mm)", "Piston"],
        ["Cyl 1", "top", 82.03, 81.97],
        ["", "bottom", 82.02, 81.98],
        ["Cyl 2", "top", 82.04, 81.97],
        ["", "bottom", 82.01, 81.98],
    ]
    expected = {"C7": "bore 1 bottom 82.02 mm", "D9": "piston_diameter 2 bottom 81.98 mm"}
    check_told(tmp_path, rows, expected)


def test_what_is_measured_once_lacks_nothing_in_the_other_rows(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    for row in (
        ["Job", "26-041"],
        [],
        ["Cyl", "Place", "Bore (mm)", "Piston"],
        [1, "top", 82.03, 81.97],
        [None, "bottom", 82.02],
        [2, "top", 82.04, 81.97],
        [None, "bottom", 82.03],
    ):
        sheet.append(row)
    book.save(tmp_path / "book.xlsx")
    (job,) = read_jobs(tmp_path / "book.xlsx")
    given = [(r.part.which, r.value) for r in job.records if r.function]
    assert given == [("1", pytest.approx(0.055)), ("2", pytest.approx(0.065))]
    assert not check(job)

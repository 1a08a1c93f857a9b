"""Lines that their formulas name, and units that hold for what is worked out.

That builders write so is common practice, no source; sizes are from memory, and sound with each
other.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from small_sheet import check_told, told

from workbook_tools.jobs.read import read_jobs

INCHES = ["all sizes in inches"]
ROWS = range(7, 10)
# The sizes that a fit is of, in the rows of a table that begins below INCHES.
BORE, PISTON = 4.03, 4.0255


@pytest.mark.parametrize(
    "head", [pytest.param("Diff", id="a bare word"), pytest.param("Qz", id="an unknown one")]
)
def test_a_bore_less_a_piston_is_their_clearance_whatever_its_head(
    tmp_path: Path, head: str
) -> None:
    rows = [INCHES, ["Cyl", "Bore", "Piston", head],
            *([row - 6, BORE, PISTON, f"=B{row}-C{row}"] for row in ROWS)]  # fmt: skip
    expected = {f"D{row}": "result: piston_clearance" for row in ROWS}
    check_told(tmp_path, rows, {"B7": "bore 1 4.03 in", **expected})


@pytest.mark.parametrize("head", ["Diff", "Qz"])
def test_a_difference_of_two_bores_is_nothing(tmp_path: Path, head: str) -> None:
    rows = [INCHES, ["Cyl", "Bore top", "Bore bottom", head],
            *([row - 6, BORE, BORE - 0.0005, f"=B{row}-C{row}"] for row in ROWS)]  # fmt: skip
    expected = {"B7": "bore 1 top 4.03 in", **{f"D{row}": "" for row in ROWS}}
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    "cells",
    [
        pytest.param([f"=(B{row}-C{row})*1000" for row in ROWS], id="worked out"),
        pytest.param([4.5, 4.4, 4.5], id="typed"),
    ],
)
def test_thousandths_of_an_inch_in_a_head_are_its_unit_and_no_size_of_its_own(
    tmp_path: Path, cells: list[object]
) -> None:
    fits = ([row - 6, BORE, PISTON, cell] for row, cell in zip(ROWS, cells, strict=True))
    rows = [INCHES, ["Cyl", "Bore", "Piston", "Fit .001s"], *fits]
    found = told(tmp_path, rows)
    assert "D6" not in found
    worked = isinstance(cells[0], str)
    assert found["D7"] == ("result: piston_clearance" if worked else "piston_clearance 1 0.0045 in")


@pytest.mark.parametrize(
    ("bore", "stage"),
    [
        pytest.param("Bore found", "found", id="as found"),
        pytest.param("Bore", "", id="whenever"),
    ],
)
def test_what_is_worked_out_of_sizes_as_found_alone_was_found(
    tmp_path: Path, bore: str, stage: str
) -> None:
    rows = [INCHES, ["Cyl", bore, bore.replace("Bore", "Piston"), "Clearance"],
            *([row - 6, BORE, PISTON, f"=B{row}-C{row}"] for row in ROWS)]  # fmt: skip
    told(tmp_path, rows)
    (job,) = read_jobs(tmp_path / "book.xlsx")
    assert {(s.measurand, s.stage) for s in job.stated} == {("piston_clearance", stage)}


def test_what_is_worked_out_of_a_bore_as_found_and_a_new_piston_says_no_stage(
    tmp_path: Path,
) -> None:
    rows = [INCHES, ["Cyl", "Bore found", "Piston", "Clearance"],
            *([row - 6, BORE, PISTON, f"=B{row}-C{row}"] for row in ROWS)]  # fmt: skip
    told(tmp_path, rows)
    (job,) = read_jobs(tmp_path / "book.xlsx")
    assert {s.stage for s in job.stated} == {""}

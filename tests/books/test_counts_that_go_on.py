"""Bare numbers that count on from a name: "Rod 1", 2, 3."""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize("remark", [[], ["ok"]])
def test_bare_numbers_count_on_beside_their_sizes(tmp_path: Path, remark: list[object]) -> None:
    """The name above them says of what."""
    rows: Rows = [
        ["Clearances by wire (mm)"],
        ["Main 1", 0.038, *remark], [2, 0.041, *remark], [3, 0.051, *remark],
        ["Rod 1", 0.025, *remark], [2, 0.032, *remark],
        ["Rod side clearance 1", 0.2], [2, 0.22], ["Endplay", 0.12],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B7": "main_bearing_clearance 2 0.041 mm",
        "B8": "main_bearing_clearance 3 0.051 mm",
        "B10": "rod_bearing_clearance 2 0.032 mm",
        "B12": "rod_side_clearance 2 0.22 mm",
        "B13": "crank_end_play 0.12 mm",
        "A7": "",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("first", [1, "Main 1"])
def test_bare_numbers_count_on_below_a_head(tmp_path: Path, first: object) -> None:
    """The second rod is no second main."""
    rows: Rows = [
        ["Main", "Plastic thread"],
        [first, 0.0018], [2, 0.002], [3, 0.0018], ["Rod 1", 0.0015], [2, 0.0017], [3, 0.0015],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B7": "main_bearing_clearance 2 0.002 in",
        "B10": "rod_bearing_clearance 2 0.0017 in",
        "B11": "rod_bearing_clearance 3 0.0015 in",
    }
    check_told(tmp_path, rows, expected)


def test_a_number_that_does_not_count_on_is_no_name(tmp_path: Path) -> None:
    """Two behind the third rod is something else."""
    rows: Rows = [["Rod side clearance 3 (mm)", 0.2], [2, 0.22]]
    # common practice, no source
    check_told(tmp_path, rows, {"B5": "rod_side_clearance 3 0.2 mm", "B6": "not understood: 0.22"})


@pytest.mark.parametrize("turned", [("0°", "90°"), (0, 90)])
def test_degrees_over_sizes_are_ways_across(tmp_path: Path, turned: tuple[object, object]) -> None:
    """In line with the crank and square to it, for the same bores."""
    rows: Rows = [
        ["Cylinders, worn"], ["Cyl", *turned, "Oval"],
        [1, 85.09, 85.14, 0.05], [2, 85.08, 85.12, 0.04], [3, 85.1, 85.16, 0.06],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B7": "bore 1 0° found 85.09 mm",
        "C9": "bore 3 90° found 85.16 mm",
        "D8": "bore_out_of_round 2 found 0.04 mm",
    }
    check_told(tmp_path, rows, expected)

"""Heads on a bench: two rows of valves a cylinder, chambers in cc, and sizes before and after."""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    ("intake", "exhaust"), [("in", "ex"), ("Intake", "Exhaust"), ("Ein", "Aus")]
)
def test_the_number_of_a_cylinder_holds_for_its_exhaust_valve(
    tmp_path: Path, intake: str, exhaust: str
) -> None:
    """A bank counts every other one, and the row of the exhaust leaves its number out."""
    rows: Rows = [
        ["Cyl", "Vlv", "Guide", "Stem", "CC"],
        [1, intake, 0.3435, 0.3414, 64.5], [None, exhaust, 0.3435, 0.3408],
        [3, intake, 0.3434, 0.3413, 64.3], [None, exhaust, 0.3436, 0.3409],
        [5, intake, 0.3435, 0.3414, 64.5], [None, exhaust, 0.3436, 0.3408],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "C8": "intake_guide_bore 3 0.3434 in",
        "C9": "exhaust_guide_bore 3 0.3436 in",
        "D11": "exhaust_stem_diameter 5 0.3408 in",
        "E8": "chamber_volume 3 64.3 cc",
    }
    check_told(tmp_path, rows, expected)


def test_both_sides_over_the_names_of_rows_measure_nothing(tmp_path: Path) -> None:
    """A chamber's cc beside them is no lash."""
    rows: Rows = [
        ["Cyl", "In/Ex", "Stem mm", "cc"], [1, "Inlet", 7.96, 45.2], [None, "Exhaust", 7.94],
        [2, "Inlet", 7.96, 45.4], [None, "Exhaust", 7.94],
    ]  # fmt: skip
    # common practice, no source
    check_told(tmp_path, rows, {"D8": "chamber_volume 2 45.4 cc"})


def test_after_work_is_of_what_was_found_above(tmp_path: Path) -> None:
    """ "After mill" says when, and the line above it what; the sheet says of which part."""
    rows: Rows = [
        ["thick found", 3.124, None, "warp found (in)", 0.006],
        ["after mill", 3.116, None, "after mill (in)", 0.001],
    ]
    # common practice, no source
    expected = {
        "B5": "head_height found 3.124 in",
        "B6": "head_height final 3.116 in",
        "E5": "head_flatness found 0.006 in",
        "E6": "head_flatness final 0.001 in",
    }
    check_told(tmp_path, rows, expected, title="Head A near")

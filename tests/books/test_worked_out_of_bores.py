"""Bores at three heights with their mean and taper, and what is taken from a piston below them."""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


def test_a_mean_is_of_the_bore_and_its_taper_is_told(tmp_path: Path) -> None:
    """Below a bank, whose name over the labels says nothing of what is measured."""
    letters = "BCD"
    rows: Rows = [
        ["LEFT (pump side)", 1, 3, 5],
        ["Bore top", 3.9303, 3.9305, 3.9305], ["Bore mid", 3.9303, 3.9305, 3.9303],
        ["Bore btm", 3.9303, 3.9304, 3.9304],
        ["avg", *(f"=AVERAGE({c}6:{c}8)" for c in letters)],
        ["taper", *(f"=MAX({c}6:{c}8)-MIN({c}6:{c}8)" for c in letters)],
    ]  # fmt: skip
    # common practice, no source
    expected = {"C9": "result: bore", "D10": "result: bore_taper", "C7": "bore 3 middle 3.9305 in"}
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("where", ["bottom of skirt", "14 up from skirt"])
def test_where_a_piston_was_measured_hides_no_difference(tmp_path: Path, where: str) -> None:
    """A clearance that says no more is that of the bore less the piston, wherever it was taken."""
    rows: Rows = [
        ["All mm"], ["Barrel bore", 84.412], [f"Piston {where}", 84.33], ["Clearence", 0.082],
    ]  # fmt: skip
    # common practice, no source
    expected = {"B8": "piston_clearance 0.082 mm"}
    check_told(tmp_path, rows, expected)


def test_a_label_ends_with_the_size_that_last_figures_are_added_to(tmp_path: Path) -> None:
    """ "Bore 2.7340 +" and a 3 are 2.7343 in."""
    rows: Rows = [
        ["cylinder", 1, 2, 3], ["Bore 2.7340 +", 3, 5, 5], ["Piston 2.7310 +", 4, 6, 12], [],
        ["big end", 1, 2, 3], ["Crankpin 1.5230 +", 7, 6, 5], ["Shell in rod 1.5250 +", 4, 4, 3],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B6": "bore 1 2.7343 in",
        "D7": "piston_diameter 3 2.7322 in",
        "C10": "rod_journal 2 1.5236 in",
        "D11": "rod_bearing_bore 3 1.5253 in",
    }
    check_told(tmp_path, rows, expected)


def test_hundredths_are_added_to_a_bore_in_mm(tmp_path: Path) -> None:
    """Their first two below the head count nothing, behind what each row measures."""
    rows: Rows = [
        ["cyl", 1, 2, 3, 4], ["Bore 82.50 +", 1, 2, 2, 1], ["Piston 82.40 +", 3, 4, 3, 3],
    ]  # fmt: skip
    # common practice, no source
    expected = {"B6": "bore 1 82.51 mm", "D7": "piston_diameter 3 82.43 mm"}
    check_told(tmp_path, rows, expected)


def test_a_count_and_one_size_below_a_title_head_nothing(tmp_path: Path) -> None:
    """ "2 | 4" is the second of three, and counts no columns."""
    rows: Rows = [["Main journals 2.1480 + tenths"], [1, 3], [2, 4], [3, 3]]
    # common practice, no source
    expected = {"B6": "main_journal 1 2.1483 in", "B7": "main_journal 2 2.1484 in", "A7": ""}
    check_told(tmp_path, rows, expected)


def test_pistons_below_a_table_of_bores_were_not_found_worn(tmp_path: Path) -> None:
    """Their own title says what the counted rows measure, and the heads above nothing of it."""
    rows: Rows = [
        ["BORES (in.)"], ["No.", "Worn max", "Bored to", "Finish honed"],
        [1, 3.3460, 3.368, 3.3685], [2, 3.3465, 3.368, 3.3686], [3, 3.3462, 3.368, 3.3685],
        ["PISTONS +.030"], [1, 3.3665], [2, 3.3664], [3, 3.3665],
    ]  # fmt: skip
    # common practice, no source
    expected = {"B8": "bore 2 found 3.3465 in", "B12": "piston_diameter 2 3.3664 in"}
    check_told(tmp_path, rows, expected)

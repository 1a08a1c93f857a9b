"""Limits written as a range beside a row or within a label are limits, and no readings.

How shops write them is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import all_told

from workbook_tools.labels.written_limits import end_in, is_written_limit, range_in


@pytest.mark.parametrize(
    ("text", "words", "told"),
    [
        ("allowed 0.024 – 0.048", "allowed", "0.024 to 0.048"),
        ("spec .05-.20 mm", "spec", ".05 mm to .20 mm"),
        ("(80,95 bis 80,97)", "(", "80,95 to 80,97"),
        ("Clearance (.0010-.0025)", "Clearance", ".0010 to .0025"),
        ("0.05 ... 0.20", "", "0.05 to 0.20"),
        # Which ones, threads, one size, half a bracket and ratios hold no range of sizes.
        ("3-4", "", ""),
        ("10-32", "", ""),
        ("1.5 mm", "", ""),
        ("(0.05-0.20", "", ""),
        ("7.5-8.0:1", "", ""),
    ],
)
def test_a_range_and_what_is_said_before_it(text: str, words: str, told: str) -> None:
    assert range_in(text) == (words, told)


@pytest.mark.parametrize(
    ("text", "limit"),
    [
        ("allowed 0.024 – 0.048", True),
        ("Soll 0,05-0,20", True),
        ("(.0010-.0025)", True),
        ("Clearance (.0010-.0025)", False),
        ("0.05-0.20", False),
    ],
)
def test_a_text_that_says_only_what_is_allowed(text: str, limit: bool) -> None:
    assert is_written_limit(text) is limit


def test_a_range_behind_a_row_of_numbers(tmp_path: Path) -> None:
    rows = [
        ["Mains (mm)"],
        ["", 1, 2, 3],
        ["Journal", 35.985, 35.99, 35.988],
        ["Shells in case", 36.02, 36.026, 36.05],
        ["Oil clearance", 0.035, 0.036, 0.062, "allowed 0.024 – 0.048", "all OK"],
    ]
    found = all_told(tmp_path, rows)
    assert found["E9"] == ["refused: main_bearing_clearance target mm"]
    assert found["D9"] == ["main_bearing_clearance 3 0.062 mm"]


def test_ranges_behind_single_numbers(tmp_path: Path) -> None:
    rows = [
        ["Bore (mm)", 81.01, "limits 81.00-81.02"],
        ["Piston (mm)", 80.96, "(80.95 to 80.97)"],
        ["Crank end play (mm)", 0.12, "0.05 ... 0.20", "ok"],
    ]
    found = all_told(tmp_path, rows)
    assert found["B5"] == ["bore 81.01 mm"]
    assert found["C5"] == ["refused: bore target mm"]
    assert found["C6"] == ["refused: piston_diameter target mm"]
    assert found["C7"] == ["refused: crank_end_play target mm"]


@pytest.mark.parametrize(
    ("text", "words", "told"),
    [
        ("max .05", "", "max .05"),
        (".002 in max", "", ".002 in max"),
        ("≤ 0.05", "", "≤ 0.05"),
        # The word says that it is wanted, and not of which end.
        ("limit .002", "", ".002"),
        ("Bore taper (max .0005)", "Bore taper", "max .0005"),
        ("Rod length 5.7", "", ""),
        ("end play .006, rod side max .012", "", ""),
        ("max", "", ""),
    ],
)
def test_one_end_and_what_is_said_before_it(text: str, words: str, told: str) -> None:
    assert end_in(text) == (words, told)


def test_one_end_behind_a_number_or_in_its_label(tmp_path: Path) -> None:
    rows = [
        ["Bore (in)", 4.0305],
        ["Bore taper, in (max .0005)", 0.0002],
        ["Head warp", 0.001, "limit .002"],
        ["Crank end play", 0.006, "max .010", "ok"],
    ]
    found = all_told(tmp_path, rows)
    assert found["A6"] == ["bore_taper limit_high 0.0005 in"]
    assert found["B6"] == ["bore_taper 0.0002 in"]
    assert found["B7"] == ["head_flatness 0.001 in"]
    assert found["C7"] == ["head_flatness target 0.002 in"]
    assert found["C8"] == ["crank_end_play limit_high 0.01 in"]


def test_a_title_with_the_limits_of_what_stands_below_it(tmp_path: Path) -> None:
    rows = [
        ["all sizes in inches"],
        ["MAINS", None, "clearance .0020 to .0030"],
        ["#", "Rec'd", "Ground", "Brg ID installed", "Clearance"],
        [1, 2.4480, 2.4384, 2.4409, 0.0025],
        [2, 2.4475, 2.4384, 2.4410, 0.0026],
        [3, 2.4479, 2.4385, 2.4410, 0.0025],
    ]
    found = all_told(tmp_path, rows)
    assert found["C6"] == ["refused: main_bearing_clearance target"]
    assert found["B8"] == ["main_journal 1 found 2.448 in"]
    assert found["E10"] == ["main_bearing_clearance 3 0.0025 in"]


def test_a_ratio_is_no_range(tmp_path: Path) -> None:
    assert range_in("6,9 à 1") == range_in("9.7 to 1") == ("", "")

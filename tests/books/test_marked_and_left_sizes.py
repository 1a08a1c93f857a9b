"""Sizes with their mark in the cell, two sizes of a gasket in one, differences without a name.

That builders write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Chamber volume"],
             ["#1 76.0 cc", "#2 75.8 cc", "#3 76.2 cc", "#4 76.1 cc"],
             ["#5 76.3 cc", "#6 75.9 cc", "#7 76.2 cc", "#8 76.0 cc"]],
            {"A6": "chamber_volume 1 76 cc", "D6": "chamber_volume 4 76.1 cc",
             "A7": "chamber_volume 5 76.3 cc", "D7": "chamber_volume 8 76 cc"},
            id="below a title",
        ),
        pytest.param(
            [["Heads", "cc'd all 8"], ["#1 76.0 cc", "#2 75.8 cc", "#3 76.2 cc", "#4 76.1 cc"]],
            {"A6": "chamber_volume 1 76 cc", "B6": "chamber_volume 2 75.8 cc",
             "D6": "chamber_volume 4 76.1 cc"},
            id="below a title of two cells",
        ),
        pytest.param(
            [["Main clearance", "(1) 1.6 thou", "(2) 1.7 thou", "(3) 1.5 thou"]],
            {"B5": "main_bearing_clearance 1 0.0016 in",
             "D5": "main_bearing_clearance 3 0.0015 in"},
            id="in a row",
        ),
    ],
)  # fmt: skip
def test_a_mark_before_a_size_says_which_one_it_is_of(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    "text", [".045 in, hole 3.690 in", ".045 x 3.690 in", ".045 in crushed, 3.690 bore"]
)
def test_the_wider_of_two_sizes_of_a_gasket_is_its_bore(tmp_path: Path, text: str) -> None:
    found = check_told(tmp_path, [["Head gasket", text], ["Bore", "3.622 in"]], {})
    assert found["B5"] in ("gasket_bore 3.69 in", "gasket_thickness 0.045 in")


def test_a_fraction_of_an_inch_is_no_two_sizes_of_a_gasket(tmp_path: Path) -> None:
    check_told(
        tmp_path,
        [["Head gasket", '1/16"'], ["Bore", '3.622"']],
        {"B5": "gasket_thickness 0.0625 in"},
    )


def test_torques_below_their_unit_keep_the_number_of_their_cap(tmp_path: Path) -> None:
    rows = [
        ["Torque list", "ft-lb", "done", "should be"],
        ["main cap 1", 68, "x", "65 - 70"],
        ["main cap 2", 86, "x", "65 - 70"],
        ["rod 1", 45, "x", "42 - 48"],
        ["rod 2", 46, "x", "42 - 48"],
        ["flywheel", 80, "x", "75-85"],
    ]
    expected = {
        "B6": "main_bolt_torque 1 68 lbf.ft",
        "B7": "main_bolt_torque 2 86 lbf.ft",
        "B8": "rod_bolt_torque 1 45 lbf.ft",
        "B10": "flywheel_bolt_torque 80 lbf.ft",
    }
    check_told(tmp_path, rows, expected)


def test_torques_of_numbered_caps_keep_their_number_without_heads(tmp_path: Path) -> None:
    rows = [
        ["Torques"],
        ["main cap 1", "68 ft-lb"],
        ["main cap 2", "69 ft-lb"],
        ["head", "70 ft-lb"],
    ]
    check_told(tmp_path, rows, {"B7": "main_bolt_torque 2 69 lbf.ft"})


def test_numbers_of_lines_with_gaps_are_no_sizes(tmp_path: Path) -> None:
    rows: Rows = [
        ["No.", "Item", "Unit", "Limit", "Final"],
        [1, "Stroke", "mm", None, 84],
        [2, "Crank end float", "mm", "0.05 - 0.25", 0.28],
        [7, "Crank runout", "mm", "0.05 max", 0.03],
        [9, "Head height", "mm", "111.4 min", 111.6],
    ]
    check_told(tmp_path, rows, {"A7": "", "A9": "", "E8": "crank_runout final 0.03 mm"})


_SHELLS: Rows = [
    ["Crank", "bearing 1", "bearing 2", "bearing 3", "bearing 4", "bearing 5"],
    ["journal", 54.742, 54.740, 54.741, 54.742, 54.740],
    ["shell", 54.785, 54.786, 54.785, 54.787, 54.785],
    ["leaves", 0.043, 0.046, 0.044, 0.045, 0.045],
    ["crankpin", 45.740, 45.741, 45.740, 45.739],
    ["rod shell", 45.785, 45.785, 45.784, 45.785],
    ["leaves", 0.045, 0.044, 0.044, 0.046],
]


def test_what_two_rows_leave_is_their_clearance_and_proves_them(tmp_path: Path) -> None:
    expected = {
        "B6": "main_journal 1 54.742 mm",
        "B7": "main_bearing_bore 1 54.785 mm",
        "B8": "main_bearing_clearance 1 0.043 mm",
        "F8": "main_bearing_clearance 5 0.045 mm",
        "E11": "rod_bearing_clearance 4 0.046 mm",
    }
    check_told(tmp_path, _SHELLS, expected)


def test_what_two_rows_do_not_leave_is_no_clearance(tmp_path: Path) -> None:
    rows = [list(row) for row in _SHELLS]
    rows[3] = ["leaves", 0.021, 0.046, 0.044, 0.012, 0.030]
    found = check_told(tmp_path, rows, {})
    assert "clearance" not in found["C8"]


_LIST: Rows = [
    ["No.", "Item", "Which", "Unit", "As found", "Limit", "Final", "By", "Remarks"],
    [1, "Bore", 1, "mm", 84.061, "84.150 max", 84.508, "CT"],
    [2, "Bore", 2, "mm", 84.068, "84.150 max", 84.510, "CT"],
    [3, "Bore", 3, "mm", 84.065, "84.150 max", 84.509, "CT"],
    [5, "Piston", 1, "mm", None, None, 84.468, "CT"],
    [6, "Piston", 2, "mm", None, None, 84.469, "CT"],
    [7, "Piston", 3, "mm", None, None, 84.469, "CT"],
    [9, "Crank runout", None, "mm", 0.03, "0.05 max", 0.03, "CT"],
    [10, "Head height", None, "mm", 112, "≥ 111.4", 111.65, "CT"],
]


@pytest.mark.parametrize("head", ["Which", "Station"])
def test_a_list_of_all_that_is_measured_has_a_number_and_a_hand_for_each_row(
    tmp_path: Path, head: str
) -> None:
    rows = [list(row) for row in _LIST]
    rows[0][2] = head
    expected = {
        "A6": "",
        "E6": "bore 1 found 84.061 mm",
        "G7": "bore 2 final 84.51 mm",
        "G11": "piston_diameter 3 final 84.469 mm",
        "F12": "crank_runout limit_high 0.05 mm",
        "F13": "head_height limit_low 111.4 mm",
        "G13": "head_height final 111.65 mm",
    }
    check_told(tmp_path, rows, expected)


def test_a_known_clearance_names_what_it_is_worked_out_of(tmp_path: Path) -> None:
    rows: Rows = [
        ["Hole", "Hone final", "Slug @ gauge pt", "Wall clearance"],
        [1, 104.561, 104.518, "=B6-C6"],
        [2, 104.562, 104.519, "=B7-C7"],
        [3, 104.560, 104.517, "=B8-C8"],
    ]
    expected = {"B6": "bore 1 final 104.561 mm", "C8": "piston_diameter 3 104.517 mm"}
    check_told(tmp_path, rows, expected)


def test_typed_hundredths_name_what_they_are_left_by(tmp_path: Path) -> None:
    rows: Rows = [
        [
            "Palier",
            "portée rectifiée",
            "palier alésé, demi-coussinets serrés",
            "jeu diamétral 1/100",
        ],
        [1, 69.740, 69.812, 7.2],
        [2, 69.741, 69.813, 7.2],
        [3, 69.739, 69.812, 7.3],
        [4, 69.740, 69.811, 7.1],
    ]
    expected = {
        "B6": "main_journal 1 machined 69.74 mm",
        "C6": "main_bearing_bore 1 machined 69.812 mm",
        "D6": "main_bearing_clearance 1 0.072 mm",
    }
    check_told(tmp_path, rows, expected)


def test_sizes_beside_a_vague_word_say_what_is_left_of_them(tmp_path: Path) -> None:
    rows: Rows = [
        ["Cylinder", "Honed to", "Piston", "Slack"],
        [1, 102.523, 102.438, 0.085],
        [2, 102.519, 102.436, 0.083],
        [3, 102.525, 102.436, 0.089],
        [4, 102.521, 102.437, 0.084],
    ]
    check_told(tmp_path, rows, {"D6": "piston_clearance 1 0.085 mm"})

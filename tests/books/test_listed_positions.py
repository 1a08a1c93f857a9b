"""Which ones a row or a head is of: listed, counted by so many, in a hole, across an axis.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told, told


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Bores (in)"], ["1-3-5-7", 4.0312, 4.0310, 4.0311, 4.0309],
             ["2-4-6-8", 4.0313, 4.0314, 4.0312, 4.0311]],
            {"B6": "bore 1 4.0312 in", "E6": "bore 7 4.0309 in", "C7": "bore 4 4.0314 in"},
            id="odd and even",
        ),
        pytest.param(
            [["Cranking compression (psi)"], ["Cyls 1/3/5/7", 165, 168, 164, 166],
             ["Cyls 2/4/6/8", 167, 165, 163, 168]],
            {"B6": "cranking_pressure 1 165 psi", "D6": "cranking_pressure 5 164 psi",
             "E7": "cranking_pressure 8 168 psi"},
            id="with what they count",
        ),
        pytest.param(
            [["Chambers (cc)"], ["1, 2, 3, 4", 64.2, 64.0, 64.1, 64.3],
             ["5, 6, 7, 8", 64.1, 64.4, 64.2, 64.0]],
            {"C6": "chamber_volume 2 64 cc", "B7": "chamber_volume 5 64.1 cc"},
            id="half by half",
        ),
        pytest.param(
            [["Mains 1-5 (clearance, in)", .0024, .0025, .0024, .0026, .0027]],
            {"B5": "main_bearing_clearance 1 0.0024 in",
             "F5": "main_bearing_clearance 5 0.0027 in"},
            id="before a remark",
        ),
        pytest.param(
            [["Journals (in)"], ["MAINS (5)", 2.4482, 2.4481, 2.4483, 2.4481, 2.4482]],
            {"B6": "main_journal 1 2.4482 in", "F6": "main_journal 5 2.4482 in"},
            id="so many mains",
        ),
        pytest.param(
            [["Side clearance"], ["RODS (4)", .012, .013, .012, .014]],
            {"B6": "rod_side_clearance 1 0.012 in", "E6": "rod_side_clearance 4 0.014 in"},
            id="so many rods",
        ),
    ],
)  # fmt: skip
def test_rows_list_which_ones(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Ring gaps (in)", "Gap"], ["Top ring, cyl 1", .018], ["2nd ring, cyl 1", .022],
             ["Top ring, cyl 2", .019], ["2nd ring, cyl 2", .021]],
            {"B6": "top_ring_gap 1 0.018 in", "B9": "second_ring_gap 2 0.021 in"},
            id="a ring and its cylinder",
        ),
        pytest.param(
            [["Ring gaps (in)"], ["Top ring in hole 1", .018], ["Top ring in hole 2", .019],
             ["2nd ring in hole 1", .022], ["2nd ring in hole 2", .023]],
            {"B6": "top_ring_gap 1 0.018 in", "B9": "second_ring_gap 2 0.023 in"},
            id="a ring in a hole",
        ),
        pytest.param(
            [["inch"], ["Piston for 1, at the gauge line", 4.0262],
             ["Piston for 2, at the gauge line", 4.0263]],
            {"B6": "piston_diameter 1 4.0262 in", "B7": "piston_diameter 2 4.0263 in"},
            id="a piston for a cylinder",
        ),
        pytest.param(
            [["inch"], ["Crankpin 1 (rods 1 and 2)", 2.0991],
             ["Crankpin 2 (rods 3 and 4)", 2.0990]],
            {"B6": "rod_journal 1 2.0991 in", "B7": "rod_journal 2 2.099 in"},
            id="a crankpin and its rods",
        ),
    ],
)  # fmt: skip
def test_labels_say_of_which_cylinder(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Bore (mm)", "X", "Y"], ["Cyl 1", 82.01, 82.02], ["Cyl 2", 82.02, 82.03]],
            {"B6": "bore 1 thrust 82.01 mm", "C7": "bore 2 parallel 82.03 mm"},
            id="bare axes",
        ),
        pytest.param(
            [["Bore (mm)", "fore-aft", "port-stbd"],
             ["Cyl 1", 150.02, 150.05], ["Cyl 2", 150.03, 150.06]],
            {"B6": "bore 1 parallel 150.02 mm", "C7": "bore 2 thrust 150.06 mm"},
            id="across a ship",
        ),
        pytest.param(
            [["Bore (mm)", "at head", "at skirt"],
             ["Cyl 1", 52.04, 52.02], ["Cyl 2", 52.05, 52.02]],
            {"B6": "bore 1 top 52.04 mm", "C7": "bore 2 bottom 52.02 mm"},
            id="at its ends",
        ),
        pytest.param(
            [["", "Intake", "Exhaust"], ["Cyl", "Lash", "Lash"], [1, .010, .012], [2, .010, .012]],
            {"B7": "intake_lash 1 0.01 in", "C8": "exhaust_lash 2 0.012 in"},
            id="sides over a row of heads",
        ),
        pytest.param(
            [["Intake", "", "Exhaust", ""], ["Cyl", "Seat width", "Cyl", "Seat width"],
             [1, 1.4, 1, 1.7], [2, 1.5, 2, 1.7]],
            {"B7": "intake_seat_width 1 1.4 mm", "D8": "exhaust_seat_width 2 1.7 mm"},
            id="sides over two counts",
        ),
    ],
)  # fmt: skip
def test_heads_say_which_way_and_side(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


def test_bores_in_x_and_y_are_both_bores(tmp_path: Path) -> None:
    found = told(tmp_path, [["Cyl", "Bore X", "Bore Y"], [1, 82.01, 82.02], [2, 82.02, 82.03]])
    assert {found[at].split()[0] for at in ("B6", "C6", "B7", "C7")} == {"bore"}


# -- numbered readings, and limits of a form

TWICE: Rows = [["Liner", "Protrusion 1", "Protrusion 2"], [1, 0.08, 0.09], [2, 0.07, 0.08]]


def test_numbered_readings_are_of_the_part_in_their_row(tmp_path: Path) -> None:
    expected = {"B6": "liner_protrusion 1 0.08 mm", "C7": "liner_protrusion 2 0.08 mm"}
    check_told(tmp_path, TWICE, expected)


def test_a_limit_below_a_numbered_reading_is_that_of_all(tmp_path: Path) -> None:
    rows = [*TWICE, ["Min", 0.04, 0.04], ["Max", 0.12, 0.12]]
    expected = {
        "C8": "liner_protrusion limit_low 0.04 mm",
        "C9": "liner_protrusion limit_high 0.12 mm",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("letter", "label", "measurand", "sizes"),
    [
        ("M", "Main journal (mm)", "main_journal", [53.98, 54.00, 53.99, 53.991]),
        ("R", "Big end bore (mm)", "rod_housing_bore", [51.60, 51.62, 51.61, 51.612]),
    ],
)
def test_limits_hold_below_heads_that_count_anew(
    tmp_path: Path, letter: str, label: str, measurand: str, sizes: list[float]
) -> None:
    rows = [["Item", "Min", "Max", "No. 1", "No. 2"], ["Bore (mm)", 82.00, 82.05, 82.01, 82.02],
            ["", "", "", f"{letter}1", f"{letter}2"], [label, *sizes]]  # fmt: skip
    expected = {
        "B8": f"{measurand} limit_low {sizes[0]:g} mm",
        "C8": f"{measurand} limit_high {sizes[1]:g} mm",
        "E8": f"{measurand} 2 {sizes[3]:g} mm",
    }
    check_told(tmp_path, rows, expected)

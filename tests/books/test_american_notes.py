"""How builders in inch shops note what they measure: on cards and in tables, in few words.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

# -- where on a part


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Cyl", '1" down', '4" down'], ["", "thrust", "thrust"],
             [1, 4.1254, 4.1251], [2, 4.1255, 4.1252], [3, 4.1253, 4.1251]],
            {"B7": 'bore 1 1" down thrust 4.1254 in', "C9": 'bore 3 4" down thrust 4.1251 in'},
            id="depths",
        ),
        pytest.param(
            [["Cyl", '.5" down', '2.5" dn'], [1, 4.031, 4.0305], [2, 4.0312, 4.0306],
             [3, 4.0311, 4.0305]],
            {"B6": 'bore 1 .5" down 4.031 in', "C8": 'bore 3 2.5" dn 4.0305 in'},
            id="parts of an inch down",
        ),
        pytest.param(
            [["Bore dia.", "Cyl 1", "Cyl 2", "Cyl 3"], ["top thrust", 4.031, 4.0311, 4.031],
             ["top pin", 4.0305, 4.0304, 4.0305]],
            {"B6": "bore 1 top thrust 4.031 in", "D7": "bore 3 top parallel 4.0305 in"},
            id="along the pin",
        ),
        pytest.param(
            [["Sleeve stand-out (thou), each corner", "12:00", "6:00"],
             ["Sleeve 1", 3.5, 3.0], ["Sleeve 2", 4.0, 3.5], ["Sleeve 3", 3.0, 3.5]],
            {"B6": "liner_protrusion 1 12 o'clock 0.0035 in",
             "C8": "liner_protrusion 3 6 o'clock 0.0035 in"},
            id="hours of a clock",
        ),
        pytest.param(
            [["Rod big end ID", "vertical", "split +45", "split -45"],
             *([f"rod {n}", 2.2252, 2.2254, 2.2253] for n in (1, 2, 3))],
            {"B6": "rod_housing_bore 1 vertical 2.2252 in",
             "C6": "rod_housing_bore 1 split +45 2.2254 in",
             "D8": "rod_housing_bore 3 split -45 2.2253 in"},
            id="off the split",
        ),
        pytest.param(
            [["inch"], ["Piston below deck, rocked both ways", "Left of pin", "Right of pin"],
             [1, .0061, .0082], [2, .0060, .0080], [3, .0063, .0081]],
            {"B7": "deck_clearance 1 left 0.0061 in", "C9": "deck_clearance 3 right 0.0081 in"},
            id="beside the pin",
        ),
        pytest.param(
            [["Journal dia.", "A 0°", "A 90°"], ["M1", 2.9992, 2.9990], ["M2", 2.9991, 2.9989]],
            {"B6": "main_journal 1 A 2.9992 in", "C7": "main_journal 2 A across 2.9989 in"},
            id="letters and angles",
        ),
    ],
)  # fmt: skip
def test_heads_say_where_on_a_part(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


# -- banks and ends


def test_driver_and_passenger_are_banks(tmp_path: Path) -> None:
    rows = [["Deck height, in", "Driver", "Passenger"], ["found", 9.031, 9.033]]
    expected = {"B6": "deck_height L found 9.031 in", "C6": "deck_height R found 9.033 in"}
    check_told(tmp_path, rows, expected)


def test_one_on_the_left_bank_is_no_liter(tmp_path: Path) -> None:
    rows = [["inch"], ["Wrist pin fit", "Pin", "Fit"], ["1L", .9271, .0008], ["2L", .9272, .0007],
            ["1R", .9271, .0009], ["2R", .9270, .0008]]  # fmt: skip
    expected = {"B7": "pin_diameter L1 0.9271 in", "C10": "pin_clearance R2 0.0008 in"}
    check_told(tmp_path, rows, expected)


def test_heads_name_bank_part_and_end(tmp_path: Path) -> None:
    rows = [["inch", "L deck F", "L deck R", "R deck F", "R deck R"],
            ["In", 9.2412, 9.2437, 9.2405, 9.2421],
            ["Out", 9.234, 9.234, 9.234, 9.2341]]  # fmt: skip
    expected = {
        "B6": "deck_height L front found 9.2412 in",
        "E7": "deck_height R rear final 9.2341 in",
    }
    check_told(tmp_path, rows, expected)


# -- which one


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Crank endplay", .006], ["Rod side, pair 1-2", .016], ["Rod side, pair 3-4", .017]],
            {"B6": "rod_side_clearance 1-2 0.016 in", "B7": "rod_side_clearance 3-4 0.017 in"},
            id="pairs of rods",
        ),
        pytest.param(
            [["Station", "Jrnl mic", "Clr"],
             ["MB-1", 2.6478, .0027], ["MB-2", 2.6479, .0026], ["CR-1", 2.1487, .0022],
             ["CR-2", 2.1488, .0023]],
            {"B6": "main_journal 1 2.6478 in", "C7": "main_bearing_clearance 2 0.0026 in",
             "B8": "rod_journal 1 2.1487 in", "C9": "rod_bearing_clearance 2 0.0023 in"},
            id="stations of a crank",
        ),
        pytest.param(
            [["Tappet bores", "bore", "lifter"],
             [1, .9052, .9040], [2, .9053, .9041], [3, .9052, .9041], [4, .9051, .9040]],
            {"B6": "lifter_bore 1 0.9052 in", "C9": "lifter_diameter 4 0.904 in"},
            id="a count below the name of what is measured",
        ),
        pytest.param(
            [["RING GAPS"], ["TOP RING", "#1:", .021, "#2:", .022], ["", "#3:", .021, "#4:", .020]],
            {"C6": "top_ring_gap 1 0.021 in", "C7": "top_ring_gap 3 0.021 in",
             "E7": "top_ring_gap 4 0.02 in"},
            id="rows that count on",
        ),
        pytest.param(
            [["#1 piston at skirt", 4.0262], ["#2 ditto", 4.0263], ["#3 ditto", 4.0262]],
            {"B6": "piston_diameter 2 4.0263 in", "B7": "piston_diameter 3 4.0262 in"},
            id="ditto of another",
        ),
        pytest.param(
            [["MAIN JOURNAL DIA / limits [2.4985 - 2.4995]"],
             ["J1 2.4991", "J2 2.4990", "J3 2.4992"]],
            {"A6": "main_journal 1 2.4991 in", "C6": "main_journal 3 2.4992 in"},
            id="a letter before each size",
        ),
        pytest.param(
            [["Cyl/Bore", "1/ 3.8755\"", "2/ 3.8756\"", "3/ 3.8754\""]],
            {"B5": "bore 1 3.8755 in", "D5": "bore 3 3.8754 in"},
            id="the cylinder and its bore in one cell",
        ),
        pytest.param(
            [["inch"], ["Thrust", "", "Mains", "", "Rods", ""],
             ["crank float", .007, 1, .0026, 1, .0022], ["", "", 2, .0027, 2, .0023],
             ["", "", 3, .0026, 3, .0022]],
            {"D7": "main_bearing_clearance 1 0.0026 in", "F9": "rod_bearing_clearance 3 0.0022 in"},
            id="lists that count beside another",
        ),
        pytest.param(
            [["inch"], ["#1 main", .0025, "#1 rod", .0022], ["#2 main", .0026, "#2 rod", .0023],
             ["#3 main", .0027, "#3 rod", .0022]],
            {"B6": "main_bearing_clearance 1 0.0025 in", "D8": "rod_bearing_clearance 3 0.0022 in"},
            id="a main and a rod in each row",
        ),
        pytest.param(
            [["cranking comp. psi: #1 165", "#2 160", "#3 170", "#4 168"]],
            {"A5": "cranking_pressure 1 165 psi", "D5": "cranking_pressure 4 168 psi"},
            id="cells that count on behind a name",
        ),
        pytest.param(
            [["Comp: #1 165 #2 160 #3 170"], ["Firing order: #1 8 #2 4 #3 3"]],
            {"A5": "cranking_pressure 3 170 psi", "A6": ""},
            id="a sentence that counts",
        ),
        pytest.param(
            [["Main brg clr - front to rear", .0024, .0025, .0024, .0026, .0027]],
            {"B5": "main_bearing_clearance 1 0.0024 in",
             "F5": "main_bearing_clearance 5 0.0027 in"},
            id="front to rear",
        ),
    ],
)  # fmt: skip
def test_which_one_is_told(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


# -- what a head leaves to others


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Ring side clearance", "TOP (lim .004)", "SEC (lim .004)"],
             ["piston 1", .0016, .0018], ["piston 2", .0017, .0019], ["piston 3", .0016, .0018]],
            {"B6": "top_ring_side_clearance 1 0.0016 in",
             "C8": "second_ring_side_clearance 3 0.0018 in"},
            id="limits in heads",
        ),
        pytest.param(
            [["inch"], ["Ring gaps", "TOP [.018-.022]", "2ND [.020-.024]"],
             ["cyl 1", .020, .022], ["cyl 2", .021, .023], ["cyl 3", .020, .022]],
            {"B7": "top_ring_gap 1 0.02 in", "C9": "second_ring_gap 3 0.022 in"},
            id="ranges in heads",
        ),
        pytest.param(
            [["inch"], ["Decks", "L", "R"], ["rec'd", 9.025, 9.027], ["finish", 9.010, 9.011]],
            {"B7": "deck_height L found 9.025 in", "C8": "deck_height R final 9.011 in"},
            id="sizes and no roughness",
        ),
        pytest.param(
            [["inch"], ["Thrust"], ["brg width", 1.1205], ["jrnl width", 1.1265], ["float", .006]],
            {"B7": "thrust_bearing_width 1.1205 in", "B8": "thrust_width 1.1265 in"},
            id="below thrust",
        ),
        pytest.param(
            [["inch"], ["Head gskt", "bore", 4.166, "thk", .040]],
            {"C6": "gasket_bore 4.166 in", "E6": "gasket_thickness 0.04 in"},
            id="a part before its labels",
        ),
        pytest.param(
            [["Quench", "Deck", "Gasket", "Total"],
             ["#1", .005, .040, .045], ["#2", .004, "", .044], ["#3", .005, "", .045]],
            {"B6": "deck_clearance 1 0.005 in", "D6": "quench 1 0.045 in",
             "D7": "quench 2 0.044 in"},
            id="a total",
        ),
        pytest.param(
            [["Main cap / align hone", "BEFORE", "AFTER"],
             [1, 2.9368, 2.9374], [2, 2.9362, 2.9374], [3, 2.9360, 2.9375]],
            {"B6": "main_housing_bore 1 found 2.9368 in",
             "C8": "main_housing_bore 3 final 2.9375 in"},
            id="what is counted and what is done",
        ),
        pytest.param(
            [["Big end I.D.", "As found", "", "Finished", ""],
             ["rod", "at 90", "near split", "at 90", "near split"],
             [1, 2.1254, 2.1239, 2.1247, 2.1247], [2, 2.1251, 2.1240, 2.1246, 2.1247]],
            {"B7": "rod_housing_bore 1 across found 2.1254 in",
             "E8": "rod_housing_bore 2 near split final 2.1247 in"},
            id="when over where",
        ),
        pytest.param(
            [["Seat width I / E", "Int.", "Exh."],
             [1, .055, .075], [2, .056, .078], [3, .055, .076]],
            {"B6": "intake_seat_width 1 0.055 in", "C8": "exhaust_seat_width 3 0.076 in"},
            id="both sides before the sides",
        ),
        pytest.param(
            [["Counterbore / flange / shim", "C'bore depth", "Liner flange", "Shim", "Protrusion"],
             ["Cyl 1", .4015, .399, .007, .0045], ["Cyl 2", .4012, .3988, .007, .0046],
             ["Cyl 3", .402, .399, .008, .005]],
            {"D6": "liner_shim_thickness 1 0.007 in", "E8": "liner_protrusion 3 0.005 in"},
            id="under a liner",
        ),
        pytest.param(
            [["Cyl", "Std bore 3.750 - worn", "Honed"], [1, 3.7552, 3.7801], [2, 3.7549, 3.7802],
             [3, 3.7550, 3.7801]],
            {"B6": "bore 1 found 3.7552 in", "C8": "bore 3 final 3.7801 in"},
            id="nominal and worn",
        ),
    ],
)  # fmt: skip
def test_heads_take_in_what_others_say(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


# -- lists side by side, and what a remark says of all


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["inch"], ["Heads cc", "Left", "", "Right"],
             ["", "front", 62.4, "front", 62.6], ["", "2nd", 62.2, "2nd", 62.4],
             ["", "rear", 62.4, "rear", 62.8]],
            {"C7": "chamber_volume L1 62.4 cc", "E8": "chamber_volume R2 62.4 cc",
             "E9": "chamber_volume R3 62.8 cc"},
            id="banks over names",
        ),
        pytest.param(
            [["TORQUES", "", "rod bolt stretch", "A", "B"],
             ["head bolts, ft lbs", 72, "rod 1", .0062, .0063],
             ["main bolts, ft lbs", 98, "rod 2", .0061, .0062],
             ["flywheel bolts, ft lbs", 62, "rod 3", .0062, .0060]],
            {"B6": "head_bolt_torque 72 lbf.ft", "B8": "flywheel_bolt_torque 62 lbf.ft",
             "D6": "rod_bolt_stretch A1 0.0062 in", "E8": "rod_bolt_stretch B3 0.006 in"},
            id="two lists",
        ),
        pytest.param(
            [["Sheet 4 - heads, thickness (in)", "Lft before", "Lft after"],
             ["int side front", 3.148, 3.136], ["exh side rear", 3.147, 3.136]],
            {"B6": "head_height L intake side front found 3.148 in",
             "C7": "head_height L exhaust side rear final 3.136 in"},
            id="corners of a head",
        ),
        pytest.param(
            [["inch"], ["Hole", "Taper", "O.O.R."],
             [1, .0062, .0021], [2, .0055, .0018], [3, .0071, .0030],
             ["as found - will need boring"]],
            {"B7": "bore_taper 1 found 0.0062 in", "C9": "bore_out_of_round 3 found 0.003 in"},
            id="as found below a table",
        ),
        pytest.param(
            [["inch"], ["Hole", "Taper", "O.O.R."],
             [1, .0062, .0021], [2, .0055, .0018], [3, .0071, .0030],
             ["#3 worn, sleeve it"]],
            {"B7": "bore_taper 1 0.0062 in", "C9": "bore_out_of_round 3 0.003 in"},
            id="one of them worn",
        ),
        pytest.param(
            [["Block 118 / as received"], ["Deck warp L bank: .0025\""], ["Head warp R: .003\""]],
            {"A6": "deck_flatness L found 0.0025 in", "A7": "head_flatness R found 0.003 in"},
            id="lines as received",
        ),
        pytest.param(
            [["Block 118, line honed"], ["Deck warp L bank: .0025\""], ["Head warp R: .003\""]],
            {"A6": "deck_flatness L 0.0025 in", "A7": "head_flatness R 0.003 in"},
            id="lines below a remark",
        ),
    ],
)  # fmt: skip
def test_lists_beside_and_remarks_below(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


def test_a_typed_difference_is_the_clearance_that_two_sizes_leave(tmp_path: Path) -> None:
    rows = [["inch", 1, 2, 3], ["bore", 3.6255, 3.6254, 3.6256], ["piston", 3.6223, 3.6222, 3.6224],
            ["diff.", .0032, .0032, .0032]]  # fmt: skip
    expected = {"B8": "piston_clearance 1 0.0032 in", "D8": "piston_clearance 3 0.0032 in"}
    check_told(tmp_path, rows, expected)


def test_the_difference_of_readings_of_one_bore_is_no_clearance(tmp_path: Path) -> None:
    rows = [["inch"], ["Cyl", "Bore top", "Bore bottom", "diff"],
            [1, 3.6255, 3.6245, .0010], [2, 3.6256, 3.6245, .0011]]  # fmt: skip
    check_told(tmp_path, rows, {"D7": "not understood: 1 0.001"})


# -- units and sums


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Cyl numbers", "#1", "#2", "#3"], ["ring top", 17, 18, 17], ["ring sec", 21, 20, 21],
             ["all in thousandths"]],
            {"B6": "top_ring_gap 1 0.017 in", "D7": "second_ring_gap 3 0.021 in"},
            id="all in thousandths",
        ),
        pytest.param(
            [["Hole", "Bore, mm", "Bore, in"], [1, 92.02, 3.6228], [2, 92.03, 3.6232]],
            {"B6": "bore 1 92.02 mm", "C7": "bore 2 3.6232 in"},
            id="one size in two units",
        ),
        pytest.param(
            [["Pistons. Wts in gms"], ["no.", "pist", "pin"], [1, 448, 112], [2, 447, 112.5],
             [3, 448, 112], ["tot", 1343, 336.5]],
            {"B7": "piston_mass 1 448 g", "C9": "pin_mass 3 112 g"},
            id="what all weigh together",
        ),
        pytest.param(
            [["BOBWEIGHT (grams)"], ["Pin", 118, "Rod small", 172], ["Rings", 36, "Oil", 4]],
            {"B7": "ring_mass 36 g", "D7": "oil_allowance 4 g"},
            id="rings and oil of a bobweight",
        ),
        pytest.param(
            [["inch"], ["Wet sleeves", "Flange proud (F)", "Flange proud (R)"],
             ["Hole 1", .0040, .0045], ["Hole 2", .0042, .0042], ["Hole 3", .0038, .0040]],
            {"B7": "liner_protrusion 1 0.004 in"},
            id="a front and no degrees",
        ),
    ],
)  # fmt: skip
def test_units_and_sums(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


# -- what stays as it was


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [
                ["Nr", "Bore block", "Hone", "Deck"],
                [1, 120, 80, 95],
                [2, 125, 80, 95],
                ["tot", 245, 160, 190],
            ],
            {"B6": "", "C7": "", "D6": ""},
            id="what work costs",
        ),
        pytest.param(
            [["mm"], ["Gaskets", "Head", "Base", "Total"], ["", 1.0, 0.5, 1.5]],
            {"D7": "not understood: 1.5"},
            id="a total of two gaskets",
        ),
        pytest.param(
            [["inch"], ["Lash, in", 0.012], ["Lash, ex", 0.014]],
            {"B6": "intake_lash 0.012 in", "B7": "exhaust_lash 0.014 in"},
            id="in behind a comma",
        ),
    ],
)
def test_what_looks_alike(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)

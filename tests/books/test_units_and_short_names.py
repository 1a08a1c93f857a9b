"""Units of temperatures and vacuum, weights beside weights, short names of sizes, remarks.

That shops write so is common practice, no source.
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
            [["Oil temp F", 212], ["Water F", 180], ["Oil temp C", 104]],
            {"B5": "oil_temperature 212 deg F", "B6": "coolant_temperature 180 deg F",
             "B7": "oil_temperature 104 deg C"},
            id="degrees",
        ),
        pytest.param(
            [["Oil", "Water F", "Air F"], [62, 180, 75]],
            {"B6": "coolant_temperature 180 deg F", "C6": "air_temperature 75 deg F"},
            id="degrees in heads",
        ),
        pytest.param(
            [["Sizes in inches"], ["Bore", 3.4985], ["Rod side play", 12],
             ["Pin in little end", 1]],
            {"B7": "rod_side_clearance 0.012 in", "B8": "small_end_clearance 0.001 in"},
            id="thousandths beside others",
        ),
        pytest.param(
            [["Cyl", "Rod centres", "Big end", "Small end"],
             [1, 5.700, 2.2250, .9277], [2, 5.701, 2.2251, .9278]],
            {"B6": "rod_length 1 5.7 in", "B7": "rod_length 2 5.701 in"},
            id="between centers and no middle",
        ),
        pytest.param(
            [["Block (mm)", "Zyl 1", "Zyl 2"], ["Ø oben", 86.506, 86.508],
             ["Ø unten", 86.506, 86.507], ["Kolben Ø", 86.437, 86.433]],
            {"B6": "asked: bore 1 top 86.506 mm", "C7": "asked: bore 2 bottom 86.507 mm"},
            id="a sign that is no letter",
        ),
        pytest.param([["Total C.R.", 9.6]], {"B5": "compression_ratio 9.6"}, id="a whole ratio"),
        pytest.param(
            [["Valve vacuum (inHg)", 1, 2, 3], ["In", 26, 26.5, 26], ["Ex", 25, 26, 25.5]],
            {"B6": "intake_valve_vacuum 1 26 inHg", "D7": "exhaust_valve_vacuum 3 25.5 inHg"},
            id="mercury",
        ),
        pytest.param(
            [["Valve", "Vacuum in Hg"], ["1 IN", 26], ["2 IN", 26.5], ["1 EX", 25], ["2 EX", 25.5]],
            {"B6": "intake_valve_vacuum 1 26 inHg", "B9": "exhaust_valve_vacuum 2 25.5 inHg"},
            id="inches of mercury",
        ),
        pytest.param(
            [["Rod wt. total", 612, "g"], ["Big end", 441, "g"], ["Small end", 171, "g"]],
            {"B5": "rod_mass 612 g"},
            id="a whole rod",
        ),
        pytest.param(
            [["Piston", 498], ["Wrist pin", 132], ["Ring set", 46], ["Rod big end", 441],
             ["Rod small end", 171]],
            {"B8": "rod_big_end_mass 441 g"},
            id="a weight among weights",
        ),
        pytest.param(
            [["No.", "Piston (g)", "Pin (g)", "Rings (g)", "Big end"],
             [1, 498, 132, 46, 441], [2, 496, 132, 46, 441]],
            {"E6": "rod_big_end_mass 1 441 g"},
            id="a column of weights among weights",
        ),
        pytest.param(
            [["Mains, plastic gage", .0021, .0022, .0020]],
            {"B5": "main_bearing_clearance 1 0.0021 in"},
            id="plastic gage",
        ),
        pytest.param(
            [["Main", "Plasti"], [1, .0021], [2, .0022], [3, .0020]],
            {"A6": "", "B6": "main_bearing_clearance 1 0.0021 in"},
            id="cut short",
        ),
        pytest.param(
            [["Cam", "Intake", "Exhaust"], [".050 dur", 232, 238], ["Lift at valve", .510, .520]],
            {"B6": "intake_duration 232 deg", "C6": "exhaust_duration 238 deg",
             "C7": "exhaust_valve_lift 0.52 in"},
            id="the lift before a duration",
        ),
        pytest.param(
            [["Valve train", "Intake", "Exhaust"], ["Pushrod length", 7.800, 7.950],
             ["Lash", .014, .016]],
            {"B6": "pushrod_length intake 7.8 in", "C6": "pushrod_length exhaust 7.95 in"},
            id="pushrods of both sides",
        ),
        pytest.param(
            [["Lash shims", "Intake", "Exhaust"], [1, 2.50, 2.45], [2, 2.52, 2.48]],
            {"B6": "lash_shim_thickness 1 intake 2.5 mm",
             "C7": "lash_shim_thickness 2 exhaust 2.48 mm"},
            id="shims of both sides",
        ),
        pytest.param(
            [["Head gasket, in modern material", .041], ["Stroke - as the seller has it", 3.480]],
            {"B5": "gasket_thickness 0.041 in", "B6": "stroke 3.48 in"},
            id="remarks behind a clause",
        ),
        pytest.param(
            [["Bore before, no. 1", 4.0052], ['" no. 2', 4.0055]],
            {"B5": "bore 1 found 4.0052 in", "B6": "bore 2 found 4.0055 in"},
            id="ditto and another number",
        ),
        pytest.param(
            [["Head bolts, oiled threads and washers (ft-lb)", 65]],
            {"B5": "head_bolt_torque 65 lbf.ft"},
            id="a remark before the unit",
        ),
    ],
)  # fmt: skip
def test_units_and_names(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        ([["Cyl (in)", 1, 2], ["P/bore", .0035, .0036]], {"B6": "piston_clearance 1 0.0035 in"}),
        ([["Cyl (in)", 1, 2], ["P/wall", .0045, .0046]], {"B6": "piston_clearance 1 0.0045 in"}),
        ([["inches", 1, 2], ["Main jl", 2.4482, 2.4481]], {"B6": "main_journal 1 2.4482 in"}),
        ([["Saddles (in)", 1, 2, 3], ["", 2.6412, 2.6411, 2.6412]],
         {"B6": "main_housing_bore 1 2.6412 in"}),
        ([["Cyl (in)", "N-S", "E-W"], [1, 3.5002, 3.5006], [2, 3.5001, 3.5005]],
         {"B6": "bore 1 parallel 3.5002 in", "C7": "bore 2 thrust 3.5005 in"}),
        ([["Deck height (in)", "Frt", "Rear"], ["Found", 9.025, 9.024]],
         {"B6": "deck_height 1 front found 9.025 in"}),
        ([["Main (in)", "Came", "Ground"], [1, 2.4982, 2.4882]],
         {"B6": "main_journal 1 found 2.4982 in"}),
        ([["Válvula (mm)", 1, 2], ["Guía-vástago adm", .04, .045]],
         {"B6": "intake_stem_clearance 1 0.04 mm"}),
        ([["Bielas (mm)", 1, 2], ["Casquillo biela", 50.02, 50.025], ["Muñequilla", 49.98, 49.985]],
         {"B6": "rod_bearing_bore 1 50.02 mm", "B7": "rod_journal 1 49.98 mm"}),
        ([["Zylinder", 1, 2], ["Düse abgedrückt (bar)", 135, 136]],
         {"B6": "injector_pressure 1 13500 kPa"}),
        ([["Valvole (mm)", "Asp", "Sca"], [1, .20, .25], [2, .20, .25]],
         {"B6": "intake_lash 1 0.2 mm", "C6": "exhaust_lash 1 0.25 mm"}),
    ],
)  # fmt: skip
def test_short_names(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("label", ["Bore of the blower", "g bore"])
def test_a_single_number_of_something_unknown_is_asked_about(tmp_path: Path, label: str) -> None:
    check_told(tmp_path, [["inches", None], [label, 4.030]], {"B6": "asked: bore 4.03 in"})

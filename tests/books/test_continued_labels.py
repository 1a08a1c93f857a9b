"""Labels that go on behind their value with another side or part, and ticks between values.

That builders write so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

from workbook_tools.labels.continued_labels import goes_on

INCHES = [["inches", "#1", "#2", "#3", "#4"], ["Bore", 4.0007, 4.0008, 4.0008, 4.0008]]


@pytest.mark.parametrize(
    ("label", "text", "whole"),
    [
        ("Lash hot int", "exh", "Lash hot exh"),
        ("Seat width in", "ex", "Seat width ex"),
        ("Torque ft-lbs: main", "head", "Torque ft-lbs: head"),
        ("Main bolts Nm", "rod", "rod bolts Nm"),
        ("Bore", "Stroke", ""),
        ("Rod length", "rod", ""),
        ("Head gasket bore", "main", ""),
        ("Lash hot", "exh", ""),
    ],
)
def test_labels_with_another_side_or_part(label: str, text: str, whole: str) -> None:
    assert goes_on(label, text) == whole


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [*INCHES, ["Lash hot int", 0.014, "exh", 0.016],
             ["Torque ft-lbs: main", 105, "head", 75], ["Clay int / exh", 0.115, 0.142]],
            {"B7": "intake_lash 0.014 in", "D7": "exhaust_lash 0.016 in",
             "B8": "main_bolt_torque 105 lbf.ft", "D8": "head_bolt_torque 75 lbf.ft",
             "B9": "intake_valve_to_piston 0.115 in", "C9": "exhaust_valve_to_piston 0.142 in"},
            id="below a table that counts",
        ),
        pytest.param(
            [["Main bolts Nm", 90, "rod", 45, "head", 80]],
            {"B5": "main_bolt_torque 90 N.m", "D5": "rod_bolt_torque 45 N.m",
             "F5": "head_bolt_torque 80 N.m"},
            id="three parts in a row",
        ),
        pytest.param(
            [["all mm", "Cyl 1", "Cyl 2"], ["Bore", 78.01, 78.02], ["Piston", 77.96, 77.96],
             ["Tappets in / ex", 0.1, 0.2]],
            {"B8": "intake_lash 0.1 mm", "C8": "exhaust_lash 0.2 mm"},
            id="both sides below the two cylinders of a twin",
        ),
        pytest.param(
            [["mm", 1, 2, 3], ["stem in", 5.475, 5.474, 5.475], ["     ex", 5.457, 5.461, 5.461],
             ["guide in", 5.51, 5.503, 5.508], ["     ex", 5.508, 5.507, 5.507],
             ["valve gap in", 0.19, 0.2, 0.18], ["     ex", 0.31, 0.29, 0.29]],
            {"B7": "exhaust_stem_diameter 1 5.457 mm", "C9": "exhaust_guide_bore 2 5.507 mm",
             "B10": "intake_lash 1 0.19 mm", "D11": "exhaust_lash 3 0.29 mm"},
            id="the other side in the row below",
        ),
        pytest.param(
            [["Valves", "No 1", "No 2", "No 3", "No 4"],
             ["Inlet stem", 0.3111, 0.3112, 0.3108, 0.3112], ["Tappets thou, hot: in, ex", 10, 12],
             ["Head nuts, lb ft", 60]],
            {"B7": "intake_lash 0.01 in", "C7": "exhaust_lash 0.012 in"},
            id="sides joined by a comma",
        ),
        pytest.param(
            [["Lifters hot, thou, in", 8, "ex", 10]],
            {"B5": "intake_lash 0.008 in", "D5": "exhaust_lash 0.01 in"},
            id="in behind a unit is the intake",
        ),
        pytest.param(
            [["Bore size cyl 1 2 3 (mm)", 86.514, "✓", 86.511, "✓", 86.512, "✓"],
             ["Top ring gap 1 2 3 (mm)", 0.29, "✓", 0.33, "✓", 0.28, "✓"]],
            {"B5": "bore 1 86.514 mm", "D5": "bore 2 86.511 mm", "F6": "top_ring_gap 3 0.28 mm"},
            id="ticks are no values",
        ),
        pytest.param(
            [["Cyl", "Bore", "Piston"], [1, 4.035, 4.0309], [2, 4.0352, 4.0307],
             [3, 4.0353, 4.0305], [], ["Valve springs seat / open lb", None, 235, 610],
             ["Intake dur at .050 lift", None, 262], ["Head studs ft-lb", None, 75]],
            {"C10": "spring_seat_load 235 lbf", "D10": "spring_open_load 610 lbf",
             "C11": "intake_duration 262 deg", "C12": "head_bolt_torque 75 lbf.ft"},
            id="labels of several words over a gap",
        ),
    ],
)  # fmt: skip
def test_values_behind_labels_that_go_on(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)

"""Places in short that the ones beside them tell: ends, corners, heights with axes, readings.

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
            [["Mains (in)", "F", "C", "R"], ["Journal", 2.2488, 2.2489, 2.2487]],
            {"B6": "main_journal 1 2.2488 in", "C6": "main_journal 2 2.2489 in",
             "D6": "main_journal 3 2.2487 in"},
            id="three mains",
        ),
        pytest.param(
            [["Deck height (in)", "LF", "RF", "LR", "RR"],
             ["As found", 9.026, 9.025, 9.027, 9.024],
             ["After milling", 9.001, 9.001, 9.000, 9.001]],
            {"B6": "deck_height L1 front found 9.026 in",
             "C6": "deck_height R1 front found 9.025 in",
             "D7": "deck_height L2 rear final 9 in", "E7": "deck_height R2 rear final 9.001 in"},
            id="corners in heads",
        ),
        pytest.param(
            [["Deck height (in)", "FL", "FR", "RL", "RR"],
             ["As found", 9.026, 9.025, 9.027, 9.024]],
            {"B6": "deck_height L1 front found 9.026 in",
             "E6": "deck_height R2 rear found 9.024 in"},
            id="corners by their end first",
        ),
        pytest.param(
            [["Deckhöhe (mm)", None],
             ["VL", 214.62], ["VR", 214.6], ["HL", 214.63], ["HR", 214.61]],
            {"B6": "deck_height L front 214.62 mm", "B9": "deck_height R rear 214.61 mm"},
            id="corners in rows",
        ),
        pytest.param(
            [["Hauteur de bloc (mm)", None],
             ["AVG", 214.62], ["AVD", 214.6], ["ARG", 214.63], ["ARD", 214.61]],
            {"B7": "deck_height R front 214.6 mm", "B8": "deck_height L rear 214.63 mm"},
            id="corners in French",
        ),
    ],
)  # fmt: skip
def test_ends_and_corners(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    "heads",
    [
        ["T1", "T2", "M1", "M2", "B1", "B2"],
        ["TX", "TY", "MX", "MY", "BX", "BY"],
        ["H1", "H2", "M1", "M2", "B1", "B2"],
        ["OA", "OB", "MA", "MB", "UA", "UB"],
    ],
    ids=" ".join,
)
def test_heights_with_an_axis_behind_them(tmp_path: Path, heads: list[str]) -> None:
    sizes = [[88.021, 88.015, 88.012, 88.011, 88.010, 88.009],
             [88.024, 88.016, 88.013, 88.011, 88.011, 88.010]]  # fmt: skip
    rows = [["Bores (mm)", *heads], ["Cyl 1", *sizes[0]], ["Cyl 2", *sizes[1]]]
    expected = {
        "B6": "bore 1 top thrust 88.021 mm",
        "C6": "bore 1 top parallel 88.015 mm",
        "D6": "bore 1 middle thrust 88.012 mm",
        "G7": "bore 2 bottom parallel 88.01 mm",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Bores (mm)", 1, 2, 3],
             ["Top, axis A", 88.021, 88.024, 88.020], ["Top, axis B", 88.015, 88.016, 88.014],
             ["Bottom, axis A", 88.012, 88.013, 88.011],
             ["Bottom, axis B", 88.010, 88.011, 88.010]],
            {"B6": "bore 1 top thrust 88.021 mm", "C7": "bore 2 top parallel 88.016 mm",
             "D9": "bore 3 bottom parallel 88.01 mm"},
            id="axes in rows",
        ),
        pytest.param(
            [["Main journal (in)", "fwd 0", "fwd 90", "rear 0", "rear 90"],
             [1, 2.7491, 2.7489, 2.7489, 2.7492], [2, 2.7490, 2.7488, 2.7490, 2.7489]],
            {"B6": "main_journal 1 thrust front 2.7491 in",
             "C6": "main_journal 1 parallel front 2.7489 in",
             "E7": "main_journal 2 parallel rear 2.7489 in"},
            id="degrees at both ends",
        ),
        pytest.param(
            [["Bores (in)", "A", "B", "C", "D"],
             ["Cyl 1", 4.0301, 4.0302, 4.0300, 4.0303], ["Cyl 2", 4.0302, 4.0301, 4.0301, 4.0300]],
            {"B6": "bore 1 A 4.0301 in", "C6": "bore 1 B 4.0302 in", "E7": "bore 2 D 4.03 in"},
            id="readings by letters",
        ),
        pytest.param(
            [["Main journal", "A", "B", "C", "D", "Plastic gage"],
             [1, 2.4493, 2.4493, 2.4492, 2.4493, .002], [2, 2.4493, 2.4493, 2.4492, 2.4493, .002]],
            {"B6": "main_journal 1 A 2.4493 in", "E7": "main_journal 2 D 2.4493 in",
             "F6": "main_bearing_clearance 1 0.002 in"},
            id="readings before a clearance",
        ),
        pytest.param(
            [["Cylinder (in)", 1, 2, 3],
             ["Bore top", 3.5002, 3.5001, 3.5003], ["Bore foot", 3.4992, 3.4993, 3.4991]],
            {"B7": "bore 1 bottom 3.4992 in"},
            id="the foot of a bore",
        ),
    ],
)  # fmt: skip
def test_axes_and_readings(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Moteur V6, relevé après réalésage (mm)"],
             ["Cylindre", "Alésage culasse G", "Alésage culasse D"],
             [1, 84.51, 84.52], [2, 84.50, 84.51], [3, 84.51, 84.51]],
            {"B7": "bore L1 final 84.51 mm", "C7": "bore R1 final 84.52 mm",
             "C9": "bore R3 final 84.51 mm"},
            id="gauche and droite",
        ),
        pytest.param(
            [["Jeu aux soupapes à froid (mm)"],
             ["Cylindre", "Adm G", "Adm D", "Éch G", "Éch D"],
             [1, .20, .21, .30, .31], [2, .20, .20, .30, .30]],
            {"B7": "intake_lash L1 0.2 mm", "C7": "intake_lash R1 0.21 mm",
             "E8": "exhaust_lash R2 0.3 mm"},
            id="valves gauche and droite",
        ),
        pytest.param(
            [["Culatas, volumen de cámaras (cc)"], ["Cámara", "Culata I", "Culata D"],
             [1, 44.1, 44.2], [2, 44.0, 44.3], [3, 44.2, 44.1]],
            {"B7": "chamber_volume L1 44.1 cc", "C7": "chamber_volume R1 44.2 cc",
             "B9": "chamber_volume L3 44.2 cc"},
            id="izquierda and derecha",
        ),
    ],
)  # fmt: skip
def test_letters_of_sides(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Piston protrusion (mm)", "No1", "No2", "No3"], ["Measured", .52, .55, .53]],
            {"B6": "deck_clearance 1 final -0.52 mm", "D6": "deck_clearance 3 final -0.53 mm"},
            id="No1",
        ),
        pytest.param(
            [["", "Bore (mm)", "Piston (mm)"],
             ["Cyl No1", 82.06, 82.01], ["Cyl No2", 82.05, 82.00]],
            {"B6": "bore 1 82.06 mm", "C7": "piston_diameter 2 82 mm"},
            id="Cyl No1",
        ),
        pytest.param(
            [["Bohrung (mm)", "nr1", "nr2", "nr3"], ["Gemessen", 82.06, 82.05, 82.06]],
            {"B6": "bore 1 final 82.06 mm", "C6": "bore 2 final 82.05 mm"},
            id="nr1",
        ),
        pytest.param(
            [["inches", "MAINS (5)", "RODS (4)"], [1, 2.4482, 2.0992], [2, 2.4481, 2.0991],
             [3, 2.4482, 2.0992], [4, 2.4481, 2.0992], [5, 2.4482, None]],
            {"B6": "main_journal 1 2.4482 in", "B7": "main_journal 2 2.4481 in",
             "C6": "rod_journal 1 2.0992 in", "C8": "rod_journal 3 2.0992 in"},
            id="how many in brackets",
        ),
        pytest.param(
            [["Chambers cc 1 3 5 7", 64.2, 64.0, 64.1, 64.3],
             ["Chambers cc 2 4 6 8", 64.0, 64.1, 64.2, 64.0]],
            {"B5": "chamber_volume 1 64.2 cc", "C5": "chamber_volume 3 64 cc",
             "E6": "chamber_volume 8 64 cc"},
            id="listed behind the name",
        ),
        pytest.param(
            [["Mains (1-5)", 2.4482, 2.4481, 2.4483, 2.4481, 2.4482]],
            {"B5": "main_journal 1 2.4482 in", "F5": "main_journal 5 2.4482 in"},
            id="from the first to the last",
        ),
    ],
)  # fmt: skip
def test_numbers_of_parts(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Valve", "Stem", "Guide"], ["1 IN L", 5.972, 6.005], ["1 IN R", 5.971, 6.004],
             ["1 EX L", 5.955, 6.004], ["1 EX R", 5.956, 6.005]],
            {"B6": "intake_stem_diameter 1 left 5.972 mm",
             "C7": "intake_guide_bore 1 right 6.004 mm",
             "B8": "exhaust_stem_diameter 1 left 5.955 mm"},
            id="left and right",
        ),
        pytest.param(
            [["Valve", "Stem (mm)", "Guide (mm)"], ["1 IN front", 5.972, 6.005],
             ["1 IN rear", 5.971, 6.004], ["1 EX F", 5.955, 6.004], ["1 EX rear", 5.956, 6.005]],
            {"B7": "intake_stem_diameter 1 rear 5.971 mm",
             "C8": "exhaust_guide_bore 1 front 6.004 mm"},
            id="front and rear",
        ),
        pytest.param(
            [["Valve", "Stem (mm)", "Guide (mm)"], ["I1a", 5.972, 6.005], ["I1b", 5.971, 6.004],
             ["E1a", 5.955, 6.004], ["E1b", 5.956, 6.005]],
            {"B6": "intake_stem_diameter 1 A 5.972 mm", "C7": "intake_guide_bore 1 B 6.004 mm",
             "B9": "exhaust_stem_diameter 1 B 5.956 mm"},
            id="a and b",
        ),
        pytest.param(
            [["Valve", "Clr found", "Shim was", "Shim now", "Clr now"],
             ["1 IN L", .13, 2.525, 2.500, .15], ["1 IN R", .13, 2.525, 2.500, .15],
             ["1 EX L", .21, 2.475, 2.425, .26], ["1 EX R", .21, 2.475, 2.425, .26]],
            {"B6": "intake_lash 1 left found 0.13 mm",
             "C7": "lash_shim_thickness 1 intake right found 2.525 mm",
             "E9": "exhaust_lash 1 right final 0.26 mm"},
            id="their shims",
        ),
        pytest.param(
            [["Guide bore", "1a", "1b", "2a", "2b"], ["Intake", 6.005, 6.004, 6.004, 6.005]],
            {"C6": "intake_guide_bore 1 6.004 mm", "E6": "intake_guide_bore 2 6.005 mm"},
            id="two of each cylinder",
        ),
    ],
)  # fmt: skip
def test_one_of_two_valves(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)

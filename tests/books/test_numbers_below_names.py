"""Columns of numbers below their name, first columns of no name, numbered heads beside others.

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
            [["Main journals, front to rear, polished"], [2.6835], [2.6834], [2.6836], [2.6835]],
            {"A6": "main_journal 1 machined 2.6835 in", "A9": "main_journal 4 machined 2.6835 in"},
            id="front to rear",
        ),
        pytest.param(
            [["Bores, 1 to 4"], [3.7808], [3.7810], [3.7809], [3.7808], [],
             ["Top ring gaps"], [.014], [.015], [.014], [.014]],
            {"A6": "bore 1 3.7808 in", "A9": "bore 4 3.7808 in",
             "A12": "top_ring_gap 1 0.014 in", "A13": "top_ring_gap 2 0.015 in"},
            id="two lists",
        ),
        pytest.param(
            [["Item (grams)", "Each", "Qty", "Total"], ["Piston", 386.5, 2, 773],
             ["Wrist pin", 98, 2, 196], ["Ring set", 28.4, 2, 56.8],
             ["Rod small end", 148.5, 2, 297]],
            {"B6": "piston_mass 386.5 g", "B7": "pin_mass 98 g",
             "B9": "rod_small_end_mass 148.5 g"},
            id="what each weighs",
        ),
        pytest.param(
            [["Measurement [mm]", "Min", "Max", "Pin 1", "Pin 2", "Pin 3", "Mean"],
             ["Crankpin", 67.46, 67.49, 67.485, 67.480, 67.475, 67.480],
             ["Clearance", .05, .09, .060, .065, .065, .063]],
            {"B6": "rod_journal limit_low 67.46 mm", "D6": "rod_journal 1 67.485 mm",
             "C7": "rod_bearing_clearance limit_high 0.09 mm",
             "F7": "rod_bearing_clearance 3 0.065 mm"},
            id="pins beside limits",
        ),
        pytest.param(
            [["1. Cylinder block (mm)"],
             ["Cylinder", "Max. bore dia", "Ovality", "Taper", "Piston dia", "Clearance"],
             [1, 79.58, .03, .04, 79.43, .15], [2, 79.61, .04, .05, 79.42, .19]],
            {"B7": "bore 1 79.58 mm", "B8": "bore 2 79.61 mm", "D7": "bore_taper 1 0.04 mm"},
            id="the most that was measured",
        ),
        pytest.param(
            [["1) Bored .030 over, finish 4.0305"], ["2) Pistons 4.0270"]],
            {"A5": "bore machined 4.0305 in"},
            id="nor has one in a sentence",
        ),
        pytest.param(
            [["Cyl", "Bore, finish hone"], [1, 4.0202], [2, 4.0203], [3, 4.0203]],
            {"B6": "bore 1 final 4.0202 in", "B8": "bore 3 final 4.0203 in"},
            id="no roughness has four decimals",
        ),
    ],
)  # fmt: skip
def test_columns_of_numbers(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["V/clearances (thou)", "In", "Ex"],
             [1, 10, 12], [2, 10, 12], [3, 11, 13], [4, 10, 12]],
            {"A6": "", "B6": "intake_lash 1 0.01 in", "C8": "exhaust_lash 3 0.013 in"},
            id="a count below the name of what is measured",
        ),
        pytest.param(
            [["Cyl", "Bore", "Piston", "CCs"], [1, 4.060, 4.0555, 64.2],
             [2, 4.0602, 4.0556, 64.0], [3, 4.0601, 4.0555, 64.1]],
            {"D6": "chamber_volume 1 64.2 cc", "D8": "chamber_volume 3 64.1 cc"},
            id="CCs below Cyl",
        ),
        pytest.param(
            [["Cyl", "Crankpin", "Big end brg", "Clearance"], [1, 1.9364, 1.9386, .0022],
             [2, 1.9365, 1.9385, .0020], [3, 1.9365, 1.9386, .0021]],
            {"D6": "rod_bearing_clearance 1 0.0022 in", "D8": "rod_bearing_clearance 3 0.0021 in"},
            id="a clearance by its two sizes",
        ),
        pytest.param(
            [["Cyl", "Crankpin", "Big end brg", "Clearance"], [1, 1.9364, 1.9386, "=C6-B6"],
             [2, 1.9365, 1.9385, "=C7-B7"], [3, 1.9365, 1.9386, "=C8-B8"]],
            {"D6": "result: rod_bearing_clearance", "D8": "result: rod_bearing_clearance"},
            id="a clearance by its formula",
        ),
        pytest.param(
            [["Zylinder", 4], ["Bohrung", "81,0 mm"], ["Hub", "90 mm"]],
            {"B5": "cylinder_count 4", "B6": "bore 81 mm"},
            id="Zylinder",
        ),
        pytest.param(
            [["Cylinders", 4.0302, 4.0301, 4.0303], ["Skirts", 4.0258, 4.0257, 4.0258]],
            {"B5": "bore 1 4.0302 in", "D5": "bore 3 4.0303 in"},
            id="sizes are no count",
        ),
        pytest.param(
            [["Cyls", 1, 2, 3, 4], ["Cylinders", 1, 3, 5, 7]],
            {"B6": "not understood: 1 1", "E6": "not understood: 4 7"},
            id="which ones and not how many",
        ),
        pytest.param(
            [["Cyl", "Bore", "Piston", "CR"], [1, 4.0302, 4.0258, "=B6-C6"],
             [2, 4.0301, 4.0257, "=B7-C7"]],
            {"D6": "result: piston_clearance"},
            id="a formula against a name",
        ),
        pytest.param([["Motor", ""], ["Cilindros", 4]], {"B6": "cylinder_count 4"}, id="Cilindros"),
        pytest.param(
            [["Cylindres", 6], ["Alésage (mm)", 84.5], ["Course (mm)", 88]],
            {"B5": "cylinder_count 6", "B6": "bore 84.5 mm"},
            id="Cylindres",
        ),
    ],
)  # fmt: skip
def test_counts_and_what_they_stand_over(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)

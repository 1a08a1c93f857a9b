"""Pairs of what came in and what went out: with units, in several tables, in rows; shims.

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
            [["Cyl", "Leak in %", "Leak out %"], [1, 18, 4], [2, 22, 5], [3, 12, 4]],
            {"B6": "leakage 1 found 18", "C6": "leakage 1 final 4", "C8": "leakage 3 final 4"},
            id="percent",
        ),
        pytest.param(
            [["Main", "Clr in", "Clr out", None, "Rod", "Clr in", "Clr out"],
             [1, .0038, .0024, None, 1, .0034, .0021], [2, .0037, .0025, None, 2, .0035, .0022],
             [3, .0038, .0024, None, 3, .0034, .0021]],
            {"B6": "main_bearing_clearance 1 found 0.0038 in",
             "C6": "main_bearing_clearance 1 final 0.0024 in",
             "F8": "rod_bearing_clearance 3 found 0.0034 in",
             "G8": "rod_bearing_clearance 3 final 0.0021 in"},
            id="two tables side by side",
        ),
        pytest.param(
            [["Cylinder (in)", 1, 2, 3],
             ["Bore in", 4.0052, 4.0055, 4.0051], ["Bore out", 4.0302, 4.0301, 4.0302]],
            {"B6": "bore 1 found 4.0052 in", "B7": "bore 1 final 4.0302 in",
             "D7": "bore 3 final 4.0302 in"},
            id="rows",
        ),
        pytest.param(
            [["Crank (in)", None], ["End play in", .011], ["End play out", .006]],
            {"B6": "crank_end_play found 0.011 in", "B7": "crank_end_play final 0.006 in"},
            id="one number each",
        ),
        pytest.param(
            [["Valve", "Shim out", "Shim in"], ["Cyl 1 int", 2.90, 2.85],
             ["Cyl 2 int", 2.45, 2.50], ["Cyl 1 exh", 2.50, 2.48], ["Cyl 2 exh", 2.50, 2.52]],
            {"B6": "lash_shim_thickness 1 intake found 2.9 mm",
             "C6": "lash_shim_thickness 1 intake final 2.85 mm",
             "C9": "lash_shim_thickness 2 exhaust final 2.52 mm"},
            id="shims that came out were the old ones",
        ),
    ],
)  # fmt: skip
def test_in_and_out(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["No.", 1, 2, 3, 4], ["Came in", 2.7846, 2.7851, 2.7843, 2.7849],
             ["Pistons", 2.8218, 2.8217, 2.8219, 2.8218],
             ["Finished", 2.8239, 2.8238, 2.8240, 2.8239], ["Clearance", *[.0021] * 4]],
            {"B6": "bore 1 found 2.7846 in", "B7": "piston_diameter 1 2.8218 in",
             "E8": "bore 4 final 2.8239 in", "B9": "piston_clearance 1 0.0021 in"},
            id="bores beside their pistons",
        ),
        pytest.param(
            [["", 1, 2, 3], ["As received", 4.0052, 4.0055, 4.0051],
             ["Pistons finished", 4.0258, 4.0257, 4.0258]],
            {"B6": "bore 1 found 4.0052 in", "D7": "piston_diameter 3 final 4.0258 in"},
            id="pistons are bought",
        ),
        pytest.param(
            [["Was", "vorher", "nachher"],
             ["Zylinder 1 oben", 98.31, 98.52], ["Zylinder 1 unten", 98.12, 98.51],
             ["Zylinder 2 oben", 98.35, 98.52], ["Zylinder 2 unten", 98.10, 98.52],
             ["Kolben 1", 97.79, 98.38], ["Kolben 2", 97.80, 98.38]],
            {"B6": "bore 1 top found 98.31 mm", "C9": "bore 2 bottom final 98.52 mm",
             "C11": "piston_diameter 2 final 98.38 mm"},
            id="rows of cylinders",
        ),
        pytest.param(
            [["Final specs", None], ["Bore", 4.030], ["Clearance, mains", .0022]],
            {"B6": "bore final 4.03 in", "B7": "main_bearing_clearance final 0.0022 in"},
            id="what it ended at",
        ),
        pytest.param(
            [["grams"], ["Rod", "Big as is", "Big matched", "Small as is", "Small matched"],
             [1, 561.6, 558.7, 212.9, 211.9], [2, 560.3, 558.5, 212.4, 211.9],
             [3, 563.8, 558.5, 212.7, 211.8]],
            {"B7": "rod_big_end_mass 1 found 561.6 g", "C7": "rod_big_end_mass 1 final 558.7 g",
             "E9": "rod_small_end_mass 3 final 211.8 g"},
            id="rods that were matched",
        ),
        pytest.param(
            [["Cam", "Card", "As degreed"], ["Intake duration @ .050", 232, 233],
             ["Exhaust duration @ .050", 238, 238], ["Intake opens BTDC", 22, 22.5]],
            {"B6": "intake_duration target 232 deg", "C6": "intake_duration final 233 deg",
             "C8": "intake_opening final 22.5 deg"},
            id="a cam and its card",
        ),
        pytest.param(
            [["Cams", "Found", "Set"], ["Inlet CL", 109, 106], ["Exhaust CL", 102, 105]],
            {"B6": "intake_centerline found 109 deg", "C7": "exhaust_centerline final 105 deg"},
            id="what cams were set to",
        ),
        pytest.param(
            [["Valve timing", "On the card", "Degreed"], ["Int dur", 232, 233]],
            {"B6": "intake_duration target 232 deg", "C6": "intake_duration final 233 deg"},
            id="on the card",
        ),
        pytest.param(
            [["Chambers (cc)", "As is", "Equalized"], [1, 64.5, 64.0], [2, 63.2, 64.0]],
            {"B6": "chamber_volume 1 found 64.5 cc", "C7": "chamber_volume 2 final 64 cc"},
            id="equalized",
        ),
        pytest.param(
            [["Cyl", "Finish bored"], [1, 4.0302], [2, 4.0301]],
            {"B6": "bore 1 final 4.0302 in"},
            id="finish bored",
        ),
        pytest.param(
            [["Cylindre", "Alésage avant réalésage", "Alésage rendu"],
             [1, 84.06, 84.50], [2, 84.07, 84.50]],
            {"B6": "bore 1 found 84.06 mm", "C6": "bore 1 final 84.5 mm"},
            id="rendu",
        ),
        pytest.param(
            [["Cilindro", "Diámetro recibido", "Diámetro entregado"],
             [1, 84.06, 84.50], [2, 84.07, 84.50]],
            {"B6": "bore 1 found 84.06 mm", "C6": "bore 1 final 84.5 mm"},
            id="entregado",
        ),
    ],
)  # fmt: skip
def test_what_came_and_what_was_made_of_it(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("sign", ["ditto,", '"', "do."])
def test_a_ditto_repeats_all_but_the_place(tmp_path: Path, sign: str) -> None:
    rows: Rows = [
        ["Cylinder (in)", 1, 2, 3],
        ["Bore found, top", 4.0052, 4.0055, 4.0051],
        [f"{sign} bottom", 4.0032, 4.0031, 4.0030],
    ]
    check_told(tmp_path, rows, {"B7": "bore 1 bottom found 4.0032 in"})

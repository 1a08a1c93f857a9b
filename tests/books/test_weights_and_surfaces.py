"""Pistons weighed with their pins, bearings among weights, surfaces, and sizes in thousandths.

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
            [["Weights (g)", 1, 2], ["Piston c/w rings/pin", 642, 643], ["Rod", 612, 611]],
            {"B6": "piston_assembly_mass 1 642 g", "C6": "piston_assembly_mass 2 643 g"},
            id="with rings and pin",
        ),
        pytest.param(
            [["Weights (g)", 1, 2], ["Piston w/ pin", 598, 599], ["Rings", 46, 46]],
            {"B6": "piston_assembly_mass 1 598 g"},
            id="with its pin",
        ),
        pytest.param(
            [["Piston", 498], ["Wrist pin", 132], ["Ring set", 46], ["Brg pr", 42]],
            {"B8": "bearing_mass 42 g"},
            id="a pair of bearings",
        ),
        pytest.param(
            [["Rod", "b/end (g)", "s/end (g)", "Total (g)"],
             [1, 441, 171, 612], [2, 440, 171, 611]],
            {"B6": "rod_big_end_mass 1 441 g", "C7": "rod_small_end_mass 2 171 g"},
            id="ends of rods",
        ),
    ],
)  # fmt: skip
def test_weights(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Deck surface, Ra (µin)", 24], ["Head surface, Ra (µin)", 28]],
            {"B5": "deck_finish 2.4e-05 in", "B6": "head_finish 2.8e-05 in"},
            id="roughness",
        ),
        pytest.param(
            [["Liners, heavy diesel", "Cyl 1", "Cyl 2"], ["Proud", .28, .30]],
            {"B6": "liner_protrusion 1 0.28 mm", "C6": "liner_protrusion 2 0.3 mm"},
            id="liners that stand far out",
        ),
        pytest.param(
            [["Cyl", "Intake runner CSA (sq in)"], [1, 2.41], [2, 2.42]],
            {"B6": "port_area 1 2.41 sq in"},
            id="runners are ports",
        ),
        pytest.param(
            [["Valve", "Dia", "Margin"], ["Intake 1", 44.5, 1.2], ["Exhaust 1", 37.5, 1.5]],
            {"B6": "intake_valve_head_diameter 1 44.5 mm",
             "B7": "exhaust_valve_head_diameter 1 37.5 mm"},
            id="a diameter in short",
        ),
        pytest.param(
            [["Crank (mm)", 1, 2, 3, 4], ["Width between cheeks", 26.05, 26.06, 26.05, 26.05]],
            {"B6": "rod_journal_width 1 26.05 mm"},
            id="between cheeks",
        ),
        pytest.param(
            [["Rods (mm)", 1, 2], ["b/end", 51.61, 51.62], ["s/end", 22.01, 22.01]],
            {"B6": "rod_housing_bore 1 51.61 mm", "C7": "small_end_bore 2 22.01 mm"},
            id="bores of ends",
        ),
        pytest.param(
            [["Valve springs (lb)", "closed", "open"],
             ["Intake 1", 118, 305], ["Exhaust 1", 120, 308]],
            {"B6": "spring_seat_load 1 118 lbf", "C7": "spring_open_load 1 308 lbf"},
            id="states of springs",
        ),
        pytest.param(
            [["Oil pressure (psi)", None], ["at tickover", 22], ["at 3000 rpm", 58]],
            {"B6": "oil_pressure 22 psi"},
            id="tickover",
        ),
        pytest.param(
            [["Valve lash (in)", 1, 2], ["In", .010, .010], ["shim", .102, .103],
             ["Ex", .012, .012], ["shim", .098, .099]],
            {"B7": "lash_shim_thickness 1 intake 0.102 in",
             "C9": "lash_shim_thickness 2 exhaust 0.099 in"},
            id="shims below each side",
        ),
    ],
)  # fmt: skip
def test_sizes(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


def test_how_far_a_tip_is_out(tmp_path: Path) -> None:
    rows = [["Cyl", "Inj tip out (mm)"], [1, 2.15], [2, 2.20], [3, 2.10]]
    assert told(tmp_path, rows)["B6"].startswith("injector_protrusion 1 ")


def test_coarse_sizes_of_bearings_are_thousandths(tmp_path: Path) -> None:
    rows = [["Clearances in thou unless marked otherwise"], ["Rod brg", 2.7, 2.5, 2.6, 2.5],
            ["Main brg", 2.4, 2.5, 2.4, 2.6, 2.7]]  # fmt: skip
    expected = {
        "B6": "rod_bearing_clearance 1 0.0027 in",
        "F7": "main_bearing_clearance 5 0.0027 in",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("name", ["Brg pr", "Brg pair", "Bearings (pair)"])
def test_a_pair_of_bearings_beside_two_weights_is_no_bore(tmp_path: Path, name: str) -> None:
    rows: Rows = [["Rod", "Big end", "Small end", name], [1, 412.2, 182.1, 48.2],
                  [2, 412.1, 182.2, 48.1]]  # fmt: skip
    found = told(tmp_path, rows)
    assert all("bearing_mass" in found[at] for at in ("D6", "D7")), found

"""Rods below heads of mains, words of one bearing or another, rings named by what others leave.

That builders write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


def test_rods_below_heads_of_mains_are_rods(tmp_path: Path) -> None:
    rows: Rows = [
        ["CIGÜEÑAL", "apoyo 1", "apoyo 2", "apoyo 3", "apoyo 4", "apoyo 5"],
        ["muñón (a -0,25)", "54,742", "54,740", "54,741", "54,742", "54,740"],
        ["casquillo", "54,785", "54,786", "54,785", "54,787", "54,785"],
        ["queda", "0,043", "0,046", "0,044", "0,045", "0,045", "mm"],
        ["codo de biela", "45,740", "45,741", "45,740", "45,739"],
        ["casquillo biela", "45,785", "45,785", "45,784", "45,785"],
        ["queda", "0,045", "0,044", "0,044", "0,046"],
    ]
    expected = {
        "F6": "main_journal Main 5 54.74 mm",
        "B7": "main_bearing_bore Main 1 54.785 mm",
        "B8": "main_bearing_clearance Main 1 0.043 mm",
        "E9": "rod_journal Rod 4 45.739 mm",
        "B10": "rod_bearing_bore Rod 1 45.785 mm",
        "B11": "rod_bearing_clearance Rod 1 0.045 mm",
    }
    plain = {at: text.replace("Main ", "").replace("Rod ", "") for at, text in expected.items()}
    check_told(tmp_path, rows, plain)


def test_a_difference_below_a_title_of_mains_is_that_of_mains(tmp_path: Path) -> None:
    rows: Rows = [
        ["Main bearings", 1, 2, 3, 4],
        ["Journal ground", 59.98, 59.981, 59.98, 59.979],
        ["Shell bore", 60.02, 60.022, 60.021, 60.021],
        ["Leaves", 0.04, 0.041, 0.041, 0.042],
    ]
    check_told(tmp_path, rows, {"B8": "main_bearing_clearance 1 0.04 mm"})


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Cyl", "Ring gap comp.", "Ring gap 2nd", "Ring gap oil"],
             [1, 0.013, 0.012, 0.015], [2, 0.014, 0.012, 0.016], [3, 0.013, 0.013, 0.015]],
            {"B6": "top_ring_gap 1 0.013 in", "C6": "second_ring_gap 1 0.012 in"},
            id="the ring that no word tells",
        ),
        pytest.param(
            [["Cyl", "Top ring butt", "2nd ring butt"], [1, 0.46, 0.91], [2, 0.44, 0.93]],
            {"B6": "top_ring_gap 1 0.46 mm", "C7": "second_ring_gap 2 0.93 mm"},
            id="butts",
        ),
        pytest.param(
            [["Zylinder", "Stoß Nut 1", "Stoß Nut 2"], [1, 0.35, 0.40], [2, 0.34, 0.41]],
            {"B6": "top_ring_gap 1 0.35 mm", "C7": "second_ring_gap 2 0.41 mm"},
            id="grooves",
        ),
        pytest.param(
            [["Rod", "BE wt g", "SE wt g"], [1, 411.5, 178.5], [2, 411, 178]],
            {"B6": "rod_big_end_mass 1 411.5 g", "C7": "rod_small_end_mass 2 178 g"},
            id="ends of rods",
        ),
        pytest.param(
            [["Nip-up", "Nm"], ["main caps", 175], ["rod caps", 100]],
            {"B6": "main_bolt_torque 175 N.m", "B7": "rod_bolt_torque 100 N.m"},
            id="nip-up",
        ),
        pytest.param(
            [["main cap", "journal", "clearance (thou)"],
             ["1 snout", 2.2883, 1.9], [2, 2.2882, 2.1], [3, 2.2884, 1.9],
              ["4 flange", 2.2884, 2.1]],
            {"B6": "main_journal 1 2.2883 in", "B9": "main_journal 4 2.2884 in",
             "C9": "main_bearing_clearance 4 0.0021 in"},
            id="a word behind the number of a row",
        ),
    ],
)  # fmt: skip
def test_words_of_rings_rods_and_rows(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


def test_differences_of_one_name_are_of_the_rows_that_they_take(tmp_path: Path) -> None:
    rows: Rows = [
        ["Kurbelwelle geschliffen", 1, 2, 3, 4],
        ["Hauptzapfen", 55.730, 55.732, 55.731],
        ["Lager innen", 55.782, 55.783, 55.782],
        ["Spiel", "=B7-B6", "=C7-C6", "=D7-D6"],
        ["Hubzapfen", 47.735, 47.734, 47.735, 47.736],
        ["Pleuellager innen", 47.780, 47.781, 47.780, 47.780],
        ["Spiel", "=B10-B9", "=C10-C9", "=D10-D9", "=E10-E9"],
    ]
    expected = {"B8": "result: main_bearing_clearance", "B11": "result: rod_bearing_clearance"}
    check_told(tmp_path, rows, expected)


def test_along_the_crank_is_a_direction(tmp_path: Path) -> None:
    rows: Rows = [
        ["mm", "Cyl. 1", "Cyl. 2"],
        ["Alésage, haut, axe vilo", 87.512, 87.511],
        ["Alésage, bas, axe vilo", 87.510, 87.511],
    ]
    check_told(tmp_path, rows, {"B6": "bore 1 top parallel 87.512 mm"})

"""Heads and titles that say little, understood by what stands beside or below them.

What the words mean is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    "heads",
    [
        ["Ventile", "EV ist", "EV eingest.", "AV ist", "AV eingest."],
        ["Lash (mm)", "In actual", "In set", "Ex actual", "Ex set"],
    ],
)
def test_what_is_beside_what_was_set_was_found(tmp_path: Path, heads: list[object]) -> None:
    """A lash as it is, before the valves are set."""
    rows: Rows = [heads, ["Zyl. 1", 0.15, 0.2, 0.45, 0.4], ["Zyl. 2", 0.25, 0.2, 0.35, 0.4]]
    expected = {
        "B6": "intake_lash 1 found 0.15 mm",
        "C6": "intake_lash 1 final 0.2 mm",
        "D7": "exhaust_lash 2 found 0.35 mm",
        "E7": "exhaust_lash 2 final 0.4 mm",
    }
    check_told(tmp_path, rows, expected)


def test_heads_that_only_say_as_it_is_and_set(tmp_path: Path) -> None:
    """What is stands before what it was set to, and alone it is what was measured at the end."""
    rows: Rows = [
        ["Ventilspiel EV (mm)", "Ist", "eingestellt"], [1, 0.15, 0.2], [2, 0.25, 0.2], [],
        ["Bohrung (mm)", "Soll", "Ist"], [1, 80.0, 80.02], [2, 80.0, 80.03],
    ]  # fmt: skip
    expected = {
        "B6": "intake_lash 1 found 0.15 mm",
        "C7": "intake_lash 2 final 0.2 mm",
        "C10": "bore 1 final 80.02 mm",
    }
    check_told(tmp_path, rows, expected)


def test_old_and_new_readings_of_a_crank(tmp_path: Path) -> None:
    """ "Istwert alt" is no height."""
    rows: Rows = [
        ["Axialspiel KW (mm)"], ["Prüfung", "Istwert alt", "Istwert neu"],
        ["Axialspiel", 0.31, 0.12], ["Passlagerbreite", 32.08, 32.02],
    ]  # fmt: skip
    expected = {
        "B7": "crank_end_play found 0.31 mm",
        "C7": "crank_end_play final 0.12 mm",
        "B8": "thrust_width found 32.08 mm",
    }
    check_told(tmp_path, rows, expected)


def test_ports_count_below_a_title_that_says_what_is_measured(tmp_path: Path) -> None:
    """Both stages of the title its heads say, each for its own column."""
    rows: Rows = [
        ["Installed heights before / after shimming, intake only"],
        ["Port", "Before", "Shim", "After"],
        [1, 1.862, 0.06, 1.802], [2, 1.831, 0.03, 1.801], [3, 1.85, 0.045, 1.805],
    ]  # fmt: skip
    expected = {
        "B7": "intake_spring_height 1 found 1.862 in",
        "D8": "intake_spring_height 2 final 1.801 in",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("head", ["Serrage daN.m", "Anzug (Nm)", "Serraggio Nm"])
def test_tightening_beside_mains_is_of_their_bolts(tmp_path: Path, head: str) -> None:
    """No engine gives it."""
    rows: Rows = [
        ["Main bores (mm)"], ["Main", "Vert.", head],
        [1, 58.73, 65], [2, 58.731, 65], [3, 58.733, 65],
    ]  # fmt: skip
    found = check_told(tmp_path, rows, {"B7": "main_housing_bore 1 vertical 58.73 mm"})
    assert "main_bolt_torque" in found["C7"]


def test_a_bare_gap_below_a_title_of_the_squish(tmp_path: Path) -> None:
    """The whole of it is no ring's gap, and the gasket behind it no other one."""
    rows: Rows = [
        ["Spaltmaß OT (mm)"], ["Kolben", "Spalt gesamt"], [1, 0.87], [2, 0.89], [3, 0.87],
        ["Überstand in mm, Dichtung gepresst", 1.3],
    ]  # fmt: skip
    expected = {"B7": "quench 1 0.87 mm", "B9": "quench 3 0.87 mm"}
    found = check_told(tmp_path, rows, expected)
    assert "quench" not in found.get("B10", "")


@pytest.mark.parametrize(
    "title", ["Piston clearance (thou)", "P/S clearance thou – up north, in firing order"]
)
def test_rows_in_firing_order_below_a_title(tmp_path: Path, title: str) -> None:
    """With a remark on one of them."""
    rows: Rows = [
        [title], [1, 5.5], [8, 5.4], [4, 5.6], [3, 5.4], [6, 5.5],
        [5, 5.5], [7, 5.8, "tight land, watch"], [2, 5.3],
    ]  # fmt: skip
    expected = {
        "B7": "piston_clearance 8 0.0054 in",
        "B12": "piston_clearance 7 0.0058 in",
        "B13": "piston_clearance 2 0.0053 in",
    }
    check_told(tmp_path, rows, expected)


def test_what_stands_proud_among_sizes_of_liners_is_a_liner(tmp_path: Path) -> None:
    """By so little that it may be, and listed with the bores of liners."""
    rows: Rows = [
        ["diam. chemise", "diam. jupe", "jeu", "dépass."],
        [105.02, 104.88, 0.14, 0.07], [105.03, 104.89, 0.14, 0.08], [105.02, 104.88, 0.14, 0.07],
    ]  # fmt: skip
    found = check_told(tmp_path, rows, {})
    assert found["D6"].startswith("liner_protrusion")


def test_a_size_with_its_own_name_in_brackets(tmp_path: Path) -> None:
    """The lash at which the valves were timed is no angle."""
    found = check_told(tmp_path, [["Fasatura (gioco 0,5)"], ["Inlet opens BTDC", 17]], {})
    assert "advance" not in found.get("A5", "")


def test_angles_from_dead_centers_in_short_stand_below_both_sides(tmp_path: Path) -> None:
    """In Spanish and Italian letters, without a sign of degrees."""
    rows: Rows = [
        ["Árbol de levas"], ["", "Admisión", "Escape"],
        ["Abre", "10 APMS", "50 APMI"], ["Cierra", "46 DPMI", "6 DPMS"],
    ]  # fmt: skip
    expected = {
        "B7": "intake_opening 10 deg", "C7": "exhaust_opening 50 deg",
        "B8": "intake_closing 46 deg", "C8": "exhaust_closing 6 deg",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("title", "heads"),
    [
        ("Kompression (bar)", ["Zyl", "trocken", "mit Öl"]),
        ("Compresión (bar)", ["Cil", "Seco", "Con aceite"]),
    ],
)
def test_a_compression_test_without_oil(tmp_path: Path, title: str, heads: list[object]) -> None:
    """And with some, which names no part."""
    rows: Rows = [[title], heads, [1, 9.0, 10.0], [2, 8.8, 9.8], [3, 6.5, 9.5], [4, 9.0, 10.1]]
    found = check_told(tmp_path, rows, {})
    assert found["B7"].startswith("cranking_pressure 1")
    assert found["C9"].startswith("cranking_pressure 3")

"""Lines whose words say little, told by those beside them or by the unit of their title.

What the words mean is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


def test_a_title_in_a_unit_of_volume_says_what_its_heads_measure(tmp_path: Path) -> None:
    """The head's chamber, and no height of it; a size with its own unit is none of them."""
    rows: Rows = [
        ["Brennraum ausgelitert, ccm"], ["Zyl.", "Kopf", "Kolbenmulde", "Dichtung"],
        [1, 38.4, 6.2, "1,3 mm"], [2, 38.5, 6.2], [3, 38.4, 6.3], [4, 38.6, 6.2],
    ]  # fmt: skip
    expected = {
        "B7": "chamber_volume 1 final 38.4 cc",
        "C8": "dish_volume 2 final 6.2 cc",
        "D7": "gasket_thickness 1 final 1.3 mm",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("labels", [("Hub EV mm", "Hub AV mm"), ("Lift IN mm", "Lift EX mm")])
def test_a_lift_is_of_what_the_other_valves_lift_is(
    tmp_path: Path, labels: tuple[str, str]
) -> None:
    """No lobe lifts ten millimeters, so that of the other valves is no lobe's either."""
    rows: Rows = [["Camshaft"], [labels[0], 10.2], [labels[1], 9.8]]
    expected = {"B6": "intake_valve_lift 10.2 mm", "B7": "exhaust_valve_lift 9.8 mm"}
    check_told(tmp_path, rows, expected)


def test_shells_stand_in_millimeters_where_their_bearings_do(tmp_path: Path) -> None:
    """What may be a wall as well as a bore says no inches."""
    rows: Rows = [
        ["V8 Hauptlager-Ø innen mit Schalen"], ["", 1, 2, 3],
        ["Lager", 70.062, 70.06, 70.061], ["Schale", 2.478, 2.479, 2.478],
    ]  # fmt: skip
    expected = {
        "B7": "main_bearing_bore 1 70.062 mm",
        "C8": "main_shell_wall 2 2.479 mm",
    }
    check_told(tmp_path, rows, expected)


def test_a_cylinder_beside_its_piston_is_a_bore(tmp_path: Path) -> None:
    """As much larger as a piston runs, it is neither a pressure nor how many there are."""
    rows: Rows = [["Piston", 2.995], ["Cylinder", 3.0], ["Plug gap", 0.025]]
    expected = {"B5": "piston_diameter 2.995 in", "B6": "bore 3 in"}
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    "label", ["Überströmer n. OT", "Transfers ATDC", "Transferts après PMH", "travasi (dopo PMS)"]
)
def test_a_port_at_an_angle_from_a_dead_center_opens(tmp_path: Path, label: str) -> None:
    """A duration is counted from none."""
    rows: Rows = [["Exhaust port opens ATDC", 94], [label, 121]]
    check_told(tmp_path, rows, {"B6": "transfer_port_opening 121 deg"})

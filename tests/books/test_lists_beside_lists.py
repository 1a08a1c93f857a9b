"""Forms with two lists side by side under heads of their own, and the words they are set in."""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


def test_a_list_beside_another_has_its_own_names(tmp_path: Path) -> None:
    """What is measured of a crankshaft says nothing of the rings of the list before it."""
    rows: Rows = [
        ["Zylinder (mm)", "links", "rechts", "Grenzmaß", "Kurbelwelle", "vorn", "hinten"],
        ["Bohrung neu", 94.508, 94.51, None, "Hauptzapfen", 59.972, 59.973],
        ["Kolben", 94.462, 94.464, None, "Lager innen", 60.022, 60.02],
        ["Stoß Ring 1", 0.35, 0.36, "max 0,80", "Axialspiel", 0.12],
    ]
    # common practice, no source
    expected = {
        "F8": "crank_end_play 0.12 mm",
        "F6": "main_journal 1 59.972 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_heads_further_up_hold_no_columns_of_a_list_with_its_own(tmp_path: Path) -> None:
    """Below its own heads the list on the right is of valves, whatever its row's first label is."""
    rows: Rows = [
        ["Zylinder (mm)", "links", "rechts", "Grenzmaß", "Kurbelwelle", "vorn", "hinten"],
        ["Bohrung neu", 94.508, 94.51, None, "Hauptzapfen", 59.972, 59.973],
        ["Stoß Ring 2", 0.38, 0.38, "max 0,80"],
        ["Stoß Ölring", 0.3, 0.32, None, "Ventile", "links", "rechts"],
        ["Kolbenbolzen", 21.998, 21.999, None, "Einlass Schaft", 7.962, 7.961],
        ["Pleuelbuchse", 22.018, 22.017, None, "Einlass Führung", 8.002, 8.004],
        ["Bolzenspiel", "=B10-B9", "=C10-C9", None, "Auslass Schaft", 7.948, 7.949],
        ["Pleuel axial", 0.18, 0.2, None, "Auslass Führung", 8.003, 8.002],
    ]
    # common practice, no source
    expected = {
        "B9": "pin_diameter L 21.998 mm", "C10": "small_end_bore R 22.017 mm",
        "F11": "exhaust_stem_diameter L 7.948 mm", "G12": "exhaust_guide_bore R 8.002 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("big", "small"), [("Gew. groß g", "Gew. klein g"), ("Gewicht groß (g)", "Gewicht klein (g)")]
)
def test_the_ends_of_rods_are_weighed(tmp_path: Path, big: str, small: str) -> None:
    """A rod is weighed at its big and its small end."""
    rows: Rows = [
        ["Pleuel", "Seitenspiel mm", big, small], ["Zyl. 1", 0.21, 642, 268],
        ["Zyl. 2", 0.2, 643, 268], ["Zyl. 3", 0.22, 642, 267],
    ]  # fmt: skip
    # common practice, no source
    check_told(
        tmp_path, rows, {"C6": "rod_big_end_mass 1 642 g", "D8": "rod_small_end_mass 3 267 g"}
    )


def test_fits_that_are_loose(tmp_path: Path) -> None:
    """An L behind a fit says that it is loose; the oil's clearance is of the rod on its pin."""
    rows: Rows = [
        ["Dimensions in inches"],
        ["Ref", "Description", "New min", "New max", "Serv. limit", "#1", "#2"],
        ["2", "Cylinder bore", 5.01, 5.0115, 5.015, 5.0108, 5.0107],
        ["3a", "Piston fit, skirt (L)", 0.014, 0.0165, 0.02, 0.015, 0.0149],
        ["8", "Intake guide bore", 0.404, 0.405, 0.4065, 0.4044, 0.4045],
        ["8", "Intake stem", 0.4022, 0.403, None, 0.4027, 0.4026],
        ["9", "Rod bearing on crankpin (oil clr)", 0.001, 0.0025, 0.0045, 0.0017, 0.0018],
    ]  # fmt: skip
    # common practice, no source
    expected = {"F8": "piston_clearance 1 0.015 in", "G11": "rod_bearing_clearance 2 0.0018 in"}
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("ground", ["Tourillon rectifié", "Tourillon"])
def test_what_was_measured_before_the_grinding(tmp_path: Path, ground: str) -> None:
    """Beside the ground journals those that are called measured came in so."""
    rows: Rows = [
        ["Vilebrequin"], ["Paliers", "P1", "P2", "P3", "Mini", "Maxi"],
        ["Tourillon relevé", 54.772, 54.77, 54.765], [ground, 54.544, 54.539, 54.546],
        ["Ø coussinets serrés", 54.596, 54.597, 54.595],
    ]  # fmt: skip
    # common practice, no source
    found = check_told(tmp_path, rows, {"B7": "main_journal 1 found 54.772 mm"})
    assert found["C8"].startswith("main_journal 2")
    assert "found" not in found["C8"]


@pytest.mark.parametrize(
    ("label", "sizes", "first", "second"),
    [
        ("Tappets cold inlet / exhaust", (0.3, 0.35), "intake_lash 0.3 mm", "exhaust_lash 0.35 mm"),
        ("Dichtung Dicke / Bohrung", (0.75, 87.5), "gasket_thickness 0.75 mm",
         "gasket_bore 87.5 mm"),
    ],
)  # fmt: skip
def test_two_sizes_below_the_heads_of_cylinders(
    tmp_path: Path, label: str, sizes: tuple[float, float], first: str, second: str
) -> None:
    """Below more heads than two a label of two names has a size for each of these."""
    rows: Rows = [
        ["All sizes in mm"], ["", "1", "2", "3", "4"],
        ["Con rod side clearance", 0.3, 0.28, 0.3, 0.32], [label, *sizes],
    ]  # fmt: skip
    # common practice, no source
    check_told(tmp_path, rows, {"B8": first, "C8": second, "E7": "rod_side_clearance 4 0.32 mm"})


@pytest.mark.parametrize("notches", ["2 encoches", "2 trous"])
def test_a_gasket_by_its_notches(tmp_path: Path, notches: str) -> None:
    """How many notches a gasket has says which one was taken; it is of no cylinder."""
    rows: Rows = [
        ["Bloc-cylindres"], ["", "Cyl. 1", "Cyl. 2", "Cyl. 3", "Cyl. 4"],
        ["Alésage fini", 80.512, 80.513, 80.512, 80.511],
        ["Dépassement pistons", 0.62, 0.64, 0.63, 0.62], ["Joint de culasse retenu", notches, 1.55],
    ]  # fmt: skip
    # common practice, no source
    check_told(tmp_path, rows, {"C9": "gasket_thickness 1.55 mm"})


def test_a_pin_beside_its_bearing_is_the_cranks(tmp_path: Path) -> None:
    """Below rods a pin that runs in a bearing is the crankpin, and no piston's."""
    rows: Rows = [
        ["All sizes in inches"], [], ["MAINS", None, None, None, None, "RODS"],
        ["#", "Journal", "Brg I.D.", "Clr", None, "#", "Pin dia", "Brg I.D.", "Clr"],
        [1, 2.4484, 2.4509, "=C9-B9", None, 1, 2.0995, 2.1018, "=H9-G9"],
        [2, 2.4485, 2.451, "=C10-B10", None, 2, 2.0995, 2.1019, "=H10-G10"],
        [3, 2.4484, 2.451, "=C11-B11", None, 3, 2.0996, 2.1019, "=H11-G11"],
    ]  # fmt: skip
    # common practice, no source
    check_told(tmp_path, rows, {"G9": "rod_journal 1 2.0995 in", "G11": "rod_journal 3 2.0996 in"})


def test_before_and_after_with_a_remark_behind(tmp_path: Path) -> None:
    """What stands behind the row's sizes is a remark, and changes none of them."""
    rows: Rows = [
        ["BLOCK, inches"],
        ["Deck height", "was", 9.025, "cut to", 9.005, "Hot tank, freeze plugs in"],
    ]  # fmt: skip
    # common practice, no source
    expected = {"C6": "deck_height found 9.025 in", "E6": "deck_height machined 9.005 in"}
    check_told(tmp_path, rows, expected)


def test_before_beside_what_was_done(tmp_path: Path) -> None:
    """A word for before, or for the front, is of the time where the next head says ground."""
    rows: Rows = [
        ["VILEBREQUIN (mm)"], ["Palier", "tourillon avant", "rectifié", "coussinet"],
        [1, 54.78, 54.545, 54.585], [2, 54.775, 54.544, 54.586], [3, 54.77, 54.545, 54.585],
    ]  # fmt: skip
    # common practice, no source
    check_told(tmp_path, rows, {"B7": "main_journal 1 found 54.78 mm"})


def test_the_cold_clearance_of_valves(tmp_path: Path) -> None:
    """Cold, a clearance of E is the inlet's lash, also below the stems and guides of the valves."""
    rows: Rows = [
        ["Ventile", "links", "rechts"], ["Einlass Schaft mm", 7.93, 7.931],
        ["Einlass Führung mm", 8.03, 8.031], ["Spiel E kalt mm", 0.1, 0.1],
        ["Spiel A kalt mm", 0.2, 0.2],
    ]  # fmt: skip
    # common practice, no source
    expected = {"B8": "intake_lash L 0.1 mm", "C9": "exhaust_lash R 0.2 mm"}
    check_told(tmp_path, rows, expected)

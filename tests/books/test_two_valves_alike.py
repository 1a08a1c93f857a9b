"""Heads with two or more valves of a kind for each cylinder, as rows and as columns.

That shops keep such sheets, and what their words mean, is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

from workbook_tools.labels.which_told import which_of


def test_valves_by_cylinder_side_and_end_below_two_rows_of_heads(tmp_path: Path) -> None:
    heads: Rows = [
        ["Soupape", "Ø guide", None, "Ø tige", "Jeu", "Largeur siège", "Haut. ressort",
         "Tare fermé N"],
        [None, "trouvé", "fini", "mm", "mm", "mm", "mm"],
    ]  # fmt: skip
    rows: Rows = [
        *heads,
        ["1 adm AV", 6.040, 6.006, 5.974, 0.032, 1.1, 34.4, 216],
        ["1 adm AR", 6.046, 6.005, 5.975, 0.030, 1.3, 34.7],
        ["2 adm AV", 6.043, 6.006, 5.973, 0.033, 1.3, 34.6, 212],
        ["2 adm AR", 6.039, 6.005, 5.976, 0.029, 1.1, 34.4],
        ["1 éch AV", 6.042, 6.007, 5.964, 0.043, 1.6, 34.4, 213],
        ["1 éch AR", 6.057, 6.006, 5.967, 0.039, 1.5, 34.4],
        ["2 éch AV", 6.053, 6.004, 5.966, 0.038, 1.5, 34.3, 210],
        ["2 éch AR", 6.045, 6.006, 5.964, 0.042, 1.7, 34.4],
    ]
    expected = {
        "B7": "intake_guide_bore 1 front found 6.04 mm",
        "C8": "intake_guide_bore 1 rear final 6.005 mm",
        "D9": "intake_stem_diameter 2 front 5.973 mm",
        "E10": "intake_stem_clearance 2 rear 0.029 mm",
        "F11": "exhaust_seat_width 1 front 1.6 mm",
        "G12": "exhaust_spring_height 1 rear 34.4 mm", "H13": "spring_seat_load 2 front 210 N",
        "D14": "exhaust_stem_diameter 2 rear 5.964 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("text", "number", "side", "place"),
    [("1 adm AV", 1, "intake", "front"), ("2 AR éch", 2, "exhaust", "rear"),
     ("Einl. 3 hinten", 3, "intake", "rear"), ("cil 2 asp sx", 2, "intake", "left"),
     ("4 esc. der.", 4, "exhaust", "right"), ("1 int fr", 1, "intake", "front")],
)  # fmt: skip
def test_names_of_one_of_two_valves(text: str, number: int, side: str, place: str) -> None:
    said = which_of(text)
    assert said is not None
    assert (said.number, said.side, said.at) == (number, side, (place,))


@pytest.mark.parametrize(
    ("ends", "banks", "guide", "seat", "lift"),
    [
        pytest.param(("Delante", "Detrás"), ("izq.", "dcha."), "Guía adm. Ø",
                     "Ancho asiento esc.", "Compresión (bar)", id="Spanish"),
        pytest.param(("Front", "Rear"), ("left", "right"), "Inlet guide bore",
                     "Exhaust seat width", "Compression (bar)", id="English"),
        pytest.param(("1", "2"), ("links", "rechts"), "Führung Einlass Ø",
                     "Sitzbreite Auslass", "Kompression (bar)", id="German, numbered"),
    ],
)  # fmt: skip
def test_valves_left_and_right_below_two_cylinders(
    tmp_path: Path, ends: tuple[str, str], banks: tuple[str, str], guide: str, seat: str, lift: str
) -> None:
    rows: Rows = [
        ["mm"],
        ["V2", ends[0], None, ends[1]],
        ["Bore Ø", 98.008, None, 98.010],
        [],
        ["Heads", *banks, *banks],
        [guide, 6.006, 6.008, 6.007, 6.005],
        [seat, 1.4, 1.3, 1.2, 1.5],
        [],
        ["Check"],
        [lift, 11.8, None, 11.6],
    ]
    measured = "cranking_pressure"
    expected = {
        "B7": "bore 1 98.008 mm", "D7": "bore 2 98.01 mm",
        "B10": "intake_guide_bore 1 left 6.006 mm", "C10": "intake_guide_bore 1 right 6.008 mm",
        "D11": "exhaust_seat_width 2 left 1.2 mm", "E11": "exhaust_seat_width 2 right 1.5 mm",
        "B14": f"{measured} 1 1180 kPa", "D14": f"{measured} 2 1160 kPa",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)

"""Bearings, journals and their bolts that other texts and rows beside them tell apart.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


def test_gorron_is_a_journal_of_either_kind(tmp_path: Path) -> None:
    rows: Rows = [
        ["Muñequilla (mm)", "Gorrón encontrado", "Gorrón rectificado"],
        ["Biela 1", 72.95, 72.745],
        ["Biela 2", 72.96, 72.748],
        ["Biela 3", 72.94, 72.745],
    ]
    check_told(
        tmp_path,
        rows,
        {"B6": "rod_journal 1 found 72.95 mm", "C8": "rod_journal 3 machined 72.745 mm"},
    )


@pytest.mark.parametrize(
    "label", ["Lager drin", "shells fitted", "Lagerschalen drin", "bronzine a serraggio"]
)
def test_shells_in_place_below_their_journals(tmp_path: Path, label: str) -> None:
    rows: Rows = [
        ["Kurbelwelle (mm)", "vorn", "hinten"],
        ["Hauptzapfen", 54.975, 54.973],
        [label, 55.021, 55.024],
        [],
        ["", "1", "2"],
        ["Hubzapfen", 44.974, 44.972],
        ["Pleuellager drin", 45.015, 45.017],
    ]
    check_told(
        tmp_path,
        rows,
        {
            "B7": "main_bearing_bore 1 55.021 mm",
            "C7": "main_bearing_bore 2 55.024 mm",
            "C11": "rod_bearing_bore 2 45.017 mm",
        },
    )


def test_bolts_behind_a_torque_with_a_colon(tmp_path: Path) -> None:
    rows: Rows = [["Serraggi kgm:", "banco", 8.2, "bielle", 5.3, "testa", 8.8]]
    check_told(
        tmp_path,
        rows,
        {
            "C5": "main_bolt_torque 80.4145 N.m",
            "E5": "rod_bolt_torque 51.9752 N.m",
            "G5": "head_bolt_torque 86.2985 N.m",
        },
    )


def test_pins_of_a_large_engine(tmp_path: Path) -> None:
    rows: Rows = [
        ["mm", "Cyl 1", "Cyl 2", "Cyl 3"],
        ["Liner bore", 171.02, 171.03, 171.02],
        ["Wrist pin", 71.991, 71.988, 71.990],
        ["Small end bush bore", 72.071, 72.068, 72.070],
    ]
    check_told(
        tmp_path,
        rows,
        {"B7": "pin_diameter 1 71.991 mm", "C8": "small_end_bore 2 72.068 mm"},
    )


def test_italian_words_in_short(tmp_path: Path) -> None:
    rows: Rows = [
        ["cil. (mm)", "luce 1° segm.", "luce raschia", "giuoco punt. asp.", "giuoco punt. sca."],
        [1, 0.38, 0.29, 0.20, 0.25],
        [2, 0.36, 0.31, 0.21, 0.26],
    ]
    check_told(
        tmp_path,
        rows,
        {
            "C6": "oil_ring_gap 1 0.29 mm",
            "D6": "intake_lash 1 0.2 mm",
            "E7": "exhaust_lash 2 0.26 mm",
        },
    )


@pytest.mark.parametrize(
    ("label", "measurand"),
    [
        ("Junta culata cobre", "gasket_thickness"),
        ("Kopfdichtung Kupfer", "gasket_thickness"),
        ("Fußdichtg.", "base_gasket_thickness"),
    ],
)
def test_gaskets_by_what_they_are_made_of(tmp_path: Path, label: str, measurand: str) -> None:
    check_told(tmp_path, [["mm"], [label, 1.2]], {"B6": f"{measurand} 1.2 mm"})

"""Rows that only say at which place of a cylinder a size was taken; a title says what it is."""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

MM: Rows = [["All sizes in mm"], []]


@pytest.mark.parametrize(
    ("title", "high", "low"),
    [
        ("1  CYLINDER BLOCK - AS FOUND", "Top, thrust", "Bottom, pin"),
        ("Block, as received", "Top, pin", "Bottom, thrust"),
    ],
)
def test_places_of_a_block_are_of_its_bores(
    tmp_path: Path, title: str, high: str, low: str
) -> None:
    """The sizes of a cylinder at its top and bottom are bores where only a block is named."""
    way = {True: "thrust", False: "parallel"}
    rows: Rows = [
        *MM, [title], [], ["", "Cyl 1", "Cyl 2", "Cyl 3"],
        [high, 100.15, 100.17, 100.28], [low, 100.06, 100.07, 100.09],
        ["Liner protrusion", 0.05, 0.04, 0.01],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B10": f"bore 1 top {way['thrust' in high]} found 100.15 mm",
        "D11": f"bore 3 bottom {way['thrust' in low]} found 100.09 mm",
        "C12": "liner_protrusion 2 found 0.04 mm",
    }
    check_told(tmp_path, rows, expected)


def test_places_below_a_title_of_another_part_are_no_bores(tmp_path: Path) -> None:
    """The skirts of pistons are measured at the top and at the bottom too."""
    rows: Rows = [
        *MM, ["Pistons"], [], ["", "Cyl 1", "Cyl 2", "Cyl 3"],
        ["Top, thrust", 99.15, 99.17, 99.18], ["Bottom, thrust", 99.86, 99.87, 99.89],
    ]  # fmt: skip
    # common practice, no source
    found = check_told(tmp_path, rows, {})
    assert not [text for at, text in found.items() if at > "B" and "bore" in text]


def test_a_head_of_places_measures_nothing(tmp_path: Path) -> None:
    """The plane of measuring heads the places; what is measured there the title says."""
    rows: Rows = [
        *MM, ["1. Zylinderbohrungen (Fertigmaß nach Honen)"], [],
        ["Messebene", "Zyl. 1", "Zyl. 2", "Zyl. 3"],
        ["oben quer", 86.509, 86.512, 86.509], ["Mitte längs", 86.51, 86.51, 86.51],
        ["unten quer", 86.508, 86.51, 86.51],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B10": "bore 1 top thrust final 86.509 mm",
        "C11": "bore 2 middle parallel final 86.51 mm",
        "D12": "bore 3 bottom thrust final 86.51 mm",
    }
    check_told(tmp_path, rows, expected)


def test_a_mean_below_a_gap_is_of_what_it_takes(tmp_path: Path) -> None:
    """The mean of four sizes of a bore is a bore, on a sheet called after cylinders too."""
    rows: Rows = [
        *MM, ["Zylinderbohrungen"], ["Messebene", "Zyl. 1", "Zyl. 2", "Zyl. 3"],
        ["oben quer", 86.509, 86.512, 86.509], ["unten quer", 86.508, 86.51, 86.51], [], [],
        ["Mittelwert", "=AVERAGE(B9:B10)", "=AVERAGE(C9:C10)", "=AVERAGE(D9:D10)"],
        ["Kolben Ø", 86.44, 86.441, 86.44],
        ["Laufspiel", "=B13-B14", "=C13-C14", "=D13-D14", "0,06-0,08"],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B13": "result: bore", "C14": "piston_diameter 2 86.441 mm",
        "D15": "result: piston_clearance",
    }  # fmt: skip
    check_told(tmp_path, rows, expected, "1 Zylinder")


@pytest.mark.parametrize("cylinders", [1, 3])
def test_a_form_for_several_cylinders_serves_one(tmp_path: Path, cylinders: int) -> None:
    """A printed form has more columns than the engine cylinders; ports are places on a bore."""

    def row(label: str, place: str, size: float) -> list[object]:
        return [label, place, *[size] * cylinders]

    rows: Rows = [
        *MM, ["CYLINDER", "", "No.1", "No.2", "No.3", "Limit"],
        row("Found, worst", "", 66.46), row("Bored/honed", "top - pin axis", 66.41),
        row("", "top - thrust", 66.412), row("", "above exh. port - thrust", 66.413),
        row("", "bottom - thrust", 66.406), row("Piston skirt", "", 66.345),
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "C8": "bore 1 found 66.46 mm",
        "C9": "bore 1 top parallel final 66.41 mm",
        "C10": "bore 1 top thrust final 66.412 mm",
        "C11": "bore 1 above exhaust port thrust final 66.413 mm",
        "C12": "bore 1 bottom thrust final 66.406 mm",
        "C13": "piston_diameter 1 66.345 mm",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    "place",
    [
        "über dem Auslass", "au-dessus de la lumière d'échappement", "sobre la lumbrera de escape",
        "sopra la luce di scarico", "above the exhaust port",
    ],
)  # fmt: skip
def test_places_by_a_port(tmp_path: Path, place: str) -> None:
    """A place by a port is one on the bore that the row above names."""
    rows: Rows = [*MM, ["", "", "Cyl 1", "Cyl 2"], ["Bore", "top", 66.41, 66.42],
                  ["", place, 66.43, 66.44]]  # fmt: skip
    # common practice, no source
    expected = {"D9": "bore 2 above exhaust port 66.44 mm"}
    check_told(tmp_path, rows, expected)

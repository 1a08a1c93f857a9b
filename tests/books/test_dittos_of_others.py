"""Dittos of another part, side, ring, place or time than what they repeat says.

That builders write so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

from workbook_tools.labels.dittos import of_another


@pytest.mark.parametrize(
    ("label", "own", "whole"),
    [
        ("Main bearing clearance", "rods", "rods bearing clearance"),
        ("Lagerspiel Hauptlager", "Pleuel", "Lagerspiel Pleuel"),
        ("Juego axial cigüeñal", "árbol de levas", "Juego axial árbol de levas"),
        ("Federhöhe Einlass", "Auslass", "Federhöhe Auslass"),
        ("Top ring gap", "2nd", "2nd ring gap"),
        ("2nd ring gap", "oil", "oil ring gap"),
        ("luz aro 1", "aro 2", "luz aro 2"),
        ("Bore, top", "bottom", "Bore, bottom"),
        ("Bore as found", "finished", "Bore as finished"),
        ("Spring height ex", "ex", ""),
        ("Stroke", "rods", ""),
        ("Bore", "at 90 degrees to the pin", ""),
    ],
)
def test_labels_of_another(label: str, own: str, whole: str) -> None:
    assert of_another(label, own) == whole


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Torque main bolts Nm", 90], ["ditto rod", 45], ["ditto head", 80]],
            {"B5": "main_bolt_torque 90 N.m", "B6": "rod_bolt_torque 45 N.m",
             "B7": "head_bolt_torque 80 N.m"},
            id="bolts of other parts",
        ),
        pytest.param(
            [["mm", 1, 2], ["Bore as found", 81.02, 81.03], ["ditto finished", 81.51, 81.51],
             ["Top ring gap", 0.3, 0.31], ["ditto 2nd", 0.35, 0.36], ["ditto oil", 0.4, 0.4]],
            {"B7": "bore 1 final 81.51 mm", "C9": "second_ring_gap 2 0.36 mm",
             "C10": "oil_ring_gap 2 0.4 mm"},
            id="another time and other rings",
        ),
        pytest.param(
            [["Ventilspiel Einlass mm", 0.2], ["dto. Auslass", 0.3]],
            {"B5": "intake_lash 0.2 mm", "B6": "exhaust_lash 0.3 mm"},
            id="the other valve below",
        ),
    ],
)  # fmt: skip
def test_dittos_are_read(tmp_path: Path, rows: Rows, expected: dict[str, str]) -> None:
    check_told(tmp_path, rows, expected)

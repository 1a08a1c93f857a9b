"""What a twin has one of front and rear, units that sizes are not in, and bores beside ports.

That builders write so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

from workbook_tools.labels.vocabulary import unit_in, without_unit


@pytest.mark.parametrize(
    ("text", "name", "unit"),
    [
        ("Torque Nm, not ft-lb", "Torque", "Nm"),
        ("Bore (not inches: mm)", "Bore", "mm"),
        ("Druck (bar, nicht psi)", "Druck", "bar"),
        ("Compresión (kg/cm² no, ¡bar!)", "Compresión", "bar"),
        ("Cyl no in", "Cyl no in", ""),
        ("Bore no. 1 mm", "Bore no. 1", "mm"),
    ],
)
def test_the_unit_that_sizes_are_not_in(text: str, name: str, unit: str) -> None:
    assert (without_unit(text), unit_in(text)) == (name, unit)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [[None, "anteriore", "posteriore", "1 = anteriore"], ["pistone Ø", 84.952, 84.951],
             ["sotto il piano", 0.15, 0.18], ["camera cc", 35.2, 35.4],
             ["cielo pistone cc (cupola)", 2.5, 2.5], ["gioco bronzina biella", 0.038, 0.036]],
            {"B6": "piston_diameter 1 84.952 mm", "C9": "crown_volume 2 -2.5 cc",
             "B10": "rod_bearing_clearance 1 0.038 mm", "C10": "rod_bearing_clearance 2 0.036 mm"},
            id="rods and crowns of a twin",
        ),
        pytest.param(
            [["CILINDRO (mm)", "misura"], ["alesaggio sotto la luce", 46.618],
             ["alesaggio alla base", 46.622], ["pistone, mantello", 46.571], ["gioco", 0.049]],
            {"B6": "bore bottom 46.618 mm", "B8": "piston_diameter 46.571 mm",
             "B9": "piston_clearance 0.049 mm"},
            id="a bore below the port",
        ),
        pytest.param(
            [["corsa", 39.3], ["volume testa (cc)", 6.1], [], ["SQUISH con lo stagno"],
             ["lato scarico", "lato travaso", "lato aspirazione", "lato frizione"],
             [0.82, 0.78, 0.8, 0.79]],
            {"A10": "quench lato scarico 0.82 mm", "B10": "quench lato travaso 0.78 mm",
             "D10": "quench lato frizione 0.79 mm"},
            id="squish on four sides of one cylinder",
        ),
    ],
)  # fmt: skip
def test_lines_are_read(tmp_path: Path, rows: Rows, expected: dict[str, str]) -> None:
    check_told(tmp_path, rows, expected)

"""Places of what came in beside finished sizes, in heads of one row or two.

That builders write so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Zylinder", "Alt oben", None, "Alt unten", None, "Fertigmaß", "Kolben", "Spiel"],
             [None, "längs", "quer", "längs", "quer"],
             ["[mm]"],
             ["Z1", 82.14, 82.17, 82.06, 82.08, 82.517, 82.462, 0.055],
             ["Z2", 82.12, 82.16, 82.05, 82.09, 82.515, 82.461, 0.054]],
            {"B8": "bore 1 top parallel found 82.14 mm",
             "E9": "bore 2 bottom thrust found 82.09 mm",
             "F8": "bore 1 final 82.517 mm", "G8": "piston_diameter 1 82.462 mm"},
            id="two rows of heads and a unit below them",
        ),
        pytest.param(
            [["Paliers", "tourillon avant", "tourillon meulé", "coussinet monté"],
             [1, 58.08, 57.83, 57.89], [2, 58.09, 57.84, 57.9]],
            {"B6": "main_journal 1 found 58.08 mm", "C7": "main_journal 2 machined 57.84 mm"},
            id="before beside ground in French",
        ),
        pytest.param(
            [["mm", "Pal. I", "Pal. II", "Pal. III"], ["Tourillon avant", 51.86, 51.84, 51.86],
             ["Tourillon rectifié", 51.505, 51.502, 51.499],
             ["Coussinet", 51.555, 51.561, 51.558]],
            {"B6": "main_journal 1 found 51.86 mm", "C7": "main_journal 2 machined 51.502 mm",
             "D8": "main_bearing_bore 3 51.558 mm"},
            id="before above ground in French",
        ),
        pytest.param(
            [["Head", "Height", "Warp bef.", "Warp aft."], [1, 97.68, 0.15, 0.04],
             [2, 97.77, 0.14, 0.03]],
            {"C6": "head_flatness 1 found 0.15 mm", "D7": "head_flatness 2 final 0.03 mm"},
            id="before and after in short",
        ),
        pytest.param(
            [["Cyl", "Avant haut", "Avant bas", "Réalésé", "Piston"],
             [1, 82.14, 82.08, 82.51, 82.46], [2, 82.16, 82.09, 82.51, 82.46]],
            {"B6": "bore 1 top found 82.14 mm", "C7": "bore 2 bottom found 82.09 mm",
             "D7": "bore 2 machined 82.51 mm"},
            id="places before the work in French",
        ),
        pytest.param(
            [["mm", "cil. 1", "cil. 2"], ["Camisa, como estaba, arriba", 98.19, 98.22],
             ["Camisa nueva, bruñida", 98.024, 98.025]],
            {"B6": "bore 1 top found 98.19 mm", "C7": "bore 2 final 98.025 mm"},
            id="as it was in Spanish",
        ),
        pytest.param(
            [["Zyl", "Kolben", "Fertigmaß", "Spiel", "Soll von", "bis"],
             [1, 82.462, 82.517, 0.055, 0.05, 0.07], [2, 82.461, 82.515, 0.054, 0.05, 0.07]],
            {"E6": "piston_clearance 1 limit_low 0.05 mm",
             "F6": "piston_clearance 1 limit_high 0.07 mm"},
            id="the upper end of a range",
        ),
    ],
)  # fmt: skip
def test_when_places_were_measured(tmp_path: Path, rows: Rows, expected: dict[str, str]) -> None:
    check_told(tmp_path, rows, expected)

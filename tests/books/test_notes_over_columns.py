"""Sizes that a note gives to columns below it, worn liners beside new ones, and lettered heads.

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
            [["Bloc : alésage de base 3,9300 po; dans la colonne B seulement les dix-millièmes "
              "en plus"], ["Cyl.", "alésage +", "piston (jupe)", "jeu"],
             [1, 4, 3.9268, 0.0036], [2, 5, 3.9265, 0.004], [3, 2, 3.9267, 0.0035]],
            {"A5": "", "B7": "bore 1 3.9304 in", "B9": "bore 3 3.9302 in"},
            id="ten thousandths in French",
        ),
        pytest.param(
            [["Bores: base 3.9300, column B is the tenths over it"],
             ["Cyl", "bore +", "piston"], [1, 4, 3.9268], [2, 5, 3.9265], [3, 12, 3.9267]],
            {"A5": "", "B7": "bore 1 3.9304 in", "B9": "bore 3 3.9312 in"},
            id="tenths",
        ),
        pytest.param(
            [["sleeves & pistons"], [None, "Worn top", "Worn btm", "New sleeve", "Piston"],
             ["Cyl", "mm", "mm", "mm", "mm"], [1, 112.31, 112.15, 112.021, 111.88],
             [2, 112.33, 112.11, 112.016, 111.867], [3, 112.3, 112.1, 112.02, 111.87]],
            {"B8": "bore 1 top found 112.31 mm", "C9": "bore 2 bottom found 112.11 mm",
             "D10": "bore 3 final 112.02 mm"},
            id="worn liners beside new ones",
        ),
        pytest.param(
            [["Head", "Height", "Warp before", "Warp after"], ["A", 97.68, 0.15, 0.04],
             ["B", 97.77, 0.14, 0.03], ["C", 97.78, 0.12, 0.03]],
            {"B6": "head_height A 97.68 mm", "B8": "head_height C 97.78 mm",
             "C8": "head_flatness C found 0.12 mm"},
            id="three heads by letters",
        ),
        pytest.param(
            [["Bores, mm"], ["Cyl", 1, 2, 3], ["A", 81.01, 81.02, 81.01],
             ["B", 81.01, 81.01, 81.01], ["C", 81.005, 81.0, 81.0]],
            {"B7": "bore 1 A 81.01 mm", "C8": "bore 2 B 81.01 mm", "D9": "bore 3 C 81 mm"},
            id="three places on each cylinder by letters",
        ),
    ],
)  # fmt: skip
def test_lines_are_read(tmp_path: Path, rows: Rows, expected: dict[str, str]) -> None:
    check_told(tmp_path, rows, expected)

"""Sizes written as last figures over one in a cell before them, or in their label.

That builders write so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["mm"], [None, "size", 1, 2, 3, 4], ["Bores", "86.500 +", 10, 13, 11, 14],
             ["Pistons", "86.450 +", 5, 7, 7, 9]],
            {"C7": "bore 1 86.51 mm", "D7": "bore 2 86.513 mm",
             "F8": "piston_diameter 4 86.459 mm"},
            id="a size with a plus",
        ),
        pytest.param(
            [["Cyl", 1, 2, 3], ["Bores 3.280 + tenths", 5, 2, 4],
             ["Pistons 3.277 + tenths", 3, 1, 3]],
            {"B6": "bore 1 3.2805 in", "C6": "bore 2 3.2802 in",
             "D7": "piston_diameter 3 3.2773 in"},
            id="tenths over the size in the label",
        ),
        pytest.param(
            [["Cyl", 1, 2, 3], ["Bore 3.28 + thou", 2, 5, 14]],
            {"B6": "bore 1 3.282 in", "D6": "bore 3 3.294 in"},
            id="thou over the size in the label",
        ),
        pytest.param(
            [["Zyl.", 1, 2, 3], ["Bohrung 84,00 + Hundertstel", 2, 1, 3]],
            {"B6": "bore 1 84.02 mm", "D6": "bore 3 84.03 mm"},
            id="hundredths of a millimeter",
        ),
    ],
)  # fmt: skip
def test_figures_added_to_a_size(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)

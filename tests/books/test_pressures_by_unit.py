"""Pressures of each cylinder of which no more than the unit says what was measured.

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
            [["Zylinder", 1, 2, 3, 4], ["bar", 7.8, 7.9, 7.7, 8]],
            {"B6": "cranking_pressure 1 780 kPa", "E6": "cranking_pressure 4 800 kPa"},
            id="a row in bar",
        ),
        pytest.param(
            [["Cyl", "psi"], [1, 150], [2, 152], [3, 149]],
            {"B6": "cranking_pressure 1 150 psi", "B8": "cranking_pressure 3 149 psi"},
            id="a column in psi",
        ),
        pytest.param(
            [["Cyl", 1, 2, 3], ["psi", 150, 152, 149], ["cc", 44, 44.1, 44]],
            {"B6": "cranking_pressure 1 150 psi", "C7": "chamber_volume 2 44.1 cc"},
            id="rows of two units",
        ),
        pytest.param(
            [["Cyl", "bar"], [1, 250], [2, 252], [3, 249]],
            {"B6": "not understood: 250", "B8": "not understood: 249"},
            id="more than a starter builds up",
        ),
    ],
)  # fmt: skip
def test_pressures_of_each(tmp_path: Path, rows: Rows, expected: dict[str, str]) -> None:
    check_told(tmp_path, rows, expected)

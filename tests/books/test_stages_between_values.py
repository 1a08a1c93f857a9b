"""Stages and steps before each of several values of a row, with the unit behind the last.

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
            [["Head bolts", "1st", 30, "2nd", 60, "final", 95, "Nm"]],
            {"C5": "head_bolt_torque step 1 30 N.m", "E5": "head_bolt_torque step 2 60 N.m",
             "G5": "head_bolt_torque final 95 N.m"},
            id="steps of a torque",
        ),
        pytest.param(
            [["Crank end play", "before", 0.3, "after", 0.15, "mm"]],
            {"C5": "crank_end_play found 0.3 mm", "E5": "crank_end_play final 0.15 mm"},
            id="before and after",
        ),
        pytest.param(
            [["all mm"], ["Head warp", "found", 0.12, "now", 0.03]],
            {"C6": "head_flatness found 0.12 mm", "E6": "head_flatness final 0.03 mm"},
            id="found and now",
        ),
    ],
)  # fmt: skip
def test_values_of_a_row(tmp_path: Path, rows: Rows, expected: dict[str, str]) -> None:
    check_told(tmp_path, rows, expected)

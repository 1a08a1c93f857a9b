"""Shares that builders write in percent, with the sign, in a cell of its own, or without.

That they do is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    "row",
    [
        ["Balance factor", 52, "%"],
        ["Balance factor %", 52],
        ["Balance factor (%)", "52"],
        ["Balance factor", "52 %"],
        ["Balance factor", 52],
        ["Wuchtfaktor", 0.52],
    ],
)
def test_a_balance_factor(tmp_path: Path, row: list[object]) -> None:
    rows: Rows = [["Bobweight (g)", 1200], row]
    check_told(tmp_path, rows, {"B5": "bobweight 1200 g", "B6": "balance_factor 0.52"})


def test_other_shares(tmp_path: Path) -> None:
    rows: Rows = [["Volumetric efficiency %", 92], ["Injector duty %", 82]]
    check_told(tmp_path, rows, {"B5": "volumetric_efficiency 0.92", "B6": "injector_duty 0.82"})


def test_a_share_that_is_too_large_in_percent_too_is_asked_about(tmp_path: Path) -> None:
    check_told(tmp_path, [["Balance factor", 520]], {"B5": "asked: balance_factor 520"})

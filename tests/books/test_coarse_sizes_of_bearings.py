"""Bearings with no more than one digit behind the point: clearances in thousandths, and no bores.

That builders write "2.5" for .0025 in is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told, told

COARSE: Rows = [["Main brg", 2.7, 2.5, 2.6, 2.4, 2.6], ["Rod brg", 2.2, 2.1, 2.0, 2.3]]


@pytest.mark.parametrize(
    "rows",
    [
        COARSE,
        [["", 1, 2, 3, 4, 5], *COARSE],
        [["Inches", 1, 2, 3, 4, 5], *COARSE],
        COARSE[:1],
        COARSE[1:],
    ],
    ids=["both", "counted", "inches over them", "mains alone", "rods alone"],
)
def test_sizes_too_coarse_for_bores_are_asked(tmp_path: Path, rows: Rows) -> None:
    found = told(tmp_path, rows)
    assert len(found) == sum(isinstance(v, float) for row in rows for v in row)
    meant = {tuple(words.split()[:2]) for words in found.values()}
    assert meant <= {("asked:", "main_bearing_clearance"), ("asked:", "rod_bearing_clearance")}


@pytest.mark.parametrize(
    "others",
    [[["Bore", 4.03], ["Stroke", 3.48]], [["Inches"]]],
    ids=["a bore and a stroke in inches", "a title in inches"],
)
def test_in_a_book_of_inches_they_are_thousandths(tmp_path: Path, others: Rows) -> None:
    first = 5 + len(others)
    expected = {
        f"B{first}": "main_bearing_clearance 1 0.0027 in",
        f"F{first}": "main_bearing_clearance 5 0.0026 in",
        f"B{first + 1}": "rod_bearing_clearance 1 0.0022 in",
        f"E{first + 1}": "rod_bearing_clearance 4 0.0023 in",
    }
    check_told(tmp_path, [*others, *COARSE], expected)


def test_bores_measured_fine_stay_bores(tmp_path: Path) -> None:
    rows: Rows = [["Main brg", 2.7012, 2.7008, 2.701], ["Rod brg", 2.2252, 2.2248, 2.225]]
    expected = {"B5": "main_bearing_bore 1 2.7012 in", "D6": "rod_bearing_bore 3 2.225 in"}
    check_told(tmp_path, rows, expected)

"""Rings that leave what is measured to the head before them, or say no more than when.

That shops write so is common practice, no source.
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
            [["Cyl", "Top ring gap", "2nd", "Oil"],
             [1, .020, .022, .018], [2, .021, .022, .018], [3, .020, .023, .019]],
            {"B6": "top_ring_gap 1 0.02 in", "C6": "second_ring_gap 1 0.022 in",
             "D6": "oil_ring_gap 1 0.018 in", "D8": "oil_ring_gap 3 0.019 in"},
            id="heads",
        ),
        pytest.param(
            [["inches", 1, 2, 3, 4], ["Top gap", .020, .021, .020, .020],
             ["2nd", .022, .022, .023, .022], ["Oil", .018, .018, .019, .018]],
            {"B7": "second_ring_gap 1 0.022 in", "B8": "oil_ring_gap 1 0.018 in",
             "E8": "oil_ring_gap 4 0.018 in"},
            id="rows",
        ),
        pytest.param(
            [["Cyl", "top IN", "2nd IN", "top OUT", "2nd OUT"],
             [1, .028, .032, .018, .020], [2, .029, .033, .018, .021], [3, .028, .031, .019, .020]],
            {"B6": "top_ring_gap 1 found 0.028 in", "C6": "second_ring_gap 1 found 0.032 in",
             "D6": "top_ring_gap 1 final 0.018 in", "E8": "second_ring_gap 3 final 0.02 in"},
            id="in and out",
        ),
        pytest.param(
            [["Cyl", "top found", "2nd found", "oil found", "top new", "2nd new", "oil new"],
             [1, .028, .032, .030, .018, .020, .015], [2, .029, .033, .031, .018, .021, .015]],
            {"B6": "top_ring_gap 1 found 0.028 in", "D6": "oil_ring_gap 1 found 0.03 in",
             "E7": "top_ring_gap 2 final 0.018 in"},
            id="three, found and new",
        ),
        pytest.param(
            [["Top ring side clearance", "2nd", "Oil"], [.0015, .0016, .002]],
            {"B6": "second_ring_side_clearance 0.0016 in",
             "C6": "oil_ring_side_clearance 0.002 in"},
            id="side clearance",
        ),
        pytest.param(
            [["inches", None], ["Top gap", .018], ["Int gap", .020]],
            {"B7": "second_ring_gap 0.02 in"},
            id="the one between",
        ),
    ],
)  # fmt: skip
def test_rings_in_short(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)

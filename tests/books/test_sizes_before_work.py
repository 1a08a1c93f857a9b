"""Rows of sizes as found that nothing says but the row of the same sizes as machined.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize("label", ["Desgaste: medida tomada arriba", "Tolto prima", "Blob 7"])
def test_a_row_of_unknown_words_over_the_bores_as_ground(tmp_path: Path, label: str) -> None:
    rows: Rows = [
        ["Cyl (mm)", 1, 2, 3, 4],
        [label, 88.12, 88.15, 88.10, 88.11],
        ["Honed", 88.51, 88.51, 88.52, 88.51],
        ["Piston", 88.45, 88.45, 88.46, 88.45],
    ]
    at = " top" if "arriba" in label else ""
    check_told(
        tmp_path,
        rows,
        {
            "B6": f"bore 1{at} found 88.12 mm",
            "E6": f"bore 4{at} found 88.11 mm",
            "B8": "piston_diameter 1 88.45 mm",
        },
    )


def test_standard_journals_that_differ_were_measured(tmp_path: Path) -> None:
    rows: Rows = [
        ["Mains (in)", 1, 2, 3, 4, 5],
        ["Journal std measured", 2.3970, 2.3970, 2.3970, 2.3975, 2.3980],
        ["Journal ground", 2.3785, 2.3785, 2.3784, 2.3785, 2.3784],
    ]
    check_told(
        tmp_path,
        rows,
        {"B6": "main_journal 1 found 2.397 in", "F7": "main_journal 5 machined 2.3784 in"},
    )


def test_one_nominal_size_for_all_is_wanted(tmp_path: Path) -> None:
    rows: Rows = [
        ["Cyl (mm)", 1, 2, 3],
        ["Bore nominal", 88.5, 88.5, 88.5],
        ["Bore", 88.51, 88.51, 88.52],
    ]
    check_told(tmp_path, rows, {"B6": "bore 1 target 88.5 mm", "B7": "bore 1 88.51 mm"})

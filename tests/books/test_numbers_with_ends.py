"""Mains whose numbers say at which end of the crank they stand.

That shops number mains so is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    "heads",
    [
        ["1 vol.", "2 milieu", "3 distr."],
        ["1 front", 2, "3 flywheel"],
        ["I Steuers.", "II", "III Schwungr."],
        ["I (distr.)", "II", "III (vol.)"],
    ],
)
def test_numbers_over_columns(tmp_path: Path, heads: list[object]) -> None:
    rows: Rows = [
        ["Main brgs (mm)", *heads],
        ["Journal found", 56.961, 56.958, 56.962],
        ["Journal ground", 56.712, 56.711, 56.713],
    ]
    check_told(
        tmp_path,
        rows,
        {
            "B6": "main_journal 1 found 56.961 mm",
            "C7": "main_journal 2 machined 56.711 mm",
            "D7": "main_journal 3 machined 56.713 mm",
        },
    )


def test_roman_numbers_of_rows(tmp_path: Path) -> None:
    rows: Rows = [
        ["BANCO (mm)", "perno prima", "perno rettificato"],
        ["I (distr.)", 56.961, 56.712],
        ["II", 56.958, 56.711],
        ["III", 56.962, 56.713],
        ["IV", 56.960, 56.712],
        ["V (vol.)", 56.959, 56.711],
    ]
    check_told(
        tmp_path,
        rows,
        {"B6": "main_journal 1 found 56.961 mm", "B10": "main_journal 5 found 56.959 mm"},
    )

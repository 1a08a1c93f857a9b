"""The sign of crown volumes and deck clearances, as formulas add them or take them away.

That builders write so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


def _sheet(ratio: str) -> Rows:
    return [
        ["mm", None, "stroke", 74.4],
        ["Cyl.", "Bore", "Chamber cc", "Crown cc"],
        *[[n, 88.01, 42.4 + n / 10, -3.6 + n / 10] for n in (1, 2, 3, 4)],
        ["mean", "=AVERAGE(B7:B10)", "=AVERAGE(C7:C10)", "=AVERAGE(D7:D10)"],
        ["Compression ratio", None, ratio],
    ]


@pytest.mark.parametrize(
    ("ratio", "read"),
    [
        ("=(PI()/4*B11^2*D5/1000+C11+D11+7)/(C11+D11+7)", "crown_volume 1 -3.5 cc"),
        ("=(PI()/4*B11^2*D5/1000+C11-$D$11+7)/(C11-$D$11+7)", "crown_volume 1 3.5 cc"),
        ("=(PI()/4*B7^2*D5/1000+C7+D7+7)/(C7+D7+7)", "crown_volume 1 -3.5 cc"),
        ("=PI()/4*B11^2*D5/1000/C11", "asked: crown_volume 1 -3.5 cc"),
    ],
)
def test_a_formula_says_what_the_sign_means(tmp_path: Path, ratio: str, read: str) -> None:
    check_told(tmp_path, _sheet(ratio), {"D7": read})


@pytest.mark.parametrize(
    ("quench", "read"),
    [
        ("=B8+$B$5", "deck_clearance 1 -0.16 mm"),
        ("=$B$5+B8", "deck_clearance 1 -0.16 mm"),
        ("=$B$5-B8", "deck_clearance 1 0.16 mm"),
        ("=B8*2", "asked: deck_clearance 1 -0.16 mm"),
    ],
)
def test_a_formula_says_where_pistons_stand(tmp_path: Path, quench: str, read: str) -> None:
    rows: Rows = [
        ["Head gasket squashed", 1.1, "mm"], [], ["Cyl", 1, 2],
        ["piston to deck (mm)", -0.16, -0.15],
        ["squish", quench, quench.replace("B8", "C8")],
    ]  # fmt: skip
    check_told(tmp_path, rows, {"B8": read})

"""Engines larger than usual, whose sizes the formulas of their own sheet prove.

That a ship's engine has such sizes is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from pathlib import Path

from books.small_sheet import Rows, check_told

LINERS: Rows = [
    ["mm", "Cyl 1", "Cyl 2", "Cyl 3"],
    ["Liner as found", 240.31, 240.28, 240.3],
    ["Liner new, honed", 240.02, 240.03, 240.01],
    ["Piston skirt", 239.7, 239.72, 239.7],
    ["Piston clearance", "=B7-B8", "=C7-C8", "=D7-D8"],
    [],
    ["Rod bearing", "Crankpin", "Bore in shells", "Clearance"],
    *[[n, 154.97, 155.12 + n / 100, f"=C{11 + n}-B{11 + n}"] for n in (1, 2, 3)],
]


def test_sizes_larger_than_usual_are_read_where_formulas_prove_them(tmp_path: Path) -> None:
    check_told(tmp_path, LINERS, {
        "B6": "bore 1 found 240.31 mm", "C7": "bore 2 final 240.03 mm",
        "D8": "piston_diameter 3 239.7 mm", "B12": "rod_journal 1 154.97 mm",
        "C14": "rod_bearing_bore 3 155.15 mm",
    })  # fmt: skip


def test_one_fit_alone_proves_no_large_engine(tmp_path: Path) -> None:
    check_told(tmp_path, LINERS[:5], {"B6": "asked: bore 1 found 240.31 mm"})

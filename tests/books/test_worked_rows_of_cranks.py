"""Tables of mains and of rods whose rows only say that sizes were found, or ground.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    ("mains", "rods", "found", "ground"),
    [
        ("Mains", "Rods", "Came in", "Ground"),
        ("Bancada", "Bielas", "Entró con", "Rectificada"),
        ("Paliers", "Bielles", "Trouvé", "Rectifié"),
        ("Hauptlager", "Pleuel", "alt", "geschliffen"),
        ("Banco", "Bielle", "prima", "rettificato"),
    ],
)
def test_mains_and_rods(tmp_path: Path, mains: str, rods: str, found: str, ground: str) -> None:
    rows: Rows = [
        [f"{mains} (mm)", 1, 2, 3, 4, 5],
        [found, 54.961, 54.958, 54.962, 54.957, 54.961],
        [ground, 54.711, 54.709, 54.712, 54.708, 54.711],
        [],
        [rods, 1, 2, 3, 4],
        [found, 44.961, 44.958, 44.962, 44.957],
        [ground, 44.711, 44.709, 44.712, 44.708],
    ]
    check_told(
        tmp_path,
        rows,
        {
            "B6": "main_journal 1 found 54.961 mm",
            "F7": "main_journal 5 machined 54.711 mm",
            "B10": "rod_journal 1 found 44.961 mm",
            "E11": "rod_journal 4 machined 44.708 mm",
        },
    )


def test_what_was_taken_off_a_head_stays_a_cut(tmp_path: Path) -> None:
    rows: Rows = [["Culata (mm)", 1, 2, 3], ["Rectificada", 0.15, 0.20, 0.15]]
    found = check_told(tmp_path, rows, {})
    assert not any("height" in text or "machined" in text for text in found.values())

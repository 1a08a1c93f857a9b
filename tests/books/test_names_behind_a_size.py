"""Labels that tell of a size of their own, and behind it name the one in the next cell.

That builders write so is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import check_told


@pytest.mark.parametrize(
    ("label", "value", "expected"),
    [
        ("Head skimmed 0.15, total height now", 131.82, "head_height final 131.82 mm"),
        ("Crank ground 0.25, end play now", 0.14, "crank_end_play final 0.14 mm"),
        ("Block height crank line - deck", 225.05, "deck_height 225.05 mm"),
    ],
)
def test_what_a_label_names_behind_its_size(
    tmp_path: Path, label: str, value: float, expected: str
) -> None:
    check_told(tmp_path, [["Bore (mm)", 79.01], [label, value]], {"B6": expected})


def test_a_size_without_another_name_names_nothing(tmp_path: Path) -> None:
    rows = [["Bore (mm)", 79.01], ["Head skimmed 0.15, seldom seen", 131.82]]
    check_told(tmp_path, rows, {"B6": "not understood: 131.82"})

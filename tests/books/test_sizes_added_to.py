"""Rows that say to which size their whole numbers are added, below heads of cylinders.

That builders write so is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    ("label", "typed", "expected"),
    [
        ("Chemise alésée 105,00 + … centièmes", [3, 2], ["105.03 mm", "105.02 mm"]),
        ("Bohrung 105,00 + 1/100", [3, 2], ["105.03 mm", "105.02 mm"]),
        ("Bore 4.000 + thou", [31, 30], ["4.031 in", "4.03 in"]),
    ],
)
def test_parts_added_to_a_size(
    tmp_path: Path, label: str, typed: list[int], expected: list[str]
) -> None:
    inch = expected[0].endswith("in")
    rows: Rows = [
        ["", "cyl 1", "cyl 2"],
        [label, *typed],
        [f"Piston ({'in' if inch else 'mm'})", *([4.0265, 4.0255] if inch else [104.9, 104.89])],
    ]
    found = check_told(tmp_path, rows, {})
    told = [(found[at].split()[:2], " ".join(found[at].split()[-2:])) for at in ("B6", "C6")]
    assert told == [(["bore", str(n)], size) for n, size in enumerate(expected, 1)]
    assert found["B7"].startswith("piston_diameter 1")

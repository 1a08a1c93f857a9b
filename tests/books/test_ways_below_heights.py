"""Bores at several heights, each with the same two heads in short for the two ways across.

That shops head their bore sheets so is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    ("heights", "ways"),
    [
        (("arriba", "medio", "abajo"), ("PP", "BE")),
        (("oben", "mitte", "unten"), ("KR", "KA")),
        (("haut", "milieu", "bas"), ("ax.", "tr.")),
        (("top", "middle", "bottom"), ("A", "B")),
    ],
)
def test_two_ways_at_three_heights(
    tmp_path: Path, heights: tuple[str, ...], ways: tuple[str, str]
) -> None:
    rows: Rows = [
        ["Cyl", *[text for height in heights for text in (height, "")], "Liner protrusion"],
        ["", *ways * 3, ""],
        [1, 91.012, 91.008, 91.010, 91.009, 91.011, 91.007, 0.11],
        [2, 91.013, 91.009, 91.011, 91.008, 91.012, 91.008, 0.12],
        [3, 91.011, 91.008, 91.012, 91.009, 91.010, 91.009, 0.12],
    ]
    found = check_told(
        tmp_path,
        rows,
        {
            "B7": "bore 1 top A 91.012 mm",
            "C7": "bore 1 top B 91.008 mm",
            "E8": "bore 2 middle B 91.008 mm",
            "G9": "bore 3 bottom B 91.009 mm",
            "H9": "liner_protrusion 3 0.12 mm",
        },
        title="Bores",
    )
    assert len(found) == 21


def test_when_says_more_than_a_way(tmp_path: Path) -> None:
    rows: Rows = [
        ["Cyl", "top", "", "bottom", ""],
        ["", "old", "new", "old", "new"],
        [1, 91.06, 91.508, 91.02, 91.509],
        [2, 91.07, 91.509, 91.03, 91.508],
    ]
    check_told(
        tmp_path,
        rows,
        {"B7": "bore 1 top found 91.06 mm", "E8": "bore 2 bottom final 91.508 mm"},
        title="Bores",
    )


def test_two_ways_in_rows_left_of_the_heights(tmp_path: Path) -> None:
    rows: Rows = [
        ["Cil. (mm)", "", "arriba", "medio", "abajo"],
        [1, "PP", 91.012, 91.010, 91.011],
        ["", "BE", 91.008, 91.009, 91.007],
        [2, "PP", 91.013, 91.011, 91.012],
        ["", "BE", 91.009, 91.008, 91.008],
    ]
    check_told(
        tmp_path,
        rows,
        {
            "C6": "bore 1 A top 91.012 mm",
            "D7": "bore 1 B middle 91.009 mm",
            "E9": "bore 2 B bottom 91.008 mm",
        },
        title="Cilindros",
    )

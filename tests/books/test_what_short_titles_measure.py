"""Sizes below or beside a short title: of what part, and of which property of it.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize("head", ["Unbalance (oz-in)", "Imbalance (oz-in)"])
def test_an_unbalance_at_both_ends_is_no_bore(tmp_path: Path, head: str) -> None:
    rows: Rows = [[head, "First spin", "Final"], ["Front", 1.85, 0.32], ["Rear", 2.1, 0.41]]
    found = check_told(tmp_path, rows, {})
    measured = {at: words.split()[0] for at, words in found.items()}
    assert measured == dict.fromkeys(("B6", "C6", "B7", "C7"), "crank_unbalance")
    assert all(words.endswith("oz.in") for words in found.values())
    assert ("found" in found["B6"], "final" in found["C6"]) == (True, True)


@pytest.mark.parametrize(
    "title",
    [
        "Ring side clearance (limit .0035)", "Ring side clearance", "Ring side clr (in)",
        "Ring side play, inches",
    ],
)  # fmt: skip
def test_rings_below_their_side_clearance_have_no_gaps(tmp_path: Path, title: str) -> None:
    rows: Rows = [[title], ["Top", 0.0016], ["2nd", 0.0018], ["Oil", 0.0021]]
    expected = {
        "B6": "top_ring_side_clearance 0.0016 in", "B7": "second_ring_side_clearance 0.0018 in",
        "B8": "oil_ring_side_clearance 0.0021 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("title", "measured", "sizes"),
    [
        ("Ring side clearance (limit .0035)", "side_clearance", (".0016", ".0018")),
        ("Ring gaps", "gap", (".016", ".018")),
    ],
)
def test_rings_with_their_sizes_in_one_cell_are_of_the_title(
    tmp_path: Path, title: str, measured: str, sizes: tuple[str, str]
) -> None:
    top, second = sizes
    rows: Rows = [[title], [f"Top {top}"], [f"2nd {second}"]]
    expected: Mapping[str, str] = {
        "A6": f"top_ring_{measured} {float(top):g} in",
        "A7": f"second_ring_{measured} {float(second):g} in",
    }
    check_told(tmp_path, rows, expected)

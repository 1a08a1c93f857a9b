"""Ranges in a column of their own are what a row is held to, whatever their head is called.

That shops write limits so is common practice, no source.
"""

from __future__ import annotations

import pytest


@pytest.mark.parametrize("head", ["tolerancia", "book", "WHB"])
def test_ranges_below_any_head_are_limits(findings, head: str) -> None:
    found = findings(
        S=[
            ["CIGÜEÑAL", head, 1, 2, 3, 4],
            ["Apoyo bancada (mm)", "82,98-83,00", 82.99, 82.994, 82.989, 82.99],
            ["Casquillo bancada (mm)", None, 83.07, 83.069, 83.075, 83.07],
            ["Luz segmento 1 (mm)", "0,40-0,60", 0.44, 0.65, 0.45, 0.46],
        ]
    )
    assert "above the most that the book itself gives" in found["S!D4"][1]

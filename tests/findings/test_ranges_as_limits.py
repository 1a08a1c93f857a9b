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


def test_a_size_outside_the_books_limits_is_told_once(findings):
    gaps = (0.3, 0.3, 0.45, 0.3)
    rows = [["Ring gap top", n, "0.25-0.40", gap] for n, gap in enumerate(gaps, 1)]
    found = findings(S=[["Item", "No.", "Limit (mm)", "Final (mm)"], *rows])
    assert {at: kind for at, (kind, _) in found.items()} == {"S!D4": "out of band"}
    assert "0.4 mm" in found["S!D4"][1]
    unlimited = findings(S=[["Item", "No.", "Final (mm)"], *([*r[:2], r[3]] for r in rows)])
    assert {at: kind for at, (kind, _) in unlimited.items()} == {"S!C4": "disagreement"}


@pytest.mark.parametrize("head", ["Clearance (.0010-.0025)", "spec .0010-.0025"])
def test_a_range_in_a_head_limits_its_column(findings, head: str) -> None:
    own = head.startswith("Clearance")
    heads = ["Main", "Journal", "Bearing", *([head] if own else ["Clearance", head])]
    sizes = [(2.4480, 2.4502, 0.0022), (2.4481, 2.4502, 0.0021), (2.4480, 2.4510, 0.0030)]
    rows = [heads, *([n, *of, *([] if own else ["ok"])] for n, of in enumerate(sizes, 1))]
    kind, message = findings(S=rows)["S!D4"]
    assert kind == "out of band"
    assert "0.0025 in" in message

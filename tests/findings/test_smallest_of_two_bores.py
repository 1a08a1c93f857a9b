"""Clearances that a builder takes from the smallest of several readings of a bore.

That some do is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs


@pytest.mark.parametrize(("clearance", "is_told"), [(0.035, False), (0.021, True)])
def test_the_smallest_bore_is_near_enough(
    make_book: Callable[..., Path], clearance: float, is_told: bool
) -> None:
    rows = [
        ["Job", "31"],
        [],
        ["Zylinder (mm)", "links (1)", "rechts (2)"],
        ["Bohrung längs", 84.807, 84.813],
        ["Bohrung quer", 84.815, 84.813],
        ["Kolben", 84.772, 84.766],
        ["Einbauspiel", clearance, 0.047],
    ]
    (job,) = read_jobs(make_book({"S": rows}))
    assert any(f.code == "contradicts-its-sizes" for f in check(job)) == is_told

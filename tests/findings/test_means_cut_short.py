"""Means that leave out the last reading of a line, beside formulas that take the whole of it.

That a mean may be of one bank alone is common practice, no source.
"""

from __future__ import annotations

import pytest


@pytest.mark.parametrize(
    ("mean", "told"),
    [
        pytest.param("=AVERAGE(B2:B6)", True, id="the last left out"),
        pytest.param("=AVERAGE(B2:B7)", False, id="all taken"),
    ],
)
def test_a_mean_beside_a_formula_that_takes_the_whole_line(findings, mean: str, told: bool) -> None:
    bores = [[n, 97.31 + n / 1000] for n in range(1, 7)]
    found = findings(
        S=[
            ["Cylinder", "Bore mm"],
            *bores,
            ["mean", mean],
            [],
            ["Stroke mm", 112],
            ["Displacement cc", "=6*PI()/4*AVERAGE(B2:B7)^2*B10/1000"],
        ]
    )
    assert ("S!B8" in found and "leaves out" in found["S!B8"][1]) is told

"""Pushrods: both forms meet, a short one yields, refusals."""

import itertools
import math

import pytest

from workbook_tools.catalog import ArgumentError


def test_a_thick_tube_of_the_trade(eng):
    # 5/16 in, 0.080 in wall, 8 in, 75 ksi: slender, by Euler some 2040 lbf.
    assert eng("PUSHROD_BUCKLING", 0.3125, 0.08, 8, 75000) == pytest.approx(2043, rel=3e-3)
    # A little shorter it is Johnson's, and there is no step between them.
    near = [eng("PUSHROD_BUCKLING", 0.3125, 0.08, 7.6 + i / 50, 75000) for i in range(12)]
    assert near == sorted(near, reverse=True)
    assert max(a - b for a, b in itertools.pairwise(near)) < 20


def test_a_short_rod_holds_less_than_it_yields_at(eng):
    yields = 75000 * math.pi / 4 * (0.3125**2 - 0.1525**2)
    assert 0.9 * yields < eng("PUSHROD_BUCKLING", 0.3125, 0.08, 2, 75000) < yields


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((0.3125, 0.2, 8, 75000), "tube_wall: expected half the tube's diameter at most"),
        ((0.3125, 0.08, 1, 75000), "column_length: expected 5 times the tube's diameter"),
        ((0.3125, 0.08, 8, 0), "yield_stress: expected a stress above 0"),
    ],
)
def test_refusals(eng, arguments, words):
    with pytest.raises(ArgumentError, match=words):
        eng("PUSHROD_BUCKLING", *arguments)

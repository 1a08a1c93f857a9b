"""Bearings: what their functions refuse, and that inverse functions agree."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_one_thicker_half_shell_closes_the_bearing_once_and_two_twice(eng):
    # Housing 2.6410, shells 0.0950, journal 2.4486 in.
    alike = eng("BEARING_CLEARANCE", 2.6410, 0.0950, 2.4486)
    one = eng("BEARING_CLEARANCE", 2.6410, 0.0950, 2.4486, 0.0955)
    both = eng("BEARING_CLEARANCE", 2.6410, 0.0955, 2.4486)
    assert (alike, one, both) == pytest.approx((0.0024, 0.0019, 0.0014), abs=1e-12)


def test_an_interference_is_a_negative_clearance(eng):
    assert eng("BEARING_CLEARANCE", 2.6380, 0.0950, 2.4486) == pytest.approx(-0.0006, abs=1e-12)


def test_a_journal_of_another_size_is_refused(eng):
    with pytest.raises(ArgumentError, match=r"journal: expected a size within 2 %.*got 2.1"):
        eng("BEARING_CLEARANCE", 2.6410, 0.0950, 2.1)

"""Rings: what their functions refuse, and how gap and factor hang together."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_gap_factor_is_a_plain_number_in_both_systems(eng):
    inch, metric = eng("RING_GAP", 4.0, 0.0045), eng("RING_GAP", 101.6, 0.0045, "metric")
    assert inch * 25.4 == pytest.approx(metric, rel=1e-12)


def test_harder_use_never_asks_for_less_gap(eng):
    uses = ("street", "modified", "race", "turbo race", "nitrous race")
    factors = [eng("RING_GAP_FACTOR", use, "top") for use in uses]
    assert factors == sorted(factors)


def test_a_gap_typed_as_the_factor_is_refused(eng):
    with pytest.raises(ArgumentError, match=r"factor: expected a gap per unit of bore.*got 0.45"):
        eng("RING_GAP", 4.0, 0.45)


def test_an_unknown_use_is_answered_with_the_known_ones(eng):
    with pytest.raises(ArgumentError, match=r'use: expected one of "street".*got \'Sunday\''):
        eng("RING_GAP_FACTOR", "Sunday", "top")


@pytest.mark.parametrize("bore", [0, -4.0, None, ""])
def test_a_bore_that_was_not_measured_is_refused(eng, bore):
    with pytest.raises(ArgumentError, match=r"bore: expected a length above 0"):
        eng("RING_GAP", bore, 0.0045)

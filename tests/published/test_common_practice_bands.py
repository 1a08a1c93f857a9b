"""Bands against what the trade commonly says: common practice, no source.

Ring gaps as practice gives them for an inch of bore; piston clearances as it gives them for a
whole bore, in the unit in which it is said.
"""

import pytest
from sources import practice

SOURCE = practice()
MEMORY = practice(memory=True)


@pytest.mark.parametrize(
    ("use", "ring", "low", "high", "source"),
    [
        ("turbo race", "top", 0.0060, 0.0070, SOURCE),
        ("turbo race", "second", 0.0057, 0.0070, SOURCE),
        ("nitrous race", "top", 0.0060, 0.0070, SOURCE),
        ("supercharged race", "top", 0.0060, 0.0070, SOURCE),
        ("road race", "top", 0.0050, 0.0055, MEMORY),
        ("road race", "second", 0.0055, 0.0060, MEMORY),
        ("marine", "top", 0.0055, 0.0065, MEMORY),
        ("diesel", "second", 0.0055, 0.0070, MEMORY),
        ("raised diesel", "second", 0.0065, 0.0080, MEMORY),
        ("air cooled", "top", 0.0040, 0.0060, MEMORY),
        ("two-stroke", "top", 0.0040, 0.0060, MEMORY),
    ],
)
def test_ring_gap_for_an_inch_of_bore(agree, eng, use, ring, low, high, source):
    got_low, got_high, origin = eng("RING_GAP_BAND", 4, use, ring)[0]
    agree("RING_GAP_BAND", source, 4 * low, got_low)
    agree("RING_GAP_BAND", source, 4 * high, got_high)
    assert origin.startswith(SOURCE.text)


@pytest.mark.parametrize(
    ("use", "ring", "factor"),
    [
        ("modified", "top", 0.0050),
        ("modified", "second", 0.0055),
        ("race", "top", 0.0055),
        ("race", "second", 0.0057),
        ("supercharged race", "second", 0.0063),
        ("nitrous race", "top", 0.0070),
    ],
)
def test_the_gap_that_practice_names_lies_in_its_band(agree, eng, use, ring, factor):
    agree("RING_GAP_FACTOR", SOURCE, factor, eng("RING_GAP_FACTOR", use, ring))
    low, high, _ = eng("RING_GAP_BAND", 4, use, ring)[0]
    assert low - 1e-9 <= 4 * factor <= high + 1e-9


@pytest.mark.parametrize(
    ("use", "piston", "bore", "low", "high", "units", "source"),
    [
        ("street", "hypereutectic", 4.0, 0.0015, 0.0025, "inch", MEMORY),
        ("street", "forged 4032", 4.0, 0.0025, 0.0035, "inch", MEMORY),
        ("street", "forged 2618", 4.0, 0.0035, 0.0050, "inch", MEMORY),
        ("boosted", "forged 2618", 4.0, 0.0045, 0.0070, "inch", SOURCE),
        # A loaded truck diesel, a single of a mower or generator, a plated two-stroke.
        ("diesel", "cast", 4.1, 0.0045, 0.0059, "inch", SOURCE),
        ("air cooled", "cast", 66, 0.040, 0.065, "metric", SOURCE),
        ("two-stroke", "cast", 54, 0.040, 0.060, "metric", SOURCE),
    ],
)
def test_piston_clearance_of_a_bore(agree, eng, use, piston, bore, low, high, units, source):
    got_low, got_high, origin = eng("PISTON_CLEARANCE_BAND", bore, use, piston, units)[0]
    # Rows are rounded to 0.0001 of the bore.
    agree("PISTON_CLEARANCE_BAND", source, low, got_low, abs=1e-4 * bore)
    agree("PISTON_CLEARANCE_BAND", source, high, got_high, abs=1e-4 * bore)
    assert origin.startswith(SOURCE.text)


def test_bearings_of_a_street_engine(agree, eng):
    # About 0.0020 to 0.0025 in on journals of 2.0 to 2.5 in.
    low, high, origin = eng("BEARING_BAND", 2.250, "street")[0]
    agree("BEARING_BAND", SOURCE, 0.0020, low, abs=0.0003)
    agree("BEARING_BAND", SOURCE, 0.0025, high, abs=0.0003)
    assert origin.startswith(SOURCE.text)

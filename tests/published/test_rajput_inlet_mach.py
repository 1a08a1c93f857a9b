"""Rajput, A Textbook of Internal Combustion Engines: inlet Mach index."""

import math

import pytest

SOURCE = "Rajput, A Textbook of Internal Combustion Engines, Example 7.12, p. 256"


@pytest.mark.parametrize(
    ("speed", "valve", "index"),
    [(2400, 44.95, 0.55), (2800, 48.55, 0.55), (2800, 44.95, 0.64), (4800, 44.95, 1.10)],
)
def test_index_of_a_110_by_140_mm_cylinder(agree, eng, speed, valve, index):
    # Air of 340 K, flow coefficient 0.33; printed to two digits.
    got = eng("INLET_MACH_INDEX", 110, 140, speed, valve, 1, 0.33, 340 - 273.15, "metric")
    agree("INLET_MACH_INDEX", SOURCE, index, got, abs=0.005)


def test_speed_of_the_air_in_the_valve_s_area(agree, eng):
    # The index times the flow coefficient is the mean speed in the valve's area over that of
    # sound, 369.61 m/s.
    area = math.pi / 4 * 4.495**2
    got = eng("PORT_VELOCITY", 110, 140, 2400, area, "metric")
    agree("PORT_VELOCITY", SOURCE, 0.55 * 0.33 * 369.610606, got, rel=2e-3)

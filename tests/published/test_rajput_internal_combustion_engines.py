"""Rajput, A Textbook of Internal Combustion Engines: inlet Mach index, air of a carburetor."""

import math

import pytest
from sources import COMPANIONS, printed

BOOK = "Rajput, A Textbook of Internal Combustion Engines"
SOURCE = printed(BOOK, "Example 7.12, p. 256", COMPANIONS)


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


def test_pressure_in_a_throat(agree, eng):
    # Four of 100 by 120 mm at 1800 rpm, filled to 75 %, draw 1.2 kg/m3 through a throat of 28
    # mm at 0.8: printed 4447.61 Pa.
    source = printed(BOOK, "Example 11.1, p. 399", COMPANIONS)
    size = eng("DISPLACEMENT", 100, 120, 4, "metric")
    flow = eng("AIRFLOW", size, 1800, 0.75, 4, "metric") / 60
    speed = flow / (0.8 * math.pi / 4 * 0.028**2)
    agree("AIRFLOW", source, 4447.61, 1.2 * speed**2 / 2, rel=1e-5)
    speed = math.sqrt(2 * 4447.61 / 1.2)
    flow = 60 * speed * 0.8 * math.pi / 4 * 0.028**2
    got = eng("VOLUMETRIC_EFFICIENCY", flow, size, 1800, 4, "metric")
    agree("VOLUMETRIC_EFFICIENCY", source, 0.75, got, rel=1e-5)

"""Density altitude: the height at which the standard atmosphere is as thin as moist real air."""

import pytest
from CoolProp.HumidAirProp import HAPropsSI
from fluids.atmosphere import ATMOSPHERE_1976
from scipy.optimize import brentq
from sources import independent

SOURCE = independent("standard air as thin as real moist air", HAPropsSI, ATMOSPHERE_1976, brentq)
EARTH = 6356766.0


@pytest.mark.parametrize(
    ("kilopascal", "celsius", "humidity"),
    [(96.5, 30, 0.55), (98.9, 35, 0.44), (84.3, 25, 0.26), (102.3, 0, 0.6), (69.0, 12, 0.9)],
)
def test_as_thin_as_moist_air(agree, eng, kilopascal, celsius, humidity):
    state = ("T", celsius + 273.15, "P", kilopascal * 1000, "R", humidity)
    density = 1 / HAPropsSI("Vha", *state)
    geometric = brentq(lambda z: ATMOSPHERE_1976(z).rho - density, -2000, 9000)
    expected = EARTH * geometric / (EARTH + geometric)
    got = eng("DENSITY_ALTITUDE", kilopascal, celsius, humidity, "metric")
    # Real air is up to 0.07 % denser than an ideal mixture, most where it is cold: 7 m.
    agree("DENSITY_ALTITUDE", SOURCE, expected, got, abs=8)


@pytest.mark.parametrize(("celsius", "humidity"), [(30, 0.5), (35, 0.8), (12, 0.3)])
def test_vapor_in_moist_air(agree, eng, celsius, humidity):
    # At 1 bar: the pressure of air adds some 0.4 % to what stands over water alone.
    state = ("T", celsius + 273.15, "P", 1e5, "R", humidity)
    expected = HAPropsSI("P_w", *state) / 1000
    source = independent("water in real moist air", HAPropsSI)
    got = eng("VAPOR_PRESSURE", celsius, humidity, "metric")
    agree("VAPOR_PRESSURE", source, expected, got, rel=6e-3)

"""Isentropic compression of real air by CoolProp."""

import math

import pytest
from CoolProp.CoolProp import PropsSI
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from sources import independent

from workbook_tools.catalog import find

SOURCE = independent("isentropic compression of real air", PropsSI)


def compressed(ratio, temperature, pressure):
    """(temperature K, pressure Pa) of air compressed without loss of heat."""
    entropy = PropsSI("S", "T", temperature, "P", pressure, "Air")
    density = ratio * PropsSI("D", "T", temperature, "P", pressure, "Air")
    return (
        PropsSI("T", "D", density, "S", entropy, "Air"),
        PropsSI("P", "D", density, "S", entropy, "Air"),
    )


@pytest.mark.parametrize("ratio", [6, 8, 9, 10, 11, 12, 13, 14])
@pytest.mark.parametrize("start", [300.0, 340.0])
def test_compression(agree, eng, ratio, start):
    end, pressure = compressed(ratio, start, 101325.0)
    # The ideal exponent of cold air runs at most 6 percent hot, and never cold.
    got = eng("COMPRESSION_TEMPERATURE", ratio, f"{start} K", 1.4, "metric") + 273.15
    agree("COMPRESSION_TEMPERATURE", SOURCE, end, got, rel=0.06)
    assert got > end
    # With the mean exponent of the same two states it is met, for temperature and pressure.
    exponent = 1 + math.log(end / start) / math.log(ratio)
    got = eng("COMPRESSION_TEMPERATURE", ratio, f"{start} K", exponent, "metric") + 273.15
    agree("COMPRESSION_TEMPERATURE", SOURCE, end, got, rel=1e-9)
    got = eng("CRANKING_PRESSURE", ratio, 0, exponent, "metric")
    agree("CRANKING_PRESSURE", SOURCE, pressure / 1000 - 101.325, got, rel=0.02)


@pytest.mark.parametrize(("celsius", "percent"), [(20, 4), (100, 7), (150, 10)])
def test_how_much_too_hot_it_is_as_its_help_tells(celsius, percent):
    start = celsius + 273.15
    end, _ = compressed(14, start, 101325.0)
    assert 100 * (start * 14**0.4 / end - 1) == pytest.approx(percent, abs=0.5)
    validity = find("COMPRESSION_TEMPERATURE").validity
    assert f"{percent} percent" in validity or f"by {percent} from {celsius} deg C" in validity


@pytest.mark.parametrize("ratio", [7.0, 8.8, 10.0])
@pytest.mark.parametrize("boost", [0.3, 0.8])
def test_equal_pressure_by_real_air(agree, eng, ratio, boost):
    # Boosted air, cooled back to 300 K, compressed by the static ratio; the ratio without
    # boost that ends at the same pressure is found by halving.
    start = 101325.0
    _, wanted = compressed(ratio, 300.0, start + boost * 1e5)
    low, high = 1.0, 40.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (
            (middle, high) if compressed(middle, 300.0, start)[1] < wanted else (low, middle)
        )
    got = eng("BOOSTED_RATIO", ratio, f"{boost} bar")
    agree("BOOSTED_RATIO", SOURCE, low, got, rel=0.02)


@pytest.mark.parametrize("ratio", [8.0, 10.0])
@pytest.mark.parametrize("boost", [0.3, 0.8])
def test_straight_rule_is_the_charge_in_the_chamber(agree, eng, ratio, boost):
    # Density at the end of compression over the density of the air outside.
    outside = PropsSI("D", "T", 300.0, "P", 101325.0, "Air")
    inside = ratio * PropsSI("D", "T", 300.0, "P", 101325.0 + boost * 1e5, "Air")
    got = eng("BOOSTED_RATIO", ratio, f"{boost} bar", "straight")
    agree("BOOSTED_RATIO", SOURCE, inside / outside, got, rel=1e-3)


@pytest.mark.parametrize(("ratio", "boost"), [(8.0, 0.5), (9.5, 1.2)])
def test_equal_pressure_by_a_compression_followed_step_by_step(agree, eng, ratio, boost):
    # dp/dV = -1.4 p/V from the volume outside to the chamber, boosted and not.
    def pressed(start, times):
        end = solve_ivp(
            lambda volume, p: -1.4 * p / volume, (times, 1.0), [start], rtol=1e-11, atol=1e-11
        )
        return end.y[0, -1]

    wanted = pressed(1.01325 + boost, ratio)
    found = brentq(lambda times: pressed(1.01325, times) - wanted, 2, 40, xtol=1e-10)
    got = eng("BOOSTED_RATIO", ratio, f"{boost} bar")
    source = independent("ideal gas compressed step by step", solve_ivp, brentq)
    agree("BOOSTED_RATIO", source, found, got, rel=1e-7)

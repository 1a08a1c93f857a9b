"""National Weather Service: density altitude from temperature, station pressure, dew point.

The service's rounded constants lie 15 to 20 ft above the standard atmosphere, so the two
agree within 25 ft.
"""

import math

import pytest

SOURCE = "National Weather Service, density altitude sheet"


def saturation(fahrenheit):
    """The sheet's vapor pressure at a temperature, in hPa."""
    celsius = (fahrenheit - 32) / 1.8
    return 6.11 * 10 ** (7.5 * celsius / (237.7 + celsius))


@pytest.mark.parametrize(
    ("fahrenheit", "inches", "dew_point", "feet"),
    [
        (86, 28.50, 68, 3680.33),
        (95, 29.20, 70, 3430.72),
        (77, 24.90, 40, 7392.95),
        (32, 30.20, 20, -2092.90),
    ],
)
def test_four_kinds_of_weather(agree, eng, fahrenheit, inches, dew_point, feet):
    humidity = saturation(dew_point) / saturation(fahrenheit)
    got = eng("DENSITY_ALTITUDE", inches, fahrenheit, humidity)
    agree("DENSITY_ALTITUDE", SOURCE, feet, got, abs=25)
    vapor = saturation(dew_point) / 33.86388640341
    agree("VAPOR_PRESSURE", SOURCE, vapor, eng("VAPOR_PRESSURE", fahrenheit, humidity), rel=5e-3)


def test_dry_standard_day(agree, eng):
    agree("DENSITY_ALTITUDE", SOURCE, 18.07, eng("DENSITY_ALTITUDE", 29.92126, 59, 0), abs=25)


@pytest.mark.parametrize("fahrenheit", [32, 59, 86, 104])
def test_the_sheet_s_own_equation_for_the_virtual_temperature(agree, eng, fahrenheit):
    # Density from the virtual temperature, an equation of other shape than the catalog's.
    humidity, inches = 0.6, 29.00
    celsius = (fahrenheit - 32) / 1.8
    pascal = inches * 3386.388640341
    vapor = humidity * saturation(fahrenheit) * 100
    virtual = (celsius + 273.15) / (1 - vapor / pascal * (1 - 0.622))
    density = pascal / (287.05287 * virtual) * 0.3048**3 / 0.45359237
    got = eng("AIR_DENSITY", inches, fahrenheit, humidity)
    assert math.isfinite(got)
    agree("AIR_DENSITY", SOURCE + ", virtual temperature", density, got, rel=1e-4)

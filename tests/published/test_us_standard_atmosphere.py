"""U.S. Standard Atmosphere, 1976, as the fluids library and the published table give it."""

import pytest
from fluids.atmosphere import ATMOSPHERE_1976
from sources import independent, printed

SOURCE = independent("U.S. Standard Atmosphere, 1976, by the fluids library", ATMOSPHERE_1976)
EARTH = 6356766.0


@pytest.mark.parametrize("meters", [0, 500, 1000, 1500, 2000, 3000, 5000])
def test_the_standard_day_at_an_altitude(agree, eng, meters):
    air = ATMOSPHERE_1976(meters)
    state = (air.P / 1000, air.T - 273.15, 0, "metric")
    agree("AIR_DENSITY", SOURCE, air.rho, eng("AIR_DENSITY", *state), rel=1e-5)
    geopotential = EARTH * meters / (EARTH + meters)
    agree("DENSITY_ALTITUDE", SOURCE, geopotential, eng("DENSITY_ALTITUDE", *state), abs=0.2)


def test_sea_level_of_the_table(agree, eng):
    source = printed("U.S. Standard Atmosphere, 1976", "Table 1, sea level")
    agree("AIR_DENSITY", source, 1.2250, eng("AIR_DENSITY", 101.325, 15, 0, "metric"), rel=5e-6)
    agree(
        "DENSITY_ALTITUDE", source, 0, eng("DENSITY_ALTITUDE", 101.325, 15, 0, "metric"), abs=1e-6
    )


def test_mile_high_in_inches_and_feet(agree, eng):
    # 5280 ft: 24.6374 inHg, density ratio 0.854417.
    kelvin = ATMOSPHERE_1976(5280 * 0.3048).T
    fahrenheit = kelvin * 1.8 - 459.67
    got = eng("AIR_DENSITY", 24.6374, fahrenheit, 0)
    sea = 1.225 * 0.3048**3 / 0.45359237
    agree("AIR_DENSITY", SOURCE, 0.854417 * sea, got, rel=1e-5)
    assert eng("DENSITY_ALTITUDE", 24.6374, fahrenheit, 0) == pytest.approx(5280, abs=2)

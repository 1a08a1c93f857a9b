"""ISO 2533:1975 Standard Atmosphere, the same as the U.S. Standard Atmosphere, 1976 here."""

import pytest
from fluids.atmosphere import ATMOSPHERE_1976
from sources import independent

LIBRARY = independent("U.S. Standard Atmosphere, 1976, by the fluids library", ATMOSPHERE_1976)
EARTH = 6356766.0


@pytest.mark.parametrize("feet", [-1000, 0, 1000, 5280, 10000, 30000])
def test_pressure_by_the_fluids_library(agree, eng, feet):
    # The library takes geometric altitude.
    meters = feet * 0.3048
    geometric = EARTH * meters / (EARTH - meters)
    got = eng("STANDARD_PRESSURE", feet) * 3386.389
    agree("STANDARD_PRESSURE", LIBRARY, ATMOSPHERE_1976(geometric).P, got, rel=2e-6)


@pytest.mark.parametrize("feet", [0, 5000])
def test_cranking_pressure_falls_with_the_air(agree, eng, feet):
    thin = eng("CRANKING_PRESSURE", 8, feet) / eng("CRANKING_PRESSURE", 8)
    meters = feet * 0.3048
    expected = ATMOSPHERE_1976(EARTH * meters / (EARTH - meters)).P / 101325
    agree("CRANKING_PRESSURE", LIBRARY, expected, thin, rel=2e-6)

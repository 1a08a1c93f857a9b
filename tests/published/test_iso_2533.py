"""ISO 2533:1975 Standard Atmosphere, the same as the U.S. Standard Atmosphere, 1976 here."""

import pytest
from fluids.atmosphere import ATMOSPHERE_1976

SOURCE = "ISO 2533:1975 / U.S. Standard Atmosphere, 1976"
EARTH = 6356766.0


@pytest.mark.parametrize(
    ("altitude", "pascal"),
    [(0, 101325.0), (500, 95460.835), (1000, 89874.563), (1500, 84555.994), (2000, 79495.202),
     (3000, 70108.526), (5000, 54019.888)],
)  # fmt: skip
def test_pressure_at_geopotential_altitudes(agree, eng, altitude, pascal):
    got = eng("STANDARD_PRESSURE", altitude, "metric")
    agree("STANDARD_PRESSURE", SOURCE, pascal / 1000, got, rel=2e-6)


@pytest.mark.parametrize("feet", [-1000, 0, 1000, 5280, 10000, 30000])
def test_pressure_by_the_fluids_library(agree, eng, feet):
    # The library takes geometric altitude.
    meters = feet * 0.3048
    geometric = EARTH * meters / (EARTH - meters)
    got = eng("STANDARD_PRESSURE", feet) * 3386.389
    agree("STANDARD_PRESSURE", f"{SOURCE}, fluids", ATMOSPHERE_1976(geometric).P, got, rel=2e-6)


@pytest.mark.parametrize("feet", [0, 5000])
def test_cranking_pressure_falls_with_the_air(agree, eng, feet):
    thin = eng("CRANKING_PRESSURE", 8, feet) / eng("CRANKING_PRESSURE", 8)
    meters = feet * 0.3048
    expected = ATMOSPHERE_1976(EARTH * meters / (EARTH - meters)).P / 101325
    agree("CRANKING_PRESSURE", f"{SOURCE}, fluids", expected, thin, rel=2e-6)

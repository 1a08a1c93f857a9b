"""SAE J1349 (June 1990) and ISO 1585, spark ignition without boost, off the reference air.

Neither standard was seen: the first is known as others quote it, of the second the exponents
are from memory. The factors were worked from these with the vapor pressure of IAPWS-95.
"""

import pytest
from sources import from_memory

J1349 = from_memory("SAE J1349 (June 1990)", "formula as others quote it")
FRICTION = from_memory("SAE J1349", "mechanical efficiency of 85 % at the reference air")
ISO = from_memory("ISO 1585", "exponents 1.2 and 0.6")


@pytest.mark.parametrize(
    ("kilopascal", "celsius", "humidity", "factor", "exact"),
    [
        (101.325, 15, 0.0, 0.953414, 0.953554),
        (98.0, 30, 0.5, 1.048622, 1.048476),
        (95.0, 35, 0.4, 1.100495, 1.100195),
    ],
)
def test_sae_j1349(agree, eng, kilopascal, celsius, humidity, factor, exact):
    got = eng("WEATHER_CORRECTION", "SAE J1349", kilopascal, celsius, humidity, "metric")
    agree("WEATHER_CORRECTION", J1349, factor, got, rel=3e-5)
    # The constants are those of friction that takes 15 % in any weather, rounded.
    agree("WEATHER_CORRECTION", FRICTION, exact, got, abs=4e-4)


@pytest.mark.parametrize(
    ("kilopascal", "celsius", "humidity", "factor"),
    [(101.325, 15, 0.0, 0.952814), (98.0, 30, 0.5, 1.049647)],
)
def test_iso_1585(agree, eng, kilopascal, celsius, humidity, factor):
    got = eng("WEATHER_CORRECTION", "ISO 1585", kilopascal, celsius, humidity, "metric")
    agree("WEATHER_CORRECTION", ISO, factor, got, rel=3e-5)

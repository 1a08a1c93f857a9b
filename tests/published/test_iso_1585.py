"""ISO 1585, spark ignition without boost. Exponents and limits from memory."""

import pytest

SOURCE = "ISO 1585 (exponents from memory)"


def test_reference_air_needs_no_correction(agree, eng):
    # 990 mbar of dry air and 25 deg C: Bosch, Automotive Handbook, 4th edition, as quoted.
    got = eng("WEATHER_CORRECTION", "ISO 1585", 99, 25, 0, "metric")
    agree("WEATHER_CORRECTION", "ISO 1585 reference air (Bosch handbook, as quoted)", 1.0, got)


@pytest.mark.parametrize(
    ("kilopascal", "celsius", "humidity", "factor"),
    [(101.325, 15, 0.0, 0.952814), (98.0, 30, 0.5, 1.049647)],
)
def test_worked_weather(agree, eng, kilopascal, celsius, humidity, factor):
    # Vapor pressure of the expected values by IAPWS-95.
    got = eng("WEATHER_CORRECTION", "ISO 1585", kilopascal, celsius, humidity, "metric")
    agree("WEATHER_CORRECTION", SOURCE, factor, got, rel=3e-5)

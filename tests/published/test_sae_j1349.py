"""SAE J1349 (June 1990), spark ignition without boost, as quoted by others."""

import pytest

SOURCE = "SAE J1349 (June 1990), as quoted by others"


def test_reference_air_needs_no_correction(agree, eng):
    # 990 mbar of dry air and 25 deg C: Bosch, Automotive Handbook, 4th edition, as quoted.
    got = eng("WEATHER_CORRECTION", "SAE J1349", 99, 25, 0, "metric")
    agree("WEATHER_CORRECTION", "SAE J1349 reference air (Bosch handbook, as quoted)", 1.0, got)


@pytest.mark.parametrize(
    ("kilopascal", "celsius", "humidity", "factor", "exact"),
    [
        (101.325, 15, 0.0, 0.953414, 0.953554),
        (98.0, 30, 0.5, 1.048622, 1.048476),
        (95.0, 35, 0.4, 1.100495, 1.100195),
    ],
)
def test_worked_weather(agree, eng, kilopascal, celsius, humidity, factor, exact):
    # Vapor pressure of the expected values by IAPWS-95.
    got = eng("WEATHER_CORRECTION", "SAE J1349", kilopascal, celsius, humidity, "metric")
    agree("WEATHER_CORRECTION", SOURCE, factor, got, rel=3e-5)
    # The constants are those of a mechanical efficiency of 85 %, rounded.
    agree("WEATHER_CORRECTION", SOURCE + ", 85 % mechanical efficiency", exact, got, abs=6e-4)

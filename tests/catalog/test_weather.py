"""Weather: units that are easily mistaken, and the range of each standard."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_the_barometer_is_in_inches_of_mercury_or_kilopascal(eng):
    inch = eng("AIR_DENSITY", 29.92126, 59, 0)
    assert eng("AIR_DENSITY", "1013.25 hPa", "15 °C", 0) == pytest.approx(inch, rel=1e-6)
    assert eng("AIR_DENSITY", 101.325, 15, 0, "metric") == pytest.approx(1.225, rel=1e-5)


@pytest.mark.parametrize(
    ("barometer", "system"),
    [(29.92, "metric"), (1013.25, "metric"), (101.325, "inch"), (14.7, "inch")],
)
def test_a_barometer_in_another_unit_is_refused(eng, barometer, system):
    with pytest.raises(ArgumentError, match="barometer: expected a barometric pressure"):
        eng("DENSITY_ALTITUDE", barometer, 20, 0.5, system)


@pytest.mark.parametrize(
    ("degrees", "system"), [(-40, "inch"), (140, "inch"), (-40, "metric"), (60, "metric")]
)
def test_the_coldest_and_the_hottest_air_belong_to_the_range(eng, degrees, system):
    assert eng("VAPOR_PRESSURE", degrees, 0.5, system) > 0
    beyond = degrees + (1 if degrees > 0 else -1)
    with pytest.raises(ArgumentError, match="temperature: expected a temperature from -40"):
        eng("VAPOR_PRESSURE", beyond, 0.5, system)


def test_humidity_in_percent_is_refused(eng):
    with pytest.raises(ArgumentError, match="relative_humidity: expected a factor from 0 to 1"):
        eng("VAPOR_PRESSURE", 77, 50)


def test_moist_air_is_thinner(eng):
    assert eng("AIR_DENSITY", 29.92, 86, 0.9) < eng("AIR_DENSITY", 29.92, 86, 0.1)
    assert eng("DENSITY_ALTITUDE", 29.92, 86, 0.9) > eng("DENSITY_ALTITUDE", 29.92, 86, 0.1)


@pytest.mark.parametrize("standard", ["SAE J1349", "ISO 1585"])
@pytest.mark.parametrize("celsius", [14.9, 35.1])
def test_air_too_cold_or_too_warm_for_a_standard_is_refused(eng, standard, celsius):
    with pytest.raises(ArgumentError, match=r"temperature: expected 15 to 35 deg C"):
        eng("WEATHER_CORRECTION", standard, 99, celsius, 0, "metric")


@pytest.mark.parametrize("standard", ["SAE J1349", "ISO 1585"])
@pytest.mark.parametrize("celsius", [15, 35])
def test_the_ends_of_the_range_belong_to_it(eng, standard, celsius):
    assert 0.9 < eng("WEATHER_CORRECTION", standard, 99, celsius, 0, "metric") < 1.1


@pytest.mark.parametrize(("within", "beyond"), [(90, 89.9), (105, 105.1)])
def test_dry_pressures_at_the_ends_of_the_range(eng, within, beyond):
    assert 0.9 < eng("WEATHER_CORRECTION", "SAE J1349", within, 25, 0, "metric") < 1.2
    with pytest.raises(ArgumentError, match="barometer: expected a pressure that, less the vapor"):
        eng("WEATHER_CORRECTION", "SAE J1349", beyond, 25, 0, "metric")


def test_thin_air_is_refused(eng):
    # 84 kPa at 20 deg C: below the range of one standard, too large a factor for the other.
    with pytest.raises(ArgumentError, match="barometer: expected a pressure that, less the vapor"):
        eng("WEATHER_CORRECTION", "SAE J1349", 84, 20, 0.2, "metric")
    with pytest.raises(ArgumentError, match=r"barometer: expected air that gives a factor of 0.93"):
        eng("WEATHER_CORRECTION", "ISO 1585", 84, 20, 0.2, "metric")


def test_another_standard_is_refused_with_the_choice(eng):
    with pytest.raises(ArgumentError, match='standard: expected one of "sae j1349", "iso 1585"'):
        eng("WEATHER_CORRECTION", "STP", 29.92, 60, 0)

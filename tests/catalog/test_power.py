"""Power, fuel, and the spread between cylinders: refusals, missing readings, inverse calls."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_torque_and_power_are_inverse(eng):
    assert eng("TORQUE", eng("POWER", 412, 5250), 5250) == pytest.approx(412)


def test_metric_horsepower_is_another_unit(eng):
    assert eng("TORQUE", "100 ps", 3000, "metric") < eng("TORQUE", "100 hp", 3000, "metric")


def test_two_strokes_have_half_the_mean_pressure(eng):
    assert eng("BMEP", 40, 250, 2, "metric") == pytest.approx(eng("BMEP", 40, 250, 4, "metric") / 2)
    with pytest.raises(ArgumentError, match="strokes: expected 4 or 2, got 3"):
        eng("BMEP", 40, 250, 3, "metric")


def test_consumption_with_its_own_unit(eng):
    inch = eng("FUEL_FLOW", 400, 0.45)
    assert inch == pytest.approx(180)
    assert eng("FUEL_FLOW", 400, "273.724825 g/kWh") == pytest.approx(inch)


@pytest.mark.parametrize(
    ("consumption", "system"), [(300, "inch"), (0.45, "metric"), (0.27, "metric")]
)
def test_a_consumption_of_the_other_system_is_refused(eng, consumption, system):
    with pytest.raises(ArgumentError, match="fuel_consumption: expected a specific fuel consump"):
        eng("FUEL_FLOW", 400, consumption, system)


@pytest.mark.parametrize(
    ("consumption", "system"), [(5.0, "inch"), (50, "metric"), (10000, "metric")]
)
def test_nitromethane_and_hydrogen_are_fuels_too(eng, consumption, system):
    assert eng("FUEL_FLOW", 400, consumption, system) == pytest.approx(
        400 * consumption / (1 if system == "inch" else 1000)
    )


def test_a_duty_typed_in_percent_is_refused(eng):
    with pytest.raises(ArgumentError, match="duty: expected a factor above 0 and 1 at most"):
        eng("INJECTOR_FLOW", 180, 8, 80)


def test_a_cylinder_not_measured_is_an_error_that_says_so(eng):
    for name in ("LEAKAGE_SPREAD", "PRESSURE_SPREAD"):
        with pytest.raises(ArgumentError, match="row 1, column 3 of the range is empty") as error:
            eng(name, ((4.0, 5.0, None, 4.5),), 4)
        assert error.value.missing


def test_one_reading_too_many_is_an_error(eng):
    with pytest.raises(ArgumentError, match="readings: expected 4 readings, got 5 readings"):
        eng("LEAKAGE_SPREAD", ((4, 5, 3, 4, 4),), 4)


def test_a_leakage_above_a_hundred_is_refused_with_its_place(eng):
    with pytest.raises(ArgumentError, match="got 105 in row 2, column 1"):
        eng("LEAKAGE_SPREAD", ((4,), (105,)), 2)


def test_a_dead_cylinder_cannot_hide_as_zero(eng):
    with pytest.raises(ArgumentError, match="readings: expected a pressure above 0, got 0"):
        eng("PRESSURE_SPREAD", ((180, 0),), 2)


def test_pressures_of_two_units_side_by_side(eng):
    assert eng("PRESSURE_SPREAD", (("12.5 bar", "1000 kPa"),), 2) == pytest.approx(0.2)

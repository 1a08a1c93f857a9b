"""Fuels, injectors and pumps: inverse calls, units, and what is refused."""

import pytest

from workbook_tools.catalog import ArgumentError, find


@pytest.mark.parametrize("name", ["FUEL_DENSITY", "STOICHIOMETRIC_RATIO", "FUEL_HEATING_VALUE"])
def test_a_blend_lies_between_its_fuels(eng, name):
    pure = eng(name, "gasoline"), eng(name, "methanol")
    blend = eng(name, "gasoline", "methanol", 0.4)
    assert min(pure) < blend < max(pure)
    assert eng(name, "gasoline", "methanol", 1) == pytest.approx(pure[1])
    assert eng(name, "methanol", "gasoline", 0.6) == pytest.approx(blend)


def test_a_share_in_percent_and_an_unknown_fuel_are_refused(eng):
    with pytest.raises(ArgumentError, match="second_share: expected a factor from 0 to 1"):
        eng("STOICHIOMETRIC_RATIO", "gasoline", "ethanol", 85)
    with pytest.raises(ArgumentError, match='fuel: expected one of "gasoline", "diesel"'):
        eng("STOICHIOMETRIC_RATIO", "kerosene")


def test_heat_in_both_systems(eng):
    assert eng("FUEL_HEATING_VALUE", "propane", "ethanol", 0, "metric") == pytest.approx(46.33)
    assert eng("FUEL_HEATING_VALUE", "propane") == pytest.approx(46.33 / 0.002326)


def test_size_and_duty_are_inverse(eng):
    size = eng("INJECTOR_SIZE", 210, 8, 0.8, 46.5)
    assert eng("INJECTOR_DUTY", 210, 8, size, 46.5) == pytest.approx(0.8)
    # By mass it is the flow that INJECTOR_FLOW gives.
    by_mass = eng("INJECTOR_FLOW", 210, 8, 0.8)
    assert eng("INJECTOR_SIZE", f"{by_mass} lb/h", 1, 1, 46.5) == pytest.approx(size)


def test_injectors_too_small_are_told_by_a_duty_above_one(eng):
    assert eng("INJECTOR_DUTY", 400, 8, 320, 46.5) > 1
    assert "Above 1" in find("INJECTOR_DUTY").result_help


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (("INJECTOR_FLOW_AT", "42 lb/h", 43.5, 58), "injector_size: expected a liquid flow"),
        (("INJECTOR_FLOW_AT", 440, 0, 58), "rated_pressure: expected a pressure from 1.4503"),
        (("INJECTOR_DUTY", 400, 8, 2, 46.5), "injector_size: expected injectors that bring"),
        (("INJECTOR_SIZE", 200, 8, 80, 46.5), "duty: expected a factor above 0 and 1 at most"),
        (("PUMP_FLOW", 200, 46.5, 0.8), "margin: expected a factor from 1 to 3"),
        (("LAMBDA_FROM_RATIO", 0, 14.7), "air_fuel_ratio: expected a ratio from 0.3 to"),
    ],
)
def test_refusals(eng, call, words):
    with pytest.raises(ArgumentError, match=words):
        eng(*call)

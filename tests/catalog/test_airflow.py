"""Air through an engine: refusals and defaults."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_percent_typed_for_a_share_is_refused(eng):
    with pytest.raises(ArgumentError, match="volumetric_efficiency: expected a factor above 0 and"):
        eng("AIRFLOW", 350, 6000, 95)


def test_a_cycle_of_three_strokes_is_refused(eng):
    with pytest.raises(ArgumentError, match="strokes: expected 4 or 2, got 3"):
        eng("AIRFLOW", 350, 6000, 0.95, 3)
    with pytest.raises(ArgumentError, match="strokes: expected 4 or 2, got 3"):
        eng("VOLUMETRIC_EFFICIENCY", 500, 350, 6000, 3)


def test_airflow_and_efficiency_are_inverse(eng):
    flow = eng("AIRFLOW", "5.7 l", 6500, 1.05)
    assert eng("VOLUMETRIC_EFFICIENCY", flow, "5.7 l", 6500) == pytest.approx(1.05)


def test_a_valve_as_wide_as_the_bore_is_refused(eng):
    with pytest.raises(ArgumentError, match="valve_diameter: expected intake valves that together"):
        eng("INLET_MACH_INDEX", 4.0, 3.5, 6000, 4.0, 1, 0.35)


def test_valves_that_do_not_fit_beside_each_other_are_refused(eng):
    assert eng("INLET_MACH_INDEX", 4.0, 3.5, 6000, 2.8, 1, 0.35) > 0
    with pytest.raises(ArgumentError, match="valve_diameter: expected intake valves that together"):
        eng("INLET_MACH_INDEX", 4.0, 3.5, 6000, 2.9, 2, 0.35)


def test_a_boosted_engine_fills_several_times_its_displacement(eng):
    # Air of 4.5 bar in the manifold, referred to the outside air.
    flow = eng("AIRFLOW", 376, 6500, 4.2)
    assert eng("VOLUMETRIC_EFFICIENCY", flow, 376, 6500) == pytest.approx(4.2)


def test_a_flow_in_another_unit_is_refused(eng):
    with pytest.raises(ArgumentError, match="airflow: expected a flow of 10 times"):
        eng("VOLUMETRIC_EFFICIENCY", 18000, 376, 6500)


def test_two_valves_halve_the_index(eng):
    one = eng("INLET_MACH_INDEX", 86, 86, 6000, 33, 1, 0.35, 25, "metric")
    assert eng("INLET_MACH_INDEX", 86, 86, 6000, 33, 2, 0.35, 25, "metric") == pytest.approx(
        one / 2
    )


def test_inlet_air_of_25_deg_c_if_left_out(eng):
    assert eng("INLET_MACH_INDEX", 4, 3.5, 6000, 2, 1, 0.35) == pytest.approx(
        eng("INLET_MACH_INDEX", 4, 3.5, 6000, 2, 1, 0.35, "25 °C")
    )


def test_a_port_wider_than_the_cylinder_is_refused(eng):
    with pytest.raises(ArgumentError, match="port_area: expected less than the area of the bore"):
        eng("PORT_VELOCITY", 4.0, 3.5, 6000, 13.0)


def test_port_speed_is_in_feet_a_second(eng):
    # A port of a tenth of the bore's area: ten times 2 * 3 in * 100 turns a second.
    area = 3.141592653589793 / 4 * 16 / 10
    assert eng("PORT_VELOCITY", 4.0, 3.0, 6000, area) == pytest.approx(10 * 2 * 3 / 12 * 100)

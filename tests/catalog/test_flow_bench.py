"""Flow bench: units of the test pressure, areas that grow with lift, refusals."""

import pytest

from workbook_tools.catalog import ArgumentError

VALVE = (2.02, 0.06, 45, 1.8, 0.3415)


def test_the_bench_s_pressure_is_in_inches_of_water(eng):
    assert eng("FLOW_AT_PRESSURE", 150, 10, 28) == pytest.approx(150 * 2.8**0.5)
    assert eng("FLOW_AT_PRESSURE", 150, '10 "H2O', "28 inH2O") == pytest.approx(150 * 2.8**0.5)


def test_areas_grow_with_lift_to_that_of_the_port(eng):
    areas = [eng("VALVE_FLOW_AREA", *VALVE, lift / 50) for lift in range(40)]
    assert areas[0] == 0
    assert areas == sorted(areas)
    assert areas[-1] == pytest.approx(3.14159265 / 4 * (1.8**2 - 0.3415**2))
    for lift in (0.1, 0.3):
        assert eng("VALVE_FLOW_AREA", *VALVE, lift) < eng("CURTAIN_AREA", 2.02, lift)


@pytest.mark.parametrize(
    ("name", "arguments", "words"),
    [
        ("FLOW_AT_PRESSURE", (150, 10, 280), "other_pressure: expected a test pressure"),
        ("DISCHARGE_COEFFICIENT", (250, 0.2, 28, 0.0765), "flow: expected a flow that passes"),
        ("CURTAIN_AREA", (0.5, 0.6), "valve_lift: expected no more than the valve's diameter"),
        ("VALVE_FLOW_AREA", (2.02, 0.6, 45, 1.8, 0.34, 0.3), "seat_width: expected less than a"),
        ("VALVE_FLOW_AREA", (2.02, 0.06, 4, 1.8, 0.34, 0.3), "seat_angle: expected an angle"),
        ("VALVE_FLOW_AREA", (2.02, 0.06, 45, 2.2, 0.34, 0.3), "port_diameter: expected no more"),
    ],
)
def test_refusals(eng, name, arguments, words):
    with pytest.raises(ArgumentError, match=words):
        eng(name, *arguments)

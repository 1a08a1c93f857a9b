"""Air, pressure and fuel with pint's units: each quantity carried through from its definition."""

import math

import pint
import pytest

SOURCE = "definition, with the units of pint"


@pytest.fixture(scope="module")
def unit():
    return pint.UnitRegistry()


@pytest.mark.parametrize(("strokes", "turns"), [(4, 2), (2, 1)])
def test_air_of_a_cycle(agree, eng, unit, strokes, turns):
    # A cycle of so many turns draws its share of the displacement once.
    flow = 0.95 * 376 * unit.inch**3 * (6500 / turns / unit.minute)
    expected = flow.to("ft**3/min").magnitude
    agree("AIRFLOW", SOURCE, expected, eng("AIRFLOW", 376, 6500, 0.95, strokes))
    back = eng("VOLUMETRIC_EFFICIENCY", expected, 376, 6500, strokes)
    agree("VOLUMETRIC_EFFICIENCY", SOURCE, 0.95, back)
    # A single of 50 cc at 14 000 rpm.
    flow = 1.1 * 49.9 * unit.cm**3 * (14000 / turns / unit.minute)
    got = eng("AIRFLOW", 49.9, 14000, 1.1, strokes, "metric")
    agree("AIRFLOW", SOURCE, flow.to("m**3/min").magnitude, got)


@pytest.mark.parametrize(("strokes", "turns"), [(4, 2), (2, 1)])
def test_mean_pressure_does_the_work_of_a_cycle(agree, eng, unit, strokes, turns):
    work = 380 * unit.lbf * unit.foot * 2 * math.pi * turns
    expected = (work / (376 * unit.inch**3)).to("psi").magnitude
    agree("BMEP", SOURCE, expected, eng("BMEP", 380, 376, strokes))


def test_air_in_a_port_follows_the_piston(agree, eng, unit):
    # 4.11 by 3.54 in: the swept volume in half a turn at 6500 rpm through 2.1 sq in.
    swept = math.pi / 4 * (4.11 * unit.inch) ** 2 * 3.54 * unit.inch
    expected = (swept / (0.5 * unit.minute / 6500) / (2.1 * unit.inch**2)).to("ft/s").magnitude
    agree("PORT_VELOCITY", SOURCE, expected, eng("PORT_VELOCITY", 4.11, 3.54, 6500, 2.1))


def test_fuel_through_the_injectors(agree, eng, unit):
    used = 500 * unit.hp * 0.5 * unit.lb / (unit.hp * unit.hour)
    agree("FUEL_FLOW", SOURCE, used.to("lb/hour").magnitude, eng("FUEL_FLOW", 500, 0.5))
    # Eight open for 85 % of the time give what one open all the time gives 6.8 times.
    each = (used / 6.8).to("kg/hour").magnitude
    flow = used.to("kg/hour").magnitude
    agree("INJECTOR_FLOW", SOURCE, each, eng("INJECTOR_FLOW", flow, 8, 0.85, "metric"))

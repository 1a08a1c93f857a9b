"""Rates, shares and pressures whose risk is their units: worked by pint from the same sizes.

A library's units on both sides of a short equation; inch and metric books.
"""

import pint
import pytest
from sources import from_memory, independent

from workbook_tools.catalog import ArgumentError

U = pint.UnitRegistry()
PINT = independent("quantities with units", U.Quantity)
ESPOSITO = from_memory("Esposito, Fluid Power with Applications", "Ex. 5-2")


def q(value, unit):
    return U.Quantity(value, unit)


def test_what_an_oil_pump_delivers(agree, eng):
    # A pump of 1.1 cu in a turn at half of 6000 rpm, nine tenths of it.
    flow = q(1.1, "inch**3/turn") * q(3000, "turn/min") * 0.9
    got = eng("OIL_PUMP_DELIVERY", 1.1, 6000, 0.5, 0.9)
    agree("OIL_PUMP_DELIVERY", PINT, flow.to("cm**3/min").magnitude, got)
    flow = q(18, "cm**3/turn") * q(1200 * 1.5, "turn/min") * 0.8
    got = eng("OIL_PUMP_DELIVERY", 18, 1200, 1.5, 0.8, "metric")
    agree("OIL_PUMP_DELIVERY", PINT, flow.to("cm**3/min").magnitude, got)


def test_a_textbooks_gear_pump(agree, eng):
    # 3 in over the tips, 2 in across the roots, 1 in wide: 3.93 cu in; 30.6 gal/min at 1800 rpm.
    size = eng("GEAR_PUMP_DISPLACEMENT", 3, 2, 1)
    agree("GEAR_PUMP_DISPLACEMENT", ESPOSITO, 3.93, size, abs=0.005)
    flow = eng("OIL_PUMP_DELIVERY", size, 1800, 1, 1)
    agree("OIL_PUMP_DELIVERY", ESPOSITO, q(30.6, "gal/min").to("cm**3/min").m, flow, rel=2e-3)


def test_what_goes_back_and_what_the_bearings_take(agree, eng):
    delivery, flows = q(14, "gal/min"), (q(2.1, "gal/min"), q(150, "cm**3/s"), q(3.5, "l/min"))
    cells = tuple(flow.to("cm**3/min").magnitude for flow in flows)
    spare = delivery - sum(flows[1:], flows[0])
    share = sum(flows[1:], flows[0]) / delivery
    brought = delivery.to("cm**3/min").magnitude
    got = eng("RELIEF_FLOW", brought, (cells,))
    agree("RELIEF_FLOW", PINT, spare.to("cm**3/min").magnitude, got)
    agree("OIL_FLOW_SHARE", PINT, share.to("").magnitude, eng("OIL_FLOW_SHARE", (cells,), brought))
    assert eng("RELIEF_FLOW", 20000, (cells,)) < 0 < got
    for name, arguments in (
        ("RELIEF_FLOW", (brought, ((1, ""),))),
        ("OIL_FLOW_SHARE", (((1, ""),), 9)),
    ):
        with pytest.raises(ArgumentError, match="oil_flows: expected a reading in every cell"):
            eng(name, *arguments)


def test_fuel_pumps(agree, eng):
    # 245 lb/h of fuel of 46.5 lb/cu ft, with 30 % to spare, and on a pump of 255 l/h.
    flow = q(245, "lb/h") / q(46.5, "lb/ft**3")
    got = eng("PUMP_FLOW", 245, 46.5, 1.3)
    agree("PUMP_FLOW", PINT, (1.3 * flow).to("gal/h").magnitude, got)
    got = eng("PUMP_DUTY", 245, 46.5, "255 l/h")
    agree("PUMP_DUTY", PINT, (flow / q(255, "l/h")).to("").magnitude, got)
    flow = q(90, "kg/h") / q(745, "kg/m**3")
    agree("PUMP_FLOW", PINT, flow.to("l/h").magnitude, eng("PUMP_FLOW", 90, 745, 1, "metric"))


def test_oil_in_fuel(agree, eng):
    oil = q(5, "gal") / 40
    agree("PREMIX_OIL", PINT, oil.to("cm**3").magnitude, eng("PREMIX_OIL", 5, 40))
    agree("PREMIX_OIL", PINT, q(1, "l").to("cm**3").m / 32, eng("PREMIX_OIL", 1, 32, "metric"))


@pytest.mark.parametrize(("boost", "room"), [(10, 29.92), (6.5, 24.4), (30, 30.1)])
def test_a_boost_gauge_in_a_room(agree, eng, boost, room):
    outside = q(room, "inch_Hg_32F")
    ratio = (q(boost, "psi") + outside) / outside
    agree("PRESSURE_RATIO", PINT, ratio.to("").magnitude, eng("PRESSURE_RATIO", boost, room))

"""Numbers that no engine can have are refused, with what was likely meant; real ones are taken.

Which sizes real engines have, and which slips are made, is common practice, no source, unless
a case names one.
"""

import pytest
from each_case import each

from workbook_tools.books.bench import try_formula
from workbook_tools.catalog import ArgumentError, entries, find
from workbook_tools.quantities import SYSTEMS, from_si

REFUSED = [
    # another unit
    ("QUENCH(0.002, 38)", "gasket_thickness", "perhaps 38 thou was meant"),
    ("QUENCH(-14, 0.038)", "deck_clearance", "perhaps -14 thou was meant"),
    ("DISPLACEMENT(102.36, 88.4, 8)", "bore", "perhaps 102.36 mm was meant"),
    ('DISPLACEMENT(4.11, 3.54, 8, "metric")', "bore", "perhaps 41.1 mm or 4.11 in was meant"),
    ("COIL_BIND_MARGIN(1.8, 1.1, 6.0)", "valve_lift", "perhaps 0.6 in or 6 mm was meant"),
    ("PERMISSIBLE_UNBALANCE(55, 6000, 16)", "mass", "perhaps 55 kg or 55 lb was meant"),
    ('RING_GAP("4.03 m", 0.0045)', "bore", "perhaps 4.03 in was meant"),
    ('RING_GAP("4.03 mil", 0.0045)', "bore", "perhaps 4.03 in was meant"),
    ("BEARING_CLEARANCE(64.02, 2.005, 59.955)", "housing_bore", "or 64.02 mm was meant"),
    # a slipped or missing decimal point
    ("RING_GAP(4030, 0.0045)", "bore", "perhaps 4030 thou was meant"),
    ("RING_GAP(40.30, 0.0045)", "bore", "perhaps 4.03 in or 40.3 mm was meant"),
    ("MEAN_PISTON_SPEED(3.48, 6.5)", "engine_speed", "perhaps 6500 rpm was meant"),
    ('MEAN_PISTON_SPEED(3.48, "6.500")', "engine_speed", "write 6500 without it"),
    ('MEAN_PISTON_SPEED(3.48, "6,500")', "engine_speed", "the comma may group thousands"),
    ('RING_GAP("4.03O", 0.0045)', "bore", "perhaps 4.030"),
    ("MEAN_READING({4.031,40.31}, 2)", "readings", "a decimal point or a unit may be off"),
    # one thing for another
    ('RING_GAP("+.030", 0.0045)', "bore", "an oversize? type the whole size"),
    ("RING_GAP(4.03, 0.018)", "factor", "a gap such as 0.018 in is no factor"),
    ("PRELOAD_FROM_TORQUE(900, 0.4375, 0.15)", "torque", 'as in "900 lbf.in"'),
    ("TORQUE_FOR_PRELOAD(164571, 0.4375, 0.15)", "preload", "300 ksi (2070 MPa)"),
    ("CAM_DURATION(12, 44)", "closing_reading", "are 348 and 224 on the wheel"),
    ('LOBE_CENTERLINE("intake", 12, 44)', "opening_reading", "are 348 and 224 on the wheel"),
    ('LOBE_CENTERLINE("exhaust", 320, 352)', "opening_reading", "60 to 160 degrees"),
    ("PISTON_TO_VALVE(0.4, 0.06, 190, 3.48, 6)", "crank_angle", "counted from there"),
    # each number possible alone, and not together
    ("COMPRESSION_RATIO(727, 64, 8.6, -72, 5)", "ENG.COMPRESSION_RATIO", "got 130.821"),
    ("BMEP(400, 5.7)", "ENG.BMEP", "check the unit and the decimal point of each, got 10582.2 psi"),
    ("DECK_CLEARANCE(9.0, 3.48, 5.7, 15.6)", "ENG.DECK_CLEARANCE", "got -14.04 in"),
]


@each(("call", "parameter", "cure"), REFUSED)
def test_a_slip_is_refused_with_its_likely_cure(call, parameter, cure):
    with pytest.raises(ArgumentError) as raised:
        try_formula(f"ENG.{call}")
    assert raised.value.parameter == parameter
    assert cure in str(raised.value)


ACCEPTED = [
    ('DISPLACEMENT(102.36, 88.4, 8, "metric")', 5819.7),
    ("BMEP(400, 350)", 172.35),
    ("RING_GAP(4.03, 0.012)", 0.04836),
    ('RING_GAP("4-1/32 in", 0.0045)', 0.018141),
    ("CAM_DURATION(348, 224)", 236.0),
    ('LOBE_CENTERLINE("intake", 348, 224)', 106.0),
    # Close to full lift, where the middle of an uneven lobe is found, readings are near each other.
    ('LOBE_CENTERLINE("intake", 90, 122)', 106.0),
    ('PRELOAD_FROM_TORQUE("900 lbf.in", 0.4375, 0.15)', 13714.3),
    ('PERMISSIBLE_UNBALANCE("55 lb", 6000, 16)', 0.88224),
    ('PERMISSIBLE_UNBALANCE("55#", "6000 min-1", 16)', 0.88224),
    # A motorcycle and a kart turn so fast.
    ('MEAN_PISTON_SPEED(42.5, 16500, "metric")', 23.375),
    ('MEAN_PISTON_SPEED(54, 18000, "metric")', 32.4),
    # A long head bolt, a late intake closing, a tight new main, a ring worn in a large bore.
    ('PRELOAD_FROM_STRETCH(0.72, {220}, {14.7}, "alloy steel", "metric")', 115000),
    ("DYNAMIC_RATIO(10, 3.48, 6, 110)", 4.7),
    ('BEARING_CLEARANCE(64.00, 2.000, 59.99, 2.000, "metric")', 0.010),
    # A sweep of small lifts, deck readings far apart, and a bad cylinder among good ones.
    ("PISTON_TO_VALVE(0.4, 0.060, -20, 3.48, 6)", 0.473),
    ("PISTON_TO_VALVE(0.4, 0.005, 350, 3.48, 6)", 0.429),
    ("SPRING_LOAD(120, 350, 0.050)", 137.5),
    ("MEAN_READING({0.001,0.010}, 2)", 0.0055),
    ("MEAN_READING({3,3,24}, 3)", 10.0),
]


@each(("call", "about"), ACCEPTED)
def test_a_real_size_is_taken(call, about):
    assert try_formula(f"ENG.{call}").value == pytest.approx(about, rel=0.05)


def test_what_is_refused_lies_beyond_what_the_table_of_measurands_calls_possible():
    gasket = next(p for p in find("QUENCH").parameters if p.name == "gasket_thickness")
    assert gasket.is_possible(0.0001)
    assert gasket.is_possible(0.008)
    assert not gasket.is_possible(0.965)


@pytest.mark.parametrize("system", SYSTEMS)
def test_a_limit_can_be_typed_as_it_is_told(system):
    for function in entries():
        for parameter in function.parameters:
            for size in (parameter.sizes.low, parameter.sizes.high):
                if abs(size) == float("inf") or not parameter.kind.si:
                    continue
                told = parameter.sizes.roughly(parameter.kind, system)
                shown = [word for word in told.split() if word.lstrip("-")[0].isdigit()]
                bare = from_si(size, parameter.kind, system)
                # In two digits, so that it is told within a part in ten of what it is.
                assert any(
                    float(word) == pytest.approx(bare, rel=0.1, abs=1e-9) for word in shown
                ), (function.name, parameter.name, told)

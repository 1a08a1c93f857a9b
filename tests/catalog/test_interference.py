"""Interference fits: what they refuse, solid parts, both unit systems, and how they chain."""

import pytest

from workbook_tools.catalog import ArgumentError

SEAT = (0.10, 36, 60, 29, "aluminum A356", "gray iron")


@pytest.mark.parametrize(
    ("name", "arguments", "parameter"),
    [
        ("FIT_PRESSURE", (1, *SEAT[1:]), "interference"),
        ("FIT_PRESSURE", (0.1, 36, 36, *SEAT[3:]), "hub_outside"),
        ("FIT_PRESSURE", (0.1, 36, 60, 36, *SEAT[4:]), "shaft_inside"),
        ("FIT_PRESSURE", (-0.1, *SEAT[1:]), "interference"),
        ("HUB_STRESS", (37, 36, 30), "hub_outside"),
        ("SHAFT_STRESS", (37, 36, 36.5), "shaft_inside"),
        ("HOT_INTERFERENCE", (4, 36, 150, 200, "aluminum", "gray iron"), "interference"),
        ("HUB_RISE_TO_ASSEMBLE", (0.1, 1, 36, "aluminum", "gray iron", 0), "clearance"),
        ("SHAFT_RISE_TO_ASSEMBLE", (1, 0.1, 36, "aluminum", "gray iron", 0), "interference"),
        ("SHAFT_RISE_TO_ASSEMBLE", (0.1, 0.1, 36, "cheese", "gray iron", 0), "shaft_material"),
    ],
)
def test_what_is_refused(eng, name, arguments, parameter):
    with pytest.raises(ArgumentError) as refused:
        eng(name, *arguments, "metric")
    assert refused.value.parameter == parameter


def test_inch_and_metric_are_the_same_fit(eng):
    metric = eng("FIT_PRESSURE", *SEAT, "metric")
    inch = eng("FIT_PRESSURE", *(size / 25.4 for size in SEAT[:4]), *SEAT[4:])
    assert inch == pytest.approx(metric * 145.0377, rel=1e-6)
    assert eng("FIT_PRESSURE", "0.10 mm", *(f"{x} mm" for x in SEAT[1:4]), *SEAT[4:]) == (
        pytest.approx(inch)
    )


def test_a_solid_part_has_one_stress_all_through(eng):
    assert eng("SHAFT_STRESS", 40, 30, 0, "metric") == pytest.approx(-40)
    assert eng("SHAFT_STRESS", 40, 30, 0.001, "metric") == pytest.approx(-80)


def test_a_seat_in_aluminum_loses_a_third_of_its_pressure_hot(eng):
    left = eng("HOT_INTERFERENCE", 0.10, 36, 150, 200, *SEAT[4:], "metric")
    assert 0.06 < left < 0.07
    cold, hot = (eng("FIT_PRESSURE", i, *SEAT[1:], "metric") for i in (0.10, left))
    assert hot / cold == pytest.approx(left / 0.10)


def test_at_the_rise_to_assemble_the_wanted_clearance_is_there(eng):
    materials = ("aluminum A356", "ductile iron")
    hub = eng("HUB_RISE_TO_ASSEMBLE", 0.10, 0.04, 36, *materials, -80, "metric")
    assert eng("HOT_INTERFERENCE", 0.10, 36, hub, -80, *materials, "metric") == pytest.approx(-0.04)
    shaft = eng("SHAFT_RISE_TO_ASSEMBLE", 0.10, 0.04, 36, *materials[::-1], hub, "metric")
    assert shaft == pytest.approx(-80)


def test_the_warm_hub_of_an_inch_book_is_told_in_fahrenheit(eng):
    metric = eng("HUB_RISE_TO_ASSEMBLE", 0.10, 0.04, 36, "aluminum", "gray iron", 0, "metric")
    inch = eng("HUB_RISE_TO_ASSEMBLE", "0.1 mm", "0.04 mm", "36 mm", "aluminum")
    assert inch == pytest.approx(1.8 * metric)

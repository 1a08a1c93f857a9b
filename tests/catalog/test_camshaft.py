"""Cam timing: the way round the wheel, and degrees of crank and cam kept apart."""

import pytest
from each_case import each

from workbook_tools import quantities
from workbook_tools.catalog import ArgumentError, calculate, find


@pytest.mark.parametrize("opening", [348, -12, 708, -372])
@pytest.mark.parametrize("closing", [224, 584, -136])
def test_every_way_of_counting_gives_the_same_cam(eng, opening, closing):
    assert eng("CAM_DURATION", opening, closing) == pytest.approx(236)
    assert eng("LOBE_CENTERLINE", "intake", opening, closing) == pytest.approx(106)


def test_one_reading_twice_is_refused(eng):
    with pytest.raises(ArgumentError, match="closing_reading: expected another place"):
        eng("CAM_DURATION", 10, 370)


@each("reading", [0.1, 0.7, 12.3, 47, 101.9, 224, 300.07, 359.9])
@each("turns", [360, -360])
def test_one_reading_a_turn_apart_is_refused_however_it_rounds(eng, reading, turns):
    for opening, closing in ((reading, reading + turns), (reading + turns, reading)):
        with pytest.raises(ArgumentError, match="closing_reading: expected another place"):
            eng("CAM_DURATION", opening, closing)


def test_readings_of_the_wrong_side_first_are_refused(eng):
    with pytest.raises(ArgumentError, match="opening side first"):
        eng("LOBE_CENTERLINE", "intake", 224, 348)


def test_an_intake_lobe_called_exhaust_is_refused(eng):
    with pytest.raises(ArgumentError, match="opening_reading"):
        eng("LOBE_CENTERLINE", "exhaust", 348, 224)


def test_another_valve_is_refused_with_the_choice(eng):
    with pytest.raises(ArgumentError, match='valve: expected one of "intake", "exhaust"'):
        eng("LOBE_CENTERLINE", "inlet", 348, 224)


def test_a_late_intake_opening_is_negative_and_so_is_the_lack_of_overlap(eng):
    opening = eng("INTAKE_OPENING", 200, 110)
    closing = eng("EXHAUST_CLOSING", 200, 114)
    assert (opening, closing) == pytest.approx((-10, -14))
    assert eng("VALVE_OVERLAP", opening, closing) == pytest.approx(-24)


def test_events_belong_to_their_lobe(eng):
    assert eng("INTAKE_OPENING", 236, 106) == pytest.approx(12)
    assert eng("INTAKE_CLOSING", 236, 106) == pytest.approx(44)
    assert eng("EXHAUST_OPENING", 244, 114) == pytest.approx(56)
    assert eng("EXHAUST_CLOSING", 244, 114) == pytest.approx(8)


def test_lobe_separation_comes_in_cam_degrees_and_all_else_in_crank_degrees():
    separation = calculate(find("LOBE_SEPARATION"), (106, 114))
    assert (separation.kind, separation.unit) == (quantities.CAM_ANGLE, "deg cam")
    assert calculate(find("CAM_ADVANCE"), (separation.value, 106)).unit == "deg"


def test_degrees_of_the_other_shaft_are_refused(eng):
    with pytest.raises(ArgumentError, match="'deg crank' is not a unit of cam angle"):
        eng("CAM_ADVANCE", "110 deg crank", 106)
    with pytest.raises(ArgumentError, match="'deg cam' is not a unit of angle"):
        eng("CAM_ADVANCE", 110, "53 deg cam")


def test_a_centerline_beyond_half_a_turn_is_refused(eng):
    with pytest.raises(ArgumentError, match="above 0 and below 180 deg"):
        eng("LOBE_SEPARATION", 466, 114)

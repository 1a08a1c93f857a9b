"""A cam of known motion read as a table of lifts: Bevan, Theory of Machines, Ex. 5, p. 300.

A symmetrical cam of circular arcs with a flat follower, 55 degrees from base to nose, lift 0.5
in, 1200 rpm: 4.477 * (1 - cos t) in on the flank up to 12.967 degrees, 1.5 * cos(55 - t) - 1 in
on the nose.
"""

import math

import pytest
from scipy import optimize
from sources import COMPANIONS, arithmetic, independent, practice, printed

from workbook_tools.catalog import ArgumentError

BEVAN = printed("Bevan, The Theory of Machines", "Ex. 5, p. 300", COMPANIONS)
TURNS = 1200


def lift(degrees):
    if degrees <= 12.967:
        return 4.477 * (1 - math.cos(math.radians(degrees)))
    return 1.5 * math.cos(math.radians(55 - degrees)) - 1


@pytest.mark.parametrize(
    ("degrees", "expected"),
    [
        (5, 5867.7),
        (40, -1974 * math.cos(math.radians(15))),
        (54, -1974 * math.cos(math.radians(1))),
    ],
)
def test_acceleration_from_three_lines_of_the_table(agree, eng, degrees, expected):
    lifts = [lift(degrees + step) for step in (-1, 0, 1)]
    got = eng("VALVE_ACCELERATION", *lifts, 1, TURNS)
    agree("VALVE_ACCELERATION", BEVAN, expected, got, rel=1e-3)


@pytest.mark.parametrize("degrees", [20, 30, 54])
def test_speed_from_two_lines_of_the_table(agree, eng, degrees):
    got = eng("VALVE_SPEED", lift(degrees - 1), lift(degrees + 1), 1, TURNS)
    expected = 15.71 * math.sin(math.radians(55 - degrees)) * 60
    agree("VALVE_SPEED", BEVAN, expected, got, rel=1e-3)
    assert eng("VALVE_SPEED", lift(degrees + 1), lift(degrees - 1), 1, TURNS) == -got


def test_the_spring_that_half_a_pound_needs_at_full_lift(agree, eng):
    # 0.5 lb and 1974 ft/s2 at g = 32.174 ft/s2.
    needed = eng("SPRING_FORCE_NEEDED", "0.5 lb", -1974)
    agree(
        "SPRING_FORCE_NEEDED",
        arithmetic("force of a printed acceleration"),
        30.68,
        needed,
        rel=1e-3,
    )
    margin = eng("SPRING_MARGIN", 40, "0.5 lb", -1974)
    agree("SPRING_MARGIN", arithmetic(), 40 - needed, margin)
    assert eng("SPRING_MARGIN", 20, "0.5 lb", -1974) < 0


def test_the_speed_at_which_nothing_is_left_of_the_margin(agree, eng):
    def margin(turns):
        nose = eng("VALVE_ACCELERATION", lift(54), lift(55), lift(54), 1, turns)
        return eng("SPRING_MARGIN", 40, "0.5 lb", nose)

    nose = eng("VALVE_ACCELERATION", lift(54), lift(55), lift(54), 1, TURNS)
    found = optimize.brentq(margin, 500, 5000)
    source = independent("search for the speed without margin", optimize.brentq)
    agree("FLOAT_SPEED", source, found, eng("FLOAT_SPEED", TURNS, 40, "0.5 lb", nose), rel=1e-6)


def test_lash_opens_where_the_head_grows_more_than_the_valve(agree, eng):
    source = practice("sum of lengths")
    agree("HOT_LASH", source, 0.019, eng("HOT_LASH", 0.016, 0.009, 0.006))
    assert eng("HOT_LASH", 0.004, 0.001, 0.007) == pytest.approx(-0.002)


@pytest.mark.parametrize("name", ["SPRING_FORCE_NEEDED", "SPRING_MARGIN", "FLOAT_SPEED"])
def test_an_acceleration_that_the_cam_gives_needs_no_spring(eng, name):
    before = {"SPRING_FORCE_NEEDED": (), "SPRING_MARGIN": (40,), "FLOAT_SPEED": (1200, 40)}[name]
    with pytest.raises(ArgumentError, match="negative: over the nose"):
        eng(name, *before, 165, 16000)

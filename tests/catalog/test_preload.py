"""Tightening: inverse functions, steps of a shank, what is refused."""

import math

import pytest

from workbook_tools.catalog import ArgumentError, find
from workbook_tools.catalog.calculate import OMITTED

LENGTHS, DIAMETERS = ((1.1, 0.55),), ((0.376, 0.3888),)


def test_torque_and_preload_are_each_other_s_inverse(eng):
    torque = eng("TORQUE_FOR_PRELOAD", 12000, 0.4375, 0.12)
    assert eng("PRELOAD_FROM_TORQUE", torque, 0.4375, 0.12) == pytest.approx(12000, rel=1e-12)


def test_stretch_and_preload_are_each_other_s_inverse(eng):
    stretch = eng("BOLT_STRETCH", 12000, LENGTHS, DIAMETERS)
    got = eng("PRELOAD_FROM_STRETCH", stretch, LENGTHS, DIAMETERS)
    assert got == pytest.approx(12000, rel=1e-12)
    assert eng("BOLT_RATE", LENGTHS, DIAMETERS) == pytest.approx(12000 / stretch, rel=1e-12)


def test_two_steps_of_one_diameter_are_one_length(eng):
    two = eng("BOLT_STRETCH", 12000, ((1.0, 0.6),), ((0.4, 0.4),))
    assert two == pytest.approx(eng("BOLT_STRETCH", 12000, 1.6, 0.4), rel=1e-12)


def test_lengths_down_and_diameters_across_still_pair(eng):
    down = ((1.1,), (0.55,))
    assert eng("BOLT_RATE", down, DIAMETERS) == pytest.approx(eng("BOLT_RATE", LENGTHS, DIAMETERS))


def test_a_diameter_short_is_refused(eng):
    with pytest.raises(ArgumentError, match="diameters: expected one diameter for each length"):
        eng("BOLT_STRETCH", 12000, LENGTHS, 0.376)
    with pytest.raises(ArgumentError, match="lengths: expected a reading in every cell"):
        eng("BOLT_STRETCH", 12000, ((1.1, None),), DIAMETERS)
    with pytest.raises(ArgumentError, match="diameters: expected a reading in every cell"):
        eng("BOLT_STRETCH", 12000, LENGTHS, ((0.376, None, 0.3888),))


def test_a_length_typed_as_the_stretch_is_refused(eng):
    with pytest.raises(ArgumentError, match="stretch: expected 2 % of the bolt's length at most"):
        eng("PRELOAD_FROM_STRETCH", 1.8023, LENGTHS, DIAMETERS)


def test_a_joint_that_gives_takes_from_the_preload(eng):
    rigid = eng("PRELOAD_FROM_ANGLE", 90, 1.25, 100000, OMITTED, "metric")
    shared = eng("PRELOAD_FROM_ANGLE", 90, 1.25, 100000, 300000, "metric")
    assert shared == pytest.approx(0.75 * rigid, rel=1e-12)


def test_a_joint_without_a_rate_is_not_taken_for_a_rigid_one(eng):
    with pytest.raises(ArgumentError, match="joint_rate: expected a spring rate above 0, got 0"):
        eng("PRELOAD_FROM_ANGLE", 90, 1.25, 100000, 0, "metric")


def test_threads_an_inch_typed_for_the_pitch_are_refused(eng):
    with pytest.raises(ArgumentError, match=r"pitch: expected 8 mm \(0.3 in\) at most"):
        eng("PRELOAD_FROM_ANGLE", 90, 20, 1500000)


def test_a_load_that_tears_the_bolt_has_no_stretch(eng):
    with pytest.raises(ArgumentError, match="preload: expected one that stretches the bolt by 2 %"):
        eng("BOLT_STRETCH", 1e6, LENGTHS, DIAMETERS)


@pytest.mark.parametrize("factor", [0, 12, None])
def test_a_nut_factor_is_a_small_plain_number(eng, factor):
    with pytest.raises(ArgumentError, match="nut_factor: expected"):
        eng("PRELOAD_FROM_TORQUE", 50, 0.4375, factor)
    with pytest.raises(ArgumentError, match="nut_factor: expected"):
        eng("TORQUE_FOR_PRELOAD", 12000, 0.4375, factor)


def test_slippery_bolts_have_a_smaller_nut_factor(eng):
    dry = eng("NUT_FACTOR", 0.4375, 0.05, 0.15, 0.15, 0.58)
    slick = eng("NUT_FACTOR", 0.4375, 0.05, 0.08, 0.08, 0.58)
    assert slick < dry
    with pytest.raises(ArgumentError, match="bearing_diameter: expected larger than"):
        eng("NUT_FACTOR", 0.4375, 0.05, 0.15, 0.15, 0.40)
    with pytest.raises(ArgumentError, match="pitch: expected 30 % of the diameter at most"):
        eng("NUT_FACTOR", 0.4375, 0.14, 0.15, 0.15, 0.58)


@pytest.mark.parametrize(("diameter", "turns"), [(0.25, 20), (0.4375, 20), (0.75, 16)])
@pytest.mark.parametrize("friction", [0.10, 0.15, 0.20])
def test_the_nut_factor_lies_below_shigley_s_as_its_help_tells(eng, diameter, turns, friction):
    # Shigley, Mechanical Engineering Design, equation 8-26, head at 1.25 diameters (from memory).
    pitch, mean = 1 / turns, diameter - 0.649519 / turns
    lead, slope = pitch / (math.pi * mean), friction / math.cos(math.radians(30))
    theirs = mean / (2 * diameter) * (lead + slope) / (1 - lead * slope) + 0.625 * friction
    ours = eng("NUT_FACTOR", diameter, pitch, friction, friction, 1.25 * diameter)
    assert 0.0015 < 1 - ours / theirs < 0.009
    assert "0.2 to 0.9 % below Shigley" in find("NUT_FACTOR").source

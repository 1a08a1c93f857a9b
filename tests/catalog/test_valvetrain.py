"""Valvetrain: signs, refusals, unit systems."""

import pytest

from workbook_tools.catalog import ArgumentError


def test_lash_as_large_as_the_lift_is_refused(eng):
    with pytest.raises(ArgumentError, match="lash: expected less than the lift at the rocker"):
        eng("VALVE_LIFT", 0.010, 1.5, 0.015)
    assert eng("VALVE_LIFT", 0.010, 1.5, 0.014) == pytest.approx(0.001)


def test_a_hydraulic_lifter_needs_no_lash(eng):
    assert eng("VALVE_LIFT", "8.00 mm", 1.6, 0, "metric") == pytest.approx(12.8)
    assert eng("VALVE_LIFT", 8.00, 1.6, "0 mm", "metric") == pytest.approx(12.8)


def test_a_valve_that_would_meet_the_piston_reads_negative(eng):
    assert eng("PISTON_TO_VALVE", 0.100, 0.120, 0, 3.480, 6.000) == pytest.approx(-0.020)


def test_a_range_of_angles_and_lifts_gives_a_range_of_clearances(eng):
    got = eng("PISTON_TO_VALVE", 0.1, ((0.01, 0.02, 0.03),), ((-10, 0, 10),), 3.48, 6.0)
    alone = [eng("PISTON_TO_VALVE", 0.1, lift, angle, 3.48, 6.0)
             for lift, angle in ((0.01, -10), (0.02, 0), (0.03, 10))]  # fmt: skip
    assert got == (tuple(alone),)


def test_a_stem_that_leans_too_far_is_refused(eng):
    with pytest.raises(ArgumentError, match="stem_angle: expected an angle from 0 to 60 deg"):
        eng("PISTON_TO_VALVE", 0.100, 0.020, 0, 3.480, 6.000, 75)


def test_a_rod_shorter_than_the_throw_is_refused(eng):
    with pytest.raises(ArgumentError, match="rod_length"):
        eng("PISTON_TO_VALVE", 0.100, 0.020, 10, 3.480, 1.700)


def test_a_length_typed_for_turns_is_refused(eng):
    with pytest.raises(ArgumentError, match=r"turns: .*takes no unit"):
        eng("PUSHROD_LENGTH", 7.8, "0.2 in", 0.05)
    with pytest.raises(ArgumentError, match="turns: expected a number of turns, 100 at most"):
        eng("PUSHROD_LENGTH", 7.8, 200, 0.05)
    with pytest.raises(ArgumentError, match="turns: expected a number of turns, 10 at most"):
        eng("LIFTER_PRELOAD", 45, 0.05, 1.5)


def test_threads_an_inch_typed_for_the_pitch_are_refused(eng):
    with pytest.raises(ArgumentError, match=r"thread_pitch: expected 5 mm \(0.2 in\) at most"):
        eng("PUSHROD_LENGTH", 7.8, 4, 20)
    with pytest.raises(ArgumentError, match=r"thread_pitch: expected 5 mm \(0.2 in\) at most"):
        eng("LIFTER_PRELOAD", 0.5, 24, 1.5)


def test_a_ratio_that_no_rocker_has_is_refused(eng):
    with pytest.raises(ArgumentError, match="rocker_ratio: expected a ratio such as"):
        eng("VALVE_LIFT", 0.32, 15)
    for ratio in (0.15, 15):
        with pytest.raises(ArgumentError, match="rocker_ratio: expected a ratio such as"):
            eng("LIFTER_PRELOAD", 0.5, 0.05, ratio)


def test_the_nut_moves_less_than_the_pushrod(eng):
    assert eng("LIFTER_PRELOAD", 1, 1.0, 2.0, "metric") == pytest.approx(1.5)

"""Crank, rod and piston at the edges: dead centers, offsets, rods too short."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.catalog import ArgumentError, calculate, find

angles = st.floats(-720, 720)
offsets = st.floats(-2, 2)
rods = st.floats(60, 300)


def refusal(name, *arguments):
    with pytest.raises(ArgumentError) as raised:
        calculate(find(name), arguments)
    return str(raised.value)


@given(angle=angles, offset=offsets, rod=rods)
def test_the_piston_stays_between_its_dead_centers(eng, angle, offset, rod):
    position = eng("PISTON_POSITION", 86, rod, angle, offset, "metric")
    travel = math.sqrt((rod + 43) ** 2 - offset**2) - math.sqrt((rod - 43) ** 2 - offset**2)
    assert -1e-9 <= position <= travel + 1e-9


@given(angle=angles, offset=offsets, rod=rods)
def test_the_mirror_image_of_an_offset(eng, angle, offset, rod):
    # Turning the other way with the offset on the other side is the same engine.
    one = eng("PISTON_POSITION", 86, rod, angle, offset, "metric")
    other = eng("PISTON_POSITION", 86, rod, -angle, -offset, "metric")
    assert one == pytest.approx(other, abs=1e-9)
    one = eng("PISTON_VELOCITY", 86, rod, angle, 6000, offset, "metric")
    other = eng("PISTON_VELOCITY", 86, rod, -angle, 6000, -offset, "metric")
    assert one == pytest.approx(-other, abs=1e-8)
    one = eng("PISTON_ACCELERATION", 86, rod, angle, 6000, offset, "metric")
    other = eng("PISTON_ACCELERATION", 86, rod, -angle, 6000, -offset, "metric")
    assert one == pytest.approx(other, rel=1e-9, abs=1e-6)


def test_top_and_bottom_without_offset(eng):
    assert eng("PISTON_POSITION", 3.41, 5.85, 0) == 0
    assert eng("PISTON_POSITION", 3.41, 5.85, 180) == pytest.approx(3.41, rel=1e-14)
    assert eng("PISTON_POSITION", 3.41, 5.85, 360) == pytest.approx(0, abs=1e-15)
    assert eng("PISTON_VELOCITY", 3.41, 5.85, 0, 6000) == 0


def test_an_offset_left_out_is_none(eng):
    assert eng("PISTON_POSITION", 3.41, 5.85, 70) == eng("PISTON_POSITION", 3.41, 5.85, 70, 0)
    assert eng("ROD_ANGLE", 3.41, 5.85, 70) == eng("ROD_ANGLE", 3.41, 5.85, 70, 0)


def test_a_positive_offset_moves_top_dead_center_later(eng):
    before, top, after = (
        eng("PISTON_POSITION", 86, 145, angle, 1, "metric") for angle in (0, 0.304766222, 0.6)
    )
    assert top < before
    assert top < after
    assert top == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize(
    ("name", "arguments"),
    [
        ("PISTON_POSITION", (30,)),
        ("ROD_ANGLE", (30,)),
        ("PISTON_VELOCITY", (30, 6000)),
        ("PISTON_ACCELERATION", (30, 6000)),
        ("EFFECTIVE_STROKE", (58,)),
    ],
)
def test_a_rod_too_short_for_the_throw_is_refused(name, arguments):
    expected = "rod_length: expected longer than half the stroke and the pin offset together"
    assert refusal(name, 86, 43, *arguments, 0, "metric") == f"{expected}, got 43"
    assert refusal(name, 86, 44, *arguments, 1, "metric") == f"{expected}, got 44"
    assert refusal(name, 86, 44, *arguments, -1, "metric") == f"{expected}, got 44"


@pytest.mark.parametrize(
    ("name", "arguments"),
    [("TDC_ACCELERATION", (6000,)), ("PEAK_PISTON_SPEED", (6000,)), ("PEAK_SPEED_ANGLE", ())],
)
def test_a_rod_no_longer_than_the_throw_is_refused(name, arguments):
    assert refusal(name, 86, 43, *arguments, "metric") == (
        "rod_length: expected longer than half the stroke, got 43"
    )


def test_a_rod_no_longer_than_the_throw_has_no_ratio():
    assert refusal("ROD_STROKE_RATIO", 1.7, 3.41) == (
        "rod_length: expected longer than half the stroke, got 1.7"
    )


def test_mean_speed_never_passes_the_peak(eng):
    for rod in (44, 60, 145, 1000):
        assert eng("PEAK_PISTON_SPEED", 86, rod, 6000, "metric") > eng(
            "MEAN_PISTON_SPEED", 86, 6000, "metric"
        )


def test_angles_beyond_two_turns_are_refused():
    assert refusal("PISTON_POSITION", 3.41, 5.85, 720.1).startswith(
        "crank_angle: expected an angle from -720 to 720 deg"
    )


def test_rpm_is_not_taken_for_an_angle():
    assert "'rpm' is not a unit of angle" in refusal("PISTON_POSITION", 3.41, 5.85, "6000 rpm")


def test_a_crank_at_rest_has_no_speed_to_judge():
    assert refusal("MEAN_PISTON_SPEED", 3.41, 0) == (
        "engine_speed: expected a rotation above 0, got 0"
    )

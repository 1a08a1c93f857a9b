"""ISO 724, basic dimensions of ISO metric threads: the pitch diameter (from memory)."""

import math

import pytest
from sources import arithmetic, from_memory

SOURCE = from_memory("ISO 724", "pitch diameters")


@pytest.mark.parametrize(
    ("diameter", "pitch", "pitch_diameter"),
    [(8, 1.25, 7.188), (10, 1.5, 9.026), (10, 1.25, 9.188), (12, 1.75, 10.863)],
)
def test_thread_friction_acts_at_the_pitch_diameter(agree, eng, diameter, pitch, pitch_diameter):
    # A hundredth more friction in a thread of 60 degrees takes F * 0.01 / cos 30 at half of it.
    sizes = (diameter, pitch)
    face = 1.5 * diameter
    more = eng("NUT_FACTOR", *sizes, 0.13, 0.1, face, "metric")
    less = eng("NUT_FACTOR", *sizes, 0.12, 0.1, face, "metric")
    got = (more - less) * diameter * 2 * math.cos(math.radians(30)) / 0.01
    agree("NUT_FACTOR", SOURCE, pitch_diameter, got, abs=6e-4)


@pytest.mark.parametrize(("diameter", "pitch"), [(8, 1.25), (10, 1.25), (12, 1.75)])
def test_without_friction_a_bolt_is_a_screw(agree, eng, diameter, pitch):
    # Work of one turn: torque times 2 pi is preload times pitch.
    got = eng("NUT_FACTOR", diameter, pitch, 1e-9, 1e-9, 1.5 * diameter, "metric")
    source = arithmetic("conservation of energy in one turn")
    agree("NUT_FACTOR", source, pitch / (2 * math.pi * diameter), got, rel=1e-6)

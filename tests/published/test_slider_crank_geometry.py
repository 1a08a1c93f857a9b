"""Slider-crank by vectors: crankpin on its circle, piston pin where the rod reaches its line.

Nothing here knows the closed forms of the catalog: the pin is found as the meeting of circle
and line in 40 digits by mpmath.
"""

import mpmath
import pytest
from each_case import each
from sources import independent

SOURCE = independent("slider-crank by meeting of circle and line", mpmath.polyroots)
# Half stroke and rod in mm. The last pair is a short rod, the first a common four.
CRANKS = [(43.0, 145.0), (44.196, 152.4), (30.0, 31.5)]
OFFSETS = [0.0, 1.0, -1.0, 0.75]
ANGLES = [-720, -30, 0, 15, 30, 60, 74.673913264, 90, 120, 150, 180, 270, 359, 720]


def pin_height(throw, rod, offset, angle):
    """Height of the piston pin above the crank's center, from the two figures alone."""
    with mpmath.workdps(40):
        x, y = throw * mpmath.sin(angle), throw * mpmath.cos(angle)
        # The rod's circle about the crankpin meets the line x = offset at two heights, the
        # roots of h**2 - 2 y h + (y**2 + (offset - x)**2 - rod**2) = 0.
        middle = y**2 + (offset - x) ** 2 - rod**2
        roots = mpmath.polyroots([1, -2 * y, middle], maxsteps=200, extraprec=200)
        return max(mpmath.re(root) for root in roots)


def top(throw, rod, offset):
    """Highest pin, where rod and throw stand in one line."""
    with mpmath.workdps(40):
        return mpmath.sqrt(mpmath.mpf(rod + throw) ** 2 - mpmath.mpf(offset) ** 2)


@each("angle", ANGLES)
@each("offset", OFFSETS)
@each(("throw", "rod"), CRANKS)
def test_position(agree, eng, throw, rod, offset, angle):
    height = pin_height(throw, rod, offset, mpmath.radians(angle))
    expected = float(top(throw, rod, offset) - height)
    got = eng("PISTON_POSITION", 2 * throw, rod, angle, offset, "metric")
    agree("PISTON_POSITION", SOURCE, expected, got, rel=1e-11, abs=1e-12)


@pytest.mark.parametrize(
    ("offset", "angle", "position"),
    [
        # Stroke 86 mm, rod 145 mm: points of an independent table, mm.
        (0, 30, 7.363731933),
        (0, 60, 26.363459440),
        (0, 90, 49.522565015),
        (0, 120, 69.363459440),
        (0, 150, 81.841916658),
        (0, 180, 86.0),
        (1, 0, 0.000788724),
        (1, 30, 7.214700645),
        (1, 90, 49.213335565),
        (1, 180, 86.000788724),
        (1, 270, 49.834393131),
        (-1, 30, 7.514574536),
        (-1, 90, 49.834393131),
    ],
)
def test_position_against_the_table(agree, eng, offset, angle, position):
    got = eng("PISTON_POSITION", 86, 145, angle, offset, "metric")
    agree("PISTON_POSITION", SOURCE, position, got, abs=1e-9)


def test_position_in_inches_against_the_table(agree, eng):
    # Stroke 3.480 in, rod 6.000 in; the table is in millimeters.
    for angle, position in [(60, 26.982593388), (90, 50.745139242)]:
        got = 25.4 * eng("PISTON_POSITION", 3.480, 6.000, angle)
        agree("PISTON_POSITION", SOURCE, position, got, abs=1e-9)

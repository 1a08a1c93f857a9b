"""Unbalance of a turning rotor from the path of its center of mass, differentiated by mpmath.

ISO 21940-11 names a balance quality grade by the speed of the center of mass about the axis in
mm/s; the standard was seen only as others quote it.
"""

import mpmath
import pytest
from sources import independent

MOVED = independent("path of the center of mass, differentiated", mpmath.diff)


def path(offset, rpm):
    """The center of mass in the plane as a function of time in s."""
    omega = rpm * mpmath.pi / 30
    return lambda time: offset * mpmath.expj(omega * time)


@pytest.mark.parametrize(
    ("grade", "kilograms", "rpm"),
    [(6.3, 2, 10000), (16, 25, 7000), (2.5, 12, 8000), (40, 18, 3000)],
)
def test_center_of_mass_moves_at_the_grade_s_speed(agree, eng, grade, kilograms, rpm):
    unbalance = eng("PERMISSIBLE_UNBALANCE", kilograms * 1000, rpm, grade, "metric")
    with mpmath.workdps(30):
        # g.mm over g is the offset in mm.
        speed = abs(mpmath.diff(path(unbalance / (1000 * kilograms), rpm), 0.001))
    agree("PERMISSIBLE_UNBALANCE", MOVED, grade, float(speed))
    # In ounce-inches too, of the same rotor in grams.
    ounces = eng("PERMISSIBLE_UNBALANCE", kilograms * 1000, rpm, grade)
    agree("PERMISSIBLE_UNBALANCE", MOVED, unbalance, ounces * 28.349523125 * 25.4)


@pytest.mark.parametrize(("grams", "radius", "rpm"), [(350, 43, 7000), (12.5, 92, 9500)])
def test_force_of_a_mass_on_a_circle(agree, eng, grams, radius, rpm):
    with mpmath.workdps(30):
        pull = grams / 1000 * abs(mpmath.diff(path(radius / 1000, rpm), 0.002, 2))
    got = eng("UNBALANCE_FORCE", eng("UNBALANCE", grams, radius, "metric"), rpm, "metric")
    agree("UNBALANCE_FORCE", MOVED, float(pull), got)
    agree("UNBALANCE", MOVED, float(pull), got)

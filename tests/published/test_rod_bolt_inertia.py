"""Inertia of the reciprocating parts from the path of the piston pin alone.

Mass times the second derivative of the pin's height, taken numerically by mpmath in 40
digits: no closed form of an acceleration is used.
"""

import mpmath
import pytest
from sources import independent

SOURCE = independent("second derivative of the pin's path", mpmath.diff)


def pulls(mass, throw, rod, rpm, degrees):
    """Force of the reciprocating parts away from the crank, kg and m in, N out."""
    with mpmath.workdps(40):
        omega = rpm * mpmath.pi / 30
        start = mpmath.radians(degrees)

        def height(time):
            angle = start + omega * time
            return throw * mpmath.cos(angle) + mpmath.sqrt(
                rod**2 - (throw * mpmath.sin(angle)) ** 2
            )

        return float(-mass * mpmath.diff(height, 0, 2))


@pytest.mark.parametrize(
    ("mass", "throw", "rod", "rpm"),
    [(0.600, 0.043, 0.145, 7000), (0.862, 0.044196, 0.1524, 6500), (0.547, 0.031, 0.118, 9000)],
)
def test_dead_centers(agree, eng, mass, throw, rod, rpm):
    crank = (2000 * throw, 1000 * rod, rpm)
    for degrees in (0, 180):
        got = eng("RECIPROCATING_FORCE", 1000 * mass, *crank, degrees, "both", "metric")
        agree("RECIPROCATING_FORCE", SOURCE, pulls(mass, throw, rod, rpm, degrees), got)
    got = eng("ROD_BOLT_LOAD", 1000 * mass, *crank, 2, 0, "metric")
    agree("ROD_BOLT_LOAD", SOURCE, pulls(mass, throw, rod, rpm, 0) / 2, got)
    # Two bolts and no cap, where neither is said.
    sizes = (f"{1000 * mass} g", f"{2000 * throw} mm", f"{1000 * rod} mm", rpm)
    got = eng("ROD_BOLT_LOAD", *sizes) * 4.4482216152605
    agree("ROD_BOLT_LOAD", SOURCE, pulls(mass, throw, rod, rpm, 0) / 2, got)


def test_big_end_above_the_cap_pulls_as_a_mass_on_a_circle(agree, eng):
    throw, rpm, big_end = 0.043, 7000, 0.350
    omega = float(rpm * mpmath.pi / 30)
    crank = (86, 145, rpm)
    with_it = eng("ROD_BOLT_LOAD", 600, *crank, 2, 350, "metric")
    without = eng("ROD_BOLT_LOAD", 600, *crank, 2, 0, "metric")
    with mpmath.workdps(40):
        turning = abs(mpmath.diff(lambda t: throw * mpmath.expj(omega * t), 0, 2))
    pull = float(big_end * turning)
    source = independent("second derivative of the crankpin's path", mpmath.diff)
    agree("ROD_BOLT_LOAD", source, pull / 2, with_it - without)


@pytest.mark.parametrize("degrees", [15, 40, 75, 110, 160])
def test_two_orders_are_near_the_whole_in_between(agree, eng, degrees):
    # With rods of three and a half throws the higher orders are within 2 % of the peak.
    got = eng("RECIPROCATING_FORCE", 600, 86, 150.5, 7000, degrees, "both", "metric")
    peak = pulls(0.6, 0.043, 0.1505, 7000, 0)
    expected = pulls(0.6, 0.043, 0.1505, 7000, degrees)
    agree("RECIPROCATING_FORCE", SOURCE, expected, got, abs=0.02 * peak)

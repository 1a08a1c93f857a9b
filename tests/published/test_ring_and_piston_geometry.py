"""Rings, pistons and journals as circles: contact by bisection, lengths and areas by scipy."""

import math

import mpmath
import numpy as np
import pint
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq
from sources import independent

UNIT = pint.UnitRegistry()
CONTACT = independent("piston moved from wall to wall", brentq)
BORES = [(39.0, 38.96), (81.0, 80.97), (102.36, 102.26), (200.0, 199.74)]


def travel(bore, piston):
    """How far a round piston moves across its bore, from touching one side to the other."""
    around = np.linspace(-math.pi, math.pi, 7201)

    def beyond(shift):
        return np.max(np.abs(shift + piston / 2 * np.exp(1j * around))) - bore / 2

    right = brentq(beyond, 0, bore / 10, xtol=1e-12)
    left = brentq(beyond, -bore / 10, 0, xtol=1e-12)
    return right - left


@pytest.mark.parametrize(("bore", "piston"), BORES)
def test_total_clearance_is_the_travel_from_wall_to_wall(agree, eng, bore, piston):
    clearance = travel(bore, piston)
    got = eng("PISTON_CLEARANCE", bore, piston, "metric")
    agree("PISTON_CLEARANCE", CONTACT, clearance, got, abs=1e-9)
    got = eng("HONE_TO_SIZE", piston, clearance, "metric")
    agree("HONE_TO_SIZE", CONTACT, bore, got, abs=1e-9)
    got = eng("PISTON_SIZE_FOR_CLEARANCE", bore, clearance, "metric")
    agree("PISTON_SIZE_FOR_CLEARANCE", CONTACT, piston, got, abs=1e-9)


def arc(diameter, start, end):
    """Length along a circle between two angles, strip by strip."""
    step = 1e-6
    return quad(
        lambda a: math.hypot(
            diameter / 2 * (math.cos(a + step) - math.cos(a - step)) / (2 * step),
            diameter / 2 * (math.sin(a + step) - math.sin(a - step)) / (2 * step),
        ),
        start, end,
    )[0]  # fmt: skip


@pytest.mark.parametrize(("old", "new"), [(39.0, 39.5), (102.36, 102.39), (102.0, 101.9)])
def test_a_ring_of_one_length_in_two_bores(agree, eng, old, new):
    gap = 0.46
    # The angle that the ring takes up in the old bore, then in the new one, at one length.
    taken = brentq(lambda a: arc(old, a, 2 * math.pi) - gap, 5, 2 * math.pi, xtol=1e-12)
    length = arc(old, 0, taken)
    left = arc(new, 0, 2 * math.pi) - length
    got = eng("RING_GAP_AFTER_HONE", gap, old, new, "metric")
    agree("RING_GAP_AFTER_HONE", independent("length of the ring", quad), left, got, abs=1e-7)


@pytest.mark.parametrize(
    ("bore", "root", "thickness"), [(100.0, 91.4, 4.1), (39.0, 35.4, 1.6), (200.0, 184.0, 7.7)]
)
def test_room_behind_a_ring(agree, eng, bore, root, thickness):
    # Area between the groove's bottom and the back of the ring, over its mean circumference.
    back = bore / 2 - thickness
    area = quad(lambda r: 2 * math.pi * r, root / 2, back)[0]
    expected = area / (math.pi * (root / 2 + back))
    got = eng("RING_BACK_CLEARANCE", bore, root, thickness, "metric")
    agree("RING_BACK_CLEARANCE", independent("area behind the ring", quad), expected, got, abs=1e-9)


@pytest.mark.parametrize(("diameter", "rpm"), [(2.4495, 6500), (2.1, 9000), (0.75, 12000)])
def test_speed_of_a_point_on_a_journal(agree, eng, diameter, rpm):
    source = independent("speed of a point on a circle", mpmath.diff, pint.UnitRegistry)
    turning = (rpm * UNIT.rpm).to("rad/s").magnitude
    with mpmath.workdps(30):
        path = mpmath.diff(lambda t: diameter / 2 * mpmath.expj(turning * t), 0.001)
        inches = UNIT.Quantity(float(abs(path)), "inch/s")
    got = eng("JOURNAL_SPEED", diameter, rpm)
    agree("JOURNAL_SPEED", source, inches.to("ft/min").magnitude, got)
    got = eng("JOURNAL_SPEED", 25.4 * diameter, rpm, "metric")
    agree("JOURNAL_SPEED", source, inches.to("m/s").magnitude, got)

"""Valvetrain clearances against rigid bodies placed by vectors and found by scipy's roots."""

import math

import numpy as np
import pytest
from each_case import each
from scipy.optimize import brentq
from sources import independent

SOURCE = independent("rigid bodies placed by vectors", brentq)


def piston_drop(stroke, rod, degrees):
    """Travel below top dead center of a pin on the bore's axis, a rod from the crankpin."""
    throw = stroke / 2
    crankpin = throw * np.array([math.sin(math.radians(degrees)), math.cos(math.radians(degrees))])
    height = brentq(
        lambda z: np.hypot(*(np.array([0, z]) - crankpin)) - rod,
        crankpin[1],
        crankpin[1] + rod,
        xtol=1e-13,
    )
    return throw + rod - height


@each("degrees", [-20, -10, 0, 10, 14, 40])
@each("lean", [0, 12, 23])
def test_stem_travel_to_a_parallel_pocket(agree, eng, degrees, lean):
    stroke, rod, drop, lift = 3.480, 6.000, 0.140, 0.115
    stem = np.array([math.sin(math.radians(lean)), -math.cos(math.radians(lean))])
    # A point of the pocket's floor at top dead center, with the valve's face square to the stem.
    pocket = drop * stem + np.array([0, -piston_drop(stroke, rod, degrees)])
    face = lift * stem
    contact = brentq(lambda travel: np.dot(pocket - face - travel * stem, stem), -1, 8, xtol=1e-13)
    got = eng("PISTON_TO_VALVE", drop, lift, degrees, stroke, rod, lean)
    agree("PISTON_TO_VALVE", SOURCE, contact, got, abs=1e-11)


@pytest.mark.parametrize(("ratio", "lash"), [(1.5, 0.0), (1.6, 0.016), (1.0, 0.012)])
def test_lift_of_a_rocker_with_lash(agree, eng, ratio, lash):
    # A rigid bar turned about its pivot until the pushrod's cup has risen as the lobe has; its
    # tip first takes up the lash, then pushes the valve down.
    lobe, arm = 0.320, 0.95
    angle = brentq(lambda a: arm * math.sin(a) - lobe, 0, 1)
    tip = -ratio * arm * np.array([math.cos(angle), math.sin(angle)])
    agree("VALVE_LIFT", SOURCE, -tip[1] - lash, eng("VALVE_LIFT", lobe, ratio, lash), rel=1e-9)


def test_preload_of_a_rocker_that_turns_about_the_valve_tip(agree, eng):
    ratio, pitch, turns, arm = 1.5, 1 / 24, 0.75, 0.95
    # Rocker as a rigid bar: valve tip, pivot, pushrod cup; the tip stays where it is.
    sink = turns * pitch
    tip, pivot, cup = np.array([-ratio * arm, 0]), np.zeros(2), np.array([arm, 0])

    def turned(angle, point):
        cosine, sine = math.cos(angle), math.sin(angle)
        return tip + np.array([[cosine, sine], [-sine, cosine]]) @ (point - tip)

    angle = brentq(lambda a: turned(a, pivot)[1] + sink, 0, 0.5)
    agree(
        "LIFTER_PRELOAD",
        SOURCE,
        -turned(angle, cup)[1],
        eng("LIFTER_PRELOAD", turns, pitch, ratio),
        rel=1e-9,
    )

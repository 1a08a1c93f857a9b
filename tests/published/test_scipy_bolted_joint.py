"""A bolted joint by statics: springs in equilibrium, and the flank of a thread by vectors."""

import math

import numpy as np
import pytest
from scipy import optimize
from sources import independent

SPRINGS = independent("bolt and joint as springs", np.linalg.solve)
FLANK = independent("equilibrium on the flank of a 60 degree thread", np.cross)
BOLT, JOINT = 320e6, 1150e6  # Rates in N/m.


def joint(closing=0.0, load=0.0):
    """Bolt tension and clamping of a joint that is closed by so much and then pulled apart.

    Unknown: the tension, the clamping, the bolt's stretch and the joint's compression. The
    load pulls on the clamped parts; bolt and joint share what the nut has closed.
    """
    equations = [[1, -1, 0, 0], [1, 0, -BOLT, 0], [0, 1, 0, -JOINT], [0, 0, 1, 1]]
    tension, clamping, *_ = np.linalg.solve(equations, [load, 0, 0, closing])
    return float(tension), float(clamping)


@pytest.mark.parametrize(("degrees", "pitch"), [(60, 1.25), (90, 1.5), (145, 1.0)])
def test_turn_of_the_nut(agree, eng, degrees, pitch):
    tension, _ = joint(closing=pitch / 1000 * degrees / 360)
    got = eng("PRELOAD_FROM_ANGLE", degrees, pitch, BOLT / 1000, JOINT / 1000, "metric")
    agree("PRELOAD_FROM_ANGLE", SPRINGS, tension, got)


@pytest.mark.parametrize("load", [4e3, 15e3])
def test_margins_under_a_load(agree, eng, load):
    closing, share, proof = 0.11e-3, BOLT / (BOLT + JOINT), 38e3
    preload, _ = joint(closing)
    tension, _ = joint(closing, load)
    got = eng("BOLT_MARGIN", proof, preload, load, share, "metric")
    agree("BOLT_MARGIN", SPRINGS, proof / tension, got)
    # Without a share the bolt is taken to bear all of it, as where parts have come apart.
    bolt, pull = preload / 4.4482216152605, load / 4.4482216152605
    alone = np.linalg.solve([[1.0]], [preload + load])[0]
    agree("BOLT_MARGIN", SPRINGS, proof / alone, eng("BOLT_MARGIN", "38 kN", bolt, pull))
    gapes = optimize.brentq(lambda pull: joint(closing, pull)[1], 1, 1e6)
    got = eng("JOINT_MARGIN", preload, load, share, "metric")
    agree("JOINT_MARGIN", SPRINGS, gapes / load, got)


@pytest.mark.parametrize(
    ("diameter", "pitch", "thread", "head", "face"),
    [(11.1125, 1.27, 0.12, 0.10, 15.5), (10, 1.5, 0.15, 0.05, 13.5), (12, 1.25, 0.06, 0.16, 17)],
)
def test_nut_factor(agree, eng, diameter, pitch, thread, head, face):
    # On the pitch cylinder, of H = 0.866025 P less a quarter at the root and an eighth at the
    # crest: 3/8 H to the side of the crest. Axes: along the turn, outward, along the bolt.
    radius = diameter / 2 - 3 / 8 * math.sqrt(3) / 2 * pitch
    up = math.atan(pitch / (2 * math.pi * radius))
    helix = np.array([math.cos(up), 0, math.sin(up)])
    slope = np.array([0, math.cos(math.radians(30)), -math.sin(math.radians(30))])
    normal = np.cross(slope, helix)
    normal /= np.linalg.norm(normal) * np.sign(normal[2])
    # Pressed on the nut's flank by the bolt's, which is to be turned uphill against friction.
    push = normal - thread * helix
    torque = -push[0] / push[2] * radius + head * face / 2
    got = eng("NUT_FACTOR", diameter, pitch, thread, head, face, "metric")
    # The closed form leaves out products of friction and lead, less than a hundredth.
    agree("NUT_FACTOR", FLANK, torque / diameter, got, rel=1e-2)

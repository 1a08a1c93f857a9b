"""Meriam & Kraige, Engineering Mechanics: Dynamics, sample problems 5/9 and 5/15.

Crank 5 in, rod 14 in, 1500 rpm, crank at 60 deg from the top.
"""

import math

from sources import COMPANIONS, from_memory, printed

BOOK = "Meriam & Kraige, Engineering Mechanics: Dynamics"
SOURCE = printed(BOOK, "sample problem 5.9, p. 353", COMPANIONS)
MEMORY = from_memory(BOOK, "sample problems 5/9 and 5/15")


def test_rod_angle(agree, eng):
    agree("ROD_ANGLE", SOURCE, 18.02, eng("ROD_ANGLE", 10, 14, 60), abs=0.005)


def test_piston_velocity_and_acceleration(agree, eng):
    got = eng("PISTON_VELOCITY", 10, 14, 60, 1500) / 60
    agree("PISTON_VELOCITY", MEMORY, 67.3, got, abs=0.05)
    got = eng("PISTON_ACCELERATION", 10, 14, 60, 1500)
    agree("PISTON_ACCELERATION", MEMORY, 3310, got, abs=5)


def test_velocity_of_the_rod_s_center_of_mass(agree, eng):
    # G is 10 in from the piston pin; its velocity, 64.1 ft/s, is put together from the
    # piston's and the rod's turning, 29.5 rad/s, found from two rod angles.
    step = 1e-3
    ahead, behind = (eng("ROD_ANGLE", 10, 14, 60 + s) for s in (step, -step))
    turning = math.radians((ahead - behind) / (2 * step)) / math.radians(1) * 1500 * math.pi / 30
    agree("ROD_ANGLE", SOURCE, 29.5, turning, abs=0.05)
    rod = math.radians(eng("ROD_ANGLE", 10, 14, 60))
    down = eng("PISTON_VELOCITY", 10, 14, 60, 1500) / 60
    sideways = 10 / 12 * turning * math.cos(rod)
    got = math.hypot(down - 10 / 12 * turning * math.sin(rod), sideways)
    agree("PISTON_VELOCITY", SOURCE, 64.1, got, abs=0.05)

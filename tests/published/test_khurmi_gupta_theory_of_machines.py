"""Khurmi & Gupta, Theory of Machines, chapter 15: forces of the reciprocating parts.

The book takes two terms of the inertia force; so does the catalog's "both".
"""

import math

from sources import COMPANIONS, printed

BOOK = "Khurmi & Gupta, Theory of Machines"


def of(place):
    return printed(BOOK, place, COMPANIONS)


def test_example_15_6(agree, eng):
    # 180 kg, stroke 200 mm, rod 400 mm, 500 rpm, 60 deg: 18.53 kN with a rounded 52.4 rad/s.
    got = eng("RECIPROCATING_FORCE", 180000, 200, 400, 500, 60, "both", "metric") / 1000
    agree("RECIPROCATING_FORCE", of("Ex. 15.6, p. 532"), 18.53, got, rel=2e-3)


def test_example_15_7(agree, eng):
    # Bore 0.5, crank 0.3, rod 1.2 m, 250 kg, 0.35 MPa, 250 rpm, 60 deg: rod 50.65 kN, side
    # thrust 10.97 kN.
    source = of("Ex. 15.7, p. 533")
    inertia = eng("RECIPROCATING_FORCE", 250000, 600, 1200, 250, 60, "both", "metric")
    piston = 0.35e6 * math.pi / 4 * 0.5**2 - inertia
    lean = math.radians(eng("ROD_ANGLE", 600, 1200, 60, 0, "metric"))
    for name in ("RECIPROCATING_FORCE", "ROD_ANGLE"):
        agree(name, source, 50.65, piston / math.cos(lean) / 1000, rel=5e-4)
        agree(name, source, 10.97, piston * math.tan(lean) / 1000, rel=5e-4)


def test_example_15_9(agree, eng):
    # Bore 0.08, crank 0.05, rod 0.2 m, 1 kg, 0.7 MPa, 1800 rpm, 10 mm and 33 deg from the dead
    # center: 1848 N on the piston, 254 N on the wall.
    source = of("Ex. 15.9, p. 534")
    inertia = eng("RECIPROCATING_FORCE", 1000, 100, 200, 1800, 33, "both", "metric")
    piston = 0.7e6 * math.pi / 4 * 0.08**2 - inertia
    agree("RECIPROCATING_FORCE", source, 1848, piston, rel=2e-3)
    lean = math.radians(eng("ROD_ANGLE", 100, 200, 33, 0, "metric"))
    agree("ROD_ANGLE", source, 254, piston * math.tan(lean), rel=5e-3)
    down = eng("PISTON_POSITION", 100, 200, 33, 0, "metric")
    agree("PISTON_POSITION", source, 10, down, rel=1e-2)


def test_example_15_11(agree, eng):
    # A vertical engine: bore 100, stroke 120, rod 250 mm, 1.1 kg, 2000 rpm, 20 deg, 700 kPa:
    # gas and weight less inertia leave 2255.6 N.
    inertia = eng("RECIPROCATING_FORCE", 1100, 120, 250, 2000, 20, "both", "metric")
    got = 700e3 * math.pi / 4 * 0.1**2 + 1.1 * 9.81 - inertia
    agree("RECIPROCATING_FORCE", of("Ex. 15.11, p. 537"), 2255.6, got, rel=1e-3)

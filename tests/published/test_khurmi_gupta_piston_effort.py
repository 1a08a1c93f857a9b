"""Khurmi & Gupta, Theory of Machines, chapter 15: piston effort, thrust, rod and torque.

The book takes two terms of the inertia force, the catalog the exact acceleration: up to 0.5 %
apart where inertia is large. The torque is also checked by the work that the piston does.
"""

import math

import mpmath
import pytest
from scipy.integrate import quad
from sources import COMPANIONS, independent, printed

BOOK = "Khurmi & Gupta, Theory of Machines"
FORCES = independent("triangle of forces by vectors", mpmath.norm)
WORK = independent("work of the piston over a stroke", quad)


def of(place):
    return printed(BOOK, place, COMPANIONS)


def test_example_15_7(agree, eng):
    # Bore 0.5, crank 0.3, rod 1.2 m, 250 kg, 0.35 MPa, 250 rpm, 60 deg.
    source = of("Ex. 15.7, p. 533")
    effort = eng("PISTON_EFFORT", 500, 350, 250000, 600, 1200, 250, 60, "metric")
    crank = (effort, 600, 1200, 60, "metric")
    got = eng("SIDE_THRUST", *crank) / 1000
    agree("SIDE_THRUST", source, 10.97, got, rel=1e-3)
    agree("PISTON_EFFORT", source, 10.97, got, rel=1e-3)
    agree("ROD_THRUST", source, 50.65, eng("ROD_THRUST", *crank) / 1000, rel=5e-4)
    agree("CRANK_TORQUE", source, 14491, eng("CRANK_TORQUE", *crank), rel=5e-4)


def test_example_15_9(agree, eng):
    # Bore 0.08, crank 0.05, rod 0.2 m, 1 kg, 0.7 MPa, 1800 rpm, 33 deg.
    source = of("Ex. 15.9, p. 534")
    got = eng("PISTON_EFFORT", 80, 700, 1000, 100, 200, 1800, 33, "metric")
    agree("PISTON_EFFORT", source, 1848, got, rel=5e-3)
    agree("ROD_THRUST", source, 1865.8, eng("ROD_THRUST", 1848, 100, 200, 33, "metric"), rel=1e-3)
    agree("SIDE_THRUST", source, 254, eng("SIDE_THRUST", 1848, 100, 200, 33, "metric"), rel=5e-3)


@pytest.mark.parametrize("angle", [0, 20, 95, 180, 250, 380, 700])
@pytest.mark.parametrize("effort", [9000, -4000])
def test_crankpin_by_vectors(agree, eng, angle, effort):
    # 86 mm stroke, 140 mm rod, 0.45 kg on the pin, 6000 rpm. The rod pushes along the line
    # between its ends, the big end outward along the throw.
    turn = math.radians(angle)
    pin = mpmath.matrix([43 * math.sin(turn), 43 * math.cos(turn)])
    piston = mpmath.matrix([0, pin[1] + math.sqrt(140**2 - pin[0] ** 2)])
    rod = (pin - piston) / mpmath.norm(pin - piston)
    along = rod * (effort / -rod[1])
    outward = pin / mpmath.norm(pin) * (0.45 * (6000 * math.pi / 30) ** 2 * 0.043)
    got = eng("CRANKPIN_LOAD", effort, 450, 86, 140, 6000, angle, "metric")
    agree("CRANKPIN_LOAD", FORCES, float(mpmath.norm(along + outward)), got, rel=1e-9)


@pytest.mark.parametrize(("start", "end"), [(0, 180), (10, 75), (180, 330)])
def test_torque_does_the_work_of_the_piston(agree, eng, start, end):
    def torque(turn):
        return eng("CRANK_TORQUE", 1000, 86, 140, math.degrees(turn), "metric")

    work, _ = quad(torque, math.radians(start), math.radians(end))
    here, there = (eng("PISTON_POSITION", 86, 140, at, 0, "metric") for at in (start, end))
    agree("CRANK_TORQUE", WORK, there - here, work, rel=1e-8)


@pytest.mark.parametrize(
    ("place", "cylinder", "effort", "torque"),
    [
        # Vertical, bore 300, stroke 500 mm, rod 4.5 cranks, 280 kg, 180 rpm, 45 deg, 2.1 MPa.
        ("Ex. 15.13, p. 540", (300, 2100, 280000, 500, 1125, 180, 45), 280 * 9.81, 27380),
    ],
)
def test_with_the_weight_of_the_parts(agree, eng, place, cylinder, effort, torque):
    down = eng("PISTON_EFFORT", *cylinder, "metric") + effort
    *_, stroke, rod, _, angle = cylinder
    got = eng("CRANK_TORQUE", down, stroke, rod, angle, "metric")
    for name in ("PISTON_EFFORT", "CRANK_TORQUE"):
        agree(name, of(place), torque, got, rel=1e-3)

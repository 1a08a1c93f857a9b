"""Ports of two-strokes: the crank's circle and the rod's line, integration, mass in the squish."""

import math

import mpmath
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq
from sources import arithmetic, independent

FOUND = independent("angle of a piston's place by search, circle and line", brentq)
SUMMED = independent("adaptive integration of the open area", quad)
MASS = independent("mass leaving the squish band by derivative", mpmath.diff)


def down(stroke, rod, turn):
    """Place of the piston below top dead center, the crankpin taken as a point on a circle."""
    pin = complex(0, stroke / 2) * complex(math.cos(turn), -math.sin(turn))
    return stroke / 2 + rod - (pin.imag + math.sqrt(rod**2 - pin.real**2))


@pytest.mark.parametrize(("stroke", "rod"), [(54.5, 110), (50.6, 85), (72, 125)])
@pytest.mark.parametrize("part", [0.4, 0.5, 0.62, 0.85])
def test_durations(agree, eng, stroke, rod, part):
    edge = part * stroke
    opens = brentq(lambda t: down(stroke, rod, t) - edge, 1e-6, math.pi - 1e-9, xtol=1e-14)
    expected = 360 - 2 * math.degrees(opens)
    got = eng("PORT_DURATION", stroke, rod, edge, "metric")
    agree("PORT_DURATION", FOUND, expected, got, rel=1e-9)
    got = eng("PORT_EDGE_FOR_DURATION", stroke, rod, expected, "metric")
    agree("PORT_EDGE_FOR_DURATION", FOUND, edge, got, rel=1e-9)
    got = eng("PORT_OPENING", stroke, rod, edge, "metric")
    agree("PORT_OPENING", FOUND, math.degrees(opens), got, rel=1e-9)
    trapped = 1 + math.pi / 4 * 5.4**2 * edge / 10 / 9.5
    got = eng("TRAPPED_RATIO", 54, stroke, rod, expected, 9.5, "metric")
    agree("TRAPPED_RATIO", FOUND, trapped, got, rel=1e-9)


@pytest.mark.parametrize(("edge", "height"), [(27.0, 27.5), (40.0, 14.5), (27.0, 12.0)])
def test_time_area(agree, eng, edge, height):
    stroke, rod, width, rpm = 54.5, 110, 42, 11000
    opens = brentq(lambda t: down(stroke, rod, t) - edge, 0.1, 3.1)
    knees = [
        t / 1000
        for t in range(int(opens * 1000), 3141)
        if (down(stroke, rod, t / 1000) - edge - height)
        * (down(stroke, rod, (t + 1) / 1000) - edge - height)
        < 0
    ]
    area, _ = quad(
        lambda t: width * min(down(stroke, rod, t) - edge, height), opens, math.pi,
        points=knees or None, limit=200,
    )  # fmt: skip
    expected = 2 * area / (rpm * math.pi / 30)
    got = eng("PORT_TIME_AREA", width, height, edge, stroke, rod, rpm, "metric")
    agree("PORT_TIME_AREA", SUMMED, expected, got, rel=1e-5)


@pytest.mark.parametrize("angle", [-60, -20, -8, 0, 12])
def test_squish(agree, eng, angle):
    bore, stroke, rod, bowl, volume, squish, rpm = 54.0, 54.5, 110.0, 38.0, 9000.0, 1.0, 11000
    speed = rpm * mpmath.pi / 30

    def gap(turn):
        side = stroke / 2 * mpmath.sin(turn)
        return squish + stroke / 2 * (1 - mpmath.cos(turn)) + rod - mpmath.sqrt(rod**2 - side**2)

    def whole(turn):
        return mpmath.pi / 4 * bore**2 * gap(turn) + volume

    def in_the_band(turn):
        return mpmath.pi / 4 * (bore**2 - bowl**2) * gap(turn) / whole(turn)

    turn = mpmath.radians(angle)
    leaving = -mpmath.diff(in_the_band, turn) * speed
    expected = float(leaving * whole(turn) / (mpmath.pi * bowl * gap(turn)) / 1000)
    got = eng("SQUISH_VELOCITY", bore, stroke, rod, bowl, 9, squish, rpm, angle, "metric")
    agree("SQUISH_VELOCITY", MASS, expected, got, rel=1e-6, abs=1e-6)


def test_oil(agree, eng):
    agree("PREMIX_OIL", arithmetic(), 156.25, eng("PREMIX_OIL", 5, 32, "metric"))
    # A US gallon is 231 cu in of 16.387064 cc.
    agree("PREMIX_OIL", arithmetic(), 231 * 16.387064 / 40, eng("PREMIX_OIL", 1, 40))

"""Khurmi & Gupta, Theory of Machines, chapter 15: piston velocity and acceleration.

The book's analytical answers use the first two terms of the series; ours are exact. The
tolerance of each check is what the book's own approximation leaves open.
"""

from sources import COMPANIONS, printed

BOOK = "Khurmi & Gupta, Theory of Machines"


def of(place):
    return printed(BOOK, place, COMPANIONS)


def fpm(meters_per_second):
    return meters_per_second / 0.3048 * 60


def test_example_15_3(agree, eng):
    # Crank 0.3 m, rod 1 m, 200 rpm: 6.54 m/s at 75 deg.
    source = of("Ex. 15.3, p. 527")
    got = eng("PEAK_PISTON_SPEED", 600, 1000, 200, "metric")
    agree("PEAK_PISTON_SPEED", source, 6.54, got, rel=0.004)
    got = eng("PEAK_SPEED_ANGLE", 600, 1000, "metric")
    agree("PEAK_SPEED_ANGLE", source, 75.0, got, abs=0.6)


def test_example_15_4(agree, eng):
    # Crank 0.3 m, rod 1.5 m, 180 rpm, 40 deg from the inner dead center: 4.19 m/s and
    # 85.35 m/s2; the acceleration is zero at 79.27 deg.
    source = of("Ex. 15.4, p. 528")
    got = eng("PISTON_VELOCITY", 600, 1500, 40, 180, 0, "metric")
    agree("PISTON_VELOCITY", source, 4.19, got, rel=0.003)
    got = eng("PISTON_VELOCITY", "600 mm", "1500 mm", 40, 180)
    agree("PISTON_VELOCITY", source, fpm(4.19), got, rel=0.003)
    got = eng("PISTON_ACCELERATION", 600, 1500, 40, 180, 0, "metric")
    agree("PISTON_ACCELERATION", source, 85.36, got, rel=0.003)
    got = eng("PISTON_ACCELERATION", "600 mm", "1500 mm", 40, 180)
    agree("PISTON_ACCELERATION", source, 85.36 / 0.3048, got, rel=0.003)
    got = eng("PEAK_SPEED_ANGLE", 600, 1500, "metric")
    agree("PEAK_SPEED_ANGLE", source, 79.27, got, abs=0.2)


def test_example_15_5(agree, eng):
    # Crank 0.15 m, rod 0.6 m, 450 rpm, 60 deg: 6.9 m/s and 124.94 m/s2.
    source = of("Ex. 15.5, p. 528")
    got = eng("PISTON_VELOCITY", 300, 600, 60, 450, 0, "metric")
    agree("PISTON_VELOCITY", source, 6.9, got, abs=0.01)
    got = eng("PISTON_ACCELERATION", 300, 600, 60, 450, 0, "metric")
    agree("PISTON_ACCELERATION", source, 124.91, got, rel=0.001)


def test_example_15_1(agree, eng):
    # By a drawing: crank 0.2 m, rod 0.7 m, 120 rad/s, 30 deg: 15.24 m/s and 2880 m/s2.
    source = of("Ex. 15.1, p. 521, graphical")
    got = eng("PISTON_VELOCITY", 400, 700, 30, "120 rad/s", 0, "metric")
    agree("PISTON_VELOCITY", source, 15.24, got, rel=0.02)
    got = eng("PISTON_ACCELERATION", 400, 700, 30, "120 rad/s", 0, "metric")
    agree("PISTON_ACCELERATION", source, 2880, got, rel=0.02)

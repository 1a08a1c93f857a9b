"""Slider-crank motion: numerical derivatives of a position found by circle and line.

The pin's height comes from the meeting of the rod's circle with the pin's line in 40 digits;
velocity and acceleration are its numerical derivatives by mpmath, the fastest point is found
by search. No closed form of velocity or acceleration is used.
"""

import math

import mpmath
import pytest
from each_case import each
from scipy.optimize import minimize_scalar
from sources import independent

SOURCE = independent("slider-crank by circle and line", mpmath.findroot, mpmath.diff)
LOWEST = independent("lowest point of the pin, circle and line", minimize_scalar, mpmath.findroot)
# Half stroke mm, rod mm, pin offset mm, rpm.
CRANKS = [
    (43.0, 145.0, 0.0, 6000),
    (43.0, 145.0, 1.0, 6000),
    (43.0, 145.0, -1.0, 6000),
    (44.196, 152.4, 0.5, 6500),
    (30.0, 36.0, -2.0, 12000),
]


def height(throw, rod, offset):
    """Height of the pin above the crank's center as a function of the angle in radians."""

    def at(angle):
        x, y = throw * mpmath.sin(angle), throw * mpmath.cos(angle)
        # Distance from the pin (offset, h) to the crankpin (x, y) is the rod.
        return mpmath.findroot(
            lambda h: (h - y) ** 2 + (offset - x) ** 2 - mpmath.mpf(rod) ** 2,
            mpmath.mpf(throw + rod),
        )

    return at


@each("angle", [-360, -45, 0, 1, 30, 60, 90, 135, 180, 200, 300, 500])
@each(("throw", "rod", "offset", "rpm"), CRANKS)
def test_derivatives(agree, eng, throw, rod, offset, rpm, angle):
    with mpmath.workdps(40):
        at = height(mpmath.mpf(throw), mpmath.mpf(rod), mpmath.mpf(offset))
        theta = mpmath.radians(angle)
        omega = rpm * mpmath.pi / 30
        velocity = float(-mpmath.diff(at, theta) * omega / 1000)
        acceleration = float(-mpmath.diff(at, theta, 2) * omega**2 / 1000)
    arguments = (2 * throw, rod, angle, rpm, offset, "metric")
    got = eng("PISTON_VELOCITY", *arguments)
    agree("PISTON_VELOCITY", SOURCE, velocity, got, rel=1e-11, abs=1e-11)
    got = eng("PISTON_ACCELERATION", *arguments)
    agree("PISTON_ACCELERATION", SOURCE, acceleration, got, rel=1e-11, abs=1e-8)


@pytest.mark.parametrize(("throw", "rod", "offset", "rpm"), [c for c in CRANKS if c[2] == 0.0])
def test_dead_center_acceleration(agree, eng, throw, rod, offset, rpm):
    with mpmath.workdps(40):
        at = height(mpmath.mpf(throw), mpmath.mpf(rod), mpmath.mpf(0))
        expected = float(-mpmath.diff(at, 0, 2) * (rpm * mpmath.pi / 30) ** 2 / 1000)
    got = eng("TDC_ACCELERATION", 2 * throw, rod, rpm, "metric")
    agree("TDC_ACCELERATION", SOURCE, expected, got, rel=1e-11)


@pytest.mark.parametrize(
    ("offset", "angle", "velocity", "acceleration"),
    [
        # Stroke 86 mm, rod 145 mm, 6000 rpm.
        (0, 0, 0.0, 22009.898477),
        (0, 30, 17.016987613, 17332.453504),
        (0, 60, 26.987776835, 5975.370492),
        (0, 90, 27.017696821, -5271.298834),
        (0, 120, 19.808246762, -11000.349078),
        (0, 150, 10.000709208, -12070.355286),
        (0, 180, 0.0, -11941.540663),
        (1, 0, -0.186333375, 22010.257655),
        (1, 30, 16.850407474, 17380.952550),
        (1, 90, 27.017696821, -5137.337136),
        (1, 180, 0.186333375, -11941.181485),
        (1, 270, -27.017696821, -5406.164792),
    ],
)
def test_against_the_table(agree, eng, offset, angle, velocity, acceleration):
    arguments = (86, 145, angle, 6000, offset, "metric")
    agree("PISTON_VELOCITY", SOURCE, velocity, eng("PISTON_VELOCITY", *arguments), abs=1e-9)
    got = eng("PISTON_ACCELERATION", *arguments)
    agree("PISTON_ACCELERATION", SOURCE, acceleration, got, abs=1e-6)


def test_peaks_against_the_table(agree, eng):
    got = eng("PEAK_PISTON_SPEED", 86, 145, 6000, "metric")
    agree("PEAK_PISTON_SPEED", SOURCE, 28.188301190, got, abs=1e-9)
    got = eng("PEAK_SPEED_ANGLE", 86, 145, "metric")
    agree("PEAK_SPEED_ANGLE", SOURCE, 74.673913264, got, abs=1e-9)
    got = eng("PEAK_PISTON_SPEED", 3.480, 6.000, 6500) * 0.3048 / 60
    agree("PEAK_PISTON_SPEED", SOURCE, 31.330209121, got, abs=1e-9)
    agree("PEAK_SPEED_ANGLE", SOURCE, 74.951926749, eng("PEAK_SPEED_ANGLE", 3.48, 6), abs=1e-9)
    got = eng("TDC_ACCELERATION", 3.480, 6.000, 6500) * 0.3048
    agree("TDC_ACCELERATION", SOURCE, 26415.365512, got, abs=1e-6)


@pytest.mark.parametrize("ratio", [1.01, 1.2, 1.5, 2.0, 3.0, 3.4, 5.0, 10.0, 40.0])
def test_fastest_point_by_search(agree, eng, ratio):
    # Rod to crank radius from hardly possible to endless; positions from circle and line.
    rod = 50.0 * ratio

    def rising(angle, step=1e-4):
        x = [eng("PISTON_POSITION", 100, rod, math.degrees(angle + s), 0, "metric")
             for s in (-step, step)]  # fmt: skip
        return -(x[1] - x[0]) / (2 * step)

    found = minimize_scalar(rising, bounds=(0.0, math.pi), method="bounded")
    got = eng("PEAK_SPEED_ANGLE", 100, rod, "metric")
    source = independent("search over the piston's position", minimize_scalar)
    agree("PEAK_SPEED_ANGLE", source, math.degrees(found.x), got, abs=0.02)
    speed = eng("PEAK_PISTON_SPEED", 100, rod, 6000, "metric")
    agree("PEAK_PISTON_SPEED", source, -found.fun / 1000 * 200 * math.pi, speed, rel=1e-6)


@each("angle", [0, 33, 90, 150, 180, 250, 360])
@each(("throw", "rod", "offset", "rpm"), CRANKS)
def test_rod_angle_between_vectors(agree, eng, throw, rod, offset, rpm, angle):
    theta = math.radians(angle)
    h = float(height(throw, rod, offset)(theta))
    # From the piston pin to the crankpin, against straight down.
    across, down = throw * math.sin(theta) - offset, h - throw * math.cos(theta)
    got = eng("ROD_ANGLE", 2 * throw, rod, angle, offset, "metric")
    expected = math.degrees(math.atan2(across, down))
    agree(
        "ROD_ANGLE",
        independent("angle between vectors", mpmath.findroot),
        expected,
        got,
        rel=1e-9,
        abs=1e-9,
    )


@each("closing", [-20, 0, 30, 58, 75, 110])
@each(("throw", "rod", "offset", "rpm"), CRANKS)
def test_effective_stroke_from_the_lowest_point(agree, eng, throw, rod, offset, rpm, closing):
    # The bottom is where the pin is lowest by search; closing counts from there.
    at = height(throw, rod, offset)
    bottom = minimize_scalar(
        lambda a: float(at(a)), bounds=(math.pi - 0.7, math.pi + 0.7), method="bounded",
        options={"xatol": 1e-10},
    ).x  # fmt: skip
    top = math.sqrt((rod + throw) ** 2 - offset**2)
    expected = top - float(at(bottom + math.radians(closing)))
    got = eng("EFFECTIVE_STROKE", 2 * throw, rod, closing, offset, "metric")
    agree("EFFECTIVE_STROKE", LOWEST, expected, got, rel=1e-6)
    ratio = eng("DYNAMIC_RATIO", 10, 2 * throw, rod, closing, offset, "metric")
    least = 2 * throw / 9
    agree(
        "DYNAMIC_RATIO", LOWEST,
        (least + expected) / least, ratio, rel=1e-6,
    )  # fmt: skip

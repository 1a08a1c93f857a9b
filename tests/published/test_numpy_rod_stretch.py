"""Rods and bolts in tension as chains of short bars, each with its own stiffness.

The pull is the second derivative of the piston pin's path; the chain is solved for the place of
each joint, so that the whole stretch is where its end has gone.
"""

import math

import mpmath
import numpy as np
import pytest
from sources import independent

from workbook_tools.catalog import tables

CHAIN = independent("chain of short bars", np.linalg.solve)
PULLED = independent("pin's path differentiated, chain of short bars", mpmath.diff, np.linalg.solve)


def stretched(force, pieces, modulus):
    """How far the end of a held chain goes: pieces as (length, area), SI."""
    stiff = [modulus * area / length for length, area in pieces]
    size = len(stiff)
    matrix = np.zeros((size, size))
    for number, rate in enumerate(stiff):
        matrix[number, number] += rate
        if number:
            matrix[number - 1, number - 1] += rate
            matrix[number - 1, number] -= rate
            matrix[number, number - 1] -= rate
    load = np.zeros(size)
    load[-1] = force
    return float(np.linalg.solve(matrix, load)[-1])


def pull(mass, throw, rod, rpm):
    """Inertia at the top dead center in N: kg and m in."""
    omega = rpm * mpmath.pi / 30

    def height(time):
        angle = omega * time
        return throw * mpmath.cos(angle) + mpmath.sqrt(rod**2 - (throw * mpmath.sin(angle)) ** 2)

    with mpmath.workdps(40):
        return float(-mass * mpmath.diff(height, 0, 2))


@pytest.mark.parametrize("material", ["alloy steel", "titanium", "aluminum"])
@pytest.mark.parametrize(
    ("grams", "stroke", "rod", "rpm", "square_mm"),
    [(734, 88.4, 151.0, 7100, 231.0), (289, 51.2, 98.5, 12500, 96.0)],
)
def test_rod_stretch(agree, eng, material, grams, stroke, rod, rpm, square_mm):
    pieces = [(rod / 1000 / 50, square_mm * 1e-6)] * 50
    force = pull(grams / 1000, stroke / 2000, rod / 1000, rpm)
    expected = 1000 * stretched(force, pieces, tables.modulus(material))
    got = eng("ROD_STRETCH", grams, stroke, rod, rpm, square_mm, material, "metric")
    agree("ROD_STRETCH", PULLED, expected, got, rel=1e-9)


def test_bolt_of_three_diameters(agree, eng):
    lengths, diameters, force = (31.0, 12.0, 9.5), (9.4, 11.0, 9.85), 41e3
    pieces = [
        (length / 10000, math.pi / 4 * (across / 1000) ** 2)
        for length, across in zip(lengths, diameters, strict=True)
        for _ in range(10)
    ]
    expected = 1000 * stretched(force, pieces, tables.modulus("alloy steel"))
    sizes = ((lengths,), (diameters,), "alloy steel", "metric")
    agree("BOLT_STRETCH", CHAIN, expected, eng("BOLT_STRETCH", force, *sizes), rel=1e-9)
    agree("BOLT_RATE", CHAIN, force / expected, eng("BOLT_RATE", *sizes), rel=1e-9)
    got = eng("PRELOAD_FROM_STRETCH", expected, *sizes)
    agree("PRELOAD_FROM_STRETCH", CHAIN, force, got, rel=1e-9)

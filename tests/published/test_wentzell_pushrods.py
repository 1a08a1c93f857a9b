"""Wentzell, Machine Design, chapter 3, and the bending of a column as an eigenvalue."""

import math

import numpy
import pytest
from scipy.linalg import eigh_tridiagonal
from sources import COMPANIONS, independent, printed

BOOK = printed("Wentzell, Machine Design", "Ex. 3.5, p. 53", COMPANIONS)
EIGENVALUE = independent("lowest load of a bent column by differences", eigh_tridiagonal)


def test_a_solid_rod(agree, eng):
    # 5/8 in, 30 in long, 42 ksi, 30 million psi: 2464 lbf.
    got = eng("PUSHROD_BUCKLING", 0.625, 0.3125, 30, 42000)
    agree("PUSHROD_BUCKLING", BOOK, 2464, got, rel=2e-3)


@pytest.mark.parametrize(("diameter", "wall", "length"), [(8, 1, 260), (7.9375, 2.032, 240)])
def test_a_slender_tube(agree, eng, diameter, wall, length):
    # E * I * y'' = -P * y with both ends held, on 2000 intervals.
    inertia = math.pi / 64 * (diameter**4 - (diameter - 2 * wall) ** 4)
    step = length / 2000
    lowest = eigh_tridiagonal(
        numpy.full(1999, 2.0), numpy.full(1998, -1.0), select="i", select_range=(0, 0)
    )[0][0]
    # The modulus of the table's steel, as a rod of it grows by its own stress.
    stiff = eng("BOLT_RATE", ((100,),), ((10,),), "steel", "metric") * 100 / (math.pi / 4 * 100)
    expected = stiff * inertia * lowest / step**2
    got = eng("PUSHROD_BUCKLING", diameter, wall, length, 1500, "steel", "metric")
    agree("PUSHROD_BUCKLING", EIGENVALUE, expected, got, rel=1e-5)

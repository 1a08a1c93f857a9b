"""Spring surge against the eigenvalues of a chain of masses and springs, by scipy."""

import math

import numpy as np
import pytest
from scipy.linalg import eigh_tridiagonal
from sources import independent

SOURCE = independent("lowest eigenvalue of a spring cut into 4000 masses", eigh_tridiagonal)


def lowest_frequency(rate, mass, pieces=4000):
    """Lowest natural frequency in Hz of a spring with both ends held; N/m and kg."""
    piece_mass = mass / pieces
    piece_rate = rate * pieces
    diagonal = np.full(pieces - 1, 2 * piece_rate / piece_mass)
    beside = np.full(pieces - 2, -piece_rate / piece_mass)
    (square,) = eigh_tridiagonal(
        diagonal, beside, select="i", select_range=(0, 0), eigvals_only=True
    )
    return math.sqrt(square) / (2 * math.pi)


@pytest.mark.parametrize(
    ("wire", "mean", "active", "modulus", "density"),
    [(4.0e-3, 26e-3, 5.5, 79.3e9, 7850.0), (5.2e-3, 31e-3, 4.6, 77.2e9, 7850.0)],
)
def test_surge_of_valve_springs(agree, eng, wire, mean, active, modulus, density):
    rate = wire**4 * modulus / (8 * mean**3 * active)
    mass = math.pi / 4 * wire**2 * math.pi * mean * active * density
    total = active + 2
    got = eng("SPRING_SURGE", rate / 1000, mass * 1000 * total / active, active, total, "metric")
    agree("SPRING_SURGE", SOURCE, lowest_frequency(rate, mass), got, rel=1e-6)

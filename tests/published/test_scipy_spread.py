"""Spread of readings as the farthest that any two of them lie apart, by scipy's distances."""

from fractions import Fraction
from itertools import combinations

import numpy as np
import pytest
from scipy.optimize import minimize_scalar
from scipy.spatial.distance import pdist
from sources import independent

SOURCE = independent("farthest apart of any two readings", pdist)


def block(values):
    return tuple(tuple(float(value) for value in row) for row in values)


def apart(values):
    """The longest distance between two of these readings."""
    return float(pdist(np.reshape(values, (-1, 1))).max())


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("shape", [(3, 2), (2, 2), (4, 3), (2, 5)])
def test_shape_of_bores_and_journals(agree, eng, shape, seed):
    # Heights down, directions across.
    readings = np.round(86 + np.random.default_rng(seed).normal(0, 0.006, shape), 3)
    for part in ("BORE", "JOURNAL"):
        down = max(apart(column) for column in readings.T)
        across = max(apart(row) for row in readings)
        got = eng(f"{part}_TAPER", block(readings), "metric")
        agree(f"{part}_TAPER", SOURCE, down, got, abs=1e-11)
        got = eng(f"{part}_OUT_OF_ROUND", block(readings), "metric")
        agree(f"{part}_OUT_OF_ROUND", SOURCE, across, got, abs=1e-11)


@pytest.mark.parametrize("seed", range(4))
def test_matched_set(agree, eng, seed):
    masses = np.round(np.random.default_rng(seed).normal(512, 1, (2, 4)), 1)
    got = eng("MASS_SPREAD", block(masses))
    agree("MASS_SPREAD", SOURCE, apart(masses), got, abs=1e-9)


@pytest.mark.parametrize("seed", range(4))
def test_cylinders(agree, eng, seed):
    chance = np.random.default_rng(seed)
    leakages = np.round(chance.uniform(2, 9, (2, 4)), 1)
    got = eng("LEAKAGE_SPREAD", block(leakages), 8)
    agree("LEAKAGE_SPREAD", SOURCE, apart(leakages), got, abs=1e-12)
    pressures = np.round(chance.uniform(140, 190, (1, 6)))
    got = eng("PRESSURE_SPREAD", block(pressures), 6)
    # Of all pairs, the one in which the weaker lacks the largest share of the stronger.
    lacking = max(1 - Fraction(min(p), max(p)) for p in combinations(map(int, pressures[0]), 2))
    source = independent("every pair of cylinders in exact fractions", combinations)
    agree("PRESSURE_SPREAD", source, float(lacking), got)
    got = eng("READING_SPREAD", block(pressures), 6)
    agree("READING_SPREAD", SOURCE, apart(pressures), got)


@pytest.mark.parametrize("seed", range(4))
def test_mean_is_what_misses_the_readings_least(agree, eng, seed):
    # The value that makes the sum of squares least.
    readings = np.round(86 + np.random.default_rng(seed).normal(0, 0.006, (1, 6)), 3)
    found = minimize_scalar(lambda x: ((1000 * (readings - 86 - x)) ** 2).sum(), bounds=(-1, 1))
    got = eng("MEAN_READING", block(readings), 6, "metric")
    source = independent("least sum of squares", minimize_scalar)
    agree("MEAN_READING", source, 86 + float(found.x), got, abs=1e-8)

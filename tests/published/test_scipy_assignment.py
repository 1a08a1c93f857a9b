"""Matching of parts by scipy's solver of the linear assignment problem."""

import itertools

import numpy as np
import pytest
from each_case import each
from scipy.optimize import linear_sum_assignment
from sources import independent

SOURCE = independent("the linear assignment problem", linear_sum_assignment)


def row(values):
    return (tuple(float(value) for value in values),)


@each("seed", range(12))
@each(("cylinders", "shelf"), [(1, 1), (2, 3), (4, 4), (6, 9), (8, 8), (8, 20)])
def test_pistons_to_bores(agree, eng, seed, cylinders, shelf):
    chance = np.random.default_rng(seed)
    bores = np.round(4.030 + chance.normal(0, 0.0004, cylinders), 4)
    pistons = np.round(4.026 + chance.normal(0, 0.0004, shelf), 4)
    cost = (bores[:, None] - pistons[None, :] - 0.0040) ** 2
    chosen = np.array(eng("PISTONS_TO_BORES", row(bores), row(pistons), 0.0040)[0], int) - 1
    assert len(set(chosen)) == cylinders
    best = cost[linear_sum_assignment(cost)].sum()
    got = cost[range(cylinders), chosen].sum()
    agree("PISTONS_TO_BORES", SOURCE, best * 1e6, got * 1e6, rel=1e-6, abs=1e-9)


def test_squares_are_least_not_the_worst_miss(agree, eng):
    # Tenths of a thousandth off for the two bores: 4 and 0 by squares, 3 and 3 else.
    bores, pistons = np.array([4.0300, 4.0303]), np.array([4.0256, 4.0263, 4.0266])
    cost = (bores[:, None] - pistons[None, :] - 0.0040) ** 2
    _, best = linear_sum_assignment(cost)
    chosen = eng("PISTONS_TO_BORES", row(bores), row(pistons), 0.0040)[0]
    assert list(best) == [0, 1]
    for expected, got in zip(best, chosen, strict=True):
        agree("PISTONS_TO_BORES", SOURCE, int(expected) + 1, got)


@pytest.mark.parametrize("seed", range(8))
def test_parts_to_sets(agree, eng, seed):
    # The evenest pairing of all there are, and the one with least squares by scipy.
    chance = np.random.default_rng(seed)
    rods, pistons = np.round(chance.normal(600, 2, 6), 1), np.round(chance.normal(510, 2, 6), 1)
    chosen = np.array(eng("PARTS_TO_SETS", row(rods), row(pistons))[0], int) - 1
    assert sorted(chosen) == list(range(6))
    sums = rods + pistons[chosen]
    spreads = [np.ptp(rods + pistons[list(p)]) for p in itertools.permutations(range(6))]
    source = independent("every pairing tried", itertools.permutations)
    agree("PARTS_TO_SETS", source, float(min(spreads)), float(np.ptp(sums)), abs=1e-9)
    cost = (rods[:, None] + pistons[None, :]) ** 2
    best = cost[linear_sum_assignment(cost)].sum()
    agree("PARTS_TO_SETS", SOURCE, float(best), float((sums**2).sum()), rel=1e-12)

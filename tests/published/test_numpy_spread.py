"""Spread of readings by numpy: taper, out-of-round, matched sets, cylinders, verdicts."""

import numpy as np
import pytest

SOURCE = "numpy.ptp"


def block(values):
    return tuple(tuple(float(value) for value in row) for row in values)


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("shape", [(3, 2), (2, 2), (4, 3), (2, 5)])
def test_shape_of_bores_and_journals(agree, eng, shape, seed):
    readings = np.round(86 + np.random.default_rng(seed).normal(0, 0.006, shape), 3)
    for part in ("BORE", "JOURNAL"):
        down = float(np.ptp(readings, axis=0).max())
        across = float(np.ptp(readings, axis=1).max())
        got = eng(f"{part}_TAPER", block(readings), "metric")
        agree(f"{part}_TAPER", SOURCE, down, got, abs=1e-11)
        got = eng(f"{part}_OUT_OF_ROUND", block(readings), "metric")
        agree(f"{part}_OUT_OF_ROUND", SOURCE, across, got, abs=1e-11)


@pytest.mark.parametrize("seed", range(4))
def test_matched_set(agree, eng, seed):
    masses = np.round(np.random.default_rng(seed).normal(512, 1, (2, 4)), 1)
    got = eng("MASS_SPREAD", block(masses))
    agree("MASS_SPREAD", SOURCE, float(np.ptp(masses)), got, abs=1e-9)


@pytest.mark.parametrize("seed", range(4))
def test_cylinders(agree, eng, seed):
    chance = np.random.default_rng(seed)
    leakages = np.round(chance.uniform(2, 9, (2, 4)), 1)
    got = eng("LEAKAGE_SPREAD", block(leakages), 8)
    agree("LEAKAGE_SPREAD", SOURCE, float(np.ptp(leakages)), got, abs=1e-12)
    pressures = np.round(chance.uniform(140, 190, (1, 6)))
    got = eng("PRESSURE_SPREAD", block(pressures), 6)
    agree("PRESSURE_SPREAD", SOURCE, float(np.ptp(pressures) / pressures.max()), got)
    got = eng("READING_SPREAD", block(pressures), 6)
    agree("READING_SPREAD", SOURCE, float(np.ptp(pressures)), got)
    got = eng("MEAN_READING", block(pressures), 6)
    agree("MEAN_READING", "numpy.mean", float(np.mean(pressures)), got, rel=1e-12)


@pytest.mark.parametrize("seed", range(8))
def test_a_range_against_its_band(agree, eng, seed):
    readings = np.round(np.random.default_rng(seed).normal(0.0020, 0.0003, (1, 5)), 4)
    low, high = 0.0016, 0.0024
    under, over = bool((readings < low).any()), bool((readings > high).any())
    expected = {(0, 0): "ok", (1, 0): "low", (0, 1): "high", (1, 1): "low and high"}[under, over]
    agree("JUDGE", "numpy.any", expected, eng("JUDGE", block(readings), 5, low, high))

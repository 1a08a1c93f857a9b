"""Spread of readings by numpy: taper, out-of-round and matched sets."""

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

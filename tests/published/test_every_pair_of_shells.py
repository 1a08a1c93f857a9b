"""Half-shells from a shelf: every pair tried, in exact decimals."""

import itertools
from decimal import Decimal

import numpy as np
import pytest
from sources import independent

SOURCE = independent("every pair tried", itertools.combinations_with_replacement)


@pytest.mark.parametrize("seed", range(10))
def test_nearest_pair(agree, eng, seed):
    chance = np.random.default_rng(seed)
    housing = Decimal(26400 + int(chance.integers(0, 20))) / 10000
    journal = Decimal(24480 + int(chance.integers(0, 8))) / 10000
    wanted = Decimal(int(chance.integers(18, 30))) / 10000
    walls = [Decimal(940 + int(n)) / 10000 for n in chance.integers(0, 22, 6)]
    misses = [
        abs(housing - thin - thick - journal - wanted)
        for thin, thick in itertools.combinations_with_replacement(sorted(walls), 2)
        if thick - thin <= Decimal("0.0005") and housing - thin - thick > journal
    ]
    shelf = (tuple(float(wall) for wall in walls),)
    thin, thick, left = eng(
        "SHELL_FOR_CLEARANCE", float(housing), float(journal), float(wanted), shelf
    )[0]
    got = abs(left - float(wanted))
    agree("SHELL_FOR_CLEARANCE", SOURCE, float(min(misses)), got, abs=1e-9)
    assert thick - thin <= 0.0005 + 1e-9
    assert left == pytest.approx(float(housing) - thin - thick - float(journal), abs=1e-9)

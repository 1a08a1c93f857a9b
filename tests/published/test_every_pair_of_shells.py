"""Half-shells from a shelf: every pair tried, in exact decimals."""

import itertools
from decimal import Decimal

import numpy as np
import pytest
from sources import independent

SOURCE = independent("every pair tried", itertools.combinations_with_replacement)


def tried(housing, journal, wanted, walls):
    """The least miss of all pairs, and how far the halves of the pair that has it differ."""
    pairs = itertools.combinations_with_replacement(sorted(set(walls)), 2)
    return min(
        (abs(housing - thin - thick - journal - wanted), thick - thin)
        for thin, thick in pairs
        if thick - thin <= Decimal("0.0005") and housing - thin - thick > journal
    )


def compare(agree, eng, housing, journal, wanted, walls):
    miss, unlike = tried(housing, journal, wanted, walls)
    shelf = (tuple(float(wall) for wall in walls),)
    sizes = (float(housing), float(journal), float(wanted), shelf)
    thin, thick, left = eng("SHELL_FOR_CLEARANCE", *sizes)[0]
    got = abs(left - float(wanted))
    agree("SHELL_FOR_CLEARANCE", SOURCE, float(miss), got, abs=1e-9)
    agree("SHELL_FOR_CLEARANCE", SOURCE, float(unlike), thick - thin, abs=1e-9)
    assert left == pytest.approx(float(housing) - thin - thick - float(journal), abs=1e-9)


@pytest.mark.parametrize("seed", range(10))
def test_nearest_pair(agree, eng, seed):
    chance = np.random.default_rng(seed)
    housing = Decimal(26400 + int(chance.integers(0, 20))) / 10000
    journal = Decimal(24480 + int(chance.integers(0, 8))) / 10000
    wanted = Decimal(int(chance.integers(18, 30))) / 10000
    walls = [Decimal(940 + int(n)) / 10000 for n in chance.integers(0, 22, 6)]
    compare(agree, eng, housing, journal, wanted, walls)


@pytest.mark.parametrize(
    ("wanted", "walls"),
    [
        # Halves just as unlike as they may be, and by a hair too much.
        ("0.0020", ("0.0940", "0.0945")),
        ("0.0021", ("0.09400", "0.09452", "0.0950")),
        # Of two pairs as near, the one of equal halves.
        ("0.0023", ("0.09425", "0.09450", "0.09475")),
        # The nearest would grip the journal.
        ("0.0005", ("0.0945", "0.0958", "0.0956")),
    ],
)
def test_pairs_at_the_edge(agree, eng, wanted, walls):
    sizes = map(Decimal, ("2.6400", "2.4487", wanted))
    compare(agree, eng, *sizes, [Decimal(wall) for wall in walls])

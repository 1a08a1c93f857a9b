"""Limits and runs of a fit from build to build, against ISO 7870-2 and order statistics."""

import math
import random

import pytest
from scipy.integrate import quad
from scipy.stats import norm

from workbook_tools.month.control import (
    IN_A_ROW,
    LIMIT_FACTOR,
    ON_ONE_SIDE,
    control,
)


def test_the_limits_factor_is_that_of_moving_ranges_of_two():
    # ISO 7870-2:2013, table of constants: E2 = 2.660, d2 = 1.128 (from memory). d2 is the mean
    # range of two normal values, worked out here by integration.
    d2, _ = quad(lambda x: 1 - norm.cdf(x) ** 2 - norm.sf(x) ** 2, -8, 8)
    assert d2 == pytest.approx(2 / math.sqrt(math.pi), rel=1e-6)
    # The standard rounds d2 to three decimals, and what it makes of it again.
    assert round(3 / round(d2, 3), 3) == LIMIT_FACTOR


def test_limits_are_those_of_the_mean_and_the_mean_moving_range():
    # Values whose moving ranges are all 2, around 11.
    values = [10.0, 12.0] * 10
    told = control(values)
    assert (told.mean, told.low, told.high) == pytest.approx((11, 11 - 5.32, 11 + 5.32))
    assert told.signs == ()


def test_of_too_few_or_equal_values_there_are_no_limits():
    assert control([10.0, 12.0] * 9 + [10.0]).low is None
    assert control([0.0025] * 30).low is None
    assert control([0.0025] * 30).signs == ()
    with pytest.raises(ValueError, match="expected one or more"):
        control([])


def test_a_hone_that_drifts_is_seen_and_one_that_does_not_seldom():
    # Two hundred series of 24 builds, from seeds: piston clearance in inches by a gauge of 0.0001,
    # and the same with a hone that loses 0.0001 in every two builds.
    alarms = seen = 0
    for seed in range(200):
        rng = random.Random(seed)
        steady = [round(0.0030 + rng.gauss(0, 0.0002), 4) for _ in range(24)]
        alarms += bool(control(steady).signs)
        seen += bool(control([value + 0.00005 * n for n, value in enumerate(steady)]).signs)
    assert alarms <= 40
    assert seen >= 180


def test_one_engine_far_from_the_others_is_named():
    values = [10.0, 12.0] * 10
    values[13] = 30.0
    (sign,) = [s for s in control(values).signs if s.kind == "outside"]
    assert sign.points == (13,)


@pytest.mark.parametrize("fewer", [0, 1])
def test_a_run_is_a_sign_from_its_length_on(fewer):
    run = [5.0 + n % 2 for n in range(ON_ONE_SIDE - fewer)]
    told = control([*run, *[-9.0, -8.0] * 4])
    assert any(s.kind == "above" for s in told.signs) == (not fewer)
    rising = control([*map(float, range(IN_A_ROW - fewer)), -1.0])
    assert any(s.kind == "rising" for s in rising.signs) == (not fewer)

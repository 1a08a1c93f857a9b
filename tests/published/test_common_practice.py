"""Facts of the trade: common practice, no source.

Each is a rule or a figure that a builder would know, never a sum of two numbers of ours.
"""

import pytest
from sources import practice

SOURCE = practice()


def test_top_ring_gap_of_a_street_engine(agree, eng):
    # 0.019 in on a bore a little over 4 in, unboosted, read to the nearest thousandth or so.
    gap = eng("RING_GAP", 4.165, eng("RING_GAP_FACTOR", "street", "top"))
    agree("RING_GAP_FACTOR", SOURCE, 0.019, gap, abs=0.0006)


def test_a_coated_production_piston_measures_over_its_bore(eng):
    assert eng("PISTON_CLEARANCE", 81.000, 81.010, "metric") < 0


def test_a_thousandth_of_bearing_clearance_per_inch_of_journal(agree, eng):
    got = eng("BEARING_CLEARANCE_FACTOR", "street")
    agree("BEARING_CLEARANCE_FACTOR", SOURCE, 0.001, got)


def test_a_quench_is_judged_against_its_band(agree, eng):
    # A street quench of 0.035 to 0.045 in; the limits themselves still pass.
    for quench, word in [(0.034, "low"), (0.035, "ok"), (0.045, "ok"), (0.046, "high")]:
        agree("VERDICT", SOURCE, word, eng("VERDICT", quench, 0.035, 0.045))


@pytest.mark.parametrize(
    ("readings", "word"),
    [
        ((0.0021, 0.0024, 0.0020, 0.0030, 0.0023), "ok"),
        ((0.0021, 0.0024, 0.0019, 0.0025, 0.0023), "low"),
        ((0.0021, 0.0024, 0.0022, 0.0025, 0.0031), "high"),
        ((0.0019, 0.0024, 0.0022, 0.0025, 0.0031), "low and high"),
    ],
)
def test_five_main_bearings_against_their_band(agree, eng, readings, word):
    # 0.0020 to 0.0030 in.
    agree("JUDGE", SOURCE, word, eng("JUDGE", (readings,), 5, 0.0020, 0.0030))


def test_gap_of_a_ring_grows_by_three_thousandths_for_each_thousandth_of_bore(agree, eng):
    # 0.00314 in of gap for 0.001 in of bore.
    got = eng("RING_GAP_AFTER_HONE", 0.018, 4.000, 4.001) - 0.018
    agree("RING_GAP_AFTER_HONE", SOURCE, 0.00314, got, abs=5e-6)


def test_residual_unbalance_of_two_ounce_inches_pulls(agree, eng):
    # 14 lb at 2000 rpm, 227 lb at 8000 rpm.
    agree("UNBALANCE_FORCE", SOURCE, 14, eng("UNBALANCE_FORCE", 2, 2000), abs=0.5)
    agree("UNBALANCE_FORCE", SOURCE, 227, eng("UNBALANCE_FORCE", 2, 8000), abs=0.5)


def test_race_rod_bolt_stretches_five_to_seven_thousandths(agree, eng):
    # At about three quarters of 160 000 psi on a 0.376 in shank, 1.1 in long, and 0.55 in of
    # 7/16-20 thread, whose area is that of a 0.3888 in bar.
    preload = 0.75 * 160000 * 0.111
    got = eng("BOLT_STRETCH", preload, ((1.1, 0.55),), ((0.376, 0.3888),))
    agree("BOLT_STRETCH", SOURCE, 0.006, got, abs=0.001)


def test_half_to_three_quarter_turns_lie_in_the_usual_preload(agree, eng):
    # Half to three quarters of a turn and 0.020 to 0.060 in are said for the same lifters, here
    # on a stud of 24 threads an inch.
    for turns in (0.5, 0.75):
        preload = eng("LIFTER_PRELOAD", turns, 1 / 24, 1.5)
        agree("LIFTER_PRELOAD", practice("0.020 to 0.060 in"), 0.040, preload, abs=0.020)


def test_cubic_feet_a_minute_from_cubic_inches(agree, eng):
    # Cubic inches times rpm over 3456 (two turns, 1728 cu in to a cu ft), at 100 % filling.
    agree("AIRFLOW", SOURCE, 350 * 6000 / 3456, eng("AIRFLOW", 350, 6000, 1))
    agree("AIRFLOW", SOURCE, 350 * 6000 / 1728, eng("AIRFLOW", 350, 6000, 1, 2))


def test_lowest_cylinder_against_the_highest(agree, eng):
    # The lowest is to be at least 75 % of the highest: a share of 0.25.
    source = practice("the lowest 75 % of the highest")
    agree("PRESSURE_SPREAD", source, 0.25, eng("PRESSURE_SPREAD", ((180, 135, 175, 178),), 4))

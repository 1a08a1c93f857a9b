"""Shigley, Mechanical Engineering Design, 9th edition (Budynas & Nisbett): bolts, bearings."""

import pytest
from sources import from_memory, printed

BOOK = "Budynas & Nisbett, Shigley's Mechanical Engineering Design, 9e"
AREA = printed(BOOK, "Table 8-2, p. 413")

# Table 8-2, p. 413 (from ANSI B1.1): tensile stress area in sq in. The table cuts the last
# figure of some off instead of rounding it.
AREAS = {
    "1/4-20": 0.0318, "1/4-28": 0.0364, "5/16-18": 0.0524, "5/16-24": 0.0580,
    "3/8-16": 0.0775, "3/8-24": 0.0878, "7/16-14": 0.1063, "7/16-20": 0.1187,
    "1/2-13": 0.1419, "1/2-20": 0.1599, "3/4-10": 0.334, "3/4-16": 0.373,
}  # fmt: skip


@pytest.mark.parametrize("thread", AREAS)
def test_table_8_2(agree, eng, thread):
    tolerance = 0.0001 if AREAS[thread] < 0.2 else 0.0005
    got = eng("THREAD_STRESS_AREA", thread)
    agree("THREAD_STRESS_AREA", AREA, AREAS[thread], got, abs=tolerance)


@pytest.mark.parametrize(
    ("thread", "area"),
    [("#6-32", 0.00909), ("#8-32", 0.0140), ("#10-24", 0.0175), ("#10-32", 0.0200)],
)
def test_table_8_2_numbered_sizes(agree, eng, thread, area):
    got = eng("THREAD_STRESS_AREA", thread)
    agree("THREAD_STRESS_AREA", from_memory(BOOK, "Table 8-2"), area, got, abs=0.00006)


def test_area_of_a_half_inch_thread_from_its_pitch(agree, eng):
    got = eng("THREAD_AREA_FROM_PITCH", 0.5, 1 / 13, "inch")
    agree("THREAD_AREA_FROM_PITCH", AREA, 0.1419, got, abs=0.0001)


def test_example_8_3(agree, eng):
    # 3/4-16 bolt of grade 5, preload 25 kip, load 6 kip, rates 6.50 and 13.8 Mlbf/in: bolt
    # stress 72.17 kpsi against 85 of proof, area 0.373 sq in.
    source = printed(BOOK, "Example 8-3, p. 439")
    share = 6.50 / (6.50 + 13.8)
    proof = eng("PROOF_LOAD", "3/4-16", "grade 5")
    agree("PROOF_LOAD", source, 85000 * 0.373, proof, rel=1e-3)
    margin = eng("BOLT_MARGIN", proof, 25000, 6000, share)
    agree("BOLT_MARGIN", source, 85 / 72.17, margin, rel=1e-3)
    at_rest = eng("BOLT_MARGIN", proof, 25000, 6000, 0)
    agree("BOLT_MARGIN", source, 85 / 67.02, at_rest, rel=1e-3)
    # What the load takes from the joint is its whole less the bolt's share of it.
    gaping = eng("JOINT_MARGIN", 25000, 6000, share)
    agree("JOINT_MARGIN", source, 25 / (6 * (1 - 0.320)), gaping, rel=1e-3)


def test_torque_of_example_8_3(agree, eng):
    # 0.2 * 25 000 lbf * 0.75 in = 3750 lbf.in; by equation 8-26 with friction 0.15 in thread
    # and collar, its mean diameter 1.25 d: 3551 lbf.in.
    source = from_memory(BOOK, "answers of Example 8-3")
    agree("TORQUE_FOR_PRELOAD", source, 3750 / 12, eng("TORQUE_FOR_PRELOAD", 25000, 0.75, 0.2))
    agree("PRELOAD_FROM_TORQUE", source, 25000, eng("PRELOAD_FROM_TORQUE", 312.5, 0.75, 0.2))
    factor = eng("NUT_FACTOR", 0.75, 1 / 16, 0.15, 0.15, 1.25 * 0.75)
    agree("NUT_FACTOR", source, 3551 / 18750, factor, rel=3e-3)


def test_bearing_examples_12_1_to_12_4(agree, eng):
    # 500 lbf on a bearing 1.5 by 1.5 in, radial clearance 0.0015 in, 4 microreyn, 30 turns a
    # second: S 0.135, eccentricity 0.58 and film 0.000 63 in, as read from charts.
    source = from_memory(BOOK, "Examples 12-1 to 12-4")
    bearing = (500, 1.5, 1.5, 0.003, "4e-6 reyn", 1800)
    agree("BEARING_UNIT_LOAD", source, 222, eng("BEARING_UNIT_LOAD", 500, 1.5, 1.5), abs=0.5)
    agree("SOMMERFELD_NUMBER", source, 0.135, eng("SOMMERFELD_NUMBER", *bearing), rel=2e-3)
    agree("FILM_ECCENTRICITY", source, 0.58, eng("FILM_ECCENTRICITY", *bearing), abs=0.01)
    agree("FILM_THICKNESS", source, 0.00063, eng("FILM_THICKNESS", *bearing), rel=0.02)

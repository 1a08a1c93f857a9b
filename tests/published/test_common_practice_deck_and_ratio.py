"""Facts of the trade about deck, quench, ratio and motion: common practice, no source."""

import pytest
from sources import practice

SOURCE = practice()


@pytest.mark.parametrize(
    ("material", "per_hundred"), [("aluminum", 0.00128), ("gray iron", 0.00059), ("steel", 0.00065)]
)
def test_growth_an_inch_for_a_hundred_degrees(agree, eng, material, per_hundred):
    # Rounded figures for alloys of every kind.
    got = eng("BLOCK_GROWTH", 1, 100, material)
    agree("BLOCK_GROWTH", SOURCE, per_hundred, got, rel=0.08)


def test_ten_thousandths_of_gasket_are_a_quarter_point(agree, eng):
    # A V8 of about 45 cu in a cylinder, near 10:1.
    swept = eng("CYLINDER_VOLUME", 4.125, 3.375)
    ratios = [
        eng("COMPRESSION_RATIO", swept, 68, eng("GASKET_VOLUME", 4.180, thickness), 1.8, 3)
        for thickness in (0.040, 0.050)
    ]
    agree("COMPRESSION_RATIO", SOURCE, 0.25, ratios[0] - ratios[1], abs=0.02)
    agree("GASKET_VOLUME", SOURCE, 0.25, ratios[0] - ratios[1], abs=0.02)


@pytest.mark.parametrize("rod", [5.22, 5.7, 6.0, 6.96])
def test_peak_piston_speed_over_the_mean(agree, eng, rod):
    # About 1.57 to 1.65 times, rod ratios 1.5 to 2.0.
    mean = eng("MEAN_PISTON_SPEED", 3.48, 6500)
    got = eng("PEAK_PISTON_SPEED", 3.48, rod, 6500) / mean
    agree("PEAK_PISTON_SPEED", SOURCE, 1.61, got, abs=0.05)


@pytest.mark.parametrize(("stroke", "speed"), [(3.0, 6000), (3.48, 6500), (4.0, 5500)])
def test_mean_piston_speed_by_the_sixth(agree, eng, stroke, speed):
    # Stroke in inches times rpm over 6, in feet per minute.
    got = eng("MEAN_PISTON_SPEED", stroke, speed)
    agree("MEAN_PISTON_SPEED", SOURCE, stroke * speed / 6, got)


def test_crevice_of_a_top_land_is_about_a_cc(agree, eng):
    got = eng("RING_LAND_VOLUME", 4.030, 4.000, 0.300)
    agree("RING_LAND_VOLUME", SOURCE, 1.0, got, abs=0.2)


def test_cranking_pressure_of_a_healthy_engine(agree, eng):
    # Trapped ratios of 7.5 to 8.5 on pump fuel crank to some 145 to 185 psi.
    for ratio in (7.5, 8.0, 8.5):
        got = eng("CRANKING_PRESSURE", ratio)
        agree("CRANKING_PRESSURE", practice(memory=True), 165, got, abs=20)


def test_steel_rods_keep_thirty_five_thousandths(agree, eng):
    # The least quench with steel rods, 0.035 in, rules out the thinner of two gaskets.
    shelf = ((0.027, 0.040),)
    got = eng("NEAREST_GASKET", 0.030, 0.002, 0, shelf, 0.035)
    agree("NEAREST_GASKET", SOURCE, 0.040, got)

"""Heywood, Internal Combustion Engine Fundamentals, chapter 2 (engine geometry)."""

import math

import pytest

SOURCE = "Heywood, Internal Combustion Engine Fundamentals, ch. 2"
# Bore and stroke 86 mm, rod 145 mm, compression ratio 10.
BORE, STROKE, ROD, RATIO = 86.0, 86.0, 145.0, 10.0


def volume_by_ratio(angle):
    """Cylinder volume in cc by equation 2.6 (number from memory), which knows no position."""
    swept = math.pi / 4 * BORE**2 * STROKE / 1000
    least = swept / (RATIO - 1)
    r = ROD / (STROKE / 2)
    theta = math.radians(angle)
    rest = r + 1 - math.cos(theta) - math.sqrt(r**2 - math.sin(theta) ** 2)
    return least * (1 + (RATIO - 1) / 2 * rest)


@pytest.mark.parametrize("angle", [0, 1, 30, 60, 90, 120, 179, 180, 270, 400, 720])
def test_volume_by_position_is_the_volume_by_ratio(agree, eng, angle):
    # Equations 2.4 and 2.5 build the volume on the piston's position.
    position = eng("PISTON_POSITION", STROKE, ROD, angle, 0, "metric")
    swept = eng("CYLINDER_VOLUME", BORE, STROKE, "metric")
    got = swept / (RATIO - 1) + math.pi / 4 * BORE**2 * position / 1000
    agree("PISTON_POSITION", f"{SOURCE}, eqs 2.4 to 2.6", volume_by_ratio(angle), got, rel=1e-12)


def test_mean_piston_speed(agree, eng):
    # S = 2 L N, equation 2.9: 86 mm at 6000 rpm is 2 * 0.086 m * 100 / s.
    got = eng("MEAN_PISTON_SPEED", 86, 6000, "metric")
    agree("MEAN_PISTON_SPEED", f"{SOURCE}, eq. 2.9", 17.2, got, rel=1e-12)
    # 3.480 in at 6500 rpm: 2 * 0.29 ft * 6500 per minute.
    got = eng("MEAN_PISTON_SPEED", 3.480, 6500)
    agree("MEAN_PISTON_SPEED", f"{SOURCE}, eq. 2.9", 3770.0, got, rel=1e-12)


def test_ratios_of_a_square_engine(agree, eng):
    agree("BORE_STROKE_RATIO", SOURCE, 1.0, eng("BORE_STROKE_RATIO", BORE, STROKE, "metric"))
    # R of chapter 2 is rod length to crank radius, twice the trade's rod to stroke.
    got = 2 * eng("ROD_STROKE_RATIO", ROD, STROKE, "metric")
    agree("ROD_STROKE_RATIO", SOURCE, 145 / 43, got)


@pytest.mark.parametrize(
    ("angle", "volume"),
    [(0, 55.506357), (30, 98.280839), (60, 208.646547), (90, 343.173271), (120, 458.425154),
     (180, 555.063571)],
)  # fmt: skip
def test_cylinder_volume_at(agree, eng, angle, volume):
    # Bore and stroke 86 mm, rod 145 mm, compression ratio 10, computed from equation 2.6.
    clearance = eng("CYLINDER_VOLUME", BORE, STROKE, "metric") / (RATIO - 1)
    got = eng("CYLINDER_VOLUME_AT", BORE, STROKE, ROD, angle, clearance, 0, "metric")
    agree("CYLINDER_VOLUME_AT", f"{SOURCE}, eq. 2.6", volume, got, abs=1e-6)
    agree("CYLINDER_VOLUME_AT", f"{SOURCE}, eq. 2.6", volume_by_ratio(angle), got, rel=1e-12)


def test_engine_speed_for_a_mean_piston_speed(agree, eng):
    got = eng("SPEED_FOR_PISTON_SPEED", 17.2, 86, "metric")
    agree("SPEED_FOR_PISTON_SPEED", f"{SOURCE}, eq. 2.9", 6000, got, rel=1e-12)
    got = eng("SPEED_FOR_PISTON_SPEED", 3770, 3.480)
    agree("SPEED_FOR_PISTON_SPEED", f"{SOURCE}, eq. 2.9", 6500, got, rel=1e-12)


@pytest.mark.parametrize("ratio", [8.0, 9.5, 10.0, 12.5])
def test_clearance_volume_gives_the_ratio(agree, eng, ratio):
    # Compression ratio as (displaced + clearance) / clearance.
    swept = eng("CYLINDER_VOLUME", BORE, STROKE, "metric")
    clearance = eng("CLEARANCE_VOLUME", swept / (ratio - 1) - 9, 6, 1, 2)
    agree("CLEARANCE_VOLUME", SOURCE, ratio, (swept + clearance) / clearance)
    got = eng("COMPRESSION_RATIO", swept, swept / (ratio - 1) - 9, 6, 1, 2)
    agree("COMPRESSION_RATIO", SOURCE, ratio, got)


@pytest.mark.parametrize("ratio", [8.5, 9.5, 11.0])
def test_what_is_found_for_a_ratio_leaves_its_clearance_volume(agree, eng, ratio):
    # By the definition of the ratio, clearance is displaced volume over ratio less one.
    swept = math.pi / 4 * 8.6**2 * 8.6
    clearance = swept / (ratio - 1)
    disk = math.pi / 4 * 8.7**2 / 10  # cc for each mm of an 87 mm gasket
    chamber, gasket, deck = clearance - 12.0, 7.0, 1.5
    got = chamber + gasket + deck + eng("DISH_FOR_RATIO", ratio, swept, chamber, gasket, deck)
    agree("DISH_FOR_RATIO", SOURCE, clearance, got)
    thickness = eng("GASKET_FOR_RATIO", ratio, swept, chamber, deck, 87, 2.0, "metric")
    agree("GASKET_FOR_RATIO", SOURCE, clearance, chamber + deck + 2.0 + thickness * disk)
    got = eng("CHAMBER_FOR_RATIO", ratio, swept, gasket, deck, 2.0) + gasket + deck + 2.0
    agree("CHAMBER_FOR_RATIO", SOURCE, clearance, got)
    # Too large by 5 cc: the cut takes just these.
    cut = eng("DECK_CUT_FOR_RATIO", ratio, swept, chamber + 5, gasket, deck, 86, 3.5, "metric")
    agree("DECK_CUT_FOR_RATIO", SOURCE, 5.0, cut * math.pi / 4 * 8.6**2 / 10, rel=1e-8)

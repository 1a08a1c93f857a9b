"""Ratios and volumes at the edges: what cannot be, signs, and nothing to cut."""

import math

import pytest
from each_case import each

from workbook_tools.catalog import ArgumentError, calculate, find


def refusal(name, *arguments):
    with pytest.raises(ArgumentError) as raised:
        calculate(find(name), arguments)
    return str(raised.value)


def test_volumes_are_cc_in_both_systems(eng):
    assert eng("GASKET_VOLUME", 4, 0.04) == pytest.approx(
        eng("GASKET_VOLUME", 101.6, 1.016, "metric")
    )
    assert eng("COMPRESSION_RATIO", 700, 64, 9, 1) == eng(
        "COMPRESSION_RATIO", 700, 64, 9, 1, 0, "metric"
    )
    assert eng("COMPRESSION_RATIO", "700 cc", "64 ml", "9 cc", 1) == pytest.approx(
        eng("COMPRESSION_RATIO", 700, 64, 9, 1)
    )


def test_a_dome_raises_the_ratio_and_a_dish_lowers_it(eng):
    flat = eng("COMPRESSION_RATIO", 700, 64, 9, 1)
    assert (
        eng("COMPRESSION_RATIO", 700, 64, 9, 1, -5)
        > flat
        > eng("COMPRESSION_RATIO", 700, 64, 9, 1, 5)
    )


def test_a_piston_above_the_deck_takes_room(eng):
    assert eng("DECK_VOLUME", 4, -0.005) < 0
    assert eng("DECK_VOLUME", 4, 0) == 0


POSSIBLE = "expected a ratio above 1 and 50 at most"


@pytest.mark.parametrize("name", ["COMPRESSION_RATIO", "CLEARANCE_VOLUME"])
def test_volumes_that_leave_no_room(name):
    swept = (700,) if name == "COMPRESSION_RATIO" else ()
    expected = (
        "chamber_volume: expected large enough that chamber, gasket, deck and crown together "
        "stay above 0"
    )
    assert refusal(name, *swept, 64, 9, 1, -74) == f"{expected}, got 64"
    assert refusal(name, *swept, 64, 9, 1, -80) == f"{expected}, got 64"


@each(
    ("name", "arguments", "expected"),
    [
        (
            "CHAMBER_FOR_RATIO", (20, 700, 30, 10),
            "compression_ratio: expected a ratio that leaves room for a chamber beside gasket, "
            "deck and crown, got 20",
        ),
        (
            "GASKET_FOR_RATIO", (20, 700, 64, 1, 4.1),
            "compression_ratio: expected a ratio that leaves room for a gasket beside chamber, "
            "deck and crown, got 20",
        ),
        (
            "DECK_CUT_FOR_RATIO", (8, 700, 64, 9, 1, 4),
            "compression_ratio: expected no less than the ratio there is without a cut, got 8",
        ),
        (
            "RING_LAND_VOLUME", (4.0, 4.0, 0.3),
            "land_diameter: expected less than the bore, got 4",
        ),
        (
            "RING_LAND_VOLUME", (4.0, 0.4, 0.3),
            "land_diameter: expected a size within 10 % of the bore, got 0.4",
        ),
        ("GASKET_VOLUME", (0, 0.04), "gasket_bore: expected a length above 0, got 0"),
        ("CHAMBER_CHANGE", (0.01, 0), "chamber_area: expected an area above 0, got 0"),
        ("OTTO_EFFICIENCY", (1,), f"compression_ratio: {POSSIBLE}, got 1"),
        ("OTTO_EFFICIENCY", (103,), f"compression_ratio: {POSSIBLE}, got 103"),
        (
            "OTTO_EFFICIENCY", (9, 1),
            "heat_ratio: expected a factor above 1 and 1.67 at most, got 1",
        ),
        ("CRANKING_PRESSURE", (1,), "dynamic_ratio: expected above 1, got 1"),
        (
            "CRANKING_PRESSURE", (8, 50000),
            "altitude: expected an altitude from -3280.83 to 36089.2 ft, got 50000",
        ),
        ("BOOSTED_RATIO", (9, 0), "boost: expected a pressure above 0, got 0"),
        (
            "BOOSTED_RATIO", (9, 8, "guess"),
            'rule: expected one of "equal pressure", "straight", got \'guess\'',
        ),
        (
            "DYNAMIC_RATIO", (9, 3.41, 5.85, 180),
            "intake_closing: expected an angle above -180 and below 180 deg, got 180",
        ),
        (
            "RATIO_UNCERTAINTY",
            (4, 3.5, 64, 4.1, 0.04, 0, 0, -0.001, 0, 0, 0, 0, 0, 0),
            "bore_uncertainty: expected a length 0 or more, got -0.001",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused(name, arguments, expected):
    assert refusal(name, *arguments) == expected


def test_nothing_to_cut_is_zero_not_a_hair(eng):
    ratio = eng("COMPRESSION_RATIO", 727.4118, 64.1, 8.654, 1.045, 5.3)
    cut = eng("DECK_CUT_FOR_RATIO", ratio, 727.4118, 64.1, 8.654, 1.045, 4.030, 5.3)
    assert cut == pytest.approx(0, abs=1e-12)


def test_a_ratio_as_the_trade_writes_it(eng):
    assert eng("CHAMBER_FOR_RATIO", "10.5:1", 700, 9, 1) == eng(
        "CHAMBER_FOR_RATIO", 10.5, 700, 9, 1
    )


def test_a_valve_that_closes_at_the_bottom_traps_the_whole_stroke(eng):
    assert eng("EFFECTIVE_STROKE", 3.41, 5.85, 0) == pytest.approx(3.41, rel=1e-14)
    assert eng("DYNAMIC_RATIO", 10, 3.41, 5.85, 0) == pytest.approx(10, rel=1e-13)
    later = eng("DYNAMIC_RATIO", 10, 3.41, 5.85, 60)
    assert later < eng("DYNAMIC_RATIO", 10, 3.41, 5.85, 40) < 10


def test_cam_degrees_are_not_taken_for_the_closing(eng):
    assert "'deg cam' is not a unit of angle" in refusal(
        "DYNAMIC_RATIO", 10, 3.41, 5.85, "58 deg cam"
    )


def test_boost_is_measured_above_the_air_outside(eng):
    # One atmosphere of boost doubles the charge; high up less boost does.
    assert eng("BOOSTED_RATIO", 8, "1 atm", "straight") == pytest.approx(16)
    assert eng("BOOSTED_RATIO", 8, "1 atm") == pytest.approx(8 * 2 ** (1 / 1.4))
    assert eng("BOOSTED_RATIO", 8, 10, "straight", 5000) > eng("BOOSTED_RATIO", 8, 10, "straight")


def test_an_exponent_of_one_keeps_the_temperature(eng):
    assert eng("COMPRESSION_TEMPERATURE", 10, 80, 1) == pytest.approx(80)


def test_an_exact_engine_has_no_uncertainty_and_more_of_one_gives_more(eng):
    sizes = (4.030, 3.410, 64.0, 4.100, 0.040, 0.005, 5.0)
    assert eng("RATIO_UNCERTAINTY", *sizes, *[0] * 7) == 0
    small = eng("RATIO_UNCERTAINTY", *sizes, 0.0002, 0.001, 0.3, 0.005, 0.001, 0.001, 0.2)
    double = eng("RATIO_UNCERTAINTY", *sizes, 0.0004, 0.002, 0.6, 0.010, 0.002, 0.002, 0.4)
    assert double == pytest.approx(2 * small)
    assert math.isfinite(small)
    assert small > 0

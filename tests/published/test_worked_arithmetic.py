"""Invented engines computed once by hand and calculator: worked arithmetic, no source.

They hold the arithmetic together from end to end; the evidence for each function is in the
files named after a source.
"""

import pytest

SOURCE = "worked arithmetic, no source"


def test_displacement_of_a_flat_twin_and_of_a_rebored_four(agree, eng):
    agree("CYLINDER_VOLUME", SOURCE, 495.2469, eng("CYLINDER_VOLUME", 92, 74.5, "metric"), abs=5e-5)
    for bore, stroke, cylinders, total in [
        (92, 74.5, 2, 990.4939),
        (86.5, 91, 4, 2139.0625),
        (87, 91, 4, 2163.8630),
    ]:
        got = eng("DISPLACEMENT", bore, stroke, cylinders, "metric")
        agree("DISPLACEMENT", SOURCE, total, got, abs=5e-5)


def test_six_bores(agree, eng):
    bores = ((3.9052, 3.9055, 3.9051, 3.9058, 3.9054, 3.9053),)
    agree("MEAN_READING", SOURCE, 3.905383, eng("MEAN_READING", bores, 6), abs=5e-7)
    agree("READING_SPREAD", SOURCE, 0.0007, eng("READING_SPREAD", bores, 6), abs=1e-9)
    each = eng("DISPLACEMENT", bores, 3.6250, 1)
    agree("DISPLACEMENT", SOURCE, 260.54124, sum(each[0]), abs=5e-6)


def test_stack_of_volumes(agree, eng):
    swept = eng("CYLINDER_VOLUME", 4.030, 3.480)
    gasket = eng("GASKET_VOLUME", 4.100, 0.040)
    deck = eng("DECK_VOLUME", 4.030, 0.005)
    agree("CYLINDER_VOLUME", SOURCE, 727.4118429, swept, abs=5e-8)
    agree("GASKET_VOLUME", SOURCE, 8.6540368, gasket, abs=5e-8)
    agree("DECK_VOLUME", SOURCE, 1.0451320, deck, abs=5e-8)
    ratio = eng("COMPRESSION_RATIO", swept, 64, gasket, deck, 5)
    agree("COMPRESSION_RATIO", SOURCE, 10.2429419, ratio, abs=5e-8)
    chamber = eng("CHAMBER_FOR_RATIO", ratio, swept, gasket, deck, 5)
    agree("CHAMBER_FOR_RATIO", SOURCE, 64.0, chamber)


@pytest.mark.parametrize(
    ("bore", "stroke", "chamber", "crown", "deck", "gasket_bore", "gasket", "units", "ratio"),
    [
        (4.11, 3.54, 66.4, 5.2, 0.008, 4.18, 0.041, "inch", 10.32207),
        (4.11, 3.54, 66.4, 5.2, 0.008, 4.11, 0.041, "inch", 10.35678),
        (87, 91, 47.2, 9.6, -0.150, 88, 0.950, "metric", 9.76962),
        (87, 91, 47.2, -9.6, -0.150, 88, 0.950, "metric", 13.73271),
        (98.5, 62, 46.8, -6.4, 0.250, 99.5, 0.500, "metric", 11.22773),
        (3.9054, 3.625, 69.5, 10, 0.012, 3.97, 0.043, "inch", 8.85610),
    ],
)
def test_compression_ratio(
    agree, eng, bore, stroke, chamber, crown, deck, gasket_bore, gasket, units, ratio
):
    swept = eng("CYLINDER_VOLUME", bore, stroke, units)
    gasket_volume = eng("GASKET_VOLUME", gasket_bore, gasket, units)
    deck_volume = eng("DECK_VOLUME", bore, deck, units)
    got = eng("COMPRESSION_RATIO", swept, chamber, gasket_volume, deck_volume, crown)
    agree("COMPRESSION_RATIO", SOURCE, ratio, got, abs=5e-6)


def test_chamber_for_a_wanted_ratio(agree, eng):
    swept = eng("CYLINDER_VOLUME", 3.9054, 3.6250)
    gasket = eng("GASKET_VOLUME", 3.97, 0.043)
    deck = eng("DECK_VOLUME", 3.9054, 0.012)
    got = eng("CHAMBER_FOR_RATIO", "9.1:1", swept, gasket, deck, 10)
    agree("CHAMBER_FOR_RATIO", SOURCE, 66.77257, got, abs=5e-6)


def test_deck_clearance_by_stack_and_the_quench_over_it(agree, eng):
    deck = eng("DECK_CLEARANCE", 9.3200, 3.5400, 6.0000, 1.5420)
    agree("DECK_CLEARANCE", SOURCE, 0.0080, deck, abs=1e-12)
    corners = ((9.3205,), (9.3170,), (9.3225,), (9.3210,))
    each = eng("DECK_CLEARANCE", corners, 3.5400, 6.0000, 1.5420)
    for (got,), expected in zip(each, (0.0085, 0.0050, 0.0105, 0.0090), strict=True):
        agree("DECK_CLEARANCE", SOURCE, expected, got, abs=1e-12)
    agree("QUENCH", SOURCE, 0.8000, eng("QUENCH", -0.150, 0.950, "metric"), abs=1e-12)

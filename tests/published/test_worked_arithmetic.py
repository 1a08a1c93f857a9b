"""Invented engines computed once by hand and calculator: worked arithmetic, no source.

They hold the arithmetic together from end to end, units and signs included, and are no outside
evidence; that stands in the files named after a source.
"""

import pytest
from sources import arithmetic

SOURCE = arithmetic()


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


def test_ring_gaps_by_use(agree, eng):
    for factor, gap in [
        (0.0045, 0.018495),
        (0.0050, 0.020550),
        (0.0055, 0.022605),
        (0.0070, 0.028770),
    ]:
        agree("RING_GAP", SOURCE, gap, eng("RING_GAP", 4.1100, factor), abs=1e-12)
    for bore, gap in [(3.9055, 0.019257), (3.9058, 0.020199), (3.9051, 0.018000)]:
        got = eng("RING_GAP_AFTER_HONE", 0.0180, 3.9051, bore)
        agree("RING_GAP_AFTER_HONE", SOURCE, gap, got, abs=1e-6)
    worn = eng("RING_GAP_AFTER_HONE", 0.0180, 3.9111, 3.9051)
    agree("RING_GAP_AFTER_HONE", SOURCE, -0.000850, worn, abs=1e-6)


def test_ring_in_groove_and_bore(agree, eng):
    agree(
        "RING_SIDE_CLEARANCE", SOURCE, 0.0015, eng("RING_SIDE_CLEARANCE", 0.0645, 0.063), abs=1e-12
    )
    got = eng("RING_BACK_CLEARANCE", 100, 91.4, 4.1, "metric")
    agree("RING_BACK_CLEARANCE", SOURCE, 0.2, got, abs=1e-12)


def test_finished_sizes_of_piston_and_bore(agree, eng):
    agree("PISTON_CLEARANCE", SOURCE, 0.0040, eng("PISTON_CLEARANCE", 4.0305, 4.0265), abs=1e-12)
    got = eng("PISTON_SIZE_FOR_CLEARANCE", 4.0305, 0.0040)
    agree("PISTON_SIZE_FOR_CLEARANCE", SOURCE, 4.0265, got)
    agree("HONE_TO_SIZE", SOURCE, 4.0305, eng("HONE_TO_SIZE", 4.0265, 0.0040))
    # Sleeve 130 mm, stroke 86 mm, piston 50 mm long and 0.2 mm above the deck: 5.8 mm out.
    got = eng("SKIRT_EXPOSURE", -0.2, 86, 50, 130, "metric")
    agree("SKIRT_EXPOSURE", SOURCE, 5.8, got, abs=1e-12)


def test_shape_of_a_bore_and_a_journal(agree, eng):
    # Three heights by two axes: taper 0.0004 along the thrust axis, 0.0003 out of round at
    # the second height.
    bore = ((4.0304, 4.0302), (4.0303, 4.0300), (4.0300, 4.0301))
    agree("BORE_TAPER", SOURCE, 0.0004, eng("BORE_TAPER", bore), abs=1e-12)
    agree("BORE_OUT_OF_ROUND", SOURCE, 0.0003, eng("BORE_OUT_OF_ROUND", bore), abs=1e-12)
    journal = ((54.001, 53.996), (53.999, 53.998))
    agree("JOURNAL_TAPER", SOURCE, 0.002, eng("JOURNAL_TAPER", journal, "metric"), abs=1e-12)
    got = eng("JOURNAL_OUT_OF_ROUND", journal, "metric")
    agree("JOURNAL_OUT_OF_ROUND", SOURCE, 0.005, got, abs=1e-12)


def test_five_main_bearings(agree, eng):
    housings = ((2.6410, 2.6408, 2.6412, 2.6409, 2.6411),)
    journals = ((2.4486, 2.4483, 2.4485, 2.4486, 2.4483),)
    got = eng("BEARING_CLEARANCE", housings, 0.0950, journals)[0]
    for expected, clearance in zip((0.0024, 0.0025, 0.0027, 0.0023, 0.0028), got, strict=True):
        agree("BEARING_CLEARANCE", SOURCE, expected, clearance, abs=1e-12)
    # One half-shell 0.0005 in thicker brings the third from 0.0027 to 0.0022.
    shelf = ((0.0945, 0.0950, 0.0955, None),)
    thin, thick, left = eng("SHELL_FOR_CLEARANCE", 2.6412, 2.4485, 0.0022, shelf)[0]
    agree("SHELL_FOR_CLEARANCE", SOURCE, 0.0022, left, abs=1e-12)
    assert (thin, thick) == pytest.approx((0.0950, 0.0955))


def test_end_play_and_rod_side_clearance(agree, eng):
    agree("END_PLAY", SOURCE, 0.006, eng("END_PLAY", 1.1855, 1.1795), abs=1e-12)
    got = eng("ROD_SIDE_CLEARANCE", 1.895, 0.940, 2)
    agree("ROD_SIDE_CLEARANCE", SOURCE, 0.015, got, abs=1e-12)


def test_bobweight_of_a_v_and_of_a_single(agree, eng):
    # Grams: big end and shells; piston, pin, rings, locks, small end; oil 4 a journal.
    rotating = ((468.3,), (44.6,))
    reciprocating = ((512.4,), (128.6,), (41.8,), (2.2,), (176.9,))
    for factor, grams in [(0.50, 1891.7), (0.52, 1926.176)]:
        got = eng("BOBWEIGHT", rotating, reciprocating, factor, 2, 4)
        agree("BOBWEIGHT", SOURCE, grams, got)
    single = eng("BOBWEIGHT", 262.0, ((338.5, 74.2, 14.6, 1.8, 118.0),), 0.60, 1)
    agree("BOBWEIGHT", SOURCE, 590.26, single)
    agree("MASS_SPREAD", SOURCE, 1.3, eng("MASS_SPREAD", ((512.4, 511.9, 513.2, 512.0),)))


def test_rod_bolt_by_stretch_and_by_torque(agree, eng):
    # Shank 0.376 by 1.1 in, 0.55 in of thread of 0.1187 sq in, stretch 0.0058 in, 30e6 psi.
    bolt = (((1.1, 0.55),), ((0.376, (0.1187 * 4 / 3.141592653589793) ** 0.5),))
    got = eng("PRELOAD_FROM_STRETCH", 0.0058, *bolt)
    agree("PRELOAD_FROM_STRETCH", SOURCE, 11966.83, got, rel=1e-3)
    agree("BOLT_RATE", SOURCE, 2063247.2, eng("BOLT_RATE", *bolt), rel=1e-3)
    got = eng("TORQUE_FOR_PRELOAD", 11966.83, 0.4375, 0.120)
    agree("TORQUE_FOR_PRELOAD", SOURCE, 52.3549, got, rel=1e-6)
    got = eng("PRELOAD_FROM_TORQUE", 40, 10, 0.140, "metric")
    agree("PRELOAD_FROM_TORQUE", SOURCE, 28571.43, got, rel=1e-6)
    # M10, 90 deg of 1.25 mm pitch, shared between bolt and joint by their rates.
    got = eng("PRELOAD_FROM_ANGLE", 90, 1.25, 100000, 300000, "metric")
    agree("PRELOAD_FROM_ANGLE", SOURCE, 0.3125 * 75000, got)


def test_the_way_back_to_every_part_of_a_ratio(agree, eng):
    # The four with pistons standing proud, to be lowered to 8.8.
    swept = eng("CYLINDER_VOLUME", 87, 91, "metric")
    deck = eng("DECK_VOLUME", 87, -0.150, "metric")
    got = eng("GASKET_FOR_RATIO", 8.8, swept, 47.2, deck, 88, 9.6, "metric")
    agree("GASKET_FOR_RATIO", SOURCE, 2.21079, got, abs=5e-6)
    gasket = eng("GASKET_VOLUME", 88, 0.950, "metric")
    got = eng("DISH_FOR_RATIO", 8.8, swept, 47.2, gasket, deck)
    agree("DISH_FOR_RATIO", SOURCE, 17.26827, got, abs=5e-6)
    for rule, ratio in [("straight", 15.74794), ("equal pressure", 13.33558)]:
        got = eng("BOOSTED_RATIO", 8.8, "0.80 bar", rule)
        agree("BOOSTED_RATIO", SOURCE, ratio, got, abs=5e-6)


def test_skim_of_a_head(agree, eng):
    got = eng("MILLING_FOR_CHAMBER_CHANGE", 2.72743, 61.00, "metric")
    agree("MILLING_FOR_CHAMBER_CHANGE", SOURCE, 0.44712, got, abs=5e-6)
    got = eng("MILLING_FOR_CHAMBER_CHANGE", 2.72743, "61 sq cm")
    agree("MILLING_FOR_CHAMBER_CHANGE", SOURCE, 0.01760, got, abs=5e-6)
    agree(
        "CHAMBER_CHANGE", SOURCE, 2.72743, eng("CHAMBER_CHANGE", "0.44712 mm", "61 sq cm"), abs=5e-5
    )


def test_trapped_ratio_of_a_flat_twin(agree, eng):
    engine = (74.500, 130.000, 58)
    got = eng("EFFECTIVE_STROKE", *engine, 0, "metric")
    agree("EFFECTIVE_STROKE", SOURCE, 60.88602, got, abs=5e-6)
    got = eng("DYNAMIC_RATIO", 9.6, *engine, 0, "metric")
    agree("DYNAMIC_RATIO", SOURCE, 8.02845, got, abs=5e-6)
    # 58 cam degrees taken for crank degrees would show at once.
    got = eng("DYNAMIC_RATIO", 9.6, 74.5, 130, 116, 0, "metric")
    agree("DYNAMIC_RATIO", SOURCE, 3.92121, got, abs=5e-6)


@pytest.mark.parametrize("least", [0.0310, 0.0380])
def test_gasket_from_those_on_sale(agree, eng, least):
    # Tightest cylinder 0.0040 in in the hole, quench wanted 0.0400 in.
    shelf = ((0.027, 0.036, 0.040, 0.045, 0.051),)
    got = eng("NEAREST_GASKET", 0.0400, 0.0040, 0, shelf, least)
    agree("NEAREST_GASKET", SOURCE, 0.036, got)


def test_cut_to_a_wanted_deck(agree, eng):
    # Deck clearances of the four corners; 0.0030 in wanted, whatever the gasket.
    for deck, cut in [(0.0085, 0.0055), (0.0050, 0.0020), (0.0105, 0.0075), (0.0090, 0.0060)]:
        got = eng("DECK_CUT_FOR_QUENCH", 0.0030 + 0.041, deck, 0.041)
        agree("DECK_CUT_FOR_QUENCH", SOURCE, cut, got, abs=1e-12)


def test_running_quench_of_a_four(agree, eng):
    # 0.600 kg, stroke 86, rod 145 mm, 7000 rpm: 17974.750 N stretch 145 mm of 150 mm2 and
    # 207 GPa by 0.083940 mm.
    stretch = eng("ROD_STRETCH", 600, 86, 145, 7000, 150, "alloy steel", "metric")
    agree("ROD_STRETCH", SOURCE, 0.0578896953 * 1.45, stretch, rel=1e-8)
    hot = eng("HOT_QUENCH", -0.150, 1.150, 0.080, "metric")
    agree("HOT_QUENCH", SOURCE, 1.080, hot, rel=1e-12)
    got = eng("RUNNING_QUENCH", hot, stretch, 0.050, "metric")
    agree("RUNNING_QUENCH", SOURCE, 1.080 - 0.0839400582 - 0.050, got, rel=1e-8)

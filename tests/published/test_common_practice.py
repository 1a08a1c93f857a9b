"""Facts of the trade: common practice, no source."""


def test_gasket_for_a_warm_quench_of_forty_thousandths(agree, eng):
    # A piston 0.002 in above the deck with a gasket of 0.042 in leaves 0.040 in cold.
    agree("QUENCH", "common practice, no source", 0.040, eng("QUENCH", -0.002, 0.042))


def test_top_ring_gap_of_a_street_engine(agree, eng):
    # 0.019 in on a bore a little over 4 in, unboosted, read to the nearest thousandth or so.
    gap = eng("RING_GAP", 4.165, eng("RING_GAP_FACTOR", "street", "top"))
    agree("RING_GAP_FACTOR", "common practice, no source", 0.019, gap, abs=0.0006)


def test_forged_pistons_of_a_four_inch_bore_run_at_four_thousandths(agree, eng):
    source = "common practice, no source"
    agree("PISTON_CLEARANCE", source, 0.004, eng("PISTON_CLEARANCE", 4.005, 4.001), abs=1e-12)


def test_a_coated_production_piston_measures_over_its_bore(eng):
    assert eng("PISTON_CLEARANCE", 81.000, 81.010, "metric") < 0


def test_bearing_clearance_of_two_thousandths(agree, eng):
    # 0.002 in main and rod: a housing of 2.2247 in, shells of 0.0614 in, a 2.0999 in journal.
    got = eng("BEARING_CLEARANCE", 2.2247, 0.0614, 2.0999)
    agree("BEARING_CLEARANCE", "common practice, no source", 0.002, got, abs=1e-12)


def test_a_thousandth_of_bearing_clearance_per_inch_of_journal(agree, eng):
    got = eng("BEARING_CLEARANCE_FACTOR", "street")
    agree("BEARING_CLEARANCE_FACTOR", "common practice, no source", 0.001, got)


def test_gasket_for_a_proud_piston_in_an_aluminum_block(agree, eng):
    # Piston 0.002 in above the deck cold, block growing 0.004 in, wanted quench 0.040 in.
    source = "common practice, no source"
    agree("HOT_DECK_CLEARANCE", source, 0.002, eng("HOT_DECK_CLEARANCE", -0.002, 0.004))
    gasket = eng("GASKET_FOR_QUENCH", 0.040, -0.002, 0.004)
    agree("GASKET_FOR_QUENCH", source, 0.038, gasket)
    agree("QUENCH", source, 0.040, eng("QUENCH", eng("HOT_DECK_CLEARANCE", -0.002, 0.004), gasket))


def test_a_deck_clearance_is_stacked_from_block_crank_rod_and_piston(agree, eng):
    # Block height less half stroke, rod and compression height; below the deck is positive.
    source = "common practice, no source"
    agree("DECK_CLEARANCE", source, 0.025, eng("DECK_CLEARANCE", 9.025, 3.480, 5.700, 1.560))


def test_a_reading_is_judged_against_its_band(agree, eng):
    # A street quench of 0.035 to 0.045 in.
    source = "common practice, no source"
    for quench, word in [(0.034, "low"), (0.035, "ok"), (0.040, "ok"), (0.046, "high")]:
        agree("VERDICT", source, word, eng("VERDICT", quench, 0.035, 0.045))


def test_gap_of_a_ring_grows_by_three_thousandths_for_each_thousandth_of_bore(agree, eng):
    # 0.00314 in of gap for 0.001 in of bore.
    got = eng("RING_GAP_AFTER_HONE", 0.018, 4.000, 4.001) - 0.018
    agree("RING_GAP_AFTER_HONE", "common practice, no source", 0.00314, got, abs=5e-6)


def test_bands_keep_to_what_the_trade_says(agree, eng):
    source = "common practice, no source"
    # Street top ring 0.0040 in per inch at least; forged pistons about 0.004 in on 4 in, up to
    # 0.0070 in boosted; bearings about 0.0020 to 0.0025 in on 2.0 to 2.5 in journals.
    low, _, origin = eng("RING_GAP_BAND", 4.000, "street", "top")[0]
    agree("RING_GAP_BAND", source, 0.016, low)
    assert origin.startswith("common practice")
    low, high, origin = eng("PISTON_CLEARANCE_BAND", 4.000, "street", "forged 2618")[0]
    assert low <= 0.004 <= high
    agree("PISTON_CLEARANCE_BAND", source, 0.0050, high, abs=0.0003)
    _, high, _ = eng("PISTON_CLEARANCE_BAND", 4.000, "boosted", "forged 2618")[0]
    agree("PISTON_CLEARANCE_BAND", source, 0.0070, high, abs=0.0003)
    low, high, origin = eng("BEARING_BAND", 2.250, "street")[0]
    agree("BEARING_BAND", source, 0.0020, low, abs=0.0003)
    agree("BEARING_BAND", source, 0.0025, high, abs=0.0003)


def test_residual_unbalance_of_two_ounce_inches_pulls(agree, eng):
    # 14 lb at 2000 rpm, 227 lb at 8000 rpm.
    source = "common practice, no source"
    agree("UNBALANCE_FORCE", source, 14, eng("UNBALANCE_FORCE", 2, 2000), abs=0.5)
    agree("UNBALANCE_FORCE", source, 227, eng("UNBALANCE_FORCE", 2, 8000), abs=0.5)


def test_race_rod_bolt_stretches_five_to_seven_thousandths(agree, eng):
    # At about three quarters of 160 000 psi on a 0.376 in shank, 1.1 in long, and 0.55 in of
    # 7/16-20 thread, whose area is that of a 0.3888 in bar.
    preload = 0.75 * 160000 * 0.111
    got = eng("BOLT_STRETCH", preload, ((1.1, 0.55),), ((0.376, 0.3888),))
    agree("BOLT_STRETCH", "common practice, no source", 0.006, got, abs=0.001)


def test_play_of_crank_and_rods(agree, eng):
    # Crank end play 0.004 to 0.008 in; a pair of steel rods on one journal 0.010 to 0.020 in.
    source = "common practice, no source"
    agree("END_PLAY", source, 0.006, eng("END_PLAY", 1.1855, 1.1795), abs=0.002)
    got = eng("ROD_SIDE_CLEARANCE", 1.895, 0.940, 2)
    agree("ROD_SIDE_CLEARANCE", source, 0.015, got, abs=0.005)


def test_forged_piston_in_a_four_inch_bore_wants_about_four_thousandths(agree, eng):
    source = "common practice, no source"
    agree("HONE_TO_SIZE", source, 4.000, eng("HONE_TO_SIZE", 3.996, 0.004))
    got = eng("PISTON_SIZE_FOR_CLEARANCE", 4.000, 0.004)
    agree("PISTON_SIZE_FOR_CLEARANCE", source, 3.996, got)


def test_a_sixteenth_inch_ring_has_one_to_two_thousandths_in_its_groove(agree, eng):
    got = eng("RING_SIDE_CLEARANCE", 0.064, "1/16 in")
    source = "common practice, no source; from memory"
    agree("RING_SIDE_CLEARANCE", source, 0.0015, got, abs=0.0005)


def test_a_ring_pushed_home_lies_below_the_land(agree, eng):
    # With the ring at the bottom of its groove, what is left between its face and the bore
    # on one side is half of bore less groove root, less the ring's radial width.
    got = eng("RING_BACK_CLEARANCE", 4.110, 3.710, 0.190)
    agree("RING_BACK_CLEARANCE", "common practice, no source", 0.010, got)

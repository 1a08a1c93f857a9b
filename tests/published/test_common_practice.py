"""Facts of the trade: common practice, no source."""


def test_gasket_for_a_warm_quench_of_forty_thousandths(agree, eng):
    # A piston 0.002 in above the deck with a gasket of 0.042 in leaves 0.040 in cold.
    agree("QUENCH", "common practice, no source", 0.040, eng("QUENCH", -0.002, 0.042))

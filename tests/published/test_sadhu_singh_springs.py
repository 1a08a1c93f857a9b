"""Sadhu Singh, Machine Design-I: helical compression springs."""

SOURCE = "Sadhu Singh, Machine Design-I"


def test_rate_of_example_8_3(agree, eng):
    # Wire 3 mm, spring index 6, 15 coils, 84 GPa: printed 9.72 N/mm.
    got = eng("SPRING_RATE_FROM_WIRE", 3, 18, 15, "84 GPa", "metric")
    agree("SPRING_RATE_FROM_WIRE", f"{SOURCE}, Example 8.3, p. 229", 9.72, got, rel=5e-4)


def test_rate_of_example_8_1(agree, eng):
    # 250 N to 300 N over 8 mm.
    got = eng("SPRING_RATE", 250, 40, 300, 32, "metric")
    agree("SPRING_RATE", f"{SOURCE}, Example 8.1, p. 227", 50 / 8, got)


def test_load_of_example_8_1(agree, eng):
    rate = eng("SPRING_RATE", 250, 40, 300, 32, "metric")
    got = eng("SPRING_LOAD", 250, rate, 8, "metric")
    agree("SPRING_LOAD", f"{SOURCE}, Example 8.1, p. 227", 300, got)

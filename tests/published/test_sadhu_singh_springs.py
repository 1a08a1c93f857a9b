"""Sadhu Singh, Machine Design-I: helical compression springs."""

from sources import COMPANIONS, printed

SOURCE = printed("Sadhu Singh, Machine Design-I", "Example 8.3, p. 229", COMPANIONS)


def test_rate_of_example_8_3(agree, eng):
    # Wire 3 mm, spring index 6, 15 coils, 84 GPa: printed 9.72 N/mm.
    got = eng("SPRING_RATE_FROM_WIRE", 3, 18, 15, "84 GPa", "metric")
    agree("SPRING_RATE_FROM_WIRE", SOURCE, 9.72, got, rel=5e-4)

"""Wentzell, Machine Design: power of a shaft, helical compression springs."""

SOURCE = "Wentzell, Machine Design, Example 8.2, p. 163"


def test_rate_of_a_wire_of_105_thousandths(agree, eng):
    # 35 lb over 0.5 in gives 70 lb/in; 12.79 coils in all, two of them dead. Coils as printed,
    # so that the rate agrees to their last digit.
    got = eng("SPRING_RATE_FROM_WIRE", 0.105, 0.620, 12.79 - 2, 11.85e6)
    agree("SPRING_RATE_FROM_WIRE", SOURCE, 70.0, got, rel=5e-4)


def test_rate_from_the_two_loads(agree, eng):
    agree("SPRING_RATE", SOURCE, 70.0, eng("SPRING_RATE", 10, 1.5, 45, 1.0))


def test_modulus_of_spring_steel(agree, eng):
    # The example takes 11.85e6 psi; wires differ by their size and kind.
    got = eng("SHEAR_MODULUS", "music wire")
    agree("SHEAR_MODULUS", SOURCE, 11.85e6, got, rel=0.03)


def test_power_and_torque_of_a_shaft(agree, eng):
    # 300 ft.lbf at 3500 rpm: printed 200 hp, with 63 000 in.lbf rounded in the book.
    source = "Wentzell, Machine Design, Example 2.2, p. 28"
    agree("POWER", source, 200, eng("POWER", 300, 3500), rel=1e-3)
    agree("TORQUE", source, 300, eng("TORQUE", 200, 3500), rel=1e-3)

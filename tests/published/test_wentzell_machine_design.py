"""Wentzell, Machine Design: power of a shaft, helical compression springs."""

import math

from sources import COMPANIONS, printed

BOOK = "Wentzell, Machine Design"


def of(place):
    return printed(BOOK, place, COMPANIONS)


SOURCE = of("Example 8.2, p. 163")


def test_rate_of_a_wire_of_105_thousandths(agree, eng):
    # 35 lb over 0.5 in gives 70 lb/in; 12.79 coils in all, two of them dead. Coils as printed,
    # so that the rate agrees to their last digit.
    got = eng("SPRING_RATE_FROM_WIRE", 0.105, 0.620, 12.79 - 2, 11.85e6)
    agree("SPRING_RATE_FROM_WIRE", SOURCE, 70.0, got, rel=5e-4)


def test_rate_from_the_two_loads(agree, eng):
    agree("SPRING_RATE", SOURCE, 70.0, eng("SPRING_RATE", 10, 1.5, 45, 1.0))


def test_load_over_the_deflection(agree, eng):
    # The same 35 lb on top of what was there.
    agree("SPRING_LOAD", SOURCE, 12 + 35, eng("SPRING_LOAD", 12, 70.0, 0.5))


def test_power_and_torque_of_a_shaft(agree, eng):
    # 300 ft.lbf at 3500 rpm: printed 200 hp, with 63 000 in.lbf rounded in the book.
    source = of("Example 2.2, p. 28")
    agree("POWER", source, 200, eng("POWER", 300, 3500), rel=1e-3)
    agree("TORQUE", source, 300, eng("TORQUE", 200, 3500), rel=1e-3)


def test_joint_of_a_three_quarter_inch_bolt(agree, eng):
    # 3/4-10 of grade 5 at 85 % of its proof load: 24 131.5 lbf, torque 3619.73 lbf.in with
    # K 0.2; over 5 in and with 30e6 psi a stretch of 0.012 041 7 in and a turn of 43.35 deg.
    source = of("Ex. 6.1-6.2, pp. 120-121")
    preload, stretch = 24131.5, 0.0120417
    proof = eng("PROOF_LOAD", "3/4-10", "grade 5")
    agree("PROOF_LOAD", source, preload / 0.85, proof, rel=2e-3)
    torque = eng("TORQUE_FOR_PRELOAD", preload, 0.75, 0.2)
    agree("TORQUE_FOR_PRELOAD", source, 3619.73, torque * 12, rel=2e-6)
    back = eng("PRELOAD_FROM_TORQUE", torque, 0.75, 0.2)
    agree("PRELOAD_FROM_TORQUE", source, preload, back)
    # The area under load is the thread's, 0.334 sq in; our alloy steel has 30.02e6 psi.
    diameter = (0.334 * 4 / math.pi) ** 0.5
    got = eng("BOLT_STRETCH", preload, 5, diameter)
    agree("BOLT_STRETCH", source, stretch, got, rel=1e-3)
    agree("BOLT_RATE", source, preload / stretch, eng("BOLT_RATE", 5, diameter), rel=1e-3)
    got = eng("PRELOAD_FROM_STRETCH", stretch, 5, diameter)
    agree("PRELOAD_FROM_STRETCH", source, preload, got, rel=1e-3)
    got = eng("PRELOAD_FROM_ANGLE", 43.35, 0.1, preload / stretch)
    agree("PRELOAD_FROM_ANGLE", source, preload, got, rel=1e-4)

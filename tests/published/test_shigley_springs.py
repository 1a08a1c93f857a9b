"""Shigley, Mechanical Engineering Design, chapter 10: helical compression springs."""

import pytest
from sources import from_memory

SOURCE = from_memory("Shigley, Mechanical Engineering Design", "Example 10-1")


def test_rate_of_example_10_1(agree, eng):
    # No. 16 music wire, 0.037 in; outside diameter 7/16 in, so 0.400 in between wire centers as
    # the book rounds it; 12.5 turns with squared ends, so 10.5 active; 11.85e6 psi: 4.13 lbf/in.
    got = eng("SPRING_RATE_FROM_WIRE", 0.037, 0.400, 12.5 - 2, 11.85e6)
    agree("SPRING_RATE_FROM_WIRE", SOURCE, 4.13, got, rel=5e-4)


def test_load_at_the_deflection_of_example_10_1(agree, eng):
    # 6.46 lbf to compress by 1.56 in, both rounded in the book.
    agree("SPRING_LOAD", SOURCE, 6.46, eng("SPRING_LOAD", 0.01, 4.13, 1.56), abs=0.03)


@pytest.mark.parametrize(
    ("wire", "psi"),
    [("music wire", 11.6e6), ("oil tempered", 11.2e6), ("chrome silicon", 11.2e6),
     ("chrome vanadium", 11.2e6)],
)  # fmt: skip
def test_moduli_of_wires_above_an_eighth_of_an_inch(agree, eng, wire, psi):
    source = from_memory("Shigley, Mechanical Engineering Design", "Table 10-5")
    agree("SHEAR_MODULUS", source, psi, eng("SHEAR_MODULUS", wire))

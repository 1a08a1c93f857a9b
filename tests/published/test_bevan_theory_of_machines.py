"""Bevan, The Theory of Machines, chapter 14: balancing. Its gravity is 32.2 ft/s2."""

import cmath
import math

import pytest
from sources import COMPANIONS, printed

BOOK = "Bevan, The Theory of Machines, ch. 14"


def of(place):
    return printed(BOOK, place, COMPANIONS)


@pytest.mark.parametrize(("outside", "balance"), [(True, (24, 144)), (False, (24, 96))])
def test_example_1_one_mass_by_two(agree, eng, outside, balance):
    # 200 lb at 9 in, balanced at 15 in in two planes 50 in apart, 10 in outside or between them.
    there = 10
    first, second = balance
    far, near = eng("UNBALANCE", f"{first} lb", 15), eng("UNBALANCE", f"{second} lb", 15)
    whole = near - far if outside else near + far
    agree("UNBALANCE", of("Ex. 1, p. 491"), eng("UNBALANCE", "200 lb", 9), whole)
    # About the near plane the far one turns as much as the mass itself does.
    agree("UNBALANCE", of("Ex. 1, p. 491"), 200 * 9 * 16 * there, far * 50)


def test_example_2_four_masses(agree, eng):
    # 200, 300, 240 and 260 lb at 9, 7, 10 and 12 in, turned by 45, 75 and 135 degrees from each
    # to the next, are balanced by 57.9 lb at 24 in.
    total, turned = 0j, 0.0
    masses = zip((200, 300, 240, 260), (9, 7, 10, 12), (0, 45, 75, 135), strict=True)
    for pounds, inches, further in masses:
        turned += further
        total += cmath.rect(eng("UNBALANCE", f"{pounds} lb", inches), math.radians(turned))
    agree("UNBALANCE", of("Ex. 2, p. 491"), 57.9, abs(total) / 16 / 24, rel=1e-3)


def test_example_5(agree, eng):
    # 180 lb rotating and half of 150 lb reciprocating at 7.5 in, balanced at 6 in by
    # 318.75 lb; the other half pulls with 1436 lbf at 300 rpm.
    source = of("Ex. 5, p. 500")
    weight = eng("BOBWEIGHT", "180 lb", "150 lb", 0.5, 1)
    agree("BOBWEIGHT", source, 318.75 * 6 / 7.5 * 453.59237, weight)
    pull = eng("RECIPROCATING_FORCE", "75 lb", 15, 30, 300, 0, "first")
    agree("RECIPROCATING_FORCE", source, 1436, pull, rel=1.5e-3)
    agree("UNBALANCE_FORCE", source, 1436, eng("UNBALANCE_FORCE", 75 * 16 * 7.5, 300), rel=1.5e-3)


def test_examples_12_and_13(agree, eng):
    # Second-order forces: 3/2 times that of 4 lb, stroke 5 in, rod 9 in at 1500 rpm is 266.07
    # lbf; twice and six times that of 6 lb, throw 3 in, rod 11 in at 2000 rpm 1114.58 and
    # 3343.74 lbf.
    one = eng("RECIPROCATING_FORCE", "4 lb", 5, 9, 1500, 0, "second")
    agree("RECIPROCATING_FORCE", of("Ex. 12, p. 517"), 266.07, 1.5 * one, rel=1.5e-3)
    one = eng("RECIPROCATING_FORCE", "6 lb", 6, 11, 2000, 0, "second")
    for times, force in ((2, 1114.58), (6, 3343.74)):
        agree("RECIPROCATING_FORCE", of("Ex. 13, p. 519"), force, times * one, rel=1.5e-3)

"""Sarkar, Theory of Machines, chapter 12: partial balance."""

from sources import COMPANIONS, printed

BOOK = "Sarkar, Theory of Machines"


def of(place):
    return printed(BOOK, place, COMPANIONS)


def test_example_1(agree, eng):
    # 70 kg rotating and two thirds of 120 kg at 90 mm, balanced by 90 kg at 150 mm.
    weight = eng("BOBWEIGHT", 70000, 120000, 2 / 3, 1)
    agree("BOBWEIGHT", of("ch. 12, Ex. 1, p. 310"), 90000 * 150 / 90, weight)
    held = eng("UNBALANCE", weight, 90, "metric")
    agree("UNBALANCE", of("ch. 12, Ex. 1, p. 310"), 90000 * 150, held)

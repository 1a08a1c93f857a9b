"""Deck and quench from the crank's path alone: the highest point of the crown by scipy.

The crown's height above the crank is followed round the turn and its highest point found by
search; the head's face lies a deck height and a gasket above the crank. Hot parts are the cold
ones, each made longer on its own; a stretched rod is a longer one. No sum of the catalog's is
used, and what is wanted is found by bisection.
"""

import math

import pytest
from each_case import each
from scipy.optimize import brentq, minimize_scalar
from sources import independent

SOURCE = independent("highest point of the crown", minimize_scalar)
TRIED = independent("every gasket on the shelf tried on the crown's path", minimize_scalar)
SEARCHED = independent("highest point of the crown, searched for the quench", brentq)
# Mean expansion in 1/K: Callister, Appendix B, Table B.6.
ALUMINUM, IRON, STEEL = 21.5e-6, 11.4e-6, 12.3e-6
# Deck height, stroke, rod, compression height in mm: a V8 with pistons in the hole, a four with
# pistons above the deck, a 50 cc single, a large diesel.
ENGINES = [
    (222.50, 86.61, 148.59, 29.97),
    (220.80, 86.0, 145.0, 33.0),
    (120.30, 41.4, 76.0, 23.2),
    (620.0, 250.0, 400.0, 94.2),
]
# Block's expansion, its name, rise in K, the piston's extra rise in K.
HEATS = [(ALUMINUM, "aluminum", 75, 0), (IRON, "gray iron", 75, 60), (IRON, "gray iron", -40, 0)]


def crown(stroke, rod, height):
    """How high the flat of the crown comes above the crank's center."""

    def below(angle):
        throw = stroke / 2
        pin = throw * math.cos(angle) + math.sqrt(rod**2 - (throw * math.sin(angle)) ** 2)
        return -(pin + height)

    found = minimize_scalar(below, bounds=(-1, 1), method="bounded", options={"xatol": 1e-10})
    return -found.fun


@pytest.mark.parametrize(("deck", "stroke", "rod", "height"), ENGINES)
@pytest.mark.parametrize("gasket", [0.7, 1.15])
def test_cold(agree, eng, deck, stroke, rod, height, gasket):
    above = crown(stroke, rod, height)
    clearance = eng("DECK_CLEARANCE", deck, stroke, rod, height, "metric")
    agree("DECK_CLEARANCE", SOURCE, deck - above, clearance, abs=1e-9)
    got = eng("QUENCH", clearance, gasket, "metric")
    agree("QUENCH", SOURCE, deck + gasket - above, got, abs=1e-9)


@pytest.mark.parametrize(("deck", "stroke", "rod", "height"), ENGINES)
@pytest.mark.parametrize(("block", "name", "rise", "extra"), HEATS)
def test_warm_and_at_speed(agree, eng, deck, stroke, rod, height, block, name, rise, extra):
    gasket, stretch, play = 1.15, 0.084, 0.05
    hot_deck = deck * (1 + block * rise)
    hot_piston = height * (1 + ALUMINUM * (rise + extra))
    hot_rod = rod * (1 + STEEL * rise)
    hot_stroke = stroke * (1 + STEEL * rise)
    above = crown(hot_stroke, hot_rod, hot_piston)
    clearance = eng("DECK_CLEARANCE", deck, stroke, rod, height, "metric")
    parts = (deck, stroke, rod, height, rise, name, "alloy steel", "alloy steel", "aluminum")
    growth = eng("DECK_GROWTH", *parts, extra, "metric")
    got = eng("HOT_DECK_CLEARANCE", clearance, growth, "metric")
    agree("HOT_DECK_CLEARANCE", SOURCE, hot_deck - above, got, abs=1e-9)
    agree("DECK_GROWTH", SOURCE, hot_deck - above - (deck - crown(stroke, rod, height)), growth,
          abs=1e-9)  # fmt: skip
    hot = eng("HOT_QUENCH", clearance, gasket, growth, "metric")
    agree("HOT_QUENCH", SOURCE, hot_deck + gasket - above, hot, abs=1e-9)
    # A rod longer by its stretch, pins lifted by the play of the bearings.
    above = crown(hot_stroke, hot_rod + stretch + play, hot_piston)
    got = eng("RUNNING_QUENCH", hot, stretch, play, "metric")
    agree("RUNNING_QUENCH", SOURCE, hot_deck + gasket - above, got, abs=1e-9)


@pytest.mark.parametrize(("deck", "stroke", "rod", "height"), ENGINES)
@pytest.mark.parametrize("growth", [0.09, 0.0, -0.07])
def test_what_gives_a_wanted_quench(agree, eng, deck, stroke, rod, height, growth):
    above = crown(stroke, rod, height) - growth
    clearance = eng("DECK_CLEARANCE", deck, stroke, rod, height, "metric")
    thickness = brentq(lambda t: deck + t - above - 1.0, -5, 10, xtol=1e-12)
    got = eng("GASKET_FOR_QUENCH", 1.0, clearance, growth, "metric")
    agree("GASKET_FOR_QUENCH", SEARCHED, thickness, got, abs=1e-9)
    # From a gasket 0.25 mm too thick: what comes off the deck.
    cut = brentq(lambda c: deck - c + thickness + 0.25 - above - 1.0, -5, 10, xtol=1e-12)
    got = eng("DECK_CUT_FOR_QUENCH", 1.0, clearance, thickness + 0.25, growth, "metric")
    agree("DECK_CUT_FOR_QUENCH", SEARCHED, cut, got, abs=1e-9)


@each("growth", [0.09, 0.0, -0.07])
@each("wanted", [0.85, 1.0, 1.2])
@each("least", [0.75, 0.95])
def test_every_gasket_on_the_shelf_tried(agree, eng, growth, wanted, least):
    deck, stroke, rod, height = ENGINES[1]
    above = crown(stroke, rod, height)
    shelf = [0.50, 0.61, 0.72, 0.83, 0.94, 1.05, 1.16, 1.27, 1.38]
    safe = [t for t in shelf if all(deck + t - above + g >= least for g in (0, growth))]
    miss = {t: abs(deck + t - above + growth - wanted) for t in safe}
    clearance = eng("DECK_CLEARANCE", deck, stroke, rod, height, "metric")
    got = eng("NEAREST_GASKET", wanted, clearance, growth, (tuple(shelf),), least, "metric")
    agree("NEAREST_GASKET", TRIED, min(miss, key=miss.get), got)


def test_one_that_leaves_just_the_least_is_safe_and_of_two_as_near_the_thicker(agree, eng):
    shelf = ((0.50, 1.05, 0.61, 1.16, 1.27),)
    # A piston level with the deck: the gasket is the quench.
    level = eng("DECK_CLEARANCE", 221.0, 86.0, 145.0, 33.0, "metric")
    got = eng("NEAREST_GASKET", 0.80, level, 0, shelf, 1.05, "metric")
    agree("NEAREST_GASKET", TRIED, 1.05, got)
    for wanted, thickness in [(1.105, 1.16), (1.104, 1.05), (0.556, 0.61), (0.554, 0.50)]:
        got = eng("NEAREST_GASKET", wanted, level, 0, shelf, 0.40, "metric")
        agree("NEAREST_GASKET", TRIED, thickness, got)

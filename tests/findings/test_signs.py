"""A sign turned: of one deck, of all, of a crown; what only looks like it.

The ratios of the dished and the domed piston are worked by hand: swept volume
pi/4 x 8.7 x 8.7 x 9.1 cc, clearance the sum of chamber, crown, deck and gasket.
"""

import math

import pytest
from cylinder_table import table


def test_a_deck_with_its_sign_turned(findings):
    decks = [0.0080, 0.0085, -0.0075, 0.0080, 0.0085, 0.0080]
    kind, message = findings(S=table(("Deck clearance (in)", decks)))["S!B4"]
    assert kind == "disagreement"
    assert "its sign is the wrong way round (0.0075 in)" in message


def decks(values, stack):
    """Measured decks, and the stack of sizes that comes to another number or to the same."""
    quench = [f"=ENG.QUENCH(B{row},0.041)" for row in range(2, 2 + len(values))]
    rows = table(("Deck clearance (in)", values), ("Quench (in)", quench))
    sizes = f"=ENG.DECK_CLEARANCE({9.312 + stack:.4f},3.54,6,1.542)"
    return [*rows, [], ["From sizes (in)", sizes]]


@pytest.mark.parametrize(
    ("values", "stack", "cell", "why"),
    [
        # Of two the one that stands above by as much is told before the sizes are asked.
        (
            [0.0085, -0.0080],
            0.0080,
            "B3",
            "the other one is near 0.0085 in. It fits if its sign is",
        ),
        ([0.0040, -0.0040, 0.0065], 0.0065, "B3", "with the other sign"),
        ([-0.0055, 0.006, 0.005, 0.0055, 0.007, 0.007], 0.0065, "B2", "with the other sign"),
    ],
)
def test_one_deck_the_other_way_from_its_siblings_and_the_sizes(findings, values, stack, cell, why):
    found = findings(S=decks(values, stack))
    assert list(found) == [f"S!{cell}"]
    assert found[f"S!{cell}"][0] == "disagreement"
    assert why in found[f"S!{cell}"][1]


@pytest.mark.parametrize(
    ("values", "stack"),
    [
        ([0.0085, 0.0080], 0.0080),
        ([0.0020, -0.0020, 0.0010], 0.0005),  # They straddle the deck.
        ([0.0040, -0.0025, 0.0035, 0.0010], 0.0020),  # A deck out of true.
        ([0.0180, -0.0040, 0.0170], 0.0175),  # Not as much the other way.
    ],
)
def test_decks_that_only_differ_have_no_wrong_sign(findings, values, stack):
    assert findings(S=decks(values, stack)) == {}


def ratio_book(label, crown):
    return [
        ["Chamber (cc)", 47.2], [f"{label} (cc)", crown], ["Swept (cc)", "=540.9658"],
        ["Gasket volume (cc)", 5.778], ["Deck volume (cc)", -0.8917],
        ["Compression ratio", '=ENG.COMPRESSION_RATIO(540.9658,B1,B4,B5,B2,"metric")'],
    ]  # fmt: skip


def test_a_dish_with_a_minus_is_shown_both_ways(findings):
    swept = math.pi / 4 * 8.7 * 8.7 * 9.1
    dome, dish = (swept / (47.2 + s * 9.6 - 0.8917 + 5.778) + 1 for s in (-1, 1))
    kind, message = findings(S=ratio_book("Dish", -9.6))["S!B2"]
    assert kind == "disagreement"
    assert f"is {dome:.4g} as typed and {dish:.4g} with the other sign" in message
    assert findings(S=ratio_book("Dish", 9.6)) == {}
    assert findings(S=ratio_book("Dome or dish, plus = dish", -9.6)) == {}


@pytest.mark.parametrize(
    ("label", "wanted", "sign"),
    [
        ("Ratio wanted", 9.7, 1),  # The dish gives 9.77, a dome would give 13.7.
        ("Target compression ratio", 9.7, -1), ("Static compression ratio", 9.7, -1),
        ("Ratio wanted", 13.7, 1),
    ],
)  # fmt: skip
def test_a_crown_whose_other_sign_gives_the_ratio_wanted(findings, label, wanted, sign):
    swept = math.pi / 4 * 8.7 * 8.7 * 9.1
    typed, turned = (swept / (47.2 + s * 9.6 - 0.8917 + 5.778) + 1 for s in (sign, -sign))
    found = findings(S=[*ratio_book("Crown volume", sign * 9.6), [label, wanted]])
    if abs(typed - wanted) < abs(turned - wanted):
        assert found == {}
        return
    assert list(found) == ["S!B2"]
    assert f"{label} (B7) is {wanted:.4g}, which the other sign comes to" in found["S!B2"][1]
    assert f"is {typed:.4g} as typed and {turned:.4g} with the other" in found["S!B2"][1]


@pytest.mark.parametrize("label", ["Piston top cc (dish +)", "Crown volume (+ = dish) cc"])
def test_the_rule_of_a_sign_says_of_no_crown_which_way_it_is(findings, label):
    assert findings(S=[["Chamber (cc)", 63.5], [label, -6.0]]) == {}


@pytest.mark.parametrize(
    "label", ["Rod ratio wanted", "Dynamic ratio wanted", "Rocker ratio, card"]
)
def test_other_ratios_say_nothing_of_a_crown(findings, label):
    assert findings(S=[*ratio_book("Crown volume", 9.6), [label, 13.7]]) == {}


def test_measured_deck_against_the_stack_of_sizes(findings):
    rows = [
        ["Deck height (in)", 9.32], ["Stroke (in)", 3.54], ["Rod (in)", 6.0],
        ["Pin height (in)", 1.542],
        ["From sizes (in)", "=ENG.DECK_CLEARANCE(B1,B2,B3,B4)"],
        ["Deck clearance, measured (in)", -0.0075], ["Gasket (in)", 0.041],
        ["Quench (in)", "=ENG.QUENCH(B6,B7)"],
    ]  # fmt: skip
    kind, message = findings(S=rows)["S!B6"]
    assert kind == "disagreement"
    assert "the sizes of block, crank, rod and piston give 0.008 in in B5" in message
    assert "0.0335 as typed and 0.0485 in with the other sign" in message
    rows[5][1] = 0.0075
    assert findings(S=rows) == {}

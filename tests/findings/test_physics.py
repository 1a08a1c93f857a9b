"""Doubts from how engines work: parts that would touch, hot fits, cam events, torque steps."""

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book

CODES = {
    "parts-touch", "tight-when-hot", "duration-too-short", "torque-steps-fall", "dry-threads",
    "deck-sign",
}  # fmt: skip


@pytest.fixture
def found(make_book):
    def of(*rows):
        book = read_book(make_book({"S": list(rows)}))
        return [(f.code, f.place.address) for f in check(book) if f.code in CODES]

    return of


@pytest.mark.parametrize(
    ("lift", "told"), [(0.45, []), (0.515, ["B4"]), (0.55, ["B4"])]
)  # margins of 0.080, 0.015 and -0.020 in
def test_coils_that_touch(found, lift, told):
    rows = [["Installed height (in)", 1.8], ["Coil bind height (in)", 1.27],
            ["Valve lift (in)", lift],
            ["Margin to coil bind (in)", "=ENG.COIL_BIND_MARGIN(B1,B2,B3)"]]  # fmt: skip
    assert found(*rows) == [("parts-touch", cell) for cell in told]


@pytest.mark.parametrize(("least", "told"), [(0.085, []), (0.06, []), (0.022, ["C2"])])
def test_a_valve_that_meets_its_piston(found, least, told):
    rows = [["Cylinder", 1, 2, 3], ["Intake valve to piston (in)", 0.09, least, 0.088]]
    assert found(*rows) == [("parts-touch", cell) for cell in told]


@pytest.mark.parametrize(("deck", "told"), [(0.002, []), (-0.035, ["B4"])])
def test_a_piston_that_meets_the_head_when_hot(found, deck, told):
    rows = [
        ["Deck clearance (in)", deck],
        ["Gasket, compressed (in)", 0.039],
        ["Deck growth (in)", 0.004],
        ["Quench, hot (in)", "=ENG.HOT_QUENCH(B1,B2,B3)"],
    ]
    assert [f for f in found(*rows) if f[0] == "parts-touch"] == [("parts-touch", c) for c in told]


@pytest.mark.parametrize(("gap", "told"), [(0.018, []), (0.004, ["B2"])])
def test_ring_ends_that_butt(found, gap, told):
    rows = [["Bore (in)", 4.11], ["Top ring gap (in)", gap]]
    assert found(*rows) == [("parts-touch", cell) for cell in told]


def test_an_interference_where_a_clearance_belongs(found):
    rows = [["Main", 1, 2, 3], ["Main bearing clearance (in)", 0.0024, -0.0004, 0.0023]]
    assert found(*rows) == [("parts-touch", "C2")]
    # Skirts are measured over their coating, and crowns may stand above the deck.
    rows = [["Cylinder", 1, 2], ["Piston clearance (in)", -0.0003, -0.0002],
            ["Deck clearance (in)", -0.004, -0.005]]  # fmt: skip
    assert found(*rows) == []


@pytest.mark.parametrize(
    ("cold", "piston", "told"),
    [
        # Below zero when hot, of a proven fit: skirts are barrels sized cold, and nothing seizes.
        (0.005, "aluminum 2618", False), (0.004, "aluminum 2618", False),
        (0.001, "aluminum 2618", True), (0.0025, "aluminum 4032", False),
        (0.0008, "aluminum 4032", True),
    ],
)  # fmt: skip
def test_a_hot_piston_clearance_is_compared_with_that_of_proven_fits(found, cold, piston, told):
    rows = [
        ["Bore (in)", 4.11],
        ["Piston (in)", 4.11 - cold],
        ["Hot (in)", f'=ENG.HOT_PISTON_CLEARANCE(B1,B2,130,280,"gray iron","{piston}")'],
    ]
    assert found(*rows) == ([("tight-when-hot", "B3")] if told else [])


@pytest.mark.parametrize(("duration", "told"), [(212, []), (72, ["B1"])])
def test_a_duration_that_no_cam_has(found, duration, told):
    rows = [["Intake duration (deg)", duration], ["Stroke (in)", 3.5]]
    assert found(*rows) == [("duration-too-short", cell) for cell in told]


def torque(name, lubricant, *steps):
    return [["Fasteners", "Lubricant", "Step 1", "Step 2", "Step 3", "Then turn (deg)"],
            [name, lubricant, *steps], ["Stroke (in)", 3.5]]  # fmt: skip


@pytest.mark.parametrize(
    ("steps", "told"),
    [((80, 60, 30, None), True), ((30, 60, 80, None), False), ((30, None, None, 90), False),
     ((70, 70, None, 45), False)],
)  # fmt: skip
def test_steps_that_fall(found, steps, told):
    assert found(*torque("Head bolts", "oil", *steps)) == (
        [("torque-steps-fall", "A2")] if told else []
    )


@pytest.mark.parametrize(
    ("name", "lubricant", "told"),
    [("Rod caps", "dry", True), ("Main caps", "trocken", True), ("Cylinder head", "Dry", True),
     ("Rod caps", "oil", False), ("Oil pan", "dry", False), ("Spark plugs", "dry", False),
     ("Head cover", "dry", False)],
)  # fmt: skip
def test_bolts_that_are_held_dry(found, name, lubricant, told):
    assert found(*torque(name, lubricant, 30, 60)) == ([("dry-threads", "A2")] if told else [])


@pytest.mark.parametrize(
    ("deck", "told"),
    [(0.002, True), (0.012, False), (0.0005, False), (-0.0015, False)],
)
def test_decks_on_the_other_side_of_what_the_sizes_give(found, deck, told):
    """The sizes give -0.0018 in; a reading of as much the other way is the sign's fault."""
    rows = [["Deck height (in)", 9.025], ["Stroke (in)", 3.56], ["Rod length (in)", 5.94],
            ["Compression height (in)", 1.3068],
            ["Deck by the sizes (in)", "=ENG.DECK_CLEARANCE(B1,B2,B3,B4)"],
            ["Cylinder", 1, 2, 3, 4],
            ["Deck clearance (in)", deck, deck + 0.0002, deck, deck - 0.0001]]  # fmt: skip
    assert found(*rows) == ([("deck-sign", "B7")] if told else [])

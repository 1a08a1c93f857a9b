"""Positions: read from heads in five languages, written short, read back the same."""

import pytest
from each_case import each
from hypothesis import given
from hypothesis import strategies as st

from workbook_tools.measurands.position import AT, Position, listed, parse

OF = ["", "cylinder", "main", "rod", "cam_bearing", "bearing", "valve", "ring", "fastener_group"]


@st.composite
def positions(draw):
    number = draw(st.integers(0, 99))
    last = draw(st.sampled_from([0, 0, *range(number + 1, min(number + 9, 100))])) if number else 0
    bank = draw(st.sampled_from(["", "L", "R", "A", "B", "1", "2"]))
    at = tuple(place for place in AT if draw(st.integers(0, 4)) == 0)
    of = draw(st.sampled_from(OF))
    if not (number or bank or at):
        number = 1
    if bank.isalpha():
        last = 0
    return Position(of, number, bank, at, last)


@given(positions())
def test_what_is_written_short_is_read_back(position):
    assert parse(position.short) == position


@given(st.text())
def test_any_text_is_read_or_not_and_never_fails(text):
    found = parse(text)
    assert found is None or parse(found.short) == found


@given(positions(), positions())
def test_only_the_same_position_sorts_the_same(one, other):
    assert (one.order == other.order) == (one == other)
    assert (one.order < other.order) != (one.order >= other.order)


def test_positions_sort_by_what_bank_number_and_place():
    texts = ["Cyl L1", "Cyl L2 top", "Cyl L2 bottom", "Cyl R1", "Main 1", "Main 2", "Main 10"]
    assert [p.short for p in sorted(map(parse, texts[::-1]), key=lambda one: one.order)] == texts


@each(
    ("text", "short"),
    [
        ("Cyl 3", "Cyl 3"), ("#3", "#3"), ("Zyl. 3", "Cyl 3"), ("Cil 2", "Cyl 2"),
        ("cyl3", "Cyl 3"), ("Cylindre n° 4", "Cyl 4"), ("Cilindro nº 3", "Cyl 3"),
        ("primer cilindro", "Cyl 1"), ("erster Zylinder", "Cyl 1"), ("secondo cilindro", "Cyl 2"),
        ("Main 2", "Main 2"), ("2nd main", "Main 2"), ("Hauptlager 3", "Main 3"),
        ("Palier n°2", "Main 2"), ("Banco 5", "Main 5"), ("main bearing #1", "Main 1"),
        ("Rod 4", "Rod 4"), ("Bielle 3", "Rod 3"), ("tête de bielle 3", "Rod 3"),
        ("Pleuel 1/2", "Rod 1-2"), ("Rod 1-2", "Rod 1-2"), ("rods 3 & 4", "Rod 3-4"),
        ("L2", "L2"), ("3R", "R3"), ("L-2", "L2"), ("Cyl L2 top", "Cyl L2 top"),
        ("left bank", "Bank L"), ("Bank 2", "Bank 2"), ("Bank 1 Cyl 2", "Bank 1 Cyl 2"),
        ("links", "Bank L"), ("gauche", "Bank L"), ("dx", "Bank R"), ("LH front", "Bank L front"),
        ("front", "front"), ("hinten", "rear"), ("oben quer", "top thrust"), ("T", "top"),
        ("haut", "top"), ("abajo", "bottom"), ("sotto", "bottom"), ("12-6", "vertical"),
        ("rear main", "Main rear"), ("1.", "#1"), ("03", "#3"), ("Nr. 3", "#3"), ("No. 5", "#5"),
    ],
)  # fmt: skip
def test_heads_as_shops_write_them(text, short):
    # common practice, no source
    assert parse(text).short == short


@each(
    "text",
    ["", "Cyl", "bore", "6 cyl", "100", "0", "2.5", "2,5", "top ring gap", "4.030", "Main 2 and 7",
     "Cyl 1 2", "left right", "Kolben 3 mm", "-"],
)  # fmt: skip
def test_other_texts_are_no_positions(text):
    assert parse(text) is None


@pytest.mark.parametrize(
    "fields",
    [
        {"of": "piston", "number": 1}, {"number": -1}, {"number": 100},
        {"number": 3, "last": 2},
        {"bank": "left"},
    ],
)  # fmt: skip
def test_a_position_that_says_nothing_is_refused(fields):
    with pytest.raises(ValueError, match="expected"):
        Position(**fields)


def test_a_phrase_says_one_thing():
    with pytest.raises(ValueError, match="two things"):
        list(listed({"at": {"top": {"en": ["top"]}, "bottom": {"en": ["top"]}}}))
    with pytest.raises(ValueError, match="unknown group"):
        list(listed({"where": {"top": {"en": ["top"]}}}))

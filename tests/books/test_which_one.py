"""What a head says of which one: numbers, banks, places, sides and stages, in five languages."""

import pytest
from each_case import each

from workbook_tools.labels.runs import is_run, roman
from workbook_tools.labels.which import Which, from_the_front, sided
from workbook_tools.labels.which_told import which_of


@each(
    ("text", "number", "of"),
    [
        ("Cyl 3", 3, "cylinder"), ("Zyl. 3", 3, "cylinder"), ("Cylindre 3", 3, "cylinder"),
        ("Cilindro 3", 3, "cylinder"), ("#3", 3, ""), ("3", 3, ""), ("M2", 2, "main"),
        ("P2", 2, "rod"), ("Main 4", 4, "main"), ("Hauptlager 4", 4, "main"),
        ("Palier 4", 4, "main"),
        ("Bancada 4", 4, "main"), ("Banco 4", 4, "main"), ("Rod 6", 6, "rod"),
    ],
)  # fmt: skip
def test_a_number_says_which_one(text, number, of):
    told = which_of(text)
    assert (told.number, told.of) == (number, of)


@pytest.mark.parametrize(
    ("text", "number", "side"),
    [("1 in", 1, "intake"), ("1 ex", 1, "exhaust"), ("1I", 1, "intake"), ("IN 2", 2, "intake"),
     ("Exh 2", 2, "exhaust"), ("3 adm", 3, "intake"), ("3 éch", 3, "exhaust"),
     ("4 asp", 4, "intake"), ("4 scar", 4, "exhaust"), ("2 esc", 2, "exhaust")],
)  # fmt: skip
def test_a_number_with_a_side_is_a_valve(text, number, side):
    told = which_of(text)
    assert (told.number, told.side) == (number, side)


@pytest.mark.parametrize(
    ("text", "number", "stage"),
    [
        ("Ist Zyl. 1", 1, "final"), ("fini cyl 3", 3, "final"), ("Cyl. #2 as found", 2, "found"),
        ("Cyl 2 - found", 2, "found"), ("Cyl 1 (found)", 1, "found"), ("M2 worn", 2, "found"),
        ("L2 final", 2, "final"), ("Zyl. 4 vor dem Honen", 4, "found"),
        ("nach Schleifen Zyl 1", 1, "final"), ("Cyl 1 avant rectif.", 1, "found"),
        ("Spec main 2", 2, "target"),
    ],
)  # fmt: skip
def test_a_stage_stands_before_or_behind_what_is_counted(text, number, stage):
    told = which_of(text)
    assert (told.number, told.stage) == (number, stage)


def test_a_pass_of_an_operation_is_no_cylinder():
    told = which_of("After 1st hone")
    assert (told.number, told.stage) == (0, "found")


def test_a_lone_letter_is_the_exhaust_only_beside_an_intake():
    both = sided({1: which_of("1I"), 2: which_of("1E")})
    assert [both[n].side for n in (1, 2)] == ["intake", "exhaust"]
    alone = sided({1: which_of("1E"), 2: which_of("2E")})
    assert [alone[n].other for n in (1, 2)] == ["which side", "which side"]


def test_banks_are_a_and_b_only_together():
    both = sided({1: which_of("A"), 2: which_of("B")})
    assert [(both[n].bank, both[n].at) for n in (1, 2)] == [("A", ()), ("B", ())]
    assert sided({1: which_of("T"), 2: which_of("B")})[2].at == ("bottom",)


@pytest.mark.parametrize(
    ("front", "rear"),
    [("front", "rear"), ("vorn", "hinten"), ("avant", "arrière"), ("delantero", "trasero"),
     ("anteriore", "posteriore")],
)  # fmt: skip
def test_front_and_rear_are_counted(front, rear):
    two = from_the_front({1: which_of(front), 2: which_of(rear)})
    assert [two[n].number for n in (1, 2)] == [1, 2]
    mains = {1: which_of(front), 2: which_of("2"), 3: which_of("3"), 4: which_of(rear)}
    assert [from_the_front(mains)[n].number for n in range(1, 5)] == [1, 2, 3, 4]


def test_front_and_rear_of_numbered_ones_stay_places():
    ends = {1: Which(1, at=("front",)), 2: Which(1, at=("rear",))}
    assert from_the_front(ends) == ends


@pytest.mark.parametrize(
    ("text", "stage"),
    [("as found", "found"), ("vorher", "found"), ("avant usinage", "found"), ("antes", "found"),
     ("prima", "found"), ("finished", "final"), ("fertig", "final"), ("fini", "final"),
     ("terminado", "final"), ("finito", "final"), ("min", "limit_low"), ("max", "limit_high")],
)  # fmt: skip
def test_a_head_says_when(text, stage):
    assert which_of(text).stage == stage


@pytest.mark.parametrize(
    ("text", "number", "stage"),
    [("Ist Zyl. 1", 1, "final"), ("Zyl. 1 Ist", 1, "final"), ("Cyl 2 found", 2, "found")],
)  # fmt: skip
def test_a_head_says_when_and_which_one(text, number, stage):
    told = which_of(text)
    assert (told.number, told.of, told.stage) == (number, "cylinder", stage)


@pytest.mark.parametrize("text", ["Ring 2 found", "Bore 1 found", "Cyl 2 taper"])
def test_a_head_of_something_measured_is_not_of_one_that_is_counted(text):
    told = which_of(text)
    assert told is None or told.of != "cylinder"


@pytest.mark.parametrize(
    "text", ["Bore", "Kolbenspiel", "Jeu axial", "Carrera", "Corsa", "brg vert", "91 octane", ""]
)
def test_what_is_measured_says_not_which_one(text):
    assert which_of(text) is None


@pytest.mark.parametrize(
    ("numbers", "run"),
    [
        ([1, 2, 3], True), ([4, 3, 2, 1], True), ([1, 3, 5], True), ([1, 2, 1, 2], True),
        ([1, 1, 2, 2], True), ([1, 2, 4], True), ([2, 4], True),
        ([1], False), ([3, 3], False), ([1, None, 3], False), ([8, 30], False), ([1, 5, 9], False),
    ],
)  # fmt: skip
def test_numbers_that_count(numbers, run):
    assert is_run(numbers) is run


def test_roman_numbers_count_too():
    assert [roman(t) for t in ("I", "II", "iv", "VI.", "X1", "")] == [1, 2, 4, 6, 0, 0]


@pytest.mark.parametrize(("text", "at"), [("oben (10)", "top"), ("middle (60 mm)", "middle")])
def test_how_deep_a_place_lies_is_no_number(text, at):
    told = which_of(text)
    assert told is not None
    assert (told.number, told.at) == (0, (at,))


@pytest.mark.parametrize(
    ("text", "at"),
    [("Haut AV-AR", ("top", "parallel")), ("Bas Bd-Td", ("bottom", "thrust"))],
)
def test_axes_by_the_ends_and_sides_of_a_boat(text, at):
    told = which_of(text)
    assert told is not None
    assert set(told.at) == set(at)

"""Sizes in each other's place, sizes that went back, and two valves of one cylinder."""

import pytest

TOP, SECOND = (0.018, 0.019, 0.018, 0.017), (0.024, 0.023, 0.024, 0.025)


def told(findings, *rows):
    return {at: message for at, (_, message) in findings(S=[list(r) for r in rows]).items()}


def gaps(top, second):
    return ("Cylinder", 1, 2, 3, 4), ("Top ring gap (in)", *top), ("Second ring gap (in)", *second)


def test_the_gaps_of_one_cylinder_on_each_others_lines(findings):
    top, second = (0.018, 0.019, 0.024, 0.017), (0.024, 0.023, 0.018, 0.025)
    found = told(findings, *gaps(top, second))
    assert list(found) == ["S!D2"]
    assert "Second ring gap, Cylinder 3 (D3) 0.018 in; in the other 3 it is" in found["S!D2"]


@pytest.mark.parametrize(
    ("top", "second"),
    [
        (TOP, SECOND),
        ((0.018, 0.019, 0.020, 0.017), (0.019, 0.020, 0.019, 0.020)),  # lines that meet
        ((0.018, 0.019, 0.021, 0.017), (0.024, 0.023, 0.020, 0.025)),  # only a little turned
    ],
)
def test_gaps_that_only_scatter_are_not_exchanged(findings, top, second):
    assert told(findings, *gaps(top, second)) == {}


def pins(found, ground):
    return (
        ("Rod", 1, 2, 3, 4), ("Crankpin as found (in)", *found), ("Crankpin ground (in)", *ground),
    )  # fmt: skip


FOUND = (2.0988, 2.0991, 2.0990, 2.0989)


def test_a_pin_ground_larger_than_it_was(findings):
    found = told(findings, *pins(FOUND, (2.0892, 2.0891, 2.1142, 2.0892)))
    assert any(at == "S!D3" for at in found)


@pytest.mark.parametrize(
    "ground",
    [
        (2.0892, 2.0891, 2.0892, 2.0892),
        (2.0989, 2.0990, 2.0991, 2.0988),  # only polished
        (2.1092, 2.1092, 2.1091, 2.1092),  # all built up
    ],
)
def test_pins_that_were_ground_polished_or_built_up(findings, ground):
    assert not any("than as found" in m for m in told(findings, *pins(FOUND, ground)).values())


HEADS = ("cyl", "Exhaust stem (mm)", "Exhaust guide (mm)", "Exhaust stem clearance (mm)")
VALVES = (
    (1, 4.464, 4.510, 0.046), (1, 4.462, 4.508, 0.046), (2, 4.460, 4.504, 0.044),
    (2, 4.460, 4.500, 0.040), (3, 4.463, 4.505, 0.042), (3, 4.460, 4.500, 0.040),
)  # fmt: skip


def test_each_of_two_valves_of_a_cylinder_is_held_to_its_own_guide(findings):
    assert told(findings, HEADS, *VALVES) == {}
    slip = (3, 4.463, 4.505, 0.052)
    found = told(findings, HEADS, *VALVES[:4], slip, VALVES[5])
    assert "S!D6" in found
    assert "give 0.042 mm" in found["S!D6"]


def test_a_mean_that_leaves_out_the_first_of_two_valves(findings):
    mean = ("mean", None, None, "=AVERAGE(D3:D7)")
    assert "leaves out D2" in told(findings, HEADS, *VALVES, mean)["S!D8"]


def test_a_pin_far_too_small_for_its_rod_where_the_other_fits(findings):
    rows = (("Cylinder", 1, 2), ("Wrist pin (in)", 0.4916, 0.7916),
            ("Small end bore (in)", 0.7926, 0.7927))  # fmt: skip
    book = {"S": [list(row) for row in rows]}
    kinds = {at: kind for at, (kind, _) in findings(**book).items()}
    assert kinds.get("S!B2") == "disagreement"
    # With needles between them all pins are so small.
    book["S"][1][2] = 0.4916
    assert "disagreement" not in {kind for kind, _ in findings(**book).values()}

"""Slips in one of two readings, and sizes as found that are far from the others as found."""

import pytest


def told(findings, *rows):
    return {at: message for at, (_, message) in findings(S=[list(r) for r in rows]).items()}


@pytest.mark.parametrize(
    ("head", "values", "words"),
    [
        ("Deck clearance (in)", (0.254, 0.012), "the other one is near 0.012 in"),
        ("Top ring gap (in)", (0.15, 0.016), "one place too far right (0.015 in)"),
        ("Chamber (cc)", (845, 84.8), "one place too far right (84.5 cc)"),
        ("Chamber (cc)", (8.5, 85.2), "one place too far left (85 cc)"),
    ],
)
def test_one_of_two_cylinders(findings, head, values, words):
    found = told(findings, ("Cylinder", 1, 2), (head, *values))
    assert words in found["S!B2"]


@pytest.mark.parametrize(
    ("head", "values"),
    [
        ("Deck clearance (in)", (0.002, 0.020)),
        ("Crankpin runout (in)", (0.0001, 0.001)),
        ("Leakage (%)", (2, 20)),
        ("Piston (g)", (410, 395)),
    ],
)
def test_two_that_only_differ(findings, head, values):
    assert told(findings, ("Cylinder", 1, 2), (head, *values)) == {}


def test_a_weight_as_received_that_is_another(findings):
    masses = (373.4, 372.8, 733.4, 372.8, 373.4, 371.5)
    heads = ("Cylinder", 1, 2, 3, 4, 5, 6)
    found = told(findings, heads, ("Piston as found (g)", *masses))
    assert "the other 5 are near 372.8 g" in found["S!D2"]
    worn = (373.4, 372.8, 378.4, 372.8, 373.4, 371.5)
    assert told(findings, heads, ("Piston as found (g)", *worn)) == {}


def test_bores_as_found_are_worn_each_in_its_way(findings):
    bores = (79.08, 79.12, 79.31, 79.09)
    assert told(findings, ("Cylinder", 1, 2, 3, 4), ("Bore as found (mm)", *bores)) == {}
    far = (79.08, 79.12, 49.08, 79.09)
    assert "S!D2" in told(findings, ("Cylinder", 1, 2, 3, 4), ("Bore as found (mm)", *far))


def test_a_bore_far_from_all_others_is_of_something_else(findings):
    rows = (("Cylinder", 1, 2, 3, 4, 5), ("Bore, honed (in)", 2.7603, 2.7604, 2.7602, 2.7603, 4.31))
    assert not any("what it fits" in message for message in told(findings, *rows).values())
    near = (rows[0], (*rows[1][:5], 2.8257))
    assert any("what it fits" in message for message in told(findings, *near).values())


def test_two_siblings_do_where_they_are_the_same(findings):
    heads = ("Cylinder", 1, 2, 3)
    assert "S!D2" in told(findings, heads, ("Bore as found (mm)", 91.18, 91.22, 93.2))
    assert told(findings, heads, ("Bore as found (mm)", 91.18, 91.52, 92.2)) == {}


def test_two_digits_of_a_worn_size_exchanged(findings):
    heads = ("Main", 1, 2, 3, 4, 5)
    worn = [2.6230, 2.6231, 2.6322, 2.6229, 2.6231]
    found = told(findings, heads, ("Main journal as found (in)", *worn))
    assert "two of its digits exchanged (2.6232 in)" in found["S!D2"]
    worn[2] = 2.6205
    assert told(findings, heads, ("Main journal as found (in)", *worn)) == {}

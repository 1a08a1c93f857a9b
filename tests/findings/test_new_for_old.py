"""A new part beside what was found before its mate was machined says nothing of their fit."""

HEADS = ["Cylinder", "Bore as found (in)", "Piston (in)", "Piston clearance (in)"]
ROWS = [[1, 3.8794, 3.9030, 0.0022], [2, 3.8801, 3.9031, 0.0021], [3, 3.8790, 3.9030, 0.0023]]


def test_an_oversize_piston_for_a_worn_bore(findings):
    assert findings(S=[HEADS, *ROWS]) == {}


def test_a_piston_larger_than_its_own_finished_bore(findings):
    heads = [text.replace(" as found", ", honed") for text in HEADS]
    assert {"disagreement"} <= {kind for kind, _ in findings(S=[heads, *ROWS]).values()}


def test_worn_sizes_still_give_what_was_found(findings):
    heads = [*HEADS[:3], "Piston clearance as found (in)"]
    rows = [[1, 3.8794, 3.8750, 0.0044], [2, 3.8801, 3.8751, 0.0050], [3, 3.8790, 3.8750, 0.0140]]
    found = findings(S=[heads, *rows])
    assert "give 0.004 in" in found["S!D4"][1]

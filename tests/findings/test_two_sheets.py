"""What there is one of in an engine, on two sheets of its book."""

import pytest


def told(findings, first, second):
    sheets = {"Crank": [[first[0], first[1]]], "Assembly": [["Oil pump", "new"], [*second]]}
    return {at: m for at, (kind, m) in findings(**sheets).items() if kind == "disagreement"}


def test_the_end_play_differs_on_the_second_sheet(findings):
    found = told(findings, ("Crank end float (mm)", 0.19), ("Crankshaft end play (mm)", 0.29))
    assert list(found) == ["Assembly!B2"]
    assert "on Crank, Crank end float (B1) is 0.19 mm" in found["Assembly!B2"]


def test_a_gasket_that_is_thicker_pressed_than_it_came(findings):
    found = told(
        findings, ("Gasket thickness (in)", 0.039), ("Gasket thickness, compressed (in)", 0.051)
    )
    assert list(found) == ["Assembly!B2"]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (("Crank end float (mm)", 0.19), ("Crankshaft end play (mm)", 0.19)),
        (("Crank end float (mm)", 0.19), ("Crankshaft end play (in)", 0.0075)),
        (("Crank end float as found (mm)", 0.31), ("Crankshaft end play (mm)", 0.19)),
        (("Gasket thickness, compressed (mm)", 1.2), ("Gasket thickness (mm)", 1.19)),
        (("Gasket thickness, compressed (in)", 0.039), ("Head gasket, free thickness (in)", 0.051)),
        (("Gasket thickness (in)", 0.051), ("Gasket thickness, compressed (in)", 0.039)),
        (("Valve lash, intake, cold (mm)", 0.30), ("Intake lash, hot (mm)", 0.25)),
    ],
)
def test_rounding_found_sizes_and_what_is_set_twice_are_no_difference(findings, first, second):
    assert told(findings, first, second) == {}


def test_a_count_in_a_formula_that_is_not_the_one_in_the_book(findings):
    rows = [["Cylinders", 4], ["Bore (in)", 4.03], ["Stroke (in)", 3.48],
            ["Capacity (cu in)", "=ENG.DISPLACEMENT(B2,B3,6)"]]  # fmt: skip
    assert "takes 6 cylinders, and Cylinders (B1) says 4" in findings(S=rows)["S!B4"][1]
    rows[3][1] = "=ENG.DISPLACEMENT(B2,B3,4)"
    assert findings(S=rows) == {}

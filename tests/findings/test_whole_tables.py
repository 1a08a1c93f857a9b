"""Cylinders left out of tables, ranges cut short, numbers typed over formulas."""

import pytest
from cylinder_table import BORES, table


def test_a_cylinder_left_out_of_a_table(findings):
    rows = table(("Bore (in)", BORES))
    del rows[3]
    kind, message = findings(S=rows)["S!B6"]
    assert kind == "missing reading"
    assert "Bore has 5 readings (B2 to B6); there is none for Cyl 3" in message


def test_a_cylinder_left_empty_that_no_call_needs(findings):
    rows = table(("Top ring gap (in)", [0.018, 0.019, 0.018, None, 0.02, 0.019]))
    kind, message = findings(S=rows)["S!B5"]
    assert kind == "missing reading"
    assert message.endswith("there is none for Cyl 4 (B5).")


def test_the_last_cylinder_left_out_shows_by_the_count(findings):
    rows = [*table(("Bore (in)", BORES[:5])), [],
            ["Size (cu in)", "=ENG.DISPLACEMENT(B2,3.48,6)"]]  # fmt: skip
    assert "none for Cyl 6 (B7)" in findings(S=rows)["S!B7"][1]


@pytest.mark.parametrize(("gone", "count"), [(2, 5), (2, 4), (3, 4)])
def test_a_cylinder_whose_column_is_empty_head_and_all(findings, gone, count):
    columns = "BCDEFG"[:count]
    heads, bores = list(range(1, count + 1)), BORES[:count]
    heads[gone - 1] = bores[gone - 1] = None
    rows = [["Cylinder", *heads], ["Bore (in)", *bores], [],
            ["Size (cu in)", f"=ENG.DISPLACEMENT(B2,3.48,{count})"]]  # fmt: skip
    kind, message = findings(S=rows)[f"S!{columns[gone - 1]}2"]
    assert kind == "missing reading"
    assert f"Bore has {count - 1} readings (B2 to {columns[-1]}2)" in message
    assert f"none for Cyl {gone}" in message.replace("Cylinder", "Cyl")


def test_what_stands_behind_a_row_of_cylinders_is_no_cylinder(findings):
    rows = [["Cylinder", 1, 2, 3, 4], ["Bore (in)", *BORES[:4], None, 4.0301], [],
            ["Size (cu in)", "=ENG.DISPLACEMENT(B2,3.48,4)"]]  # fmt: skip
    assert findings(S=rows) == {}


def test_five_main_bearings_in_an_engine_of_eight_cylinders_are_all_there(findings):
    mains = [["Main", "Journal (in)"], *([n, 2.4486 + n % 2 * 1e-4] for n in range(1, 6))]
    rows = [*mains, [], ["Size (cu in)", "=ENG.DISPLACEMENT(4.03,3.48,8)"]]
    assert findings(S=rows) == {}


def test_banks_of_odd_and_even_cylinders_are_whole(findings):
    rows = [["Cylinder", "Bore (in)", None, "Cylinder", "Bore (in)"]]
    rows += [
        [f"Cyl {2 * k + 1}", BORES[k], None, f"Cyl {2 * k + 2}", BORES[3 - k]] for k in range(4)
    ]
    assert findings(S=rows) == {}


def test_a_range_that_stops_one_short(findings):
    rows = [*table(("Bore (in)", BORES)), [], ["Mean", "=ENG.MEAN_READING(B2:B6,5)"]]
    kind, message = findings(S=rows)["S!B9"]
    assert kind == "disagreement"
    assert "takes B2:B6 and leaves out B7 of the same line" in message
    rows[-1][1] = "=ENG.MEAN_READING(B2:B7,6)"
    assert findings(S=rows) == {}


@pytest.mark.parametrize("fixed", ["B9", "$B$9"])
def test_a_number_typed_over_a_formula(findings, fixed):
    quench = [f"=ENG.QUENCH(B{row},{fixed})" for row in range(2, 8)]
    quench[2] = 0.047
    decks = [0.0080, 0.0085, 0.0075, 0.0080, 0.0085, 0.0080]
    columns = ("Deck clearance (in)", decks), ("Quench (in)", quench)
    rows = [*table(*columns), [], ["Gasket (in)", 0.041]]
    found = findings(S=rows)
    assert list(found) == ["S!C4"]
    assert found["S!C4"][0] == "stale result"
    assert f"it would be =ENG.QUENCH(B4,{fixed}), which comes to 0.0485" in found["S!C4"][1]


@pytest.mark.parametrize("heads", [("Cylinder", "Quench (in)"), ("Size (in)", "Sum")])
def test_a_number_typed_over_the_builders_own_formula(findings, heads):
    quench = [f"=B{row}+$F$1" for row in range(2, 8)]
    quench[2] = 0.047
    decks = [0.0080, 0.0085, 0.0075, 0.0080, 0.0085, 0.0080]
    rows = [[heads[0], "Deck clearance (in)", heads[1], None, "Gasket (in)", 0.041]]
    rows += [[n, deck, q] for n, (deck, q) in enumerate(zip(decks, quench, strict=True), 1)]
    found = {at: message for at, (kind, message) in findings(S=rows).items() if "stale" in kind}
    assert list(found) == ["S!C4"]
    assert "it would be =B4+$F$1, which comes to 0.0485" in found["S!C4"]


def test_a_result_typed_where_its_sizes_were_not_measured(findings):
    clearances = [f"=B{row}-C{row}" for row in range(2, 8)]
    clearances[2] = 0.0045
    bores, pistons = [*BORES], [bore - 0.0045 for bore in BORES]
    bores[2] = pistons[2] = None
    columns = (("Bore (in)", bores), ("Piston (in)", pistons), ("Clearance (in)", clearances))
    assert "S!D4" not in findings(S=table(*columns))


def test_limits_beside_a_row_of_formulas_are_not_typed_over(findings):
    rows = [
        ["Cylinder", 1, 2, 3, 4, "Least", "Most"],
        ["Deck clearance", 0.0080, 0.0085, 0.0075, 0.0080],
        ["Quench", *[f"=ENG.QUENCH({c}2,0.041)" for c in "BCDE"], 0.035, 0.055],
    ]
    assert findings(S=rows) == {}


def test_sizes_rounded_by_formula_before_they_are_subtracted(findings):
    rows = [["Bore (in)", 4.0304], ["Piston (in)", 4.0259],
            ["Clearance (in)", "=ENG.PISTON_CLEARANCE(ROUND(B1,3),ROUND(B2,3))"]]  # fmt: skip
    messages = [m for _, m in findings(S=rows).values()]
    assert any("is rounded (ROUND(B1,3)) before ENG.PISTON_CLEARANCE" in m for m in messages)
    rows[2][1] = "=ROUND(ENG.PISTON_CLEARANCE(B1,B2),4)"
    assert findings(S=rows) == {}

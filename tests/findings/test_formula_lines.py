"""Formulas that take another cell than all of their line, and ranges that leave out a part."""

import pytest
from cylinder_table import BORES, table

PISTONS = [4.0256, 4.0255, 4.0257, 4.0256, 4.0254, 4.0257]


def told(findings, rows):
    return {at: message for at, (kind, message) in findings(S=rows).items() if kind != "unreadable"}


def down(clearances):
    return table(("Bore (in)", BORES), ("Piston (in)", PISTONS), ("Clearance (in)", clearances))


OWN, CALLS = "=B{0}-C{1}", "=ENG.PISTON_CLEARANCE(B{0},C{1})"


@pytest.mark.parametrize("form", [OWN, CALLS])
def test_a_clearance_that_takes_the_piston_of_the_next_cylinder(findings, form):
    clearances = [form.format(row, row) for row in range(2, 8)]
    assert told(findings, down(clearances)) == {}
    clearances[2] = form.format(4, 5)
    found = told(findings, down(clearances))
    assert list(found) == ["S!D4"]
    assert "takes C5; as D3 and 4 more of its line go on, it would take C4" in found["S!D4"]


def test_both_sizes_of_another_row(findings):
    clearances = [OWN.format(row, row) for row in range(2, 8)]
    clearances[3] = OWN.format(4, 4)
    assert "takes B4 and C4; as" in told(findings, down(clearances))["S!D5"]


def test_along_a_row_and_of_a_fixed_cell(findings):
    quench = [f"={c}2+$B$5" for c in "BCDEF"]
    rows = [["Cylinder", 1, 2, 3, 4, 5], ["Deck clearance (in)", 0.008, 0.009, 0.008, 0.007, 0.008],
            ["Quench (in)", *quench], [], ["Gasket (in)", 0.041], ["Rod ratio", 1.7]]  # fmt: skip
    assert told(findings, rows) == {}
    rows[2][3] = "=D2+B6"
    assert "takes B6" in told(findings, rows)["S!D3"]


def test_a_bank_that_takes_its_own_deck_is_a_line_of_its_own(findings):
    rows = [["Cylinder", "Deck clearance (in)", "Quench (in)"],
            *([n, 0.008, f"=B{n + 1}+$E${1 + n // 4}"] for n in range(1, 7))]  # fmt: skip
    rows[0] += [None, 0.041]
    rows[1] += [None, 0.039]
    assert told(findings, rows) == {}


def test_what_was_measured_again_stands_in_its_own_row(findings):
    rows = [["Cyl", "Bore (mm)", "again", "Piston (mm)", "Clearance (mm)"]]
    for n, bore in enumerate((85.010, 85.116, 85.014, 85.008, 85.012), 1):
        rows.append([n, bore, None, 84.968, f"=B{n + 1}-D{n + 1}"])
    rows[2][2], rows[2][4] = 85.016, "=C3-D3"
    assert not any("its line" in message for message in told(findings, rows).values())


def test_formulas_of_different_things_below_one_another_are_no_line(findings):
    rows = [["Bore (in)", 4.03], ["Stroke (in)", 3.48], ["Rod (in)", 6.0], ["Gasket (in)", 0.041],
            ["Rod ratio", "=B3/B2"], ["Bore to stroke", "=B1/B2"], ["Half", "=B4/B2"]]  # fmt: skip
    assert told(findings, rows) == {}


@pytest.mark.parametrize("function", ["AVERAGE", "MIN", "SUM"])
def test_a_range_of_the_builders_own_that_leaves_out_the_last(findings, function):
    rows = [*table(("Bore (in)", BORES)), [], ["Bore", f"={function}(B2:B6)"]]
    assert "takes B2:B6 and leaves out B7" in told(findings, rows)["S!B9"]
    rows[-1][1] = f"={function}(B2:B7)"
    assert told(findings, rows) == {}


def test_a_mean_of_each_bank_leaves_nothing_out(findings):
    rows = [*table(("Bore (in)", BORES)), [], ["Left", "=AVERAGE(B2:B4)"],
            ["Right", "=AVERAGE(B5:B7)"]]  # fmt: skip
    assert told(findings, rows) == {}


def test_the_mean_on_another_sheet_that_begins_at_the_second(findings):
    found = findings(Crank=table(("Bore (in)", BORES)), Summary=[["Mean", "=AVERAGE(Crank!B3:B7)"]])
    assert "takes Crank!B3:B7 and leaves out Crank!B2" in found["Summary!B1"][1]


def test_a_number_where_the_line_takes_a_cell(findings):
    rows = [["Engine", "Cylinders", "Bore (in)", "Stroke (in)", "Capacity (cu in)"]]
    for n in range(2, 7):
        rows.append([f"four no. {n}", 4, 4.03, 3.48, f"=ENG.DISPLACEMENT(C{n},D{n},B{n})"])
    assert told(findings, rows) == {}
    rows[3][4] = "=ENG.DISPLACEMENT(C4,D4,4)"
    assert told(findings, rows) == {}
    rows[3][4] = "=ENG.DISPLACEMENT(C4,D4,6)"
    assert "takes 6; as E3 and 3 more" in told(findings, rows)["S!E4"]

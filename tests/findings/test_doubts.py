"""Each doubt about a number: its cell, what it says, and that plain work raises none.

Sizes of micrometer turns, gasket bores and the like are common practice, no source.
"""

import pytest
from cylinder_table import BORES, table

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book


@pytest.fixture
def doubts(make_book):
    """The same for cells that a call cannot use, without the findings that tell just that."""

    def of(rows):
        found = check(read_book(make_book({"S": rows})))
        return {f.place.address: f.message for f in found
                if f.place is not None and f.kind != "unreadable"}  # fmt: skip

    return of


@pytest.mark.parametrize(
    ("slip", "kind", "words"),
    [
        (4.0551, "disagreement", "one turn of the micrometer too high, 0.025 in"),
        (3.9301, "disagreement", "one turn of the dial caliper too low, 0.1 in"),
        (40.301, "unit slip", "decimal point is one place too far right"),
        (0.40301, "unit slip", "decimal point is one place too far left"),
        (102.3645, "unit slip", "millimeters stand where inches belong"),
        (2.01505, "disagreement", "half of what is meant"),
    ],
)
def test_one_bore_that_a_slip_parts_from_the_others(findings, slip, kind, words):
    found = findings(S=table(("Bore (in)", [*BORES[:4], slip, BORES[5]])))
    assert list(found) == ["S!B6"]
    assert found["S!B6"][0] == kind
    assert words in found["S!B6"][1]
    assert f"is {slip:.6g} in; the other 5 are near 4.0301 in" in found["S!B6"][1]


def test_a_metric_thimble_turns_half_a_millimeter(findings):
    found = findings(S=table(("Main journal (mm)", [54.988, 54.986, 54.489, 54.987, 54.988])))
    assert "one turn of the micrometer too low, 0.5 mm" in found["S!B4"][1]


@pytest.mark.parametrize(
    ("head", "values"),
    [
        ("Bore (in)", BORES),
        ("Bore (in)", [4.0301, 4.0300, 4.0320, 4.0299, 4.0301, 4.0303]),  # worn, but no slip
        ("Top gap (in)", [0.0190, 0.0195, 0.0190, 0.0185, 0.0230, 0.0190]),
        ("Deck clearance (in)", [0.0005, -0.0005, 0.0010, -0.0010, 0.0000, 0.0005]),
        ("Deck clearance (in)", [0.0050, 0.0075, 0.0060, 0.0100, 0.0070, 0.0085]),
        ("Chamber (cc)", [64.2, 64.0, 64.1, 64.3, 64.0, 64.2]),
    ],
)
def test_readings_that_only_scatter_are_not_doubted(findings, head, values):
    assert findings(S=table((head, values))) == {}


def gasket_book(gasket_bore):
    return [
        ["Bore (in)", 4.11], ["Stroke (in)", 3.54], ["Gasket bore (in)", gasket_bore],
        ["Gasket thickness (in)", 0.041], ["Cylinder (cc)", "=ENG.CYLINDER_VOLUME(B1,B2)"],
        ["Gasket volume (cc)", "=ENG.GASKET_VOLUME(B3,B4)"],
    ]  # fmt: skip


@pytest.mark.parametrize(("bore", "words"), [(4.11, "equal to"), (4.10, "smaller than")])
def test_a_gasket_bore_not_above_the_cylinder(findings, bore, words):
    kind, message = findings(S=gasket_book(bore))["S!B3"]
    assert kind == "disagreement"
    assert words in message


def test_a_gasket_bore_above_the_cylinder_is_right(findings):
    assert findings(S=gasket_book(4.18)) == {}


def test_the_cylinders_own_cell_as_gasket_bore(findings):
    rows = gasket_book(4.18)
    rows[5][1] = "=ENG.GASKET_VOLUME(B1,B4)"
    assert "is the cylinder's bore in ENG.CYLINDER_VOLUME" in findings(S=rows)["S!B1"][1]


def test_a_label_in_another_unit_than_the_call(findings):
    rows = [["Bore (mm)", 86.5], ["Stroke (mm)", 86.0], ["Size", "=ENG.DISPLACEMENT(B1,B2,4)"]]
    kind, message = findings(S=rows)["S!B1"]
    assert kind == "unit slip"
    assert "labeled mm, but ENG.DISPLACEMENT in B3 takes it as 86.5 in" in message


def test_millimeters_in_an_inch_call_without_any_label_of_a_unit(findings):
    rows = [["Bore", 86.5], ["Stroke", 86.0], ["Size", "=ENG.DISPLACEMENT(B1,B2,4)"]]
    kind, message = findings(S=rows)["S!B1"]
    assert kind == "unit slip"
    assert "millimeters were meant (3.4055 in)" in message


def test_what_no_engine_has_is_told_with_its_cell_where_no_slip_of_a_known_kind_explains_it(
    findings,
):
    rows = [["Bore (in)", 4.03], ["Stroke (in)", 990], ["Size", "=ENG.DISPLACEMENT(B1,B2,8)"]]
    kind, message = findings(S=rows)["S!B2"]
    assert kind == "disagreement"
    assert "expected a length that an engine can have, 0.24 to 47 in, got 990" in message


def test_one_cell_in_two_unit_systems(findings):
    rows = [
        ["Stroke", 86.0],
        ["Speed", '=ENG.MEAN_PISTON_SPEED(B1,6000,"metric")'],
        ["Ratio", "=ENG.ROD_STROKE_RATIO(143,B1)"],
    ]
    assert "takes it in mm, ENG.ROD_STROKE_RATIO in B3 in in" in findings(S=rows)["S!B1"][1]


def test_a_hot_deck_where_a_cold_one_is_meant(findings):
    rows = [
        ["Deck clearance (in)", 0.006],
        ["Deck clearance, hot (in)", "=ENG.HOT_DECK_CLEARANCE(B1,0.004)"],
        ["Quench, cold (in)", "=ENG.QUENCH(B2,0.039)"],
    ]
    kind, message = findings(S=rows)["S!B2"]
    assert kind == "disagreement"
    assert "is a hot size, but ENG.QUENCH in B3 takes its deck clearance cold" in message
    rows[2][1] = "=ENG.HOT_QUENCH(B1,0.039,0.004)"
    assert findings(S=rows) == {}


def test_a_hot_clearance_judged_by_a_cold_band(findings):
    rows = [
        ["Gap, hot (in)", '=ENG.HOT_RING_GAP(0.018,4.03,130,300,"gray iron","ductile iron")'],
        ["Wanted, cold (in)", 0.017], ["Most, cold (in)", 0.020],
        ["Verdict", "=ENG.VERDICT(B1,B2,B3)"],
    ]  # fmt: skip
    assert (
        "is a hot size, but ENG.VERDICT in B4 judges it by a cold limit"
        in (findings(S=rows)["S!B1"][1])
    )


def fits(bores, pistons):
    clearances = [f"=ENG.PISTON_CLEARANCE(B{row},C{row})" for row in range(2, 2 + len(bores))]
    return table(("Bore (in)", bores), ("Piston (in)", pistons), ("Fit (in)", clearances))


def test_bores_to_the_thousandth_beside_pistons_to_the_tenth(findings):
    pistons = [4.0259, 4.0260, 4.0258, 4.0261, 4.0259, 4.0257]
    found = findings(S=fits([4.030, 4.031, 4.030, 4.030, 4.029, 4.030], pistons))
    assert "whole steps of 0.001 in" in found["S!B2"][1]
    assert findings(S=fits(BORES, pistons)) == {}


def test_one_reading_entered_differently_on_two_sheets(findings):
    again = [*BORES[:3], 4.0290, *BORES[4:]]
    found = findings(Block=table(("Bore (in)", BORES)), Card=table(("Bore (in)", again)))
    assert list(found) == ["Card!B5"]
    assert "on Block (B5) it is 4.0299 in; the other 5 readings are the same" in found["Card!B5"][1]


def test_sizes_before_and_after_machining_may_differ(findings):
    before = [4.0012, 4.0008, 4.0021, 4.0011, 4.0016, 4.0010]
    assert findings(Intake=table(("Bore (in)", before)), Done=table(("Bore (in)", BORES))) == {}


def test_a_stroke_that_is_another_on_the_next_sheet(findings):
    one = [["Stroke (in)", 3.48], ["Speed", "=ENG.MEAN_PISTON_SPEED(B1,6000)"]]
    two = [["Stroke (in)", 3.75], ["Speed", "=ENG.MEAN_PISTON_SPEED(B1,6000)"]]
    assert "on One (B1) it is 3.48 in" in findings(One=one, Two=two)["Two!B1"][1]


def test_a_sheet_left_from_another_job(findings):
    one = [["Job no.", "INV-1"], ["Stroke (in)", 3.48]]
    two = [["Job no.", "INV-7"], ["Speed", "=ENG.MEAN_PISTON_SPEED(One!B2,6000)"]]
    kind, message = findings(One=one, Two=two)["Two!B1"]
    assert kind == "disagreement"
    assert "gives the job number INV-7, sheet One gives INV-1" in message
    two[1][1] = "=ENG.MEAN_PISTON_SPEED(3.48,6000)"
    assert findings(One=one, Two=two) == {}  # Two jobs in one book.


@pytest.mark.parametrize("line", ["Checked by", "Signed:", "Checked:", "Signature: ________"])
def test_an_open_signature_at_release(findings, line):
    speed = ["Speed", "=ENG.MEAN_PISTON_SPEED(3.48,6000)"]
    rows = [["Date out", "2025-03-14"], [line], speed]
    kind, message = findings(S=rows)["S!A2"]
    assert kind == "not signed"
    assert "dated finished (2025-03-14)" in message
    assert findings(S=[["Date out", None], [], [line], speed]) == {}
    assert findings(S=[rows[0], ["Released"], ["Lead builder", "I. T."], speed]) == {}
    assert findings(S=[rows[0], ["Checked by", "I. T."], speed]) == {}


def test_a_missing_reading_at_release_says_so(findings):
    rows = [["Date out", "2025-03-14"], ["Gasket", None], ["Quench", "=ENG.QUENCH(0.01,B2)"]]
    assert findings(S=rows)["S!B2"][1].endswith("The engine is dated finished (2025-03-14).")


def test_shells_of_the_next_undersize(findings):
    rows = [["Housing (in)", 2.6410], ["Wall (in)", 0.0950], ["Journal (in)", 2.4386],
            ["Clearance (in)", "=ENG.BEARING_CLEARANCE(B1,B2,B3)"]]  # fmt: skip
    message = findings(S=rows)["S!B4"][1]
    assert "0.0124 in, far above what is usual for a bearing clearance" in message
    assert "the shells are of the next undersize (0.010 in)" in message
    assert "common practice, a starting point only" in message


def test_a_radius_for_a_diameter(findings):
    rows = [["Bore (in)", 2.015], ["Piston (in)", 4.0265],
            ["Clearance (in)", "=ENG.PISTON_CLEARANCE(B1,B2)"]]  # fmt: skip
    assert "a radius was typed for a diameter" in findings(S=rows)["S!B1"][1]


@pytest.mark.parametrize(
    ("bores", "pistons", "cell"),
    [
        # The other cylinder says which of the two is wrong.
        ([4.0301, 4.0300], [4.0261, 2.01305], "C3"), ([4.0301, 2.0150], [4.0261, 4.0260], "B3"),
        ([4.0301, 4.1300], [4.0261, 4.0260], "B3"), ([4.0301, 4.0300], [4.0261, 3.9260], "C3"),
    ],
)  # fmt: skip
def test_which_of_two_mating_sizes_slipped(doubts, bores, pistons, cell):
    found = doubts(fits(bores, pistons))
    assert list(found) == [cell]
    assert "too far apart for ENG.PISTON_CLEARANCE" in found[cell]


def test_which_of_housing_and_journal_slipped_shows_by_the_walls(doubts):
    def rows(housing, journal):
        return [["Housing (in)", housing], ["Wall (in)", 0.0945], ["Journal (in)", journal],
                ["Clearance (in)", "=ENG.BEARING_CLEARANCE(B1,B2,B3)"]]  # fmt: skip

    assert "a radius was typed" in doubts(rows(2.6400 / 2, 2.4488))["B1"]
    assert "a radius was typed" in doubts(rows(2.6400, 2.4488 / 2))["B3"]
    assert doubts(rows(2.6400, 2.4488)) == {}


@pytest.mark.parametrize(
    "rows",
    [
        [["Intake stem diameter (in)", 0.3440], ["Intake guide bore (in)", 0.3430]],
        [["Pin diameter (in)", 0.9455], ["Pin bore in the piston (in)", 0.9450]],
    ],
)
def test_a_shaft_above_its_hole_is_told_once(findings, rows):
    # And not of the clearance below zero besides.
    ((place, (kind, message)),) = findings(S=rows).items()
    assert (place, kind) == ("S!B1", "disagreement")
    assert "must be below" in message


def gap_book(top, second):
    return [["Bore (in)", 4.03], ["Factor", 0.0045], ["Gap wanted (in)", "=ENG.RING_GAP(B1,B2)"],
            ["Top ring gap (in)", top], ["Second ring gap (in)", second]]  # fmt: skip


def test_ring_gaps_far_from_the_gap_that_the_book_wants(findings):
    found = findings(S=gap_book(0.0090, 0.0200))
    assert list(found) == ["S!B4"]
    assert "is 0.009 in, 50% of the 0.0181 in that bore and factor give in B3" in found["S!B4"][1]
    assert list(findings(S=gap_book(0.0360, 0.0200))) == ["S!B4"]
    assert findings(S=gap_book(0.0185, 0.0290)) == {}  # A second ring may have more.


# -- readings of another job


def test_numbers_that_nothing_makes_siblings_are_not_compared(findings):
    head = ["Cylinder", *range(1, 8)]
    assert findings(S=[head, ["Note", 0.797, 0.803, 0.031, 0.804, 0.815, 0.063, 0.398]]) == {}
    found = findings(S=[head, ["Note", 0.797, 0.803, 0.0801, 0.804, 0.815, 0.801, 0.799]])
    assert {at: kind for at, (kind, _) in found.items()} == {"S!D2": "unit slip"}


def test_a_block_of_a_bore_typed_across_is_told_with_what_it_would_be_down(findings):
    across = [[4.1101, 4.1104, 4.1106], [4.1099, 4.1100, 4.1103]]
    calls = [["Taper", "=ENG.BORE_TAPER(B1:D2)"], ["Out of round", "=ENG.BORE_OUT_OF_ROUND(B1:D2)"]]
    rows = [["Bore (in)", *across[0]], ["", *across[1]], *calls]
    found = findings(S=rows)
    assert found["S!B3"][0] == "disagreement"
    assert "takes 2 heights, one a row, on 3 axes" in found["S!B3"][1]
    assert "With the heights down it would be 0.0005 in" in found["S!B3"][1]
    assert "With the heights down it would be 0.0004 in" in found["S!B4"][1]
    down = [list(column) for column in zip(*across, strict=True)]
    rows = [["Bore (in)", *down[0]], ["", *down[1]], ["", *down[2]]]
    rows += [["Taper", "=ENG.BORE_TAPER(B1:C3)"], ["Out of round", "=ENG.BORE_OUT_OF_ROUND(B1:C3)"]]
    assert not any("axes" in message for _, message in findings(S=rows).values())


@pytest.mark.parametrize(
    "rows",
    [
        # A motorcycle, and a kart.
        [["Stroke (mm)", 42.5], ["Redline (rpm)", 16500],
         ["Speed", '=ENG.MEAN_PISTON_SPEED(B1,B2,"metric")']],
        [["Stroke (mm)", 54], ["Redline (rpm)", 18000],
         ["Speed", '=ENG.MEAN_PISTON_SPEED(B1,B2,"metric")']],
        # A head bolt of 220 mm, 14.7 mm thick.
        [["Stretch (mm)", 0.72], ["Length (mm)", 220], ["Diameter (mm)", 14.7],
         ["Preload", '=ENG.PRELOAD_FROM_STRETCH(B1,B2,B3,"alloy steel","metric")']],
        # The late closing of an engine that keeps little of its stroke to compress in.
        [["Compression ratio", 12.5], ["Stroke (mm)", 90], ["Rod length (mm)", 145],
         ["Intake closing (deg ABDC)", 110],
         ["Dynamic ratio", '=ENG.DYNAMIC_RATIO(B1,B2,B3,B4,,"metric")']],
        # The tightest that a maker allows on a new main.
        [["Housing bore (mm)", 64.000], ["Shell wall (mm)", 1.995], ["Main journal (mm)", 60.000],
         ["Main bearing clearance (mm)", '=ENG.BEARING_CLEARANCE(B1,B2,B3,,"metric")']],
        # Sweeps of small lifts, well below full lift.
        [["Valve drop (in)", 0.400], ["Lift at 10 deg (in)", 0.060], ["Angle", -10],
         ["Stroke (in)", 3.48], ["Rod length (in)", 6],
         ["Piston to valve", "=ENG.PISTON_TO_VALVE(B1,B2,B3,B4,B5)"]],
        [["Seat load (lbf)", 120], ["Rate (lbf/in)", 350], ["Lift (in)", 0.050],
         ["Load at 0.050", "=ENG.SPRING_LOAD(B1,B2,B3)"]],
    ],
)  # fmt: skip
def test_sizes_of_real_engines_raise_no_doubt(findings, rows):
    # Only that nothing was calculated may be told of them.
    told = {
        place: said for place, said in findings(S=rows).items() if said[0] != "never calculated"
    }
    assert told == {}

"""Each doubt about a number: its cell, what it says, and that plain work raises none.

Sizes of micrometer turns, gasket bores and the like are common practice, no source. The ratios
of the dished and the domed piston are worked by hand: swept volume pi/4 x 8.7 x 8.7 x 9.1 cc,
clearance the sum of chamber, crown, deck and gasket.
"""

import math
import random

import pytest

from workbook_tools.findings import check, check_batch
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.jobs.read import read_book
from workbook_tools.jobs.records import Book


@pytest.fixture
def findings(make_book):
    """What is found in sheets of rows, without the remark that nothing was calculated."""

    def of(**sheets):
        book = read_book(make_book(sheets))
        found = [f for f in check(book) if f.place is not None]
        return {f"{f.place.sheet}!{f.place.address}": (f.kind, f.message) for f in found}

    return of


@pytest.fixture
def doubts(make_book):
    """The same for cells that a call cannot use, without the findings that tell just that."""

    def of(rows):
        found = check(read_book(make_book({"S": rows})))
        return {f.place.address: f.message for f in found
                if f.place is not None and f.kind != "unreadable"}  # fmt: skip

    return of


BORES = [4.0301, 4.0300, 4.0302, 4.0299, 4.0301, 4.0303]


def table(*columns):
    """A table of cylinders down: a head and a column for each item."""
    heads, values = zip(*columns, strict=True)
    rows = zip(*values, strict=True)
    return [["Cylinder", *heads], *([f"Cyl {n}", *row] for n, row in enumerate(rows, 1))]


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


def test_a_deck_with_its_sign_turned(findings):
    decks = [0.0080, 0.0085, -0.0075, 0.0080, 0.0085, 0.0080]
    kind, message = findings(S=table(("Deck clearance (in)", decks)))["S!B4"]
    assert kind == "disagreement"
    assert "its sign is the wrong way round (0.0075 in)" in message


def decks(values, stack):
    """Measured decks, and the stack of sizes that comes to another number or to the same."""
    quench = [f"=ENG.QUENCH(B{row},0.041)" for row in range(2, 2 + len(values))]
    rows = table(("Deck clearance (in)", values), ("Quench (in)", quench))
    sizes = f"=ENG.DECK_CLEARANCE({9.312 + stack:.4f},3.54,6,1.542)"
    return [*rows, [], ["From sizes (in)", sizes]]


@pytest.mark.parametrize(
    ("values", "stack", "cell"),
    [
        ([0.0085, -0.0080], 0.0080, "B3"),  # Two cylinders: the sizes say which.
        ([0.0040, -0.0040, 0.0065], 0.0065, "B3"),
        ([-0.0055, 0.006, 0.005, 0.0055, 0.007, 0.007], 0.0065, "B2"),
    ],
)
def test_one_deck_the_other_way_from_its_siblings_and_the_sizes(findings, values, stack, cell):
    found = findings(S=decks(values, stack))
    assert list(found) == [f"S!{cell}"]
    assert found[f"S!{cell}"][0] == "disagreement"
    assert "with the other sign" in found[f"S!{cell}"][1]


@pytest.mark.parametrize(
    ("values", "stack"),
    [
        ([0.0085, 0.0080], 0.0080),
        ([0.0020, -0.0020, 0.0010], 0.0005),  # They straddle the deck.
        ([0.0040, -0.0025, 0.0035, 0.0010], 0.0020),  # A deck out of true.
        ([0.0180, -0.0040, 0.0170], 0.0175),  # Not as much the other way.
    ],
)
def test_decks_that_only_differ_have_no_wrong_sign(findings, values, stack):
    assert findings(S=decks(values, stack)) == {}


def ratio_book(label, crown):
    return [
        ["Chamber (cc)", 47.2], [f"{label} (cc)", crown], ["Swept (cc)", "=540.9658"],
        ["Gasket volume (cc)", 5.778], ["Deck volume (cc)", -0.8917],
        ["Compression ratio", '=ENG.COMPRESSION_RATIO(540.9658,B1,B4,B5,B2,"metric")'],
    ]  # fmt: skip


def test_a_dish_with_a_minus_is_shown_both_ways(findings):
    swept = math.pi / 4 * 8.7 * 8.7 * 9.1
    dome, dish = (swept / (47.2 + s * 9.6 - 0.8917 + 5.778) + 1 for s in (-1, 1))
    kind, message = findings(S=ratio_book("Dish", -9.6))["S!B2"]
    assert kind == "disagreement"
    assert f"is {dome:.4g} as typed and {dish:.4g} with the other sign" in message
    assert findings(S=ratio_book("Dish", 9.6)) == {}
    assert findings(S=ratio_book("Dome or dish, plus = dish", -9.6)) == {}


@pytest.mark.parametrize(
    ("label", "wanted", "sign"),
    [
        ("Ratio wanted", 9.7, 1),  # The dish gives 9.77, a dome would give 13.7.
        ("Target compression ratio", 9.7, -1), ("Static compression ratio", 9.7, -1),
        ("Ratio wanted", 13.7, 1),
    ],
)  # fmt: skip
def test_a_crown_whose_other_sign_gives_the_ratio_wanted(findings, label, wanted, sign):
    swept = math.pi / 4 * 8.7 * 8.7 * 9.1
    typed, turned = (swept / (47.2 + s * 9.6 - 0.8917 + 5.778) + 1 for s in (sign, -sign))
    found = findings(S=[*ratio_book("Crown volume", sign * 9.6), [label, wanted]])
    if abs(typed - wanted) < abs(turned - wanted):
        assert found == {}
        return
    assert list(found) == ["S!B2"]
    assert f"{label} (B7) is {wanted:.4g}, which the other sign comes to" in found["S!B2"][1]
    assert f"is {typed:.4g} as typed and {turned:.4g} with the other" in found["S!B2"][1]


@pytest.mark.parametrize(
    "label", ["Rod ratio wanted", "Dynamic ratio wanted", "Rocker ratio, card"]
)
def test_other_ratios_say_nothing_of_a_crown(findings, label):
    assert findings(S=[*ratio_book("Crown volume", 9.6), [label, 13.7]]) == {}


def test_measured_deck_against_the_stack_of_sizes(findings):
    rows = [
        ["Deck height (in)", 9.32], ["Stroke (in)", 3.54], ["Rod (in)", 6.0],
        ["Pin height (in)", 1.542],
        ["From sizes (in)", "=ENG.DECK_CLEARANCE(B1,B2,B3,B4)"],
        ["Deck clearance, measured (in)", -0.0075], ["Gasket (in)", 0.041],
        ["Quench (in)", "=ENG.QUENCH(B6,B7)"],
    ]  # fmt: skip
    kind, message = findings(S=rows)["S!B6"]
    assert kind == "disagreement"
    assert "the sizes of block, crank, rod and piston give 0.008 in in B5" in message
    assert "0.0335 as typed and 0.0485 in with the other sign" in message
    rows[5][1] = 0.0075
    assert findings(S=rows) == {}


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
    assert kind == "unreadable"
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
    rows += [[f"Cyl {2 * k + 1}", BORES[k], None, f"Cyl {2 * k + 2}", BORES[k]] for k in range(4)]
    assert findings(S=rows) == {}


def test_a_range_that_stops_one_short(findings):
    rows = [*table(("Bore (in)", BORES)), [], ["Mean", "=ENG.MEAN_READING(B2:B6,5)"]]
    kind, message = findings(S=rows)["S!B9"]
    assert kind == "missing reading"
    assert "takes B2:B6 and leaves out Bore, Cyl 6 (B7)" in message
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

SKIRTS = [4.0259, 4.0260, 4.0258, 4.0261, 4.0259, 4.0257]


@pytest.fixture
def batch(make_book):
    """What check_batch finds in books given as (file name, job, rows)."""

    def of(*books):
        read = [
            read_book(make_book({"S": [["Job no.", job], *rows]}, file_name=name))
            for name, job, rows in books
        ]
        return {read[n].file_name: f for n, f in check_batch(read).items()}

    return of


def sizes(bores, skirts):
    return table(("Bore (in)", bores), ("Piston skirt (in)", skirts))


def test_readings_copied_from_another_job(batch):
    other = [4.0306, 4.0304, 4.0305, 4.0307, 4.0303, 4.0305]
    found = batch(("a.xlsx", "1", sizes(BORES, SKIRTS)), ("b.xlsx", "2", sizes(BORES, SKIRTS)),
                  ("c.xlsx", "3", sizes(other, other)))  # fmt: skip
    assert set(found) == {"a.xlsx", "b.xlsx"}
    ((finding,),) = [found["b.xlsx"]]
    assert finding.kind == "copied reading"
    assert "the same numbers, one by one, as in a.xlsx, job 1" in finding.message


@pytest.mark.parametrize(
    ("first", "second", "jobs"),
    [
        # The same nominal sizes in two engines are no copy.
        (([4.03] * 6, [4.026] * 6), ([4.03] * 6, [4.026] * 6), ("1", "2")),
        # Gaps filed to one size scatter by one step of the gauge.
        (([0.019, 0.019, 0.0195] * 2, [0.02] * 6), ([0.019, 0.019, 0.0195] * 2, [0.02] * 6),
         ("1", "2")),
        # Two states of one job's book.
        ((BORES, SKIRTS), (BORES, SKIRTS), ("7", "7")),
    ],
)  # fmt: skip
def test_what_is_no_copy(batch, first, second, jobs):
    rows = sizes(*first), sizes(*second)
    assert batch(("a.xlsx", jobs[0], rows[0]), ("b.xlsx", jobs[1], rows[1])) == {}


def test_a_copy_shows_whatever_order_the_cylinders_have(batch):
    rows = sizes(BORES, SKIRTS)
    by_bank = [rows[0], *(rows[n] for n in (1, 3, 5, 2, 4, 6))]
    found = batch(("a.xlsx", "1", rows), ("b.xlsx", "2", by_bank))
    assert set(found) == {"a.xlsx", "b.xlsx"}


def test_engines_machined_to_the_same_sizes_are_no_copies(batch):
    # Thirty fours of one kind: sizes within a tenth or two of the same nominal. By chance two
    # of them may have a row alike, hardly ever so much that it says anything.
    rng = random.Random(4)

    def near(nominal):
        return [round(nominal + 0.0001 * round(rng.gauss(0, 1)), 4) for _ in range(4)]

    books = [(f"{n}.xlsx", str(n), sizes(near(4.03), near(4.0262))) for n in range(30)]
    assert batch(*books) == {}


def test_no_books_and_empty_books_have_nothing_in_common():
    empty = [Book(f"{n}.xlsx", str(n), Job(number=JobField(str(n)))) for n in range(2)]
    assert check_batch([]) == {}
    assert check_batch(empty) == {}


def test_test_speeds_alike_in_two_jobs_are_no_copy(make_book):
    speeds = [2500, 3000, 3500, 4000, 4500, 5000, 5800, 6100]
    books = []
    for job in ("26-031", "26-032"):
        calls = [f"=ENG.MEAN_PISTON_SPEED(3.5,{column}3)" for column in "BCDEFGHI"]
        runs, speed = ["Run", *range(1, 9)], ["Speed (rpm)", *speeds]
        rows = [["Job no.", job], runs, speed, ["Mean speed", *calls]]
        books.append(read_book(make_book({"S": rows}, file_name=f"{job}.xlsx")))
    assert check_batch(books) == {}


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

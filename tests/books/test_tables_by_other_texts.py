"""Tables read by what stands elsewhere: a table above, a unit's column, a corner, a bracket."""

import pytest

from workbook_tools.jobs.read import read_book


@pytest.fixture
def book(make_book):
    """book(rows, title) -> what is read of a sheet with these rows."""
    return lambda rows, title="Sheet": read_book(make_book({title: rows}))


def told(book, *addresses):
    """(measurand, which one, stage, state) of the readings of cells."""
    by_cell = {r.place.address: r for r in book.readings}
    found = (by_cell[a] for a in addresses)
    return [(r.measurand, r.part.which or " ".join(r.part.at), r.stage, r.state) for r in found]


def test_a_table_that_repeats_the_heads_of_one_above_has_its_stages_too(book):
    rows = [[None, "AS RECEIVED", None, "AFTER GRIND"], ["MAINS", "vert", "horiz", "size"]]
    rows += [[n, 2.9978, 2.9970, 2.9885] for n in (1, 2, 3)]
    rows += [[], ["PINS", "vert", "taper", "size"]]
    rows += [[n, 2.3742, 0.0004, 2.3645] for n in (1, 2, 3, 4)]
    found = book(rows)
    assert told(found, "B3", "D3") == [
        ("main_journal", "1", "found", "read"),
        ("main_journal", "1", "final", "read"),
    ]
    assert told(found, "B8", "C8", "D8") == [
        ("rod_journal", "1", "found", "read"),
        ("rod_journal_taper", "1", "found", "read"),
        ("rod_journal", "1", "final", "read"),
    ]


def test_other_heads_take_no_stages_from_the_table_above(book):
    rows = [[None, "AS RECEIVED"], ["MAINS", "vert", "horiz"]]
    rows += [[n, 2.9978, 2.9970] for n in (1, 2, 3)]
    rows += [[], ["Cyl", "Bore", "Piston"], *([n, 4.0305, 4.0260] for n in (1, 2, 3))]
    assert told(book(rows), "B8") == [("bore", "1", "", "read")]


@pytest.mark.parametrize(
    ("label", "size", "unit", "measurand"),
    [
        ("Compression", 9.8, "bar", "cranking_pressure"),
        ("Compression", 9.8, None, "compression_ratio"),
        ("Big end", 402.1, "g", "rod_big_end_mass"),
    ],
)
def test_the_unit_behind_a_number_says_what_its_label_leaves_open(
    book, label, size, unit, measurand
):
    found = book([["Units", "metric"], ["What", "Reading", "Unit"], [label, size, unit]])
    assert told(found, "B3")[0][0] == measurand


def test_a_letter_for_grams_is_no_left_side(book):
    rows = [["Rod", 1, 2, 3], ["Big end g", 402.0, 402.1, 402.2]]
    assert told(book(rows), "B2", "D2") == [
        ("rod_big_end_mass", "1", "", "read"),
        ("rod_big_end_mass", "3", "", "read"),
    ]


def test_a_bearing_between_front_and_rear_is_the_second_of_three(book):
    rows = [["Mains", "Front", "Centre", "Rear"], ["Journal (in)", 1.9603, 1.9604, 1.9603]]
    assert [which for _, which, *_ in told(book(rows), "B2", "C2", "D2")] == ["1", "2", "3"]


def test_two_rods_that_share_a_pin_are_told_as_a_pair(book):
    rows = [["RODS", "1-2", "3-4", "5-6"], ["side clearance (in)", 0.012, 0.013, 0.011]]
    assert [which for _, which, *_ in told(book(rows), "B2", "C2", "D2")] == ["1-2", "3-4", "5-6"]


def test_an_index_may_carry_remarks_in_brackets(book):
    rows = [["Paliers", "1 (volant)", 2, 3], ["Ø tourillon (mm)", 47.485, 47.486, 47.484]]
    assert told(book(rows), "B2") == [("main_journal", "1", "", "read")]


def test_numbers_in_line_are_counted_whatever_else_has_their_name(book):
    rows = [["Units", "inch"], [], ["Mains"], ["line hone size", 2.5911, 2.5910, 2.5911, 2.5910]]
    rows += [["crank mains", 2.3983, 2.3984, 2.3983, 2.3984], [], ["Line hone (in)", 2.5912]]
    assert [which for _, which, *_ in told(book(rows), "B4", "E4")] == ["1", "4"]


def test_remarks_and_prices_beside_a_reading_are_no_siblings_of_it(book):
    rows = [["What", "Reading", "Unit", "Remarks", "$"], ["Top ring gap", 0.32, "mm", "max 0.50"]]
    rows += [["Stroke", 64.1, "mm", "part 90210-60, 8 pcs", 1640.5]]
    found = book(rows)
    assert told(found, "B2", "B3") == [
        ("top_ring_gap", "", "final", "read"),
        ("stroke", "", "final", "read"),
    ]
    assert [n.kind for n in found.no_readings if n.place.address == "E3"] == ["price"]


def test_the_total_clearance_is_no_sum_and_a_lone_mean_stands_for_its_readings(book):
    rows = [["Main", 1, 2, 3], ["Main clr (total) (in)", 0.0025, 0.0026, 0.0024]]
    assert told(book(rows), "C2") == [("main_bearing_clearance", "2", "", "read")]
    alone = [["Rod clearance avg", 2.9, "thou"]]
    assert told(book(alone), "B1") == [("rod_bearing_clearance", "", "", "read")]
    beside = [["Rod", 1, 2], ["Rod clearance (in)", 0.0025, 0.0027], ["Rod clearance avg", 0.0026]]
    assert [r.measurand for r in book(beside).readings if r.place.address == "B3"] == [""]


def test_a_row_of_one_size_below_heads_of_other_things_is_not_read_by_them(book):
    rows = [["Cyl", "Bore (mm)", "Piston (mm)", "Clearance (mm)", "Top gap (mm)"]]
    rows += [[n, 93.614, 93.576, 0.038, 0.33] for n in (1, 2, 3)]
    rows += [["rough hone 1", 93.555, 93.556, 93.557, 93.555]]
    found = book(rows)
    assert told(found, "D2")[0][0] == "piston_clearance"
    assert {r.measurand for r in found.readings if r.place.address.endswith("5")} == {""}


def test_a_limit_below_sizes_that_were_measured_is_still_a_limit(book):
    rows = [["Main", "Measured clearance (mm)"], *([n, 0.046] for n in (1, 2, 3))]
    rows += [["Least", 0.026], ["Most", 0.064]]
    stages = [stage for _, _, stage, _ in told(book(rows), "B2", "B5", "B6")]
    assert stages == ["final", "limit_low", "limit_high"]

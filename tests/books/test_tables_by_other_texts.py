"""Tables read by what stands elsewhere: a table above, a unit's column, a corner, a bracket."""

import pytest
from each_case import each

from workbook_tools.jobs.read import read_book
from workbook_tools.labels.vocabulary import meaning_of


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


def test_rows_of_a_table_go_on_below_its_heads_past_lone_values(book):
    rows = [[None, "Zyl. 1 (links)", "Zyl. 2 (rechts)", "Bemerkung"]]
    rows += [["Bohrung (mm)", 80.512, 80.514], [], ["Hubzapfen Ø (mm)", 39.984, 39.983]]
    rows += [["Pleuellagerspiel (mm)", "0,040", "0,042", "Streifen bestätigt 0,04"], []]
    rows += [["Hub (mm)", 72], ["Kompression (bar)", "11,5", "11,8"]]
    found = book(rows)
    numbers = [r.part.number for r in found.readings if r.place.address in ("B4", "C5", "C8")]
    assert numbers == [1, 2, 2]
    assert told(found, "B7") == [("stroke", "", "", "read")]


def test_readings_about_alike_are_no_index(book):
    rows = [["Item", "Cyl 1", "Cyl 2", "Cyl 3", "Cyl 4"], [], ["Pressure held", 78, 77, 78, 76]]
    rows += [["Leakage %", 2.5, 3.75, 2.5, 5]]
    assert {r.part.number for r in book(rows).readings if r.place.address[1] == "4"} <= {1, 2, 3, 4}


def test_columns_of_a_pull_are_read_by_their_units(book):
    rows = [["RPM", "Torque lb-ft", "HP"], *([n, 402, n * 402 / 5252] for n in (4000, 4500, 5000))]
    assert [name for name, *_ in told(book(rows), "A2", "B2", "C2")] == [
        "engine_speed",
        "engine_torque",
        "power",
    ]


@pytest.mark.parametrize(
    ("others", "measurand"), [([], "second_ring_gap"), (["2nd ring gap"], "oil_ring_gap")]
)
def test_the_bottom_ring_is_the_second_where_no_other_is(book, others, measurand):
    labels = ["Top ring gap", *others, "Bottom ring gap"]
    rows = [["Cyl", 1, 2, 3], *([f"{t} (in)", 0.016, 0.017, 0.018 + n / 1e3]
            for n, t in enumerate(labels))]  # fmt: skip
    assert told(book(rows), f"B{len(rows)}")[0][0] == measurand


def test_a_row_may_name_one_side_after_the_other(book):
    rows = [["Tappets hot", "inlet", "12 thou", "exh.", "15 thou"]]
    assert [name for name, *_ in told(book(rows), "C1", "E1")] == ["intake_lash", "exhaust_lash"]


def test_texts_with_sizes_speak_for_themselves(book):
    rows = [["Units", "inch"], ["hole 1", "second ring .030", ".006 down in the hole"]]
    rows += [["rod 1", "rod brg .0028 on the pin", "side .022 for the pair 1-2"]]
    assert told(book(rows), "B2", "C2", "B3", "C3") == [
        ("second_ring_gap", "1", "", "read"),
        ("deck_clearance", "1", "", "read"),
        ("rod_bearing_clearance", "1", "", "read"),
        ("rod_side_clearance", "1-2", "", "read"),
    ]


def test_a_unit_behind_the_number_in_its_cell_says_what_is_measured(book):
    rows = [["Head nuts", "75 lb ft", None, "Big ends", "50 lb ft", None, "Mains", "80 lb ft"]]
    assert [name for name, *_ in told(book(rows), "B1", "E1", "H1")] == [
        "head_bolt_torque",
        "rod_bolt_torque",
        "main_bolt_torque",
    ]


@pytest.mark.parametrize(
    ("other", "measurand"),
    [("transfers open", "exhaust_port_opening"), ("intake closes", "exhaust_opening")],
)
def test_an_engine_with_transfer_ports_has_an_exhaust_port(book, other, measurand):
    rows = [["Item", "deg"], ["exhaust opens", 86], [other, 116]]
    assert told(book(rows), "B2")[0][0] == measurand


def test_numbers_that_count_on_are_no_sizes(book):
    rows = [["Units", "inch"], [], ["Main", "Top", 2, 3, "Lower", "Avg", "=1+2"]]
    rows += [["Runout", 0.0005, 0.001, 0.001, 0.0005]]
    read = {r.place.address for r in book(rows).readings if r.state == "read"}
    assert not read & {"C3", "D3"}


def test_a_table_beside_labels_with_values_is_apart_from_them(book):
    rows = [["Crank end float (in)", 0.0055, None, "Rod", "Housing (in)", "Journal (in)"]]
    rows += [["Main bolts ft/lb", 75, None, 1, 2.2253, 2.0996]]
    rows += [["Seat lb / open lb", 145, 410, 2, 2.2251, 2.0994]]
    rows += [[None, None, None, 3, 2.2252, 2.0995]]
    found = book(rows)
    assert told(found, "B2", "E3", "F4") == [
        ("main_bolt_torque", "", "", "read"),
        ("rod_housing_bore", "2", "", "read"),
        ("rod_journal", "3", "", "read"),
    ]


def test_a_length_in_a_label_is_no_cylinder(book):
    rows = [["Piston dia., 20 mm up the skirt (mm)", 66.86], ["Bore 3 (mm)", 66.93]]
    assert [which for _, which, *_ in told(book(rows), "B1", "B2")] == ["", "3"]


def test_what_a_row_works_out_of_its_number_is_no_other_one(book):
    rows = [["Top ring gap (mm)", 0.32, "=B1*2"], ["Stroke (mm)", 57]]
    assert told(book(rows), "B1") == [("top_ring_gap", "", "", "read")]


@each(
    ("label", "measurand"),
    [
        ("Exhaust stem clce.", "exhaust_stem_clearance"),
        ("Skirt to bore", "piston_clearance"),
        ("Pin in bushing", "small_end_clearance"),
        ("Barrel shim (base)", "base_gasket_thickness"),
        ("Sleeve stand out", "liner_protrusion"),
        ("Capacity (cc)", "displacement"),
        ("crank pin side play", "rod_side_clearance"),
        ("Ø tête de bielle avec coussinets", "rod_bearing_bore"),
        ("Main tunnel w/ brg", "main_bearing_bore"),
        ("Pie de biella Ø", "small_end_bore"),
        ("Muñequilla bancada", "main_journal"),
        ("Pistón sobre bloque", "piston_protrusion"),
        ("pistone sotto il bordo al PMS", "deck_clearance"),
        ("travasi aprono", "transfer_port_opening"),
        ("Springs open (lb)", "spring_open_load"),
    ],
)
def test_more_ways_to_say_it(label, measurand):
    assert meaning_of(label).candidates[0].measurand == measurand


def test_the_steps_of_a_torque_are_steps_and_no_cylinders(book):
    rows = [["No.", "Fasteners", "Lubricant", "Step 1 (lbf.ft)", "Step 2 (lbf.ft)"]]
    rows += [[1, "Main caps", "engine oil", 30, 50], [2, "Rod caps", "paste", 25, None]]
    rows += [[3, "Sump bolts", "dry", 8, 12.5]]
    found = book(rows)
    assert told(found, "D2", "E2", "D3") == [
        ("main_bolt_torque", "step 1", "", "read"),
        ("main_bolt_torque", "step 2", "", "read"),
        ("rod_bolt_torque", "step 1", "", "read"),
    ]
    assert not found.missing
    assert told(found, "D4", "E4") == [
        ("fitting_torque", "step 1", "", "read"),
        ("fitting_torque", "step 2", "", "read"),
    ]


def test_a_column_of_cc_by_cylinder_is_the_chambers(book):
    rows = [["No.", "Bore", "Pist", "CC"], *([n, 4.0302, 4.0258, 58.1] for n in (1, 2, 3))]
    assert told(book(rows), "D2") == [("chamber_volume", "1", "", "read")]


def test_finishes_of_mains_and_of_pins_are_apart(book):
    rows = [["CRANK mains", "Finished", "Ra µm"], *([f"M{n}", 56.73, 0.20] for n in (1, 2, 3))]
    rows += [[], ["CRANK pins", "Finished", "Ra µm"], *([f"P{n}", 47.73, 0.25] for n in (1, 2))]
    by_cell = {r.place.address: r for r in book(rows).readings}
    assert [(by_cell[a].measurand, by_cell[a].part.of) for a in ("C2", "C7")] == [
        ("journal_finish", "main"),
        ("journal_finish", "rod"),
    ]


def test_top_and_2nd_over_numbered_rows_are_rings(book):
    rows = [["No.", "Bore", "Pist", "Top", "2nd", "Deck"]]
    rows += [[n, 4.0302, 4.0258, 0.021, 0.023, 0.003] for n in (1, 2, 3)]
    assert told(book(rows), "D3", "E4") == [
        ("top_ring_gap", "2", "", "read"),
        ("second_ring_gap", "3", "", "read"),
    ]
    places = [["Bore (in)", "Top", "Mid", "Bot"], *([n, 4.0302, 4.0301, 4.0303] for n in (1, 2))]
    assert told(book(places), "B2")[0][0] == "bore"


def test_a_column_of_another_job_is_not_read_as_this_ones(book):
    rows = [["Cyl", "Bore (mm)", "7719 bore (mm)"], *([n, 99.266, 93.524] for n in (1, 2, 3))]
    found = book(rows)
    assert told(found, "B2") == [("bore", "1", "", "read")]
    assert "read" not in {s for *_, s in told(found, "C2", "C3", "C4")}


def test_a_value_of_a_pair_stands_beside_the_first_of_two(book):
    rows = [["Rod", "Journal (in)", "Side (pair) (in)"], [1, 2.0996, 0.016], [2, 2.0994]]
    rows += [[3, 2.0995, 0.017], [4, 2.0996]]
    assert [which for _, which, *_ in told(book(rows), "C2", "C4", "B3")] == ["1-2", "3-4", "2"]


def test_what_a_sentence_works_out_is_a_clearance(book):
    found = book([["Units", "inch"], ["hole 1", "bore 4.5604, piston 4.5534 so 7.0 thou"]])
    read = {(r.measurand, r.value) for r in found.readings if r.place.address == "B2"}
    assert read == {("bore", 4.5604), ("piston_diameter", 4.5534), ("piston_clearance", 0.007)}


def test_a_few_doubtful_words_do_not_keep_a_book_from_its_units(book):
    rows = [["Bore", 4.5604], ["Stroke", 4.375], ["Rod length", 6.7], ["Gasket bore", 4.63]]
    rows += [["Side", 0.22], ["Clearance", 0.11]]
    found = book(rows)
    assert {r.system for r in found.readings if r.measurand in ("bore", "stroke")} == {"inch"}


@each(
    ("label", "measurand"),
    [
        ("cil. 1 boring", "bore"),
        ("zuiger", "piston_diameter"),
        ("hoofdlager speling", "main_bearing_clearance"),
        ("inlaatklep speling koud", "intake_lash"),
        ("axiale speling krukas", "crank_end_play"),
        ("Cylinderlopp", "bore"),
        ("Kolvspel", "piston_clearance"),
        ("Ramlagerspel", "main_bearing_clearance"),
        ("Topplockspackning tjocklek", "gasket_thickness"),
        ("Förbränningsrum (ml)", "chamber_volume"),
        ("Średnica tłoka", "piston_diameter"),
        ("Luz osiowy wału", "crank_end_play"),
        ("Skok tłoka", "stroke"),
        ("Śruby głowicy (Nm)", "head_bolt_torque"),
    ],
)
def test_the_commonest_words_of_three_more_languages(label, measurand):
    assert meaning_of(label).candidates[0].measurand == measurand


def test_sizes_below_heads_that_are_not_understood_are_not_taken_for_bores(book):
    rows = [["Czopik", "As found", "Final"], *([n, 66.93, 66.718] for n in (1, 2, 3))]
    found = book([["Units", "metric"], [], *rows])
    assert "read" not in {r.state for r in found.readings if r.place.address[0] in "BC"}
    counted = [["Units", "metric"], [], ["Cyl", *rows[0][1:]], *rows[1:]]
    assert told(book(counted), "B4") == [("bore", "1", "found", "read")]


def test_speeds_and_temperatures_of_a_run_are_read(book):
    rows = [["When", "Speed (rpm)", "Oil temperature (deg C)", "Oil pressure (kPa)"]]
    rows += [["Hot idle", 950, 96, 170], ["Hot, full", 6800, 105, 430]]
    found = book(rows)
    assert [(name, state) for name, _, _, state in told(found, "B2", "C2", "D3")] == [
        ("engine_speed", "read"),
        ("oil_temperature", "read"),
        ("oil_pressure", "read"),
    ]
    assert [r.si for r in found.readings if r.place.address == "C3"] == [pytest.approx(378.15)]


def test_a_share_of_something_names_its_row_and_is_no_reading(book):
    rows = [["Bore (in)", 4.03], ["Intake lash (in)", 0.018]]
    rows += [[], ["Valve", "Load (lbf)"], ["1/4 lift", 190], ["1/2 lift", 240], ["3/4 lift", 290]]
    read = {r.place.address for r in book(rows).readings}
    assert {"B5", "B6", "B7"} <= read
    assert read.isdisjoint({"A5", "A6", "A7"})


def test_a_word_only_like_a_known_one_says_nothing_beside_sizes_no_engine_has(book):
    rows = [["What is wanted"], ["Closest allowed, running", 0.7, "mm"]]
    ((measurand, *_, state),) = told(book(rows), "B2")
    assert (measurand, state) == ("", "not understood")


def test_a_number_of_another_kind_leaves_no_cell_beside_it_missing(book):
    rows = [["Fasteners", "Lubricant", "Pass 1 (N.m)", "Pass 2 (N.m)", "Pass 3 (N.m)"]]
    rows += [["Main caps", "oil", 25, 45, 60], ["Rod caps", "oil", 15, 30, 40]]
    rows += [["Spark plugs", "dry", 18, None, None]]
    assert book(rows).missing == ()

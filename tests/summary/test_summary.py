"""The summary: sections, verdicts joined to their numbers, readings, what was recomputed."""

from dataclasses import replace

import openpyxl
import pytest
from sample import across, call, cell, inch_v8, metric_four, typed_reading

from workbook_tools.books.cells import Trouble
from workbook_tools.catalog import entries
from workbook_tools.findings import check
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Job
from workbook_tools.jobs.read import read_book
from workbook_tools.jobs.records import Book, StaleFormula
from workbook_tools.labels.label import Label
from workbook_tools.render.html import render_html
from workbook_tools.summary.customer import customer_copy
from workbook_tools.summary.summary import section_titles, summarize


def book(*records, **more):
    return Book("a.xlsx", "0" * 64, Job(), tuple(records), **more)


def rows_of(sections):
    return {row.label: row for section in sections for row in section.rows}


@pytest.fixture(scope="module")
def v8():
    made = inch_v8()
    return summarize(made, check(made))


def test_sections_stand_in_the_order_of_the_catalog_for_every_build(v8):
    order = list(section_titles())
    assert set(order) == {f.section for f in entries()}
    assert order.index("Displacement") < order.index("Deck and quench") < order.index("Bearings")
    for summary in (v8, summarize(metric_four(), ())):
        present = [s.title for s in summary.sections]
        assert present == [title for title in order if title in present]
        assert set(present).isdisjoint(summary.absent)
        assert set(present) | set(summary.absent) == set(order)


def test_cylinders_are_one_row_with_the_least_and_largest_named(v8):
    quench = rows_of(v8.sections)["Quench"]
    assert [n.position for n in quench.numbers] == [f"Cyl {i}" for i in range(1, 9)]
    assert [n.text for n in quench.numbers][:5] == [
        "0.0490",
        "0.0495",
        "0.0485",
        "0.0510",
        "0.0422",
    ]
    assert quench.result == "0.0422 to 0.0515"
    assert quench.unit == "in"
    assert quench.cells == "Build!C16:J16"
    extent = quench.extent
    assert (extent.least, extent.least_at) == ("0.0422", "Cyl 5")
    assert (extent.largest, extent.largest_at) == ("0.0515", "Cyl 8")
    # (0.0490 + 0.0495 + 0.0485 + 0.0510 + 0.0422 + 0.0495 + 0.04875 + 0.0515) / 8 by hand.
    assert extent.mean == "0.04874"


def test_a_verdict_gives_its_band_to_the_number_it_judges(v8):
    quench = rows_of(v8.sections)["Quench"]
    assert quench.band == "0.0430 to 0.0550"
    assert [n.verdict for n in quench.numbers] == ["ok"] * 4 + ["low"] + ["ok"] * 3
    assert quench.verdict == "low: Cyl 5; 7 of 8 ok"
    assert quench.worst == "low"
    assert "Quench in band" not in rows_of(v8.sections)


def test_a_verdict_on_a_reading_is_told_with_the_reading():
    gap = cell("B3", 0.019, "Top gap, measured", unit="in")
    summary = summarize(book(call("B4", "Gap ok?", "VERDICT", gap, 0.016, 0.018)), ())
    assert summary.sections == ()
    row = rows_of(summary.readings)["Top gap, measured"]
    assert (row.result, row.unit, row.band, row.verdict) == (
        "0.0190", "in", "0.0160 to 0.0180", "high"
    )  # fmt: skip


def test_a_range_that_is_judged_gives_its_band_to_each_reading():
    mains = cell("B3:D3", ((0.0021, 0.0031, 0.0014),), "Main clearance", unit="in")
    labels = [typed_reading(Place("Build", f"{c}3"), Label("Main clearance", f"Main {n}", "in"), v)
              for n, (c, v) in enumerate(zip("BCD", mains[1][0], strict=True), 1)]  # fmt: skip
    judge = call("E3", "All mains", "JUDGE", mains, 3, 0.0015, cell("C4", 0.0025))
    summary = summarize(book(judge, readings=tuple(labels)), ())
    assert rows_of(summary.sections)["All mains"].result == "low and high"
    assert list(rows_of(summary.readings)) == ["Main clearance"]  # Its limit is no reading.
    row = rows_of(summary.readings)["Main clearance"]
    assert row.band == "0.0015 to 0.0025"
    assert [(n.position, n.verdict) for n in row.numbers] == [
        ("Main 1", "ok"), ("Main 2", "high"), ("Main 3", "low")
    ]  # fmt: skip


def test_a_mean_is_told_one_digit_finer_than_its_readings():
    decks = cell("B3:E3", ((8.9908, 8.9913, 8.9907, 8.9911),), "Deck height", unit="in")
    made = book(call("B4", "Mean deck height", "MEAN_READING", decks, 4))
    assert rows_of(summarize(made, ()).sections)["Mean deck height"].result == "8.99098"


def test_bands_that_differ_are_told_by_their_widest_limits():
    decks = [cell(a, -0.004, "Deck clearance", p, "in") for a, p in (("B3", "1"), ("C3", "2"))]
    judges = [
        call("B4", "Deck ok", "VERDICT", decks[0], -0.005, 0),
        call("C4", "Deck ok", "VERDICT", decks[1], -0.006, 0.001),
    ]
    quench = [call(f"{c}5", "Quench", "QUENCH", deck, 0.045, position=p)
              for c, deck, p in zip("BC", decks, "12", strict=True)]  # fmt: skip
    made = book(*judges, *quench)
    row = rows_of(summarize(made, ()).readings)["Deck clearance"]
    assert row.band == "-0.0060 to 0.0010, by position"
    assert "negative: above" in row.sign
    assert row.sign in customer_copy(summarize(made, ())).about_facts


def test_findings_that_ask_for_the_same_thing_are_told_together():
    found = [
        Finding("out-of-band", Place("Build", a), f"{a} is 1.", "Measure.") for a in ("B1", "C1")
    ]
    last = Finding("out-of-band", Place("Build", "D1"), "D1 is 1.", "Ask.")
    groups = summarize(book(), [*found, last]).finding_groups
    assert [(g.kind, g.advice, len(g.findings)) for g in groups] == [
        ("out of band", "Measure.", 2), ("out of band", "Ask.", 1)
    ]  # fmt: skip


def test_a_verdict_round_the_call_itself_is_joined_too():
    inner = call("B4", "Quench", "QUENCH", 0.004, 0.04, whole=False)
    inner = replace(inner, recomputed="ok")
    outer = call("B4", "Quench", "VERDICT", inner.value, 0.03, 0.05)
    (section,) = summarize(book(inner, outer), ()).sections
    (row,) = section.rows
    assert (row.label, row.result, row.band, row.verdict) == (
        "Quench", "0.0440", "0.0300 to 0.0500", "ok"
    )  # fmt: skip


@pytest.mark.parametrize("order", [(0, 1, 2), (0, 2, 1)])
def test_of_two_verdicts_on_a_number_the_worse_is_told(order):
    record = call("B4", "Quench", "QUENCH", 0.004, 0.04)
    value = (record.place, record.value, record.label)
    records = (
        record,
        call("B5", "Target", "VERDICT", value, 0.03, 0.04),
        call("B6", "Limit", "VERDICT", value, 0.02, 0.06),
    )
    row = rows_of(summarize(book(*(records[i] for i in order)), ()).sections)["Quench"]
    assert (row.band, row.verdict) == ("0.0300 to 0.0400", "high")


def test_a_verdict_on_nothing_else_stands_for_itself():
    summary = summarize(book(call("B4", "Rod bolts", "VERDICT", 3, 1, 2)), ())
    row = rows_of(summary.sections)["Rod bolts"]
    assert (row.result, row.band, row.verdict) == ("3", "1 to 2", "high")


def test_a_number_whose_limit_was_never_entered_is_not_judged():
    record = quench("B4", "Quench", 0.004)
    value = (record.place, record.value, record.label)
    judge = call("B5", "v", "VERDICT", value, 0.03, cell("B7", None, "Most"))
    (row,) = summarize(book(record, judge), ()).sections[0].rows
    assert (row.result, row.band, row.verdict) == ("0.0440", "at least 0.0300", "")
    assert row.notes == (("", "not judged: high: expected a number, got an empty cell"),)


def test_a_stale_verdict_is_said_at_its_number():
    record = quench("B4", "Quench", 0.004)
    value = (record.place, record.value, record.label)
    judge = call("B5", "v", "VERDICT", value, 0.03, 0.04, saved="ok")
    (row,) = summarize(book(record, judge), ()).sections[0].rows
    assert row.verdict == "high"
    assert row.notes == (("", "the verdict saved in B5 is another one"),)


def test_a_call_inside_another_is_no_row_and_has_not_its_band():
    # =ENG.RING_GAP(4, ENG.RING_GAP_FACTOR("street","top")), judged in the next cell.
    inner = call("B4", "Top gap", "RING_GAP_FACTOR", "street", "top", whole=False)
    outer = call("B4", "Top gap", "RING_GAP", 4, inner.value)
    judge = call("B5", "v", "VERDICT", (outer.place, outer.value, outer.label), 0.016, 0.02)
    (section,) = summarize(book(inner, outer, judge), ()).sections
    assert [(r.label, r.result, r.verdict) for r in section.rows] == [("Top gap", "0.0180", "ok")]


def longer(record, cell_value, formula):
    return replace(record, whole=False, formula=formula, saved=cell_value, recomputed=cell_value)


def test_calls_side_by_side_in_a_longer_formula_each_keep_their_row():
    # =ENG.QUENCH(0.004,0.04)-ENG.HOT_DECK_CLEARANCE(0.004,0.003)
    first = longer(quench("B4", "Left over", 0.004), 0.037, "")
    second = longer(call("B4", "Left over", "HOT_DECK_CLEARANCE", 0.004, 0.003), 0.037, "")
    judge = call("B5", "v", "VERDICT", (first.place, 0.037, first.label), 0.03, 0.04)
    summary = summarize(book(first, second, judge), ())
    rows = rows_of(summary.sections)
    assert set(rows) == {"Left over: quench", "Left over: hot deck clearance", "v"}
    assert rows["Left over: quench"].verdict == ""
    assert rows["Left over: quench"].notes == (("", "the cell's formula makes 0.037 of it"),)
    # The verdict is on the cell, so it is told with the cell's value.
    assert (rows["v"].result, rows["v"].verdict) == ("0.037", "ok")


def test_a_call_behind_a_guard_is_the_number_of_its_cell():
    # =IF(B3="","",ENG.QUENCH(B3,0.04))
    record = longer(quench("B4", "Quench", 0.004), 0.044, "")
    judge = call("B5", "v", "VERDICT", (record.place, 0.044, record.label), 0.03, 0.05)
    (row,) = summarize(book(record, judge), ()).sections[0].rows
    assert (row.label, row.result, row.verdict, row.notes) == ("Quench", "0.0440", "ok", ())


def test_a_number_that_rests_on_a_stale_formula_says_what_it_comes_to():
    record = replace(quench("B4", "Quench", 0.004), fresh=0.047)
    (row,) = summarize(book(record), ()).sections[0].rows
    assert row.notes == (("", "recalculated from the readings up, 0.047"),)
    same = replace(quench("B4", "Quench", 0.004), fresh=0.044)
    assert summarize(book(same), ()).sections[0].rows[0].notes == ()


def test_formulas_that_feed_calls_are_told_where_they_were_not_recalculated():
    made = book(
        quench("B4", "Quench", 0.004),
        stale_formulas=(StaleFormula(Place("S", "B1"), Label("Deck"), "=B2-B3", 0.004, 0.007),),
        not_recalculated=((Place("S", "C1"), "it calls a function of another add-in"),),
    )
    assert [(str(u.place), u.state) for u in summarize(made, ()).recomputed.rest] == [
        ("S!B1", "stale"),
        ("S!C1", "as saved"),
    ]


def test_a_number_just_outside_its_band_does_not_look_like_the_limit():
    record = call("B4", "Main", "BEARING_CLEARANCE", 2.64, 0.095, 2.44796)
    judge = call("B5", "v", "VERDICT", (record.place, record.value, record.label), 0.001, 0.002)
    row = rows_of(summarize(book(record, judge), ()).sections)["Main"]
    assert (row.result, row.band, row.verdict) == ("0.00204", "0.00100 to 0.00200", "high")


def test_a_stale_number_shows_both_values(v8):
    number = rows_of(v8.sections)["Compression ratio"].numbers[5]
    assert (number.text, number.state, number.note) == ("9.75", "stale", "saved as 9.87")


def test_saved_and_recomputed_that_differ_late_are_shown_apart():
    record = call("B4", "Quench", "QUENCH", 0.004, 0.04, saved=0.04402)
    row = rows_of(summarize(book(record), ()).sections)["Quench"]
    assert (row.result, row.numbers[0].note) == ("0.04400", "saved as 0.04402")


def test_a_missing_reading_leaves_a_gap_and_no_mean(v8):
    ratio = rows_of(v8.sections)["Compression ratio"]
    assert (ratio.numbers[2].text, ratio.numbers[2].state) == ("", "error")
    assert "chamber_volume" in ratio.numbers[2].note
    assert ratio.extent.mean == ""
    assert ratio.states == "error: Cyl 3; stale: Cyl 6; 6 of 8 same"
    chamber = rows_of(v8.readings)["Chamber volume"]
    assert chamber.states == "missing: Cyl 3; 7 of 8 read"
    assert chamber.numbers[2].value is None


def test_readings_are_listed_once_a_cell_and_results_and_limits_are_none(v8):
    rows = rows_of(v8.readings)
    cells = [str(n.place) for row in rows.values() for n in row.numbers]
    assert len(cells) == len(set(cells))
    # The stroke serves three calls, and the quench judged by VERDICT is a result.
    assert rows["Stroke"].cells == "Build!B5"
    assert "Quench" not in rows
    assert "Quench, least" not in rows


def test_a_text_with_its_own_unit_is_converted_and_kept(v8):
    gasket = rows_of(v8.readings)["Gasket, compressed"]
    assert (gasket.result, gasket.unit) == ("0.0410", "in")
    assert gasket.numbers[0].typed_as == "41 thou"


def test_readings_keep_the_digits_that_were_typed(v8):
    deck = rows_of(v8.readings)["Deck clearance"]
    assert [n.text for n in deck.numbers][5:7] == ["0.00850", "0.00775"]


def test_a_refused_reading_says_why():
    note = cell("B3", "see card", "Gasket")
    row = rows_of(summarize(book(call("B4", "Quench", "QUENCH", 0.004, note)), ()).readings)[
        "Gasket"
    ]
    assert (row.states, row.result) == ("refused", "see card")
    assert "expected a length" in row.numbers[0].note


def test_a_range_of_readings_is_a_strip_by_cell_where_it_has_one_label():
    summary = summarize(metric_four(), ())
    bore = rows_of(summary.readings)["Bore"]
    assert [n.position for n in bore.numbers] == ["B4", "C4", "D4", "E4"]
    assert bore.cells == "Block!B4:E4"
    assert rows_of(summary.sections)["Mean bore"].result == "87.0025"


def test_a_column_of_readings_is_not_called_by_its_first_label():
    heights = cell("B4:B5", ((9.0,), (9.001,)), "Deck height, left front", unit="in")
    made = book(call("B6", "Deck height, mean", "MEAN_READING", heights, 2, unit="in"))
    (row,) = summarize(made, ()).readings[0].rows
    assert row.label == "Deck height, mean: readings"
    assert [n.position for n in row.numbers] == ["B4", "B5"]


def test_the_sign_of_a_negative_reading_is_said_in_words():
    deck = rows_of(summarize(metric_four(), ()).readings)["Deck clearance"]
    assert deck.sign == "Positive: piston below the deck at top dead center; negative: above."
    assert rows_of(summarize(inch_v8(), ()).readings)["Deck clearance"].sign == ""


def grouped(*records):
    (section,) = summarize(book(*records), ()).sections
    return [[(n.position, n.text) for n in row.numbers] for row in section.rows]


def quench(address, text, deck, position="", **more):
    return call(address, text, "QUENCH", deck, 0.04, position=position, **more)


def test_a_position_that_comes_again_starts_a_second_set():
    before = [quench(a, "Quench", 0.001, f"Cyl {i}") for i, a in enumerate(across("B", 3, 2), 1)]
    after = [quench(a, "Quench", 0.002, f"Cyl {i}") for i, a in enumerate(across("B", 9, 2), 1)]
    assert grouped(*before, *after) == [
        [("Cyl 1", "0.0410"), ("Cyl 2", "0.0410")],
        [("Cyl 1", "0.0420"), ("Cyl 2", "0.0420")],
    ]


def test_banks_on_two_sheets_are_one_row_but_two_sets_are_not():
    left = [quench("B3", "Quench", 0.001, "Cyl 1"), quench("C3", "Quench", 0.001, "Cyl 3")]
    right = [quench("B3", "Quench", 0.002, "Cyl 2", sheet="Right")]
    again = [quench("B3", "Quench", 0.003, "Cyl 1", sheet="Later")]
    assert grouped(*left, *right, *again) == [
        [("Cyl 1", "0.0410"), ("Cyl 2", "0.0420"), ("Cyl 3", "0.0410")],
        [("Cyl 1", "0.0430")],
    ]


def test_numbers_without_positions_or_with_other_labels_stay_apart():
    assert len(grouped(quench("B3", "Quench", 0.001), quench("B4", "Quench", 0.002))) == 2
    assert len(grouped(quench("B3", "One", 0.1, "1"), quench("B4", "Two", 0.1, "2"))) == 2
    metric = call("B5", "Quench", "QUENCH", 0.1, 1.0, "metric", position="Cyl 2")
    assert len(grouped(quench("B3", "Quench", 0.001, "Cyl 1"), metric)) == 2


def test_mains_and_rods_are_two_rows_and_banks_one():
    def one(address, position):
        return quench(address, "Housing", 0.01, position)

    apart = grouped(one("B3", "Main 1"), one("B4", "Main 2"), one("B5", "Rod 1"))
    assert [[p for p, _ in row] for row in apart] == [["Main 1", "Main 2"], ["Rod 1"]]
    banks = grouped(one("B3", "L1"), one("B4", "R1"))
    assert [[p for p, _ in row] for row in banks] == [["L1", "R1"]]


def test_ten_comes_after_two_and_unnumbered_positions_as_they_stand():
    order = ["Cyl 10", "Cyl 2", "Cyl 1"]
    records = [quench(a, "Q", 0.01, p) for a, p in zip(across("B", 3, 3), order, strict=True)]
    assert [p for p, _ in grouped(*records)[0]] == ["Cyl 1", "Cyl 2", "Cyl 10"]
    named = [
        quench(a, "Q", 0.01, p) for a, p in zip(across("B", 3, 2), ["Rear", "Front"], strict=True)
    ]
    assert [p for p, _ in grouped(*named)[0]] == ["Rear", "Front"]


def test_a_bare_number_as_position_is_named_as_one():
    records = [quench("B3", "Q", 0.01, "1"), quench("C3", "Q", 0.02, "2")]
    extent = summarize(book(*records), ()).sections[0].rows[0].extent
    assert (extent.least_at, extent.largest_at) == ("no. 1", "no. 2")


def test_an_unknown_function_is_listed_with_its_reason():
    unknown = replace(
        call("B3", "Squish", "QUENCH", 0.01, 0.04),
        function=None, name="ENG.QUENSH", value=None, recomputed=None, state="error",
        problem="there is no such function; the nearest is ENG.QUENCH",
    )  # fmt: skip
    (section,) = summarize(book(unknown), ()).sections
    assert section.title == "Calls not understood"
    assert "nearest" in section.rows[0].numbers[0].note


def test_what_could_not_be_recomputed_is_shown_as_saved():
    record = replace(
        call("B3", "Quench", "QUENCH", 0.01, 0.04, saved=0.05),
        value=None, recomputed=None, state="error", problem="the cell Z9 forms a loop",
    )  # fmt: skip
    number = summarize(book(record), ()).sections[0].rows[0].numbers[0]
    assert number.text == "0.0500"
    assert number.note == "as saved, not recomputed: the cell Z9 forms a loop"


def test_what_a_program_made_of_a_missing_reading_is_no_result():
    empty = cell("B2", None, "Deck clearance", "Cyl 1")
    records = [
        call("B3", "Quench", "QUENCH", empty, 0.04, saved=0.04, position="Cyl 1"),
        quench("C3", "Quench", 0.01, "Cyl 2"),
    ]
    judge = call("B4", "v", "VERDICT", (Place("Build", "B3"), 0.04, None), 0.03, 0.05)
    (row,) = summarize(book(*records, judge), ()).sections[0].rows
    number = row.numbers[0]
    assert (number.value, number.text, number.verdict) == (None, "", "")
    assert number.note.endswith("got an empty cell; the book shows 0.0400 all the same")
    assert (row.extent.least, row.extent.mean) == ("0.0500", "")


def test_what_was_recomputed_is_counted_and_the_rest_named(v8):
    checked = v8.recomputed
    assert checked.calls == 45
    counts = dict.fromkeys(("not saved", "as saved", "computed"), 0)
    assert dict(checked.counts) == {"same": 43, "stale": 1, "error": 1, **counts}
    assert [(str(u.place), u.state) for u in checked.rest] == [
        ("Build!E24", "error"),
        ("Build!H24", "stale"),
    ]


def test_findings_are_sorted_by_kind_then_place_whatever_order_they_come_in():
    made = inch_v8()
    findings = list(check(made))
    assert summarize(made, findings) == summarize(made, findings[::-1])
    assert [f.kind for f in summarize(made, findings).findings] == [
        "out of band", "out of band", "missing reading", "stale result"
    ]  # fmt: skip


def test_a_finding_that_no_verdict_tells_is_flagged_at_its_number():
    record = quench("B3", "Quench", 0.0049)
    near = Finding("near-limit", record.place, "Near.", "Measure again.")
    stale = Finding("stale-result", record.place, "Stale.", "Recalculate.")
    number = summarize(book(record), [stale, near]).sections[0].rows[0].numbers[0]
    assert number.flags == ("C1: close to the limit",)


def test_each_caution_comes_once_with_all_its_functions(v8):
    texts = [c.text for c in v8.cautions]
    assert len(texts) == len(set(texts)) > 0
    assert ["Quench"] in [list(c.functions) for c in v8.cautions]
    assert all("Camshaft" not in c.text for c in v8.cautions)


def test_trouble_that_a_finding_tells_is_not_told_twice():
    trouble = Trouble(Place("S", "A1"), "a loop of cells", "break it")
    made = book(quench("B3", "Q", 0.01), troubles=(trouble,))
    assert summarize(made, ()).troubles == (trouble,)
    assert summarize(made, check(made)).troubles == ()


def test_a_book_without_calls_is_summarized_too():
    summary = summarize(book(), ())
    assert (summary.sections, summary.readings, summary.results) == ((), (), 0)
    assert summary.absent == section_titles()


def test_a_call_without_a_label_has_its_functions_name():
    record = replace(quench("B3", "x", 0.01), label=None)
    assert "Quench" in rows_of(summarize(book(record), ()).sections)
    half = replace(record, label=Label("", "Cyl 1"))
    assert "Quench" in rows_of(summarize(book(half), ()).sections)


def test_a_position_without_a_result_stays_in_its_row():
    records = [quench("B3", "Quench", 0.01, "Cyl 1"), quench("C3", "Quench", None, "Cyl 2")]
    (row,) = summarize(book(*records), ()).sections[0].rows
    assert [(n.position, n.text, n.state) for n in row.numbers] == [
        ("Cyl 1", "0.0500", "same"),
        ("Cyl 2", "", "error"),
    ]


def test_where_nothing_was_saved_the_rest_is_what_is_named():
    records = [quench(a, "Q", 0.01, f"Cyl {i}", saved=None) for i, a in enumerate("BCD", 1)]
    records = [replace(r, place=Place("Build", f"{r.place.address}3")) for r in records]
    records[1] = quench("C3", "Q", None, "Cyl 2")
    (row,) = summarize(book(*records), ()).sections[0].rows
    assert row.states == "error: Cyl 2; 2 of 3 not saved"


def test_a_plain_number_takes_no_unit_from_the_label_of_its_cell():
    record = replace(call("B3", "Top gap", "RING_GAP_FACTOR", "street", "top"), unit="mm")
    assert summarize(book(record), ()).sections[0].rows[0].unit == ""


def test_a_page_says_what_became_of_the_typed_numbers(tmp_path):
    made = openpyxl.Workbook()
    sheet = made.active
    for row in (["Cylinder", 1, 2, 3], ["Bore (in)", 4.03, 4.0301, 4.0299], ["Wombat", 7.5]):
        sheet.append(row)
    made.save(tmp_path / "a.xlsx")
    book = read_book(tmp_path / "a.xlsx")
    told = summarize(book, ()).coverage
    assert told == (
        "3 of 7 typed numbers read, 0 numbers judged by a band; 3 dates, counts or prices, "
        "1 not understood, listed in the appendix."
    )
    assert told in render_html(summarize(book, ()))

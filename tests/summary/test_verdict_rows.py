"""Verdicts and bands, joined to the numbers that they judge."""

import pytest
from one_book import book, quench, rows_of
from sample import call, cell, typed_reading

from workbook_tools.formulas.references import Place
from workbook_tools.labels.label import Label
from workbook_tools.summary.customer import customer_copy
from workbook_tools.summary.summary import summarize


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
    about = customer_copy(summarize(made, ())).about_facts
    assert f"Deck clearance, p{row.sign[1:]}" in about


def test_a_verdict_round_the_call_itself_is_joined_too():
    inner = call("B4", "Quench", "QUENCH", 0.004, 0.04, whole=False)
    inner = inner._replace(recomputed="ok")
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
    assert row.notes == (("", "the verdict saved in B5 differs"),)


def test_a_call_inside_another_is_no_row_and_has_not_its_band():
    # =ENG.RING_GAP(4, ENG.RING_GAP_FACTOR("street","top")), judged in the next cell.
    inner = call("B4", "Top gap", "RING_GAP_FACTOR", "street", "top", whole=False)
    outer = call("B4", "Top gap", "RING_GAP", 4, inner.value)
    judge = call("B5", "v", "VERDICT", (outer.place, outer.value, outer.label), 0.016, 0.02)
    (section,) = summarize(book(inner, outer, judge), ()).sections
    assert [(r.label, r.result, r.verdict) for r in section.rows] == [("Top gap", "0.0180", "ok")]


def longer(record, cell_value, formula):
    return record._replace(whole=False, formula=formula, saved=cell_value, recomputed=cell_value)


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


def test_a_number_just_outside_its_band_does_not_look_like_the_limit():
    record = call("B4", "Main", "BEARING_CLEARANCE", 2.64, 0.095, 2.44796)
    judge = call("B5", "v", "VERDICT", (record.place, record.value, record.label), 0.001, 0.002)
    row = rows_of(summarize(book(record, judge), ()).sections)["Main"]
    assert (row.result, row.band, row.verdict) == ("0.00204", "0.00100 to 0.00200", "high")

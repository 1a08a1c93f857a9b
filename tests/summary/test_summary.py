"""The summary: its sections, findings and cautions, and what was recomputed."""

from one_book import book, quench, rows_of
from sample import call, cell, inch_v8, metric_four

from workbook_tools.books.cells import Trouble
from workbook_tools.catalog import entries
from workbook_tools.findings import check
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import StaleFormula
from workbook_tools.labels.label import Label
from workbook_tools.summary.summary import section_titles, summarize


def test_sections_stand_in_the_order_of_the_catalog_for_every_build(v8):
    order = list(section_titles())
    assert set(order) == {f.section for f in entries()}
    assert order.index("Displacement") < order.index("Deck and quench") < order.index("Bearings")
    for summary in (v8, summarize(metric_four(), ())):
        present = [s.title for s in summary.sections]
        assert present == [title for title in order if title in present]
        assert set(present).isdisjoint(summary.absent)
        assert set(present) | set(summary.absent) == set(order)


def test_findings_that_ask_for_the_same_thing_are_told_together():
    found = [
        Finding("out-of-band", Place("Build", a), f"{a} is 1.", "Measure.") for a in ("B1", "C1")
    ]
    last = Finding("out-of-band", Place("Build", "D1"), "D1 is 1.", "Ask.")
    groups = summarize(book(), [*found, last]).finding_groups
    assert [(g.kind, g.advice, len(g.findings)) for g in groups] == [
        ("out of band", "Measure.", 2), ("out of band", "Ask.", 1)
    ]  # fmt: skip


def test_a_number_that_rests_on_a_stale_formula_says_what_it_comes_to():
    record = quench("B4", "Quench", 0.004)._replace(fresh=0.047)
    (row,) = summarize(book(record), ()).sections[0].rows
    assert row.notes == (("", "recalculated from the readings up, 0.047"),)
    same = quench("B4", "Quench", 0.004)._replace(fresh=0.044)
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


def test_a_stale_number_shows_both_values(v8):
    number = rows_of(v8.sections)["Compression ratio"].numbers[5]
    assert (number.text, number.state, number.note) == ("9.75", "stale", "saved as 9.87")


def test_saved_and_recomputed_that_differ_late_are_shown_apart():
    record = call("B4", "Quench", "QUENCH", 0.004, 0.04, saved=0.04402)
    row = rows_of(summarize(book(record), ()).sections)["Quench"]
    assert (row.result, row.numbers[0].note) == ("0.04400", "saved as 0.04402")


def test_an_unknown_function_is_listed_with_its_reason():
    unknown = call("B3", "Squish", "QUENCH", 0.01, 0.04)._replace(
        function=None, name="ENG.QUENSH", value=None, recomputed=None, state="error",
        problem="there is no such function; the nearest is ENG.QUENCH",
    )  # fmt: skip
    (section,) = summarize(book(unknown), ()).sections
    assert section.title == "Calls not understood"
    assert "nearest" in section.rows[0].numbers[0].note


def test_what_could_not_be_recomputed_is_shown_as_saved():
    record = call("B3", "Quench", "QUENCH", 0.01, 0.04, saved=0.05)._replace(
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

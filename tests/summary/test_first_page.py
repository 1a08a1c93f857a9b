"""The first page: one word with its counts, numbered findings, key facts with band and origin."""

import datetime
import math
from dataclasses import replace

import pytest
from example_builds import example_book, example_summary
from sample import inch_v8

from workbook_tools.findings import check
from workbook_tools.findings.codes import CODES
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Acceptance, Job
from workbook_tools.jobs.records import Book
from workbook_tools.measurands import find
from workbook_tools.render.html import IndexEntry, render_customer, render_html, render_index
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.bands import Band
from workbook_tools.summary.key_facts import facts, shortened
from workbook_tools.summary.scale_strips import LEAST_AT, MOST_AT, WIDTH, scale_strip
from workbook_tools.summary.standing import LETTERS, Standing, numbered
from workbook_tools.summary.summary import summarize


@pytest.fixture(scope="module")
def v8():
    return example_summary("build_book_inch_v8")


def stands(book, *codes):
    found = [Finding(code, Place("Build", "B3"), "m", "a") for code in codes]
    return summarize(book, found).standing


def test_the_worst_word_wins_and_every_count_stays():
    whole = example_book("inch_v8")
    assert stands(whole).word == "within"
    assert stands(whole, "near-limit").word == "within"
    assert stands(whole, "near-limit", "out-of-band").word == "deviations"
    both = stands(whole, "out-of-band", "missing-reading", "missing-reading", "stale-result")
    assert both.word == "incomplete"
    assert (both.deviations, both.missing, both.stale) == (1, 2, 1)
    assert both.counts[:2] == ("1 deviation", "2 missing")
    nothing = Book("a.xlsx", "0", Job())
    assert stands(nothing, "out-of-band", "missing-reading").word == "not read"


def test_an_accepted_deviation_is_told_with_the_name_and_is_not_open():
    whole = example_book("inch_v8")
    by = Acceptance(None, "main 4", "0.0034", "R. Lund", "2025-05-28", "as the card allows")
    found = [Finding("out-of-band", Place("Build", "B3"), "m", "a", accepted=by)]
    summary = summarize(replace(whole, accepted=(by,)), found)
    assert (summary.standing.word, summary.standing.accepted) == ("within", 1)
    assert summary.standing.counts[0] == "1 accepted"
    page = render_html(summary)
    assert "Accepted by R. Lund, 2025-05-28: as the card allows." in page
    assert "Outside its band and accepted" in page


def test_nothing_is_within_where_no_number_has_a_band(written):
    plain = written(["Bore (in)", 4.03], ["Piston (in)", 4.026])
    assert stands(plain).word == "not judged"
    assert stands(plain).counts[0] == "no number has a band"
    assert stands(plain, "wrong-unit").word == "deviations"
    page = render_html(summarize(plain, ()))
    assert "Within" not in page.partition("<h2")[0]
    limited = written(["", "Min", "Max", "Actual"], ["Bore (in)", 4.029, 4.031, 4.03])
    assert stands(limited).word == "within"


def test_a_book_of_which_most_is_not_understood_is_not_read(written):
    rows = [["Bore (in)", 4.03], *(["Wombat", n + 0.5] for n in range(6))]
    book = written(*rows)
    assert stands(book).word == "not read"
    assert stands(written(*rows[:2])).word != "not read"


def test_every_code_of_a_finding_has_a_letter_and_is_counted_by_it():
    assert {code.kind for code in CODES.values()} == {*LETTERS}
    codes = ("out-of-band", "missing-reading", "slipped-decimal", "near-limit", "missing-reading")
    found = [Finding(code, None, "m", "a") for code in codes]
    assert numbered(found) == ("D1", "M1", "D2", "C1", "M2")


def test_the_worst_build_is_the_first_of_the_index():
    ranks = [
        Standing("not read"),
        Standing("incomplete", deviations=2, missing=1),
        Standing("incomplete", missing=5),
        Standing("deviations", deviations=1),
        Standing("within", close=1),
        Standing("within"),
    ]
    assert [*sorted({*ranks}, key=lambda s: s.rank)] == ranks
    entries = [
        IndexEntry(example_summary(name), f"{n}.html")
        for n, name in enumerate(("inch_v8", "troubled_six"))
    ]
    page = render_index(entries)
    assert page.index('href="./1.html"') < page.index('href="./0.html"')
    assert page.index("Incomplete") < page.index("Within")


def test_a_number_of_a_finding_stands_in_its_row_its_finding_and_the_data():
    summary = example_summary("troubled_six")
    main = next(fact for fact in summary.facts if fact.name == "Main bearing clearance")
    assert main.row.told == ("D1", "D2")  # The clearance, and the journal that it comes of.
    assert (main.verdict, main.row.extent.largest_at) == ("high, 1 of 7", "Main 4")
    (told,) = [f for f in summary.data["findings"] if f["number"] == "D1"]
    assert told["code"] == "out-of-band"
    page = render_html(summary)
    assert page.index("<h1>Incomplete</h1>") < page.index("Main bearing clearance")
    # In the row, at the finding, and in the appendix.
    assert page.count('<b class="number">D1</b>') == 3
    # Wanted by the book and nowhere measured: told all the same.
    quench = next(fact for fact in summary.facts if fact.name == "Quench, cold")
    assert quench.one == "no value"
    assert "M1" in quench.row.told


def test_the_key_facts_of_a_whole_job(v8):
    told = {fact.name: fact for fact in v8.facts}
    names = [fact.name for fact in facts()]
    assert names == [*told]
    # Neither combinations compared nor gaskets on sale are the engine's.
    assert not [f.name for f in v8.facts for n in f.row.numbers if "ombination" in n.position]
    ratio, rods = told["Compression ratio"], told["Rod bearing clearance"]
    assert ratio.row.cells.startswith("Volumes!")
    assert (ratio.row.band, ratio.row.origin) == ("9.80 to 10.60", "premium fuel, agreed")
    assert (rods.row.extent.least, rods.least_at) == ("0.0022", "Rod 3")
    assert (rods.row.extent.largest, rods.largest_at) == ("0.0026", "Rod 5")
    assert told["Head gasket taken"].where.startswith("(Order the 0.036 in gasket")
    assert told["Most power"].one == "438.3"
    assert told["Most power"].where == "at 6,100 rpm, corrected to SAE J1349"


def test_limits_beside_numbers_without_a_call_of_ours_are_bands_of_this_book(written):
    book = written(
        ["Main", 1, 2, 3, "Least (in)", "Most (in)"],
        ["Main bearing clearance (in)", 0.0021, 0.0024, 0.0034, 0.0018, 0.0028],
    )
    summary = summarize(book, check(book))
    (fact,) = [f for f in summary.facts if f.name == "Main bearing clearance"]
    assert (fact.row.band, fact.row.origin) == ("0.0018 to 0.0028", "this book")
    assert (fact.verdict, fact.row.told) == ("high, 1 of 3", ("D1",))
    (data,) = [f for f in summary.data["facts"] if f["name"] == "Main bearing clearance"]
    assert (data["low"], data["high"], data["verdict"]) == (0.0018, 0.0028, "high")
    assert data["findings"] == ["D1"]


def test_every_measurand_of_the_list_is_known():
    unknown = [name for fact in facts() for name in fact.measurands if find(name) is None]
    assert unknown == []


@pytest.mark.parametrize(
    ("positions", "short"),
    [
        ("Cyl 3, Cyl 6", "Cyl 3, 6"),
        ("Cyl 3", "Cyl 3"),
        ("Front, Rear", "Front, Rear"),
        ("Main 1, Rod 2", "Main 1, Rod 2"),
        ("6,100 rpm", "6,100 rpm"),
        ("", ""),
    ],
)
def test_positions_name_what_they_are_of_once(positions, short):
    assert shortened(positions) == short


def test_a_band_is_the_middle_half_of_every_strip():
    band = Band(0.0018, 0.0028, "ok", Place("S", "A1"), "same")
    out = Band(0.0018, 0.0028, "high", Place("S", "A1"), "same")
    drawn = scale_strip("abc", [0.0018, 0.0028, 0.0060], [band, band, out], 0.001)
    low, high, beyond = drawn.marks
    assert (low.across, high.across) == (LEAST_AT, MOST_AT) == drawn.band
    assert (beyond.shape, beyond.beyond) == ("high", True)
    assert MOST_AT < beyond.across < WIDTH
    assert low.down < high.down < beyond.down


def test_one_limit_and_no_limit_keep_every_mark_on_the_strip():
    most = Band(None, 10.0, "ok", Place("S", "A1"), "same")
    for bands in ([most] * 3, [None] * 3):
        drawn = scale_strip("abc", [3.0, 4.0, 5.0], bands, 0.5)
        across = [mark.across for mark in drawn.marks]
        assert across == sorted(across)
        assert 0 < across[0] < across[-1] < WIDTH
        assert not any(mark.beyond for mark in drawn.marks)
    assert scale_strip("ab", [None, math.nan], [None, None], 0.5) is None


def test_results_and_readings_of_the_sample_have_the_measurands_of_their_calls():
    book = inch_v8()
    names = {fact.row.measurand for fact in summarize(book, check(book)).facts}
    assert "" not in names


def test_what_was_found_stands_against_what_was_finished_with_what_came_off(written):
    book = written(
        ["Cylinder", "Bore as found (in)", "Bore, final (in)"],
        ["Cyl 1", 4.0012, 4.0301],
        ["Cyl 2", 4.0031, 4.0302],
        ["Cyl 3", 4.0018, 4.0300],
        [],
        ["Main", "Main journal, found (in)", "Main journal, final (in)"],
        ["Main 1", 2.4995, 2.4893],
        ["Main 2", 2.4990, 2.4895],
    )
    told = {row.name: row for row in summarize(book, ()).found}
    bore, journal = told["Bore"], told[find("main_journal").name]
    assert (bore.found, bore.final, bore.unit) == ("4.0012 to 4.0031", "4.0300 to 4.0302", "in")
    # 4.0301 - 4.0012, by hand.
    assert (bore.removed, bore.at) == ("0.0289 removed", "Cyl 1")
    assert (journal.removed, journal.at) == ("0.0102 removed", "Main 1")
    assert "Found against final" in render_html(summarize(book, ()))


def test_a_record_that_is_given_out_again_says_its_revision_and_what_changed(written):
    book = written(
        ["Job number", "24-031"],
        ["Revision", 2],
        ["Revised on", datetime.date(2025, 6, 2)],
        ["Changed since the last copy", "rod 3 bearings renewed"],
    )
    summary = summarize(book, ())
    assert summary.title == "Build record, revision 2 of 2025-06-02"
    for page in (render_html(summary), render_customer(summary, Shop())):
        assert "revision 2 of 2025-06-02" in page
        assert "rod 3 bearings renewed" in page

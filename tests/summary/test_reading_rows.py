"""The readings of a summary: each cell once, with its digits, its unit and what is missing."""

import openpyxl
from one_book import book, rows_of
from sample import call, cell, inch_v8, metric_four

from workbook_tools.jobs.read import read_book
from workbook_tools.render.html import render_html
from workbook_tools.summary.summary import summarize


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


def test_a_mean_is_told_one_digit_finer_than_its_readings():
    decks = cell("B3:E3", ((8.9908, 8.9913, 8.9907, 8.9911),), "Deck height", unit="in")
    made = book(call("B4", "Mean deck height", "MEAN_READING", decks, 4))
    assert rows_of(summarize(made, ()).sections)["Mean deck height"].result == "8.99098"


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


def test_ranges_are_limits_and_what_came_in_is_not_wanted(tmp_path):
    made = openpyxl.Workbook()
    sheet = made.active
    rows = [
        ["No.", "Item", "Which", "Unit", "As found", "Limit", "Final"],
        *([n, "Bore", n, "mm", 81.05 if n < 3 else None, "81.00-81.02", 81.01] for n in (1, 2, 3)),
        [4, "Crank end play", None, "mm", 0.22, "0.05-0.20", 0.12],
    ]
    for row in rows:
        sheet.append(row)
    made.save(tmp_path / "a.xlsx")
    summary = summarize(read_book(tmp_path / "a.xlsx"), ())
    assert summary.coverage.startswith("11 of 18 typed numbers read, 4 of them limits")
    assert "refused" not in summary.coverage
    assert summary.data["required"] == {"wanted": 7, "measured": 7, "missing": []}
    loose = rows_of(summary.readings)
    assert loose["Bore, as found"].result == "81.050"
    assert loose["Crank end play, as found"].states == "read"
    assert not any("81.00-81.02" in row.result for row in loose.values())


def test_sizes_that_have_a_label_each_are_one_row_of_their_measurand(tmp_path):
    made = openpyxl.Workbook()
    sheet = made.active
    for n, size in enumerate((67.011, 67.012, 67.010, 67.007), 1):
        sheet.append([f"Bore, cyl {n} (mm)", size])
    for n, size in enumerate((31.993, 31.991, 31.994), 1):
        sheet.append([f"Main journal {n} (mm)", size])
    made.save(tmp_path / "a.xlsx")
    rows = rows_of(summarize(read_book(tmp_path / "a.xlsx"), ()).readings)
    assert rows["Bore"].result == "67.007 to 67.012"
    assert [n.position for n in rows["Main journal"].numbers] == ["Main 1", "Main 2", "Main 3"]

"""JSON and tables: keys, order, escaping; the tables read back by pandas."""

import datetime
import io
import json
import math
from dataclasses import replace

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample import call, cell, inch_v8, metric_four

from workbook_tools.catalog import CellError
from workbook_tools.findings import check
from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.jobs.read import read_book
from workbook_tools.jobs.records import Book
from workbook_tools.render.data import (
    book_json,
    findings_csv,
    neutral,
    readings_csv,
)
from workbook_tools.summary.data_rows import FINDING_COLUMNS, READING_COLUMNS
from workbook_tools.summary.summary import summarize


def no_constant(name):
    raise AssertionError(f"{name} is no JSON")


def loaded(book, findings=()):
    text = book_json(summarize(book, findings))
    assert text.endswith("}\n")
    return json.loads(text, parse_constant=no_constant)


def test_json_tells_the_book_and_the_job_as_they_were_read():
    data = loaded(inch_v8())
    assert data["book"]["file"] == "24-031 small V8.xlsx"
    assert data["book"]["sha256"] == "5b1f" * 16
    assert data["job"]["number"] == {"text": "24-031", "sheet": "Job", "cell": "B2"}
    assert data["job"]["customer"]["text"] == "R. Example"


def test_json_has_a_line_for_each_result_and_finding():
    made = inch_v8()
    found = check(made)
    data = loaded(made, found)
    assert len(data["results"]) == len(made.records)
    assert len(data["findings"]) == len(found)
    lines = book_json(summarize(made, found)).splitlines()
    assert sum(line.startswith('{"sheet": "Build", "cell": "C16",') for line in lines) == 1


def test_json_holds_a_call_as_it_was_read():
    (one,) = loaded(Book("a", "0", Job(), (call(
        "B4", "Quench", "QUENCH", cell("B3", 0.002, "Deck"), "38 thou", saved=0.05, position="Cyl 3"
    ),)))["results"]  # fmt: skip
    assert one["function"] == "ENG.QUENCH"
    assert (one["sheet"], one["cell"], one["label"]) == ("Build", "B4", "Quench, Cyl 3")
    assert (one["saved"], one["value"], one["unit"], one["state"]) == (0.05, 0.04, "in", "stale")
    # An inch is 25.4 mm exactly, by the yard and pound agreement of 1959 (from memory).
    assert one["si"] == pytest.approx(0.04 * 0.0254, rel=1e-12)
    assert one["arguments"][0]["cell"] == "B3"
    assert one["arguments"][1]["value"] == "38 thou"


def test_a_result_is_judged_where_the_book_judges_it():
    results = {one["cell"]: one for one in loaded(inch_v8())["results"]}
    limits = {"low": 0.043, "high": 0.055, "from": "G17"}
    assert (results["G16"]["limits"], results["G16"]["verdict"]) == (limits, "low")
    assert (results["B44"]["limits"], results["B44"]["verdict"]) == (None, "")


@pytest.mark.parametrize(
    ("value", "held"),
    [
        (math.nan, None),
        (math.inf, None),
        (CellError("#VALUE!"), "#VALUE!"),
        (datetime.datetime(2024, 3, 4), "2024-03-04T00:00:00"),
        (((1.0, None), (math.nan, "x")), [[1.0, None], [None, "x"]]),
        (True, True),
        ("µ é 測", "µ é 測"),
    ],
)
def test_json_holds_whatever_a_cell_can_hold(value, held):
    record = call("B4", "Q", "QUENCH", 0.002, 0.04)._replace(saved=value)
    assert loaded(Book("a", "0", Job(), (record,)))["results"][0]["saved"] == held


def test_json_stands_as_the_book_is_read_whatever_order_it_comes_in():
    made = inch_v8()
    findings = check(made)
    backwards = replace(made, records=made.records[::-1])
    # Two sheets would come up in another order; this book's calls all stand on one.
    told = book_json(summarize(made, findings))
    assert told == book_json(summarize(backwards, findings[::-1]))


def table(text):
    return pd.read_csv(io.StringIO(text), keep_default_na=False)


def test_readings_and_results_are_one_tidy_row_each(make_book):
    # Two bores, one of them never measured, and what the batch's own formula gives.
    path = make_book(
        {
            "Block": [
                ["", "Cyl 1", "Cyl 2"],
                ["Bore (in)", 4.0305, None],
                ["Piston diameter (in)", 4.0265, 4.0264],
                ["Clearance", "=ENG.PISTON_CLEARANCE(B2,B3)", "=ENG.PISTON_CLEARANCE(C2,C3)"],
            ]
        }
    )
    made = read_book(path)
    frame = table(readings_csv([summarize(made, check(made)), summarize(inch_v8(), ())]))
    assert list(frame.columns) == list(READING_COLUMNS)
    rows = frame[frame.file == path.name].set_index("cell")
    bore = rows.loc["B2"]
    assert (bore.sheet, bore.measurand, bore["of"], bore.number, bore.unit, bore.state) == (
        "Block", "bore", "cylinder", "1", "in", "read"
    )  # fmt: skip
    assert float(bore.value) == 4.0305
    assert float(bore.si) == pytest.approx(4.0305 * 0.0254, rel=1e-12)
    assert (rows.loc["C2"].state, rows.loc["C2"].value) == ("missing", "")
    result = rows.loc["B4"]
    assert result.function == "ENG.PISTON_CLEARANCE"
    others = frame[frame.file != path.name]
    assert len(others[others.function != ""]) == len(inch_v8().records)
    assert set(others[others.function == "ENG.VERDICT"].value) == {"ok", "low", "high"}


def test_findings_are_one_row_each():
    made = inch_v8()
    frame = table(findings_csv([summarize(made, check(made)), summarize(metric_four(), ())]))
    assert list(frame.columns) == list(FINDING_COLUMNS)
    assert list(frame.kind) == ["out of band", "out of band", "missing reading", "stale result"]
    assert list(frame.code) == ["out-of-band", "out-of-band", "missing-reading", "stale-result"]
    assert list(frame.cell) == ["G16", "F34", "E21", "H24"]
    first = frame.cells[0].split("; ")
    assert first[0] == "Build!G16"


@pytest.mark.parametrize(
    "text",
    ["=1+1", "+SUM(A1)", "-2+3", "@A1", "\t=1", "\r=1", "\n=1", " =1+1", "＝1+1", "-0.5 mm", "--"],
)
def test_a_text_that_would_be_a_formula_is_neutralized(text):
    assert neutral(text) == "'" + text


@pytest.mark.parametrize(
    "text", ["-0.002", "+3", "-1e-3", "-.5", "24-017", "V8", "", "a=b", "4.030-4.031"]
)
def test_other_texts_and_plain_numbers_stay(text):
    assert neutral(text) == text


@given(st.text())
def test_nothing_but_a_number_begins_like_a_formula(text):
    kept = neutral(text)
    assert kept.lstrip()[:1] not in tuple("=+-@") or float(kept) is not None


def test_every_text_column_is_neutralized():
    evil = "=HYPERLINK(A1)"
    deck = cell("B3", -0.002, evil, evil, sheet=evil)
    record = call("B4", evil, "QUENCH", deck, 0.04, position=evil, sheet=evil)
    book = Book(evil, "0", Job(number=JobField(evil)), (record,))
    frame = table(readings_csv([summarize(book, ())]))
    for column in ("file", "job", "sheet", "label"):
        assert set(frame[column]) == {"'" + evil}, column
    assert pd.to_numeric(frame.value).tolist() == [0.038]
    found = [Finding("unusable-cell", record.place, evil, evil)]
    frame = table(findings_csv([summarize(book, found)]))
    for column in ("file", "job", "sheet", "message", "advice"):
        assert set(frame[column]) == {"'" + evil}, column
    assert set(frame.cells) == {f"'{evil}!B4"}


def test_a_negative_number_stays_a_number(make_book):
    made = read_book(make_book({"A": [["Deck clearance (in)", -0.002]]}))
    assert pd.to_numeric(table(readings_csv([summarize(made, ())])).value).tolist() == [-0.002]


def test_a_text_with_separators_and_line_ends_stays_one_cell():
    tricky = 'a;"b",c\nd'
    book = Book("f", "0", Job(), (call("B4", tricky, "QUENCH", 0.002, 0.04),))
    text = readings_csv([summarize(book, ())])
    assert table(text).label.tolist() == [tricky]
    # A program whose lists are separated by semicolons must not see a cell "=1+1" in it.
    evil = Book("f", "0", Job(), (call("B4", "a;=1+1", "QUENCH", 0.002, 0.04),))
    assert ',"a;=1+1",' in readings_csv([summarize(evil, ())])
    assert table(readings_csv([])).empty

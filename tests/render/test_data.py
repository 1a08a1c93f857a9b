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

from workbook_tools.books.records import Book, Job, JobField
from workbook_tools.catalog import CellError
from workbook_tools.findings import check
from workbook_tools.findings.finding import Finding
from workbook_tools.render.data import (
    FINDING_COLUMNS,
    READING_COLUMNS,
    book_json,
    findings_csv,
    neutral,
    readings_csv,
)


def no_constant(name):
    raise AssertionError(f"{name} is no JSON")


def loaded(book, findings=()):
    text = book_json(book, findings)
    assert text.endswith("}\n")
    return json.loads(text, parse_constant=no_constant)


def test_json_has_the_agreed_keys():
    made = inch_v8()
    data = loaded(made, check(made))
    assert list(data) == ["book", "job", "calls", "findings"]
    assert data["book"] == {"file": "24-031 small V8.xlsx", "sha256": "5b1f" * 16}
    assert list(data["job"]) == ["number", "customer", "engine", "builder", "started", "finished"]
    agreed = [
        "sheet",
        "cell",
        "label",
        "function",
        "arguments",
        "saved",
        "recomputed",
        "unit",
        "state",
    ]
    for one in data["calls"]:
        assert list(one)[: len(agreed)] == agreed
        for argument in one["arguments"]:
            assert list(argument)[:6] == ["name", "text", "value", "unit", "cell", "label"]
    assert {tuple(f) for f in data["findings"]} == {("kind", "sheet", "cell", "message", "advice")}
    assert len(data["calls"]) == len(made.records)


def test_json_holds_a_call_as_it_was_read():
    (one,) = loaded(Book("a", "0", Job(), (call(
        "B4", "Quench", "QUENCH", cell("B3", 0.002, "Deck"), "38 thou", saved=0.05, position="Cyl 3"
    ),)))["calls"]  # fmt: skip
    assert one["function"] == "ENG.QUENCH"
    assert (one["sheet"], one["cell"], one["label"], one["position"]) == (
        "Build",
        "B4",
        "Quench",
        "Cyl 3",
    )
    assert (one["saved"], one["recomputed"], one["unit"], one["state"]) == (
        0.05,
        0.04,
        "in",
        "stale",
    )
    assert one["arguments"][0]["cell"] == "B3"
    assert one["arguments"][1]["value"] == "38 thou"


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
    record = replace(call("B4", "Q", "QUENCH", 0.002, 0.04), saved=value)
    assert loaded(Book("a", "0", Job(), (record,)))["calls"][0]["saved"] == held


def test_json_stands_as_the_book_is_read_whatever_order_it_comes_in():
    made = inch_v8()
    findings = check(made)
    backwards = replace(made, records=made.records[::-1])
    # Two sheets would come up in another order; this book's calls all stand on one.
    assert book_json(made, findings) == book_json(backwards, findings[::-1])


def table(text):
    return pd.read_csv(io.StringIO(text), keep_default_na=False)


def test_readings_are_one_tidy_row_each():
    frame = table(readings_csv([inch_v8(), metric_four()]))
    assert list(frame.columns) == list(READING_COLUMNS)
    results = frame[frame.parameter == "result"]
    assert len(results) == 55
    row = frame[(frame.label == "Deck clearance") & (frame.position == "Cyl 5")].iloc[0]
    assert (row.file, row.job, row.sheet, row.cell) == (
        "24-031 small V8.xlsx",
        "24-031",
        "Build",
        "G14",
    )
    assert (row.function, row.parameter, float(row.value), row.unit, row.state) == (
        "ENG.QUENCH", "deck_clearance", 0.0012, "in", "read"
    )  # fmt: skip
    missing = frame[frame.state == "missing"]
    assert list(missing.cell) == ["E21"]
    assert list(missing.value) == [""]
    gasket = frame[frame.label == "Gasket, compressed"].iloc[0]
    assert (float(gasket.value), gasket.unit) == (pytest.approx(0.041, rel=1e-15), "in")
    assert set(frame[frame.function == "ENG.VERDICT"].value) == {"ok", "low", "high"}


def test_findings_are_one_row_each():
    made = inch_v8()
    frame = table(findings_csv([(made, check(made)), (metric_four(), ())]))
    assert list(frame.columns) == list(FINDING_COLUMNS)
    assert list(frame.kind) == ["out of band", "out of band", "missing reading", "stale result"]
    assert list(frame.cell) == ["G16", "F34", "E21", "H24"]


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


def test_every_text_column_is_neutralized_and_negative_numbers_stay_numbers():
    evil = "=HYPERLINK(A1)"
    deck = cell("B3", -0.002, evil, evil, sheet=evil)
    record = call("B4", evil, "QUENCH", deck, 0.04, position=evil, sheet=evil)
    book = Book(evil, "0", Job(number=JobField(evil)), (record,))
    frame = table(readings_csv([book]))
    for column in ("file", "job", "sheet", "label", "position"):
        assert set(frame[column]) == {"'" + evil}, column
    assert pd.to_numeric(frame.value).tolist() == [-0.002, 0.038]
    found = table(findings_csv([(book, [Finding("unreadable", record.place, evil, evil)])]))
    for column in ("file", "job", "sheet", "message", "advice"):
        assert set(found[column]) == {"'" + evil}, column


def test_a_text_with_separators_and_line_ends_stays_one_cell():
    tricky = 'a;"b",c\nd'
    book = Book("f", "0", Job(), (call("B4", tricky, "QUENCH", 0.002, 0.04),))
    text = readings_csv([book])
    assert table(text).label.tolist() == [tricky]
    # A program whose lists are separated by semicolons must not see a cell "=1+1" in it.
    evil = Book("f", "0", Job(), (call("B4", "a;=1+1", "QUENCH", 0.002, 0.04),))
    assert ',"a;=1+1",' in readings_csv([evil])
    assert table(readings_csv([])).empty

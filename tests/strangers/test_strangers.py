"""What is true of the strangers' books stands in their cells, and the reader keeps its floors."""

from __future__ import annotations

import pytest
from strangers.books import BOOKS
from strangers.judge import judge
from strangers.pen import Book
from strangers.score import score_all, table, totals

# Reached on these books, less a point; to be raised as the reader gets better.
FLOORS = {"facts right": 93.3, "derived right": 95.7, "fields right": 97.0, "planted caught": 12}
CEILINGS = {"facts wrong": 0.6, "false alarms": 4, "builds that say nothing": 1, "not read": 1}


@pytest.mark.slow
def test_the_reader_keeps_its_floors(profile, tmp_path):
    scores = score_all(tmp_path / "made", profile)
    reached = totals(scores)
    print(table(scores))
    low = {name: reached[name] for name, floor in FLOORS.items() if reached[name] < floor}
    high = {name: reached[name] for name, limit in CEILINGS.items() if reached[name] > limit}
    assert not low, f"below the floor: {low}\n{table(scores)}"
    assert not high, f"above the ceiling: {high}\n{table(scores)}"


@pytest.mark.parametrize("make", BOOKS, ids=lambda make: make.__name__)
def test_a_fact_is_true_of_its_cell(make):
    book = make()
    facts = [fact for job in book.jobs for fact in job.facts]
    assert facts
    for fact in facts:
        title, address = fact["cell"].rsplit("!", 1)
        content = book.workbook[title][address].value
        assert content is not None, fact
        if isinstance(content, (int, float)):
            assert content == fact["value"], fact
        elif fact["value"] is None:
            assert content.startswith("="), fact


def test_the_books_are_the_same_each_time():
    for make in BOOKS:
        assert [job.facts for job in make().jobs] == [job.facts for job in make().jobs]


def test_they_differ_in_kind_and_half_of_them_hold_a_mistake():
    books = [make() for make in BOOKS]
    assert len({book.ident for book in books}) == len(books) == 30
    assert sum(any(job.planted for job in book.jobs) for book in books) == 16
    assert sum(book.eng for book in books) == 10


def _truth(doubt=False):
    book = Book("t00", "t.xlsx", 1)
    page = book.sheet("S")
    page.field("A1", "number", "7").fact("B2", "bore", 4.0, "in", 1, doubt=doubt)
    page.plant("slip", "a slip", "B2")
    job = book.jobs[0]
    jobs = [vars(job)]
    return {"jobs": jobs, "ignore_sheets": [], "either": []}


def _build(findings=(), **reading):
    known = {"sheet": "S", "cell": "B2", "measurand": "bore", "stage": "", "si": 0.1016}
    known |= {"state": "read", "part": {"number": 1, "bank": ""}}
    job = {"number": {"text": "7"}}
    return {"readings": [known | reading], "results": [], "findings": list(findings), "job": job}


@pytest.mark.parametrize(
    ("reading", "outcome"),
    [
        ({}, "right"),
        ({"si": 0.1018}, "wrong"),
        ({"measurand": "stroke"}, "wrong"),
        ({"part": {"number": None, "bank": ""}}, "wrong"),
        ({"part": {"number": 2, "bank": ""}}, "wrong"),
        ({"stage": "found"}, "wrong"),
        ({"state": "asked"}, "asked"),
        ({"cell": "C2"}, "unnoticed"),
    ],
)
def test_a_reading_is_judged_by_measurand_value_position_and_stage(reading, outcome):
    score = judge(_truth(), [_build(**reading)])
    assert dict(score.facts) == {outcome: 1}
    assert score.elsewhere == (outcome == "unnoticed")


def test_a_planted_mistake_must_be_found_and_another_finding_is_a_false_alarm():
    def finding(cell):
        return {"kind": "unit slip", "sheet": "S", "cell": cell, "cells": [], "message": "doubtful"}

    silent = judge(_truth(doubt=True), [_build()])
    assert (silent.facts["wrong"], silent.planted["missed"], silent.alarms) == (1, 1, 0)
    caught = judge(_truth(doubt=True), [_build([finding("B2")])])
    assert (caught.facts["right"], caught.planted["caught"], caught.alarms) == (1, 1, 0)
    elsewhere = judge(_truth(doubt=True), [_build([finding("D9")])])
    assert (elsewhere.planted["missed"], elsewhere.alarms) == (1, 1)

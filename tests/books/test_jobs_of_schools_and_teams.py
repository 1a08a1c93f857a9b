"""Jobs of school workshops and racing teams: benches and pupils, motors by their numbers, cards.

That builders write so is common practice, no source; sizes are from memory.
"""

from __future__ import annotations

import datetime
from dataclasses import fields

import pytest

from workbook_tools.jobs.paper_records import Job
from workbook_tools.jobs.read import read_jobs

DAY = datetime.datetime


def jobs_of(make_book, rows):
    books = read_jobs(make_book({"Sheet": rows}))
    return [{f.name: getattr(b.job, f.name).text for f in fields(Job)} for b in books]


def test_a_bench_a_row_is_a_job_and_its_pupil_the_builder(make_book):
    heads = ["Bench", "Pupil", "Engine", "Started", "Signed off", "Bore honed", "Piston"]
    rows = [
        [f"B{n}", name, "Tansley 3 hp", DAY(2024, 9, 16), DAY(2024, 11, 25), 60.41, 60.32]
        for n, name in enumerate(("Imran Sattler", "Beth Oakhanger", "Callum Wray"), 1)
    ]
    jobs = jobs_of(make_book, [["Engineering 12E, in millimeters"], [], heads, *rows])
    assert [job["number"] for job in jobs] == ["B1", "B2", "B3"]
    assert [job["builder"] for job in jobs] == ["Imran Sattler", "Beth Oakhanger", "Callum Wray"]
    assert {job["finished"] for job in jobs} == {"2024-11-25"}


def test_cards_side_by_side_have_a_motors_number_each(make_book):
    labels = {
        "Motor-Nr.": ("K-07", "K-11", "S-02"),
        "Fahrer": ("Jannik Overbeck", "Mara Diestelkamp", "Finn Olschewski"),
        "Typ": ("Zirbel 125", "Zirbel 125", "Wieselt 60"),
        "Revision durch": ("Uli", "Uli", "Henner"),
        "Eingang": ("12.02.25", "18.02.25", "03.03.25"),
        "Ausgang": ("15.02.25", "22.02.25", "04.03.25"),
        "Zylinder gehont (mm)": (54.015, 54.06, 42.05),
        "Hub (mm)": (54.4, 54.4, 43.0),
    }
    rows = [
        [cell for value in values for cell in (label, value, None)]
        for label, values in labels.items()
    ]
    jobs = jobs_of(make_book, [["Motorenbuch"], [], *rows])
    assert [job["number"] for job in jobs] == ["K-07", "K-11", "S-02"]
    assert [job["customer"] for job in jobs] == [*labels["Fahrer"]]
    assert [job["builder"] for job in jobs] == ["Uli", "Uli", "Henner"]


def test_a_line_of_several_fields_begins_with_the_number(make_book):
    rows = [
        ["Bonfire Alley Cycle - teardown list"],
        ["RO 2288 / Teo Marchbank / Gravewind 94 V-twin / wrench: Lindy S."],
        ["Bore (in)", 3.7553],
    ]
    (job,) = jobs_of(make_book, rows)
    assert (job["number"], job["customer"]) == ("2288", "Teo Marchbank")
    assert (job["engine"], job["builder"]) == ("Gravewind 94 V-twin", "Lindy S.")


@pytest.mark.parametrize("title", ["Ardmoor straight 8, 1931 - what I measured", "Loon 150 V6"])
def test_a_title_names_the_engine_and_no_head_of_a_list_does(make_book, title):
    rows = [
        [title, "job", "OB-61"],
        [],
        ["Date", "What", "Which", "Reading", "Unit"],
        [DAY(2023, 9, 12), "Cylinder bore", "#1", 3.072, "in"],
        [DAY(2023, 9, 13), "Cylinder bore", "#2", 3.073, "in"],
    ]
    (job,) = jobs_of(make_book, rows)
    assert job["engine"] == title.partition(",")[0]

"""Fields of a job as those write them who build for themselves: titles, diaries, short words.

That builders write so is common practice, no source.
"""

from __future__ import annotations

import datetime
from dataclasses import fields

import pytest

from workbook_tools.jobs.paper_records import Job
from workbook_tools.jobs.read import read_book
from workbook_tools.labels.job_labels import job_words


def told(make_book, *rows):
    book = read_book(make_book({"S": [list(row) for row in rows]}))
    return {f.name: getattr(book.job, f.name).text for f in fields(Job)}


@pytest.mark.parametrize(
    ("label", "field"),
    [
        ("Fahrzeugbes.", "customer"), ("gem. v.", "builder"), ("Ausg.", "finished"),
        ("Recib.", "started"), ("tore it down", "started"), ("back in", "finished"),
        ("hauled in", "started"), ("popped off", "finished"), ("tourne le", "finished"),
        ("läuft seit", "finished"), ("lo hizo", "builder"), ("Kürzel", "builder"),
        ("Banco prova", "finished"), ("Remis à bord le", "finished"),
        ("me =", "builder"), ("Me:", "builder"), ("with help from", "builder"),
    ],
)  # fmt: skip
def test_labels_name_a_field_first(label, field):
    assert [one.field for one in job_words().labels(label)][:1] == [field]


@pytest.mark.parametrize(
    "text", ["myself", "IT", "Rod.", "Comp. cc", "Pist.", "Geo. Smith", "Bem."]
)
def test_other_texts_name_none(text):
    assert job_words().labels(text) == ()


def test_one_label_can_name_the_owner_and_who_did_it(make_book):
    head = [["Rebuild No", "5520", "Operator", "Calder Hire"], ["Unit", "six"]]
    found = told(make_book, *head, ["Received", "4 Sep 2023", "Fitter", "M. Brough"])
    assert (found["customer"], found["builder"]) == ("Calder Hire", "M. Brough")
    found = told(make_book, *head, ["Owner", "Calder", "Received", "4 Sep 2023"])
    assert (found["customer"], found["builder"]) == ("Calder", "Calder Hire")
    found = told(make_book, ["JOB 44", None, "WHO: Big Ray"], ["IN: 13/11/24", None, "BY: Moll"])
    assert (found["customer"], found["builder"]) == ("Big Ray", "Moll")


def test_who_checked_is_not_who_built(make_book):
    rows = [["Auftrag", "24-7", "Kunde", "Kern"], ["Motor", "R4 1,8", "geprüft von", "H. Moser"]]
    assert not told(make_book, *rows)["builder"]
    assert told(make_book, *rows, ["Monteur", "Toni"])["builder"] == "Toni"


def test_who_builds_for_himself_may_say_so(make_book):
    rows = [["Engine", "single", "Owner", "Ada"], ["Built by", "myself"]]
    assert told(make_book, *rows)["builder"] == "myself"
    assert (
        told(make_book, ["motor:", "V8", "tore down", "18 Jan 2025", "me = Pim"])["builder"]
        == "Pim"
    )


def test_an_engine_may_be_called_by_its_size(make_book):
    rows = [["Job", "7-1", "Owner", "Ada"], ["Engine", "350"]]
    assert told(make_book, *rows)["engine"] == "350"
    # A word that means other things too may have any number beside it.
    assert told(make_book, ["Job", "7-1", "Owner", "Ada"], ["Head", "350"])["engine"] == ""


def test_a_date_before_a_known_one_in_a_short_head_is_when_it_began(make_book):
    began, done = datetime.datetime(2024, 3, 12), datetime.datetime(2024, 6, 2)
    rows = [["bike", "650 twin"], ["owner", "Terry"], ["off the lift", began], ["fired up", done]]
    found = told(make_book, *rows)
    assert (found["started"], found["finished"]) == ("2024-03-12", "2024-06-02")


def test_a_number_sign_with_a_ring_stands_within_a_text(make_book):
    rows = [["Fiche n° 12", None, "Client : Mme Gros"], ["Moteur : bicylindre 602"]]
    assert told(make_book, *rows)["number"] == "12"


@pytest.mark.parametrize(
    ("title", "engine", "customer"),
    [
        ("Flat four 1700 rebuild for Ada Quill", "Flat four 1700", "Ada Quill"),
        ("MOTORE BIALBERO 1300 - revisione", "BIALBERO 1300", ""),
        ("650 twin – engine notes", "650 twin", ""),
        ("Crank grinding log 2024", "", ""),
        ("Bore 4.030 twin", "", ""),
        ("Quill Motors – engine build sheet", "", ""),
        ("Torques for Head Bolts", "", ""),
    ],
)
def test_a_title_names_engine_and_customer_where_no_label_does(make_book, title, engine, customer):
    found = told(make_book, [title], ["Bore mm", 72.5])
    assert (found["engine"], found["customer"]) == (engine, customer)


def test_a_label_comes_before_a_title(make_book):
    found = told(make_book, ["650 twin for Ada Quill"], ["Engine", "750 twin", "Job", "7-1"])
    assert (found["engine"], found["customer"]) == ("750 twin", "")


DIARY = [
    ["12/1/24", "got it home, started stripping"],
    ["14/1/24", "head off"],
    ["20/2/24", "bores measured"],
    ["3/3/24", "all done, runs sweet"],
]


def test_a_diary_tells_the_first_and_the_last_day(make_book):
    found = told(make_book, ["engine", "650 twin"], *DIARY)
    assert (found["started"], found["finished"]) == ("2024-01-12", "2024-03-03")
    found = told(make_book, ["engine", "650 twin"], *[[" - ".join(row)] for row in DIARY])
    assert (found["started"], found["finished"]) == ("2024-01-12", "2024-03-03")


def test_a_diary_that_does_not_say_so_tells_no_day(make_book):
    rows = [["engine", "650 twin"], *DIARY[1:3], ["2/3/24", "pistons came"]]
    found = told(make_book, *rows)
    assert (found["started"], found["finished"]) == ("", "")
    rows = [["Job", "7-1", "Started", "1/1/24", "Done", "30/4/24"], *DIARY]
    found = told(make_book, *rows)
    assert (found["started"], found["finished"]) == ("2024-01-01", "2024-04-30")


@pytest.mark.parametrize("when", ["Jan-24", "01/2024", "Jan 2024"])
def test_a_month_is_when_but_no_day(make_book, when):
    rows = [["Job", "7-1", "Owner", "Ada"], ["Engine", "V8", "Started", when]]
    assert told(make_book, *rows)["started"] == when


def test_a_text_like_two_numbers_is_refused_and_stops_nothing(make_book):
    book = read_book(make_book({"S": [["Engine description", "350 4-bolt"], ["Bore (in)", 4.03]]}))
    assert [r.measurand for r in book.readings if r.state == "read"] == ["bore"]

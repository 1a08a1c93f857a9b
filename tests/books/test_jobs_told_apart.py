"""Which jobs a book holds: a sheet, a row or a column each, and what is one job all the same.

That builders write so is common practice, no source.
"""

from __future__ import annotations

import datetime

import pytest

from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.job_labels import job_words

DAY = datetime.date(2024, 3, 4)


def day(number):
    return DAY + datetime.timedelta(days=number)


def jobs_of(make_book, sheets):
    return [book.job for book in read_jobs(make_book(sheets))]


def only(make_book, *rows):
    (job,) = jobs_of(make_book, {"S": [list(row) for row in rows]})
    return job


@pytest.mark.parametrize(
    ("label", "text"),
    [("O.T.", "OT 3310"), ("Job", "JOB 3310"), ("Auftrag", "Auftrag 3310")],
)  # fmt: skip
def test_a_number_that_says_what_it_is_again_is_one_number(make_book, label, text):
    """However its other sheets write it."""
    sizes = [["Cyl", "Bore (mm)"], [1, 92.01], [2, 92.02]]
    cover = [[label, text], ["Motor", "Olmeda 2,4 L"], ["Started", day(0)]]
    job = only(make_book, *cover, [], *sizes)
    assert (job.number.text, job.started.text) == (text, "2024-03-04")
    block = [[label, "3310"], ["Motor", "Olmeda 2,4 L"], ["Builder", "Ida Lund"], [], *sizes]
    (job,) = jobs_of(make_book, {"Cover": cover, "Block": block})
    assert (job.number.text, job.builder.text) == (text, "Ida Lund")


def test_numbers_that_differ_behind_their_word_are_two_jobs(make_book):
    rows = [
        ["Motor", "Olmeda 2,4 L"],
        ["Started", day(0)],
        ["Cyl", 1, 2],
        ["Bore (mm)", 92.0, 92.1],
    ]
    sheets = {number: [["O.T.", f"OT {number}"], *rows] for number in ("3310", "3311")}
    assert [job.number.text for job in jobs_of(make_book, sheets)] == ["OT 3310", "OT 3311"]


def rebuilds(heads, labels, start, bore):
    """An engine's notebook: a rebuild a column."""
    count = len(heads) - 1
    return [
        heads,
        [labels[0], *(day(start + 40 * n) for n in range(count))],
        [labels[1], *(day(start + 40 * n + 7) for n in range(count))],
        ["Bore (mm)", *(bore + n / 100 for n in range(count))],
    ]


@pytest.mark.parametrize(
    ("heads", "labels"),
    [
        (["Revisione", "Rev. 1", "Rev. 2", "Rev. 3"], ("Smontato", "Rimontato")),
        (["Überholung", "Nr. 1", "Nr. 2", "Nr. 3"], ("zerlegt", "läuft wieder")),
        ([None, "Rebuild 1", "Rebuild 2", "Rebuild 3"], ("Stripped", "Running again")),
        (["Réfection", "n° 1", "n° 2", "n° 3"], ("Démonté", "Remonté")),
        (["Revisión", "R1", "R2", "R3"], ("Desarmado", "Entregado")),
    ],
)  # fmt: skip
def test_each_rebuild_beside_the_other_is_a_job(make_book, heads, labels):
    """The first of one engine is another job than the first of the engine on the next sheet."""
    sheets = {
        "Motor 7": [["Motor 7 - Falke 125"], [], *rebuilds(heads, labels, 0, 54.0)],
        "Motor 9": [["Motor 9 - Falke 125"], [], *rebuilds(heads[:3], labels, 9, 54.2)],
    }
    jobs = jobs_of(make_book, sheets)
    assert [(j.number.text, j.started.text, j.engine.text) for j in jobs] == [
        (heads[1], "2024-03-04", "Falke 125"), (heads[1], "2024-03-13", "Falke 125"),
        (heads[2], "2024-04-13", "Falke 125"), (heads[2], "2024-04-22", "Falke 125"),
        (heads[3], "2024-05-23", "Falke 125"),
    ]  # fmt: skip


def test_cylinders_side_by_side_below_the_fields_of_a_job_are_no_jobs(make_book):
    rows = [["Job", "17"], ["Started", day(0)], ["Finished", day(9)], ["", "Cyl 1", "Cyl 2"]]
    assert only(make_book, *rows, ["Bore (mm)", 92.0, 92.1]).finished.text == "2024-03-13"


def test_rows_of_limits_stand_between_the_heads_of_a_list_and_its_jobs(make_book):
    heads = ["Bench", "Team", "Engine tag", "Apart", "Running", "Bore", "Stroke"]
    limits = [
        [None, None, None, None, f"Spec {m}", b, 60]
        for m, b in (("min", 65), ("max", 65.1), ("", 65))
    ]
    rows = [
        [f"B-{n}", f"{name} + Ida", f"Wren 200 #{n}", day(n), day(30 + n), 65.0 + n / 100, 60]
        for n, name in enumerate(("Ann", "Bob", "Cy"), 1)
    ]
    jobs = jobs_of(make_book, {"Lab": [["Small engines (mm)"], [], heads, *limits, *rows]})
    assert [(j.number.text, j.customer.text, j.finished.text) for j in jobs] == [
        ("B-1", "Ann + Ida", "2024-04-04"), ("B-2", "Bob + Ida", "2024-04-05"),
        ("B-3", "Cy + Ida", "2024-04-06"),
    ]  # fmt: skip
    assert {j.builder.text for j in jobs} == {""}


def test_what_all_jobs_of_a_list_are_held_against_is_no_reading_of_one(make_book):
    heads = ["Job", "Customer", "Engine", "Bore (mm)", "Piston (mm)"]
    limits = [[None, None, "Soll", 65.0, 64.95], [None, None, "max.", 65.02, 64.97]]
    rows = [[f"J-{n}", "Dora Finn", "Wren 200", 65 + n / 1000, 64.96] for n in (4, 5, 6)]
    for book in read_jobs(make_book({"S": [heads, *limits, *rows]})):
        row = book.job.number.place.address[1:]
        found = {r.place.address: r.measurand for r in book.readings if r.state == "read"}
        assert found == {f"D{row}": "bore", f"E{row}": "piston_diameter"}


def test_lines_that_count_themselves_below_the_head_of_a_job_are_of_that_job(make_book):
    head = [["Ticket", 5120, "Customer", "Dora Finn"], ["Rec'd", day(0), "Out", day(20)]]
    parts = [
        ["#", "Rec'd", "From", "Item"],
        [1, day(2), "Hale Supply", "gasket set"],
        [2, day(3), "Nord Parts", "main bearings"],
        [3, day(5), "Hale Supply", "rings"],
    ]
    job = only(make_book, *head, [], *parts)  # fmt: skip
    assert (job.number.text, job.customer.text) == ("5120", "Dora Finn")


def test_revisions_without_days_are_no_jobs(make_book):
    rows = [["Revision", "Rev. 1", "Rev. 2"], ["Engine", "Wren V8", "Wren V8 twin cam"]]
    assert len(jobs_of(make_book, {"S": [*rows, ["Bore (mm)", 92.0, 92.1]]})) == 1


@pytest.mark.parametrize(
    "labels",
    [
        ("Revision", "zerlegt", "läuft wieder", "geschraubt hat"),
        ("Carnet", "démonté", "remis en route", "fait par"),
        ("Scheda", "smontato", "gira", "chi"),
    ],
)
def test_a_remark_behind_a_field_takes_nothing_from_it(make_book, labels):
    number, began, ended, builder = labels

    def sheet(n):
        return [
            ["Startnummer 21 — Motor 350 L"],
            [number, f"{n}/2024", "nuovo pistone, neue Kolben"],
            [began, f"0{n}.03.2024"],
            [ended, f"1{n}.03.2024"],
            [builder, "Heiner"],
            [],
            ["Bohrung (mm)", 54 + n / 100],
        ]  # fmt: skip

    jobs = jobs_of(make_book, {"A": sheet(1), "B": sheet(2), "C": sheet(3)})
    assert [job.number.text for job in jobs] == ["1/2024", "2/2024", "3/2024"]
    assert {(job.engine.text, job.builder.text) for job in jobs} == {("Motor 350 L", "Heiner")}


def test_fields_beside_another_table_are_those_of_the_job(make_book):
    rows = [
        ["Cyl", 1, 2, None, "Rebuild no.", "K-4"],
        ["Bore (mm)", 86.01, 86.02, None, "Engine", "Ida 2.0"],
        ["Piston (mm)", 85.95, 85.96, None, "Stripped", day(0)],
    ]
    assert only(make_book, *rows).started.text == "2024-03-04"


def test_words_for_four_fields_need_no_sure_one_among_them(make_book):
    rows = [["Balance card", None, "B-9 X", None, "for", "Ada Finch", None, "rec.", day(0)],
            ["unit", None, "Wren V8", None, "bench", "Roz Hale", None, "done", day(2)]]  # fmt: skip
    job = only(make_book, *rows)
    assert (job.customer.text, job.started.text) == ("Ada Finch", "2024-03-04")


@pytest.mark.parametrize("label", ["Unit", "Unidad", "Boat", "Tracteur", "Schlepper", "Unità"])
def test_what_an_engine_is_in_says_whose_it_is_beside_its_own_label(make_book, label):
    rows = [
        ["Job", "J-88"],
        [label, "Skiff 3 (north)"],
        ["Motor", "Olmeda D6"],
        ["Started", day(0)],
    ]
    job = only(make_book, *rows)
    assert (job.customer.text, job.engine.text) == ("Skiff 3 (north)", "Olmeda D6")
    job = only(make_book, *rows, ["Customer", "Dora Finn"])
    assert job.customer.text == "Dora Finn"


def test_a_unit_of_measure_is_nobody(make_book):
    rows = [["Job", "J-88"], ["Motor", "Olmeda D6"], ["Started", day(0)], ["Customer", "mm"]]
    assert only(make_book, *rows).customer.text == ""


@pytest.mark.parametrize(
    ("label", "field"),
    [
        ("Tractor belongs to", "customer"), ("Dueño de la moto", "customer"),
        ("Propriétaire du bateau", "customer"), ("Proprietario della barca", "customer"),
        ("Motor angekommen", "started"), ("Moteur livré", "finished"), ("Crank finished", ""),
        ("Bike owned by", "customer"), ("Car / crew", "customer"), ("Motor-car", "engine"),
        ("Head in", ""),
        ("Bore belongs to", ""), ("Customer (2 of 3)", ""),
    ],
)  # fmt: skip
def test_a_label_may_name_the_engine_too(label, field):
    assert [one.field for one in job_words().labels(label)][:1] == ([field] if field else [])


def test_whose_an_engine_is_may_have_a_number_in_brackets(make_book):
    rows = [["Form no.", "CV-7", "Tractor belongs to", "Club (Green No 2)"], ["Engine", "Olmeda 4"]]
    assert only(make_book, *rows).customer.text == "Club (Green No 2)"


def test_the_number_of_an_engine_is_that_of_its_job_where_four_fields_have_other_words(make_book):
    rows = [["Engine no.", "E12 / build 4"], ["Car / crew", "Car 5 - Finch / Hale"],
            ["Type", "WR20 2.0 16v"], ["Build tech", "Ida Lund"], ["Strip date", day(0)],
            ["Signed off", day(9)]]  # fmt: skip
    sizes = [["Parameter", "Cyl 1", "Cyl 2", "Tech"], ["Bore (mm)", 86.01, 86.02, "IL"]]
    (job,) = jobs_of(make_book, {"Cover": rows, "Block": sizes})
    assert (job.number.text, job.builder.text) == ("E12 / build 4", "Ida Lund")
    sheets = {"Cover": [["Job", "J-5"], *rows[1:]], "Tag": rows, "Block": sizes}
    assert [job.number.text for job in jobs_of(make_book, sheets)] == ["J-5"]


@pytest.mark.parametrize("who", ["io", "yo", "ich", "me", "moi"])
def test_who_builds_for_himself_is_the_builder(make_book, who):
    rows = [["Job", "J-5"], ["Engine", "Wren 200"], ["Started", day(0)], ["Builder", who]]
    assert only(make_book, *rows).builder.text == who


def test_a_calendar_of_races_says_of_no_job_which_engine_it_was(make_book):
    races = [["Date", "Track", "Engine", "Lap", "Tires"], [day(1), "Nord", 12, 48.9, "new"],
             [day(8), "Sud", 31, 51.2, "used"]]  # fmt: skip
    sheets = {"Job": [["Job", "J-5"], ["Started", day(0)], ["Bore (mm)", 54.0]], "Races": races}
    (job,) = jobs_of(make_book, sheets)
    assert job.engine.text == ""


def form(engine, start, sizes):
    head = [["Motor", engine], ["begonnen", day(start)], ["Monteur", "Lothar"], []]
    return [*head, *[[name, size] for name, size in sizes]]


def test_one_form_filled_in_for_each_engine_is_a_job_each_without_numbers(make_book):
    sizes = [("Bohrung (mm)", 92.0), ("Kolben (mm)", 91.95), ("Hub (mm)", 80), ("Stoß (mm)", 0.3)]
    sheets = {"A": form("Olmeda 4", 0, sizes), "B": form("Wren 6", 9, sizes)}
    assert [job.engine.text for job in jobs_of(make_book, sheets)] == ["Olmeda 4", "Wren 6"]
    assert (
        len(jobs_of(make_book, {"A": form("Olmeda 4", 0, sizes), "B": form("Olmeda 4", 0, sizes)}))
        == 1
    )


def test_heads_of_one_job_over_other_measurements_part_nothing(make_book):
    block = [("Bohrung (mm)", 92.0), ("Kolben (mm)", 91.95), ("Hub (mm)", 80), ("Stoß (mm)", 0.3)]
    head = [
        ("Ventilspiel (mm)", 0.2),
        ("Sitzbreite (mm)", 1.2),
        ("Höhe (mm)", 120),
        ("Dom (cm3)", 4),
    ]
    assert (
        len(jobs_of(make_book, {"A": form("Olmeda 4", 0, block), "B": form("Olmeda 4", 9, head)}))
        == 1
    )


def test_sheets_of_two_engines_in_other_words_are_two_jobs(make_book):
    first = [["Loon 150 V6", None, "job", "OB-61"], ["on the stand", day(0)], [],
             ["hole", "bore", "piston", "clr", "gap top"],
             *([n, 3.5153, 3.5092, 0.0061, 0.015] for n in (1, 2, 3))]  # fmt: skip
    second = [["job", "OB-62"], ["in", day(9)], [], ["", 1, 2, 3],
              ["bore now", 2.9557, 2.9554, 2.9557], ["piston dia", 2.9509, 2.9507, 2.9508],
              ["clearance", 0.0048, 0.0047, 0.0049],
              ["top ring gap", 0.012, 0.013, 0.012]]  # fmt: skip
    numbers = [job.number.text for job in jobs_of(make_book, {"loon": first, "perch": second})]
    assert numbers == ["OB-61", "OB-62"]
    # Of another job's number over other measurements nothing is parted: a sheet left behind.
    left = [["job", "OB-60"], ["in", day(2)], [], ["seat width", 0.06], ["valve lift", 0.4]]
    assert len(jobs_of(make_book, {"loon": first, "head": left})) == 1


def test_cards_side_by_side_with_a_word_that_means_other_things_too(make_book):
    def card(number, name, first):
        return [["card", number, "", "sizes in", "mm"], ["for", name], ["crank", f"{name} six"],
                ["in", day(first), "done", day(first + 7)], ["", "found", "ground to"],
                ["M1", 84.98, 84.746], ["M2", 84.97, 84.75]]  # fmt: skip

    left, right = card(881, "Dunphy", 0), card(882, "Garnet", 3)
    width = max(map(len, left)) + 1
    rows = [[*a, *[None] * (width - len(a)), *b] for a, b in zip(left, right, strict=True)]
    jobs = jobs_of(make_book, {"cards": rows})
    assert [job.number.text for job in jobs] == ["881", "882"]
    assert [job.customer.text for job in jobs] == ["Dunphy", "Garnet"]

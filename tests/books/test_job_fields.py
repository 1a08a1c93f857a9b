"""The fields of a job, however a builder labels and lays them out, and what is none of them."""

from __future__ import annotations

import datetime
from dataclasses import fields

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.paper_records import Job
from workbook_tools.jobs.read import read_book, read_jobs
from workbook_tools.labels.job_labels import job_words

DAY = datetime.datetime


def told(book):
    return {f.name: getattr(book.job, f.name).text for f in fields(Job)}


def read(make_book, rows, title="Sheet1", **how):
    return told(read_book(make_book({title: rows}, **how)))


# (rows, number, customer, engine, builder, started, finished)
HEADS = {
    "english, beside": (
        [
            ["Work order no.", "WO-88", None, "Client:", "Ada Quill"],
            ["Eng.", "flat four 2.1", None, "Mech.", "Pim"],
            ["Rec'd", DAY(2025, 3, 3), None, "Picked up", DAY(2025, 4, 11)],
        ],
        ("WO-88", "Ada Quill", "flat four 2.1", "Pim", "2025-03-03", "2025-04-11"),
    ),
    "english, below heads": (
        [
            ["RO #", "Owner", "Engine", "Built by", "In", "Out"],
            ["4410", "Bell Creek Farm", "6 cyl diesel", "T.R.", "3 Feb 2025", "28 Feb 2025"],
            [],
            ["Bore (in)", 4.0],
        ],
        ("4410", "Bell Creek Farm", "6 cyl diesel", "T.R.", "2025-02-03", "2025-02-28"),
    ),
    "english, one cell": (
        [
            ["Job: 2207   Customer: Ivo Sand   Engine: V8 5.5"],
            ["Tech: Lou | In: 2025-05-02 | Out: 2025-05-30"],
        ],
        ("2207", "Ivo Sand", "V8 5.5", "Lou", "2025-05-02", "2025-05-30"),
    ),
    "english, of the bench": (
        [
            ["Bench ticket", "T-311", None, "Property of", "Nan Rudd"],
            ["What it is", "vertical twin 650", None, "In the hands of", "Wick"],
            ["On the bench", DAY(2025, 2, 3), None, "Off the bench", DAY(2025, 3, 7)],
        ],
        ("T-311", "Nan Rudd", "vertical twin 650", "Wick", "2025-02-03", "2025-03-07"),
    ),
    "english, of a tractor and who balanced it": (
        [
            ["Job no.", "T-319", None, "Tractor for:", "Mill Lane Farm"],
            ["Engine", "3 cyl diesel", None, "Bal by", "Joss"],
            ["In", DAY(2025, 2, 3), None, "Out", DAY(2025, 3, 7)],
        ],
        ("T-319", "Mill Lane Farm", "3 cyl diesel", "Joss", "2025-02-03", "2025-03-07"),
    ),
    "english, from tear down to fire up": (
        [
            ["Job sheet", "77/25", None, "Owned by", "Hob Lane Racing"],
            ["Powerplant", "flathead V8 4.1", None, "Screwed together by", "Ida"],
            ["Tear down", "4 May 2025", None, "Fire up", "30 May 2025"],
            ["", "", None, "Took it home", "2 June 2025"],
        ],
        ("77/25", "Hob Lane Racing", "flathead V8 4.1", "Ida", "2025-05-04", "2025-06-02"),
    ),
    "german, of the bench": (
        [
            ["Laufzettel Nr.", "25-118", None, "Gehört zu", "Familie Unterrainer"],
            ["Fahrzeug/Motor", "Schlepper, Diesel 3 Zyl.", None, "Gemacht von", "Loisl"],
            ["Gekommen am", "03.02.2025", None, "Lief wieder am", "07.03.2025"],
        ],
        ("25-118", "Familie Unterrainer", "Schlepper, Diesel 3 Zyl.", "Loisl",
         "2025-02-03", "2025-03-07"),
    ),
    "french, of the bench": (
        [
            ["Intervention n°", "F-92", None, "Appartient à", "M. Lestrade"],
            ["Type du moteur", "bicylindre 650", None, "Travail fait par", "Odette"],
            ["Amené le", "04/02/2025", None, "Remis en route le", "11/03/2025"],
            ["", "", None, "Récupéré le", "12/03/2025"],
        ],
        ("F-92", "M. Lestrade", "bicylindre 650", "Odette", "2025-02-04", "2025-03-12"),
    ),
    "spanish, of the bench": (
        [
            ["Nro. de orden", "4471", None, "Dueño del motor", "Estancia La Perdiz"],
            ["Modelo motor", "diésel de seis", None, "Motor armado por", "el Turco"],
            ["Llegó el", "05/03/2025", None, "Se lo llevó el", "28/03/2025"],
        ],
        ("4471", "Estancia La Perdiz", "diésel de seis", "el Turco", "2025-03-05", "2025-03-28"),
    ),
    "italian, of the bench": (
        [
            ["Foglio di lavoro", "31/25", None, "Di proprietà di", "Scuderia Falco"],
            ["Sigla motore", "bialbero 1300", None, "Motore fatto da", "Nando"],
            ["Sul banco dal", "06/02/2025", None, "Rimesso in moto il", "14/03/2025"],
        ],
        ("31/25", "Scuderia Falco", "bialbero 1300", "Nando", "2025-02-06", "2025-03-14"),
    ),
    "english, job in and out": (
        [
            ["Works order", "8802", None, "On behalf of", "Tarn Slipway"],
            ["Engine details", "marine diesel six", None, "Work carried out by", "O. Penn"],
            ["Job in", "11/06/2025", None, "Job out", "27/06/2025"],
        ],
        ("8802", "Tarn Slipway", "marine diesel six", "O. Penn", "2025-06-11", "2025-06-27"),
    ),
    "a title": (
        [["Work order 4711 / flat four / Miller"], ["in 3/4/25, done 3/20/25"]],
        ("4711", "Miller", "flat four", "", "2025-03-04", "2025-03-20"),
    ),
    "german": (
        [
            ["Auftrags-Nr.:", "25/117", None, "Auftraggeber", "Frau Ilse Tann"],
            ["Motortyp", "Vierzylinder 1,8", None, "Bearbeiter", "H. Moor"],
            ["Eingang am", "4.2.25", None, "Fertig am", "14. März 2025"],
        ],
        ("25/117", "Frau Ilse Tann", "Vierzylinder 1,8", "H. Moor", "2025-02-04", "2025-03-14"),
    ),
    "french": (
        [
            ["N° dossier", "D-09", None, "Propriétaire", "M. Aubin Lacre"],
            ["Moteur", "6 cyl. 2,6 l", None, "Mécanicien", "Zoé"],
            ["Reçu le", "1er avril 2025", None, "Sorti le", "2 mai 2025"],
        ],
        ("D-09", "M. Aubin Lacre", "6 cyl. 2,6 l", "Zoé", "2025-04-01", "2025-05-02"),
    ),
    "spanish": (
        [
            ["O.T.", "518"],
            ["Propietario", "Finca Las Lomas"],
            ["Motor", "4 cil. diésel"],
            ["Realizado por", "Nuria"],
            ["Ingreso", "5 de enero de 2025"],
            ["Entregado el", "07/02/2025"],
        ],
        ("518", "Finca Las Lomas", "4 cil. diésel", "Nuria", "2025-01-05", "2025-02-07"),
    ),
    "italian": (
        [
            ["N. commessa", "C41", "Committente", "Avv. Lena Rosi"],
            ["Motore", "bicilindrico 650", "Eseguito da", "Pino"],
            ["Entrata", "03/06/2025", "Uscita", "30/06/2025"],
        ],
        ("C41", "Avv. Lena Rosi", "bicilindrico 650", "Pino", "2025-06-03", "2025-06-30"),
    ),
}  # fmt: skip


@pytest.mark.parametrize("head", HEADS)
def test_fields_are_read_in_any_usual_head(make_book, head):
    rows, wanted = HEADS[head]
    assert tuple(read(make_book, rows).values()) == wanted


NOTHING = {
    "valves are no days": [["Valve", "In", "Out"], ["Lash (in)", 0.012, 0.014]],
    "sizes are no day of finish": [["Cyl", "Found", "Finished"], [1, 4.0, 4.03], [2, 4.0, 4.03]],
    "a part is no customer": [["Name", "Qty", "Price"], ["Rings", 8, 120.0], ["Pins", 8, 60.0]],
    "a state, a price, a size": [
        ["Customer", "seen"],
        ["Engine", "ok"],
        ["Builder", "$ 450"],
        ["Job no.", "4.030 in"],
        ["Finished", "tbc"],
    ],
    "labels alone": [["Job no.", "Customer", "Engine"], ["Builder", "Started", "Finished"]],
    "engine over readings": [["ENGINE"], ["Bore (in)", 4.0], ["Stroke (in)", 3.5]],
    "numbers of other things": [
        ["Engine no.", "X 778-12"],
        ["Invoice no.", "9912"],
        ["Phone", "555-0101"],
        ["Part no.", "P-11"],
    ],
    "initials of a table": [
        ["Cyl", "Bore (in)", "By", "Checked"],
        [1, 4.0, "SB", "HK"],
        [2, 4.0, "SB", "HK"],
    ],
    "parts that came in": [
        ["Part", "Ordered", "Received"],
        ["Rings", "2025-02-01", "2025-02-09"],
        ["Pins", "2025-02-02", "2025-02-11"],
    ],
}  # fmt: skip


@pytest.mark.parametrize("rows", NOTHING.values(), ids=NOTHING)
def test_what_is_no_field_is_not_taken_for_one(make_book, rows):
    assert set(read(make_book, rows).values()) == {""}


@pytest.mark.parametrize(
    ("rows", "started", "finished"),
    [
        # One number over 12 tells the order of all.
        ([["Started", "4/7/25"], ["Finished", "5/16/25"]], "2025-04-07", "2025-05-16"),
        ([["Started", "4/7/25"], ["Finished", "16/8/25"]], "2025-07-04", "2025-08-16"),
        # A remark's date tells it as well, and so does the place of a month's name.
        ([["Started", "4/7/25"], ["3/22/25 block in"], ["Finished", "5/6/25"]],
         "2025-04-07", "2025-05-06"),
        ([["Started", "7 Apr 2025"], ["Finished", "5/6/25"]], "2025-04-07", "2025-06-05"),
        # The language of the labels.
        ([["Kunde", "Tann"], ["Beginn", "4/7/25"], ["Abgeholt", "5/8/25"]],
         "2025-07-04", "2025-08-05"),
        # Spelling tells one English from the other.
        ([["Rod centres (in)", 6.0], ["Started", "4/7/25"], ["Finished", "5/7/25"]],
         "2025-07-04", "2025-07-05"),
        # A job ends after it began.
        ([["Started", "3/4/24"], ["Finished", "5/2/24"]], "2024-03-04", "2024-05-02"),
        # A week or a month is no day, and stays as written.
        ([["Kunde", "Tann"], ["Beginn", "KW 12/26"], ["Fertig", "Mai 2026"]],
         "KW 12/26", "Mai 2026"),
    ],
)  # fmt: skip
def test_the_order_of_dates_is_told_by_the_book(make_book, rows, started, finished):
    found = read(make_book, rows)
    assert (found["started"], found["finished"]) == (started, finished)


def test_a_date_that_nothing_tells_is_asked_once(make_book):
    book = read_book(make_book({"A": [["Job no.", "7-1"], ["Finished", "3/4/25"]]}))
    assert book.job.finished.text == "3/4/25"
    assert [t.message for t in book.troubles] == [
        "finished '3/4/25': day and month may be either; the book does not say"
    ]


def test_a_number_of_the_file_is_the_last_resort_and_is_said(make_book, tmp_path):
    path = make_book({"A": [["Customer", "Ada Quill"], ["Bore (in)", 4.0]]})
    named = path.rename(tmp_path / "1042 Quill final.xlsx")
    (book,) = read_jobs(named)
    assert book.job.number.text == "1042"
    assert any("from the name of the file" in t.message for t in book.troubles)
    for name in ("2024 season.xlsx", "1600 twin.xlsx", "log_2024-11.xlsx"):
        named = named.rename(tmp_path / name)
        assert read_jobs(named)[0].job.number.text == ""


def test_a_number_in_the_book_comes_before_that_of_the_file(make_book, tmp_path):
    path = make_book({"A": [["Job no.", "7-1"], ["Bore (in)", 4.0]]})
    (book,) = read_jobs(path.rename(tmp_path / "1042.xlsx"))
    assert book.job.number.text == "7-1"


def numbers(path):
    return [book.job.number.text for book in read_jobs(path)]


def test_each_column_of_a_list_can_be_a_job(make_book):
    rows = [
        ["Einzylinder"],
        ["Auftrag", None, "E-1", "E-2", "E-3"],
        ["Kunde", None, "Tann", "Moor", "Rieck"],
        ["Beginn", None, "3.2.25", "4.2.25", "5.2.25"],
        ["Bohrung", "mm", 82.01, 82.02, 82.03],
    ]
    books = read_jobs(make_book({"Liste": rows}))
    assert [b.job.number.text for b in books] == ["E-1", "E-2", "E-3"]
    assert [b.job.customer.text for b in books] == ["Tann", "Moor", "Rieck"]
    assert [b.job.started.text for b in books] == ["2025-02-03", "2025-02-04", "2025-02-05"]
    bores = [[r.value for r in b.readings if r.measurand == "bore"] for b in books]
    assert bores == [[82.01], [82.02], [82.03]]


def test_a_list_of_jobs_ends_at_its_sum_and_leaves_out_lines_not_filled_in(make_book):
    rows = [
        ["#", "Customer", "Engine", "In", "Out", "HP"],
        ["26-01", "Ada Quill", "V8", DAY(2026, 1, 5), DAY(2026, 1, 30), 410],
        ["26-02", "Ivo Sand", "V6", DAY(2026, 1, 8), None, 300],
        ["26-03", None, None, None, None, None],
        ["mean", None, None, None, None, 355],
    ]
    books = read_jobs(make_book({"January": rows}))
    assert [told(b)["number"] for b in books] == ["26-01", "26-02"]
    assert [told(b)["finished"] for b in books] == ["2026-01-30", ""]


def test_rows_that_repeat_a_jobs_number_are_one_job(make_book):
    rows = [["Job", "Customer", "Cyl", "Bore (in)", "Piston (in)"]]
    rows += [["7-1", "Quill", n, 4.0 + n / 1000, 3.99] for n in (1, 2, 3)]
    rows += [["7-2", "Sand", 1, 4.03, 4.02], [None, None, 2, 4.031, 4.02]]
    books = read_jobs(make_book({"Log": rows}))
    assert [b.job.number.text for b in books] == ["7-1", "7-2"]
    bores = [[r.value for r in b.readings if r.measurand == "bore"] for b in books]
    assert bores == [[4.001, 4.002, 4.003], [4.03, 4.031]]


def test_a_table_of_cylinders_is_no_list_of_jobs(make_book):
    rows = [
        ["Ticket", "T-1", "For", "Ada Quill", "In", DAY(2025, 1, 2)],
        ["No.", "Bore (in)", "Piston (in)", "By"],
        *[[n, 4.0, 3.99, "SB"] for n in range(1, 5)],
    ]
    assert numbers(make_book({"A": rows})) == ["T-1"]


def test_sheets_of_two_jobs_are_two_jobs_whatever_was_done(make_book):
    def head(number, customer):
        return [["Ticket", number], ["Cust.", customer], ["Engine", "V8"]]

    sheets = {
        "One": [*head("T-1", "Quill"), ["Bore (in)", 4.0]],
        "Two": [*head("T-2", "Sand"), ["Main journal (in)", 2.45]],
    }
    assert numbers(make_book(sheets)) == ["T-1", "T-2"]


def test_a_job_of_several_sheets_beside_another_keeps_its_sheets(make_book):
    def sheet(number, size):
        return [["Job", number], ["Bore (in)", size], ["Stroke (in)", 3.5], ["Piston (in)", 3.9]]

    sheets = {"A": sheet("7-1", 4.0), "A2": sheet("7-1", 4.0), "B": sheet("7-2", 4.1)}
    assert numbers(make_book(sheets)) == ["7-1", "7-2"]


def test_a_sheet_named_by_a_jobs_number_is_that_jobs_alone(make_book):
    def head(number):
        return [["Job", number], ["For", f"Customer {number}"], ["Engine", "diesel"]]

    mains = [["Main 1 (mm)", 76.18], ["Main 2 (mm)", 76.15]]
    sheets = {
        "2211 block": [*head("2211"), ["Bore (mm)", 95.0]],
        "2211 crank": mains,
        "2218 block": [*head("2218"), ["Bore (mm)", 80.0]],
        "2218 crank": [["Main 1 (mm)", 53.97], ["Main 2 (mm)", 53.969]],
    }
    read_on = {
        job.job.number.text: {r.place.sheet for r in job.readings}
        for job in read_jobs(make_book(sheets))
    }
    assert read_on == {
        "2211": {"2211 block", "2211 crank"}, "2218": {"2218 block", "2218 crank"},
    }  # fmt: skip


@pytest.mark.parametrize("title", ["7-0 old", "letzter Auftrag alt", "copie", "plantilla"])
def test_a_sheet_named_as_old_is_not_read_and_that_is_said(make_book, title):
    def sheet(number):
        return [["Job", number], ["Name", "Ostrow"], ["Engine", "V8"], ["Bore (in)", 4.0]]

    (book,) = read_jobs(make_book({"Now": sheet("7-1"), title: sheet("7-0")}))
    assert book.job.number.text == "7-1"
    assert {r.place.sheet for r in book.readings} == {"Now"}
    assert any(repr(title) in t.message for t in book.troubles)


def test_fields_of_a_sheet_left_over_from_another_job_are_not_mixed_in(make_book):
    sheets = {
        "Block": [["Job", "7-1"], ["Customer", "Quill"], ["In", DAY(2025, 6, 9)]],
        "Heads": [["Job", "7-0"], ["Date in", DAY(2025, 5, 2)], ["Builder", "Pim"]],
    }
    book = read_book(make_book(sheets))
    assert tuple(told(book).values()) == ("7-1", "Quill", "", "", "2025-06-09", "")


def test_jobs_side_by_side_go_on_behind_an_empty_column(make_book):
    rows = [
        ["Nr", "M1", "M2", None, "M3"],
        ["Motor", "Moped 50 ccm", "Motorrad 125", None, "Eintopf 250 Viertakt"],
        ["gehört", "Schwager Poldi", "ich", None, "Nachbar Ferdl"],
        ["angefangen", "2.11.2025", "8.12.2025", None, "18.1.2026"],
        ["Bohrung mm", 38.02, 54.01, None, 64.52],
    ]
    found = [book.job.customer.text for book in read_jobs(make_book({"Tabelle1": rows}))]
    assert found == ["Schwager Poldi", "ich", "Nachbar Ferdl"]


def test_al_is_a_name_beside_by_in_a_list(make_book):
    rows = [
        ["Job", "Customer", "Engine", "By", "In", "Bore (in)"],
        ["SE-201", "Pruitt Farms", "straight six", "Al", DAY(2026, 3, 2), 3.7202],
        ["SE-202", "K. Osterman", "side valve V8", "Tina", DAY(2026, 3, 5), 3.218],
    ]
    found = [book.job.builder.text for book in read_jobs(make_book({"2026": rows}))]
    assert found == ["Al", "Tina"]


def test_who_built_an_engine_comes_before_who_ground_its_crank(make_book):
    book = read_book(
        make_book(
            {
                "Crankshaft": [["Job", "HL-342"], ["Grinder: Alf"], ["Main 1 (in)", 1.99]],
                "Assembly": [["Fitter", "Colin Brewster"], ["Stroke", "3.200 in"]],
            }
        )
    )
    assert (book.job.number.text, book.job.builder.text) == ("HL-342", "Colin Brewster")


@pytest.mark.parametrize(("finished", "told"), [("2025-09-18", True), ("2025-09-30", False)])
def test_a_job_finished_before_it_was_started_is_told(make_book, finished, told):
    rows = [["Job", "7-1"], ["Started", "2025-09-30"], ["Finished", finished], ["Bore (in)", 4.0]]
    findings = check(read_book(make_book({"A": rows})))
    found = [f for f in findings if f.code == "finished-before-started"]
    assert bool(found) == told
    assert not told or [str(p) for p in found[0].places] == ["A!B3", "A!B2"]


@pytest.mark.parametrize(
    ("label", "field"),
    [
        ("Car / owner", "customer"), ("Customer / team", "customer"), ("Owner / boat", "customer"),
        ("Bore / owner", ""), ("Combination", "engine"), ("Date rec'd", "started"),
    ],
)  # fmt: skip
def test_of_two_words_for_a_field_the_sure_one_holds(label, field):
    assert job_words().field(label) == field


def test_a_job_beside_a_ticket_number_is_the_engine(make_book):
    rows = [["Ticket no.", "C/5521", "Booked in", "2023-09-04"], ["A/c", "Amberley Plant Hire"],
            ["Job", "Tarnside 4/215 crankshaft"], ["Bore (mm)", 92.01]]  # fmt: skip
    (book,) = read_jobs(make_book({"Crank": rows}))
    told = (book.job.number.text, book.job.customer.text, book.job.engine.text)
    assert told == ("C/5521", "Amberley Plant Hire", "Tarnside 4/215 crankshaft")


def test_no_field_is_said_by_what_heads_a_table(make_book):
    """ "Crank" beside "No 1 (LH)" stands over its journals, and is no engine."""
    rows = [["Job", "J-1"], ["Customer", "Ann Bell"], [], ["CRANK", "No 1 (LH)", "No 2 (RH)"],
            ["Big end journal (in)", 1.6036, 1.6035]]  # fmt: skip
    (book,) = read_jobs(make_book({"Sheet": rows}))
    assert book.job.engine.text == ""
    assert book.job.customer.text == "Ann Bell"

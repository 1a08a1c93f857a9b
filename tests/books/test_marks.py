"""Places for signatures and ticks, cell by cell, in books of several shops and languages."""

from pathlib import Path

import openpyxl
import pytest
from each_case import each

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.books.opening import read_cells
from workbook_tools.findings import check
from workbook_tools.jobs.marks import marks_of
from workbook_tools.jobs.read import read_book

EXAMPLES = Path(__file__).parents[2] / "example_books"


def marks(rows):
    """(address, which row, state) of the marks of a sheet."""
    cells = {
        (r, c): Cell(value)
        for r, row in enumerate(rows, 1)
        for c, value in enumerate(row, 1)
        if value is not None
    }
    book = OpenBook("a.xlsx", "a", (Sheet("S", cells),), {})
    return [(m.place.address, m.label.position, m.state) for m in marks_of(book)]


def table(head, *entries):
    rows = [["Fastener", "Lubricant", "Torque (ft-lb)", head]]
    names = ("Main caps", "Rod caps", "Head bolts")
    return rows + [[n, "oil", 70, e] for n, e in zip(names, entries, strict=True)]


@each(
    "head",
    [
        "Done", "Seen", "Done by", "Seen by", "Set by", "Fitted by", "Weighed by", "Read by",
        "Filed by", "Marked", "By", "Initials", "Torqued by", "2nd check by", "Init.", "Signed",
        "erledigt", "geprüft von", "Gewogen durch", "Kürzel", "Hdz.", "eingestellt von",
        "fait par", "Vu", "réglé par", "pesé par", "Visa", "Serré", "par",
        "Hecho", "revisado por", "Montado por", "Firma", "pesado por",
        "Fatto", "controllato da", "Sigla", "regolato da", "limato da",
    ],
)  # fmt: skip
def test_a_head_that_means_a_mark_is_judged_cell_by_cell(head):
    assert marks(table(head, "RL", None, "MT")) == [
        ("D2", "Main caps", "made"),
        ("D3", "Rod caps", "empty"),
        ("D4", "Head bolts", "made"),
    ]


@pytest.mark.parametrize(
    "head", ["Set (in)", "Read", "Weighed", "Torqued", "Filed", "Fitted", "Off by", "Marked"]
)
def test_a_head_with_numbers_below_it_is_no_place_for_marks(head):
    assert marks(table(head, 0.018, None, 0.019)) == []


@pytest.mark.parametrize("head", ["Set", "Read", "Torqued", "Quoted by", "Off by", "Size marked"])
def test_an_empty_column_that_may_be_of_numbers_is_no_place_for_marks(head):
    assert marks(table(head, None, None, None)) == []


@each(
    ("entry", "state"),
    [
        ("no", "no"), ("No", "no"), ("not yet", "no"), ("not seen", "no"), ("nein", "no"),
        ("pas encore", "no"), ("pendiente", "no"), ("da fare", "no"), ("?", "no"), (False, "no"),
        ("yes", "made"), ("✓", "made"), ("x", "made"), ('"', "made"), (True, "made"), (1, "made"),
        ("n/a", "made"), ("not fitted", "made"), ("entfällt", "made"), ("-", "made"),
        ("No. 3", "made"), ("____", "empty"), (" ", "empty"),
    ],
)  # fmt: skip
def test_what_stands_in_a_place_is_a_mark_or_says_no(entry, state):
    assert marks(table("Seen", "RL", entry, "RL"))[1] == ("D3", "Rod caps", state)


def test_rows_that_nobody_uses_or_signs_are_no_places():
    rows = table("Done by", "RL", "RL", "RL")
    rows += [["Cam bolts", None, None, None], ["Least", None, 60, None], [], ["Oil", "10W-40"]]
    assert [state for _, _, state in marks(rows)] == ["made"] * 3


def test_a_list_of_things_to_do_needs_no_numbers():
    rows = [["No.", "What", "Done", "By", "On"], [1, "Galleries brushed", "yes", "RL", None],
            [2, "Plugs counted", None, None, None]]  # fmt: skip
    assert [m for m in marks(rows) if m[2] == "empty"] == [
        ("C3", "Plugs counted", "empty"),
        ("D3", "Plugs counted", "empty"),
    ]


def test_a_name_beside_a_line_is_its_own_though_heads_of_a_table_stand_below():
    rows = [
        ["Use", "street, premium fuel", "Checked by", "J. Pellam"],
        ["Item", "This engine", "Most", "Verdict"],
        ["Bore", 4.0, 4.1, "ok"],
    ]
    assert marks(rows) == [("C1", "", "made")]


def test_marks_in_a_row_under_numbers_are_judged_cell_by_cell():
    rows = [["Cylinder", 1, 2, 3, 4], ["Top gap (in)", 0.018, 0.018, 0.019, 0.018],
            ["Filed by", "RL", None, "RL", "RL"]]  # fmt: skip
    assert [m[0] for m in marks(rows) if m[2] == "empty"] == ["C3"]
    # One name is for the whole row.
    rows[2] = ["Filed by", "RL", None, None, None]
    assert marks(rows) == [("A3", "", "made")]


@pytest.mark.parametrize(
    ("row", "state"),
    [
        (["Released by", None, None, "J. Sample"], "made"), (["Released by:"], "empty"),
        (["Released by: RL"], "made"), (["Freigegeben von", "____"], "empty"),
        (["Contrôlé par", "Date"], "empty"), (["Checked:", "no"], "no"),
        (["Cracks, plugs: who looked", "RL"], "made"), (["Galleries brushed by", "RL"], "made"),
    ],
)  # fmt: skip
def test_a_line_is_filled_beside_its_name(row, state):
    assert [m[2] for m in marks([row])] == [state]


@pytest.mark.parametrize(
    "text",
    ["Checked", "Customer signature", "Collected by", "Wanted by", "By cylinder"],
)
def test_other_texts_are_no_lines_to_sign(text):
    assert marks([[text, None]]) == []


def test_a_filled_build_book_has_all_its_marks_and_those_taken_out_are_missed(tmp_path):
    book = openpyxl.load_workbook(EXAMPLES / "build_book_inch_v8.xlsx")
    for sheet, cell, value in (
        ("Assembly", "J8", None), ("Assembly", "L14", None), ("Assembly", "N14", "no"),
        ("Stretch", "J9", None), ("Release", "B38", None), ("Release", "B39", None),
    ):  # fmt: skip
        book[sheet][cell] = value
    book.save(tmp_path / "book.xlsx")
    whole = list(marks_of(read_cells(EXAMPLES / "build_book_inch_v8.xlsx")))
    assert len(whole) > 140
    assert {m.state for m in whole} == {"made"}
    found = [m for m in marks_of(read_cells(tmp_path / "book.xlsx")) if m.state != "made"]
    assert [(m.place.sheet, m.place.address, str(m.label)) for m in found] == [
        ("Assembly", "J8", "Pass 1 done by, Main caps"),
        ("Assembly", "L14", "Final done by, Cylinder head"),
        ("Assembly", "N14", "Marked, Cylinder head"),
        ("Stretch", "J9", "Done by, Rod 2"),
        ("Release", "A38", "Lead builder"),
        ("Release", "A39", "Seen by"),
    ]


def test_open_marks_are_findings_of_a_finished_job_alone(make_book):
    rows = [["Job", "24-031"], ["Finished", "2025-04-02"], [], *table("Seen by", "RL", None, "no")]
    found = check(read_book(make_book({"S": rows})))
    assert [(f.code, f.place.address) for f in found if "Seen by" in f.message] == [
        ("missing-signature", "D6"),
        ("marked-not-done", "D7"),
    ]
    assert "Seen by is empty for 1 of 3: Rod caps (D6)." in found[0].message
    rows[1] = ["Started", "2025-04-02"]
    assert not [f for f in check(read_book(make_book({"S": rows}))) if "Seen by" in f.message]


def test_no_beside_a_size_as_found_is_why_the_work_was_done(make_book):
    rows = [["Job", "24-031"], ["Finished", "2025-04-02"], [],
            ["MAIN JOURNALS (in)", "No. 1", "No. 2", "No. 3", "Limit", "OK?"],
            ["As found (min)", 2.9956, 2.9955, 2.9964, "2.9975 min", "N"],
            ["After grinding -.020", 2.979, 2.9792, 2.9791, "2.9785 - 2.9795", "Y"],
            ["Shell in block", 2.9821, 2.9823, 2.9823, None, "Y"],
            ["Oil clearance", 0.0031, 0.0031, 0.0032, None, "Y"]]  # fmt: skip
    codes = [f.code for f in check(read_book(make_book({"S": rows})))]
    assert "marked-not-done" not in codes
    rows[6][5] = "N"
    assert "marked-not-done" in [f.code for f in check(read_book(make_book({"S": rows})))]


def test_one_mark_beside_one_empty_place_shows_nothing(make_book):
    rows = [
        ["Job", "24-031"],
        ["Finished", "2025-04-02"],
        [],
        *table("Seen by", "RL", None, None)[:3],
    ]
    assert not [f for f in check(read_book(make_book({"S": rows}))) if "Seen by" in f.message]


LISTED = [
    ["Job", "MC 419", "Cust.", "Priya"],
    ["In", "13 Jan 2025", "Done", "7 Feb 2025"],
    [],
    ["Item", "Check", "Limits", "Measured", "OK?"],
    *([n, f"Bore, cyl {n}", "67.000 - 67.015", 67.01, "✓"] for n in (1, 2, 3)),
]


def test_a_field_of_the_job_over_a_table_is_no_head_of_marks(make_book):
    marks = read_book(make_book({"S": LISTED})).marks
    assert {mark.place.address[0] for mark in marks} == {"E"}


def test_nobody_signs_with_limits(make_book):
    rows = [["Item", "Check", "Done", "Measured"], *(row[:4] for row in LISTED[4:])]
    assert not read_book(make_book({"S": rows})).marks

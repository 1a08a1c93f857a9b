"""What labels mean below heads and headings, in five languages, and what is asked, not read."""

import pytest

from workbook_tools.books.opening import read_cells
from workbook_tools.jobs.read import read_book
from workbook_tools.labels.candidates import propose


def readings(make_book, rows, **more):
    book = read_book(make_book({"A": rows}, **more))
    return [(r.measurand, r.part.which, r.stage, r.state) for r in book.readings]


@pytest.mark.parametrize(
    ("head", "bore", "clearance"),
    [
        ("Cyl", "Bore (mm)", "Piston clearance (mm)"),
        ("Zyl.", "Bohrung (mm)", "Kolbenspiel (mm)"),
        ("Cylindre", "Alésage (mm)", "Jeu piston/cylindre (mm)"),
        ("Cilindro", "Diámetro camisa (mm)", "Holgura pistón (mm)"),
        ("Cilindro", "Alesaggio (mm)", "Gioco pistone (mm)"),
    ],
)
def test_heads_and_labels_are_read_in_five_languages(make_book, head, bore, clearance):
    rows = [[head, bore, clearance], [1, 86.01, 0.045], [2, 86.02, 0.05]]
    assert readings(make_book, rows) == [
        ("bore", "1", "", "read"),
        ("piston_clearance", "1", "", "read"),
        ("bore", "2", "", "read"),
        ("piston_clearance", "2", "", "read"),
    ]


def test_columns_of_limits_are_limits_and_a_mean_is_no_reading(make_book):
    rows = [
        ["", "Min", "Max", "Found", "Final"],
        ["Main journal 1 (in)", 2.4481, 2.4490, 2.4479, 2.4485],
        ["Main journal 2 (in)", 2.4481, 2.4490, 2.4478, 2.4484],
    ]
    stages = {(m, s) for m, _, s, _ in readings(make_book, rows)}
    assert stages == {("main_journal", s) for s in ("limit_low", "limit_high", "found", "final")}


def test_a_column_that_counts_is_no_reading(make_book):
    rows = [["Chamber", "cc"], [1, 54.1], [2, 54.3], [3, 54.2], [4, 54.0]]
    book = read_book(make_book({"A": rows}))
    assert not [r for r in book.readings if r.place.address.startswith("A") and r.state == "read"]


def test_a_bearing_is_told_by_its_heads_and_else_asked(make_book):
    alone = [["Shell (mm)", 1.823]]
    assert readings(make_book, alone) == [("main_shell_wall", "", "", "asked")]
    below = [["Rod", 1, 2], ["Shell (mm)", 1.823, 1.824]]
    assert readings(make_book, below)[-2:] == [
        ("rod_shell_wall", "1", "", "read"),
        ("rod_shell_wall", "2", "", "read"),
    ]


BARE = [
    ["Cylinder", 1, 2, 3, 4],
    ["Bore", 86.01, 86.02, 86.01, 86.03],
    ["Piston", 85.96, 85.97, 85.96, 85.98],
    ["Stroke", 86.0],
]


def test_bare_lengths_are_in_the_system_that_all_of_them_leave(make_book):
    found = propose(read_cells(make_book({"A": BARE})))
    assert (found.system, found.system_from) == (
        "metric",
        "9 sizes, which are usual only in millimeters",
    )
    few = propose(read_cells(make_book({"A": BARE[-1:]})))
    assert [r.value for r in few.readings] == [None]


def test_front_and_rear_of_a_twin_are_its_cylinders(make_book):
    rows = [["", "Front", "Rear"], ["Bore (in)", 3.7506, 3.7508]]
    assert [r[1] for r in readings(make_book, rows)] == ["1", "2"]


def test_two_numbers_without_heads_are_asked(make_book):
    rows = [["Bore (in)", 3.7506, 3.4508]]
    assert [r[3] for r in readings(make_book, rows)] == ["asked", "asked"]


def test_a_letter_before_a_word_may_be_another_word(make_book):
    assert readings(make_book, [["g bore (in)", 4.2]]) == [("bore", "", "", "asked")]


def test_dates_and_sentences_are_no_readings(make_book):
    rows = [["Finish", "3/4/25"], ["call about the 4 bolt block before the bore is done", 4.03]]
    assert not [r for r in readings(make_book, rows) if r[3] == "read"]

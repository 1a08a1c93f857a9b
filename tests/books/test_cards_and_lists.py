"""Cards of one cylinder, twins, lists of jobs and of readings, weights, means in place of readings.

That shops keep such sheets is common practice, no source.
"""

from __future__ import annotations

import pytest

from workbook_tools.jobs.read import read_jobs

JOB = [["Job", "55218"], ["Engine", "V6 two-stroke"], []]


def told(make_book, rows):
    (book,) = read_jobs(make_book({"S": [*JOB, *rows]}))
    return {
        r.place.address: (r.measurand, r.part.which, r.stage)
        for r in book.readings
        if r.state == "read"
    }


def test_the_card_of_each_cylinder(make_book):
    def row(label, *values):
        return [cell for value in values for cell in (label, value, None)]

    found = told(
        make_book,
        [
            ["CYL 1", "port top", None, "CYL 2", "port mid", None],
            row("Bored to", 3.5152, 3.5153),
            row("Piston", 3.5091, 3.5091),
            row("Skirt clr", 0.0061, 0.0062),
            [],
            ["CYL 3", "port bottom", None, "CYL 4", "stbd top", None],
            row("Bored to", 3.5152, 3.5153),
            row("Piston", 3.5093, 3.5092),
            row("Skirt clr", 0.0059, 0.0061),
        ],
    )
    assert {at: found[at][:2] for at in ("B6", "E6", "B7", "B11", "E12")} == {
        "B6": ("piston_diameter", "1"),
        "E6": ("piston_diameter", "2"),
        "B7": ("piston_clearance", "1"),
        "B11": ("piston_diameter", "3"),
        "E12": ("piston_clearance", "4"),
    }


def test_the_two_cylinders_of_a_twin_are_counted_from_the_left(make_book):
    found = told(
        make_book,
        [
            ["in", "LH", "RH"],
            ["Bore", 2.8128, 2.8130],
            ["Piston", 2.8083, 2.8085],
            ["Ring gap, top", 0.012, 0.012],
        ],
    )
    assert found["B5"][1] == "L1"
    assert found["C6"][:2] == ("piston_diameter", "R2")


def test_banks_with_numbers_stay_banks(make_book):
    found = told(
        make_book,
        [
            ["Cyl", 1, 2, 3, 4],
            ["Bore (in)", 4.001, 4.002, 4.001, 4.001],
            [],
            ["", "LH", "RH"],
            ["Deck height (in)", 9.02, 9.021],
        ],
    )
    assert {found[at][1] for at in ("B8", "C8")} == {"L", "R"}


def test_a_list_of_jobs_with_a_dash_among_its_units(make_book):
    rows = [
        ["Ficha", "Piloto", "Motor", "Mecánico", "Ø cilindro", "Ø pistón", "Rel. compr."],
        [None, None, None, None, "mm", "mm", "-"],
        ["E-01", "Nil C.", "Rayo 125", "Pepe", 54.006, 53.956, 13.8],
        ["E-02", "Aitor B.", "Rayo 250", "Pepe", 66.412, 66.342, 12.7],
    ]
    books = read_jobs(make_book({"S": rows}))
    assert [b.job.number.text for b in books] == ["E-01", "E-02"]
    assert [[(r.measurand, r.value) for r in b.readings] for b in books] == [
        [("bore", 54.006), ("piston_diameter", 53.956), ("compression_ratio", 13.8)],
        [("bore", 66.412), ("piston_diameter", 66.342), ("compression_ratio", 12.7)],
    ]


def test_a_table_below_the_head_of_a_job_is_no_list_of_more_jobs(make_book):
    rows = [
        ["job no", "for", "type", "fitter", "in", "out"],
        ["BY/0944", "Cmdr. Askwith", "2 cyl. side valve", "Tom", "13.1.25", "7.2.25"],
        [],
        ["fwd (1)", "aft (2)"],
        [3.0205, 3.0207],
    ]
    books = read_jobs(make_book({"S": rows}))
    assert [b.job.number.text for b in books] == ["BY/0944"]


def test_weights_without_a_unit_are_in_grams(make_book):
    (book,) = read_jobs(make_book({"S": [*JOB, ["Piston", 462.5], ["Wrist pin", 118.4]]}))
    assert [(r.measurand, r.value, r.unit, r.state) for r in book.readings] == [
        ("piston_mass", 462.5, "g", "read"),
        ("pin_mass", 118.4, "g", "read"),
    ]


@pytest.mark.parametrize("label", ["Ring gap", "Coupe segment", "Ringstoß"])
def test_the_only_ring_of_an_engine_is_its_top_one(make_book, label):
    found = told(make_book, [["Bore (mm)", 54.0], [f"{label} (mm)", 0.3]])
    assert found["B5"] == ("top_ring_gap", "", "")


def test_a_largest_size_stands_for_readings_that_are_not_there(make_book):
    found = told(make_book, [["Zyl.", 1, 2], ["Bohrung alt, größtes Maß (mm)", 98.24, 98.27]])
    assert found["B5"] == ("bore", "1", "found")
    found = told(
        make_book,
        [["Zyl.", 1, 2, "größtes"], ["Bohrung (mm)", 98.24, 98.27, 98.27]],
    )
    assert "D5" not in found


def test_sizes_with_their_cylinders_in_one_cell(make_book):
    sizes = "cyl 1: 95.014  cyl 2: 95.012  cyl 3: 95.016"
    (book,) = read_jobs(make_book({"S": [*JOB, ["Bore finished, mm", sizes]]}))
    assert [(r.measurand, r.part.which, r.value) for r in book.readings] == [
        ("bore", "1", 95.014),
        ("bore", "2", 95.012),
        ("bore", "3", 95.016),
    ]


def test_stages_in_a_column_behind_the_values(make_book):
    rows = [
        ["", "1", "2", ""],
        ["Bore (in)", 3.1943, 3.1942, "worn"],
        ["Bore (in)", 3.2193, 3.2192, "finished"],
    ]
    found = told(make_book, rows)
    assert [found[at][2] for at in ("B5", "B6")] == ["found", "final"]


@pytest.mark.parametrize("words", ["bank 2", "Bank 2", "banc 2"])
def test_the_number_of_a_bank_is_no_cylinder(make_book, words):
    (book,) = read_jobs(make_book({"S": [*JOB, [f"Deck clearance, {words} (mm)", 0.15]]}))
    (deck,) = [r for r in book.readings if r.measurand == "deck_clearance"]
    assert (deck.part.number, deck.part.bank) == (0, "2")


@pytest.mark.parametrize("text", ["8:00 - 12:30", "8:00  13:30"])
def test_times_are_no_sizes(make_book, text):
    (book,) = read_jobs(make_book({"S": [*JOB, ["Bore (mm)", text]]}))
    assert [r for r in book.readings if r.state == "read"] == []


def test_a_column_that_says_which_one_in_any_order(make_book):
    found = told(
        make_book,
        [
            ["Ln", "What", "Where", "Read", "Unit", "Spec"],
            [1, "Main clearance", 1, 0.0021, "in", ".0018-.0028"],
            [2, "Main clearance", 2, 0.0022, "in", ".0018-.0028"],
            [3, "Chamber", 1, 118.0, "cc"],
            [4, "Chamber", 7, 118.5, "cc"],
            [5, "Chamber", 2, 117.8, "cc"],
            [6, "Chamber", 8, 118.2, "cc"],
            [7, "Stroke", None, 4, "in"],
            [8, "Rod side clearance", "3-4", 0.019, "in", ".015-.021"],
        ],
    )
    assert [found[f"D{row}"][1] for row in range(5, 11)] == ["1", "2", "1", "7", "2", "8"]
    assert found["D12"][1] == "3-4"

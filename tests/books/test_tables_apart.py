"""Tables that an empty column parts, that share their names, or whose names stand between.

That shops lay sheets out so is common practice, no source.
"""

from __future__ import annotations

from workbook_tools.jobs.read import read_jobs


def told(make_book, rows):
    (book,) = read_jobs(make_book({"S": [["Job", "24-417"], [], *rows]}))
    return {
        r.place.address: (r.measurand, r.part.which, r.stage)
        for r in book.readings
        if r.state == "read"
    }


def test_banks_apart_by_an_empty_column_share_the_names_of_their_rows(make_book):
    found = told(
        make_book,
        [
            ["inches", "LEFT BANK", None, None, "RIGHT BANK"],
            ["CYL", "#1", "#3", None, "#2", "#4"],
            ["Bore", 4.0302, 4.0301, None, 4.0302, 4.0303],
            ["Piston", 4.0252, 4.0252, None, 4.0252, 4.0253],
        ],
    )
    assert found["B5"] == ("bore", "1", "")
    assert found["E5"] == ("bore", "2", "")
    assert found["F6"] == ("piston_diameter", "4", "")


def test_stages_of_the_table_above_hold_where_heads_count_twice_again(make_book):
    found = told(
        make_book,
        [
            ["mm", "AVANT DÉMONTAGE", None, None, "APRÈS"],
            ["Cylindre n°", 1, 2, None, 1, 2],
            ["Alésage", 95.115, 95.13, None, 95.512, 95.511],
            [],
            ["Palier n°", 1, 2, None, 1, 2],
            ["Tourillon", 69.94, 69.93, None, 69.731, 69.732],
        ],
    )
    assert found["B5"] == ("bore", "1", "found")
    assert found["F5"] == ("bore", "2", "final")
    assert found["B8"] == ("main_journal", "1", "found")
    assert found["F8"] == ("main_journal", "2", "final")


def test_names_between_the_values_of_two_cylinders(make_book):
    found = told(
        make_book,
        [
            ["Zyl. 1 (links)", "Maß", "Zyl. 2 (rechts)", "Bemerkung"],
            [56.006, "Zylinderbohrung", 56.008, "beschichtet"],
            [55.951, "Kolben", 55.952, None],
            [0.055, "Kolbenspiel", 0.056, None],
        ],
    )
    assert {at: t[:2] for at, t in found.items()} == {
        "A4": ("bore", "1"),
        "C4": ("bore", "2"),
        "A5": ("piston_diameter", "1"),
        "C5": ("piston_diameter", "2"),
        "A6": ("piston_clearance", "1"),
        "C6": ("piston_clearance", "2"),
    }


def test_torques_below_a_table_with_their_unit_written_as_many_do(make_book):
    found = told(make_book, [["Mains", "60 lb/ft"], ["Head nuts", "42 lb/ft"]])
    assert found == {"B3": ("main_bolt_torque", "", ""), "B4": ("head_bolt_torque", "", "")}

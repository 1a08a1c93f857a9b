"""Numbers in sentences, several sizes in one cell, and what cells say in place of numbers.

That builders write so is common practice, no source.
"""

from __future__ import annotations

import pytest

from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.cell_figures import angle_from_dead_center
from workbook_tools.labels.cell_kinds import kind_of_text
from workbook_tools.labels.sentences import mentions
from workbook_tools.labels.several_sizes import placed_sizes

JOB = [["Job", "26-041"], ["Customer", "Ostrow"], ["Engine", "twin"], ["all sizes in inches"], []]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "Stoßspiel oberer Ring: Zylinder 1 0,25 mm, Zylinder 2 0,28 mm",
            [("Stoßspiel oberer Ring", 1, "0,25 mm"), ("Stoßspiel oberer Ring", 2, "0,28 mm")],
        ),
        (
            "Pistons 1=85.95 2=85.96",
            [("Pistons", 1, "85.95"), ("Pistons", 2, "85.96")],
        ),
        (
            "Mains .0022, .0023, .0021; rods .0019 .0020",
            [("Mains", 1, ".0022"), ("Mains", 2, ".0023"), ("Mains", 3, ".0021"),
             ("rods", 1, ".0019"), ("rods", 2, ".0020")],
        ),
        ("bore 4.030, 4.031 at the bottom", [("bore", 0, "4.030"), ("bore", 0, "4.031")]),
        (
            "main 1 (front): journal 2.1150, shell 2.1172, 2.2 thou",
            [("journal", 1, "2.1150"), ("shell", 1, "2.1172"), ("clearance", 1, "2.2 thou")],
        ),
        ("Bore number 1 finished at 3.7505 in.", [("Bore finished", 1, "3.7505 in")]),
        ("Piston 2 across the skirt is 3.7465", [("Piston across skirt", 2, "3.7465")]),
        ("Sleeve 3 stands 2.5 thou above the block", [("Sleeve stands", 3, "2.5 thou")]),
        ("Bore 2 thou over 4.030", [("Bore", 0, "2 thou"), ("over", 0, "4.030")]),
    ],
)  # fmt: skip
def test_which_one_each_number_of_a_sentence_is_of(text, told):
    assert [(m.label, m.which.number, m.text) for m in mentions(text)] == told


def test_the_words_a_sentence_begins_with_say_of_which_part_it_is(make_book):
    rows = [*JOB, ["new liners in, stand proud 3 thou all four"]]
    (book,) = read_jobs(make_book({"S": rows}))
    assert [(r.measurand, r.value) for r in book.readings] == [("liner_protrusion", 0.003)]


@pytest.mark.parametrize("text", ["Cyl 1 (L)", "6 cyl 11 liter, loader"])
def test_a_head_and_an_engine_measure_no_cylinder(make_book, text):
    (book,) = read_jobs(make_book({"S": [*JOB, ["", text], ["Bore", 3.4385]]}))
    assert "cylinder_volume" not in {r.measurand for r in book.readings}


@pytest.mark.parametrize(
    ("text", "sizes"),
    [
        ("cyl 1: 95.014 cyl 2: 95.012", (("cyl 1", "95.014"), ("cyl 2", "95.012"))),
        ("1: 0,25 mm 2: 0,28 mm", (("1", "0,25 mm"), ("2", "0,28 mm"))),
        ("Pistons 1=85.95 2=85.96", ()),
        ("8:00 - 12:30", ()),
    ],
)
def test_sizes_with_their_places_in_one_cell(text, sizes):
    assert placed_sizes(text) == sizes


@pytest.mark.parametrize(
    ("text", "angle"),
    [("92° d. PMS", 92), ("17° v. OT", 17), ("52° dopo PMI", 52), ("42 deg ap PMH", 42)],
)
def test_an_angle_before_or_after_a_dead_center(text, angle):
    found = angle_from_dead_center(text)
    assert found is not None
    assert found[0] == angle
    assert kind_of_text(text) == "measured"


@pytest.mark.parametrize("text", ["92° of cam", "92 PMS", "after PMS", "92°"])
def test_other_angles_are_counted_from_no_dead_center(text):
    assert angle_from_dead_center(text) is None


def test_not_measured_is_no_unit_and_newtons_per_meter_are():
    assert (kind_of_text("n/m"), kind_of_text("N/m")) == ("nothing", "unit")


def test_how_much_larger_a_size_may_be_is_no_size(make_book):
    book = make_book({"S": [*JOB, ["new liners, bore 98.000 +0.022 mm"]]})
    (job,) = read_jobs(book)
    assert [(r.measurand, r.value, r.stage) for r in job.readings] == [("bore", 98.0, "target")]

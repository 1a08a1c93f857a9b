"""Habits of shops, each read from a small book: what a cell measures, of which one, how large.

How people type is common practice, no source.
"""

import datetime

import openpyxl
import pytest
from openpyxl.styles import Font

from workbook_tools.jobs.read import read_jobs


@pytest.fixture
def read(tmp_path):
    """read(rows, struck=(), merged=()) -> {address: (measurand, number, SI)} of each job."""

    def jobs(rows, struck=(), merged=()):
        book = openpyxl.Workbook()
        for row in rows:
            book.active.append(row)
        for address in struck:
            book.active[address].font = Font(strike=True)
        for area in merged:
            book.active.merge_cells(area)
        book.save(tmp_path / "book.xlsx")
        return [
            {r.place.address: (r.measurand, r.part.number, r.si) for r in job.readings if r.si}
            for job in read_jobs(tmp_path / "book.xlsx")
        ]

    return jobs


def near(inches):
    return pytest.approx(inches * 0.0254, rel=1e-6)


def test_a_unit_among_the_words_of_a_label_is_taken(read):
    (told,) = read([
        ["Deck thou (down)", 2], ["Gasket mm, squashed", 1], ["Head bolts lb ft, dry", 65],
        ["Comp. psi", 132], ["Stroke mm", 83.5], ["Bore (mm, honed)", 81.02],
    ])  # fmt: skip
    assert told["B1"] == ("deck_clearance", 0, near(0.002))
    assert told["B2"] == ("gasket_thickness", 0, pytest.approx(0.001))
    assert told["B3"][2] == pytest.approx(65 * 1.3558179, rel=1e-6)
    assert told["B4"][2] == pytest.approx(132 * 6894.757, rel=1e-6)
    assert told["B6"] == ("bore", 0, pytest.approx(0.08102))


def test_a_number_beside_one_that_is_struck_through_stands_in_its_place(read):
    rows = [
        ["Cyl", "Bore mm", None, "Piston mm"],
        [1, 81.004, 81.022, 80.946], [2, 81.006, 81.025, 80.947], [3, 81.023, None, 80.947],
    ]  # fmt: skip
    (told,) = read(rows, struck=("B2", "B3"))
    assert [told[at][:2] for at in ("C2", "C3", "B4")] == [("bore", 1), ("bore", 2), ("bore", 3)]


def test_a_sentence_tells_several_sizes_of_one_journal_or_cylinder(read):
    (told,) = read([
        ["17 Feb 2025", "Main 2 journal 1.9978 in, bush 2.0001 in, clearance 2.3 thou."],
        ["18 Feb 2025", "Bore 1 now 3.5212 in, piston 3.5180 in, clearance 3.2 thou."],
    ])  # fmt: skip
    # One cell holds several; the last stands in the table of the test.
    assert told["B1"] == ("main_bearing_clearance", 2, near(0.0023))
    assert told["B2"] == ("piston_clearance", 1, near(0.0032))


def test_top_and_second_below_ring_gaps_are_rings(read):
    rows = [
        ["Cyl", "Ring gaps mm", None, None],
        [None, "top", "2nd", "oil"],
        [1, 0.55, 0.75, 0.45], [2, 0.58, 0.78, 0.45], [3, 0.55, 0.75, 0.48],
    ]  # fmt: skip
    (told,) = read(rows, merged=("B1:D1",))
    measured = [told[at][:2] for at in ("B3", "C4", "D5")]
    assert measured == [("top_ring_gap", 1), ("second_ring_gap", 2), ("oil_ring_gap", 3)]


@pytest.mark.parametrize("label", ["Top ring gap {} (in)", "Ring 1 gap cyl {} (in)"])
def test_a_number_behind_the_gap_of_a_named_ring_is_the_cylinders(read, label):
    (told,) = read([[label.format(n), 0.013] for n in (1, 2, 3, 4)])
    assert [told[f"B{n}"][:2] for n in (1, 4)] == [("top_ring_gap", 1), ("top_ring_gap", 4)]


def test_heads_of_a_list_of_jobs_may_go_on_in_a_second_row(read):
    rows = [
        ["Ticket", "In", "Customer", "Engine", "Stroke mm", "Bore mm", None],
        [None, None, None, None, None, "cyl 1", "cyl 2"],
        ["S-51", datetime.date(2024, 11, 18), "L. Arden", "twin 560", 68, 72.055, 72.05],
        ["S-52", datetime.date(2024, 11, 27), "M. Costin", "twin 550", 64, 73.86, 73.87],
    ]
    first, second = read(rows, merged=("F1:G1",))
    assert (first["F3"][:2], first["G3"][:2]) == (("bore", 1), ("bore", 2))
    assert second["G4"] == ("bore", 2, pytest.approx(0.07387))


def test_housing_two_shells_and_journal_are_told_by_the_formula_that_takes_them(read):
    rows = [
        ["Hauptlager", "Gehäuse [mm]", "Schale [mm]", "Zapfen [mm]", "Spiel [mm]"],
        *([n, 64.012, 1.992, 59.984, f"=B{n + 1}-2*C{n + 1}-D{n + 1}"] for n in (1, 2, 3, 4)),
    ]
    (told,) = read(rows)
    names = [told[f"{column}3"][0] for column in "BCD"]
    assert names == ["main_housing_bore", "main_shell_wall", "main_journal"]


def test_the_unit_of_a_title_further_up_is_of_its_own_block(read):
    (told,) = read([
        ["Balance card (grams)"], ["Piston", 452], ["Pin", 118],
        ["Cam card"], ["Lash intake, hot", 0.022], ["Bore (in)", 4.031], ["Stroke (in)", 3.8],
    ])  # fmt: skip
    assert told["B2"] == ("piston_mass", 0, pytest.approx(0.452))
    assert told["B5"] == ("intake_lash", 0, near(0.022))

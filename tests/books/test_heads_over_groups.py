"""Heads over groups of columns, shims by their sizes, steps of a thousandth, and titles in grams.

That builders write so is common practice, no source; sizes are from memory, and sound with each
other.
"""

from __future__ import annotations

import datetime

import pytest
from small_sheet import in_words, told

from workbook_tools.jobs.read import read_jobs

DAY = datetime.datetime
SIZES = (2.7438, 2.7386, 2.7383, "-.010", 2.0944, 2.0900, 2.0898)


def test_groups_of_mains_and_rods_over_a_log_of_cranks(make_book):
    rows = [
        ["CRANKS 2025"],
        [],
        ["", "", "", "", "", "MAINS ground", "", "", "", "RODS ground"],
        ["No", "In", "Out", "Whose", "Crank", "worn to", "M1", "M2", "cut", "worn to", "R1", "R2"],
    ]
    rows += [
        [f"25-0{n}", DAY(2025, n, 6), DAY(2025, n, 10), name, "Hollins 369", *SIZES]
        for n, name in enumerate(("Ewell Garage", "Adams", "Sorley"), 1)
    ]
    first, *_ = read_jobs(make_book({"2025": rows}))
    found = {r.place.address: in_words(r) for r in first.readings}
    assert found["F5"] == "main_journal found 2.7438 in"
    assert found["H5"] == "main_journal 2 machined 2.7383 in"
    assert found["J5"] == "rod_journal found 2.0944 in"
    assert found["L5"] == "rod_journal 2 machined 2.0898 in"


def test_valves_in_front_and_behind_below_each_cylinder(tmp_path):
    rows = [
        ["CULATA 8v"],
        ["Cilindro", 1, None, 2, None],
        ["válvula", "del.", "tras.", "del.", "tras."],
        ["Juego taqué adm. mm", 0.21, 0.22, 0.23, 0.21],
        ["Altura muelle esc. mm", 36.4, 36.4, 36.3, 36.5],
    ]
    found = told(tmp_path, rows)
    assert found["B8"] == "intake_lash 1 front 0.21 mm"
    assert found["C8"] == "intake_lash 1 rear 0.22 mm"
    assert found["E9"] == "exhaust_spring_height 2 rear 36.5 mm"


@pytest.mark.parametrize(
    ("shim", "is_of"), [(0.030, "intake_spring_shim"), (0.095, "lash_shim_thickness")]
)
def test_the_size_of_a_bare_shim_tells_whether_it_is_below_a_spring(tmp_path, shim, is_of):
    rows = [["Valve", "Stem (in)", "Shim (in)"]]
    rows += [[f"{n} I", 0.3415, shim + n % 2 * 0.005] for n in range(1, 5)]
    assert told(tmp_path, rows)["C6"].startswith(is_of)


def test_a_head_of_a_thousandth_says_what_the_numbers_are_so_many_of(tmp_path):
    rows = [
        ["Cyl", "Bore (in)", "Skirt clr .001"],
        *([n, 4.161, 5.3 + n % 2 / 10] for n in range(1, 9)),
    ]
    assert told(tmp_path, rows)["C6"] == "piston_clearance 1 0.0054 in"
    # Of what is itself so small, the head may say how much.
    rows = [["Cyl", "Bore (in)", "Skirt clr .001"], *([n, 4.161, 0.0053] for n in range(1, 9))]
    assert told(tmp_path, rows)["C6"] == "piston_clearance 1 0.0053 in"


@pytest.mark.parametrize("title", ["Tickets, May (all grams)", "Auswiegen, alles in g"])
def test_a_title_says_that_all_numbers_are_grams(make_book, title):
    rows = [[title], ["Job", "26-041"], [], ["Cyl", 1, 2, 3, 4], ["Pin", 128.5, 128.4, 128.5, 128]]
    (book,) = read_jobs(make_book({"May": rows}))
    found = {r.place.address: in_words(r) for r in book.readings}
    assert found["B5"] == "pin_mass 1 128.5 g"


@pytest.mark.parametrize("volume", ["6,5 cm³", "6.5 cm3", "6.5 cc", "6,5 ml"])
def test_a_dome_takes_away_in_whatever_unit_it_is_written(tmp_path, volume):
    rows = [["Alesaggio (mm)", 77.014], ["Cupola pistone", volume]]
    assert told(tmp_path, rows)["B6"] == "crown_volume -6.5 cc"


def test_mls_is_what_a_gasket_is_made_of(tmp_path):
    rows = [["Bore (in)", 3.801], ["Head gasket (MLS)", 0.051]]
    assert told(tmp_path, rows)["B6"] == "gasket_thickness 0.051 in"

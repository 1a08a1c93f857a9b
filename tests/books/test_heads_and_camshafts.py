"""Sheets of heads, tables of camshafts, and what is measured before the work.

That builders write so is common practice, no source.
"""

from __future__ import annotations

import pytest
from small_sheet import check_told


def test_a_face_on_a_sheet_of_heads_is_the_heads(tmp_path):
    rows = [
        ["all sizes in inches"],
        ["Tri-Fork bench", "deck face"],
        ["Tkt", "warp in", "hgt before", "cut", "hgt after", "warp now"],
        ["H-1", 0.0045, 3.945, 0.006, 3.939, 0.001],
    ]
    expected = {
        "B8": "head_flatness found 0.0045 in",
        "C8": "head_height found 3.945 in",
        "D8": "head_cut 0.006 in",
        "E8": "head_height final 3.939 in",
        "F8": "head_flatness final 0.001 in",
    }
    check_told(tmp_path, rows, expected, title="2025 heads")
    found = check_told(tmp_path, rows, {}, title="2025 blocks")
    assert "deck_height" in found["C8"], found["C8"]


@pytest.mark.parametrize(
    ("title", "heads"),
    [
        ("ARBRE À CAMES", ("Portée", "Ø portée", "Ø palier", "Jeu")),
        ("CAMSHAFT", ("Journal", "Journal dia", "Bearing bore", "Clearance")),
        ("NOCKENWELLE", ("Lager", "Zapfen Ø", "Lager Ø", "Spiel")),
    ],
)
def test_bearings_below_the_title_of_a_camshaft_are_its_own(tmp_path, title, heads):
    first, journal, bearing, clearance = heads
    rows = [
        ["all mm"],
        [title],
        [first, 1, 2, 3],
        [journal, 25.958, 25.956, 25.966],
        [bearing, 26.007, 26.01, 26.005],
        [clearance, 0.049, 0.054, 0.039],
    ]
    expected = {
        "B8": "cam_journal 1 25.958 mm",
        "B9": "cam_bearing_bore 1 26.007 mm",
        "D10": "cam_bearing_clearance 3 0.039 mm",
    }
    check_told(tmp_path, rows, expected)


def test_measured_is_before_the_work_where_a_row_has_the_bare_name(tmp_path):
    rows = [
        ["VILEBREQUIN rectifié -0,25 (mm)"],
        ["PALIERS", 1, 2, 3],
        ["Tourillon relevé", 59.962, 59.958, 59.949],
        ["Tourillon", 59.740, 59.745, 59.739],
    ]
    expected = {"B7": "main_journal 1 found 59.962 mm", "B8": "main_journal 1 machined 59.74 mm"}
    check_told(tmp_path, rows, expected)


def test_sides_in_short_and_in_the_name_of_a_sheet_are_banks(tmp_path):
    rows = [["", "sin.", "des."], ["apre asp. prima PMS", "27°", "26°"]]
    expected = {"B6": "intake_opening L 27 deg", "C6": "intake_opening R 26 deg"}
    check_told(tmp_path, rows, expected)
    alone = [["Altezza testa (mm)", 94.86], ["Alesaggio (mm)", 81.01]]
    check_told(tmp_path, alone, {"B5": "head_height R 94.86 mm"}, title="Testa dx")
    check_told(tmp_path, alone, {"B5": "head_height 94.86 mm"}, title="Testa")


def test_what_is_of_the_whole_crank_below_its_journals(tmp_path):
    rows = [
        ["", "found", "out of rnd", "ground to", "Ra um"],
        ["M1", 84.98, 0.011, 84.746, 0.22],
        ["M2", 84.98, 0.023, 84.751, 0.2],
        ["P1", 67.98, 0.012, 67.75, 0.22],
        ["P2", 67.96, 0.019, 67.747, 0.2],
        ["bend", 0.08, "pressed to", 0.02],
    ]
    expected = {
        "D6": "main_journal 1 machined 84.746 mm",
        "E6": "journal_finish 1 machined 0.00022 mm",
        "B10": "crank_runout found 0.08 mm",
        "D10": "crank_runout final 0.02 mm",
    }
    check_told(tmp_path, rows, expected)


def test_sizes_that_came_in_over_those_they_were_honed_to(tmp_path):
    rows = [
        ["driver side (in)", 1, 3, 5, 7],
        ["came in", 4.0323, 4.0328, 4.0322, 4.0319],
        ["honed to", 4.0401, 4.04, 4.0403, 4.0403],
        ["piston", 4.0355, 4.0355, 4.0356, 4.0356],
        ["p/w thou", 4.6, 4.5, 4.7, 4.7],
    ]
    check_told(tmp_path, rows, {"B6": "bore 1 found 4.0323 in", "E7": "bore 7 final 4.0403 in"})

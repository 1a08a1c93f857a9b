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

"""Lists that number their lines beside the column that says which one each is of.

That builders write so is common practice, no source; sizes are from memory.
"""

from __future__ import annotations

import pytest
from small_sheet import told

SIZES = {"Alésage cylindre": 93.507, "Piston": 93.464, "Jeu piston": 0.043}


def rows_of(head, first):
    yield [head, "Pièce", "Repère", "Reçu", "Usiné / monté", "mini", "maxi"]
    line = first
    for name, size in SIZES.items():
        for n in range(1, 5):
            found = size - 0.4 if name == "Alésage cylindre" else None
            yield [line, name, f"C{n}", found, size + n % 2 * 0.001]
            line += 1


@pytest.mark.parametrize(("head", "first"), [("Lig.", 1), ("N°", 1), ("Lig.", 14)])
def test_the_numbers_of_lines_are_of_no_cylinder(tmp_path, head, first):
    found = told(tmp_path, [*rows_of(head, first)])
    assert found["D6"] == "bore 1 found 93.107 mm"
    assert found["E9"] == "bore 4 final 93.507 mm"
    assert found["E10"] == "piston_diameter 1 final 93.465 mm"
    assert found["E17"] == "piston_clearance 4 final 0.043 mm"


def test_a_title_that_says_how_far_to_grind_is_of_all_its_columns(tmp_path):
    heads = ["No.", "As rec'd", "Out of round", "Ground to", "Bearing ID", "Oil clearance"]
    mains = [[n, 2.4481, 0.0006, 2.4385, 2.4408, 0.0023] for n in (1, 2, 3)]
    rods = [[n, 2.0991, 0.0005, 2.0895, 2.0917, 0.0022] for n in (1, 2, 3)]
    rows = [["MAINS - grind .010"], heads, *mains, [], ["RODS - grind .010"], heads, *rods]
    found = told(tmp_path, rows)
    assert found["B7"] == "main_journal 1 found 2.4481 in"
    assert found["C7"] == "main_journal_out_of_round 1 found 0.0006 in"
    assert found["B13"] == "rod_journal 1 found 2.0991 in"
    assert found["F13"] == "rod_bearing_clearance 1 0.0022 in"

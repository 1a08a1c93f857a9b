"""Rows and tables that leave to their neighbors what they are of, and rows that are of their own.

That builders keep their sheets so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told, told

from workbook_tools.jobs.read import read_book

CRANK: Rows = [
    ["Worn", "Ground to", "Brg. bore", "Oil clearance", "Allow. min", "max"],
    ["Main - front", 2.6228, 2.6142, 2.6168, 0.0026, 0.0015, 0.0035],
    ["Main - center", 2.6221, 2.6143, 2.6168, 0.0025, 0.0015, 0.0035],
    ["Main - rear", 2.6225, 2.6142, 2.6170, 0.0028, 0.0015, 0.0035],
    ["Crank end play", None, None, None, 0.007, 0.004, 0.010],
]


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["HEADS"], [], ["Left", 1, 3, 5, 7, None, "Right", 2, 4, 6, 8],
             ["cc", 68.2, 68, 68.4, 68.2, None, None, 68.1, 68.2, 68.3, 68.4],
             ["int spr ht", 1.752, 1.75, 1.751, 1.75, None, None, 1.751, 1.752, 1.75, 1.749]],
            {"B8": "chamber_volume 1 68.2 cc", "H8": "chamber_volume 2 68.1 cc",
             "K9": "intake_spring_height 8 1.749 in"},
            id="the second bank has no names",
        ),
        pytest.param(
            [["Left", 1, 2, 3, 4, None, "Right", 1, 2, 3, 4],
             ["Chamber cc", 68.2, 68, 68.4, 68.2, None, None, 68.1, 68.2, 68.3, 68.4],
             ["int spring ht", 1.752, 1.75, 1.751, 1.75, None, None, 1.751, 1.752, 1.75, 1.749]],
            {"B6": "chamber_volume L1 68.2 cc", "H6": "chamber_volume R1 68.1 cc"},
            id="both banks are counted from one",
        ),
        pytest.param(
            [["Liners, mm"], ["Height", "Direction", 1, 2, 3],
             ["Top", "P-S", 90.015, 90.019, 90.016], [None, "F-A", 90.016, 90.018, 90.012],
             ["Bottom", "P-S", 90.014, 90.016, 90.012], [None, "F-A", 90.013, 90.017, 90.011],
             ["Ring gaps", "compr. 1", 0.42, 0.4, 0.45], [None, "compr. 2", 0.38, 0.36, 0.4],
             [None, "scraper", 0.35, 0.34, 0.36]],
            {"C7": "bore 1 top thrust 90.015 mm", "D10": "bore 2 parallel 90.017 mm",
             "C11": "top_ring_gap 1 0.42 mm", "E12": "second_ring_gap 3 0.4 mm",
             "D13": "oil_ring_gap 2 0.34 mm"},
            id="how high on the bore, and compression rings",
        ),
        pytest.param(
            [[None, *CRANK[0]], *CRANK[1:]],
            {"E6": "main_bearing_clearance 1 0.0026 in", "E9": "crank_end_play 0.007 in",
             "F9": "crank_end_play limit_low 0.004 in"},
            id="a row of its own with its limits",
        ),
        pytest.param(
            [["Cyl.", "Old sleeve", "New sleeve", "New piston", "Clearance"],
             [1, 3.759, 3.7505, 3.7465, 0.004], [2, 3.7615, 3.7507, 3.7466, 0.0041],
             [3, 3.76, 3.7506, 3.7466, 0.004], ["Sleeve standout", 0.002, 0.0025, 0.002]],
            {"C6": "bore 1 final 3.7505 in", "B9": "liner_protrusion 1 0.002 in",
             "D9": "liner_protrusion 3 0.002 in"},
            id="sizes that are none of their columns",
        ),
        pytest.param(
            [[None, *CRANK[0]], *CRANK[1:4], [], [None, "Cyl 1", "Cyl 2", "Cyl 3", "Cyl 4"],
             ["Stem, int", 0.3412, 0.3413, 0.3412, 0.3412], [],
             ["RUN-IN"], ["Compression, psi", 128, 131, 126, 130],
             ["Torque ft lb: head", 75, None, None, None, "rod", 42]],
            {"B14": "cranking_pressure 1 128 psi", "E14": "cranking_pressure 4 130 psi"},
            id="a form below the nearer of two tables",
        ),
        pytest.param(
            [["Hauptlager (mm)", 1, 2, 3], ["Zapfen Ist", 53.962, 53.951, 53.958],
             ["Zapfen geschliffen", 53.735, 53.734, 53.736]],
            {"B6": "main_journal 1 found 53.962 mm", "C7": "main_journal 2 machined 53.734 mm"},
            id="measured before it was ground",
        ),
        pytest.param(
            [["Paliers (mm)", "Avant", "Après rectif.", "Jeu"], [1, 74.941, 74.482, 0.078],
             [2, 74.933, 74.481, 0.08], [3, 74.928, 74.483, 0.076]],
            {"B6": "main_journal 1 found 74.941 mm", "C7": "main_journal 2 final 74.481 mm"},
            id="before, beside after grinding",
        ),
        pytest.param(
            [["CULATA", "Entrada", "Salida", "Límite"], ["Planitud", 0.11, 0.02, 0.05],
             ["Altura", 132.9, 132.7]],
            {"B6": "head_flatness found 0.11 mm", "C6": "head_flatness final 0.02 mm",
             "C7": "head_height final 132.7 mm"},
            id="in and out",
        ),
    ],
)  # fmt: skip
def test_rows_by_their_neighbors(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


def test_weights_below_the_valves_of_a_twin_are_of_its_two_cylinders(tmp_path: Path) -> None:
    rows = [[None, "L/H", "R/H"], ["Bore", 2.8152, 2.8153], ["Piston", 2.8109, 2.8108], [],
            [None, "L/H in", "L/H ex", "R/H in", "R/H ex"],
            ["Valve stem", 0.3104, 0.31, 0.3104, 0.3099], ["Tappet, cold (thou)", 2, 4, 2, 4], [],
            ["WEIGHTS g"], ["Piston", 271.5, 271], ["Rod, big end", 302, 301.5]]  # fmt: skip
    expected = {"B6": "bore L1 2.8152 in", "C6": "bore R2 2.8153 in",
                "E10": "exhaust_stem_diameter R2 0.3099 in", "B14": "piston_mass 1 271.5 g",
                "C15": "rod_big_end_mass 2 301.5 g"}  # fmt: skip
    found = told(tmp_path, rows)
    assert {at: found.get(at) for at in expected} == expected


def test_an_old_sheet_that_is_named_by_another_number_is_of_no_job(make_book) -> None:
    head = [["Job", "0902"], ["Customer", "Ostrow"], ["Engine", "inline three"]]
    pots = [["pot", "honed mm"], *([n, 99.465] for n in range(1, 4))]
    old = [["Job 0871 Tezza"], ["pot", "honed mm"], *([n, 92.515] for n in range(1, 4))]
    book = read_book(make_book({"Job": head, "Block": pots, "0871 old": old}))
    assert {r.place.sheet for r in book.readings} == {"Block"}
    kept = read_book(make_book({"Job": head, "Block": pots, "0902 old": old}))
    assert "0902 old" in {r.place.sheet for r in kept.readings}

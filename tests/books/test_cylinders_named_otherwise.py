"""Which cylinder a number is of: by its sheet, by an end of a twin, by a second name, by its valve.

That builders name them so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

from workbook_tools.jobs.read import read_book


def test_a_sheet_is_of_the_cylinder_that_its_title_numbers(make_book) -> None:
    def sheet(bore: float) -> Rows:
        return [["Liner (mm)", "lengthwise", "across"], ["top", bore, bore + 0.01],
                ["Piston (mm)", 96.914], ["Crankpin (mm)", 64.732]]  # fmt: skip

    sheets = {f"Cyl {n}": sheet(97 + n / 1000) for n in (1, 2, 3)}
    book = read_book(make_book({"Cover": [["Job", "25-066"]], **sheets}))
    found = {(r.place.sheet, r.place.address): r.part.number for r in book.readings}
    assert {found[f"Cyl {n}", at] for n in (1, 2, 3) for at in ("B2", "C2")} == {1, 2, 3}
    assert (found["Cyl 2", "B3"], found["Cyl 3", "B4"]) == (2, 3)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["inch"], ["jug", "bore", "slug"], ["F", 3.3207, 3.3174], ["R", 3.3208, 3.3173]],
            {"B7": "bore 1 3.3207 in", "B8": "bore 2 3.3208 in",
             "C8": "piston_diameter 2 3.3173 in"},
            id="front and rear",
        ),
        pytest.param(
            [["HAUT MOTEUR", "1 = G", "2 = D", "unité", "mini"],
             ["Alésage", 64.504, 64.506, "mm"], ["Piston", 64.441, 64.438, "mm"],
             ["Jeu piston/cylindre", 0.063, 0.068, "mm", 0.05]],
            {"B6": "bore 1 64.504 mm", "C7": "piston_diameter 2 64.438 mm",
             "E8": "piston_clearance limit_low 0.05 mm"},
            id="a number with a second name",
        ),
        pytest.param(
            [["cyl", "valve", "clearance", "seat width"], [1, "IN L", 0.17, 0.9],
             [None, "IN R", 0.14, 1.0], [None, "EX L", 0.23, 1.1], [None, "EX R", 0.24, 1.2],
             [2, "IN L", 0.16, 0.9], [None, "IN R", 0.15, 0.9], [None, "EX L", 0.24, 1.1],
             [None, "EX R", 0.25, 1.1]],
            {"C7": "intake_lash 1 right 0.14 mm", "D8": "exhaust_seat_width 1 left 1.1 mm",
             "C13": "exhaust_lash 2 right 0.25 mm"},
            id="four valves below the number of a cylinder",
        ),
        pytest.param(
            [["inches"], ["Rod side clearance", "1/5", "2/6", "3/7", "4/8"],
             [None, 0.014, 0.015, 0.014, 0.016]],
            {"B7": "rod_side_clearance 1-5 0.014 in", "E7": "rod_side_clearance 4-8 0.016 in"},
            id="pairs across a V",
        ),
        pytest.param(
            [["CRANKSHAFT"], [None, 1, 2, 3, 4], ["Big end", *[2.0985] * 4],
             ["Mains", *[2.3745] * 4]],
            {"B7": "rod_journal 1 2.0985 in", "C8": "main_journal 2 2.3745 in"},
            id="big ends of a crank",
        ),
        pytest.param(
            [["Crank card"], ["Big ends"], ["No", "size", "ovality"], [1, 2.0985, 0.0002],
             [2, 2.0986, 0.0001], [3, 2.0984, 0.0002]],
            {"B8": "rod_journal 1 2.0985 in", "C9": "rod_journal_out_of_round 2 0.0001 in"},
            id="how round its pins are",
        ),
    ],
)  # fmt: skip
def test_cylinders_and_pins(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)

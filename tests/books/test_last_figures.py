"""Sizes of which only the last figures are typed, below what all of them begin with.

That builders write so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

PARTS = [1, 2, 3, 4]


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Crank. last 2 figs only: mains 2.74__   pins 2.08__"], ["Mains", *PARTS],
             ["", 91, 89, 90, 86], [], ["Pins", *PARTS], ["", 52, 50, 49, 51]],
            {"B7": "main_journal 1 2.7491 in", "E7": "main_journal 4 2.7486 in",
             "C10": "rod_journal 2 2.085 in", "A5": ""},
            id="rows below their names",
        ),
        pytest.param(
            [["base 2.73__ mains, 2.07__ pins. shells measured in the block"],
             ["Main", "crank", "shell ID", "clr", "", "Pin", "crank", "shell ID", "clr"],
             *([n, 98 - n, 2.7421, f"=(C{6 + n}-2.73-B{6 + n}/10000)*1000", "",
                n, 61 - n, 2.0781, f"=(H{6 + n}-2.07-G{6 + n}/10000)*1000"] for n in (1, 2, 3))],
            {"B7": "main_journal 1 2.7397 in", "G8": "rod_journal 2 2.0759 in",
             "D7": "result: main_bearing_clearance", "I9": "result: rod_bearing_clearance"},
            id="columns of two tables",
        ),
        pytest.param(
            [["Bores, last three figures, 4.0xx"], ["Cyl", *PARTS], ["Bore", 31, 30, 31, 32]],
            {"B7": "bore 1 4.031 in", "E7": "bore 4 4.032 in"},
            id="crosses",
        ),
        pytest.param(
            [["last 2 figs: bores 86.__, pistons 85.__"], ["Cyl", *PARTS],
             ["Bore", 12, 13, 12, 14], ["Piston", 97, 96, 97, 97]],
            {"B7": "bore 1 86.12 mm", "C8": "piston_diameter 2 85.96 mm"},
            id="millimeters",
        ),
        pytest.param(
            [["Letzte zwei Stellen: Kurbelwelle Hubzapfen 47.9__"], ["Nr.", *PARTS],
             ["Hubzapfen", 68, 69, 68, 66]],
            {"B7": "rod_journal 1 47.968 mm"},
            id="German",
        ),
        pytest.param(
            [["+/- thou over 4.000"], ["Cyl", *PARTS], ["Bore", 31, 30, 31, 32]],
            {"B7": "bore 1 4.031 in"},
            id="thousandths over a size",
        ),
    ],
)  # fmt: skip
def test_last_figures(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


def test_what_is_measured_in_full_has_no_last_figures(tmp_path: Path) -> None:
    rows: Rows = [
        ["base 2.07__ pins"], ["Rod", *PARTS], ["Pin", 60, 61, 60, 59],
        ["Big end housing", 2.225, 2.2251, 2.225, 2.2252],
        ["Rod bolt torque, ft lb", 45, 45, 45, 45],
    ]  # fmt: skip
    expected = {
        "B7": "rod_journal 1 2.076 in", "B8": "rod_housing_bore 1 2.225 in",
        "B9": "rod_bolt_torque 1 45 lbf.ft",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)

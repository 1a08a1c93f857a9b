"""Numbers with remarks in their cell, and counts and places that are none.

That builders write so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

CYLINDERS = ["Cyl", 1, 2, 3, 4]


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Top ring gap, thou", 21, "21 ok", 22, "20 little tight"]],
            {"C6": "top_ring_gap 2 0.021 in", "E6": "top_ring_gap 4 0.02 in"},
            id="judged",
        ),
        pytest.param(
            [["Pistons, g", 1012, 1010, "1013 bit over", 1011]],
            {"D6": "piston_mass 3 1013 g"},
            id="weighed",
        ),
        pytest.param(
            [["Rod big end, g", 430, "433 ground 3 off", 431, 430]],
            {"C6": "rod_big_end_mass 2 433 g"},
            id="what was taken off",
        ),
        pytest.param(
            [["Injectors pop (bar)", 192, 190, "190 new tip", 192]],
            {"D6": "injector_pressure 3 19000 kPa"},
            id="a new part",
        ),
        pytest.param(
            [["Leak %", 8, "22 past rings", "9 - exh valve", 8]],
            {"C6": "leakage 2 22", "D6": "leakage 3 9"},
            id="leakage",
        ),
        pytest.param(
            [["Compression psi", 150, "120 low", "148 hot", 151]],
            {"C6": "cranking_pressure 2 120 psi", "D6": "cranking_pressure 3 148 psi"},
            id="no limit",
        ),
        pytest.param(
            [["Top ring gap, thou", 12, "9 - opened to 12", "10 filed to 12", 12]],
            {"C6": "top_ring_gap 2 0.012 in", "D6": "top_ring_gap 3 0.012 in"},
            id="made larger",
        ),
        pytest.param(
            [["Stoßspiel 1, mm", "0,30 gefeilt auf 0,35", "0,35", "0,34", "0,35 ok"]],
            {"B6": "top_ring_gap 1 0.35 mm", "E6": "top_ring_gap 4 0.35 mm"},
            id="German",
        ),
        pytest.param(
            [["inches"], ["Stroke", "3.228 (82 mm)"], ["Deck flatness", ".004 + pits"]],
            {"B7": "stroke 3.228 in", "B8": "deck_flatness 0.004 in"},
            id="in another unit, and with pits",
        ),
    ],
)  # fmt: skip
def test_sizes_with_remarks(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, [CYLINDERS, *rows], expected)


@pytest.mark.parametrize(
    "text", ["4 bolts", "2 off", "3 new", "1 cracked", "4 studs new", "3 times", "2 top"]
)
def test_counts_are_no_sizes(tmp_path: Path, text: str) -> None:
    rows: Rows = [CYLINDERS, ["Leak %", 4, 3, text, 4]]
    assert check_told(tmp_path, rows, {"D6": ""})


def test_two_sizes_that_differ_are_not_one(tmp_path: Path) -> None:
    rows: Rows = [["inches"], ["Stroke", "3.228 (86 mm)"]]
    found = check_told(tmp_path, rows, {})
    assert not found.get("B6", "").startswith("stroke")


def test_which_one_with_a_remark_is_no_size(tmp_path: Path) -> None:
    rows: Rows = [["Cyl", "Bore in"], [1, 4.0305], ["2 scuffed", 4.031], [3, 4.0305], [4, 4.0305]]
    check_told(tmp_path, rows, {"B7": "bore 2 4.031 in"})

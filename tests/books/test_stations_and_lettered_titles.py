"""Columns headed by the stations of a crankshaft, and by letters that a title stands behind names.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

STATIONS = ["MB-1", "MB-2", "CR-1", "CR-2"]
SIZES = [2.4482, 2.448, 2.0994, 2.0993]
JOURNALS = {
    "B6": "main_journal 1 2.4482 in", "C6": "main_journal 2 2.448 in",
    "D6": "rod_journal 1 2.0994 in", "E6": "rod_journal 2 2.0993 in",
}  # fmt: skip


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["", *STATIONS], ["Journal dia (in)", *SIZES]], JOURNALS, id="over the name of a row"
        ),
        pytest.param([["Journals (in)", *STATIONS], ["Dia", *SIZES]], JOURNALS, id="behind a part"),
        pytest.param(
            [["", *STATIONS], ["Journal (in)", *SIZES], ["Clearance", .0025, .0024, .0021, .0022]],
            JOURNALS | {"B7": "main_bearing_clearance 1 0.0025 in",
                        "E7": "rod_bearing_clearance 2 0.0022 in"},
            id="over several rows",
        ),
        pytest.param(
            [["Crank journals, inches"], STATIONS, SIZES],
            {"A7": "main_journal 1 2.4482 in", "D7": "rod_journal 2 2.0993 in"},
            id="over sizes alone",
        ),
    ],
)  # fmt: skip
def test_stations_across_are_mains_and_rods(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Deck (D) and piston (P) heights, inches"], ["Cyl", "D", "P"],
             [1, 9.0251, 1.5401], [2, 9.0248, 1.5399]],
            {"B7": "deck_height 1 9.0251 in", "C8": "compression_height 2 1.5399 in"},
            id="one noun for both",
        ),
        pytest.param(
            [["Bore (B), piston (P) and clearance (C)"], ["Cyl", "B", "P", "C"],
             [1, 4.0012, 3.9972, .004], [2, 4.001, 3.9971, .0039]],
            {"B7": "bore 1 4.0012 in", "C7": "piston_diameter 1 3.9972 in",
             "D8": "piston_clearance 2 0.0039 in"},
            id="names alone",
        ),
    ],
)  # fmt: skip
def test_letters_behind_the_names_of_a_title_stand_for_these(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)

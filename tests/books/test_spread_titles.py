"""Titles with a limit, a spread or a date beside them, what they leave to rows, and stages.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Rod side clearance spec .0060-.0110"], ["Rods 1-2", .008], ["Rods 3-4", .009]],
            {"B6": "rod_side_clearance 1-2 0.008 in", "B7": "rod_side_clearance 3-4 0.009 in"},
            id="a range",
        ),
        pytest.param(
            [["Main housing bores, all within half a thou"],
             ["#1", 2.6412], ["#2", 2.6411], ["#3", 2.6414]],
            {"B6": "main_housing_bore 1 2.6412 in", "B8": "main_housing_bore 3 2.6414 in"},
            id="a spread",
        ),
        pytest.param(
            [["Deck heights, all within a thou"], ["#1", 9.0251], ["#2", 9.0253], ["#3", 9.0250]],
            {"B6": "deck_height 1 9.0251 in", "B8": "deck_height 3 9.025 in"},
            id="a spread that is no unit",
        ),
        pytest.param(
            [["Bores, all within half a thou", 4.0302, 4.0303, 4.0304, 4.0302]],
            {"B5": "bore 1 4.0302 in", "E5": "bore 4 4.0302 in"},
            id="a spread in a label",
        ),
    ],
)  # fmt: skip
def test_titles_say_how_far_sizes_may_be(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["CRANK & RODS"], ["Main #1", 2.4482], ["Main #2", 2.4481],
             ["Rod #1", 2.0991], ["Rod #2", 2.0990]],
            {"B6": "main_journal 1 2.4482 in", "B7": "main_journal 2 2.4481 in",
             "B8": "rod_journal 1 2.0991 in"},
            id="mains below crank and rods",
        ),
        pytest.param(
            [["CRANK", 1, 2, 3, 4], ["Rod journal", 2.0991, 2.0990, 2.0992, 2.0991],
             ["Rod bore w/ shells", 2.1012, 2.1011, 2.1013, 2.1012]],
            {"B6": "rod_journal 1 2.0991 in", "B7": "rod_bearing_bore 1 2.1012 in"},
            id="what goes around a journal",
        ),
    ],
)  # fmt: skip
def test_rows_are_what_they_say_below_a_title(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


# -- days, and what was found


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Date", "Item", "in"], ["3 Feb", "Bore 1", 4.0302], ["3 Feb", "Bore 2", 4.0303],
             ["5 Feb", "Piston 1", 4.0262]],
            {"C6": "bore 1 4.0302 in", "C8": "piston_diameter 1 4.0262 in"},
            id="a column of days",
        ),
        pytest.param(
            [["3. März", "Zyl. 1, Bohrung (mm)", 82.01],
             ["12. März", "Zyl. 2, Bohrung (mm)", 82.02]],
            {"C5": "bore 1 82.01 mm", "C6": "bore 2 82.02 mm"},
            id="a day before a label",
        ),
        pytest.param(
            [["2026-02-03", "Bores as found (in)"], ["Cyl 1", 4.0052], ["Cyl 2", 4.0055],
             ["2026-02-19", "Bores finished (in)"], ["Cyl 1", 4.0302], ["Cyl 2", 4.0301]],
            {"B6": "bore 1 found 4.0052 in", "B9": "bore 1 final 4.0302 in"},
            id="a title behind a date",
        ),
    ],
)  # fmt: skip
def test_days_count_nothing(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Crank runout (in)", "First spin", "Straightened"], ["Center main", .0045, .0008]],
            {"B6": "crank_runout middle found 0.0045 in",
             "C6": "crank_runout middle final 0.0008 in"},
            id="a first spin",
        ),
        pytest.param(
            [["Leakdown (%)", "First run", "Final"], ["Cyl 1", 22, 4], ["Cyl 2", 18, 5]],
            {"B6": "leakage 1 found 22", "C7": "leakage 2 final 5"},
            id="a first run",
        ),
        pytest.param(
            [["Deck height (in)", "Raw", "Cut"],
             ["Left", 9.0262, 9.0012], ["Right", 9.0255, 9.0010]],
            {"B6": "deck_height L found 9.0262 in", "B7": "deck_height R found 9.0255 in"},
            id="raw",
        ),
    ],
)  # fmt: skip
def test_words_for_what_was_found(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)

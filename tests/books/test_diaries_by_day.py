"""Diaries: below each day what was measured then, or when in the work it was measured.

That builders write their sizes down so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Bores, inches"], ["Cyl", "Bore", "Taper"], [1, 4.0012, .0004], [2, 4.001, .0003],
             ["3 Feb", "Mic'd the mains"],
             [1, 2.4482, .0002], [2, 2.448, .0001], [3, 2.4483, .0002]],
            {"B7": "bore 1 4.0012 in", "C7": "bore_taper 1 0.0004 in",
             "B10": "main_journal 1 2.4482 in", "B12": "main_journal 3 2.4483 in",
             "C10": "main_journal_taper 1 0.0002 in"},
            id="another part below the heads of bores",
        ),
        pytest.param(
            [["Inches"], ["Cyl", "Bore", "Taper"], [1, 4.0012, .0004], [2, 4.001, .0003],
             ["3 Feb", "Mic'd the pistons"], [1, 3.9972], [2, 3.997]],
            {"B7": "bore 1 4.0012 in", "B10": "piston_diameter 1 3.9972 in"},
            id="another part of the same cylinders",
        ),
        pytest.param(
            [["Inches"], ["Cyl", "Bore", "Taper"], [1, 4.0012, .0004], [2, 4.001, .0003],
             ["3 Feb", "honed"], [1, 4.0022, .0001], [2, 4.002, .0001]],
            {"B10": "bore 1 4.0022 in", "C10": "bore_taper 1 0.0001 in"},
            id="the same part goes on below its heads",
        ),
        pytest.param(
            [["Bores, inches"], ["Cyl", "Bore", "Taper"], [1, 4.0012, .0004], [2, 4.001, .0003],
             ["Mains"], [1, 2.4482, .0002], [2, 2.448, .0001]],
            {"B10": "main_journal 1 2.4482 in", "C11": "main_journal_taper 2 0.0001 in"},
            id="a title without a day",
        ),
        pytest.param(
            [["Diary, inches"], ["3 Feb", "Mic'd the cylinders"], ["", "top", "bottom"],
             ["#1", 4.0012, 4.0008], ["#2", 4.001, 4.0007],
             ["5 Feb", "Mic'd the mains"], ["#1", 2.4482], ["#2", 2.448], ["#3", 2.4483]],
            {"B8": "bore 1 top 4.0012 in", "C9": "bore 2 bottom 4.0007 in",
             "B11": "main_journal 1 2.4482 in", "B13": "main_journal 3 2.4483 in"},
            id="places of the bores are none of the mains",
        ),
    ],
)  # fmt: skip
def test_a_day_begins_what_was_measured_then(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("title", "name"),
    [("Bore log (in)", "#{}"), ("Bores (in)", "Cyl {}"), ("Cylinder bores, inches", "#{}")],
)
@pytest.mark.parametrize("days", [("3 Feb", "19 Feb"), ()], ids=["days", "no days"])
def test_sizes_as_found_and_finished_keep_the_title_over_both(
    tmp_path: Path, title: str, name: str, days: tuple[str, ...]
) -> None:
    found, finished = (days[:1], days[1:]) if days else ((), ())
    rows: Rows = [
        [title], [*found, "as found"], [name.format(1), 4.0012], [name.format(2), 4.001],
        [*finished, "finished"], [name.format(1), 4.0312], [name.format(2), 4.031],
    ]  # fmt: skip
    expected = {
        "B7": "bore 1 found 4.0012 in", "B8": "bore 2 found 4.001 in",
        "B10": "bore 1 final 4.0312 in", "B11": "bore 2 final 4.031 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Cylinder bore (mm)", "3 Feb", "19 Feb"], [1, 101.62, 102.1], [2, 101.61, 102.11]],
            {"B6": "bore 1 101.62 mm", "C6": "bore 1 102.1 mm", "C7": "bore 2 102.11 mm"},
            id="no word of when",
        ),
        pytest.param(
            [["Cylinder bore (mm)"], ["Cyl", "3 Feb", "19 Feb"],
             [1, 101.62, 102.1], [2, 101.61, 102.11]],
            {"B7": "bore 1 101.62 mm", "C8": "bore 2 102.11 mm"},
            id="below a title",
        ),
        pytest.param(
            [["Cylinder bore (mm)", datetime(2025, 2, 3), datetime(2025, 2, 19)],
             [1, 101.62, 102.1], [2, 101.61, 102.11]],
            {"B6": "bore 1 101.62 mm", "C7": "bore 2 102.11 mm"},
            id="dates",
        ),
        pytest.param(
            [["Mains", "3 Feb 2025", "19 Feb 2025"], [1, 62.184, 62.18], [2, 62.18, 62.178]],
            {"B6": "main_journal 1 62.184 mm", "C6": "main_journal 1 62.18 mm",
             "C7": "main_journal 2 62.178 mm"},
            id="the same part on both days",
        ),
        pytest.param(
            [["Bores (mm)", "3 Feb", "19 Feb"], ["", "as found", "honed"],
             [1, 101.62, 102.1], [2, 101.61, 102.11]],
            {"B7": "bore 1 found 101.62 mm", "C8": "bore 2 final 102.11 mm"},
            id="when in the work below the days",
        ),
        pytest.param(
            [["Cylinder bore (mm)", "3 Feb found", "Finished 19 Feb"],
             [1, 101.62, 102.1], [2, 101.61, 102.11]],
            {"B6": "bore 1 found 101.62 mm", "C7": "bore 2 final 102.11 mm"},
            id="when in the work beside the days",
        ),
        pytest.param(
            [["Bores in mm"], ["3 Feb", "Cylinders mic'd at three heights"],
             ["", "Top", "Mid", "Bot"], [1, 101.62, 101.6, 101.59], [2, 101.61, 101.6, 101.58]],
            {"B8": "bore 1 top 101.62 mm", "D9": "bore 2 bottom 101.58 mm"},
            id="how many heights a title says",
        ),
    ],
)  # fmt: skip
def test_columns_headed_by_days_are_of_what_stands_before_them(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)

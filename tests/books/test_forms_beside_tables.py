"""Blocks of a sheet parted from each other, titles over a gap, and labeled values beside a table.

That shops lay sheets out so is common practice, no source; sizes are from memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from small_sheet import Rows, check_told, told

MAINS = [["No.", "Size (mm)"], [1, 54.97], [2, 54.96], [3, 54.97]]


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Cyl", "Bore (in)", "Piston (in)", None, "Stroke (in)", 3.48],
             [1, 4.03, 4.026, None, "Rod length (in)", 5.7],
             [2, 4.031, 4.026, None, "Gasket (in)", 0.039],
             [3, 4.03, 4.026, None, "Deck (in)", 0.005],
             [4, 4.03, 4.026, "reamed", "Chamber (cc)", 64.2]],
            {"B6": "bore 1 4.03 in", "C7": "piston_diameter 2 4.026 in", "F5": "stroke 3.48 in",
             "F6": "rod_length 5.7 in", "F9": "chamber_volume 64.2 cc"},
            id="a form on the right with a remark before it",
        ),
        pytest.param(
            [["inches"], ["Cyl", "Bore", "Piston", "Clearance", "Deck", "Ring gap"],
             [1, 4.03, 4.026, 0.004, 0.005, 0.016], [2, 4.03, 4.026, 0.004, 0.005, 0.016],
             ["Guide", "Bore", "Stem", None, "Liner", "Bore"],
             [1, 0.3752, 0.3738, None, 1, 4.5], [2, 0.3751, 0.3739, None, 2, 4.5]],
            {"D7": "piston_clearance 1 0.004 in", "E10": "", "F10": "bore 1 4.5 in",
             "B10": "asked: intake_guide_bore 1 0.3752 in", "F11": "bore 2 4.5 in"},
            id="two tables below a wider one",
        ),
        pytest.param(
            [["mm", "Cyl 1", "Cyl 2"], ["Bore", 86.01, 86.02, "Stroke", 88, "mm"],
             ["Piston", 85.96, 85.96, "Rod length", 140, "mm"]],
            {"C6": "bore 2 86.02 mm", "E6": "stroke 88 mm", "E7": "rod_length 140 mm"},
            id="labels with values behind the rows of a table",
        ),
        pytest.param(
            [["Cyl", "Bore (mm)"], [1, 86.01], [2, 86.02], ["skimmed, now at 0.02"], [3, 86.03],
             [4, 86.02]],
            {"B9": "bore 3 86.03 mm", "B10": "bore 4 86.02 mm", "A9": "", "A10": ""},
            id="a sentence with a size between the rows",
        ),
        pytest.param(
            [["Torque (lb ft)", None, "mains", "rods"], [None, "first", 30, 20],
             [None, "final", 70, 45]],
            {"C7": "main_bolt_torque final 70 lbf.ft", "D7": "rod_bolt_torque final 45 lbf.ft"},
            id="a head with nothing below it speaks for the others",
        ),
        pytest.param(
            [["MAINS", "as found mm", "ground mm"], [1, 54.97, 54.72], [2, 54.96, 54.72], [],
             ["CRANKPINS"], [1, 49.97, 49.72], [2, 49.96, 49.72]],
            {"B6": "main_journal 1 found 54.97 mm", "B10": "rod_journal 1 found 49.97 mm",
             "C11": "rod_journal 2 machined 49.72 mm"},
            id="rows below a title of their own go on under the heads above",
        ),
    ],
)  # fmt: skip
def test_what_stands_beside_or_below_a_table_is_read_for_itself(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


# -- titles over a gap


def test_a_lone_title_over_a_gap_names_what_is_below_it(tmp_path: Path) -> None:
    expected = {"B8": "main_journal 1 54.97 mm", "B10": "main_journal 3 54.97 mm"}
    check_told(tmp_path, [["Main journals"], [], *MAINS], expected)


@pytest.mark.parametrize(
    ("title", "gap", "indent"),
    [
        pytest.param("Main journals", 2, 0, id="a gap of two rows"),
        pytest.param("Main journals", 1, 1, id="a table beside it"),
        pytest.param("Main journals: ground", 1, 0, id="a colon within it"),
        pytest.param("Main journals of this crank as it came in", 1, 0, id="a sentence"),
    ],
)
def test_what_may_be_no_title_of_a_table_names_nothing(
    tmp_path: Path, title: str, gap: int, indent: int
) -> None:
    rows = [[title], *([] for _ in range(gap)), *([None] * indent + row for row in MAINS)]
    found = told(tmp_path, rows)
    assert not any("main_journal" in text for text in found.values())


def test_what_stands_behind_an_at_in_a_title_is_no_number_of_a_piston(tmp_path: Path) -> None:
    rows = [["Pistons @ 20"], ["Date", "Size (mm)"], ["12 May 2025", 85.96], ["13 May 2025", 85.97]]
    check_told(tmp_path, rows, {"B7": "asked: piston_diameter 85.96 mm"})


# -- limits beside heads that count


def test_what_is_wanted_beside_counted_heads_is_no_stage_of_all_of_them(tmp_path: Path) -> None:
    rows = [["", "Spec", 1, 2], ["Bore (in)", 4.03, 4.0302, 4.0301],
            ["Piston (in)", 4.025, 4.0252, 4.0252]]  # fmt: skip
    expected = {
        "B6": "bore target 4.03 in", "C6": "bore 1 4.0302 in", "D7": "piston_diameter 2 4.0252 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


# -- forms in parts


@pytest.mark.parametrize(
    ("first", "second"), [("A", "B"), ("I", "II"), ("1.", "2.")], ids=["letters", "Roman", "points"]
)
def test_titles_behind_their_letters_leave_the_heads_of_a_form_over_all_its_parts(
    tmp_path: Path, first: str, second: str
) -> None:
    rows = [["Line", "Measurement", "Unit", "Min", "Max", 1, 2, 3], [first, "CYLINDER BLOCK"],
            [1, "Bore", "mm", 86, 86.03, 86.01, 86.02, 86.015],
            [2, "Deck clearance", "mm", 0.2, 0.4, 0.3, 0.31, 0.32], [second, "PISTONS"],
            [3, "Piston diameter", "mm", 85.93, 85.97, 85.95, 85.96, 85.955],
            [4, "Pin diameter", "mm", 21.99, 22, 21.995, 21.996, 21.995]]  # fmt: skip
    expected = {
        "D7": "bore limit_low 86 mm", "G7": "bore 2 86.02 mm", "H8": "deck_clearance 3 0.32 mm",
        "D10": "piston_diameter limit_low 85.93 mm", "E10": "piston_diameter limit_high 85.97 mm",
        "F10": "piston_diameter 1 85.95 mm", "G11": "pin_diameter 2 21.996 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Journal", "Main journal", "Crankpin", "End play", "Main clearance"],
             ["M1", 54.97], ["M2", 54.96], ["M3", 54.97]],
            {"B7": "main_journal 1 54.97 mm", "B9": "main_journal 3 54.97 mm"},
            id="behind the first",
        ),
        pytest.param(
            [["Cyl", "Bore", "Piston", "Deck clearance", "Ring gap", "Pin"],
             ["Cyl 1", None, 85.96], ["Cyl 2", None, 85.96], ["Cyl 3", None, 85.97]],
            {"C7": "piston_diameter 1 85.96 mm", "C9": "piston_diameter 3 85.97 mm"},
            id="and before it",
        ),
    ],
)  # fmt: skip
def test_heads_over_columns_that_are_still_empty_are_heads(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, [["mm"], *rows], expected)


def test_tables_whose_rows_are_counted_further_than_filled_in_are_parted(tmp_path: Path) -> None:
    counted = [
        [n, *([86.01, 85.96] if n <= 8 else [None, None]), None, n if n <= 9 else None,
         54.97 if n <= 5 else None]
        for n in range(1, 13)
    ]  # fmt: skip
    rows = [["CYLINDERS", None, None, None, "MAINS"],
            ["No.", "Bore (mm)", "Piston (mm)", None, "No.", "Journal (mm)"], *counted]  # fmt: skip
    expected = {
        "B7": "bore 1 86.01 mm", "C14": "piston_diameter 8 85.96 mm", "E7": "", "E15": "",
        "F7": "main_journal 1 54.97 mm", "F11": "main_journal 5 54.97 mm", "A18": "",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_a_depth_in_the_name_of_a_row_is_no_size(tmp_path: Path) -> None:
    rows = [["Cyl", "Unit", 1, 2, 3], ["Bore top 10 mm", "mm", 86.01, 86.02, 86.01],
            ["Bore mid 60 mm", "mm", 86, 86.01, 86]]  # fmt: skip
    expected = {
        "A6": "", "C6": "bore 1 top 86.01 mm", "A7": "", "D7": "bore 2 middle 86.01 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)

"""Titles with remarks, limits, numbers or frames around what they name, and reports as found.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import JOB, Rows, check_told, in_words

from workbook_tools.jobs.read import read_jobs


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Bores (plate on, all four bolts)"], ["Cyl", "Found", "Honed"],
             [1, 4.0052, 4.0302], [2, 4.0055, 4.0301]],
            {"B7": "bore 1 found 4.0052 in", "C7": "bore 1 final 4.0302 in"},
            id="a remark in brackets",
        ),
        pytest.param(
            [["Main journals (polished by hand, twice)"], ["No.", "Front", "Rear"],
             [1, 2.4482, 2.4481], [2, 2.4482, 2.4482]],
            {"B7": "main_journal 1 front 2.4482 in"},
            id="a remark that says no stage",
        ),
        pytest.param(
            [["Main clearance (in) spec .0020-.0030"], [1, 2, 3, 4], [.0021, .0022, .0023, .0022]],
            {"A7": "main_bearing_clearance 1 0.0021 in",
             "D7": "main_bearing_clearance 4 0.0022 in"},
            id="a limit",
        ),
        pytest.param(
            [["1. CYLINDERS (in)"], ["", 1, 2, 3], ["Finished", 4.0302, 4.0301, 4.0302]],
            {"B7": "bore 1 final 4.0302 in"},
            id="a part of a form",
        ),
        pytest.param(
            [["--- CYLINDERS (in) ---"], ["", 1, 2, 3], ["Finished", 4.0302, 4.0301, 4.0302]],
            {"B7": "bore 1 final 4.0302 in"},
            id="a frame",
        ),
        pytest.param(
            [["----- Torques (ft-lb) -----"], ["Mains", 80], ["Rods", 45]],
            {"B6": "main_bolt_torque 80 lbf.ft", "B7": "rod_bolt_torque 45 lbf.ft"},
            id="a frame around a unit",
        ),
        pytest.param(
            [["Crank register, north shop - inches"], ["Main 1", 2.4982], ["End play", .006]],
            {"B6": "main_journal 1 2.4982 in", "B7": "crank_end_play 0.006 in"},
            id="units at the end",
        ),
        pytest.param(
            [["ALL IN MM UNLESS NOTED."], ["Stroke", 88], ["Bore", 84.5]],
            {"B6": "stroke 88 mm", "B7": "bore 84.5 mm"},
            id="all in mm",
        ),
        pytest.param(
            [["All in mm unless noted"], ["Cyl", "Bore", "Piston"],
             [1, 79.58, 79.53], [2, 79.59, 79.54]],
            {"B7": "bore 1 79.58 mm", "C8": "piston_diameter 2 79.54 mm"},
            id="all in mm over a table",
        ),
    ],
)  # fmt: skip
def test_titles(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Main", "Housing", "Brg dia fitted", "Journal", "Clearance", None, "Torque", "ft-lb"],
             ["Main 1", 2.6412, 2.4507, 2.4482, .0025, None, "Mains", 80],
             ["Main 2", 2.6412, 2.4507, 2.4483, .0024, None, "Rods", 45],
             [],
             ["Rod 1", 2.2250, 2.1012, 2.0992, .0020], ["Rod 2", 2.2251, 2.1012, 2.0991, .0021]],
            {"B9": "rod_housing_bore 1 2.225 in", "D9": "rod_journal 1 2.0992 in",
             "E10": "rod_bearing_clearance 2 0.0021 in"},
            id="the nearest heads that reach over a block",
        ),
        pytest.param(
            [["Cyl", "Leak %", "Bore"], [1, 9, 4.0202], [2, 10, 4.0203], [],
             ["Main 1", .0025], ["Main 2", .0027]],
            {"B9": "main_bearing_clearance 1 0.0025 in"},
            id="mains below a table of cylinders",
        ),
        pytest.param(
            [["CRANKSHAFT"], ["RODS", 1, 2, 3, 4], ["Found (in)", 2.0991, 2.0990, 2.0992, 2.0991],
             ["Ground (in)", 2.0891, 2.0890, 2.0891, 2.0891]],
            {"B7": "rod_journal 1 found 2.0991 in", "E8": "rod_journal 4 machined 2.0891 in"},
            id="rods on the card of a crankshaft",
        ),
        pytest.param(
            [["Crankshaft"], ["RODS", 1, 2, 3, 4], ["before", 2.0986, 2.0979, 2.0984, 2.0982],
             ["after", 2.0888, 2.0887, 2.0888, 2.0887], ["MAINS", 1, 2, 3],
             ["before", 2.2986, 2.2979, 2.2984], ["after", 2.2888, 2.2887, 2.2888]],
            {"B7": "rod_journal 1 found 2.0986 in", "E8": "rod_journal 4 final 2.0887 in",
             "B10": "main_journal 1 found 2.2986 in"},
            id="rods and mains of a crankshaft",
        ),
    ],
)  # fmt: skip
def test_heads_over_other_rows(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


SIZES: Rows = [["Cylinder (mm)", "Bore", "Piston"], [1, 79.58, 79.43], [2, 79.61, 79.42]]
WORKED: Rows = [["Cylinder (mm)", "Bore finished", "Piston"], [1, 80.01, 79.96], [2, 80.01, 79.96]]


@pytest.mark.parametrize(
    ("title", "rows"),
    [
        ("Strip report", SIZES),
        ("Befundbericht", SIZES),
        ("Block", [["Inspection report - as found (nothing machined yet)"], *SIZES]),
    ],
)
def test_all_of_a_report_is_as_found(make_book, title: str, rows: Rows) -> None:
    (book,) = read_jobs(make_book({"Job": JOB, title: rows}))
    told = [in_words(r) for r in book.readings if r.place.sheet == title]
    assert "bore 1 found 79.58 mm" in told
    assert "piston_diameter 2 found 79.42 mm" in told


def test_a_report_of_work_is_not_all_as_found(make_book) -> None:
    (book,) = read_jobs(make_book({"Job": JOB, "Strip report": WORKED}))
    told = [in_words(r) for r in book.readings if r.place.sheet == "Strip report"]
    assert "bore 1 final 80.01 mm" in told
    assert "piston_diameter 2 79.96 mm" in told


def test_a_title_says_that_a_sheet_is_in_grams(make_book) -> None:
    rows = [["Grams"], ["Rod", "Big end", "Small end"], [1, 441, 171], [2, 440, 171]]
    (book,) = read_jobs(make_book({"Job": JOB, "Scale": rows}))
    told = [in_words(r) for r in book.readings if r.place.sheet == "Scale"]
    assert "rod_big_end_mass 1 441 g" in told

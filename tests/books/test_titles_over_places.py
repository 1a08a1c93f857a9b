"""Columns that say only where, below a title or a head that says what is measured."""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

from workbook_tools.labels.written_limits import without_limit


@pytest.mark.parametrize(
    ("title", "first", "last"),
    [("stretch, want .0058-.0062", "inner", "outer"), ("stretch of bolts", "nearer", "further")],
)
def test_heads_that_say_nothing_tell_the_bolts_of_a_rod_apart(
    tmp_path: Path, title: str, first: str, last: str
) -> None:
    """What is measured of the rods that the rows count, their title says."""
    rows: Rows = [
        [title], ["rod", first, last, "side .001"],
        [1, 0.006, 0.0061, 18], [2, 0.0062, 0.0059], [3, 0.0061, 0.006, 20], [4, 0.006, 0.0062],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B7": f"rod_bolt_stretch 1 {first} 0.006 in",
        "C8": f"rod_bolt_stretch 2 {last} 0.0059 in",
        "D7": "rod_side_clearance 1-2 0.018 in",
        "D6": "",
    }
    check_told(tmp_path, rows, expected, title="Rods")


def test_a_head_with_two_limits_reaches_over_its_places(tmp_path: Path) -> None:
    """A range, and how far apart the four may be."""
    rows: Rows = [
        ["Cyl", "LINER STAND PROUD in.  .002-.005, .001 max spread", None, None, None, "ID"],
        [None, "12 o'c", "3 o'c", "6 o'c", "9 o'c"],
        [1, 0.0042, 0.004, 0.0041, 0.0039, 4.2256], [2, 0.0042, 0.0038, 0.004, 0.004, 4.2254],
        [3, 0.004, 0.0039, 0.004, 0.0041, 4.2256],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B7": "liner_protrusion 1 12 o'clock 0.0042 in",
        "E9": "liner_protrusion 3 9 o'clock 0.0041 in",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("label", "bare"),
    [
        ("Ring gap 0,3 - 0,5 mm, max. 0,8", "Ring gap (mm)"),
        ("Bore (3.6250-3.6265), .001 max taper", "Bore"),
        ("Side play .008-.014; replace at .020", "Side play .008-.014; replace at .020"),
    ],
)
def test_a_label_ends_before_its_limits(label: str, bare: str) -> None:
    """A further limit is one where its words say so."""
    assert without_limit(label) == bare


def test_hours_over_counted_liners_are_places(tmp_path: Path) -> None:
    """Four numbers of a clock count no cylinders."""
    rows: Rows = [
        ["Liner stand proud, thou"], ["Cyl", 12, 3, 6, 9],
        [1, 4.2, 4.0, 4.1, 3.9], [2, 4.2, 3.8, 4.0, 4.0], [3, 4.0, 3.9, 4.0, 4.1],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B7": "liner_protrusion 1 12 o'clock 0.0042 in",
        "E9": "liner_protrusion 3 9 o'clock 0.0041 in",
        "C6": "",
    }
    check_told(tmp_path, rows, expected)


def test_sides_of_an_engine_are_places_on_each_liner(tmp_path: Path) -> None:
    """Below a title of what has no side of its own they name no valves."""
    rows: Rows = [
        ["Liner protrusion (mm)"], ["Cyl", "front", "rear", "intake side", "exhaust side"],
        [1, 0.11, 0.10, 0.11, 0.10], [2, 0.11, 0.10, 0.12, 0.10], [3, 0.11, 0.10, 0.11, 0.09],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "D8": "liner_protrusion 2 intake side 0.12 mm",
        "E9": "liner_protrusion 3 exhaust side 0.09 mm",
    }
    check_told(tmp_path, rows, expected)


def test_a_bolt_of_a_rod_is_no_rod(tmp_path: Path) -> None:
    """ "bolt 2" over the rods 1 to 3, and what they are wanted to stretch."""
    rows: Rows = [
        ["Rod bolts, stretch .0058 +/-.0002"], ["rod", "bolt 1", "bolt 2"],
        [1, 0.0057, 0.0058], [2, 0.0056, 0.0058], [3, 0.0057, 0.0059],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "A5": "rod_bolt_stretch target 0.0058 in",
        "B8": "rod_bolt_stretch 2 bolt 1 0.0056 in",
        "C9": "rod_bolt_stretch 3 bolt 2 0.0059 in",
    }
    check_told(tmp_path, rows, expected)


def test_letters_carry_on_what_the_first_of_them_names(tmp_path: Path) -> None:
    """Four places around a liner, of which the first head alone says what is measured."""
    rows: Rows = [
        ["Cyl", "Liner protr. A", "B", "C", "D", "Liner bore"],
        [1, 0.0042, 0.004, 0.0041, 0.0039, 4.2256], [2, 0.0042, 0.0038, 0.004, 0.004, 4.2254],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "C6": "liner_protrusion 1 0.004 in",
        "E7": "liner_protrusion 2 0.004 in",
        "F7": "bore 2 4.2254 in",
    }
    check_told(tmp_path, rows, expected)


def test_run_out_at_both_sides_of_a_crank_in_short(tmp_path: Path) -> None:
    """The drive side and the timing side of a motorcycle."""
    rows: Rows = [["Crank run out D/S", 0.015, "mm"], ["Crank run out T/S", 0.02, "mm"]]
    # common practice, no source
    expected = {"B5": "crank_runout 0.015 mm", "B6": "crank_runout 0.02 mm"}
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(("first", "last"), [("inner", "outer"), ("front", "rear")])
def test_rows_below_numbered_heads_say_where(tmp_path: Path, first: str, last: str) -> None:
    """What is measured stands over their names, and their own words tell them apart."""
    rows: Rows = [
        ["Rod bolt stretch (in)", 1, 2, 3, 4], [first, 0.0058, 0.0059, 0.006, 0.0058],
        [last, 0.0059, 0.0059, 0.006, 0.0058],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "C6": f"rod_bolt_stretch 2 {first} 0.0059 in",
        "B7": f"rod_bolt_stretch 1 {last} 0.0059 in",
    }
    check_told(tmp_path, rows, expected)

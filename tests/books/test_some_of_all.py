"""Rows and columns that pick some of the cylinders, and words that stand for parts and stages.

That shops keep such sheets, and what their words mean, is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize("first", [1, 2, 3])
def test_the_cylinders_that_were_checked_are_those_that_stand_there(
    tmp_path: Path, first: int
) -> None:
    picked = [first, 4, 6, 7]
    rows: Rows = [
        ["inches"],
        ["Piston to valve (clay)"],
        ["cyl", "Intake", "Exhaust"],
        *([number, 0.1 + 0.001 * number, 0.13] for number in picked),
    ]
    expected = {
        "B8": f"intake_valve_to_piston {first} {0.1 + 0.001 * first:.6g} in",
        "B9": "intake_valve_to_piston 4 0.104 in", "B10": "intake_valve_to_piston 6 0.106 in",
        "C11": "exhaust_valve_to_piston 7 0.13 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("title", "counts", "name"),
    [("BIELAS", "Biela", "rod_journal"), ("BANCADA", "Apoyo", "main_journal")],
)
def test_ground_with_its_step_is_a_stage(
    tmp_path: Path, title: str, counts: str, name: str
) -> None:
    rows: Rows = [
        [title],
        [counts, "Llega (mm)", "Rectificado -0,25", "Cojinete (mm)", "Holgura (mm)"],
        [1, 56.931, 56.726, 56.777, 0.051],
        [2, 56.934, 56.725, 56.776, 0.051],
    ]
    expected = {"B7": f"{name} 1 found 56.931 mm", "C8": f"{name} 2 machined 56.725 mm"}
    check_told(tmp_path, rows, expected)


def test_the_housings_of_the_mains_in_italian(tmp_path: Path) -> None:
    rows: Rows = [
        ["mm"], ["Galleria di banco"], ["supp.", "trov.", "alesato"],
        [1, 63.692, 63.681], [2, 63.699, 63.682], [3, 63.701, 63.682],
    ]  # fmt: skip
    expected = {
        "B8": "main_housing_bore 1 found 63.692 mm",
        "C10": "main_housing_bore 3 machined 63.682 mm",
    }
    check_told(tmp_path, rows, expected)


def test_heads_that_pick_some_cylinders(tmp_path: Path) -> None:
    rows: Rows = [["cyl", 1, 4, 6, 7], ["piston to valve in (inch)", 0.110, 0.108, 0.114, 0.112]]
    expected = {
        "C6": "intake_valve_to_piston 4 0.108 in", "E6": "intake_valve_to_piston 7 0.112 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_two_people_measure_each_bore_twice(tmp_path: Path) -> None:
    rows: Rows = [
        ["mm, JM = John  PB = Paudie, each takes his own"],
        [],
        [None, "as found", None, "after bore"],
        ["cyl / where", "JM", "PB", "JM", "PB", "piston", "clr"],
        ["1 top", 100.14, 100.15, 100.50, 100.51, 100.41, .09],
        ["1 btm", 100.03, 100.04],
        ["2 top", 100.16, 100.11, 100.505, 100.50, 100.41, .09],
        ["2 btm", 100.04, 100.03],
    ]  # fmt: skip
    expected = {
        "B9": "bore 1 top A found 100.14 mm", "C9": "bore 1 top B found 100.15 mm",
        "C12": "bore 2 bottom B found 100.03 mm", "D11": "bore 2 top A final 100.505 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)

"""Heads beside "as found" and limits that nobody knows, and rows that a head leaves out.

That builders keep their sheets so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told, told

from workbook_tools.jobs.read import read_book

LINER = ["Liner bore, in.", 1, 3.8837, 3.885, 3.8755, "AB"]
MORE = [[None, 2, 3.8831, None, 3.8754, "AB"], [None, 3, 3.8826, None, 3.8756, "AB"]]


@pytest.mark.parametrize("head", ["Fitted", "Got", "Ours"])
def test_the_one_head_that_says_nothing_is_of_the_finished_sizes(tmp_path: Path, head: str) -> None:
    rows: Rows = [["Item", "No.", "As found", "Limit", head, "Init."], LINER, *MORE]
    expected = {"C6": "bore 1 found 3.8837 in", "E6": "bore 1 final 3.8755 in",
                "E8": "bore 3 final 3.8756 in"}  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_two_heads_that_say_nothing_are_left_alone(tmp_path: Path) -> None:
    rows = [["Item", "No.", "As found", "Ours", "Theirs"],
            *([name, n, worn, 3.8755, 3.8756] for name, n, worn, *_ in (LINER, *MORE))]  # fmt: skip
    assert not any("bore" in words for at, words in told(tmp_path, rows).items() if at[0] == "D")


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["mm", 1, 2, 3, 4, 5], ["Bore", 86.51, 86.51, 86.52, 86.51],
             ["Piston", 86.46, 86.46, 86.46, 86.46], ["Main journal", *[54.97] * 5]],
            {"E6": "bore 4 86.51 mm", "F8": "main_journal 5 54.97 mm"},
            id="the fifth main of a four",
        ),
        pytest.param(
            [["Main", "Crank", "Brg", "Clr (thou)"], [1, 2.4487, 2.4515, 2.8],
             [2, 2.4487, 2.4514, 2.7], [3, 2.4488, 2.4519, 3.1], ["Thrust", 0.007]],
            {"B8": "main_journal 3 2.4488 in", "B9": "crank_end_play 0.007 in"},
            id="thrust below the mains",
        ),
        pytest.param(
            [["mm"], [None, "V", "H", "ovality", "shell bore"], ["MAINS"],
             ["M1", 59.983, 59.982, 0.001, 60.03], ["M2", 59.979, 59.979, 0, 60.031], ["PINS"],
             ["P1", 47.983, 47.981, 0.002, 48.03], ["P2", 47.984, 47.986, 0.002, 48.031]],
            {"E8": "main_bearing_bore 1 60.03 mm", "E12": "rod_bearing_bore 2 48.031 mm",
             "B11": "rod_journal 1 vertical 47.983 mm"},
            id="shells below titles of journals",
        ),
    ],
)  # fmt: skip
def test_rows_below_heads_of_others(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


def test_no_cylinder_waits_for_a_main(make_book) -> None:
    rows = [["mm", 1, 2, 3], ["Bore", 86.51, 86.51], ["Main journal", *[54.97] * 3]]
    assert not read_book(make_book({"S": rows})).missing


def test_no_half_of_a_cylinder_waits_for_what_the_other_half_has(make_book) -> None:
    rows = [["mm", "Cyl 1", None, "Cyl 2"], ["Bore", "along", "across", "along", "across"],
            ["top", 74.014, 74.012, 74.014, 74.016], ["bottom", 74.01, 74.01, 74.01, 74.01],
            ["Deck clearance", 0.2, None, 0.16], ["Gasket thickness", 0.75]]  # fmt: skip
    book = read_book(make_book({"S": rows}))
    assert not book.missing
    quench = {r.part.number: r.value for r in book.records if r.measurand == "quench"}
    assert quench == {1: pytest.approx(0.95), 2: pytest.approx(0.91)}


def test_sizes_below_a_gap_with_their_unit_behind_are_not_in_the_column_of_limits(
    tmp_path: Path,
) -> None:
    rows = [["Part", "Measured", "Unit", "Limits", 1, 2, 3],
            ["Block", "bore finished", "mm", "92.500-92.520", 92.514, 92.506, 92.507],
            ["Piston", "skirt", "mm", None, 92.433, 92.432, 92.431], [],
            ["Stroke", None, None, 90, "mm"], ["Gasket", None, None, 1.52, "mm"]]  # fmt: skip
    check_told(tmp_path, rows, {"D9": "stroke 90 mm", "D10": "gasket_thickness 1.52 mm"})


def test_what_one_cylinder_sweeps_displaces_no_engine(make_book) -> None:
    rows = [["Bore", 4.04, "in"], ["Stroke", 3.53, "in"],
            ["Swept, one cyl", "=PI()/4*B1^2*B2*16.387", "cc"],
            ["Cubic inches", "=PI()/4*B1^2*B2*8", "ci"]]  # fmt: skip
    book = read_book(make_book({"S": rows}, {"S": {"B3": 741.53, "B4": 362.01}}))
    assert [s.measurand for s in book.stated] == ["cylinder_volume", "displacement"]


HEADS = [None, "top length way", "top across", "bottom length way", "bottom across"]


def test_heads_that_say_nothing_leave_it_to_the_one_that_spans_them(tmp_path: Path) -> None:
    rows = [["mm"], [None, "Bore after honing"], ["Cyl", *HEADS[1:]],
            *([n, 87.021, 87.022, 87.023, 87.024] for n in range(1, 5))]  # fmt: skip
    expected = {"B8": "bore 1 top final 87.021 mm", "C9": "bore 2 top thrust final 87.022 mm"}
    found = told(tmp_path, rows, merged=["B6:E6"])
    assert {at: found.get(at) for at in expected} == expected

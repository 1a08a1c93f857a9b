"""Sentences in the margin of a table, and what they say of an engine that ran.

That builders write so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, all_told, check_told

from workbook_tools.labels.run_pressure import run_pressure


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["stroke is 4.625 checked it", "", "cyl", 1, 2, 3],
             ["rods are 7.953 center to center", "", "bore", 3.2915, 3.2914, 3.2915],
             ["no head work on this one", "", "piston", 3.289, 3.289, 3.2891],
             ["seats cut 1/16 = .062 wide intake", "", "top gap", .014, .014, .0145],
             ["crank has .005 end play"], ["mains 85 ft lb"]],
            {"A5": "stroke 4.625 in", "A6": "rod_length 7.953 in", "D6": "bore 1 3.2915 in",
             "F7": "piston_diameter 3 3.2891 in", "D8": "top_ring_gap 1 0.014 in",
             "A9": "crank_end_play 0.005 in", "A10": "main_bolt_torque 85 lbf.ft"},
            id="beside a table",
        ),
        pytest.param(
            [["tell him 75 ft lb on the head bolts"]],
            {"A5": "head_bolt_torque 75 lbf.ft"},
            id="named behind",
        ),
        pytest.param(
            [["heads 65 ft lbs in 3 pulls"]], {"A5": "head_bolt_torque 65 lbf.ft"}, id="pulls"
        ),
        pytest.param(
            [["inches"], ["crank runs out .0005 at no.3"]],
            {"A6": "crank_runout 3 0.0005 in"},
            id="runs out",
        ),
        pytest.param(
            [["mm"], ["L head .05 hollow when he came in"]],
            {"A6": "head_flatness 0.05 mm"},
            id="another clause",
        ),
        pytest.param(
            [["ran it, 58 psi oil hot, no leaks"]], {"A5": "oil_pressure 58 psi"}, id="ran it"
        ),
        pytest.param(
            [["done, runs good, 55 psi"]], {"A5": "oil_pressure 55 psi"}, id="runs good"
        ),
        pytest.param([["32 psi oil at hot idle"]], {"A5": "oil_pressure 32 psi"}, id="idle"),
        pytest.param([["ran 20 min, 4 bar oil"]], {"A5": "oil_pressure 400 kPa"}, id="minutes"),
        pytest.param([["70 lbs oil, hot, running"]], {"A5": "oil_pressure 70 psi"}, id="pounds"),
    ],
)  # fmt: skip
def test_what_a_note_says(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    "text",
    ["compression hot 150 psi", "fired it, boost 8 psi", "runs on 6 psi fuel pressure",
     "radiator cap 15 psi, ran hot", "head pressure tested 60 psi hot", "oil hot, want 55 psi",
     "ran 45 ft lb on the rods", "run at 60 lbs seat", "cranking 160 psi after it ran"],
)  # fmt: skip
def test_other_pressures_are_not_of_the_oil(text: str) -> None:
    assert run_pressure(text) == ("", "")


def test_whole_numbers_one_behind_the_other(tmp_path: Path) -> None:
    found = all_told(tmp_path, [["psi"], ["compression cranking 160 158 162 159"]])
    assert found["A6"] == [
        f"cranking_pressure {n} {size} psi" for n, size in enumerate((160, 158, 162, 159), 1)
    ]


def test_which_one_before_each_size(tmp_path: Path) -> None:
    rows: Rows = [["inches"], ["pistons down the hole: 1 .022, 2 .023, 3 .021"]]
    assert all_told(tmp_path, rows)["A6"] == [
        "deck_clearance 1 0.022 in", "deck_clearance 2 0.023 in", "deck_clearance 3 0.021 in",
    ]  # fmt: skip

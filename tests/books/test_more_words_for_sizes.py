"""More words for sizes of engines, and how far from flat and true a worn part usually is.

That shops write and find so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told
from each_case import each

from workbook_tools.labels.vocabulary import meaning_of


@each(
    ("label", "measurand"),
    [
        ("R/S", "rod_stroke_ratio"), ("Bolt stretched", "rod_bolt_tight_length"),
        ("Pin bore in rod", "small_end_bore"), ("Gasket eye", "gasket_bore"),
        ("Rod complete", "rod_mass"), ("Whole rod", "rod_mass"),
        ("Main oil film", "main_bearing_clearance"), ("Rod oil film", "rod_bearing_clearance"),
        ("Testa di biella con semicuscinetti", "rod_bearing_bore"),
        ("Testa con bronzine", "rod_bearing_bore"), ("Clearance vol", "combustion_volume"),
        ("Skirt loose", "piston_clearance"), ("Pop-up", "piston_protrusion"),
        ("Popup (cc)", "dome_volume"),
    ],
)  # fmt: skip
def test_a_label_in_the_words_of_a_shop(label: str, measurand: str) -> None:
    assert meaning_of(label).measurand == measurand


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Mains (in)", "Block", "Crank", "Oil"], [1, 2.6412, 2.4482, .0024],
             [2, 2.6413, 2.4481, .0025]],
            {"B6": "main_housing_bore 1 2.6412 in", "C7": "main_journal 2 2.4481 in",
             "D6": "main_bearing_clearance 1 0.0024 in"},
            id="bored in the block",
        ),
        pytest.param(
            [["Bore (mm)", "with crank", "across crank"], ["Cyl 1", 86.01, 86.02],
             ["Cyl 2", 86.02, 86.03]],
            {"B6": "bore 1 parallel 86.01 mm", "C7": "bore 2 thrust 86.03 mm"},
            id="along the crank",
        ),
        pytest.param(
            [["inches", "1", "2"], ["Pop-up", .012, .013]],
            {"B6": "deck_clearance 1 -0.012 in", "C6": "deck_clearance 2 -0.013 in"},
            id="out of the bore",
        ),
    ],
)  # fmt: skip
def test_words_of_tables(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("label", "size", "reading"),
    [
        ("Crank runout (in)", .007, "crank_runout 0.007 in"),
        ("Deck warp (in)", .007, "deck_flatness 0.007 in"),
        ("Head warp (in)", .011, "head_flatness 0.011 in"),
    ],
)  # fmt: skip
def test_what_a_worn_part_may_be_off(tmp_path: Path, label: str, size: float, reading: str) -> None:
    check_told(tmp_path, [[label, size]], {"B5": reading})

"""Sheets that say each thing in two languages, one behind the other.

That shops where two languages are spoken write so is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import check_told

from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands.words import read_label


def test_a_letter_beside_a_word_is_that_word_of_the_other_language(tmp_path: Path) -> None:
    rows = [
        ["Zyl. / cyl.", None, "Schaft / queue", "Führung / guide", "Sitz / siège (mm)"],
        [1, "E/adm", 7.965, 8.004, 1.3],
        [None, "A/éch", 7.951, 8.007, 1.8],
        [2, "E/adm", 7.966, 8.005, 1.4],
        [None, "A/éch", 7.952, 8.008, 1.7],
    ]
    check_told(
        tmp_path,
        rows,
        {
            "C6": "intake_stem_diameter 1 7.965 mm",
            "C7": "exhaust_stem_diameter 1 7.951 mm",
            "D7": "exhaust_guide_bore 1 8.007 mm",
            "E8": "intake_seat_width 2 1.4 mm",
            "E9": "exhaust_seat_width 2 1.7 mm",
        },
    )


@pytest.mark.parametrize(
    ("text", "side"),
    [
        ("E/adm", "intake"),
        ("A / éch.", "exhaust"),
        ("Einlass / admission", "intake"),
        ("A - Ausl.", "exhaust"),
        ("cyl 1 adm/E", "intake"),
        ("2 A / éch.", "exhaust"),
    ],
)
def test_a_side_in_both_languages(text: str, side: str) -> None:
    which = which_of(text)
    assert which is not None
    assert which.side == side


@pytest.mark.parametrize(
    ("text", "measurand"),
    [
        ("Tige E / adm.", "intake_stem_diameter"),
        ("Queue A / Ausl.", "exhaust_stem_diameter"),
        ("Tige E", "exhaust_stem_diameter"),
    ],
)
def test_a_letter_beside_a_word_in_a_label(text: str, measurand: str) -> None:
    assert read_label(text).candidates[0].measurand == measurand


@pytest.mark.parametrize(
    ("text", "measurands"),
    [
        ("Culbuteurs à régler", {"intake_lash", "exhaust_lash"}),
        ("Jeu à froid", {"intake_lash", "exhaust_lash"}),
        ("Lash e cold", {"exhaust_lash"}),
        ("Ventilspiel E kalt", {"intake_lash"}),
    ],
)
def test_a_small_letter_that_joins_words_is_no_side(text: str, measurands: set[str]) -> None:
    candidates = read_label(text).candidates
    assert {c.measurand for c in candidates if c.cost == candidates[0].cost} == measurands


def test_a_word_for_setting_says_nothing_of_what_is_set(tmp_path: Path) -> None:
    rows = [["mm", "trouvé", "fini"], ["Latéral vilebrequin, régler par cale", 0.35, 0.12]]
    check_told(
        tmp_path,
        rows,
        {"B6": "crank_end_play found 0.35 mm", "C6": "crank_end_play final 0.12 mm"},
    )

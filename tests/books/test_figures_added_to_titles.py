"""Titles that say to which size the whole numbers below them are added.

That builders write so is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

from workbook_tools.labels.added_sizes import size_added_to


@pytest.mark.parametrize(
    "title",
    [
        "Zylinder ausgemessen (verschlissen), Nennmaß 93,00 – Hundertstel darüber",
        "Usura canne prima di alesare, 93,0x – centesimi",
        "Bloc V6 : usure cylindres avant réalésage, cote 93,00 (centièmes en plus)",
    ],
)
def test_rows_of_places_below_a_size(tmp_path: Path, title: str) -> None:
    """The lowest row, which could count, goes on below the others, and tapers are in mm."""
    rows: Rows = [
        [title], ["", 1, 2, 3, 4],
        ["top", 9, 11, 10, 13], ["middle", 5, 6, 5, 7], ["bottom", 2, 3, 2, 3],
        ["taper", 0.07, 0.08, 0.08, 0.1],
    ]  # fmt: skip
    expected = {
        "B7": "bore 1 top found 93.09 mm",
        "E8": "bore 4 middle found 93.07 mm",
        "B9": "bore 1 bottom found 93.02 mm",
        "E9": "bore 4 bottom found 93.03 mm",
        "C10": "bore_taper 2 found 0.08 mm",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("heads", [("long", "trans"), ("Long.", "Transv.")])
def test_ways_along_and_across_in_short(tmp_path: Path, heads: tuple[str, str]) -> None:
    """Beside each other they are no length and no drive."""
    rows: Rows = [
        ["V8, diámetros en pulgadas, medida 4.1xx (milésimas)"],
        ["Cil", *heads, "Cil", *heads],
        [1, 31, 30, 2, 30, 31], [3, 30, 30, 4, 31, 30], [5, 31, 31, 6, 30, 30],
        [7, 30, 31, 8, 31, 31],
    ]  # fmt: skip
    expected = {
        "B7": "bore 1 parallel 4.131 in",
        "C8": "bore 3 thrust 4.13 in",
        "F10": "bore 8 thrust 4.131 in",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("text", "size", "name"),
    [
        ("Bores, 4.1xx (thou)", 4.1, "Bores"),
        ("Zylinder Nennmaß 93,00, Hundertstel dazu", 93.0, "Zylinder"),
        ("Bore 4.000 + thou", 4.0, ""),
    ],
)
def test_sizes_that_are_added_to(text: str, size: float, name: str) -> None:
    added = size_added_to(text)
    assert added is not None
    assert (added.size, added.name) == (size, name)


@pytest.mark.parametrize("text", ["Bores 4.03 (thou)", "taper 0.02 hundredths"])
def test_a_size_beside_a_unit_adds_nothing(text: str) -> None:
    """Without a sign, a gap of figures or a word for more."""
    assert size_added_to(text) is None


def test_what_a_title_names_behind_a_colon(tmp_path: Path) -> None:
    """Of a crank the main journals, before and after they were ground."""
    rows: Rows = [
        ["Vilebrequin : tourillons"], ["Palier", "Avant rectif.", "Après rectif.", "Jeu"],
        [1, 54.76, 54.541, 0.038], [2, 54.74, 54.54, 0.039], [3, 54.71, 54.542, 0.037],
    ]  # fmt: skip
    expected = {
        "B7": "main_journal 1 found 54.76 mm",
        "C8": "main_journal 2 final 54.54 mm",
        "D9": "main_bearing_clearance 3 0.037 mm",
    }
    check_told(tmp_path, rows, expected)


def test_lash_found_and_set_in_turn(tmp_path: Path) -> None:
    """What was set is no check by a straightedge, and both are of the valves named above."""
    rows: Rows = [
        ["", "", "C1", "C2", "C3"],
        ["Adm", "trouvé", 0.18, 0.12, 0.15], ["", "réglé", 0.2, 0.2, 0.2],
        ["Éch", "trouvé", 0.32, 0.28, 0.4], ["", "réglé", 0.3, 0.3, 0.31],
        ["Jeux aux culbuteurs"],
    ]  # fmt: skip
    expected = {
        "C6": "intake_lash 1 found 0.18 mm",
        "D7": "intake_lash 2 final 0.2 mm",
        "E8": "exhaust_lash 3 found 0.4 mm",
        "C9": "exhaust_lash 1 final 0.3 mm",
    }
    check_told(tmp_path, rows, expected)

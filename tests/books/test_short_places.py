"""Short words for where on a part: ends, axes, heights, a clock's face, rods, rings and valves.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

MAIN, PIN = 2.4482, 2.0992


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Cylinder head", "F int", "F exh", "R int", "R exh"],
             ["Guide found (in)", .2762, .2763, .2761, .2764]],
            {"B6": "intake_guide_bore 1 found 0.2762 in",
             "E6": "exhaust_guide_bore 2 found 0.2764 in"},
            id="front and rear",
        ),
        pytest.param(
            [["Deck height (in)", "as found"], ["F worn", 9.025], ["R worn", 9.024]],
            {"B6": "deck_height front found 9.025 in", "B7": "deck_height rear found 9.024 in"},
            id="front and rear with when",
        ),
        pytest.param(
            [["inches", "R1/2", "R3/4", "R5/6", "R7/8"],
             ["Crankpin found", 2.0992, 2.0991, 2.0992, 2.0993]],
            {"B6": "rod_journal 1-2 found 2.0992 in", "E6": "rod_journal 7-8 found 2.0993 in"},
            id="two rods on one pin",
        ),
        pytest.param(
            [["Rods", "Found", "Ground"], *([f"R{n}", PIN, PIN - .01] for n in (1, 2, 3, 4))],
            {"B6": "rod_journal 1 found 2.0992 in", "C9": "rod_journal 4 machined 2.0892 in"},
            id="rods by letter",
        ),
        pytest.param(
            [["inches", "Found", "Ground"], ["M1", MAIN, MAIN - .01], ["M2", MAIN, MAIN - .01],
             ["R1", PIN, PIN - .01], ["R2", PIN, PIN - .01]],
            {"B6": "main_journal 1 found 2.4482 in", "C7": "main_journal 2 machined 2.4382 in",
             "B8": "rod_journal 1 found 2.0992 in", "C9": "rod_journal 2 machined 2.0892 in"},
            id="mains and rods by letter",
        ),
        pytest.param(
            [["Mains (in)", "Found", "Grind lo", "Grind hi", "Ground"],
             *([n, MAIN, 2.4380, 2.4390, 2.4385] for n in (1, 2, 3))],
            {"B6": "main_journal 1 found 2.4482 in", "C6": "main_journal 1 limit_low 2.438 in",
             "D7": "main_journal 2 limit_high 2.439 in",
             "E8": "main_journal 3 machined 2.4385 in"},
            id="limits to grind to",
        ),
        pytest.param(
            [["Bore (in)", "Hone min", "Hone max", "Done"],
             ["Cyl 1", 4.03, 4.031, 4.0306], ["Cyl 2", 4.03, 4.031, 4.0305]],
            {"B6": "bore 1 limit_low 4.03 in", "C7": "bore 2 limit_high 4.031 in"},
            id="limits to hone to",
        ),
    ],
)  # fmt: skip
def test_letters_of_ends_mains_and_rods(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Bore", None, None], ["Cyl (in)", "THR", "PIN"],
             [1, 4.0312, 4.0308], [2, 4.0311, 4.0307]],
            {"B7": "bore 1 thrust 4.0312 in", "C8": "bore 2 parallel 4.0307 in"},
            id="thrust and pin",
        ),
        pytest.param(
            [["Alésage (mm)", "travers", "axe"], [1, 86.03, 86.01], [2, 86.04, 86.02]],
            {"B6": "bore 1 thrust 86.03 mm", "C7": "bore 2 parallel 86.02 mm"},
            id="French",
        ),
        pytest.param(
            [["Main bore (in)", 1, 2], ["12 o'clock", 2.6412, 2.6411],
             ["3 o'clock", 2.6410, 2.6413]],
            {"B6": "main_housing_bore 1 12 o'clock 2.6412 in",
             "C7": "main_housing_bore 2 3 o'clock 2.6413 in"},
            id="a clock's face",
        ),
        pytest.param(
            [["Hauptlagerbohrung (mm)", 1, 2], ["12 Uhr", 62.012, 62.013],
             ["6 Uhr", 62.01, 62.011]],
            {"B6": "main_bearing_bore 1 12 o'clock 62.012 mm",
             "C7": "main_bearing_bore 2 6 o'clock 62.011 mm"},
            id="a German clock",
        ),
        pytest.param(
            [["Bore (mm)", "T", "M", "B"], ["Cyl 1", 86.02, 86.01, 86.0]],
            {"B6": "bore 1 top 86.02 mm", "C6": "bore 1 middle 86.01 mm",
             "D6": "bore 1 bottom 86 mm"},
            id="heights",
        ),
        pytest.param(
            [["Bore (mm)", "worn", "worn across", "honed"], ["1", 86.12, 86.08, 86.25],
             ["2", 86.13, 86.07, 86.26]],
            {"B6": "bore 1 found 86.12 mm", "C6": "bore 1 thrust found 86.08 mm",
             "D7": "bore 2 final 86.26 mm"},
            id="worn, and across it",
        ),
        pytest.param(
            [["Cylinders (front to rear)", 1, 2], ["Worn (mm)", 86.12, 86.11],
             ["Honed to (mm)", 86.25, 86.26]],
            {"B6": "bore 1 found 86.12 mm", "C7": "bore 2 final 86.26 mm"},
            id="cylinders of which a row only says when",
        ),
        pytest.param(
            [["LEFT BANK", "top", "bottom"], [1, 86.12, 86.11], [2, 86.15, 86.14]],
            {"B6": "bore 1 top 86.12 mm", "C7": "bore 2 bottom 86.14 mm"},
            id="a bank in the corner",
        ),
    ],
)  # fmt: skip
def test_where_on_a_part(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Cyl", "Fire", "2nd", "Scraper"], [1, .018, .020, .030], [2, .019, .021, .031]],
            {"B6": "top_ring_gap 1 0.018 in", "C7": "second_ring_gap 2 0.021 in",
             "D7": "oil_ring_gap 2 0.031 in"},
            id="side by side",
        ),
        pytest.param(
            [["Bore (in)", "Top", "2nd", "Oil"], [4.031, .018, .020, .030]],
            {"A6": "bore 4.031 in", "B6": "top_ring_gap 0.018 in",
             "C6": "second_ring_gap 0.02 in", "D6": "oil_ring_gap 0.03 in"},
            id="beside a bore",
        ),
        pytest.param(
            [["inches", 1, 2], ["Bore", 4.031, 4.032], ["Top", .018, .019], ["2nd", .020, .021]],
            {"B7": "top_ring_gap 1 0.018 in", "C8": "second_ring_gap 2 0.021 in"},
            id="one below the other",
        ),
        pytest.param(
            [["in", "Ring width", None], ["Cyl", "Top", "2nd"], [1, .0618, .0620]],
            {"B7": "top_ring_width 1 0.0618 in", "C7": "second_ring_width 1 0.062 in"},
            id="what stands over them is no gap",
        ),
    ],
)  # fmt: skip
def test_heads_of_rings_that_say_no_more(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Gioco valvole (mm)", "freddo"], ["A1", .20], ["A2", .21], ["S1", .25], ["S2", .26]],
            {"B6": "intake_lash 1 0.2 mm", "B7": "intake_lash 2 0.21 mm",
             "B8": "exhaust_lash 1 0.25 mm", "B9": "exhaust_lash 2 0.26 mm"},
            id="Italian, below each other",
        ),
        pytest.param(
            [["Valvole", "A1", "A2", "S1", "S2"], ["Stelo (mm)", 6.97, 6.98, 6.96, 6.95],
             ["Gioco (mm)", .20, .21, .25, .26]],
            {"B6": "intake_stem_diameter 1 6.97 mm", "C6": "intake_stem_diameter 2 6.98 mm",
             "D6": "exhaust_stem_diameter 1 6.96 mm", "E7": "exhaust_lash 2 0.26 mm"},
            id="Italian, side by side",
        ),
        pytest.param(
            [["Ventile", "Zyl. 1 EV", "Zyl. 1 AV", "Zyl. 2 EV", "Zyl. 2 AV"],
             ["Spiel (mm)", .20, .25, .21, .26], ["Schaft (mm)", 7.97, 7.96, 7.98, 7.95]],
            {"B6": "intake_lash 1 0.2 mm", "E6": "exhaust_lash 2 0.26 mm",
             "D7": "intake_stem_diameter 2 7.98 mm", "C7": "exhaust_stem_diameter 1 7.96 mm"},
            id="German, by cylinder",
        ),
        pytest.param(
            [["Ventil", "EV 1", "AV 1", "EV 2", "AV 2"], ["Schaft (mm)", 7.97, 7.96, 7.98, 7.95],
             ["Führung (mm)", 8.01, 8.02, 8.01, 8.03]],
            {"B6": "intake_stem_diameter 1 7.97 mm", "E7": "exhaust_guide_bore 2 8.03 mm"},
            id="German, by number",
        ),
    ],
)  # fmt: skip
def test_names_of_valves(tmp_path: Path, rows: Rows, expected: Mapping[str, str]) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Cyl", "Bore X", "Bore Y"], [1, 4.0012, 4.001], [2, 4.001, 4.0009]],
            {"B6": "bore 1 thrust 4.0012 in", "C7": "bore 2 parallel 4.0009 in"},
            id="bores",
        ),
        pytest.param(
            [["No.", "Main X", "Main Y"], [1, 2.4482, 2.448], [2, 2.448, 2.4478]],
            {"B6": "main_journal 1 thrust 2.4482 in", "C7": "main_journal 2 parallel 2.4478 in"},
            id="mains",
        ),
        pytest.param(
            [["", 1, 2], ["Bore X-X", 101.62, 101.6], ["Bore Y-Y", 101.61, 101.59]],
            {"B6": "bore 1 thrust 101.62 mm", "C7": "bore 2 parallel 101.59 mm"},
            id="rows",
        ),
        pytest.param(
            [["Cyl", "Bore X top", "Bore Y top", "Bore X bottom", "Bore Y bottom"],
             [1, 4.0012, 4.001, 4.0011, 4.0009], [2, 4.001, 4.0009, 4.0011, 4.001]],
            {"B6": "bore 1 top thrust 4.0012 in", "E7": "bore 2 bottom parallel 4.001 in"},
            id="heights behind them",
        ),
    ],
)  # fmt: skip
def test_axes_behind_a_part_are_places_on_it(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)

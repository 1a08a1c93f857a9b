"""Heads that tell valves, bolts or places of each part apart, which the rows count."""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


def test_numbers_of_valves_over_counted_cylinders_are_no_cylinders(tmp_path: Path) -> None:
    """The second inlet of each, and no valve of the second cylinder."""
    rows: Rows = [
        ["Lash (mm)"], ["Cyl", "In 1", "In 2", "Ex 1", "Ex 2"],
        [1, 0.15, 0.16, 0.25, 0.24], [2, 0.17, 0.16, 0.25, 0.25], [3, 0.16, 0.16, 0.26, 0.25],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "C7": "intake_lash 1 2 0.16 mm",
        "B8": "intake_lash 2 1 0.17 mm",
        "E9": "exhaust_lash 3 2 0.25 mm",
    }
    check_told(tmp_path, rows, expected)


def test_letters_below_both_sides_are_two_valves_each(tmp_path: Path) -> None:
    """Neither bank nor bottom."""
    rows: Rows = [
        ["Portées de siège (mm)"], [None, "Adm", "Adm", "Éch", "Éch"], ["Cyl", "a", "b", "a", "b"],
        [1, 1.3, 1.3, 1.7, 1.8], [2, 1.2, 1.3, 1.7, 1.7], [3, 1.3, 1.4, 1.8, 1.7],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B8": "intake_seat_width 1 a 1.3 mm",
        "C9": "intake_seat_width 2 b 1.3 mm",
        "D10": "exhaust_seat_width 3 a 1.8 mm",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("title", "heads"),
    [
        ("Laufbuchsenüberstand (mm)", ["Buchse", "Messpunkt a", "b", "c"]),
        ("Sporgenza canne, mm", ["Canna", "p.1", "p.2", "p.3"]),
    ],
)
def test_points_on_parts_that_the_rows_count(
    tmp_path: Path, title: str, heads: list[object]
) -> None:
    """What the title speaks of the rows count, by the same part."""
    rows: Rows = [
        [title], heads,
        [1, 0.05, 0.06, 0.05], [2, 0.06, 0.06, 0.07], [3, 0.05, 0.05, 0.06], [4, 0.07, 0.06, 0.06],
    ]  # fmt: skip
    # common practice, no source
    first, _, last = (str(head).casefold() for head in heads[1:])
    expected = {
        "B7": f"liner_protrusion 1 {first} 0.05 mm",
        "D8": f"liner_protrusion 2 {last} 0.07 mm",
    }
    check_told(tmp_path, rows, expected)


def test_a_word_for_bolts_and_pins_is_a_bolt_below_their_stretch(tmp_path: Path) -> None:
    """Stretch in thousandths of an inch, which no rod's bolts have in mm."""
    rows: Rows = [
        ["Estiramiento pernos de biela (milésimas de pulg.)"], ["Biela", "Perno A", "Perno B"],
        [1, 6.1, 6.2], [2, 6.0, 6.2], [3, 6.2, 6.1],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "B7": "rod_bolt_stretch 1 perno a 0.0061 in",
        "C9": "rod_bolt_stretch 3 perno b 0.0061 in",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("heads", "first"),
    [
        (["Piston", "Côté volant", "Côté distri"], "rear"),
        (["Kolben", "Lüfterseite", "Kupplungsseite"], "front"),
    ],
)
def test_ends_of_an_engine_by_what_is_fitted_there(
    tmp_path: Path, heads: list[object], first: str
) -> None:
    """A radiator or the timing stands at the front, a clutch or flywheel at the rear."""
    rows: Rows = [
        ["Piston protrusion (mm)"], heads,
        [1, 0.82, 0.84], [2, 0.8, 0.83], [3, 0.83, 0.83], [4, 0.81, 0.84],
    ]  # fmt: skip
    # common practice, no source
    last = "front" if first == "rear" else "rear"
    expected = {
        "B7": f"deck_clearance 1 {first} -0.82 mm",
        "C8": f"deck_clearance 2 {last} -0.83 mm",
    }
    check_told(tmp_path, rows, expected)

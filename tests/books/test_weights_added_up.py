"""The weights of a piston and all that goes with it, with their sum.

That shops weigh and add so is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

from books.small_sheet import Rows, check_told


def test_parts_that_a_sum_adds_up_are_no_prices(tmp_path: Path) -> None:
    rows: Rows = [
        ["Gewichte in Gramm", "vorn", "hinten"],
        ["Kolben", 418.5, 419],
        ["Kolbenbolzen", 104, 104.5],
        ["Ringe", 38.5, 38],
        ["Pleuel oben", 182, 183.5],
        ["hin- und hergehend", 743, 745],
        [],
        ["Rollen + Käfig (g)", 86.4],
    ]
    check_told(
        tmp_path,
        rows,
        {
            "B6": "piston_mass 1 418.5 g",
            "B7": "pin_mass 1 104 g",
            "C8": "ring_mass 2 38 g",
            "B9": "rod_small_end_mass 1 182 g",
            "B12": "bearing_mass 86.4 g",
        },
    )


def test_prices_that_a_sum_adds_up_stay_prices(tmp_path: Path) -> None:
    rows: Rows = [
        ["Preise", "Euro"],
        ["Kolben", 418.5],
        ["Kolbenbolzen", 104],
        ["Ringe", 38.5],
        ["Summe", 561],
    ]
    found = check_told(tmp_path, rows, {})
    assert not any("mass" in text or "diameter" in text for text in found.values())


def test_the_adjuster_of_a_valve_is_its_lash(tmp_path: Path) -> None:
    rows: Rows = [["valvola asp. registro", 0.05, "mm"], ["valvola sca. registro", 0.1, "mm"]]
    check_told(tmp_path, rows, {"B5": "intake_lash 0.05 mm", "B6": "exhaust_lash 0.1 mm"})

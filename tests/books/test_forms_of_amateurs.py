"""Lines of home builders' forms: how pistons stand, what somebody holds, when one was read."""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    ("label", "typed", "value"),
    [
        ("Piston at TDC (+ = below barrel)", 0.22, "0.22"),
        ("Piston at TDC (+ = below barrel)", -0.18, "-0.18"),
        ("Piston at TDC (+ = above barrel)", 0.18, "-0.18"),
        ("Pistons (- above block)", -0.18, "-0.18"),
        ("Deck clearance (- above block)", -0.18, "-0.18"),
    ],
)
def test_a_sign_says_that_it_is_how_a_piston_stands(
    tmp_path: Path, label: str, typed: float, value: str
) -> None:
    """Below or above may be no diameter, and its sign is the one that the label says."""
    # common practice, no source
    check_told(tmp_path, [[label, typed, "mm"]], {"B5": f"deck_clearance {value} mm"})


def test_what_stands_up_by_a_volume_is_a_dome(tmp_path: Path) -> None:
    """In cc it is no length."""
    found = check_told(tmp_path, [["Piston crown stands up (cc)", 6.5]], {})
    assert found["B5"] == "crown_volume -6.5 cc"  # common practice, no source


def test_an_opinion_about_a_kind_of_part_is_no_reading(tmp_path: Path) -> None:
    """Behind the clearances that it is about."""
    rows: Rows = [
        ["", "No. 1", "No. 2"], ["Bore now (inches)", 2.7152, 2.7153],
        ["Clearance (inches)", 0.0045, 0.0047, "he says 4.5 is right for split skirts"],
    ]  # fmt: skip
    # common practice, no source
    check_told(tmp_path, rows, {"C7": "piston_clearance 2 0.0047 in", "D7": ""})


def test_a_unit_and_when_it_was_read(tmp_path: Path) -> None:
    """Beside bores in mm a pressure is in the unit that its head begins with."""
    rows: Rows = [
        ["Liners, mm"], ["No", "new", "piston"], [1, 91.02, 90.89], [2, 91.02, 90.89], [],
        ["No", "piston proud thou", "psi before", "psi after"], [1, 6, 285, 395], [2, 7, 240, 395],
    ]  # fmt: skip
    # common practice, no source
    expected = {
        "C11": "cranking_pressure 1 found 285 psi",
        "D12": "cranking_pressure 2 final 395 psi",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("label", "value", "told"),
    [
        ("Stroke", "118 m/m", "stroke 118 mm"),
        ("Space above piston, head nipped down", "107 c.c.", "combustion_volume 107 cc"),
    ],
)
def test_old_words_and_units(tmp_path: Path, label: str, value: str, told: str) -> None:
    """As a typewriter wrote them."""
    check_told(tmp_path, [[label, value]], {"B5": told})  # common practice, no source


@pytest.mark.parametrize("heads", [("ea", "x", "g"), ("wt", "no. off", "tot"), ("je", "x", "ges.")])
def test_what_each_weighs_is_told_from_what_all_make(
    tmp_path: Path, heads: tuple[str, str, str]
) -> None:
    """Whatever the heads are called: the third is so many times the first."""
    parts = {"rod big end": (548.5, 2), "rod small end": (221.4, 1), "piston": (562.3, 1),
             "pin": (148.8, 1), "oil": (4, 1)}  # fmt: skip
    rows: Rows = [
        ["BOB WEIGHT (g)", *heads],
        *(
            [name, each, many, f"=B{n}*C{n}"]
            for n, (name, (each, many)) in enumerate(parts.items(), 6)
        ),
    ]
    # common practice, no source
    expected = {
        "B6": "rod_big_end_mass 548.5 g",
        "C6": "",
        "D6": "",
        "B8": "piston_mass 562.3 g",
        "B10": "oil_allowance 4 g",
        "C10": "",
    }
    check_told(tmp_path, rows, expected)


def test_the_small_end_of_rods_in_short(tmp_path: Path) -> None:
    """ "rod BE" and "rod SE" beside what both make."""
    rows: Rows = [
        ["grams"], ["", "rod BE", "rod SE", "rod tot"],
        [1, 428.6, 171.2, "=B7+C7"], [2, 428.8, 171.4, "=B8+C8"],
    ]  # fmt: skip
    # common practice, no source
    expected = {"B7": "rod_big_end_mass 1 428.6 g", "C8": "rod_small_end_mass 2 171.4 g"}
    check_told(tmp_path, rows, expected)


def test_se_beside_be_is_the_small_end(tmp_path: Path) -> None:
    """In a list of weights that names both in two letters."""
    rows: Rows = [["grams"], ["", "piston", "BE", "SE"], [1, 562, 548, 221], [2, 563, 549, 222]]
    # common practice, no source
    expected = {"C7": "rod_big_end_mass 1 548 g", "D8": "rod_small_end_mass 2 222 g"}
    check_told(tmp_path, rows, expected)

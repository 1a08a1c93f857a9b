"""Sizes below or beside a short title: of what part, and of which property of it.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told, told


@pytest.mark.parametrize("head", ["Unbalance (oz-in)", "Imbalance (oz-in)"])
def test_an_unbalance_at_both_ends_is_no_bore(tmp_path: Path, head: str) -> None:
    rows: Rows = [[head, "First spin", "Final"], ["Front", 1.85, 0.32], ["Rear", 2.1, 0.41]]
    found = check_told(tmp_path, rows, {})
    measured = {at: words.split()[0] for at, words in found.items()}
    assert measured == dict.fromkeys(("B6", "C6", "B7", "C7"), "crank_unbalance")
    assert all(words.endswith("oz.in") for words in found.values())
    assert ("found" in found["B6"], "final" in found["C6"]) == (True, True)


@pytest.mark.parametrize(
    "title",
    [
        "Ring side clearance (limit .0035)", "Ring side clearance", "Ring side clr (in)",
        "Ring side play, inches",
    ],
)  # fmt: skip
def test_rings_below_their_side_clearance_have_no_gaps(tmp_path: Path, title: str) -> None:
    rows: Rows = [[title], ["Top", 0.0016], ["2nd", 0.0018], ["Oil", 0.0021]]
    expected = {
        "B6": "top_ring_side_clearance 0.0016 in", "B7": "second_ring_side_clearance 0.0018 in",
        "B8": "oil_ring_side_clearance 0.0021 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("title", "measured", "sizes"),
    [
        ("Ring side clearance (limit .0035)", "side_clearance", (".0016", ".0018")),
        ("Ring gaps", "gap", (".016", ".018")),
    ],
)
def test_rings_with_their_sizes_in_one_cell_are_of_the_title(
    tmp_path: Path, title: str, measured: str, sizes: tuple[str, str]
) -> None:
    top, second = sizes
    rows: Rows = [[title], [f"Top {top}"], [f"2nd {second}"]]
    expected: Mapping[str, str] = {
        "A6": f"top_ring_{measured} {float(top):g} in",
        "A7": f"second_ring_{measured} {float(second):g} in",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Deck heights, all within a thou", 1, 2, 3], ["", 9.0251, 9.0248, 9.025]],
            {"B6": "deck_height 1 9.0251 in", "D6": "deck_height 3 9.025 in"},
            id="over counted columns",
        ),
        pytest.param(
            [["Deck heights (in), all within one thou"], [1, 9.0251], [2, 9.0248]],
            {"B6": "deck_height 1 9.0251 in"},
            id="a title with its unit",
        ),
        pytest.param(
            [["Main journals, within .0005"], [1, 2.4482], [2, 2.448], [3, 2.4483]],
            {"B6": "main_journal 1 2.4482 in", "B8": "main_journal 3 2.4483 in"},
            id="a title over counted rows",
        ),
        pytest.param(
            [["Rod journals, all to within .0003"], ["#1", 2.0998], ["#2", 2.0997]],
            {"B6": "rod_journal 1 2.0998 in"},
            id="a title over numbers with their sign",
        ),
    ],
)  # fmt: skip
def test_how_near_sizes_are_to_each_other_is_no_unit_of_theirs(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


CRANKPINS = {f"{column}5": n for n, column in enumerate("BCDE", 1)}


@pytest.mark.parametrize("label", ["PINS (4)", "Pins (4)", "Crankpins (4)", "Rod journals (4)"])
def test_how_many_there_are_is_no_number_of_one(tmp_path: Path, label: str) -> None:
    rows: Rows = [[label, 2.0994, 2.0993, 2.0995, 2.0992]]
    sizes = dict(zip(CRANKPINS, rows[0][1:], strict=True))
    expected = {at: f"rod_journal {n} {sizes[at]} in" for at, n in CRANKPINS.items()}
    check_told(tmp_path, rows, expected)


def test_pins_counted_over_their_sizes_are_crankpins_by_their_thickness(tmp_path: Path) -> None:
    sizes = [[2.0994], [2.0993], [2.0995], [2.0992]]
    expected = {f"A{n + 5}": f"rod_journal {n} {sizes[n - 1][0]} in" for n in range(1, 5)}
    check_told(tmp_path, [["PINS (4)"], *sizes], expected)
    thin: Rows = [["PINS (4)"], [0.9272], [0.9272], [0.9271], [0.9272]]
    check_told(tmp_path, thin, {"A6": "pin_diameter 1 0.9272 in", "A9": "pin_diameter 4 0.9272 in"})


@pytest.mark.parametrize(
    ("head", "measured"),
    [
        ("Inj tip out (mm)", "injector_protrusion"),
        ("Tip out (mm)", "injector_protrusion"),
        ("Nozzle out (mm)", "injector_protrusion"),
    ],
)
def test_a_tip_that_is_out_of_its_face_is_not_finished(
    tmp_path: Path, head: str, measured: str
) -> None:
    rows: Rows = [["Cyl", head], [1, 2.1], [2, 2.2], [3, 2.15]]
    check_told(tmp_path, rows, {"B6": f"{measured} 1 2.1 mm", "B8": f"{measured} 3 2.15 mm"})


def test_bores_in_and_out_are_found_and_finished(tmp_path: Path) -> None:
    rows: Rows = [["Cyl", "Bore in (mm)", "Bore out (mm)"], [1, 101.62, 102.1], [2, 101.61, 102.11]]
    check_told(tmp_path, rows, {"B6": "bore 1 found 101.62 mm", "C7": "bore 2 final 102.11 mm"})


@pytest.mark.parametrize(
    "rows",
    [
        [["Intake runner volume (cc)", 1, 2, 3, 4], ["", 182, 183, 182, 184]],
        [["Cyl", "Intake runner volume (cc)"], [1, 182.2], [2, 183.1], [3, 182.4]],
        [["Heads"], ["Intake runner volume (cc)", 182], ["Runner cc", 182]],
    ],
    ids=["a row", "a column", "labels"],
)
def test_what_a_runner_holds_is_no_chamber(tmp_path: Path, rows: Rows) -> None:
    found = told(tmp_path, rows)
    assert not [words for words in found.values() if "volume" in words], found


@pytest.mark.parametrize("heads", [("Cyl 1", "Cyl 2", "Cyl 3"), (1, 2, 3)], ids=str)
@pytest.mark.parametrize(
    ("corner", "unit", "sizes", "words"),
    [
        ("Liner proud", "mm", (0.31, 0.32, 0.3), "liner_protrusion {} {} mm"),
        ("Liner proud", "thou", (3.1, 3.2, 3.0), "liner_protrusion {} {} thou"),
        ("Bore", "mm", (101.62, 101.6, 101.61), "bore {} {} mm"),
    ],
)
def test_a_row_named_by_its_unit_measures_what_the_corner_says(
    tmp_path: Path,
    heads: tuple[object, ...],
    corner: str,
    unit: str,
    sizes: tuple[float, ...],
    words: str,
) -> None:
    found = told(tmp_path, [[corner, *heads], [unit, *sizes]])
    shown = [size / 1000 if unit == "thou" else size for size in sizes]
    expected = [words.format(n, f"{size:g}") for n, size in enumerate(shown, 1)]
    assert [found[at] for at in ("B6", "C6", "D6")] == [w.replace("thou", "in") for w in expected]

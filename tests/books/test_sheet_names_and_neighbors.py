"""What the name of a sheet, the head over a column of numbers, or what stands beside them says.

That builders write so is common practice, no source; sizes are from memory, and sound with each
other.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from small_sheet import Rows, check_told, told


@pytest.mark.parametrize(
    ("sheet", "label", "size", "reading"),
    [
        ("Block", "Flatness", 0.03, "deck_flatness 0.03 mm"),
        ("Heads", "Height", 101.6, "head_height 101.6 mm"),
        ("Camshaft", "Runout", 0.02, "cam_runout 0.02 mm"),
        ("Crankshaft", "Finish Ra", 0.4, "journal_finish 0.0004 mm"),
        ("Heads", "Finish Ra", 0.4, "head_finish 0.0004 mm"),
    ],
)
def test_the_name_of_a_sheet_says_the_part_that_a_label_leaves_open(
    tmp_path: Path, sheet: str, label: str, size: float, reading: str
) -> None:
    check_told(tmp_path, [["mm"], [label, size]], {"B6": reading}, sheet)


def test_a_roughness_is_of_the_journals_beside_it(tmp_path: Path) -> None:
    rows = [["Ra", 0.2, 0.21, 0.2], ["Journal (mm)", 54.97, 54.97, 54.97]]
    check_told(
        tmp_path, rows, {"B5": "journal_finish 1 0.0002 mm", "C5": "journal_finish 2 0.00021 mm"}
    )


def test_journals_are_named_by_the_head_over_what_counts_them(tmp_path: Path) -> None:
    rows = [["in mm"], ["Zapfen Nr.", "vorher", "nachher"], [1, 59.97, 59.72], [2, 59.96, 59.72]]
    found = told(tmp_path, rows)
    # Of mains or of rods: nothing says it, and they are asked about.
    assert found["B7"] == "asked: main_journal 1 found 59.97 mm"
    assert found["C7"] == "asked: main_journal 1 final 59.72 mm"


def test_what_may_be_two_things_waits_for_what_can_be_one_only(tmp_path: Path) -> None:
    rows = [["mm"], ["Cyl", "Stem dia", "Inlet stem"], [1, 6.95, 6.97], [2, 6.95, 6.97]]
    expected = {"B7": "exhaust_stem_diameter 1 6.95 mm", "C7": "intake_stem_diameter 1 6.97 mm"}
    check_told(tmp_path, rows, expected)


def test_two_eyes_of_a_rod_are_its_big_end_and_its_small_end(tmp_path: Path) -> None:
    rows = [["inches"], ["Rod", "Eye", "Eye"], [1, 2.2250, 0.927], [2, 2.2251, 0.927]]
    expected = {"B7": "rod_housing_bore 1 2.225 in", "C7": "small_end_bore 1 0.927 in"}
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("label", "sizes", "reading"),
    [
        pytest.param("Slug", (85.97, 85.96), "piston_diameter 1 85.97 mm", id="slug, a piston"),
        pytest.param("Squeeze", (1.02, 1.04), "quench 1 1.02 mm", id="squeeze, a height"),
        pytest.param("Squeeze", (165, 170), "cranking_pressure 1 165 psi", id="squeeze, a test"),
    ],
)
def test_sizes_say_what_a_word_of_two_meanings_is(
    tmp_path: Path, label: str, sizes: tuple[float, float], reading: str
) -> None:
    rows = [["mm"], ["Cyl", "Bore", label], [1, 86.02, sizes[0]], [2, 86.02, sizes[1]]]
    check_told(tmp_path, rows, {"C7": reading})


def test_weights_below_counted_heads_that_add_up_are_no_prices(tmp_path: Path) -> None:
    rows = [["Part", "Cyl 1", "Cyl 2"], ["Piston", 412, 413], ["Pin", 118, 118], ["Rings", 52, 52],
            ["Total", 582, 583]]  # fmt: skip
    expected = {
        "B6": "piston_mass 1 412 g", "C7": "pin_mass 2 118 g", "B8": "ring_mass 1 52 g",
        "B9": "not understood: 1 582",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_prices_that_add_up_are_still_none_of_anything_measured(tmp_path: Path) -> None:
    rows = [["Part", "Charge"], ["Piston", 412], ["Pin", 118], ["Rings", 52], ["Total", 582]]
    assert not {f"B{n}" for n in range(6, 10)} & {*told(tmp_path, rows)}


@pytest.mark.parametrize(
    ("text", "number", "reading"),
    [
        pytest.param("dish + dome -", -4.5, "crown_volume -4.5 cc", id="behind the words"),
        pytest.param("dish - dome +", -4.5, "crown_volume 4.5 cc", id="behind, the other way"),
        pytest.param("+ dish - dome", -4.5, "crown_volume -4.5 cc", id="before the words"),
        pytest.param(
            "Hand-dished pistons", 6.2, "asked: crown_volume 6.2 cc", id="no sign within a word"
        ),
        pytest.param(
            "Semi-domed heads fitted", 6.2, "asked: crown_volume 6.2 cc", id="nor of a dome"
        ),
    ],
)
def test_a_text_tells_what_the_sign_of_a_crown_means(
    tmp_path: Path, text: str, number: float, reading: str
) -> None:
    check_told(tmp_path, [[text], ["Crown volume cc", number]], {"B6": reading})


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["mm"], ["Rod", "Bore", "Journal"], [1, 56.51, 53.33], [2, 56.52, 53.32]],
            {"B7": "rod_housing_bore 1 56.51 mm", "C7": "rod_journal 1 53.33 mm"},
            id="with shells between",
        ),
        pytest.param(
            [["mm"], ["Rod", "Bore", "Journal"], [1, 53.38, 53.33], [2, 53.37, 53.32]],
            {"B7": "rod_bearing_bore 1 53.38 mm", "C7": "rod_journal 1 53.33 mm"},
            id="with the shells in",
        ),
        pytest.param(
            [["mm"], ["Rod", "Eye", "Crankpin"], [1, 56.5, 53.33], [2, 56.5, 53.32]],
            {"B7": "rod_housing_bore 1 56.5 mm"},
            id="an eye around the crankpin",
        ),
        pytest.param(
            [["mm"], ["Rod", "Eye", "Crankpin"], [1, 22.5, 53.33], [2, 22.5, 53.32]],
            {"B7": "small_end_bore 1 22.5 mm"},
            id="an eye below the crankpin",
        ),
    ],
)
def test_the_bore_of_a_rod_is_measured_with_or_without_shells_as_its_journal_says(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


def test_many_sizes_that_fit_nothing_else_make_up_for_words_nobody_knows(tmp_path: Path) -> None:
    rows = [["mm"], ["No", "Bore of the thing now"], *([n, 86 + n / 100] for n in range(1, 7))]
    check_told(tmp_path, rows, {"B7": "bore 1 final 86.01 mm"})


@pytest.mark.parametrize("part", ["Pin", "Main"])
def test_the_finish_below_heads_that_count_journals_is_theirs(tmp_path: Path, part: str) -> None:
    rows = [
        ["mm"],
        ["", f"{part} 1", f"{part} 2"],
        ["Journal", 49.97, 49.96],
        ["Finish", 0.2, 0.25],
    ]
    check_told(tmp_path, rows, {"B8": "journal_finish 1 0.0002 mm"})


@pytest.mark.parametrize("word", ["Bow", "Bend"])
@pytest.mark.parametrize(
    ("beside", "bow", "bend"),
    [
        pytest.param([["Main journal", 54.97], ["Crankpin", 47.97]], "crank_runout", "crank_runout",
                     id="journals"),
        pytest.param([["Main journal", 54.97], ["Head height", 120.1]], "head_flatness", "rod_bend",
                     id="journals and a head"),
        pytest.param([["Bore", 86.01], ["Head height", 120.1]], "head_flatness", "rod_bend",
                     id="a head"),
        pytest.param([["Main journal", 54.97], ["Rod length", 140]], "head_flatness", "rod_bend",
                     id="journals and a rod"),
    ],
)  # fmt: skip
def test_a_bow_or_a_bend_is_the_cranks_among_journals_alone(
    tmp_path: Path, beside: Rows, bow: str, bend: str, word: str
) -> None:
    meant = {"Bow": bow, "Bend": bend}[word]
    check_told(tmp_path, [["mm"], *beside, [word, 0.03]], {"B8": f"{meant} 0.03 mm"})

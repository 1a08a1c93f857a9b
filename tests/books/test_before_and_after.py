"""When a size was taken: before and after in heads, in rows, between values, and by neighbors.

That builders write so is common practice, no source; sizes are from memory, and sound with each
other.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from small_sheet import check_told

from workbook_tools.labels.which_told import which_of

CYLINDERS = ["mm", "Cyl 1", "Cyl 2"]


@pytest.mark.parametrize(
    ("heads", "stages"),
    [
        pytest.param(("Alésage av. (mm)", "Alésage ap. (mm)"), ("found", "final"), id="French"),
        pytest.param(("Bore in", "Machined"), ("found", "machined"), id="in and machined"),
        pytest.param(("Worst hole in", "Finish"), ("found", "final"), id="in and finish"),
        pytest.param(("Before", "Finish"), ("found", "final"), id="sizes below finish"),
    ],
)  # fmt: skip
def test_two_heads_say_before_and_after(
    tmp_path: Path, heads: tuple[str, str], stages: tuple[str, str]
) -> None:
    rows = [["Bore, inches"], ["Cyl", *heads, "Piston"], [1, 4.01, 4.03, 4.026],
            [2, 4.01, 4.03, 4.026]]  # fmt: skip
    if "mm" in heads[0]:
        rows = [["Cyl", *heads, "Piston (mm)"], [1, 81.05, 81.5, 81.45], [2, 81.06, 81.51, 81.45]]
    found = check_told(tmp_path, rows, {})
    first = f"B{4 + len(rows) - 1}", f"C{4 + len(rows) - 1}"
    assert [found[at].split()[:3] for at in first] == [["bore", "1", stage] for stage in stages]


@pytest.mark.parametrize(
    ("heads", "measurands"),
    [
        pytest.param(("Bore in", "Piston in"), ("bore 1 4.004 in", "piston_diameter 1 4 in"),
                     id="two heads in inches"),
        pytest.param(("Bore in", "Piston in", "Finish"), ("bore 1 4.004 in",
                     "piston_diameter 1 4 in", "bore 1 final 4.03 in"), id="two, and a finish"),
    ],
)  # fmt: skip
def test_several_heads_that_end_with_in_are_inches(
    tmp_path: Path, heads: tuple[str, ...], measurands: tuple[str, ...]
) -> None:
    sizes = (4.004, 4.000, 4.03)[: len(heads)]
    rows = [["inches"], ["Cyl", *heads], [1, *sizes], [2, *sizes]]
    check_told(tmp_path, rows, dict(zip(("B7", "C7", "D7"), measurands, strict=False)))


def test_a_finish_that_is_a_roughness_is_no_size(tmp_path: Path) -> None:
    rows = [["Cyl", "Before (mm)", "Finish"], [1, 86.01, 0.4], [2, 86.01, 0.5]]
    check_told(tmp_path, rows, {"B6": "bore 1 found 86.01 mm", "C6": "bore_finish 1 0.0004 mm"})


def test_a_short_before_that_nothing_stands_after_says_no_stage(tmp_path: Path) -> None:
    rows = [["Cyl", "Alésage av. (mm)", "Piston (mm)"], [1, 81.05, 80.9], [2, 81.06, 80.9]]
    check_told(tmp_path, rows, {"B6": "bore 1 81.05 mm", "C7": "piston_diameter 2 80.9 mm"})


def test_a_lone_front_in_french_stays_a_place(tmp_path: Path) -> None:
    rows = [["mm"], ["Palier avant", 54.97], ["Palier arrière", 54.96]]
    expected = {"B6": "main_journal front 54.97 mm", "B7": "main_journal rear 54.96 mm"}
    check_told(tmp_path, rows, expected)


def test_avant_with_a_unit_over_apres_is_before_the_work(tmp_path: Path) -> None:
    rows = [["Alésage avant (mm)", 81.05], ["Alésage après (mm)", 81.5]]
    check_told(tmp_path, rows, {"B5": "bore found 81.05 mm", "B6": "bore final 81.5 mm"})


def test_short_before_and_after_in_a_column_say_it_of_their_rows(tmp_path: Path) -> None:
    rows = [["mm"], ["Palier", "Relevé", "Tourillon"], [1, "av.", 54.97], [1, "ap.", 54.72],
            [2, "av.", 54.96], [2, "ap.", 54.72]]  # fmt: skip
    expected = {
        "C7": "main_journal 1 found 54.97 mm", "C8": "main_journal 1 final 54.72 mm",
        "C9": "main_journal 2 found 54.96 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


# -- rows


@pytest.mark.parametrize(
    ("first", "second"),
    [
        pytest.param("Bore as received", "finished", id="other words"),
        pytest.param("Bore before", "after", id="before and after"),
        pytest.param("Bore – before", "– after", id="behind dashes"),
    ],
)
def test_a_row_that_says_only_when_is_of_the_size_above_it_at_its_own_time(
    tmp_path: Path, first: str, second: str
) -> None:
    rows = [CYLINDERS, [first, 81.05, 81.06], [second, 81.5, 81.51], ["Piston skirt", 80.9, 80.91]]
    expected = {
        "B6": "bore 1 found 81.05 mm", "B7": "bore 1 final 81.5 mm", "C7": "bore 2 final 81.51 mm",
        "B8": "piston_diameter 1 80.9 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_when_and_where_of_a_bore_stand_in_one_name() -> None:
    told = {text: which_of(text) for text in ("as received, top", "finished, bottom")}
    assert {text: (w.stage, w.at) if w else None for text, w in told.items()} == {
        "as received, top": ("found", ("top",)), "finished, bottom": ("final", ("bottom",)),
    }  # fmt: skip
    assert which_of("min, top") is None


def test_a_step_over_the_standard_size_is_no_number_of_a_main(tmp_path: Path) -> None:
    rows = [["inches"], *([f"Main {n} ground -20", 2.4280 + n / 1e4] for n in (1, 2, 3))]
    expected = {
        "B6": "main_journal 1 machined 2.4281 in",
        "B8": "main_journal 3 machined 2.4283 in",
    }
    check_told(tmp_path, rows, expected)


def test_a_stage_between_two_values_of_a_row_is_of_the_second(tmp_path: Path) -> None:
    rows = [["mm"], ["Crank runout before", 0.03, "after", 0.01]]
    expected = {"B6": "crank_runout found 0.03 mm", "D6": "crank_runout final 0.01 mm"}
    check_told(tmp_path, rows, expected)


def test_final_1_and_final_2_are_of_two_cylinders(tmp_path: Path) -> None:
    rows = [["mm", "As received 1", "As received 2", "Final 1", "Final 2"],
            ["Bore", 81.05, 81.06, 81.5, 81.51]]  # fmt: skip
    expected = {"C6": "bore 2 found 81.06 mm", "E6": "bore 2 final 81.51 mm"}
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("second", ["as received B", "as received (90°)", "as received, Y"])
def test_a_size_taken_again_at_a_right_angle_is_across(tmp_path: Path, second: str) -> None:
    rows = [["Main journal", "as received A", second], ["mm", "", ""], [1, 54.97, 54.96],
            [2, 54.97, 54.95], [3, 54.97, 54.95]]  # fmt: skip
    found = check_told(tmp_path, rows, {})
    assert found["B7"] == "main_journal 1 found 54.97 mm"
    assert found["C7"] == "main_journal 1 across found 54.96 mm"


# -- by neighbors


def test_a_roundness_past_the_limits_of_what_was_found_was_found_too(tmp_path: Path) -> None:
    rows = [["mm"], ["Cyl", "Bore before", "Min", "Max", "Out of round", "Bore after"],
            [1, 81.05, 81, 81.02, 0.04, 81.5], [2, 81.06, 81, 81.02, 0.05, 81.5]]  # fmt: skip
    expected = {
        "C7": "bore 1 limit_low 81 mm", "E7": "bore_out_of_round 1 found 0.04 mm",
        "F7": "bore 1 final 81.5 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_a_roundness_before_no_finished_size_is_not_said_to_be_found(tmp_path: Path) -> None:
    rows = [["mm"], ["Cyl", "Bore before", "Out of round", "Piston"], [1, 81.05, 0.04, 80.9],
            [2, 81.06, 0.05, 80.9]]  # fmt: skip
    check_told(tmp_path, rows, {"C7": "bore_out_of_round 1 0.04 mm"})


def test_least_and_most_of_each_below_a_title_of_what_was_found_are_found(tmp_path: Path) -> None:
    rows = [["As found, mm"], ["Cyl", "Bore max"], [1, 86.08], [2, 86.09], [3, 86.1]]
    check_told(tmp_path, rows, {"B7": "bore 1 found 86.08 mm", "B9": "bore 3 found 86.1 mm"})


# -- journals below heads that count them


TAKEN = ("As rec'd A", "As rec'd B (90°)", "Ground to", "Limit low")
MAINS = ((2.448, 2.4481), (2.4478, 2.4479), (2.4385, 2.4384), (2.4375, 2.4375))
PINS = ((2.099, 2.0991), (2.0988, 2.0989), (2.0895, 2.0894), (2.0885, 2.0885))


@pytest.mark.parametrize("gap", [pytest.param([], id="in one"), pytest.param([[]], id="apart")])
@pytest.mark.parametrize("corner", ["", "CRANK"])
def test_rows_that_say_when_are_of_the_journals_that_the_heads_count(
    tmp_path: Path, corner: str, gap: list[list[object]]
) -> None:
    rows = [["inches"], [corner, "Main 1", "Main 2"],
            *([name, *sizes] for name, sizes in zip(TAKEN, MAINS, strict=True)), *gap,
            [corner, "Pin 1", "Pin 2"],
            *([name, *sizes] for name, sizes in zip(TAKEN, PINS, strict=True))]  # fmt: skip
    first = 12 + len(gap)
    expected = {
        "B7": "main_journal 1 found 2.448 in", "C8": "main_journal 2 across found 2.4479 in",
        "B9": "main_journal 1 machined 2.4385 in", "C10": "main_journal 2 limit_low 2.4375 in",
        f"B{first}": "rod_journal 1 found 2.099 in",
        f"C{first + 1}": "rod_journal 2 across found 2.0989 in",
        f"B{first + 2}": "rod_journal 1 machined 2.0895 in",
        f"C{first + 3}": "rod_journal 2 limit_low 2.0885 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_rows_that_say_when_are_of_what_a_title_over_counted_heads_names(tmp_path: Path) -> None:
    rows = [["Rod bearing bores (in)"], ["", "Rod 1", "Rod 2"], ["As rec'd", 2.2252, 2.2251],
            ["Final", 2.2251, 2.225]]  # fmt: skip
    expected = {
        "B7": "rod_bearing_bore 1 found 2.2252 in",
        "C8": "rod_bearing_bore 2 final 2.225 in",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("end", ["max", "min"])
def test_the_most_and_the_least_of_what_came_in_are_found(tmp_path: Path, end: str) -> None:
    rows = [["inches"], ["Cyl", f"Came {end}", "Bored"], [1, 4.01, 4.03], [2, 4.011, 4.03]]
    check_told(tmp_path, rows, {"B7": "bore 1 found 4.01 in", "C8": "bore 2 machined 4.03 in"})


def test_avant_over_numbered_cylinders_is_before_the_work(tmp_path: Path) -> None:
    rows = [["mm"], ["", 1, 2, 3], ["Alésage avant", 81.05, 81.06, 81.05]]
    check_told(tmp_path, rows, {"B7": "bore 1 found 81.05 mm", "D7": "bore 3 found 81.05 mm"})


@pytest.mark.parametrize(
    ("title", "stage"),
    [
        pytest.param("Hartfield Motor Machine", "", id="a shop"),
        pytest.param("Hartfield Machine", "", id="one in short"),
        pytest.param("Machined", "machined ", id="a stage"),
        pytest.param("Machined sizes", "machined ", id="a stage of sizes"),
    ],
)
def test_the_name_of_a_shop_over_sizes_says_no_stage(
    tmp_path: Path, title: str, stage: str
) -> None:
    rows = [[title], ["mm", 1, 2, 3], ["Bore", 86.01, 86.02, 86.01]]
    check_told(tmp_path, rows, {"B7": f"bore 1 {stage}86.01 mm"})


# -- worn


@pytest.mark.parametrize(
    ("label", "first", "second"),
    [
        pytest.param("Out of round before", "asked: bore_out_of_round 1 found 3 mm",
                     "bore_out_of_round 2 found 0.3 mm", id="out of round"),
        pytest.param("Bore finish before (mm)", "asked: bore_finish 1 found 3 mm",
                     "asked: bore_finish 2 found 0.3 mm", id="roughness"),
        pytest.param("Piston clearance before", "asked: piston_clearance 1 found 3 mm",
                     "piston_clearance 2 found 0.3 mm", id="clearance"),
        pytest.param("Out of round after", "asked: bore_out_of_round 1 final 3 mm",
                     "asked: bore_out_of_round 2 final 0.3 mm", id="finished"),
    ],
)  # fmt: skip
def test_what_wear_explains_is_read_and_what_it_does_not_is_asked_about(
    tmp_path: Path, label: str, first: str, second: str
) -> None:
    rows = [["mm", "Cyl 1", "Cyl 2"], ["Bore before", 86.01, 86.02], [label, 3, 0.3]]
    check_told(tmp_path, rows, {"B7": first, "C7": second})


def test_sizes_that_say_in_their_cell_when_they_were_taken(tmp_path):
    rows = [
        ["CULASSE (mm)", "retrait adm.", "retrait éch."],
        ["cyl 1", 0.94, 1.05],
        ["cyl 2", 0.96, 1.12],
        ["planéité culasse", "avant 0,12", "après 0,02"],
        ["voile volant", "avant 0,08"],
    ]
    expected = {
        "B6": "intake_valve_recession 1 0.94 mm",
        "B8": "head_flatness found 0.12 mm",
        "C8": "head_flatness final 0.02 mm",
    }
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("heads", "stages"),
    [
        (("comp in psi", "comp out psi"), ("found", "final")),
        (("compr. avant bar", "compr. après bar"), ("found", "final")),
    ],
)
def test_what_went_in_and_out_with_its_unit(tmp_path, heads, stages):
    numbers = (112, 124) if "psi" in heads[0] else (17, 25.5)
    rows = [["hole", *heads], *([n, *numbers] for n in (1, 2, 3))]
    found = check_told(tmp_path, rows, {})
    told = [found[f"{c}6"].split()[:3] for c in "BC"]
    assert told == [["cranking_pressure", "1", stage] for stage in stages]


def test_the_new_size_beside_the_old_one_is_no_wish(tmp_path):
    rows = [["", "Altmaß", "Neumaß", "Soll"], ["Bohrung (mm)", 80.1, 80.51, "80,50–80,52"]]
    found = check_told(tmp_path, rows, {"B6": "bore found 80.1 mm", "C6": "bore final 80.51 mm"})
    assert "target" in found["D6"]


def test_what_came_in_and_went_out_in_one_row(tmp_path):
    rows = [
        ["all sizes in mm"],
        ["Deck height in", 214.62, "out", 214.5],
        ["Bow at centre main", 0.06, "after press", 0.02],
    ]
    expected = {
        "B6": "deck_height found 214.62 mm",
        "D6": "deck_height final 214.5 mm",
        "B7": "crank_runout middle found 0.06 mm",
        "D7": "crank_runout middle final 0.02 mm",
    }
    check_told(tmp_path, rows, expected)


def test_places_of_what_came_in(tmp_path):
    rows = [
        ["Cylinder (mm)", 1, 2, 3],
        ["In: top", 80.33, 80.36, 80.37],
        ["In: bottom", 80.27, 80.27, 80.28],
        ["Finish bore", 80.765, 80.765, 80.762],
    ]
    expected = {"B6": "bore 1 top found 80.33 mm", "D8": "bore 3 final 80.762 mm"}
    check_told(tmp_path, rows, expected)


def test_a_row_of_steps_under_the_standard_size_is_no_row_of_journals(tmp_path):
    rows = [
        ["Main journals (in)", 1, 2, 3],
        ["As rec'd", 2.9949, 2.9920, 2.9945],
        ["Ground to", 2.9784, 2.9786, 2.9784],
        ["Undersize", "-.020", "-.020", "-.020"],
    ]
    found = check_told(tmp_path, rows, {"C7": "main_journal 2 machined 2.9786 in"})
    assert "main_journal" not in found.get("B8", "")


@pytest.mark.parametrize(
    ("flatness", "height"),
    [
        pytest.param("Head flatness before / after", "Head height was/now", id="English"),
        pytest.param("Planheit Kopf vorher/nachher", "Kopfhöhe vorher / nachher", id="German"),
        pytest.param("Planéité avant / après", "Hauteur culasse avant / après", id="French"),
        pytest.param("Planitud antes / después", "Altura de culata antes/después", id="Spanish"),
        pytest.param("Planarità testa prima/dopo", "Altezza testa prima / dopo", id="Italian"),
    ],
)
def test_one_label_names_two_values_before_and_after(
    tmp_path: Path, flatness: str, height: str
) -> None:
    rows = [["mm"], [flatness, 0.09, 0.02], [height, 139.55, 139.4]]
    expected = {
        "B6": "head_flatness found 0.09 mm", "C6": "head_flatness final 0.02 mm",
        "B7": "head_height found 139.55 mm", "C7": "head_height final 139.4 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    "row",
    [
        pytest.param(["Hauteur culasse, avant", 133.02, "après", 132.88], id="avant, no front"),
        pytest.param(["Hauteur culasse", "avant", 133.02, "après", 132.88], id="a word each"),
        pytest.param(["Kopfhöhe", "vorher", 133.02, "nachher", 132.88], id="German"),
        pytest.param(
            ["Hauteur culasse, avant", 133.02, "après", 132.88, "mini 132,70"], id="a limit"
        ),
    ],
)
def test_words_between_values_say_before_and_after(tmp_path: Path, row: list[object]) -> None:
    found = check_told(tmp_path, [["mm"], row], {})
    sizes = [found[f"{'ABCDE'[n]}6"] for n, text in enumerate(row) if isinstance(text, float)]
    assert sizes == ["head_height found 133.02 mm", "head_height final 132.88 mm"]

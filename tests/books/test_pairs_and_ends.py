"""Which ones rows and heads name: pairs on a throw, valves of a cylinder, ends and sides.

That builders write so is common practice, no source; sizes are from memory, and sound with each
other.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from small_sheet import Rows, check_told, told

from workbook_tools.labels.cell_kinds import kind_of_text

CYLINDERS = ["mm", 1, 2, 3, 4]
BORES = ["Bore", 86.01, 86.02, 86.01, 86.01]


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["mm"], ["Pin", "Crankpin"], ["1/2", 54.97], ["3/4", 54.96], ["5/6", 54.97]],
            {"A7": "", "B7": "rod_journal 1-2 54.97 mm", "B9": "rod_journal 5-6 54.97 mm"},
            id="counted in a column",
        ),
        pytest.param(
            [["mm"], ["", "Crankpin"], ["Throw 1-2", 54.97], ["Throw 3-4", 54.96]],
            {"B7": "rod_journal 1-2 54.97 mm", "B8": "rod_journal 3-4 54.96 mm"},
            id="counted by the names of rows",
        ),
        pytest.param(
            [CYLINDERS, BORES, ["Rod side clearance per pr", 0.35, None, 0.36, None]],
            {"B7": "rod_side_clearance 1-2 0.35 mm", "D7": "rod_side_clearance 3-4 0.36 mm"},
            id="said by a short word",
        ),
        pytest.param(
            [CYLINDERS, BORES, ["Side clearance", 0.35, None, 0.36, None]],
            {"B7": "rod_side_clearance 1 0.35 mm", "D7": "rod_side_clearance 3 0.36 mm"},
            id="said by nothing",
        ),
    ],
)
def test_sizes_of_two_cylinders_are_of_both(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


def test_a_cell_merged_over_two_cylinders_is_of_both(tmp_path: Path) -> None:
    rows = [CYLINDERS, BORES, ["Side clearance", 0.35, None, 0.36, None]]
    found = told(tmp_path, rows, merged=("B7:C7", "D7:E7"))
    assert found["B7"] == "rod_side_clearance 1-2 0.35 mm"
    assert found["D7"] == "rod_side_clearance 3-4 0.36 mm"


def test_a_fraction_that_counts_no_pairs_is_none(tmp_path: Path) -> None:
    rows = [["mm"], ["Pin", "Crankpin"], ["1/2", 54.97], ["3/4", 54.96], ["5/8", 54.97]]
    assert "1-2" not in told(tmp_path, rows)["B7"]


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["mm"], ["Valve", "Inlet stem dia"], ["1F", 8.96], ["1R", 8.95], ["2F", 8.96],
             ["2R", 8.97]],
            {"A7": "", "B7": "intake_stem_diameter 1 front 8.96 mm",
             "B10": "intake_stem_diameter 2 rear 8.97 mm"},
            id="front and rear valve",
        ),
        pytest.param(
            [["mm"], ["Rod bolt", "Stretch"], ["1a", 0.14], ["1b", 0.15], ["2a", 0.14],
             ["2b", 0.15]],
            {"B7": "rod_bolt_stretch 1 0.14 mm", "B8": "rod_bolt_stretch 1 0.15 mm",
             "B10": "rod_bolt_stretch 2 0.15 mm"},
            id="first and second bolt",
        ),
        pytest.param(
            [["Cyl 2 inlet lash (thou)", 8], ["Cyl 2 exhaust lash (thou)", 10]],
            {"B5": "intake_lash 2 0.008 in", "B6": "exhaust_lash 2 0.01 in"},
            id="valves behind their cylinder",
        ),
        pytest.param(
            [["", "Intake", "Exhaust"], ["Opens (in BTDC, ex BBDC)", 30, 70],
             ["Closes (in ABDC, ex ATDC)", 65, 31]],
            {"B6": "intake_opening 30 deg", "C6": "exhaust_opening 70 deg",
             "B7": "intake_closing 65 deg", "C7": "exhaust_closing 31 deg"},
            id="both sides in a bracket below heads of the valves",
        ),
        pytest.param(
            [["Cam card"], ["Opens (in BTDC, ex BBDC)", 30, 70]],
            {"B6": "intake_opening 30 deg", "C6": "asked: intake_opening 70 deg"},
            id="both sides in a bracket below no heads",
        ),
        pytest.param(
            [["Ring gap mm"], ["Cyl", "1st", "2nd"], [1, 0.35, 0.4], [2, 0.36, 0.41]],
            {"C7": "second_ring_gap 1 0.4 mm", "B8": "top_ring_gap 2 0.36 mm"},
            id="rings beside the numbers of cylinders",
        ),
        pytest.param(
            [["mm", "Inlet front", "Inlet rear", "Exhaust front", "Exhaust rear"],
             ["Stem dia", 6.97, 6.98, 6.95, 6.96]],
            {"B6": "intake_stem_diameter 1 6.97 mm", "E6": "exhaust_stem_diameter 2 6.96 mm"},
            id="a valve at an end of a side",
        ),
    ],
)  # fmt: skip
def test_names_of_valves_bolts_and_rings_say_which_one(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("text", "kind"), [("1F", "text"), ("1f", "measured"), ("180F", "measured")]
)
def test_a_valve_at_an_end_is_written_in_capitals_and_is_no_temperature(
    text: str, kind: str
) -> None:
    assert kind_of_text(text) == kind


def test_mains_between_front_and_rear_are_counted_from_the_front(tmp_path: Path) -> None:
    rows = [["mm", "Front", 2, 3, 4, "Rear"], ["Main journal", 54.97, 54.96, 54.95, 54.94, 54.93]]
    expected = {
        "B6": "main_journal 1 54.97 mm", "C6": "main_journal 2 54.96 mm",
        "F6": "main_journal 5 54.93 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_what_heads_say_beside_their_numbers_is_left_out_where_they_count(tmp_path: Path) -> None:
    rows = [["mm", "1 mag", "2 center", "3 drive"], ["Main journal", 24.97, 24.96, 24.95]]
    expected = {"B6": "main_journal 1 24.97 mm", "D6": "main_journal 3 24.95 mm"}
    check_told(tmp_path, rows, expected)


def test_a_lone_large_number_before_a_size_counts_nothing(tmp_path: Path) -> None:
    check_told(tmp_path, [["Cyl", "Bore (mm)"], [30, 86.01]], {"B6": "bore 86.01 mm"})


def test_corners_of_a_deck_below_a_title_are_places_and_no_measurand(tmp_path: Path) -> None:
    rows = [["Deck height (mm)"], ["Corner", "as found", "finished"], ["LF", 220.31, 220.01],
            ["RF", 220.32, 220.01], ["LR", 220.31, 220.01], ["RR", 220.32, 220.01]]  # fmt: skip
    found = told(tmp_path, rows)
    assert found["B7"].startswith("deck_height")
    assert found["B7"].endswith("found 220.31 mm")
    assert found["C7"].endswith("final 220.01 mm")


# -- valves


def test_letters_with_numbers_over_a_row_are_exhausts_and_intakes(tmp_path: Path) -> None:
    rows = [["mm", "E1", "I1", "I2", "E2"], ["Stem dia", 6.95, 6.97, 6.98, 6.96]]
    expected = {
        "B6": "exhaust_stem_diameter 1 6.95 mm", "C6": "intake_stem_diameter 1 6.97 mm",
        "D6": "intake_stem_diameter 2 6.98 mm", "E6": "exhaust_stem_diameter 2 6.96 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("what", "measurand"), [("stem", "stem_diameter"), ("guide", "guide_bore")]
)
@pytest.mark.parametrize(("intake", "exhaust"), [("In.", "Ex."), ("In", "Ex")])
def test_in_where_the_next_row_says_ex_is_the_intake(
    tmp_path: Path, intake: str, exhaust: str, what: str, measurand: str
) -> None:
    rows = [["mm", "Cyl 1", "Cyl 2"], [f"{intake} {what}", 6.97, 6.98],
            [f"{exhaust} {what}", 6.95, 6.96]]  # fmt: skip
    expected = {"C6": f"intake_{measurand} 2 6.98 mm", "B7": f"exhaust_{measurand} 1 6.95 mm"}
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("corner", ["Cyl", ""])
def test_ends_of_a_side_over_numbered_rows_are_two_valves_of_each_cylinder(
    tmp_path: Path, corner: str
) -> None:
    rows = [["Stems (mm)"], [corner, "Inlet front", "Inlet rear", "Exh. front", "Exh. rear"],
            *([n, 6.97, 6.98, 6.95, 6.96] for n in range(1, 5))]  # fmt: skip
    expected = {
        "B7": "intake_stem_diameter 1 front 6.97 mm", "C8": "intake_stem_diameter 2 rear 6.98 mm",
        "D9": "exhaust_stem_diameter 3 front 6.95 mm",
        "E10": "exhaust_stem_diameter 4 rear 6.96 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("heads", ["I{0} E{0}", "{0}I {0}E"])
def test_one_value_of_each_cylinder_below_heads_of_valves_is_counted(
    tmp_path: Path, heads: str
) -> None:
    valves = [head for n in range(1, 5) for head in heads.format(n).split()]
    rows = [
        ["mm", *valves],
        ["Stem dia", *[6.97, 6.95] * 4],
        ["Chambers (cc)", 43.1, 43.2, 43.3, 43],
    ]
    expected = {
        "E6": "exhaust_stem_diameter 2 6.95 mm", "B7": "chamber_volume 1 43.1 cc",
        "C7": "chamber_volume 2 43.2 cc", "D7": "chamber_volume 3 43.3 cc",
        "E7": "chamber_volume 4 43 cc",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


# -- rods and mains


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["mm"], ["Rod pin", "1-2", "3-4", "5-6"], ["Journal", 49.97, 49.96, 49.95]],
            {"B7": "rod_journal 1-2 49.97 mm", "D7": "rod_journal 5-6 49.95 mm"},
            id="over columns",
        ),
        pytest.param(
            [["mm"], ["", "1-2", "3-4"], ["Rod pin", 49.97, 49.96]],
            {"B7": "rod_journal 1-2 49.97 mm", "C7": "rod_journal 3-4 49.96 mm"},
            id="over columns, with no word",
        ),
        pytest.param(
            [["mm"], ["Pin", "Journal", "ID"], ["1-2", 49.97, 50.02], ["3-4", 49.96, 50.03]],
            {"B7": "rod_journal 1-2 49.97 mm", "C8": "rod_bearing_bore 3-4 50.03 mm"},
            id="in a column",
        ),
        pytest.param(
            [["mm"], ["Pin", "As found", "Ground", "ID"], ["1-2", 49.97, 49.72, 49.77],
             ["3-4", 49.96, 49.72, 49.77]],
            {"B7": "rod_journal 1-2 found 49.97 mm", "C8": "rod_journal 3-4 machined 49.72 mm",
             "D7": "rod_bearing_bore 1-2 49.77 mm"},
            id="in a column, as found and ground",
        ),
    ],
)  # fmt: skip
def test_pins_are_counted_by_the_pairs_of_their_rods(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("letter", ["R", "B"])
def test_a_letter_below_mains_counts_rods(tmp_path: Path, letter: str) -> None:
    rows = [["mm"], ["Journal", "As found"], ["M1", 54.97], ["M2", 54.96], [f"{letter}1", 47.97],
            [f"{letter}2", 47.96]]  # fmt: skip
    expected = {
        "B8": "main_journal 2 found 54.96 mm", "B9": "rod_journal 1 found 47.97 mm",
        "B10": "rod_journal 2 found 47.96 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("names", "first", "last"),
    [
        pytest.param(("I front", "II", "III", "IV rear"), "1", "4", id="Roman"),
        pytest.param(("1 ant.", 2, 3, "4 post."), "1 front", "4 rear", id="Spanish"),
        pytest.param(("1 ant.", "2", "3", "4 post."), "1 front", "4 rear", id="as texts"),
    ],
)
def test_mains_are_counted_with_their_ends(
    tmp_path: Path, names: tuple[object, ...], first: str, last: str
) -> None:
    rows = [["mm"], ["Main", "Journal"],
            *([name, 54.97 - n / 100] for n, name in enumerate(names))]  # fmt: skip
    expected = {
        "B7": f"main_journal {first} 54.97 mm", "B8": "main_journal 2 54.96 mm",
        "B9": "main_journal 3 54.95 mm", "B10": f"main_journal {last} 54.94 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)

"""Tables and notes that stand beside others in other rows, with no empty column all the way down.

That shops lay sheets out so, and what their words mean, is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

from books.small_sheet import Rows, check_told


def test_tables_in_other_rows_count_for_themselves(tmp_path: Path) -> None:
    # A remark in the gap and titles in other rows leave no column empty.
    rows: Rows = [
        ["all inches"],
        [None] * 6 + ["MAINS"],
        ["cyl", "bore", "pist", "top rg", "2nd rg", None, "no", "crank", "brg", "oil clr"],
        [1, 4.0306, 4.0262, .018, .020, None, 1, 2.4484, 2.4508, .0024],
        [8, 4.0305, 4.0261, ".018", .020, None, 2, 2.4483, 2.4508, .0025],
        [4, 4.0305, 4.0261, "~.018", .021, None, 3, 2.4482, 2.4508, .0026],
        [3, 4.0306, 4.0262, .019, .020, "lil big"],
        [6, 4.0305, 4.0260, .018, .020, None, "RODS"],
        [5, 4.0307, 4.0262, .018, .020, None, "throw", "crank", "brg", "clr", "side"],
        [7, 4.0306, 4.0261, .018, .020, None, "1-2", 2.0994, 2.1016, .0022, "~.016"],
        [2, 4.0305, 4.0261, .018, .020, None, "3-4", 2.0993, 2.1016, .0023, "~.015"],
        [None] * 6 + ["5-6", 2.0994, 2.1015, .0021, ".017"],
        ["stroke", 3.75, None, None, None, None, "7-8", 2.0994, 2.1017, .0023, "~.016"],
        ["rods c-c", 5.7],
    ]  # fmt: skip
    expected = {
        "B8": "bore 1 4.0306 in", "B9": "bore 8 4.0305 in", "D9": "top_ring_gap 8 0.018 in",
        "E10": "second_ring_gap 4 0.021 in", "D10": "top_ring_gap 4 0.018 in",
        "H9": "main_journal 2 2.4483 in", "J10": "main_bearing_clearance 3 0.0026 in",
        "H14": "rod_journal 1-2 2.0994 in", "K15": "rod_side_clearance 3-4 0.015 in",
        "K17": "rod_side_clearance 7-8 0.016 in", "B17": "stroke 3.75 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_notes_left_of_a_table_name_none_of_its_rows(tmp_path: Path) -> None:
    rows: Rows = [
        ["all inches"],
        ["stroke is 4.625 checked it", None, "cyl", 1, 2, 3, 4],
        ["rods are 7.953 center to center", None, "bore (H)", 3.2915, 3.2916, 3.2914, 3.2915],
        [None, None, "bore (me)", 3.2914, 3.2915, 3.2915, 3.2914],
        ["mains 85 ft lb", None, "slug", 3.289, 3.2891, 3.289, 3.289],
        ["rods 45 ft lb w/ cotters", None, "top gap", .014, .014, .0145, .014],
    ]  # fmt: skip
    expected = {
        "D7": "bore 1 3.2915 in", "E8": "bore 2 3.2915 in", "D9": "piston_diameter 1 3.289 in",
        "A6": "stroke 4.625 in", "A9": "main_bolt_torque 85 lbf.ft",
        "A10": "rod_bolt_torque 45 lbf.ft",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_rows_with_as_many_values_as_the_table_further_up_counts_are_of_it(tmp_path: Path) -> None:
    rows: Rows = [
        [None, "1", "2", "3", "4"],
        ["Bore (mm)", 69.06, 69.058, 69.062, 69.06],
        [],
        ["BOTTOM END"],
        [None, "front", "centre", "rear"],
        ["Main clearance (mm)", .038, .038, .051],
        ["Big end clearance (mm)", .038, .039, .038, .051],
        ["Crank end float (mm)", .1],
        ["Gudgeon pin (mm)", 19.998, 19.998, 19.997, 19.996],
        [],
        ["TAPPETS & HEAD"],
        ["Inlet, hot (mm)", .1, .11, .1, .12],
        ["Head nuts (ft lb)", 38],
    ]  # fmt: skip
    expected = {
        "C6": "bore 2 69.058 mm", "B10": "main_bearing_clearance 1 0.038 mm",
        "D10": "main_bearing_clearance 3 0.051 mm", "C11": "rod_bearing_clearance 2 0.039 mm",
        "E11": "rod_bearing_clearance 4 0.051 mm", "B12": "crank_end_play 0.1 mm",
        "E13": "pin_diameter 4 19.996 mm", "C16": "intake_lash 2 0.11 mm",
        "E16": "intake_lash 4 0.12 mm", "B17": "head_bolt_torque 38 lbf.ft",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_labels_with_values_right_behind_numbers_that_count_are_no_part_of_the_table(
    tmp_path: Path,
) -> None:
    rows: Rows = [
        ["inches"],
        ["main", 1, 2, 3, 4, 5, "end float", .005],
        ["journal", 2.4482, 2.4481, 2.4482, 2.4482, 2.4481, "stroke", 3.48],
        ["clearance", .0024, .0025, .0024, .0024, .0025, "main bolts", "70 ft lb"],
    ]  # fmt: skip
    expected = {
        "B7": "main_journal 1 2.4482 in", "F8": "main_bearing_clearance 5 0.0025 in",
        "H6": "crank_end_play 0.005 in", "H7": "stroke 3.48 in",
        "H8": "main_bolt_torque 70 lbf.ft",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_a_row_named_by_its_volume_alone_is_of_the_chambers(tmp_path: Path) -> None:
    rows: Rows = [
        ["mm"],
        ["cyl", 1, 2, 3, 4, None, "cam F34"],
        ["cc", 38, 38.1, 38, 37.9, None, "in opens BTDC", 42],
        ["IN spring fitted ht", 34, 34, 34.1, 34, None, "in shuts ABDC", 72],
    ]
    expected = {
        "B7": "chamber_volume 1 38 cc", "E7": "chamber_volume 4 37.9 cc",
        "D8": "intake_spring_height 3 34.1 mm", "H7": "intake_opening 42 deg",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_a_second_count_right_behind_a_table_has_a_title_of_its_own(tmp_path: Path) -> None:
    rows: Rows = [
        ["all inches"],
        [],
        [None, None, None, "MAINS"],
        ["hole", "bore", "piston", "no", "crank", "brg", "clr"],
        [1, 4.0305, 4.0261, 1, 2.4482, 2.4506, .0024],
        [8, 4.0304, 4.0261, 2, 2.4481, 2.4506, .0025],
        [4, 4.0305, 4.0262, 3, 2.4482, 2.4507, .0025],
        [3, 4.0306, 4.0262, 4, 2.4483, 2.4506, .0023],
    ]  # fmt: skip
    expected = {
        "B10": "bore 8 4.0304 in", "C12": "piston_diameter 3 4.0262 in",
        "E10": "main_journal 2 2.4481 in", "G11": "main_bearing_clearance 3 0.0025 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_labels_with_values_right_behind_heads(tmp_path: Path) -> None:
    rows: Rows = [
        ["mm"],
        ["Cil.", "Canna", "Pistone", "Gioco", "Corsa", 79.2],
        [1, 82.51, 82.46, .05, "Interasse biella", 129],
        [2, 82.52, 82.46, .06, "Gioco assiale", .15],
        [3, 82.51, 82.45, .06, "Testata", "85 Nm"],
    ]  # fmt: skip
    expected = {
        "B7": "bore 1 82.51 mm", "D8": "piston_clearance 2 0.06 mm", "F6": "stroke 79.2 mm",
        "F7": "rod_length 129 mm", "F8": "crank_end_play 0.15 mm", "F9": "head_bolt_torque 85 N.m",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_remarks_in_the_gap_between_two_tables_join_them_not(tmp_path: Path) -> None:
    rows: Rows = [
        ["mm"],
        ["Zyl.", "Bohrung", "Kolben", "Spiel", None, "Lager", "Zapfen", "Schale", "Spiel"],
        [1, 82.51, 82.46, .05, None, "HL1", 57.97, 58.02, .05],
        [2, 82.51, 82.46, .05, None, "HL2", 57.97, 58.03, .06],
        [3, 82.51, 82.46, .05, None, "HL3", 57.96, 58.02, .06],
        [4, 82.52, 82.46, .06, "geprüft", "HL4", 57.97, 58.02, .05],
    ]  # fmt: skip
    expected = {
        "D7": "piston_clearance 1 0.05 mm", "G8": "main_journal 2 57.97 mm",
        "I8": "main_bearing_clearance 2 0.06 mm", "I10": "main_bearing_clearance 4 0.05 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)

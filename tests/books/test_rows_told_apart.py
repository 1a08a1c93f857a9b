"""Tables whose title alone says what is measured: heads and rows only tell their numbers apart.

Invented sheets; how such tables are kept is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told

COUNTED = ["Cyl", 1, 2, 3]


@pytest.mark.parametrize(
    ("title", "row", "told"),
    [
        ("Compression test, warm", "psi wet", "cranking_pressure 1 160 psi"),
        ("Ring side clearance, top groove", "mm", "top_ring_side_clearance 1 0.04 mm"),
    ],
)
def test_a_row_of_a_unit_or_of_how_is_of_the_title(
    tmp_path: Path, title: str, row: str, told: str
) -> None:
    sizes = [160, 162, 158] if "psi" in row else [0.04, 0.05, 0.04]
    rows: Rows = [[title], ["Piston" if row == "mm" else "Cyl", 1, 2, 3], [row, *sizes]]
    check_told(tmp_path, rows, {"B7": told})


def test_a_side_that_nobody_knows_is_a_place(tmp_path: Path) -> None:
    rows: Rows = [
        ["Deck clearance at TDC (in)"], ["", 1, 2, 3],
        ["Thrust side", 0.009, 0.008, 0.01], ["Other side", 0.007, 0.008, 0.008],
    ]  # fmt: skip
    expected = {
        "B7": "deck_clearance 1 thrust 0.009 in", "D8": "deck_clearance 3 other side 0.008 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("head", "heads"),
    [("Canna", ["p.1", "p.2", "p.3"]), ("Buchse", ["Messpunkt a", "b", "c"])],
)
def test_numbered_and_lettered_points_are_places_on_each(
    tmp_path: Path, head: str, heads: list[str]
) -> None:
    title = {"Canna": "Sporgenza canne trattore", "Buchse": "Laufbuchsenüberstand"}[head]
    rows: Rows = [
        [title], [head, *heads],
        [1, 0.05, 0.06, 0.05], [2, 0.06, 0.06, 0.07], [3, 0.05, 0.05, 0.06],
    ]  # fmt: skip
    expected = {
        at: f"liner_protrusion {number} {heads[column].casefold()} {size} mm"
        for at, number, column, size in (("B7", 1, 0, 0.05), ("D8", 2, 2, 0.07))
    }
    check_told(tmp_path, rows, expected)


def test_a_clock_whose_first_hour_has_a_word(tmp_path: Path) -> None:
    rows: Rows = [
        ["Liner stand-proud, mm"], ["Liner", "12 o'clock", 3, 6, 9, "Mean"],
        [1, 0.09, 0.09, 0.1, 0.09, 0.093], [2, 0.08, 0.09, 0.09, 0.08, 0.085],
    ]  # fmt: skip
    expected = {
        "B7": "liner_protrusion 1 12 o'clock 0.09 mm", "D8": "liner_protrusion 2 6 o'clock 0.09 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_a_title_is_read_without_what_it_was_measured_for(tmp_path: Path) -> None:
    rows: Rows = [
        ["Piston protrusion for gasket choice (mm)"], ["Cyl", "Front", "Rear"],
        [1, 0.62, 0.64], [2, 0.6, 0.63],
    ]  # fmt: skip
    check_told(tmp_path, rows, {"C8": "deck_clearance 2 rear -0.63 mm"})


def test_a_second_bank_beside_the_first_has_its_title(tmp_path: Path) -> None:
    rows: Rows = [
        ["V6 bores, honed, mm"], ["Bank A", "size", None, "Bank B", "size"],
        [1, 93.022, None, 4, 93.02], [2, 93.024, None, 5, 93.023], [3, 93.021, None, 6, 93.021],
    ]  # fmt: skip
    check_told(tmp_path, rows, {"B7": "bore 1 final 93.022 mm", "E8": "bore 5 final 93.023 mm"})


def test_labels_with_a_value_below_counted_rows_stand_alone(tmp_path: Path) -> None:
    rows: Rows = [
        ["MAIN JOURNALS"], [1, 2.4485], [2, 2.4484], [3, 2.4486], ["Stroke", 3.48], [],
        ["Compression"], [1, 11.8, "bar"], [2, 11.5, "bar"],
    ]  # fmt: skip
    expected = {
        "B6": "main_journal 1 2.4485 in", "B8": "main_journal 3 2.4486 in", "B9": "stroke 3.48 in",
        "B12": "cranking_pressure 1 1180 kPa",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_a_journal_is_ground_below_a_crank_that_a_tunnel_goes_round(tmp_path: Path) -> None:
    rows: Rows = [
        ["Journal", 1, 2, 3], ["Tunnel", 2.641, 2.6411, 2.6411],
        ["Shell wall", 0.0951, 0.0951, 0.0951],
        ["Crank", 2.4481, 2.4481, 2.4483],
        ["Clearance", "=B6-2*B7-B8", "=C6-2*C7-C8", "=D6-2*D7-D8"],
    ]  # fmt: skip
    expected = {"B6": "main_housing_bore 1 2.641 in", "D8": "main_journal 3 2.4483 in"}
    check_told(tmp_path, rows, expected)


def test_a_place_in_words_over_journals_near_two_inches_is_no_size(tmp_path: Path) -> None:
    rows: Rows = [
        ["Mains", "1 Front", "2 Centre", "3 Rear"],
        ["journal before", 1.9881, 1.9887, 1.9888], ["journal ground", 1.969, 1.969, 1.9691],
    ]  # fmt: skip
    expected = {
        "C5": "",
        "C6": "main_journal 2 found 1.9887 in",
        "D7": "main_journal 3 machined 1.9691 in",
    }
    check_told(tmp_path, rows, expected)


def test_the_first_column_along_the_pin_is_a_place(tmp_path: Path) -> None:
    rows: Rows = [
        ["CYLINDRE", None, "axe pied", "perp."],
        [None, "Alésage (mm)", 47.012, 47.014], [None, "Course (mm)", 39.8],
    ]  # fmt: skip
    expected = {
        "C6": "bore parallel 47.012 mm", "D6": "bore thrust 47.014 mm",
        "C7": "stroke parallel 39.8 mm",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("low", "high"),
    [("Lower lim", "Upper lim"), ("Soll von", "Soll bis"), ("Limite inf", "Limite sup")],
)
def test_two_columns_of_limits_in_short_words(tmp_path: Path, low: str, high: str) -> None:
    rows: Rows = [
        ["CRANK", "Frt main", "Ctr main", "Rear main", low, high],
        ["Journal (in)", 2.0008, 2.0008, 2.0006, 2.0005, 2.001],
    ]  # fmt: skip
    expected = {
        "C6": "main_journal 2 2.0008 in", "D6": "main_journal 3 2.0006 in",
        "E6": "main_journal limit_low 2.0005 in", "F6": "main_journal limit_high 2.001 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_a_torque_goes_on_in_the_unit_of_the_one_above(tmp_path: Path) -> None:
    rows: Rows = [["Serrage culasse (m.daN)", 9], ["paliers", 10.5], ["chapeaux de bielle", 6.5]]
    expected = {
        "B5": "head_bolt_torque 90 N.m",
        "B6": "main_bolt_torque 105 N.m",
        "B7": "rod_bolt_torque 65 N.m",
    }
    check_told(tmp_path, rows, expected)


def test_with_and_without_in_german_are_no_places(tmp_path: Path) -> None:
    rows: Rows = [
        ["Pleuellager", 1, 2], ["Hubzapfen geschliffen (mm)", 57.98, 57.978],
        ["Pleuelbohrung o. Schalen (mm)", 61.705, 61.711],
        ["Spiel m. Plastikfaden (mm)", 0.076, 0.072],
    ]  # fmt: skip
    expected = {"B7": "rod_housing_bore 1 61.705 mm", "C8": "rod_bearing_clearance 2 0.072 mm"}
    check_told(tmp_path, rows, expected)


def test_a_unit_in_parts_is_of_no_bore_below_it(tmp_path: Path) -> None:
    rows: Rows = [
        ["Piston to wall, thou"], ["", "L1", "L2", "L3"], ["Bore 3.7xxx", 3.7808, 3.7809, 3.7808],
        ["Gap", 3.0, 3.1, 3.1],
    ]  # fmt: skip
    expected = {"B7": "bore 1 3.7808 in", "B8": "piston_clearance 1 0.003 in"}
    check_told(tmp_path, rows, expected)

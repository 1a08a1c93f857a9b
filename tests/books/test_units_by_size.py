"""Units that a corner, a title or the sizes say: which numbers get one, and which are asked about.

That builders write so is common practice, no source; sizes are from memory, and sound with each
other.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest
from small_sheet import Rows, check_told

from workbook_tools.jobs.explained import explained
from workbook_tools.labels.content import is_unit
from workbook_tools.quantities import FORCE, MASS, PRESSURE, Kind, read_text, unit_named

INCHES = ["all sizes in inches"]
BORES = ["Bore", 4.03, 4.0302, 4.0301, 4.03]
CYLINDERS = ["Cyl", 1, 2, 3, 4]


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["mm", "Cyl 1", "Cyl 2"], ["Gudgeon", 21.994, 21.995], ["Piston wt (g)", 412, 413]],
            {"B6": "pin_diameter 1 21.994 mm", "C7": "piston_mass 2 413 g"},
            id="in the corner, but for what says its own",
        ),
        pytest.param(
            [["mm", "Cyl 1", "Cyl 2"], ["Bore", 86.01, 86.02], ["Chamber", 43.1, 43.2]],
            {"B6": "bore 1 86.01 mm", "B7": "chamber_volume 1 43.1 cc"},
            id="in the corner, but for what cannot have it",
        ),
        pytest.param(
            [["Top half, mm and cc"], ["", "Cyl 1", "Cyl 2"], ["Bore", 86.01, 86.02],
             ["Chamber", 43.2, 43.1]],
            {"B7": "bore 1 86.01 mm", "B8": "chamber_volume 1 43.2 cc"},
            id="two in a title, each of its own",
        ),
        pytest.param(
            [["Bore, mm and cc"], ["No.", "Size"], [1, 86.01], [2, 86.02]],
            {"B7": "bore 1 86.01 mm", "B8": "bore 2 86.02 mm"},
            id="two behind a title that names the size",
        ),
        pytest.param(
            [["Rods, in"], ["No.", "Big end"], [1, 2.225], [2, 2.2251]],
            {"B7": "rod_housing_bore 1 2.225 in"},
            id="inches behind the comma of a title",
        ),
        pytest.param(
            [["Rods - in"], ["No.", "Big end"], [1, 2.225], [2, 2.2251]],
            {"B7": "rod_housing_bore 1 2.225 in"},
            id="inches behind the dash of a title",
        ),
        pytest.param(
            [["Inch unless noted"], ["Bore", 4.03], ["Stroke mm", 88]],
            {"B6": "bore 4.03 in", "B7": "stroke 88 mm"},
            id="one that holds unless noted",
        ),
    ],
)  # fmt: skip
def test_a_unit_over_numbers_is_theirs(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


def test_each_line_of_a_sheet_in_both_systems_has_the_unit_that_its_sizes_fit(
    tmp_path: Path,
) -> None:
    rows = [["Cyl", "Bore", "Piston"], [1, 4.0302, 4.0255], [2, 4.0301, 4.0254], [],
            ["Main", "Journal"], [1, 62.18], [2, 62.17], [], ["Stroke", 88.0]]  # fmt: skip
    expected = {
        "B6": "bore 1 4.0302 in", "C7": "piston_diameter 2 4.0254 in",
        "B10": "main_journal 1 62.18 mm",
        # One size alone is not enough on a sheet that has both.
        "B13": "asked: stroke 88",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)
    assert "which its sizes fit" in "\n".join(explained(tmp_path / "book.xlsx", "Sheet!B10"))


def test_numbers_of_several_things_under_one_label_say_no_unit(tmp_path: Path) -> None:
    asked = {"B5": "asked: main_journal 1 50.1", "D5": "asked: main_journal 3 140.3"}
    check_told(tmp_path, [["Main journal", 50.1, 62.2, 140.3]], asked)


def test_tenths_of_a_thousandth_are_read_in_a_book_of_inches(tmp_path: Path) -> None:
    rows = [INCHES, CYLINDERS, BORES, ["Bore taper", 0.4, 0.3, 0.3, 0.4]]
    check_told(tmp_path, rows, {"B8": "bore_taper 1 0.0004 in", "C8": "bore_taper 2 0.0003 in"})


def test_one_slip_among_thousandths_is_asked_about_and_keeps_none_of_the_others(
    tmp_path: Path,
) -> None:
    rows = [INCHES, CYLINDERS, BORES, ["Piston clearance", 4.5, 4.4, 45, 4.6]]
    expected = {
        "B8": "piston_clearance 1 0.0045 in", "D8": "asked: piston_clearance 3 0.045 in",
        "E8": "piston_clearance 4 0.0046 in",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


def test_half_the_line_is_too_much_for_a_slip(tmp_path: Path) -> None:
    rows = [INCHES, ["Cyl", *range(1, 7)], [*BORES, 4.03, 4.03],
            ["Piston clearance", 4.5, 44, 45, 4.6, 44, 4.5]]  # fmt: skip
    found = check_told(tmp_path, rows, {})
    assert all(found[f"{column}8"].startswith("refused") for column in "BCDEFG")


# -- pressures


@pytest.mark.parametrize(
    ("typed", "state", "reading"),
    [
        pytest.param((11.5, 11.4, 11.5), "", "cranking_pressure 1 1150 kPa", id="bars"),
        pytest.param((165, 170, 168), "", "cranking_pressure 1 165 psi", id="pounds"),
        pytest.param(
            (81.04, 81.06, 81.05), "asked: ", "cranking_pressure 1 81.04", id="too fine for a gauge"
        ),
    ],
)
def test_a_pressure_in_a_metric_book_is_in_the_unit_that_its_numbers_fit(
    tmp_path: Path, typed: tuple[float, ...], state: str, reading: str
) -> None:
    rows = [["all sizes in mm"], ["Cyl", 1, 2, 3], ["Cranking compression", *typed]]
    assert check_told(tmp_path, rows, {})["B7"].startswith(f"{state}{reading}")


def test_a_compression_for_each_cylinder_beside_its_leak_down_is_a_test(tmp_path: Path) -> None:
    rows = [["Cyl", "Compression", "Leak-down %"], [1, 12.1, 4], [2, 12.0, 5], [3, 12.2, 4]]
    expected = {"B6": "cranking_pressure 1 1210 kPa", "C6": "leakage 1 4"}
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("before", "after"),
    [
        pytest.param("Compression before", "Compression after", id="before and after"),
        pytest.param("Compression in", "Compression out", id="in and out"),
        pytest.param("Comp. avant", "Comp. après", id="in French"),
    ],
)
def test_a_compression_taken_before_the_work_and_after_it_is_a_test_both_times(
    tmp_path: Path, before: str, after: str
) -> None:
    rows = [["sizes in mm"], ["Cyl", before, after], [1, 8.1, 11.2], [2, 8.0, 11.1]]
    expected = {
        "B7": "cranking_pressure 1 found 810 kPa", "C7": "cranking_pressure 1 final 1120 kPa",
        "C8": "cranking_pressure 2 final 1110 kPa",
    }  # fmt: skip
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["mm"], ["Compression", 9.8]], {"B6": "compression_ratio 9.8"}, id="one of the engine"
        ),
        pytest.param(
            [["mm"], ["Cyl", "Chamber cc", "Compression"],
             *([n, 43.1, f"=1+400/B{n + 6}"] for n in (1, 2, 3))],
            {"C7": "result: compression_ratio"},
            id="worked out for each cylinder",
        ),
    ],
)  # fmt: skip
def test_a_compression_that_no_test_gave_is_a_ratio(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


# -- pounds and kilograms


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Spring seat lb", 125], ["Spring open lbs", 310]],
            {"B5": "spring_seat_load 125 lbf", "B6": "spring_open_load 310 lbf"},
            id="in a label",
        ),
        pytest.param(
            [["Seat lb, installed", 125]], {"B5": "spring_seat_load 125 lbf"}, id="within a label"
        ),
        pytest.param(
            [["Valve", "Seat load (lb)"], [1, 125], [2, 124]],
            {"B6": "spring_seat_load 1 125 lbf"},
            id="in a head",
        ),
        pytest.param(
            [["Seat load", 125, "lb"], ["Piston weight", 1.1, "lb"]],
            {"B5": "spring_seat_load 125 lbf", "B6": "piston_mass 498.952 g"},
            id="of a force and of a weight",
        ),
        pytest.param(
            [["Seat load (kg)", 42], ["Open load kg", 98]],
            {"B5": "spring_seat_load 411.879 N", "B6": "spring_open_load 961.052 N"},
            id="kilograms of a load",
        ),
        pytest.param(
            [["Seat load", 125, "#"]], {"B5": "asked: spring_seat_load 125"}, id="no lone sign"
        ),
        pytest.param(
            [["Big end, g", 402], ["Small end, g", 160]],
            {"B5": "rod_big_end_mass 402 g", "B6": "rod_small_end_mass 160 g"},
            id="grams behind a comma are no side",
        ),
    ],
)
def test_pounds_and_kilograms_are_of_a_force_or_a_weight(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


def test_pounds_are_a_unit_of_weights_and_of_forces_and_the_lone_sign_is_none() -> None:
    assert (unit_named("lb", FORCE)[0], unit_named("lb", MASS)[0]) == (FORCE, MASS)
    assert is_unit("lb")
    assert not is_unit("#")


# -- pounds of a pressure


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Compression lb", 150]], {"B5": "cranking_pressure 150 psi"}, id="in a label"
        ),
        pytest.param(
            [["sizes in mm"], ["Oil pressure lbs", 45]],
            {"B6": "oil_pressure 310.264 kPa"},
            id="in a label of a metric book",
        ),
        pytest.param([["Oil pressure 45 lbs"]], {"A5": "oil_pressure 45 psi"}, id="in a text"),
        pytest.param([["Oil pressure", "45 lbs"]], {"B5": "oil_pressure 45 psi"}, id="in a cell"),
        pytest.param(
            [["Oil pressure hot is 22 lb. per sq. in. at 30 m.p.h."]],
            {"A5": "oil_pressure 22 psi"},
            id="per square inch, at a speed on the road",
        ),
    ],
)
def test_pounds_of_a_pressure_are_to_the_square_inch(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    assert check_told(tmp_path, rows, expected) == expected


@pytest.mark.parametrize(
    ("kind", "like"), [(PRESSURE, "45 psi"), (FORCE, "45 lbf"), (MASS, "720 oz")]
)
def test_pounds_are_of_what_is_measured(kind: Kind, like: str) -> None:
    assert read_text("45 lbs", kind, "inch") == pytest.approx(read_text(like, kind, "inch"))


@pytest.mark.parametrize(
    ("unit", "sizes", "first"),
    [
        pytest.param("inches", (4.03, 4.0302, 4.0301), "compression_ratio 1 9.8", id="inches"),
        pytest.param("mm", (86.01, 86.02, 86.01), "cranking_pressure 1 980 kPa", id="metric"),
    ],
)
def test_a_compression_below_ten_for_each_cylinder_is_a_test_in_bar_and_none_in_psi(
    tmp_path: Path, unit: str, sizes: tuple[float, ...], first: str
) -> None:
    rows = [[unit], ["Cyl", 1, 2, 3], ["Bore", *sizes], ["Compression", 9.8, 9.8, 9.9]]
    check_told(tmp_path, rows, {"B8": first})


def test_grams_in_the_corner_make_the_end_of_a_rod_a_weight(tmp_path: Path) -> None:
    rows = [["g", 1, 2, 3], ["Rod big end", 402, 403, 402], ["Rod small end", 160, 161, 160]]
    expected = {"B6": "rod_big_end_mass 1 402 g", "C7": "rod_small_end_mass 2 161 g"}
    check_told(tmp_path, rows, expected)


def test_a_range_that_limits_a_value_is_in_its_unit(tmp_path: Path) -> None:
    rows = [["Item", "Value", "Limits"], ["Injector opening pressure", "205 bar", "205 - 220"]]
    expected = {
        "B6": "injector_pressure 20500 kPa",
        # A range is no one size, and its unit is known.
        "C6": "refused: injector_pressure target bar",
    }
    check_told(tmp_path, rows, expected)

"""Means of readings of one part, units before what is in them, kinds of numbers, single cylinders.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import pytest
from books.small_sheet import JOB, Rows, check_told, told

from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.vocabulary import meaning_of


def means(
    make_book: Callable[..., Path], rows: Rows, saved: Mapping[str, float]
) -> dict[str, tuple[str, str, float]]:
    """What the formulas of a sheet give: {cell: (measurand, which one, number)}."""
    (job,) = read_jobs(make_book({"S": [*JOB, *rows]}, saved={"S": saved}))
    return {s.place.address: (s.measurand, s.part.which, s.value) for s in job.stated}


MEASURED: Rows = [[1, 86.02, 86.01], [2, 86.04, 86.03]]


@pytest.mark.parametrize(
    ("formulas", "found"),
    [
        pytest.param(["=AVERAGE(B7:C7)", "=AVERAGE(B8:C8)"], ["1", "2"], id="each row"),
        pytest.param(["=ROUND(AVERAGE(B7:C7),3)", "=ROUND(AVERAGE(B8:C8),3)"], ["1", "2"],
                     id="rounded"),
        pytest.param(["=AVERAGE(B7:C8)", "=AVERAGE(B7:C8)"], [], id="of two bores"),
        pytest.param(["=AVERAGE(B8:C8)", "=AVERAGE(B7:C7)"], [], id="of another bore"),
        pytest.param(["=AVERAGE(B7:B7)", "=AVERAGE(B8:B8)"], [], id="of one reading"),
    ],
)  # fmt: skip
def test_the_mean_of_readings_of_one_bore_is_its_size(
    make_book: Callable[..., Path], formulas: Sequence[str], found: Sequence[str]
) -> None:
    heads: Rows = [["mm", "Bore"], ["Cyl", "Top", "Bottom", "Mean"]]
    rows: Rows = [
        *heads,
        *([*row, formula] for row, formula in zip(MEASURED, formulas, strict=True)),
    ]
    given = means(make_book, rows, {"D7": 86.015, "D8": 86.035})
    expected = [("bore", "1", 86.015), ("bore", "2", 86.035)]
    assert [given[at] for at in ("D7", "D8") if at in given] == expected[: len(found)]


def test_the_mean_below_readings_of_one_bore(make_book: Callable[..., Path]) -> None:
    rows: Rows = [
        ["mm", "Cyl 1", "Cyl 2"], ["Bore"], ["Top", 86.02, 86.04], ["Bottom", 86.01, 86.03],
        ["Mean", "=AVERAGE(B7:B8)", "=AVERAGE(C7:C8)"],
    ]  # fmt: skip
    given = means(make_book, rows, {"B9": 86.015, "C9": 86.035})
    assert given == {"B9": ("bore", "1", 86.015), "C9": ("bore", "2", 86.035)}


def test_a_mean_at_places_of_the_only_bore(make_book: Callable[..., Path]) -> None:
    rows: Rows = [["mm", "Bore"], ["Top", 86.02], ["Bottom", 86.01], ["Mean", "=AVERAGE(B6:B7)"]]
    assert means(make_book, rows, {"B8": 86.015})["B8"][0] == "bore"


@pytest.mark.parametrize(
    ("said", "rows", "expected"),
    [
        pytest.param("mm sizes, thou clearances", [["Bore 1", 86.02], ["Main clearance 1", 2.2]],
                     ["bore 1 86.02 mm", "main_bearing_clearance 1 0.0022 in"], id="clearances"),
        pytest.param("mm sizes, thou lash", [["Bore 1", 86.02], ["Intake lash", 8]],
                     ["bore 1 86.02 mm", "intake_lash 0.008 in"], id="lash"),
        pytest.param("mm sizes, thou gaps", [["Bore 1", 86.02], ["Top ring gap", 18]],
                     ["bore 1 86.02 mm", "top_ring_gap 0.018 in"], id="gaps"),
    ],
)  # fmt: skip
def test_units_that_stand_before_what_is_in_them(
    tmp_path: Path, said: str, rows: Rows, expected: Sequence[str]
) -> None:
    check_told(tmp_path, [[said], *rows], dict(zip(("B6", "B7"), expected, strict=True)))


def test_the_plug_that_is_in_is_no_inch(tmp_path: Path) -> None:
    rows: Rows = [
        ["All measured with the plug in"], ["Chamber 1 (cc)", 42.1], ["Gasket thickness", 1.2],
        ["Deck clearance", .5], ["Bore", 86.0],
    ]  # fmt: skip
    found = told(tmp_path, rows)
    assert [found[at].split()[-1] for at in ("B6", "B7", "B8", "B9")] == ["cc", "mm", "mm", "mm"]


@pytest.mark.parametrize(
    ("label", "reading"),
    [("Deck (+ mm)", "deck_clearance 0.5 mm"), ("Piston out (mm +)", "deck_clearance -0.5 mm")],
)
def test_a_sign_beside_a_unit(tmp_path: Path, label: str, reading: str) -> None:
    check_told(tmp_path, [[label, 0.5]], {"B5": reading})


@pytest.mark.parametrize(
    ("label", "measurand"),
    [("Full lift #", "spring_open_load"), ("Nose #", "spring_open_load"),
     ("Installed # (in)", "spring_seat_load"), ("Bearing #", "main_bearing_clearance"),
     ("Big end c/w shell", "rod_bearing_bore"), ("Big end C/W shells (in)", "rod_bearing_bore")],
)  # fmt: skip
def test_short_signs_in_labels(label: str, measurand: str) -> None:
    assert meaning_of(label).measurand == measurand


def test_pounds_of_springs(tmp_path: Path) -> None:
    rows: Rows = [["Valve springs", "1", "2"], ["Seat #", 120, 121], ["Open #", 310, 312]]
    found = told(tmp_path, rows)
    assert "spring_seat_load 1 120" in found["B6"]
    assert "spring_open_load 2 312" in found["C7"]


@pytest.mark.parametrize(
    ("row", "never"),
    [(["Cylinders", 4.02], "cylinder_count"), (["Oil", 2.0221, 2.0223], "oil_pressure")],
)
def test_what_a_number_with_decimals_cannot_be(
    tmp_path: Path, row: Sequence[object], never: str
) -> None:
    found = told(tmp_path, [row, ["Bore", 4.031]])
    assert "B5" in found
    assert not any(never in words for words in found.values())


def test_a_ratio_is_always_worked_out(tmp_path: Path) -> None:
    rows: Rows = [["Compression ratio, calculated", 10.6], ["Rod ratio (calc)", 1.72]]
    check_told(tmp_path, rows, {"B5": "compression_ratio 10.6", "B6": "rod_stroke_ratio 1.72"})


SINGLE: Rows = [["Bore (mm)", 86.0], ["Stroke (mm)", 78.0], ["Displacement (cc)", 453]]


def test_a_single_has_one_rod_and_its_sides_are_no_banks(tmp_path: Path) -> None:
    sizes: Rows = [["Rod length (mm)", 140.0], ["Crankpin (mm)", 36.02], ["", "Left", "Right"],
             ["Deck clearance (mm)", .51, .52], ["Rod side clearance (mm)", .20, .21]]  # fmt: skip
    expected = {
        "B8": "rod_length 1 140 mm", "B9": "rod_journal 1 36.02 mm",
        "B11": "deck_clearance 1 left 0.51 mm", "C11": "deck_clearance 1 right 0.52 mm",
        "B12": "rod_side_clearance 1 left 0.2 mm", "C12": "rod_side_clearance 1 right 0.21 mm",
    }  # fmt: skip
    check_told(tmp_path, [*SINGLE, *sizes], expected)


def test_a_twin_is_no_single(tmp_path: Path) -> None:
    rows: Rows = [*SINGLE[:2], ["Displacement (cc)", 906], ["Crankpin (mm)", 36.02]]
    check_told(tmp_path, rows, {"B8": "rod_journal 36.02 mm"})


@pytest.mark.parametrize("label", ["Shells in, bolted up", "Shells nipped up", "Shells torqued"])
def test_a_label_of_either_bearing_is_of_the_one_above_it(tmp_path: Path, label: str) -> None:
    rows: Rows = [
        ["inches", 1, 2, 3, 4],
        ["Main journal", 2.4482, 2.4481, 2.4482, 2.4481],
        [label, 2.4506, 2.4505, 2.4506, 2.4505],
        ["Crankpin", 2.0992, 2.0991, 2.0992, 2.0991],
        [label, 2.1013, 2.1012, 2.1013, 2.1012],
    ]
    found = check_told(tmp_path, rows, {"B9": "rod_bearing_bore 1 2.1013 in"})
    assert "main_bearing_bore 4 2.4505 in" in found["E7"]


@pytest.mark.parametrize("head", ["£ each", "$", "price"])
def test_prices_are_no_sizes(tmp_path: Path, head: str) -> None:
    rows: Rows = [["Rings", head], ["Main bearing", 4.5], ["Rod bearing", 3.5], ["Ring gap", 4.2]]
    assert not {"B6", "B7", "B8"} & {*told(tmp_path, rows)}

"""Sizes within the book's own limits, limits for all of a row, ports, bearings there are none of.

That shops write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

import pytest

from workbook_tools.findings import check
from workbook_tools.findings.evidence import evidence_of
from workbook_tools.jobs.read import read_book, read_jobs

Found = Callable[..., Mapping[str, tuple[str, str]]]


@pytest.mark.parametrize(
    ("least", "most", "doubted"),
    [
        pytest.param(.080, .140, False, id="within"),
        pytest.param(.080, .090, True, id="most beyond"),
        pytest.param(.008, .140, True, id="limits too wide"),
    ],
)  # fmt: skip
def test_what_the_book_itself_allows_is_no_slip(
    findings: Found, least: float, most: float, doubted: bool
) -> None:
    rows = [[None, "Min", "Max", 1, 2, 3], ["Top ring gap (in)", least, most, 0.100, 0.110, 0.120]]
    assert ("S!D2" in findings(S=rows)) == doubted


@pytest.mark.parametrize(
    ("label", "limits", "sizes", "measurand"),
    [
        pytest.param("End play (in)", [.030, .050], [.040, .041, .042, .041], "crank_end_play",
                     id="a doubtful size"),
        pytest.param("Gap (in)", [.090, .200], [.120, .150, .140, .110], "top_ring_gap",
                     id="a doubtful meaning"),
    ],
)  # fmt: skip
def test_a_size_within_the_limits_of_the_book_is_read(
    make_book: Callable[..., Path],
    label: str,
    limits: Sequence[float],
    sizes: Sequence[float],
    measurand: str,
) -> None:
    rows = [[None, "Min", "Max", 1, 2, 3, 4], [label, *limits, *sizes]]
    (job,) = read_jobs(make_book({"S": rows}))
    of_parts = [r for r in job.readings if r.place.address in ("D2", "E2", "F2", "G2")]
    assert [(r.measurand, r.state) for r in of_parts] == [(measurand, "read")] * 4


def test_a_limit_beside_both_valves_holds_for_both(findings: Found) -> None:
    found = findings(
        S=[
            ["Cyl", "limits", "1 in", "1 ex", "2 in", "2 ex"],
            ["Valve lash (in)", ".010-.014", .012, .016, .012, .013],
            ["Stem clearance (in)", ".001-.003", .002, .0022, .002, .0022],
        ]
    )  # fmt: skip
    assert "above the most that the book itself gives, 0.014 in (B2)" in found["S!D2"][1]
    assert {*found} == {"S!D2"}


@pytest.mark.parametrize(
    ("pins", "missing"),
    [([2.0992, 2.0991, 2.0992, 2.0991, None], []), ([2.0992, 2.0991, None, 2.0991, None], ["D5"])],
)
def test_no_bearing_is_missing_past_the_last(
    make_book: Callable[..., Path], pins: Sequence[float | None], missing: Sequence[str]
) -> None:
    mains = ["Main journal", 2.4482, 2.4481, 2.4482, 2.4482, 2.4481]
    rows = [["Job", "12"], [], ["inches", 1, 2, 3, 4, 5], mains, ["Crankpin", *pins]]
    (job,) = read_jobs(make_book({"S": rows}))
    assert [r.place.address for r in job.missing] == missing


@pytest.mark.parametrize(
    ("label", "worked_out", "doubted"),
    [
        ("Intake duration at .050 (deg)", False, True),
        ("Transfer duration (deg)", False, False),
        ("Transfer duration (deg)", True, False),
    ],
)
def test_a_port_is_open_for_less_than_a_cam(
    make_book: Callable[..., Path], label: str, worked_out: bool, doubted: bool
) -> None:
    rows = [["Opens at (deg)", 124], [label, "=2*(180-B1)" if worked_out else 112]]
    book = read_book(make_book({"S": rows}, saved={"S": {"B2": 112}} if worked_out else None))
    found = {f.place.address for f in check(book) if f.place is not None}
    assert ("B2" in found) == doubted


def test_two_columns_of_one_label_are_two_rows_of_siblings(make_book: Callable[..., Path]) -> None:
    rows = [["Cyl", "Bore (mm)", "Bore (mm)"],
            *([n, 80.0 + n / 100, 80.5 + n / 100] for n in (1, 2, 3, 4))]  # fmt: skip
    book = read_book(make_book({"S": rows}))
    found = [[r.place.address for r in row] for row in evidence_of(book).rows]
    assert found == [["B2", "B3", "B4", "B5"], ["C2", "C3", "C4", "C5"]]


@pytest.mark.parametrize(
    ("head", "sizes"),
    [("Valve lash (in)", (.003, .030)), ("Crank end play (in)", (.002, .020)),
     ("Rod side clearance (in)", (.003, .030))],
)  # fmt: skip
def test_two_clearances_may_be_so_far_apart(
    findings: Found, head: str, sizes: Sequence[float]
) -> None:
    assert findings(S=[["Cylinder", 1, 2], [head, *sizes]]) == {}


@pytest.mark.parametrize(
    ("rods", "unit"),
    [(5.2, "Nm"), (50, "kgm")],
)
def test_a_torque_in_the_unit_of_another_is_told(make_book, rods, unit):
    # Kilogram-force meters typed for newton meters, and the other way round: a factor of 9.8.
    rows = [["Viti banco", 80, "Nm"], ["Viti biella", rods, unit], ["Viti testata", 85, "Nm"]]
    told = check(read_book(make_book({"Montaggio": [["Alesaggio (mm)", 84.0], *rows]})))
    assert [f.place.address for f in told if f.place] == ["B3"]
    right = [["Viti banco", 80, "Nm"], ["Viti biella", 52, "Nm"], ["Viti testata", 85, "Nm"]]
    assert not check(read_book(make_book({"Montaggio": [["Alesaggio (mm)", 84.0], *right]})))


def test_a_mean_that_a_call_takes_is_held_to_no_limit(findings: Found) -> None:
    """The bores are told themselves, and a displacement is no size of theirs."""
    found = findings(
        S=[
            ["cyl", 1, 2, 3, 4, "want"],
            ["Bore top (in)", 3.9303, 3.9305, 3.9285, 3.9302, "3.9300 - 3.9308"],
            ["Bore mid (in)", 3.9303, 3.9305, 3.9285, 3.9302, "3.9300 - 3.9308"],
            ["Stroke (in)", 3.39],
        ]
    )
    assert {*found} == {"S!D2", "S!D3"}


def test_bores_at_two_heights_are_no_record_entered_twice(findings: Found) -> None:
    """Three of four that are the same at the top and at the bottom are no copy."""
    heights = {"top": 81.02, "mid": 81.02, "bottom": 81.01}
    rows = [[where, first, 81.02, 81.01, 81.03] for where, first in heights.items()]
    assert not findings(S=[["Bore (mm)", 1, 2, 3, 4], *rows])

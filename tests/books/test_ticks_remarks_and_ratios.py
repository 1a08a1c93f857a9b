"""Ticks behind sizes, second sizes in remarks, hundredths with a slash, ratios to one.

That builders write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import openpyxl
import pytest
from books.small_sheet import Rows, check_told, in_words

from workbook_tools.jobs.read import read_jobs


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["ANZUG"], ["Zylinderkopf", "38 Nm ✓"], ["Pleuel", "48 Nm ✓", None, "neue Schrauben"]],
            {"B6": "head_bolt_torque 38 N.m", "B7": "rod_bolt_torque 48 N.m"},
            id="ticks",
        ),
        pytest.param(
            [["head gasket, copper", "1.00 mm", None, "annealed, hole 66.0 mm"]],
            {"B5": "gasket_thickness 1 mm", "D5": "gasket_bore 66 mm"},
            id="hole in a remark",
        ),
        pytest.param(
            [["joint de culasse", "1,2 mm", None, "trou 72 mm"]],
            {"D5": "gasket_bore 72 mm"},
            id="French",
        ),
        pytest.param(
            [["CYLINDRES", "n° 1", "n° 2", "n° 3"], ["alésage mm", 70.012, 70.014, 70.011],
             ["dépassement chemises", "10/100", "11/100", "9/100"]],
            {"B7": "liner_protrusion 1 0.1 mm", "D7": "liner_protrusion 3 0.09 mm"},
            id="hundredths",
        ),
        pytest.param(
            [["Kurbelwelle", 1, 2], ["Hauptlagerspiel", "4,2 /100", "4,3 /100"]],
            {"B6": "main_bearing_clearance 1 0.042 mm"},
            id="tenths of hundredths",
        ),
        pytest.param(
            [["The bores, mm", "No. 1", "No. 2"], ["As they came (at the worst)", 69.91, 69.93]],
            {"B6": "bore 1 found 69.91 mm"},
            id="as they came",
        ),
        pytest.param(
            [["relación de compresión", "8,59 a 1"]], {"B5": "compression_ratio 8.59"}, id="a 1"
        ),
        pytest.param([["Verdichtung", "1 : 7,0"]], {"B5": "compression_ratio 7"}, id="1 : 7"),
        pytest.param(
            [["Compression ratio", "9.7 to 1"]], {"B5": "compression_ratio 9.7"}, id="to 1"
        ),
    ],
)  # fmt: skip
def test_sizes_with_more_in_their_cell(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)


def test_a_rocker_ratio_of_no_side_is_that_of_both(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    for row in (["Job", "26-041"], ["Engine", "inline four"], [], ["Rocker ratio", 1.7]):
        book.worksheets[0].append(row)
    book.save(tmp_path / "book.xlsx")
    (job,) = read_jobs(tmp_path / "book.xlsx")
    assert sorted(map(in_words, job.readings)) == [
        "exhaust_rocker_ratio 1.7",
        "intake_rocker_ratio 1.7",
    ]

"""Heads of logs of jobs, and rings that short heads name.

That builders write so is common practice, no source; sizes are from memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import openpyxl
import pytest
from small_sheet import Rows, check_told, in_words

from workbook_tools.jobs.read import read_jobs


@pytest.mark.parametrize(
    ("heads", "sizes", "expected"),
    [
        pytest.param(
            ["Bore (mm)", "Top", "2nd"],
            [86.01, 0.35, 0.4],
            ["bore 86.01 mm", "top_ring_gap 0.35 mm", "second_ring_gap 0.4 mm"],
            id="two behind a bore",
        ),
        pytest.param(
            ["Bore (mm)", "Top", "2nd", "Scraper"],
            [86.01, 0.35, 0.4, 0.3],
            ["bore 86.01 mm", "top_ring_gap 0.35 mm", "second_ring_gap 0.4 mm",
             "oil_ring_gap 0.3 mm"],
            id="and a scraper",
        ),
    ],
)  # fmt: skip
def test_top_and_second_in_a_log_of_jobs_are_ring_gaps(
    tmp_path: Path, heads: list[str], sizes: list[float], expected: list[str]
) -> None:
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    sheet.append(["Job", "Customer", *heads])
    sheet.append(["26-041", "Ostrow", *sizes])
    sheet.append(["26-042", "Lindqvist", *sizes])
    book.save(tmp_path / "book.xlsx")
    jobs = read_jobs(tmp_path / "book.xlsx")
    assert [[in_words(r) for r in job.readings] for job in jobs] == [expected, expected]


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Pistons (mm)"], ["Cyl", "Ring gap top", "Ring gap 2nd", "Scraper"],
             [1, 0.35, 0.4, 0.3], [2, 0.35, 0.4, 0.3]],
            {"C7": "second_ring_gap 1 0.4 mm", "D7": "oil_ring_gap 1 0.3 mm"},
            id="English",
        ),
        pytest.param(
            [["Pistons (mm)"], ["Cyl", "Coupe feu", "Coupe étanchéité", "Racleur"],
             [1, 0.35, 0.4, 0.3], [2, 0.35, 0.4, 0.3]],
            {"B7": "top_ring_gap 1 0.35 mm", "D8": "oil_ring_gap 2 0.3 mm"},
            id="French",
        ),
    ],
)  # fmt: skip
def test_a_scraper_behind_the_gaps_of_other_rings_is_one(
    tmp_path: Path, rows: Rows, expected: Mapping[str, str]
) -> None:
    check_told(tmp_path, rows, expected)

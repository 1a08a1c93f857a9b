"""Logs of jobs whose columns only count cylinders.

That shops that bore and hone for others keep such logs is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest
from books.small_sheet import in_words

from workbook_tools.jobs.read import read_jobs

_HEADS = ["n°", "client", "moteur", "cyl 1", "cyl 2", "cyl 3"]
_ROWS = [
    ["A-1", "Bell", "Vel triple", 82.51, 82.52, 82.51],
    ["A-2", "Ross", "Vel twin", 71.51, 71.52, None],
    ["A-3", "Hull", "Vel single", 66.02, None, None],
]
_PISTONS = [82.46, 71.46, 65.97]


@pytest.mark.parametrize("title", ["", "Boring and honing (mm)"])
def test_bores_beside_pistons_or_below_their_title(tmp_path: Path, title: str) -> None:
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    sheet.title = "May"
    sheet.append([title] if title else [])
    # One cylinder alone is told by the piston beside it only.
    log = _ROWS[:2] if title else _ROWS
    sheet.append([*_HEADS, *([] if title else ["piston (mm)", "jeu"])])
    for row, piston in zip(log, _PISTONS, strict=False):
        sheet.append([*row, *([] if title else [piston, 0.05])])
    book.save(tmp_path / "book.xlsx")
    jobs = read_jobs(tmp_path / "book.xlsx")
    assert [job.job.number.text for job in jobs if job.job.number] == [row[0] for row in log]
    for job, row in zip(jobs, log, strict=True):
        told = {in_words(r) for r in job.readings if r.measurand == "bore"}
        sizes = [size for size in row[3:] if size is not None]
        assert told == {f"bore {n} {size} mm" for n, size in enumerate(sizes, 1)}
        others = {"piston_diameter", "piston_clearance"}
        assert {r.measurand for r in job.readings} - {"bore"} == (set() if title else others)

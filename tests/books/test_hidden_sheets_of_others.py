"""Hidden sheets that a book of one job keeps of another, named by its number.

That shops copy the last book and hide its sheets is common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from workbook_tools.jobs.read import read_jobs


@pytest.mark.parametrize(
    ("title", "state", "is_read"),
    [
        ("KL-0398", "hidden", False),
        ("KL-0398", "visible", True),
        ("KL-0417", "hidden", True),
        ("Cylinders 2", "hidden", True),
    ],
)
def test_a_hidden_sheet_of_another_job(
    tmp_path: Path, title: str, state: str, is_read: bool
) -> None:
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    for row in (["Job", "KL-0417"], ["Customer", "Ostrow"], [], ["Bore 1 (mm)", 79.011]):
        sheet.append(row)
    other = book.create_sheet(title)
    other.append(["Piston 1 (mm)", 82.96])
    other.sheet_state = state
    book.save(tmp_path / "book.xlsx")
    jobs = read_jobs(tmp_path / "book.xlsx")
    read = {r.place.sheet for job in jobs for r in job.readings}
    assert (title in read) == is_read
    told = [t.message for job in jobs for t in job.troubles if title in t.message]
    assert bool(told) != is_read

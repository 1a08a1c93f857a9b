"""A book of one job that was begun with another's: whose its further sheets are."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from workbook_tools.jobs.read import read_jobs

# common practice, no source
MAINS = [["Jrnl", 1, 2, 3], ["Main journal (in)", 2.4481, 2.4482, 2.4480]]


def _form(number: str, bore: float) -> list[list[object]]:
    head: list[list[object]] = [["Job #", number], ["Customer", f"Mill {number}"], ["Tech", "Ida"]]
    return [*head, [], ["Cyl", 1, 2, 3], ["Bore (in)", bore, bore + 0.0001, bore]]


@pytest.mark.parametrize(
    ("name", "hidden", "mains"),
    [
        ("K2041 in frame", True, {"K2041": 3, "K1987": 0}),
        ("in frame", True, {"K2041": 3, "K1987": 3}),
        ("K2041 in frame", False, {"K2041": 3, "K1987": 3}),
    ],
)
def test_a_sheet_without_a_number_is_of_the_job_that_the_book_is_named_by(
    tmp_path: Path, name: str, hidden: bool, mains: dict[str, int]
) -> None:
    """Where the sheets of the other job are hidden; else it is of both."""
    book = openpyxl.Workbook()
    sheets = {"Frame": _form("K2041", 4.2255), "Crank": MAINS, "Farm": _form("K1987", 4.2251)}
    book.remove(book.worksheets[0])
    for title, rows in sheets.items():
        sheet = book.create_sheet(title)
        for row in rows:
            sheet.append(row)
    if hidden:
        book["Farm"].sheet_state = "hidden"
    book.save(tmp_path / f"{name}.xlsx")
    found = {
        job.job.number.text: sum(r.measurand == "main_journal" for r in job.readings)
        for job in read_jobs(tmp_path / f"{name}.xlsx")
    }
    assert found == mains

"""A small sheet of an invented job, written and read, with each reading in a line of words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

import openpyxl

from workbook_tools.jobs.read import read_jobs
from workbook_tools.jobs.readings import Reading
from workbook_tools.jobs.records import Book

Rows = Sequence[Sequence[object]]

# The rows of a test begin in row 5.
JOB: Rows = [["Job", "26-041"], ["Customer", "Ostrow"], ["Engine", "inline four"], []]


def in_words(reading: Reading) -> str:
    """ "bore 1 found 81.05 mm"; a reading that is not taken begins with its state instead."""
    state = "" if reading.state == "read" else f"{reading.state}:"
    which = " ".join((reading.part.which, *reading.part.at)).strip()
    value = "" if reading.value is None else f"{reading.value:.6g}"
    words = (state, reading.measurand, which, reading.stage, value, reading.unit)
    return " ".join(word for word in words if word)


def _read(folder: Path, rows: Rows, title: str = "Sheet", merged: Sequence[str] = ()) -> Book:
    """The book with a sheet of these rows below the fields of a job."""
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    sheet.title = title
    for row in (*JOB, *rows):
        sheet.append(list(row))
    for area in merged:
        sheet.merge_cells(area)
    book.save(folder / "book.xlsx")
    (job,) = read_jobs(folder / "book.xlsx")
    return job


def all_told(folder: Path, rows: Rows) -> dict[str, list[str]]:
    """{cell: all its readings in words, as they stand in it}."""
    found: dict[str, list[str]] = {}
    for reading in _read(folder, rows).readings:
        found.setdefault(reading.place.address, []).append(in_words(reading))
    return found


def told(
    folder: Path, rows: Rows, title: str = "Sheet", merged: Sequence[str] = ()
) -> dict[str, str]:
    """{cell: its last reading in words} of a sheet with these rows below the fields of a job."""
    job = _read(folder, rows, title, merged)
    results = {s.place.address: f"result: {s.measurand}" for s in job.stated}
    return results | {r.place.address: in_words(r) for r in job.readings}


def check_told(
    folder: Path, rows: Rows, expected: Mapping[str, str], title: str = "Sheet"
) -> dict[str, str]:
    """Hold the readings of some cells to what is expected, "" where none is; give them all."""
    found = told(folder, rows, title)
    here = {at: found.get(at, "") for at in expected}
    assert here == expected, {at: text for at, text in here.items() if text != expected[at]}
    return found

"""A log of a job a row, in which readings were copied from the row of another engine."""

from __future__ import annotations

import math

import pytest

from workbook_tools.findings import check_batch
from workbook_tools.jobs.read import read_jobs

HEADS = ["Job", "Name", "Engine", "Bore", "Piston", "Top gap", "2nd gap", "Squish", "Stroke"]
ROWS = [
    ["24-01", "Kessa", "Ravine 250", 77.015, 76.955, 0.35, 0.4, 1.0, 53.6],
    ["24-02", "Tull", "Plod 500", 90.02, 89.965, 0.4, 0.45, 1.3, 78],
    ["24-03", "Marta", "Ravine 250", 77.25, 77.195, 0.35, 0.4, 1.05, 53.6],
]


@pytest.mark.parametrize(
    ("row", "is_copied"),
    [
        (["24-04", "Devin", "Plod 500", 77.25, 77.195, 0.35, 0.4, 1.05, 78], True),
        # One more of the same kind, with the same oversize.
        (["24-04", "Devin", "Ravine 250", 77.25, 77.195, 0.35, 0.4, 1.05, 53.6], False),
        (["24-04", "Devin", "Plod 500", 90.27, 90.215, 0.35, 0.4, 1.05, 78], False),
    ],
)
def test_readings_of_another_engine(make_book, row, is_copied):
    books = read_jobs(make_book({"2024": [HEADS, *ROWS, row]}))
    found = check_batch(books)
    told = {(books[n].part, f.place.address): f for n, several in found.items() for f in several}
    assert set(told) == ({("24-03", "D4"), ("24-04", "D5")} if is_copied else set())
    if is_copied:
        assert "Bore and those behind it, 5 readings from" in told["24-04", "D5"].message


SINGLES = [
    ["Job", "In", "Customer", "Engine", "Bore as found", "Piston", "Bore", "Gap", "Squish", "Bar"],
    [301, "2023-02-09", "Tann", "single 100", 50.08, 50.17, 50.241, 0.25, 1.05, 11.5],
    [302, "2023-03-17", "Ostrow", "single 100", 50.06, 50.18, 50.247, 0.23, 0.95, 12],
    [303, "2023-03-21", "Rieck", "single 100", 50.06, 50.18, 50.247, 0.23, 0.95, 12],
    [304, "2023-04-02", "Ostrow", "single 100", 50.05, 50.17, 50.241, 0.25, 1.05, 11.5],
]


def test_two_singles_in_a_log_that_wore_alike(make_book):
    heads = [*SINGLES[0][:9], "Compression (bar)", "Stroke", "cc"]
    rows = [[*row, 51, round(math.pi / 4 * 51 * row[6] ** 2 / 1000, 1)] for row in SINGLES[1:]]
    jobs = read_jobs(make_book({"Sheet": [["all sizes in mm"], heads, *rows]}))
    found = check_batch(jobs)
    assert set(found) == {1, 2}, found  # The last is another engine: it wore in its own way.

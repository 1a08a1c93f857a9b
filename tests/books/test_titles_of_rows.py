"""Titles between the rows of a table whose heads only say when: "Worn", "Limit", "New".

That shops keep such lists is common practice, no source.
"""

from __future__ import annotations

from workbook_tools.jobs.read import read_jobs

ROWS = [
    ["Job", "F/252", None, None],
    [],
    [None, "Worn", "Limit", "New"],
    ["Cylinder bores", None, None, None],
    ["No. 1", 3.1332, 3.14, 3.155],
    ["No. 2", 3.1338, 3.14, 3.1551],
    ["Pistons (skirt)", None, None, None],
    ["No. 1", 3.1195, None, 3.1524],
    ["No. 2", 3.1192, None, 3.1525],
    ["Main journals", None, None, None],
    ["No. 1", 2.2481, 2.246, 2.2298],
    ["No. 2", 2.2476, 2.246, 2.2297],
]


def test_each_title_says_what_the_rows_below_it_measure(make_book):
    (book,) = read_jobs(make_book({"S": ROWS}))
    told = {
        r.place.address: (r.measurand, r.part.number, r.stage)
        for r in book.readings
        if r.state == "read" and r.stage in ("found", "final")
    }
    assert told == {
        "B5": ("bore", 1, "found"),
        "D5": ("bore", 1, "final"),
        "B6": ("bore", 2, "found"),
        "D6": ("bore", 2, "final"),
        "B8": ("piston_diameter", 1, "found"),
        "D8": ("piston_diameter", 1, "final"),
        "B9": ("piston_diameter", 2, "found"),
        "D9": ("piston_diameter", 2, "final"),
        "B11": ("main_journal", 1, "found"),
        "D11": ("main_journal", 1, "final"),
        "B12": ("main_journal", 2, "found"),
        "D12": ("main_journal", 2, "final"),
    }

"""Benches beside the limits of all, tickets in the units of the others, singles by their names.

That schools and shops write so is common practice, no source; sizes are from memory.
"""

from __future__ import annotations

from datetime import date

import pytest
from books.small_sheet import in_words

from workbook_tools.jobs.read import read_jobs

BENCHES = [
    ["Bench test, term two, inches"],
    [],
    ["", "Min", "Max", "Bench 1", "Bench 2", "Bench 3"],
    ["Engine", None, None, "Brindle 5 hp", "Brindle 5 hp", "Tansley 3 hp"],
    ["Student", None, None, "Aiden K.", "Briseis M.", "Cody W."],
    ["Bore", 2.562, 2.566, 2.5646, 2.5651, 2.5639],
    ["Piston", 2.556, 2.561, 2.5602, 2.5604, 2.5598],
]


def test_benches_side_by_side_are_jobs_beside_the_limits_of_all(make_book):
    jobs = list(read_jobs(make_book({"Sheet": BENCHES})))
    assert [job.job.number.text for job in jobs] == ["Bench 1", "Bench 2", "Bench 3"]
    assert [job.job.engine.text for job in jobs] == ["Brindle 5 hp", "Brindle 5 hp", "Tansley 3 hp"]
    told = [[in_words(r) for r in job.readings] for job in jobs]
    assert all(any("bore" in t and "limit_low 2.562 in" in t for t in one) for one in told)
    sizes = [
        [r.value for r in job.readings if r.measurand == "bore" and not r.stage] for job in jobs
    ]
    assert sizes == [[2.5646], [2.5651], [2.5639]]


def ticket(number, rows):
    return [["Ticket", number], ["Customer", "Ostrow"], ["In", date(2025, 3, 4)], [], *rows]


FULL = [
    ["Cyl", "Bore", "Piston", "Clearance"],
    [1, 86.512, 86.471, 0.041],
    [2, 86.514, 86.472, 0.042],
]


def test_a_ticket_of_few_sizes_is_in_the_units_of_the_others(make_book):
    few = [["Stroke", 88]]
    sheets = {"A": ticket("T-1", FULL), "B": ticket("T-2", FULL), "C": ticket("T-3", few)}
    *_, last = read_jobs(make_book(sheets))
    assert "stroke 88 mm" in [in_words(r) for r in last.readings]


@pytest.mark.parametrize(
    ("engine", "rows"),
    [
        ("Marlow 250 two-stroke", [["Bore top", 66.253], ["Bore bottom", 66.249]]),
        ("Marlow 250cc", [["Bore", 66.253]]),
        ("Dornfeld K80", [["Bore", 46.02]]),
    ],
)
def test_a_single_is_told_by_a_name_near_its_size(make_book, engine, rows):
    stroke = 45 if "80" in engine else 72
    job = [["Job", "26-041"], ["Engine", engine], [], *rows, ["Stroke (mm)", stroke]]
    (book,) = read_jobs(make_book({"S": job}))
    told = [in_words(r) for r in book.readings if r.measurand == "bore"]
    assert all(t.startswith("bore 1 ") for t in told), told

"""What a call's cells tell of it: which bearing it is for.

That shops keep such sheets is common practice, no source.
"""

from __future__ import annotations

from workbook_tools.jobs.read import read_jobs


def read_one(make_book, rows):
    (book,) = read_jobs(make_book({"S": [["Job", "55218"], ["Engine", "four"], [], *rows]}))
    return book


def record_at(book, address):
    return next(r for r in book.records if r.place.address == address)


def test_a_clearance_is_of_the_bearing_whose_sizes_it_takes(make_book):
    rows = [
        ["Cylinder", 1, 2],
        ["Big end housing", 1.8955, 1.8954],
        ["Shell", 0.0723, 0.0724],
        ["Crankpin", 1.7487, 1.7488],
        ["Oil", "=ENG.BEARING_CLEARANCE(B5,B6,B7)", "=ENG.BEARING_CLEARANCE(C5,C6,C7)"],
    ]
    book = read_one(make_book, rows)
    assert record_at(book, "B8").measurand == "rod_bearing_clearance"
    # The general function on cells of no bearing keeps its general name.
    bare = read_one(make_book, [["a", 1.8955], ["b", 0.0723], ["c", 1.7487], ["d", rows[4][1]]])
    assert {r.measurand for r in bare.records} <= {"bearing_clearance"}

"""What a call's cells tell of it: which bearing it is for, and the units where it names none.

That shops keep such sheets is common practice, no source.
"""

from __future__ import annotations

from workbook_tools.findings import check
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


def test_a_call_of_lengths_without_a_unit_is_in_those_of_the_job(make_book):
    rows = [
        ["Cylinder", 1, 2, 3, 4],
        ["Bore (mm)", 86.02, 86.01, 86.02, 86.02],
        ["Stroke (mm)", 86],
        ["Piston below deck (mm)", 0.10, 0.12, 0.11, 0.10],
        ["Head gasket compressed (mm)", 0.9],
        ["Quench", "=ENG.QUENCH(B7,$B$8)", "=ENG.QUENCH(C7,$B$8)"],
        ["Deck volume", '=ENG.DECK_VOLUME(B5,B7,"metric")', '=ENG.DECK_VOLUME(C5,C7,"metric")'],
    ]
    book = read_one(make_book, rows)
    quench = record_at(book, "B9")
    assert (quench.system, quench.unit) == ("metric", "mm")
    decks = [r for r in book.readings if r.measurand == "deck_clearance"]
    assert {(r.value, r.unit) for r in decks} >= {(0.1, "mm"), (0.12, "mm")}
    assert "unit-slip" not in {finding.code for finding in check(book)}


def test_a_volume_without_a_unit_is_still_taken_in_cubic_inches_of_inches(make_book):
    # A volume comes to another number in the other units: the call has to name them.
    rows = [
        ["Bore (mm)", 86.02],
        ["Stroke (mm)", 86],
        ["Head gasket bore (mm)", 87.5],
        ["Deck volume", "=ENG.DECK_VOLUME(B4,B5)"],
    ]
    book = read_one(make_book, rows)
    assert record_at(book, "B7").system == "inch"

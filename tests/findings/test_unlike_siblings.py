"""Readings without a mate that are far from their siblings, and what other jobs have too.

How far such readings scatter is common practice, no source.
"""

from __future__ import annotations

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs

HEAD = [["Job", "26-041"], ["Customer", "Ostrow"], ["Engine", "six"], ["", 1, 2, 3, 4, 5, 6]]


def told(make_book, rows):
    (book,) = read_jobs(make_book({"S": [*HEAD, *rows]}))
    return {(f.code, f.place.address) for f in check(book) if f.place}


@pytest.mark.parametrize(
    ("row", "finding"),
    [
        (["Chamber volume cc", 47.4, 47.2, 74.4, 47.2, 47.3, 47.4], ("digits-exchanged", "D5")),
        (["Chamber volume cc", 46.5, 46.4, 46.6, 46.5, 50.1, 46.4], ("apart-from-siblings", "F5")),
        (["Rod weight g", 612.5, 612.0, 612.5, 712.5, 612.0, 612.5], ("apart-from-siblings", "E5")),
        (["Piston weight g", 512.5, 512.5, 512.7, 512.5, 521.5, 512.5], ("digits-exchanged", "F5")),
        (["Piston weight g", 412, 413, 412, 418, 412, 413], ("apart-from-siblings", "E5")),
        (["Ring gap mm", 0.35, 0.45, 0.28, 0.0034, 0.4, 0.32], ("slipped-decimal", "E5")),
        (["Liner protrusion mm", 0.08, 0.09, 0.08, 0.0008, 0.09, 0.07], ("slipped-decimal", "E5")),
        (["Liner stand-proud", 3, 2.5, 3.5, 0.08, 2.5, 3], ("wrong-unit", "E5")),
        (["Ring gap thou", 14, 17, 12, 0.38, 16, 13], ("wrong-unit", "E5")),
    ],
)
def test_what_mates_with_nothing_is_alike_in_an_engine(make_book, row, finding):
    assert finding in told(make_book, [row])


@pytest.mark.parametrize(
    "row",
    [
        ["Chamber volume cc", 63.8, 64.2, 64.0, 65.1, 64.4, 63.9],
        ["Piston weight g", 512.5, 514.0, 511.0, 519.0, 513.0, 512.5],
        ["Liner protrusion mm", 0.08, 0.09, 0.08, 0.01, 0.09, 0.07],
        ["Ring mass g", 9, 9, 10, 9, 9, 9],
        ["Deck clearance mm", 0.27, 0.26, 0.24, 0.27, 0.27, 0.26],
        ["Crank run-out mm", 0.01, 0.01, 0.05, 0.01, 0.01, 0.01],
        ["Spring installed height inlet mm", 32.3, 32.3, 32.4, 31.9, 32.3, 32.3],
    ],
)
def test_what_scatters_as_it_does_is_not_doubted(make_book, row):
    assert told(make_book, [row]) == set()


def test_what_no_engine_has_is_told_where_its_words_leave_no_doubt(make_book):
    rows = [["Bore in", *[4.03] * 6], [], ["Compression ratio", 105]]
    assert ("slipped-decimal", "B7") in told(make_book, rows)


def test_what_all_jobs_of_a_log_have_is_what_its_column_means(make_book):
    heads = ["Job", "Customer", "Engine", "Bore", "Stroke", "Head height"]
    rows = [
        [f"26-0{n}", "Ostrow", "four", 4.03 + n / 1000, 3.48, 118.6 + n / 100]
        for n in range(10, 16)
    ]
    books = read_jobs(make_book({"log": [heads, *rows]}))
    assert len(books) == 6
    assert not [f for book in books for f in check(book) if f.code == "wrong-unit"]


@pytest.mark.parametrize(("size", "is_slip"), [(24.382, True), (29.9, False)])
def test_a_size_that_no_engine_has_is_held_to_its_column_in_the_other_jobs(
    make_book, size, is_slip
):
    heads = ["Job", "In", "Out", "Customer", "Engine", "Undersize", "Main ground", "Rod ground"]
    sizes = [2.4382, 2.4282, 2.4899, 2.7384, size, 2.3885]
    rows = [
        [f"120{n}", f"2024-04-0{n}", f"2024-04-1{n}", "Roach", "350", ".010/.010", one, 2.0888]
        for n, one in enumerate(sizes, 1)
    ]
    books = read_jobs(make_book({"S": [heads, *rows]}))
    found = {(f.code, f.place.address) for book in books for f in check(book) if f.place}
    assert found == ({("slipped-decimal", "G6")} if is_slip else set())


TWIN = [["Job", "26-042"], ["mm", "Cyl 1 (LH)", "Cyl 2 (RH)"], ["Bore", 84.01, 84.02]]


@pytest.mark.parametrize(
    ("rows", "finding"),
    [
        ([["Piston below deck", 0.8, -0.82]], ("deck-sign", "C4")),
        ([["Exhaust stem", 7.946, 7.948], ["Exhaust guide", 8.001, 7.948]],
         ("sizes-out-of-order", "C4")),
    ],
)  # fmt: skip
def test_the_two_of_a_twin_tell_of_each_other(make_book, rows, finding):
    (book,) = read_jobs(make_book({"S": [*TWIN, *rows]}))
    assert finding in {(f.code, f.place.address) for f in check(book) if f.place}


@pytest.mark.parametrize(
    "row", [["Piston below deck", 0.8, 0.82], ["Piston below deck", 0.05, -0.05],
            ["Piston below deck", 0.3, -0.5]],
)  # fmt: skip
def test_two_pistons_may_stand_on_either_side_of_the_deck(make_book, row):
    (book,) = read_jobs(make_book({"S": [*TWIN, row]}))
    assert "deck-sign" not in {f.code for f in check(book)}

"""Readings copied from another job, and what is no copy."""

import random

import pytest
from cylinder_table import BORES, table

from workbook_tools.findings import check_batch
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.jobs.read import read_book
from workbook_tools.jobs.records import Book

SKIRTS = [4.0259, 4.0260, 4.0258, 4.0261, 4.0259, 4.0257]


@pytest.fixture
def batch(make_book):
    """What check_batch finds in books given as (file name, job, rows)."""

    def of(*books):
        read = [
            read_book(make_book({"S": [["Job no.", job], *rows]}, file_name=name))
            for name, job, rows in books
        ]
        return {read[n].file_name: f for n, f in check_batch(read).items()}

    return of


def sizes(bores, skirts):
    return table(("Bore (in)", bores), ("Piston skirt (in)", skirts))


def test_readings_copied_from_another_job(batch):
    other = [4.0306, 4.0304, 4.0305, 4.0307, 4.0303, 4.0305]
    found = batch(("a.xlsx", "1", sizes(BORES, SKIRTS)), ("b.xlsx", "2", sizes(BORES, SKIRTS)),
                  ("c.xlsx", "3", sizes(other, other)))  # fmt: skip
    assert set(found) == {"a.xlsx", "b.xlsx"}
    ((finding,),) = [found["b.xlsx"]]
    assert finding.kind == "copied reading"
    assert "the same numbers, one by one, as in a.xlsx, job 1" in finding.message


@pytest.mark.parametrize(
    ("first", "second", "jobs"),
    [
        # The same nominal sizes in two engines are no copy.
        (([4.03] * 6, [4.026] * 6), ([4.03] * 6, [4.026] * 6), ("1", "2")),
        # Gaps filed to one size scatter by one step of the gauge.
        (([0.019, 0.019, 0.0195] * 2, [0.02] * 6), ([0.019, 0.019, 0.0195] * 2, [0.02] * 6),
         ("1", "2")),
        # Two states of one job's book.
        ((BORES, SKIRTS), (BORES, SKIRTS), ("7", "7")),
    ],
)  # fmt: skip
def test_what_is_no_copy(batch, first, second, jobs):
    rows = sizes(*first), sizes(*second)
    assert batch(("a.xlsx", jobs[0], rows[0]), ("b.xlsx", jobs[1], rows[1])) == {}


def test_a_copy_shows_whatever_order_the_cylinders_have(batch):
    rows = sizes(BORES, SKIRTS)
    by_bank = [rows[0], *(rows[n] for n in (1, 3, 5, 2, 4, 6))]
    found = batch(("a.xlsx", "1", rows), ("b.xlsx", "2", by_bank))
    assert set(found) == {"a.xlsx", "b.xlsx"}


def test_engines_machined_to_the_same_sizes_are_no_copies(batch):
    # Thirty fours of one kind: sizes within a tenth or two of the same nominal. By chance two
    # of them may have a row alike, hardly ever so much that it says anything.
    rng = random.Random(4)

    def near(nominal):
        return [round(nominal + 0.0001 * round(rng.gauss(0, 1)), 4) for _ in range(4)]

    books = [(f"{n}.xlsx", str(n), sizes(near(4.03), near(4.0262))) for n in range(30)]
    assert batch(*books) == {}


def test_no_books_and_empty_books_have_nothing_in_common():
    empty = [Book(f"{n}.xlsx", str(n), Job(number=JobField(str(n)))) for n in range(2)]
    assert check_batch([]) == {}
    assert check_batch(empty) == {}


def test_test_speeds_alike_in_two_jobs_are_no_copy(make_book):
    speeds = [2500, 3000, 3500, 4000, 4500, 5000, 5800, 6100]
    books = []
    for job in ("26-031", "26-032"):
        calls = [f"=ENG.MEAN_PISTON_SPEED(3.5,{column}3)" for column in "BCDEFGHI"]
        runs, speed = ["Run", *range(1, 9)], ["Speed (rpm)", *speeds]
        rows = [["Job no.", job], runs, speed, ["Mean speed", *calls]]
        books.append(read_book(make_book({"S": rows}, file_name=f"{job}.xlsx")))
    assert check_batch(books) == {}

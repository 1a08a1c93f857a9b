"""Rows that two books share: a copy where they say enough for the choice that chance had."""

from types import SimpleNamespace

import pytest

from workbook_tools.findings.copied import Block, check_blocks
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Job, JobField


def book(number):
    return SimpleNamespace(
        file_name=f"{number}.xlsx", sha256=number, part="", job=Job(number=JobField(number))
    )


def rows(own, others):
    """Two rows of four readings that every book here has, and others of its own."""
    shared = [("Big end housing", b"a"), ("Crankpin", b"b")]
    mine = [(f"Row {n}", f"{own} {n}".encode()) for n in range(others)]
    return [
        Block(name, Place("Sheet1", f"B{7 + n}"), values, 4, "2.1", 6.0)
        for n, (name, values) in enumerate(shared + mine)
    ]


@pytest.mark.parametrize(("others", "told"), [(0, [0, 1]), (2, [0, 1]), (40, [])])
def test_two_rows_of_few_are_a_copy_and_two_of_many_are_chance(others, told):
    books = [book("24-01"), book("24-02")]
    found = check_blocks(books, [rows(n, others) for n in (1, 2)])
    assert sorted(found) == told


@pytest.mark.parametrize(("place", "told"), [("B", []), ("C", [0, 1])])
def test_a_sheet_that_two_jobs_of_a_file_share_is_no_copy(place, told):
    """The same cells are read with both; other cells with the same numbers are told."""
    books = [book("24-01"), book("24-02")]
    books[1].sha256, books[1].part = books[0].sha256, "24-02"
    again = [b._replace(place=Place("Sheet1", f"{place}{b.place.address[1:]}")) for b in rows(1, 0)]
    assert sorted(check_blocks(books, [rows(1, 0), again])) == told

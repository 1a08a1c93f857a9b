"""The work of a summary grows with its book, not with the square of it."""

from __future__ import annotations

import sys

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book
from workbook_tools.render.handover import build_files
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.summary import summarize


def calls_of(work):
    """How many Python functions a piece of work calls."""
    count = 0

    def note(frame, event, arg):
        nonlocal count
        count += event == "call"

    sys.setprofile(note)
    try:
        work()
    finally:
        sys.setprofile(None)
    return count


def labeled(n):
    return [[f"Quench {i} (in)", 0.01, 0.04, f"=ENG.QUENCH(B{i},C{i})"] for i in range(1, n + 1)]


def alike(n):
    return [["Quench (in)", 0.01, 0.04, f"=ENG.QUENCH(B{i},C{i})"] for i in range(1, n + 1)]


def cylinders(n):
    return [[f"Cyl {i}", 0.01, 0.04, f"=ENG.QUENCH(B{i},C{i})"] for i in range(1, n + 1)]


def in_one_cell(n):
    return [["Quench (in)", "=" + "+".join(["ENG.QUENCH(0.01,0.04)"] * n)]]


def chain(n):
    rows = [["Quench (in)", "=ENG.QUENCH(0.01,0.04)"]]
    return rows + [[f"Sum {i} (in)", f"=ENG.QUENCH(B{i - 1},0.004)"] for i in range(2, n + 2)]


def chain_of_sums(n):
    rows = [["Quench (in)", "=ENG.QUENCH(0.01,0.04)"]]
    return rows + [[f"Sum {i} (in)", f"=ENG.QUENCH(B{i - 1},0.01)-0.01"] for i in range(2, n + 2)]


# The others on top of these grow by the same parts of the work.
ALSO = [pytest.param(rows, marks=pytest.mark.slow) for rows in (alike, cylinders, chain)]


@pytest.mark.parametrize("rows", [labeled, in_one_cell, chain_of_sums, *ALSO])
def test_twice_the_calls_are_twice_the_work(make_book, rows):
    def work(n):
        path = make_book({"S": rows(n)}, file_name=f"{n}.xlsx")

        def read_and_told():
            book = read_book(path)
            assert len(book.records) >= n
            build_files("book", summarize(book, check(book)), Shop(), ("html", "json"))

        read_and_told()  # The words of a label are looked up once, whichever book is first.
        return calls_of(read_and_told)

    work(10)  # What is loaded on first need is no part of it.
    assert work(120) < 2.5 * work(60)

"""A log of a job a row: a number that a slip parts from those of all other jobs."""

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs

HEADS = ["Job", "Customer", "Started", "Deck clearance (in)", "Gasket (in)", "Stroke (in)"]
DECKS = (0.008, 0.007, 0.009, 0.008, 0.010, 0.007)


@pytest.fixture
def told(make_book):
    def of(row=None, head="", value=None):
        rows = [[f"OT-10{n}", f"Owner {n}", f"2024-0{n}-05", deck, 0.041, 3.48]
                for n, deck in enumerate(DECKS, 1)]  # fmt: skip
        if row is not None:
            rows[row][HEADS.index(head)] = value
        jobs = read_jobs(make_book({"Log": [HEADS, *rows]}))
        return {(f.place.address, f.code): f.message for job in jobs for f in check(job)
                if f.kind in ("unit slip", "disagreement")}  # fmt: skip

    return of


def test_a_log_of_like_engines_has_nothing_to_tell(told):
    assert told() == {}


@pytest.mark.parametrize(
    ("head", "value", "cell", "code", "words"),
    [
        ("Deck clearance (in)", 0.08, "D4", "slipped-decimal", "between 0.007 in and 0.01 in"),
        ("Gasket (in)", 0.0041, "E4", "slipped-decimal", "one place too far left (0.041 in)"),
        ("Gasket (in)", 1.041, "E4", "wrong-unit", "(0.041 in)"),
        ("Stroke (in)", 3.84, "F4", "digits-exchanged", "have 3.48 in. It fits if two"),
    ],
)
def test_one_slip_in_a_column(told, head, value, cell, code, words):
    found = told(2, head, value)
    assert words in found[cell, code]


@pytest.mark.parametrize(
    ("head", "value"),
    [
        ("Deck clearance (in)", 0.02),
        ("Deck clearance (in)", 0.0008),
        ("Gasket (in)", 0.051),
        ("Stroke (in)", 4.0),
    ],
)
def test_another_engine_has_other_sizes(told, head, value):
    assert told(2, head, value) == {}

"""A month of fourteen build books with two dozen known faults: all are found, and little else.

Each finding is known by its book, its code and its cell: it is of a known fault, follows from one,
or was ruled by hand. One that nobody ruled fails the test, and so does a ruling without a finding.
"""

import month_of_books as month
import pytest

from workbook_tools.findings import check, check_batch
from workbook_tools.jobs.read import read_whole

# What finds each known fault: its code and its cell.
FOUND = {
    "the heads' torque was seen by nobody": ("missing-signature", "Assembly!M14"),
    "a bore one turn out": ("one-turn", "Block!C14"),
    "main caps are not marked": ("marked-not-done", "Assembly!N8"),
    "a bore in inches": ("wrong-unit", "Block!C11"),
    "nobody released it": ("missing-signature", "Release!A38"),
    "a slipped decimal": ("slipped-decimal", "Rings!D19"),
    "no firing order": ("missing-section", ""),
    "no top gap of any cylinder": ("missing-reading", "Rings!D16"),
    "steps that fall": ("torque-steps-fall", "Assembly!B14"),
    "rod caps held dry": ("dry-threads", "Assembly!B10"),
    "no leak-down, no cranking pressure": ("missing-section", "Running!B17"),
    "the rod caps' last pass was done by nobody": ("missing-signature", "Assembly!L9"),
    "no main bearing was measured": ("missing-section", "Bearings!B32"),
    "finished before it was started": ("finished-before-started", "Job!H8"),
    "lash of one valve missing": ("missing-reading", "Valvetrain!F23"),
    "a housing bore was not read": ("missing-reading", "Bearings!B34"),
    "the main caps were done by nobody": ("missing-signature", "Assembly!L8"),
    "end play far out": ("out-of-band", "Bottom end!D9"),
    "the heads' first pass by nobody": ("missing-signature", "Assembly!J12"),
    "the bores are those of another engine": ("copied-readings", "Block!C8"),
    "the oil pump's bolts are not marked": ("marked-not-done", "Assembly!N11"),
    "a lash ten times too large": ("slipped-decimal", "Valvetrain!F24"),
    "a chamber ten times too large": ("slipped-decimal", "Volumes!D18"),
    "a second ring gap half of the others": ("half-or-double", "Rings!H20"),
    "nobody saw it leave": ("missing-signature", "Parts!A33"),
    "the rod bolts' torque is missing": ("missing-signature", "Assembly!L9"),
}
# (book, code, cell) of what else is true.
TRUE = {
    (0, "out-of-band", "Block!F14"): "the taper of the bore that is one turn out",
    (0, "out-of-band", "Block!H14"): "its out of round",
    (0, "out-of-band", "Pistons!D17"): "its piston's clearance",
    (1, "unusable-cell", "Block!C11:D13"): "the range of the bore in inches",
    (2, "out-of-band", "Rings!D19"): "the gap with the slipped decimal",
    (2, "near-limit", "Rods!E10"): "this big end happens to be at the end of its band",
    (8, "copied-readings", "Block!C8"): "the engine that the bores were taken from",
    (9, "out-of-band", "Bottom end!D10"): "what tightening takes from the wrong end play",
    (11, "out-of-band", "Valvetrain!F24"): "the lash that is ten times too large",
    (12, "near-limit", "Rods!E13"): "this big end happens to be at the end of its band",
    (12, "out-of-band", "Rings!H20"): "the gap that is half of the others",
    (12, "out-of-band", "Volumes!I18"): "the ratio of the cylinder with the wrong chamber",
    (12, "out-of-band", "Volumes!D29"): "the spread of the chambers with it",
    (12, "unusual-result", "Gasket!J18"): "the lowest ratio of the engine with it",
    (12, "unusual-result", "Camshaft!D24"): "the lowest trapped ratio with it",
    (12, "unusable-cell", "Volumes!D14:D21"): "the range of chambers with it",
}
FALSE: dict[tuple[int, str, str], str] = {}
LEAST_TRUE = 0.95


@pytest.fixture(scope="module")
def found():
    """(book, code, cell) of every finding of the month."""
    books = []
    for number in range(month.BOOKS):
        book = month.engine(number)
        for fault in month.FAULTS:
            book = month.with_fault(book, fault) if fault.book == number else book
        books.append(read_whole(book))
    findings = [(n, finding) for n, book in enumerate(books) for finding in check(book)]
    findings += [(n, f) for n, of_book in check_batch(books).items() for f in of_book]
    return [(n, f.code, f"{f.place.sheet}!{f.place.address}" if f.place else "")
            for n, f in findings]  # fmt: skip


@pytest.mark.slow
def test_every_known_fault_is_found(found):
    assert len(month.FAULTS) >= 24
    assert [f.what for f in month.FAULTS if (f.book, *FOUND[f.what]) not in found] == []


@pytest.mark.slow
def test_nearly_all_that_is_found_is_true(found):
    of_faults = {(fault.book, *FOUND[fault.what]) for fault in month.FAULTS}
    told = [one for one in found if one[1] != "never-calculated"]
    assert sorted(told) == sorted(of_faults | TRUE.keys() | FALSE.keys())
    assert len(told) - len(FALSE) >= LEAST_TRUE * len(told)


@pytest.mark.slow
def test_a_book_that_was_never_calculated_is_told_once(found):
    told = [n for n, code, _ in found if code == "never-calculated"]
    assert told == list(range(month.BOOKS))

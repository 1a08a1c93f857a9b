"""A month of fourteen build books with two dozen known faults: all are found, and little else.

Each finding at the row of a known fault is true. Every other was ruled by hand, in RULED, by its
code and the words that it begins with; one that nobody ruled fails the test.
"""

import re

import month_of_books as month
import pytest

from workbook_tools.findings import check, check_batch
from workbook_tools.jobs.read import read_whole

# (code, words that the message begins with): whether it is true, and why.
RULED = {
    ("out-of-band", ""): (True, "the number lies outside the band that the book gives for it"),
    ("near-limit", ""): (True, "the number lies at the end of the band that the book gives"),
    ("unusual-result", "Ratio"): (True, "follows from the chamber of ten times the volume"),
    ("unusual-result", "Trapped ratio"): (True, "follows from the same chamber"),
    ("unusable-cell", "Chamber"): (True, "the range that the chamber stands in"),
    ("copied-readings", "Bore"): (True, "the engine that the bores were taken from"),
    ("copied-readings", "Measured with the shells in"): (False, "two short rows, alike by chance"),
    ("unusable-cell", "Valve, Cyl 1"): (False, "1/4 lift names a row and is no lift"),
}
LEAST_TRUE = 0.95


@pytest.fixture(scope="module")
def found():
    """([(book, finding)], {fault: its cells}) of the whole month."""
    books, cells = [], {}
    for number in range(month.BOOKS):
        book = month.engine(number)
        for fault in month.FAULTS:
            if fault.book == number:
                book, cells[fault.what] = month.with_fault(book, fault)
        books.append(read_whole(book))
    findings = [(n, finding) for n, book in enumerate(books) for finding in check(book)]
    findings += [(n, f) for n, of_book in check_batch(books).items() for f in of_book]
    return findings, cells


def of_fault(fault, cells, number, finding):
    """Whether a finding is of a known fault: in a row of its cells, or in its words."""
    if number != fault.book:
        return False
    if finding.place is None:
        return fault.what.removeprefix("no ") in finding.message
    if finding.code == "missing-cylinder":
        sheet, column = finding.place.sheet, re.sub(r"\d", "", finding.place.address)
        return any(re.fullmatch(rf"{sheet}!{column}\d+", cell) for cell in cells)
    return any(
        (place.sheet, _row(place.address)) in {(c.split("!")[0], _row(c)) for c in cells}
        for place in finding.places
    ) or any(cell.split("!")[1] in finding.message for cell in cells)


def _row(address):
    return "".join(c for c in address.split("!")[-1].split(":")[0] if c.isdigit())


@pytest.mark.slow
def test_every_known_fault_is_found(found):
    findings, cells = found
    missed = [
        fault.what
        for fault in month.FAULTS
        if not any(of_fault(fault, cells[fault.what], n, f) for n, f in findings)
    ]
    assert missed == []
    assert len(month.FAULTS) >= 24


@pytest.mark.slow
def test_nearly_all_that_is_found_is_true(found):
    findings, cells = found
    ruled, unruled = [], []
    for number, finding in findings:
        if finding.code == "never-calculated":
            continue
        if any(of_fault(f, cells[f.what], number, finding) for f in month.FAULTS):
            ruled.append(True)
            continue
        rules = [
            is_true
            for (code, words), (is_true, _) in RULED.items()
            if code == finding.code and finding.message.startswith(words)
        ]
        ruled += rules[:1]
        unruled += [] if rules else [f"{number} {finding.code} {finding.place} {finding.message}"]
    assert unruled == []
    assert sum(ruled) >= LEAST_TRUE * len(ruled), f"{sum(ruled)} of {len(ruled)} are true"


@pytest.mark.slow
def test_a_book_that_was_never_calculated_is_told_once(found):
    findings, _ = found
    told = [n for n, finding in findings if finding.code == "never-calculated"]
    assert told == list(range(month.BOOKS))

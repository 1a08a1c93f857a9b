"""Two cells that should agree and do not: one item on two sheets, one job number and another."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from workbook_tools.findings.evidence import Evidence, Size
from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.paper_records import JobField
from workbook_tools.jobs.records import Reading

# What stays the same through a whole job, whoever asks for it.
_CONSTANTS = ("stroke", "rod_length", "cylinder_count")


def check_agreement(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each pair of cells that should say the same and does not."""
    yield from _twice_entered(evidence)
    yield from _constants(evidence)
    yield from _job_numbers(evidence)


def _twice_entered(evidence: Evidence) -> Iterator[Finding]:
    """A row of readings that stands in the book twice, the same but for one of them."""
    tables: dict[tuple[str, str], list[tuple[Reading, ...]]] = {}
    for row in evidence.rows:
        label = row[0].label
        if label is not None and len(row) > 3 and len({r.label and r.label.text for r in row}) == 1:
            tables.setdefault((label.text.casefold(), label.unit), []).append(row)
    for same in tables.values():
        values = [{r.value for r in row} for row in same]
        for n, first in enumerate(same):
            for m in range(n + 1, len(same)):
                if len(values[n] & values[m]) > 1:
                    yield from _one_apart(first, same[m])


def _one_apart(first: Sequence[Reading], second: Sequence[Reading]) -> Iterator[Finding]:
    there = {r.label.position: r for r in second if r.label is not None}
    pairs = [(r, there[r.label.position]) for r in first if r.label and r.label.position in there]
    apart = [(a, b) for a, b in pairs if not math.isclose(a.number, b.number, rel_tol=1e-9)]
    alike = {a.number for a, b in pairs if math.isclose(a.number, b.number, rel_tol=1e-9)}
    if len(apart) != 1 or len(pairs) < 4 or len(alike) < 2:
        return
    one, other = apart[0]
    yield Finding(
        "entered-twice",
        other.place,
        f"{other.name} on {other.place.sheet} is {other.shown}, on {one.place.sheet} "
        f"({one.place.address}) it is {one.shown}; the other {len(pairs) - 1} readings are the "
        "same in both.",
        "Find the first record of this reading, and let one cell refer to the other.",
        (one.place,),
    )


def _constants(evidence: Evidence) -> Iterator[Finding]:
    """One size of the whole engine, entered twice under the same name and differently."""
    if len({f.text for f in evidence.book.job_numbers}) > 1:
        return  # Several jobs in one book each have their own.
    first: dict[tuple[str, str], Size] = {}
    for size in (s for name in _CONSTANTS for s in evidence.of(name) if s.typed):
        if size.label is None or size.label.position:
            continue
        known = first.setdefault((size.measurand, size.label.text.casefold()), size)
        if not math.isclose(known.si, size.si, rel_tol=1e-6):
            yield Finding(
                "entered-twice",
                size.place,
                f"{size.name} on {size.place.sheet} is {size.shown}; on {known.place.sheet} "
                f"({known.place.address}) it is {known.shown}.",
                "Correct the wrong one, and let one cell refer to the other.",
                (known.place,),
            )


def _job_numbers(evidence: Evidence) -> Iterator[Finding]:
    """A sheet with another job's number, in a book whose sheets refer to each other."""
    book = evidence.book
    linked = {
        (r.place.sheet, a.place.sheet)
        for r in book.records
        for a in r.arguments
        if a.place is not None and a.place.sheet != r.place.sheet
    }
    for n, field in enumerate(book.job_numbers[1:], 1):
        for other in book.job_numbers[:n]:
            if field.text.casefold() == other.text.casefold() or not _linked(field, other, linked):
                continue
            yield Finding(
                "job-number",
                field.place,
                f"{_sheet(field)} gives the job number {field.text}, {_sheet(other)} gives "
                f"{other.text}, and one takes numbers from the other.",
                "See whether the sheet was left from another job, and correct the number.",
                (other.place,) if other.place else (),
            )
            break


def _sheet(field: JobField) -> str:
    return f"sheet {field.place.sheet}" if field.place else "the book"


def _linked(one: JobField, other: JobField, linked: set[tuple[str, str]]) -> bool:
    if one.place is None or other.place is None:
        return False
    here, there = one.place.sheet, other.place.sheet
    return (here, there) in linked or (there, here) in linked

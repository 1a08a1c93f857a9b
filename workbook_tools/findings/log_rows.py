"""Readings that stand side by side in a job's row of a log, as they may be copied from another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from workbook_tools.books.places import order_of
from workbook_tools.findings.evidence import Evidence
from workbook_tools.jobs.records import Reading
from workbook_tools.measurands import find

# So many readings side by side are a copy, where so many of them have so many digits or more.
_FEWEST, _FEWEST_FINE, _FINE = 5, 2, 4
# What engines of one kind have alike.
_OF_A_KIND = ("stroke", "rod_length", "displacement")


def side_by_side(evidence: Evidence) -> Iterator[tuple[Reading, ...]]:
    """Every few measured readings in the row of a job that has one row of a sheet."""
    found = sorted(
        (r for r in evidence.readings if r.state == "read"), key=lambda r: order_of(r.place)
    )
    if not evidence.book.part or len({(r.place.sheet, order_of(r.place)[1]) for r in found}) != 1:
        return
    row = [r for r in found if _is_measured(r)]
    for at in range(len(row) - _FEWEST + 1):
        window = tuple(row[at : at + _FEWEST])
        if fine_of(window) >= _FEWEST_FINE:
            yield window


def _is_measured(reading: Reading) -> bool:
    term = find(reading.measurand)
    return term is not None and not term.chosen and reading.measurand not in _OF_A_KIND


def fine_of(readings: Sequence[Reading]) -> int:
    """How many of these have so many digits that two are hardly ever the same by chance."""
    digits = (f"{r.number:.10g}".replace(".", "").strip("0") for r in readings)
    return sum(len(text) >= _FINE for text in digits)

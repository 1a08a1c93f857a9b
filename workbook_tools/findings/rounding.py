"""Rounded before subtracting: a clearance from sizes that have lost their last digit."""

from __future__ import annotations

import re
from collections.abc import Iterator

from workbook_tools.books.records import Argument, Book, Place, Reading, Record
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.measured import (
    named,
    parameter_of,
    rows,
    shown,
    system_of,
)
from workbook_tools.quantities import LENGTH

# Functions whose result is a small difference of large sizes.
_DIFFERENCES = (
    "PISTON_CLEARANCE", "BEARING_CLEARANCE", "HOT_PISTON_CLEARANCE", "HOT_BEARING_CLEARANCE",
    "RING_SIDE_CLEARANCE", "END_PLAY", "ROD_SIDE_CLEARANCE", "DECK_CLEARANCE",
)  # fmt: skip
_ROUND = re.compile(
    r"\b(?:(ROUND(?:UP|DOWN)?|TRUNC|FIXED)\([^;]*?[,;]\s*(-?\d+)\s*\)|INT\()", re.IGNORECASE
)
# Decimals that a clearance needs in its sizes: a tenth of a thousandth inch, a micrometer's
# hundredth is too coarse in millimeters.
_DECIMALS = {"inch": 4, "metric": 3}
_PARTNERS = {
    "bore": "piston_diameter", "piston_diameter": "bore",
    "housing_bore": "journal", "journal": "housing_bore",
}  # fmt: skip
# Fewest readings that are whole by chance only once in some thousand times, were they read
# finer: four that differ, and more where all are the same, for that may be honest work.
_FEWEST, _FEWEST_SAME = 4, 6


def check_rounding(book: Book) -> Iterator[Finding]:
    """A finding for each size that is rounded before a clearance is taken from it."""
    told: set[Place] = set()
    items: set[tuple[str, str]] = set()
    for record in book.records:
        if record.function is None or record.function.name not in _DIFFERENCES:
            continue
        for argument in record.arguments:
            place = argument.place or record.place
            item = (record.name, argument.label.text if argument.label else argument.text)
            digits = _rounded_to(record, argument)
            if digits is None or place in told or item in items:
                continue
            told.add(place)
            items.add(item)
            yield _by_formula(record, argument, place, digits)
    yield from _by_digits(book)


def _rounded_to(record: Record, argument: Argument) -> int | None:
    """The decimals that a size is rounded to, where they are too few for a clearance."""
    parameter = parameter_of(record, argument)
    if parameter is None or parameter.kind is not LENGTH:
        return None
    for text in (argument.text, argument.formula):
        for found in _ROUND.finditer(text):
            digits = int(found[2]) if found[2] else 0
            if digits < _DECIMALS[system_of(record)]:
                return digits
    return None


def _by_formula(record: Record, argument: Argument, place: Place, digits: int) -> Finding:
    formula = argument.formula or argument.text
    step = shown(10.0**-digits / 2, argument.unit)
    return Finding(
        "disagreement",
        place,
        f"{named(argument.label, place)} is rounded ({formula}) before {record.name} in "
        f"{record.place.address} subtracts with it: the clearance may be {step} off.",
        "Subtract the readings as they are, and round only what is shown.",
    )


def _by_digits(book: Book) -> Iterator[Finding]:
    """Rows of sizes that all lack the last digit which their partners have."""
    by_name: dict[str, list[tuple[Reading, ...]]] = {}
    for row in rows(book):
        names = {u.parameter.name for r in row for u in r.uses if _is_difference(u.function)}
        for name in names & _PARTNERS.keys():
            by_name.setdefault(name, []).append(row)
    for name, found in by_name.items():
        partners = [r for row in by_name.get(_PARTNERS[name], []) for r in row]
        for row in found:
            system = row[0].system
            step = 10.0 ** (1 - _DECIMALS[system])
            values = [r.number for r in row]
            fewest = _FEWEST if len(set(values)) > 1 else _FEWEST_SAME
            if len(values) < fewest or not _all_whole(values, step):
                continue
            used = {u.record.place for r in row for u in r.uses}
            beside = [r.number for r in partners if any(u.record.place in used for u in r.uses)]
            if not beside or sum(_all_whole([v], step) for v in beside) * 2 > len(beside):
                continue
            yield Finding(
                "disagreement",
                row[0].place,
                f"{row[0].name} and its {len(row) - 1} siblings are all whole steps of "
                f"{shown(step, row[0].unit)}, the sizes they are compared with are finer: the "
                f"clearances may be {shown(step / 2, row[0].unit)} off.",
                "Enter the readings with all their digits, and round only what is shown.",
            )


def _is_difference(function: str) -> bool:
    return function.partition(".")[2] in _DIFFERENCES


def _all_whole(values: list[float], step: float) -> bool:
    return all(abs(v / step - round(v / step)) < 1e-6 for v in values)

"""Unit slips that no judgment is needed for: two units for one cell."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

from workbook_tools.books.places import cells_of
from workbook_tools.books.records import Argument, Book, Place, Record
from workbook_tools.catalog import Parameter
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.measured import named, parameter_of, shown, system_of
from workbook_tools.quantities import READING, UnreadableText, scale, unit_named


def check_units_mixed(book: Book) -> Iterator[Finding]:
    """A finding for each cell that is labeled in another unit than a call takes it in.

    And for each that one call takes in inches and another in millimeters.
    """
    told: set[Place] = set()
    for finding in (*_labels_against_calls(book), *_calls_against_calls(book)):
        if finding.place not in told:
            if finding.place is not None:
                told.add(finding.place)
            yield finding


def _bare_numbers(book: Book) -> Iterator[tuple[Record, Argument, Parameter, float]]:
    """Every single bare number that a call of the book takes in a unit, from a cell."""
    for record in book.records:
        if record.computed_by_batch:
            continue  # Its arguments are converted already.
        for argument in record.arguments:
            parameter = parameter_of(record, argument)
            if parameter is None or argument.place is None or not parameter.kind.has_units:
                continue
            value = argument.value
            if isinstance(value, (int, float)) and not isinstance(value, bool):
                yield record, argument, parameter, float(value)


@lru_cache(maxsize=1024)
def _factor(unit: str, si: str) -> float | None:
    """What one of a unit is in this unit of SI, None where it is no unit of that."""
    try:
        found, factor = unit_named(unit)
    except UnreadableText:
        return None
    return factor if found.si == si else None


def _labels_against_calls(book: Book) -> Iterator[Finding]:
    for record, argument, parameter, value in _bare_numbers(book):
        if argument.label is None or not argument.label.unit or not value:
            continue
        labeled = _factor(argument.label.unit, parameter.kind.si)
        taken = scale(parameter.kind, system_of(record))
        if labeled is None or taken[0] or math.isclose(labeled, taken[1], rel_tol=1e-6):
            continue
        assert argument.place is not None
        yield Finding(
            "unit slip",
            argument.place,
            f"{named(argument.label, argument.place)} is {value:.6g}, labeled "
            f"{argument.label.unit}, but {record.name} in {record.place.address} takes it as "
            f"{shown(value, argument.unit)}.",
            'Give the call the book\'s unit system ("inch" or "metric" as its last argument), or '
            "write the unit into the cell.",
        )


def _calls_against_calls(book: Book) -> Iterator[Finding]:
    seen: dict[Place, tuple[Record, Argument]] = {}
    for record, argument, parameter, value in _bare_numbers(book):
        if parameter.kind is READING or parameter.kind.inch == parameter.kind.metric or not value:
            continue
        assert argument.place is not None
        if len(cells_of(argument.place)) != 1:
            continue
        first, other = seen.setdefault(argument.place, (record, argument))
        if other.unit == argument.unit:
            continue
        yield Finding(
            "unit slip",
            argument.place,
            f"{named(argument.label, argument.place)} is {value:.6g}: {first.name} in "
            f"{first.place.address} takes it in {other.unit}, {record.name} in "
            f"{record.place.address} in {argument.unit}.",
            'Give every call the same unit system, "inch" or "metric", as its last argument.',
        )

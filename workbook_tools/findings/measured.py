"""The typed readings of a book as checks compare them: numbers with kind, unit and siblings."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from functools import lru_cache

from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.books.labels import is_position
from workbook_tools.books.places import cells_of
from workbook_tools.books.readings import number_of as number_in
from workbook_tools.books.records import Argument, Book, Label, Place, Reading, Record
from workbook_tools.books.uses import system_of_calls
from workbook_tools.catalog import Parameter
from workbook_tools.units import (
    Kind,
    System,
    to_si,
)


def named(label: Label | None, place: Place) -> str:
    """What the book calls a cell, with its address."""
    return f"{label} ({place.address})" if label else place.address


_SENTENCE = re.compile(
    r"\b(?:is|are|was|were|says?|means?|meant|usually|write|see)\b|[;!?]", re.IGNORECASE
)


def words_of(label: Label | None) -> str:
    """The words of a label with its position; "" for a sentence that only stands near a cell.

    "A card's lash is usually meant hot" says nothing of the number below it.
    """
    return "" if label is None else _unless_sentence(str(label))


@lru_cache(maxsize=4096)
def _unless_sentence(text: str) -> str:
    return "" if _SENTENCE.search(text) else text


def shown(value: float, unit: str = "") -> str:
    """A number with its unit, as people write it."""
    text = f"{value:.6g}"
    return f"{text} {unit}" if unit else text


def spot(place: Place) -> tuple[int, int]:
    """(row, column) of a cell, of a range its first."""
    return _spot_of(place.address)


@lru_cache(maxsize=10_000)
def _spot_of(address: str) -> tuple[int, int]:
    row, column = coordinate_to_tuple(address.split(":")[0])
    return row, column


def parameter_of(record: Record, argument: Argument) -> Parameter | None:
    """The catalog's parameter that an argument is given for."""
    if record.function is None:
        return None
    for parameter in record.function.parameters:
        if parameter.name == argument.name:
            return parameter
    return None


def number_of(argument: Argument, kind: Kind, system: System) -> float | None:
    """An argument's single value as a bare number of its kind, None where it has none."""
    return number_in(argument.value, kind, system)


def in_si(value: float, kind: Kind, system: System) -> float:
    """A bare number in SI."""
    return to_si(value, kind, system)


def system_of(record: Record) -> System:
    """The unit system that a record's call takes bare numbers in."""
    return "metric" if record.system == "metric" else "inch"


def book_system(book: Book) -> System:
    """The unit system that most of a book's calls with lengths take."""
    return system_of_calls(book.records)


@lru_cache(maxsize=8)
def readings(book: Book) -> tuple[Reading, ...]:
    """Every typed number of a book that has a label or that a call uses."""
    return tuple(r for r in book.readings if r.value is not None and (r.label or r.uses))


@lru_cache(maxsize=4096)
def number_at(position: str) -> int | None:
    """The number in a position, 4 of "Main 4"; None where there is none, or several."""
    found = re.findall(r"\d+", position)
    return int(found[0]) if len(found) == 1 else None


@lru_cache(maxsize=4096)
def of_what(position: str) -> str:
    """What a position numbers: "main" of "Main 4", "" where it is a number or side alone."""
    word = re.sub(r"[^a-z]", "", position.casefold())
    return word if len(word) > 1 and re.search(r"\d", position) else ""


@lru_cache(maxsize=8)
def rows(book: Book) -> tuple[tuple[Reading, ...], ...]:
    """The readings that are siblings: one item of several cylinders, journals or valves.

    Where a position comes a second time under the same label, another table begins. Cells
    read together by one call (a bore at six places) are siblings too.
    """
    found: dict[tuple[str, ...], list[dict[str, Reading]]] = {}
    for reading in readings(book):
        label = reading.label
        if label is None or not is_position(label.position) or is_position(label.text):
            continue
        if reading.stage in ("target", "limit_low", "limit_high"):
            continue
        key = (reading.place.sheet, label.text.casefold(), label.unit, of_what(label.position))
        tables = found.setdefault(key, [{}])
        if label.position in tables[-1]:
            tables.append({})
        tables[-1][label.position] = reading
    siblings = [tuple(table.values()) for tables in found.values() for table in tables]
    by_place = {r.place: r for r in readings(book)}
    seen = set()
    for record in book.records:
        for argument in record.arguments:
            if argument.place is None or ":" not in argument.place.address:
                continue
            parameter = parameter_of(record, argument)
            if parameter is None or not parameter.block or argument.place in seen:
                continue
            seen.add(argument.place)
            block = tuple(by_place[p] for p in cells_of(argument.place) if p in by_place)
            if len({r.label.text if r.label else "" for r in block}) > 1:
                siblings.append(block)
    return tuple(siblings)


# A robust spread: the median distance from the median, scaled so that it is the standard
# deviation of readings that scatter normally.
_NORMAL = 1.4826


def resolution(values: Sequence[float]) -> float:
    """The step in which readings are written: 0.0005 where all are multiples of that."""
    decimals = max(map(_decimals, values))
    if max(map(abs, values)) > 10.0 ** (15 - decimals):
        return 10.0**-decimals  # A float has no more digits than these.
    common = math.gcd(*(round(abs(v) * 10**decimals) for v in values))
    return float((5 if common % 5 == 0 else 2 if common % 2 == 0 else 1) * 10.0**-decimals)


@lru_cache(maxsize=4096)
def _decimals(value: float) -> int:
    return len(f"{value:.7f}".rstrip("0").partition(".")[2])


def center_and_spread(values: Sequence[float]) -> tuple[float, float]:
    """The median and a robust spread, widened for few values; 0 where most are equal."""
    center = _median(values)
    spread = _NORMAL * _median([abs(v - center) for v in values])
    return center, spread * (1 + 2 / len(values))


def _median(values: Sequence[float]) -> float:
    ordered = sorted(values)
    middle = len(ordered) // 2
    return ordered[middle] if len(ordered) % 2 else (ordered[middle - 1] + ordered[middle]) / 2

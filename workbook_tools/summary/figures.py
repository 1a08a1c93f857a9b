"""Numbers as text: the one rule for results, readings and limits on every page."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from functools import cache, lru_cache
from typing import NamedTuple

from workbook_tools import quantities as units
from workbook_tools.catalog import CellError
from workbook_tools.labels.label import Label
from workbook_tools.quantities import (
    READING,
    SPELLINGS,
    SYSTEMS,
    Kind,
    System,
    UnreadableText,
    unit_expression,
)

# More digits than the kind's own that a typed reading, or a number next to its limit, gets.
EXTRA_DIGITS = 2
# Digits at most for a number of which nothing says what it measures.
MOST_DIGITS = 6


class Measure(NamedTuple):
    """What a number is of: its kind, the system of bare numbers, and its unit as shown."""

    kind: Kind
    system: System
    unit: str


def measure(kind: Kind, unit: str, label: Label | None, system: str) -> Measure:
    """What a bare number is of.

    kind, unit: as the catalog has them; for a reading, which can be of any kind, its unit
    tells the kind, and where the call gives none the book's label may.
    """
    known: System = "metric" if system == "metric" else "inch"
    if kind is not READING:
        return Measure(kind, known, unit)
    spelled = (unit or (label.unit if label else "")).strip()
    told = _kind_of_unit(spelled.lower(), known) if spelled else None
    return told or Measure(READING, known, spelled)


@cache
def _kind_of_unit(spelled: str, system: System) -> Measure | None:
    """The kind whose bare numbers have this unit, in this system before the other."""
    wanted = unit_expression(spelled)
    for of_system in (system, *SYSTEMS):
        for candidate in units.KINDS.values():
            own = candidate.unit(of_system)
            if own and wanted and SPELLINGS.get(own.lower()) == wanted:
                return Measure(candidate, of_system, own)
    return None


def digits(numbers: Iterable[float], of: Measure, *, typed: bool = False) -> int:
    """Digits after the point for numbers that stand side by side.

    typed: the numbers are readings, which keep the digits that were typed, within reason.
    """
    usual = of.kind.decimals[0 if of.system == "inch" else 1]
    if not typed:
        return usual
    bare = of.kind is READING
    least, most = (0, MOST_DIGITS) if bare else (usual, usual + EXTRA_DIGITS)
    wanted = [_typed_digits(number, least, most) for number in numbers]
    return max((usual if w is None else w for w in wanted), default=usual)


@lru_cache(maxsize=4096)
def _typed_digits(number: float, least: int, most: int) -> int | None:
    for places in range(least, most + 1):
        if math.isclose(round(number, places), number, rel_tol=1e-12, abs_tol=1e-15):
            return places
    return None


def figure(number: float, of: Measure, places: int | None = None) -> str:
    """A number as text without its unit, at the kind's digits or at the given ones."""
    digits = of.kind.decimals[0 if of.system == "inch" else 1] if places is None else places
    return _figure(number, digits)


# A page tells the same limits and nominal sizes of every position, and often more than once.
@lru_cache(maxsize=4096)
def _figure(number: float, digits: int) -> str:
    return units.show(number, _bare(digits), "inch")


@cache
def _bare(digits: int) -> Kind:
    """A kind without a unit that is shown at so many digits."""
    return replace(units.NUMBER, decimals=(digits, digits))


def apart(number: float, limit: float, of: Measure, places: int) -> int:
    """Digits at which a number and a limit that it misses no longer look the same."""
    for finer in range(places, places + MOST_DIGITS):
        if figure(number, of, finer) != figure(limit, of, finer):
            return finer
    return places


def number_in(value: object, kind: Kind, system: str) -> float | None:
    """A cell's content as the bare number it stands for, None where it is none.

    A text with its own unit ("38 thou") is converted to the unit of a bare number.
    """
    if isinstance(value, str):
        known: System = "metric" if system == "metric" else "inch"
        try:
            number = units.read_text(value, kind, known)
        except UnreadableText:
            return None
        value = number if kind is READING else units.from_si(number, kind, known)
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return None
    return float(value) if math.isfinite(value) else None


def words(value: object) -> str:
    """A cell's content that is no number, as text; "" for an empty cell."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, CellError):
        return value.text
    return str(value)

"""Blocks of readings: none may be missing, and what they say together."""

from __future__ import annotations

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Count, Reading, Readings, Rows
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Readings"


def taken(readings: Rows) -> tuple[float, ...]:
    """The readings of a block, row after row, without the empty cells."""
    return tuple(cell for row in readings for cell in row if cell is not None)


def number(readings: Rows) -> int:
    """How many readings a block holds."""
    return len(taken(readings))


def mean(readings: Rows) -> float:
    """Their mean. Of equal readings it is that reading, to the last digit."""
    values = taken(readings)
    first = values[0]
    return first + sum(value - first for value in values) / len(values)


def smallest(readings: Rows) -> float:
    """The smallest reading."""
    return min(taken(readings))


def largest(readings: Rows) -> float:
    """The largest reading."""
    return max(taken(readings))


def found(readings: Rows) -> str:
    """What a block holds, in words: how many readings, and which cell is the first empty."""
    counted = number(readings)
    words = f"{counted} reading{'' if counted == 1 else 's'}"
    for r, row in enumerate(readings, 1):
        for c, cell in enumerate(row, 1):
            if cell is None:
                return f"{words}; row {r}, column {c} of the range is empty"
    return words


def require_all(readings: Rows, expected: int) -> None:
    """Refuse a block with another number of readings than were to be taken."""
    require(
        number(readings) == expected,
        "readings",
        f"{expected} reading{'' if expected == 1 else 's'}",
        found(readings),
        missing=number(readings) < expected,
    )


@worksheet_function(SECTION)
def mean_reading(readings: Readings, expected: Count) -> Reading:
    """Mean of a range of readings, all of which must have been taken.

    Parameters
    ----------
    readings
        The range of readings, of any one kind. A text with its own unit is converted to the unit
        of bare numbers; any other text is refused.
    expected
        How many readings there must be. One too few or too many is an error.

    Returns
    -------
    In the unit of the readings.

    Equation
    --------
    mean = (x1 + x2 + ... + xn) / n

    Validity
    --------
    Readings of one size, all counting alike. A mean hides the worst of them: judge that too.
    Readings of 2 and more, of which one is over eight times another, are refused as a slipped
    decimal point or another unit.

    Source
    ------
    JCGM 100:2008 (GUM), 4.2.1 (arithmetic mean)
    """
    require_all(readings, expected)
    require(
        smallest(readings) < 2 or largest(readings) <= 8 * smallest(readings),
        "readings",
        "readings of one size, none eight times another; a decimal point or a unit may be off",
        "readings further apart",
    )
    return mean(readings)


@worksheet_function(SECTION)
def reading_spread(readings: Readings, expected: Count) -> Reading:
    """Spread of a range of readings: the largest less the smallest.

    Parameters
    ----------
    readings
        The range of readings, of any one kind. A text with its own unit is converted to the unit
        of bare numbers; any other text is refused.
    expected
        How many readings there must be. One too few or too many is an error.

    Returns
    -------
    In the unit of the readings.

    Equation
    --------
    spread = max(x1 ... xn) - min(x1 ... xn)

    Validity
    --------
    Readings of one size, taken alike, at one temperature.

    Source
    ------
    common practice, no source (range of a set of readings)
    """
    require_all(readings, expected)
    return largest(readings) - smallest(readings)

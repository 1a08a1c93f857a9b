"""Whole ranges of readings: filled, summed, compared along rows and columns.

Small named functions, so that the add-in-free form of a worksheet function can have the
same ones.
"""

from __future__ import annotations

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Rows
from workbook_tools.catalog.readings import found, number, taken


def require_filled(block: Rows, parameter: str) -> None:
    """Refuse a block with an empty cell, naming the parameter and the cell."""
    cells = sum(len(row) for row in block)
    require(
        number(block) == cells,
        parameter,
        "a reading in every cell of the range",
        found(block),
        missing=True,
    )


def require_same_number(block: Rows, other: Rows, parameter: str, words: str) -> None:
    """Refuse a block that does not hold as many readings as another one."""
    require(number(block) == number(other), parameter, words, found(block))


def rows_in(block: Rows) -> int:
    """How many rows a block has."""
    return len(block)


def columns_in(block: Rows) -> int:
    """How many columns a block has."""
    return len(block[0])


def total(block: Rows) -> float:
    """The sum of the readings."""
    return sum(taken(block))


def spread(block: Rows) -> float:
    """The largest reading less the smallest."""
    return max(taken(block)) - min(taken(block))


def widest_row(block: Rows) -> float:
    """The largest spread that any one row of a filled block has."""
    return max(spread((row,)) for row in block)


def widest_column(block: Rows) -> float:
    """The largest spread that any one column of a filled block has."""
    return max(spread((column,)) for column in zip(*block, strict=True))


def length_over_square(lengths: Rows, diameters: Rows) -> float:
    """The sum of length over squared diameter, pair by pair, of two filled blocks."""
    pairs = zip(taken(lengths), taken(diameters), strict=True)
    return sum(length / diameter**2 for length, diameter in pairs)

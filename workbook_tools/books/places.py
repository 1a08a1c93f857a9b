"""Addresses: the corners of a range, its cells one by one, and those that a formula names."""

from __future__ import annotations

from functools import lru_cache

from openpyxl.formula.tokenizer import Token

from workbook_tools.formulas.references import Place, read_reference
from workbook_tools.formulas.tokens import tokens_of

# A range of more cells than this holds no readings of an engine.
MOST_CELLS = 2000


@lru_cache(maxsize=10_000)
def corners(address: str) -> tuple[int, int, int, int] | None:
    """(top, left, bottom, right) of a cell or range, from 1; None for any other text."""
    reference = read_reference(address)
    area = reference.area("") if reference and not reference.sheet else None
    return area[1:] if area else None


def spread(place: Place, value: object) -> tuple[tuple[Place, object], ...]:
    """Each cell of a place with its own value; one pair where the place is one cell.

    value: rows of values, as a range has them, or one value for the only cell.
    """
    edges = corners(place.address) if isinstance(value, tuple) and ":" in place.address else None
    if edges is None or not isinstance(value, tuple):
        while isinstance(value, tuple) and value:
            value = value[0]
        return ((place, value),)
    top, left, *_ = edges
    return tuple(
        (Place.at(place.sheet, top + row, left + column), cell)
        for row, line in enumerate(value)
        for column, cell in enumerate(line)
    )


def cells_of(place: Place) -> tuple[Place, ...]:
    """The single cells of a place, row by row; nothing for whole columns and rows."""
    return _of_range(place) if ":" in place.address else (place,)


# Calls of a book take the same ranges, and every check looks at the calls.
@lru_cache(maxsize=256)
def _of_range(place: Place) -> tuple[Place, ...]:
    area = place.area
    if area is None or area.size > MOST_CELLS:
        return ()
    return tuple(cell.place for cell in area.cells())


@lru_cache(maxsize=4096)
def places_named(formula: str, sheet: str) -> tuple[Place, ...]:
    """The cells and ranges that a formula names, in its order; names and tables left out.

    formula: with or without "="; sheet: that it stands on. Raises nothing.
    """
    try:
        tokens = tokens_of(formula.removeprefix("="))
    except ValueError:
        return ()
    found = []
    for token in tokens:
        if token.type != Token.OPERAND or token.subtype != Token.RANGE:
            continue
        reference = read_reference(token.value)
        area = reference.area(sheet) if reference else None
        if area is not None:
            found.append(area.place)
    return tuple(found)


@lru_cache(maxsize=10_000)
def order_of(place: Place) -> tuple[str, int, int]:
    """What puts places in the order of reading: sheet, row, column."""
    edges = corners(place.address)
    return (place.sheet, edges[0], edges[1]) if edges else (place.sheet, 0, 0)

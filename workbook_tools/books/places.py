"""Addresses: the corners of a range, its cells one by one, and those that a formula names."""

from __future__ import annotations

import re
from functools import lru_cache

from openpyxl.formula.tokenizer import Token
from openpyxl.utils import column_index_from_string, get_column_letter

from workbook_tools.books.calls import tokens_of
from workbook_tools.books.records import Place

# A range of more cells than this holds no readings of an engine.
MOST_CELLS = 2000

_CORNERS = re.compile(r"\$?([A-Za-z]{1,3})\$?(\d+)(?::\$?([A-Za-z]{1,3})\$?(\d+))?")


@lru_cache(maxsize=10_000)
def corners(address: str) -> tuple[int, int, int, int] | None:
    """(top, left, bottom, right) of a cell or range, from 1; None for any other text."""
    found = _CORNERS.fullmatch(address)
    if found is None:
        return None
    left, top = column_index_from_string(found[1].upper()), int(found[2])
    if found[3] is None:
        return top, left, top, left
    return top, left, int(found[4]), column_index_from_string(found[3].upper())


def spread(place: Place, value: object) -> tuple[tuple[Place, object], ...]:
    """Each cell of a place with its own value; one pair where the place is one cell.

    value: rows of values, as a range has them, or one value for the only cell.
    """
    edges = corners(place.address)
    if edges is None or not isinstance(value, tuple) or ":" not in place.address:
        while isinstance(value, tuple) and value:
            value = value[0]
        return ((place, value),)
    top, left, *_ = edges
    return tuple(
        (Place(place.sheet, f"{get_column_letter(left + column)}{top + row}"), cell)
        for row, line in enumerate(value)
        for column, cell in enumerate(line)
    )


def cells_of(place: Place) -> tuple[Place, ...]:
    """The single cells of a place, row by row; nothing for whole columns and rows."""
    if ":" not in place.address:
        return (place,)
    edges = corners(place.address)
    if edges is None:
        return ()
    top, left, bottom, right = edges
    if (right - left + 1) * (bottom - top + 1) > MOST_CELLS:
        return ()
    return tuple(
        Place(place.sheet, f"{get_column_letter(c)}{r}")
        for r in range(top, bottom + 1)
        for c in range(left, right + 1)
    )


_REFERENCE = re.compile(r"(?:(?P<sheet>'(?:[^']|'')+'|[^'!\[\]]+)!)?(?P<cells>[$A-Za-z0-9:]+)")


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
        named = _REFERENCE.fullmatch(token.value)
        if named is None or corners(named["cells"]) is None:
            continue
        title = (named["sheet"] or sheet).removeprefix("'").removesuffix("'").replace("''", "'")
        found.append(Place(title, named["cells"].replace("$", "").upper()))
    return tuple(found)


@lru_cache(maxsize=10_000)
def order_of(place: Place) -> tuple[str, int, int]:
    """What puts places in the order of reading: sheet, row, column."""
    edges = corners(place.address)
    return (place.sheet, edges[0], edges[1]) if edges else (place.sheet, 0, 0)

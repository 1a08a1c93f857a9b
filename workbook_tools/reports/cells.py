"""Addresses as a summary needs them: reading order, the cells of a range, runs of cells."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache

from openpyxl.utils import column_index_from_string, get_column_letter

from workbook_tools.books.records import Place

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


def reading_order(place: Place | None, sheets: Sequence[str]) -> tuple[int, str, int, int]:
    """A key that sorts places as the book is read: by sheet, then row, then column.

    sheets: titles in the order of the book; a sheet that is not among them comes after
    those, and the whole book (None) before everything.
    """
    if place is None:
        return -1, "", 0, 0
    known = sheets.index(place.sheet) if place.sheet in sheets else len(sheets)
    top, left, *_ = corners(place.address) or (0, 0)
    return known, place.sheet, top, left


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


def joined(places: Iterable[Place]) -> str:
    """Cells in as few words as name them all: "Deck!B9", "Deck!B9:I9", "Deck!B9, D9"."""
    by_sheet: dict[str, list[str]] = {}
    for place in places:
        addresses = by_sheet.setdefault(place.sheet, [])
        if place.address not in addresses:
            addresses.append(place.address)
    return "; ".join(_on_one_sheet(sheet, addresses) for sheet, addresses in by_sheet.items())


def _on_one_sheet(sheet: str, addresses: Sequence[str]) -> str:
    spots = [corners(address) for address in addresses]
    run = [s for s in spots if s is not None and s[:2] == s[2:]]
    if len(run) == len(addresses) > 2:
        rows, columns = sorted({s[0] for s in run}), sorted({s[1] for s in run})
        length = len(run)
        across = len(rows) == 1 and columns[-1] - columns[0] == length - 1
        down = len(columns) == 1 and rows[-1] - rows[0] == length - 1
        if across or down:
            first = f"{get_column_letter(columns[0])}{rows[0]}"
            last = f"{get_column_letter(columns[-1])}{rows[-1]}"
            return str(Place(sheet, f"{first}:{last}"))
    return str(Place(sheet, ", ".join(addresses)))

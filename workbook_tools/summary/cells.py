"""Addresses as a summary needs them: reading order, runs of cells."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from openpyxl.utils import get_column_letter

from workbook_tools.books.places import corners
from workbook_tools.formulas.references import Place


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


def joined(places: Iterable[Place]) -> str:
    """Cells in as few words as name them all: "Deck!B9", "Deck!B9:I9", "Deck!B9, D9"."""
    by_sheet: dict[str, list[str]] = {}
    for place in places:
        addresses = by_sheet.setdefault(place.sheet, [])
        if place.address not in addresses:
            addresses.append(place.address)
    return "; ".join(_on_one_sheet(sheet, addresses) for sheet, addresses in by_sheet.items())


def _on_one_sheet(sheet: str, addresses: Sequence[str]) -> str:
    if len(addresses) < 3:
        return str(Place(sheet, ", ".join(addresses)))
    spots = [corners(address) for address in addresses]
    run = [s for s in spots if s is not None and s[:2] == s[2:]]
    if len(run) == len(addresses):
        rows, columns = sorted({s[0] for s in run}), sorted({s[1] for s in run})
        length = len(run)
        across = len(rows) == 1 and columns[-1] - columns[0] == length - 1
        down = len(columns) == 1 and rows[-1] - rows[0] == length - 1
        if across or down:
            first = f"{get_column_letter(columns[0])}{rows[0]}"
            last = f"{get_column_letter(columns[-1])}{rows[-1]}"
            return str(Place(sheet, f"{first}:{last}"))
    return str(Place(sheet, ", ".join(addresses)))

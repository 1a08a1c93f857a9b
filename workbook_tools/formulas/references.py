"""Cells and ranges: as numbers, as an address for people, and as formulas refer to them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from openpyxl.utils import column_index_from_string, get_column_letter

_CELL = r"\$?[A-Za-z]{1,3}\$?[1-9]\d{0,7}"
_COLUMN = r"\$?[A-Za-z]{1,3}"
_ROW = r"\$?[1-9]\d{0,7}"
_REFERENCE = re.compile(
    r"(?:(?P<sheet>'(?:[^']|'')+'|[^'!\[\]]+)!)?"
    rf"(?P<cells>{_CELL}(?::{_CELL})?|{_COLUMN}:{_COLUMN}|{_ROW}:{_ROW})"
)


@lru_cache(maxsize=1024)
def quoted(title: str) -> str:
    """A sheet's title as it stands before the "!" of a reference, in quotes where it needs them."""
    return title if title.replace("_", "").isalnum() else always_quoted(title)


def always_quoted(title: str) -> str:
    """A sheet's title in quotes, which every program understands."""
    return "'" + title.replace("'", "''") + "'"


def unquoted(title: str) -> str:
    """A sheet's title without the quotes of a reference."""
    return title[1:-1].replace("''", "'") if title.startswith("'") else title


@lru_cache(maxsize=16384)
def cell_address(row: int, column: int) -> str:
    """A cell's address, A1 for row 1 and column 1."""
    return f"{get_column_letter(column)}{row}"


def area_address(top: int, left: int, bottom: int, right: int) -> str:
    """A range's address, or the cell's where it is one."""
    first, last = cell_address(top, left), cell_address(bottom, right)
    return first if first == last else f"{first}:{last}"


def fixed(address: str) -> str:
    """An address that stays where it is when a formula is copied: $B$3:$I$3."""
    parts = []
    for part in address.replace("$", "").split(":"):
        letters = part.rstrip("0123456789")
        parts.append(f"${letters}${part[len(letters) :]}")
    return ":".join(parts)


class Place(NamedTuple):
    """Where something stands: sheet title and A1 address (or a range, B3:I3).

    What the batch computed itself stands in no cell: its address is "". A tuple, as is all
    that there is one of for each cell: these are quick to make and to look up.
    """

    sheet: str
    address: str

    @classmethod
    def at(cls, sheet: str, row: int, column: int) -> Place:
        """The place of one cell; row and column from 1."""
        return _place_at(sheet, row, column)

    def __str__(self) -> str:
        sheet = quoted(self.sheet)
        return f"{sheet}!{self.address}" if self.address else self.sheet

    @property
    def area(self) -> Area | None:
        """The same in numbers, None for what stands in no cell and for whole columns and rows."""
        reference = read_reference(self.address)
        return reference.area(self.sheet) if reference else None


# Each reading, result and candidate is told with its place, and so are its neighbors.
@lru_cache(maxsize=16384)
def _place_at(sheet: str, row: int, column: int) -> Place:
    return Place(sheet, cell_address(row, column))


class Area(NamedTuple):
    """A rectangle of cells on one sheet, all bounds from 1 and included."""

    sheet: str
    top: int
    left: int
    bottom: int
    right: int

    @property
    def single(self) -> bool:
        """Whether it is one cell."""
        return self.top == self.bottom and self.left == self.right

    @property
    def size(self) -> int:
        """How many cells it has."""
        return (self.bottom - self.top + 1) * (self.right - self.left + 1)

    @property
    def address(self) -> str:
        """The address without the sheet, B3 or B3:I3."""
        return area_address(self.top, self.left, self.bottom, self.right)

    @property
    def place(self) -> Place:
        """The area as an address for people."""
        if self.single:
            return Place.at(self.sheet, self.top, self.left)
        return Place(self.sheet, self.address)

    def __str__(self) -> str:
        return str(self.place)

    def cells(self) -> Iterator[Area]:
        """Each cell, row by row."""
        for row in range(self.top, self.bottom + 1):
            for column in range(self.left, self.right + 1):
                yield Area(self.sheet, row, column, row, column)


class Reference(NamedTuple):
    """What a formula refers to by address.

    sheet: its title, "" for the formula's own; top to right: the bounds from 1, None where a
    whole column or row is open.
    """

    sheet: str
    top: int | None
    left: int | None
    bottom: int | None
    right: int | None

    def area(self, own_sheet: str) -> Area | None:
        """The cells, None where they are a whole column or row.

        own_sheet: the sheet that is meant where none is named.
        """
        if self.top is None or self.left is None or self.bottom is None or self.right is None:
            return None
        return Area(self.sheet or own_sheet, self.top, self.left, self.bottom, self.right)

    def area_within(self, sheet: str, last_row: int, last_column: int) -> Area:
        """The cells on a sheet; a whole column or row reaches as far as the sheet does.

        sheet: the title as the book has it; last_row, last_column: the last that hold anything.
        """
        rows = sorted((self.top or 1, self.bottom or last_row))
        columns = sorted((self.left or 1, self.right or last_column))
        return Area(sheet, rows[0], columns[0], rows[1], columns[1])


def _bound(text: str) -> tuple[int | None, int | None]:
    """(row, column) of one end of a range, None for what is open."""
    letters = text.rstrip("0123456789")
    row = int(text[len(letters) :]) if letters != text else None
    return row, column_index_from_string(letters) if letters else None


def _sorted(one: int | None, other: int | None) -> tuple[int | None, int | None]:
    return (other, one) if one is not None and other is not None and other < one else (one, other)


@lru_cache(maxsize=10_000)
def read_reference(text: str) -> Reference | None:
    """A cell, range, whole column or row, on its own or with a sheet; None for any other text.

    text: as it stands in a formula: "$B$7", "b3:i3", "'Main bearings'!C5", "B:B".
    """
    found = _REFERENCE.fullmatch(text)
    if found is None:
        return None
    first, _, last = found["cells"].replace("$", "").upper().partition(":")
    (top, left), (bottom, right) = _bound(first), _bound(last or first)
    top, bottom = _sorted(top, bottom)
    left, right = _sorted(left, right)
    return Reference(unquoted(found["sheet"] or ""), top, left, bottom, right)

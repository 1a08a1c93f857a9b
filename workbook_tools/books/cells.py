"""The cells of a book as its file holds them, whatever program wrote it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

from openpyxl.utils.cell import range_boundaries

from workbook_tools.catalog import CellError
from workbook_tools.formulas.references import Place

# What spreadsheet programs hold to; a file that does not was not written by one.
LONGEST_TEXT = 32_767
LARGEST_NUMBER = 9.99999999999999e307
# What programs hold to; a file that does not was not written by one.
MOST_COLUMNS = 16_384
MOST_ROWS = 1_048_576
# An array formula that fills more cells than this is read as filling its own.
MOST_FILLED = 10_000


class BookError(Exception):
    """A file that cannot be read as a book: what is wrong, and what to do about it."""

    def __init__(self, message: str, advice: str) -> None:
        super().__init__(f"{message}; {advice}")
        self.message = message
        self.advice = advice


@dataclass(frozen=True)
class Trouble:
    """Something about the book itself that reading ran into: a sheet skipped, a loop."""

    place: Place | None
    message: str
    advice: str


class Cell(NamedTuple):
    """One cell that holds something.

    value: as saved (a number, text, bool, date, CellError, None where nothing was saved);
    formula: without the leading "=", "" for typed content; area: the range an array formula
    fills, "" elsewhere and on the other cells of that range.
    """

    value: object
    formula: str = ""
    area: str = ""


def bounded(value: object) -> object:
    """A saved value as a program can have saved it: no endless text, no number beyond all."""
    if isinstance(value, str):
        return value[:LONGEST_TEXT]
    if isinstance(value, (int, float)) and not abs(value) <= LARGEST_NUMBER:
        return CellError("#NUM!")
    return value


def filled(area: str) -> str:
    """The range that an array formula fills, "" where no sheet can mean it."""
    left, top, right, bottom = range_boundaries(area)
    if None in (left, top, right, bottom):
        return ""
    cells = (right - left + 1) * (bottom - top + 1)  # type: ignore[operator]
    return area if 0 < cells <= MOST_FILLED else ""


@dataclass(frozen=True)
class Table:
    """A table of a sheet: the rows of its data and its columns' names with their numbers."""

    top: int
    bottom: int
    columns: dict[str, int]


@dataclass(frozen=True, eq=False)
class Sheet:
    """A worksheet: its cells by (row, column), both from 1, its defined names and tables.

    Cells are in the order of reading, row by row. Names are in lower case. merged: last (row,
    column) of each merged range, by its first; struck: cells whose text is struck through;
    hidden: the sheet itself, with hidden_rows and hidden_columns on it; all of these are read
    like any others. texts: (row, column, text) of each text that was typed, in that order.
    heads, lefts, ends: what was found above, left and right of cells, remembered for their
    neighbors.
    """

    title: str
    cells: dict[tuple[int, int], Cell]
    names: dict[str, str] = field(default_factory=dict)
    tables: dict[str, Table] = field(default_factory=dict)
    merged: dict[tuple[int, int], tuple[int, int]] = field(default_factory=dict)
    struck: frozenset[tuple[int, int]] = frozenset()
    hidden_rows: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    hidden: bool = False
    protected: bool = False
    texts: tuple[tuple[int, int, str], ...] = field(init=False, repr=False, compare=False)
    heads: dict[tuple[int, int], tuple[int, str] | None] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )
    lefts: dict[tuple[int, int], tuple[int, str, int, int, str] | None] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )
    ends: dict[tuple[int, int], int] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def __post_init__(self) -> None:
        # Files need not hold cells in order; all that goes through them relies on it.
        cells = dict(sorted(self.cells.items()))
        texts = tuple(
            (*at, cell.value)
            for at, cell in cells.items()
            if isinstance(cell.value, str) and not cell.formula
        )
        object.__setattr__(self, "cells", cells)
        object.__setattr__(self, "texts", texts)

    @cached_property
    def columns(self) -> Mapping[int, Mapping[int, Cell]]:
        """The cells of each column that holds something, by row."""
        found: dict[int, dict[int, Cell]] = {}
        for (row, column), cell in self.cells.items():
            found.setdefault(column, {})[row] = cell
        return found

    @cached_property
    def rows(self) -> Mapping[int, Mapping[int, Cell]]:
        """The cells of each row that holds something, by column."""
        found: dict[int, dict[int, Cell]] = {}
        for (row, column), cell in self.cells.items():
            found.setdefault(row, {})[column] = cell
        return found


def is_typed_text(sheet: Sheet, row: int, column: int) -> bool:
    """Whether a cell holds a text that was typed."""
    cell = sheet.cells.get((row, column))
    return cell is not None and isinstance(cell.value, str) and not cell.formula


@dataclass(frozen=True)
class OpenBook:
    """The content of a book: sheets in order, defined names (lower case) with their texts.

    saved: when, as the book itself says, "" where it does not.
    """

    file_name: str
    sha256: str
    sheets: tuple[Sheet, ...]
    names: dict[str, str]
    troubles: tuple[Trouble, ...] = ()
    days_from_1904: bool = False
    saved: str = ""

    def sheet(self, title: str) -> Sheet | None:
        """The sheet of this title, whatever its case, or None."""
        found = self._by_title.get(title)
        return found if found is not None else self._by_title.get(title.casefold())

    @cached_property
    def _by_title(self) -> Mapping[str, Sheet]:
        """The sheets by their titles, as they are and in lower case; of equal ones the first."""
        exact = {s.title: s for s in reversed(self.sheets)}
        return {s.title.casefold(): s for s in reversed(self.sheets)} | exact

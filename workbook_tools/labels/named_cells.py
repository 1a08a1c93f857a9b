"""Cells that a layout names: "Front!B3", "C5:J5", a whole column "Crank!F:F" or row "Crank!7:7"."""

from __future__ import annotations

import re
from dataclasses import dataclass

from openpyxl.utils.cell import range_boundaries

from workbook_tools.books.cells import MOST_COLUMNS, MOST_ROWS, OpenBook, Sheet

# More readings of one kind than this no engine has.
MOST_NAMED = 10_000
_SHEET = r"(?:(?P<sheet>'(?:[^']|'')+'|[^'!]+)!)?"
_CELL = r"\$?[A-Z]{1,3}\$?\d{1,7}"
_CELLS = re.compile(f"{_SHEET}(?P<range>{_CELL}(?::{_CELL})?)")
_LINES = re.compile(
    rf"{_SHEET}(?P<range>\$?[A-Z]{{1,3}}:\$?[A-Z]{{1,3}}|\$?\d{{1,7}}:\$?\d{{1,7}})"
)


@dataclass(frozen=True)
class NamedCells:
    """Cells that a layout names: on a sheet, or on each job's own where the title is ""."""

    sheet: str
    range: str

    @property
    def edges(self) -> tuple[int, int, int, int]:
        """The first column and row, and the last; of a whole row or column as far as any goes."""
        left, top, right, bottom = range_boundaries(self.range)
        return left or 1, top or 1, right or MOST_COLUMNS, bottom or MOST_ROWS

    @property
    def is_line(self) -> bool:
        """Whether they are whole rows or columns."""
        return re.search(r"[A-Z]\d", self.range) is None

    @property
    def count(self) -> int:
        """How many cells there are."""
        left, top, right, bottom = self.edges
        return (right - left + 1) * (bottom - top + 1)

    def hold(self, row: int, column: int) -> bool:
        """Whether a cell is one of them."""
        left, top, right, bottom = self.edges
        return left <= column <= right and top <= row <= bottom

    def sheet_in(self, book: OpenBook) -> Sheet | None:
        """The sheet of a book that they stand on, None where it has none of that name."""
        if self.sheet:
            return book.sheet(self.sheet)
        return next((s for s in book.sheets if not s.hidden), None)


def cells_named(text: str) -> NamedCells | None:
    """A text as cells ("Front!B3", "C5:J5"), None where it is a label."""
    return _named(_CELLS.fullmatch(text.strip()))


def lines_named(text: str) -> NamedCells | None:
    """A text as a whole row or column ("Crank!F:F"), None for any other."""
    return _named(_LINES.fullmatch(text.strip()))


def _named(found: re.Match[str] | None) -> NamedCells | None:
    if found is None:
        return None
    sheet = (found["sheet"] or "").strip("'").replace("''", "'")
    return NamedCells(sheet, found["range"].replace("$", ""))


def fault_of(cells: NamedCells, text: str) -> str:
    """Why a layout cannot name these cells, "" where it can."""
    left, top, right, bottom = cells.edges
    if (
        not all(map(int, re.findall(r"\d+", cells.range)))
        or right > MOST_COLUMNS
        or bottom > MOST_ROWS
    ):
        return f"expected cells from A1 to XFD{MOST_ROWS}, got {text!r}"
    if right < left or bottom < top:
        return f"expected the upper left cell first, got {text!r}"
    if not cells.is_line and cells.count > MOST_NAMED:
        return f"expected at most {MOST_NAMED:,} cells, got {cells.count:,} ({text!r})"
    return ""

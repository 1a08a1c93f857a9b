"""The cells of a book that a formula refers to by address, by name or by a table's column."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.books.engine import CellKey
from workbook_tools.formulas.references import Area, read_reference
from workbook_tools.quantities.nearest import hint


class CannotEvaluate(Exception):
    """An expression that has no value here; the message says why in words."""


@dataclass
class Areas:
    """The areas of one book's references; remembers what it has found."""

    book: OpenBook
    _found: dict[tuple[str, str], Area | None] = field(default_factory=dict)
    _extents: dict[str, tuple[int, int]] = field(default_factory=dict)

    def find(self, text: str, sheet: Sheet, row: int = 0, hops: int = 8) -> Area | None:
        """The cells that a reference, name or table column stands for, None for anything else.

        row: of the cell it stands in, for a table's own row; hops: how many names may still
        stand for one another before they are given up. Raises CannotEvaluate where it names a
        sheet that the book has not.
        """
        key = (sheet.title, text)
        if key not in self._found:
            area = self._find(text, sheet, row, hops)
            if "[" in text:
                return area
            self._found[key] = area
        return self._found[key]

    def _find(self, text: str, sheet: Sheet, row: int, hops: int) -> Area | None:
        reference = read_reference(text.strip())
        if reference is None:
            definition = sheet.names.get(text.lower()) or self.book.names.get(text.lower())
            if definition is None or hops == 0:
                return self._of_table(text, row)
            return self.find(definition.lstrip("="), sheet, row, hops - 1)
        target = self.book.sheet(reference.sheet) if reference.sheet else sheet
        if target is None:
            titles = [sheet.title for sheet in self.book.sheets]
            told = hint(reference.sheet, titles)
            raise CannotEvaluate(f"there is no sheet {reference.sheet!r}; {told}")
        return reference.area_within(target.title, *self.extent(target))

    def _of_table(self, text: str, row: int) -> Area | None:
        """The cells of Name[Column], Name[[#This Row],[Column]] or Name[[First]:[Last]]."""
        name, bracket, inside = text.strip().partition("[")
        sheet = next((s for s in self.book.sheets if name.lower() in s.tables), None)
        if sheet is None:
            return None
        table = sheet.tables[name.lower()]
        words = [w.lower() for w in re.findall(r"[^\[\],:@]+", inside)] if bracket else []
        own_row = "#this row" in words or inside.startswith(("@", "[@"))
        columns = [table.columns[w] for w in words if w in table.columns]
        if any(w.startswith("#") and w not in ("#this row", "#data") for w in words):
            return None
        if words and not columns and not own_row:
            return None
        columns = columns or list(table.columns.values())
        if own_row and not table.top <= row <= table.bottom:
            return None
        top, bottom = (row, row) if own_row else (table.top, table.bottom)
        return Area(sheet.title, top, min(columns), bottom, max(columns))

    def extent(self, sheet: Sheet) -> tuple[int, int]:
        """The last row and column of a sheet that hold anything."""
        if sheet.title not in self._extents:
            rows = [row for row, _ in sheet.cells] or [1]
            columns = [column for _, column in sheet.cells] or [1]
            self._extents[sheet.title] = max(rows), max(columns)
        return self._extents[sheet.title]


def cells_within(book: OpenBook, area: Area) -> Sequence[CellKey]:
    """The cells of an area that hold anything."""
    sheet = book.sheet(area.sheet)
    if sheet is None:
        return ()
    title, cells = sheet.title, sheet.cells
    if area.single:  # As most are.
        return ((title, area.top, area.left),) if (area.top, area.left) in cells else ()
    rows = range(area.top, area.bottom + 1)
    columns = range(area.left, area.right + 1)
    if len(rows) * len(columns) > len(cells):
        return [(title, r, c) for r, c in cells if r in rows and c in columns]
    return [(title, r, c) for r in rows for c in columns if (r, c) in cells]

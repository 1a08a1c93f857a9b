"""The cells of a book that is open in Excel, as the words about a cell's error see them.

Cells and books are Excel's own objects (Range, Workbook), as xlwings hands them over by its
property `api`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from workbook_tools.formulas.calls import Part
from workbook_tools.formulas.reasons import InCell, reason, with_results
from workbook_tools.formulas.references import Area, read_reference, unquoted


def reason_of(cells: Any, content: Callable[[Any], Any]) -> str:
    """Why a cell shows an error, in words.

    cells: Excel's Range that a formula points at; content: what stands in a cell, from what
    Excel passes for it.
    """
    return reason(_Book(cells.Worksheet.Parent, content), _area_of(cells))


def _area_of(cells: Any) -> Area:
    top, left = int(cells.Row), int(cells.Column)
    last = top + int(cells.Rows.Count) - 1, left + int(cells.Columns.Count) - 1
    return Area(cells.Worksheet.Name, top, left, *last)


@dataclass(frozen=True)
class _Book:
    """What is seen of an open book (Sight)."""

    workbook: Any
    content: Callable[[Any], Any]

    def _range(self, area: Area) -> Any:
        return self.workbook.Worksheets(area.sheet).Range(area.address)

    def area(self, reference: str, sheet: str) -> Area | None:
        """The cells that a reference or a name stands for, None for anything else."""
        text = reference.lstrip("@")
        found = read_reference(text)
        title = unquoted(found.sheet) if found and found.sheet else sheet
        if found is not None and (area := found.area(title)) is not None:
            return area
        try:
            worksheet = self.workbook.Worksheets(title)
            cells = worksheet.Range(text.rpartition("!")[2])
            used = worksheet.UsedRange if found is not None else None
        except Exception:
            return None  # Whatever COM raises: Excel knows no cells of this name.
        if found is None or used is None:
            return _area_of(cells)
        end = _area_of(used)
        return found.area_within(title, end.bottom, end.right)

    def values(self, area: Area) -> object:
        """The value of one cell, or rows of values."""
        return self._as_values(self._range(area).Value)

    def _as_values(self, value: Any) -> object:
        if isinstance(value, tuple):
            return tuple(tuple(self.content(cell) for cell in row) for row in value)
        return self.content(value)

    def cell(self, area: Area) -> InCell:
        """What stands in the single cell."""
        cell = self._range(area)
        value = self.values(area)
        first = cell
        if cell.HasArray:
            first = cell.CurrentArray.Cells(1, 1)
        elif getattr(cell, "HasSpill", False) is True:
            first = cell.SpillParent
        if not first.HasFormula:
            return InCell(value)
        offset = area.top - int(first.Row), area.left - int(first.Column)
        return InCell(value, first.Formula.removeprefix("="), offset)

    def worked_out(self, parts: tuple[Part, ...], sheet: str) -> object:
        """The value of an expression around calls. Raises CannotTell or ArgumentError."""
        found = self.workbook.Worksheets(sheet).Evaluate(with_results(self, parts, sheet))
        return self._as_values(getattr(found, "Value", found))

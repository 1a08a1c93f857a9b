"""A book as Excel's own objects show it: Workbook, Worksheet and Range, of a file's cells.

Values are those of the batch, and so is what Evaluate gives: only the shape is Excel's.
"""

from __future__ import annotations

import re
from types import SimpleNamespace
from unittest.mock import MagicMock

from com_stand_ins import Cells, error

from workbook_tools.books.opening import read_cells
from workbook_tools.books.recalculation import Recalculation
from workbook_tools.catalog import ArgumentError, CellError
from workbook_tools.formulas.references import Area, read_reference


def _as_com(value):
    return error(value.text) if isinstance(value, CellError) else value


class OpenBook:
    """What `Range.Worksheet.Parent` is: a book by its sheets."""

    Application = MagicMock()

    def __init__(self, path):
        self.values = Recalculation(read_cells(path))

    def Worksheets(self, title):
        return OpenSheet(self, next(s for s in self.values.book.sheets if s.title == title))

    def pointed_at(self, name):
        """{cell: the Range that it hands over} of the calls of a function of one reference."""
        sheet = self.values.book.sheets[0]
        found = {}
        for (row, column), cell in sheet.cells.items():
            called = re.fullmatch(rf"{re.escape(name)}\((.*)\)", cell.formula)
            if called:
                area = self.values.areas.find(called[1], sheet)
                found[f"{'ABCDEFGH'[column - 1]}{row}"] = _range(self, area)
        return found


class OpenSheet:
    def __init__(self, book, sheet):
        self.Parent, self.Name, self.sheet = book, sheet.title, sheet

    @property
    def UsedRange(self):
        return self.Range("A1:Z100")

    def Range(self, text):
        area = self.Parent.values.areas.find(text, self.sheet)
        if area is None:
            raise KeyError(text)
        return _range(self.Parent, area)

    def Evaluate(self, text):
        values = self.Parent.values
        try:
            return _as_com(values.evaluate(values.parts(text), self.sheet))
        except ArgumentError:
            return error("#VALUE!")


def _range(book, area):
    worksheet = book.Worksheets(area.sheet)
    rows = [
        [
            _as_com(book.values.value(worksheet.sheet, r, c))
            for c in range(area.left, area.right + 1)
        ]
        for r in range(area.top, area.bottom + 1)
    ]
    cells = Cells(*map(tuple, rows))
    cells.Worksheet, cells.Row, cells.Column = worksheet, area.top, area.left
    held = worksheet.sheet.cells.get((area.top, area.left))
    cells.HasFormula = bool(held and held.formula)
    cells.Formula = "=" + held.formula if held and held.formula else ""
    array = _array_of(worksheet.sheet, area)
    cells.HasArray = array is not None
    if array is not None and (array.top, array.left) != (area.top, area.left):
        first = _range(book, Area(area.sheet, array.top, array.left, array.top, array.left))
        cells.CurrentArray = SimpleNamespace(Cells=lambda _row, _column: first)
    else:
        cells.CurrentArray = SimpleNamespace(Cells=lambda _row, _column: cells)
    return cells


def _array_of(sheet, area):
    for cell in sheet.cells.values():
        reference = read_reference(cell.area) if cell.area else None
        filled = reference.area(sheet.title) if reference else None
        if filled and area in list(filled.cells()):
            return filled
    return None

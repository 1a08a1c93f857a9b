"""Labels that were found of cells, kept for sheets that look the same whatever their sizes.

The books of a month come from one form: what a cell is called there was found before. Sizes say
nothing of it; numbers that may be those of cylinders do.
"""

from __future__ import annotations

from collections.abc import Hashable
from functools import lru_cache

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.label import Label
from workbook_tools.labels.nearest_text import MOST_COUNTED, MOST_LEFT, find_label, steps_beside

# A larger sheet is a log, of which no other book has the like.
_MOST_CELLS = 4_000


class SheetLabels:
    """What a sheet calls its cells, each found once for all sheets that look like it."""

    def __init__(self, sheet: Sheet) -> None:
        self._sheet = sheet
        small = len(sheet.cells) <= _MOST_CELLS
        self._found = _found_on(_looks_of(sheet)) if small else {}

    def label(self, row: int, column: int) -> Label | None:
        """What the sheet calls a cell, None where no text stands near it."""
        at = row, column
        if at not in self._sheet.cells:
            return find_label(self._sheet, row, column)
        if at not in self._found:
            self._found[at] = find_label(self._sheet, row, column)
        return self._found[at]


@lru_cache(maxsize=32)
def _found_on(_looks: Hashable) -> dict[At, Label | None]:
    return {}


def _looks_of(sheet: Sheet) -> Hashable:
    """All of a sheet that labels are found by: texts, numbers that count, where others stand.

    In a row without a text its first number is that of a cylinder, if it can be; of a row that
    is wider than a label reaches any number may be the first.
    """
    wide = max((column for _, column in sheet.cells), default=0) > MOST_LEFT + 1
    looks: list[object] = []
    before = 0
    for at, (value, formula, _) in sheet.cells.items():
        look: object = value
        if isinstance(value, float) and (formula or not value.is_integer()):
            look = value if (wide or at[0] != before) and not formula else float
        elif not isinstance(value, str):
            look = type(value), value
            if isinstance(value, (int, float)) and 1 <= value <= MOST_COUNTED and not formula:
                look = type(value), value, _counts_on(sheet, value, *at)
        looks += at, look, bool(formula)
        before = at[0]
    return tuple(looks)


def _counts_on(sheet: Sheet, number: float, row: int, column: int) -> tuple[object, ...]:
    """How the numbers beside a whole one go on from it, as far as that may make it a head."""
    steps = steps_beside(sheet, number, row, column)
    return tuple([(abs(step) in (1, 2), step < 0) for step in steps])

"""Labels that were found of cells, kept for sheets that look the same whatever they say.

The books of a month come from one form: what a cell is called there was found before. Sizes say
nothing of it, numbers that may be those of cylinders do; and a customer's name stands in place of
another one's, unless it is itself the label.
"""

from __future__ import annotations

from collections.abc import Hashable
from functools import lru_cache

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.cell_kinds import MOST_LETTERS, At
from workbook_tools.labels.label import Label
from workbook_tools.labels.nearest_text import (
    MOST_COUNTED,
    MOST_LEFT,
    find_label,
    known_unit,
    look_of,
    sources_of,
    steps_beside,
)

# A larger sheet is a log, of which no other book has the like.
_MOST_CELLS = 2_000

# A label, and the cells that it comes from with what they hold.
_Kept = tuple[Label | None, tuple[tuple[At, object], ...]]


class SheetLabels:
    """What a sheet calls its cells, each found once for all sheets that look like it."""

    def __init__(self, sheet: Sheet) -> None:
        self._sheet = sheet
        small = len(sheet.cells) <= _MOST_CELLS
        self._kept = _kept_of(_looks_of(sheet)) if small else {}

    def label(self, row: int, column: int) -> Label | None:
        """What the sheet calls a cell, None where no text stands near it."""
        at, cells = (row, column), self._sheet.cells
        kept = self._kept.get(at)
        if kept is not None:
            for source, held in kept[1]:
                if cells[source].value != held:
                    break
            else:
                return kept[0]
        found = find_label(self._sheet, row, column)
        if kept is None and at in cells:
            sources = tuple([(s, cells[s].value) for s in sources_of(self._sheet, row, column)])
            self._kept[at] = found, sources
        return found


@lru_cache(maxsize=128)
def _kept_of(_looks: Hashable) -> dict[At, _Kept]:
    return {}


def _looks_of(sheet: Sheet) -> Hashable:
    """All of a sheet that says which text is the label of a cell.

    In a row without a text its first number is that of a cylinder, if it can be; of a row that
    is wider than a label reaches any number may be the first.
    """
    wide = max((column for _, column in sheet.cells), default=0) > MOST_LEFT + 1
    looks: list[object] = []
    before = 0
    for at, (value, formula, _) in sheet.cells.items():
        look: object = type(value)
        if isinstance(value, str):
            long = len(value) > MOST_LETTERS
            look = known_unit(value) if formula else value if long else look_of(value)
        elif isinstance(value, float) and not value.is_integer():
            look = float
            if not formula and (wide or at[0] != before) and 1 <= value <= MOST_COUNTED:
                look = value
        elif isinstance(value, (int, float)) and not isinstance(value, bool) and not formula:
            look = float  # A whole number that counts nothing is a size as any other.
            if 1 <= value <= MOST_COUNTED:
                look = type(value), value, _counts_on(sheet, value, *at)
        looks += at, look, bool(formula)
        before = at[0]
    return tuple(looks)


def _counts_on(sheet: Sheet, number: float, row: int, column: int) -> tuple[object, ...]:
    """How the numbers beside a whole one go on from it, as far as that may make it a head."""
    steps = steps_beside(sheet, number, row, column)
    return tuple([(abs(step) in (1, 2), step < 0) for step in steps])

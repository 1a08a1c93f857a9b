"""What each cylinder builds up while it is cranked, where no more than the unit says it."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.sizes import si_factor
from workbook_tools.labels.table import Table
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.measurands import find
from workbook_tools.quantities import PRESSURE

_NAME = "cranking_pressure"


def cranked(table: Table, texts: Sequence[str], of: str, row: int, column: int) -> str:
    """The name of a number of each cylinder over or before which a unit of pressure stands alone.

    "" where a title says what is measured, or where no cylinder builds up so much.
    """
    unit = next((t for t in texts if is_unit(t) and meaning_of(t).unit == PRESSURE.name), "")
    named = any(meaning_of(t).candidates or meaning_of(t).part for t in table.titles)
    if not unit or of != "cylinder" or named:
        return ""
    at = row, column
    return f"Cranking pressure ({unit})" if table.cells.ask(_is_usual, unit, at) else ""


def _is_usual(sheet: Sheet, unit: str, at: At) -> bool:
    """Whether a number in a unit is usual for a pressure that a starter builds up."""
    term = find(_NAME)
    factor = si_factor(term, unit, None) if term is not None else None
    cell = sheet.cells.get(at)
    if term is None or factor is None or cell is None or not isinstance(cell.value, (int, float)):
        return False
    return term.is_usual(float(cell.value) * factor)

"""The builder's own formulas whose saved numbers are not what they come to."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from workbook_tools.books.cells import Sheet
from workbook_tools.books.fresh import Fresh
from workbook_tools.books.own_arithmetic import outdated
from workbook_tools.books.recalculation import agree
from workbook_tools.books.unsaved_cells import never_calculated
from workbook_tools.formulas.call_names import mentions_call
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import StaleFormula
from workbook_tools.jobs.split import JobPart
from workbook_tools.labels.label import Label


def stale_formulas(
    part: JobPart, fresh: Fresh, label: Callable[[Sheet, int, int], Label | None]
) -> Iterator[StaleFormula]:
    """Those that feed calls, from the typed readings up, and all others from their own cells.

    fresh: what is known of those that feed calls; label: what the book calls a cell.
    """
    # Of several jobs each has its own; what takes cells of all of them is nobody's.
    own = part.own if part.taken else part.cells
    found = {**outdated(part.whole or part.cells, own, fresh.values), **fresh.values}
    for (title, row, column), value in sorted(found.items()):
        sheet = part.cells.sheet(title)
        cell = sheet.cells.get((row, column)) if sheet else None
        if sheet is None or cell is None or mentions_call(cell.formula):
            continue
        if never_calculated(cell) or agree(cell.value, value):
            continue
        yield StaleFormula(
            Place.at(title, row, column),
            label(sheet, row, column),
            "=" + cell.formula,
            cell.value,
            value,
        )

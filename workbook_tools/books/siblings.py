"""Constants typed where the neighbors of a cell, under the same label, have a formula."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from openpyxl.formula.translate import Translator, TranslatorError
from openpyxl.utils import get_column_letter

from workbook_tools.books.labels import is_position
from workbook_tools.books.opening import Cell, Sheet
from workbook_tools.books.records import Label, Place, TypedOver

FindLabel = Callable[[Sheet, int, int], Label | None]
Evaluate = Callable[[str, Sheet, int], object]

# One formula beside a constant is no row that is meant to be computed throughout.
FEWEST = 2


def _at(row: int, column: int) -> str:
    return f"{get_column_letter(column)}{row}"


def _moved(formula: str, origin: str, to: str) -> str:
    """A formula as it would be copied to another cell, "" where it would leave the sheet."""
    try:
        moved = Translator("=" + formula, origin=origin).translate_formula(to)
    except TranslatorError:
        return ""
    return str(moved).removeprefix("=")


def typed_over(
    called: Sequence[tuple[Sheet, int, int, Cell]], label: FindLabel, evaluate: Evaluate
) -> Iterator[TypedOver]:
    """The typed numbers that stand in a row or column of calls of one formula.

    called: the cells with calls, sheet by sheet; label: what the book calls a cell; evaluate:
    what a formula comes to on a sheet and row, None where it cannot be told. A cell counts
    only where it lies beside or between at least two cells that hold the same formula, moved
    along, and has the label that they have, of another cylinder or journal.
    """
    lines: dict[tuple[str, str, int], list[tuple[Sheet, int, int, Cell]]] = {}
    for item in called:
        sheet, row, column, cell = item
        if cell.area:
            continue
        lines.setdefault((sheet.title, "row", row), []).append(item)
        lines.setdefault((sheet.title, "column", column), []).append(item)
    seen: set[Place] = set()
    for (_, way, _), line in lines.items():
        for found in _in_line(line, way, label, evaluate):
            if found.place not in seen:
                seen.add(found.place)
                yield found


def _in_line(
    line: Sequence[tuple[Sheet, int, int, Cell]], way: str, label: FindLabel, evaluate: Evaluate
) -> Iterator[TypedOver]:
    step = (0, 1) if way == "row" else (1, 0)
    for sheet, row, column, cell in line:
        for sign in (-1, 1):
            r, c = row + sign * step[0], column + sign * step[1]
            typed = sheet.cells.get((r, c))
            if typed is None or typed.formula or isinstance(typed.value, bool):
                continue
            if not isinstance(typed.value, (int, float)):
                continue
            own, here = label(sheet, r, c), label(sheet, row, column)
            if own is None or here is None or own.text.casefold() != here.text.casefold():
                continue
            if not own.position or own.position == here.position or not is_position(own.position):
                continue
            alike = [
                (other_row, other_column)
                for _, other_row, other_column, other in line
                if _moved(cell.formula, _at(row, column), _at(other_row, other_column))
                == other.formula
            ]
            if len(alike) < FEWEST:
                continue
            formula = _moved(cell.formula, _at(row, column), _at(r, c))
            if not formula:
                continue
            yield TypedOver(
                Place(sheet.title, _at(r, c)),
                own,
                typed.value,
                "=" + formula,
                Place(sheet.title, _at(row, column)),
                evaluate(formula, sheet, r),
            )

"""Constants typed where the neighbors of a cell, under the same label, have a formula."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from workbook_tools.books.cells import Cell, Sheet
from workbook_tools.formulas.fill import filled, pattern
from workbook_tools.formulas.references import Place, cell_address
from workbook_tools.jobs.records import TypedOver
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.label import Label
from workbook_tools.labels.nearest_text import is_position

FindLabel = Callable[[Sheet, int, int], Label | None]
Evaluate = Callable[[str, Sheet, int], object]

# One formula beside a constant is no row that is meant to be computed throughout.
FEWEST = 2


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
            if own.text.casefold() in words_of("value_heads"):
                continue  # Each row of such a list is of something else.
            if not own.position or own.position == here.position or not is_position(own.position):
                continue
            patterns = [
                alike
                for _, other_row, other_column, other in line
                if (other_row, other_column) != (row, column)
                and (
                    alike := pattern(
                        cell.formula,
                        cell_address(row, column),
                        other.formula,
                        cell_address(other_row, other_column),
                    )
                )
            ]
            if len(patterns) + 1 < FEWEST:
                continue
            formula = filled(patterns[0], cell_address(row, column), cell_address(r, c))
            yield TypedOver(
                Place.at(sheet.title, r, c),
                own,
                typed.value,
                "=" + formula,
                Place.at(sheet.title, row, column),
                evaluate(formula, sheet, r),
            )

"""Constants typed where the neighbors of a cell, under the same label, have a formula."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from openpyxl.formula.tokenizer import Token
from openpyxl.formula.translate import Translator, TranslatorError
from openpyxl.utils import get_column_letter

from workbook_tools.books.calls import tokens_of
from workbook_tools.books.cells import Cell, Sheet
from workbook_tools.books.labels import is_position
from workbook_tools.books.records import Label, Place, TypedOver

FindLabel = Callable[[Sheet, int, int], Label | None]
Evaluate = Callable[[str, Sheet, int], object]

# One formula beside a constant is no row that is meant to be computed throughout.
FEWEST = 2


def _at(row: int, column: int) -> str:
    return f"{get_column_letter(column)}{row}"


def _moved(reference: str, origin: str, to: str) -> str:
    """A reference as it would be copied to another cell, "" where it would leave the sheet."""
    try:
        moved = Translator("=" + reference, origin=origin).translate_formula(to)
    except TranslatorError:
        return ""
    return str(moved).removeprefix("=")


def _pattern(formula: str, at: str, other: str, there: str) -> tuple[tuple[str, bool], ...] | None:
    """A formula's parts, each with whether it moves along, where two formulas are alike.

    A reference of the one must be that of the other, moved along, or the same cell: builders
    write B9 as often as $B$9 for a size of the whole engine. None where they are not alike.
    """
    try:
        ours, theirs = tokens_of(formula), tokens_of(other)
    except ValueError:
        return None
    if len(ours) != len(theirs):
        return None
    parts = []
    for one, two in zip(ours, theirs, strict=True):
        fixed = one.value == two.value
        if not fixed and (one.subtype != Token.RANGE or _moved(one.value, at, there) != two.value):
            return None
        parts.append((one.value, one.subtype == Token.RANGE and not fixed))
    return tuple(parts)


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
            patterns = [
                pattern
                for _, other_row, other_column, other in line
                if (other_row, other_column) != (row, column)
                and (
                    pattern := _pattern(
                        cell.formula,
                        _at(row, column),
                        other.formula,
                        _at(other_row, other_column),
                    )
                )
            ]
            if len(patterns) + 1 < FEWEST:
                continue
            formula = "".join(
                _moved(part, _at(row, column), _at(r, c)) if moves else part
                for part, moves in patterns[0]
            )
            yield TypedOver(
                Place(sheet.title, _at(r, c)),
                own,
                typed.value,
                "=" + formula,
                Place(sheet.title, _at(row, column)),
                evaluate(formula, sheet, r),
            )

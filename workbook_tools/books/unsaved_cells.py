"""The cells whose results were never saved, in the order in which they can be computed."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from openpyxl.formula.tokenizer import Token

from workbook_tools.books.areas import Areas, CannotEvaluate, cells_within
from workbook_tools.books.cells import Cell
from workbook_tools.books.engine import CellKey
from workbook_tools.catalog import CellError
from workbook_tools.formulas.references import Area
from workbook_tools.formulas.tokens import tokens_of

# What programs save in a cell whose function they do not know.
_UNKNOWN_FUNCTION = ("#NAME?", "Err:508", "Err:509")


def never_calculated(cell: Cell) -> bool:
    """Whether a formula cell was saved without a result that its program computed."""
    return cell.value is None or (
        isinstance(cell.value, CellError) and cell.value.text in _UNKNOWN_FUNCTION
    )


def in_order(
    areas: Areas, key: CellKey, computed: Collection[CellKey], begun: Collection[CellKey]
) -> list[CellKey]:
    """The cells to compute for a cell, itself the last, each after those that it refers to.

    computed: those that have a value by now; begun: those whose computing led to this one. A
    chain of such cells can be as long as a sheet, so that it is not followed by calls within
    calls.
    """
    order: list[CellKey] = []
    seen = {*begun, key}
    waiting = [(key, _needed(areas, key, computed))]
    while waiting:
        at, needed = waiting[-1]
        following = next((k for k in needed if k not in seen), None)
        if following is None:
            order.append(at)
            waiting.pop()
        else:
            seen.add(following)
            waiting.append((following, _needed(areas, following, computed)))
    return order


def _needed(areas: Areas, key: CellKey, computed: Collection[CellKey]) -> Iterator[CellKey]:
    """The cells without a value that a cell's formula refers to."""
    for area in _areas_named(areas, key):
        for found in cells_within(areas.book, area):
            cell = _cell(areas, found)
            if cell.formula and never_calculated(cell) and found not in computed:
                yield found


def _areas_named(areas: Areas, key: CellKey) -> Iterator[Area]:
    """The areas that a cell's formula refers to; what cannot be followed is left out."""
    sheet = areas.book.sheet(key[0])
    assert sheet is not None
    try:
        tokens = tokens_of(_cell(areas, key).formula)
    except ValueError:
        return
    for token in tokens:
        if token.type != Token.OPERAND or token.subtype != Token.RANGE:
            continue
        try:
            area = areas.find(token.value, sheet, key[1])
        except (CannotEvaluate, ValueError):
            continue
        if area is not None:
            yield area


def _cell(areas: Areas, key: CellKey) -> Cell:
    sheet = areas.book.sheet(key[0])
    assert sheet is not None
    return sheet.cells[key[1:]]

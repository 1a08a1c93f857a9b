"""The builder's own formulas that feed no call, worked out again from the saved cells they take."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from workbook_tools.books import engine
from workbook_tools.books.areas import Areas, CannotEvaluate, cells_within
from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.books.engine import CellKey, EngineError
from workbook_tools.books.expressions import refuse_unseen_cells, with_areas
from workbook_tools.books.fresh import is_volatile
from workbook_tools.formulas.call_names import mentions_call
from workbook_tools.formulas.references import Area
from workbook_tools.formulas.tokens import tokens_of

# What is saved differs from what comes out by more than this share, or the program rounded.
_ROUNDED = 1e-5


def outdated(whole: OpenBook, own: OpenBook, told: Collection[CellKey]) -> dict[CellKey, object]:
    """The ordinary formulas whose saved number is not what their saved cells give.

    whole: the file; own: the cells that are looked at; told: cells that are compared already.
    Returns what each comes to. Of formulas that follow from one another only the first can be
    among them. What cannot be told, and what may have been rounded as it is shown, is left out.
    """
    areas = Areas(whole)
    asked: dict[CellKey, tuple[str, Mapping[CellKey, object]]] = {}
    for sheet in own.sheets:
        for (row, column), cell in sheet.cells.items():
            key = sheet.title, row, column
            if not cell.formula or key in told or not _is_ordinary(cell):
                continue
            if (expression := _expression(areas, sheet, row, cell.formula)) is not None:
                asked[key] = expression
    if not asked:
        return {}
    try:
        values = engine.evaluate_together(list(asked.values()))
    except EngineError:
        return {}
    return {
        key: value
        for key, value in zip(asked, values, strict=True)
        if isinstance(value, (int, float)) and not isinstance(value, bool)
        if not _is_as_saved(_saved(own, key), float(value))
    }


def _is_ordinary(cell: Cell) -> bool:
    number = isinstance(cell.value, (int, float)) and not isinstance(cell.value, bool)
    ordinary = not cell.area and not mentions_call(cell.formula)
    return number and ordinary and not is_volatile(cell)


def _expression(
    areas: Areas, sheet: Sheet, row: int, formula: str
) -> tuple[str, Mapping[CellKey, object]] | None:
    """A formula as the engine takes it, with the cells it names; None where not all are known."""

    def area_of(reference: str) -> Area:
        area = areas.find(reference, sheet, row)
        if area is None:
            raise CannotEvaluate(reference)
        return area

    try:
        tokens = tokens_of(formula)
        refuse_unseen_cells(tokens, in_place=False)
        text, taken = with_areas(tokens, area_of)
    except (CannotEvaluate, ValueError):
        return None
    cells = dict(_values(areas.book, taken))
    # A text may be taken for a number by one program and not by the next; so may a date.
    return (text, cells) if taken and all(_is_number(v) for v in cells.values()) else None


def _values(book: OpenBook, taken: list[Area]) -> Iterator[tuple[CellKey, object]]:
    for area in taken:
        sheet = book.sheet(area.sheet)
        for key in cells_within(book, area) if sheet else ():
            assert sheet is not None
            yield key, sheet.cells[key[1:]].value


def _is_number(value: object) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def _saved(book: OpenBook, key: CellKey) -> float:
    sheet = book.sheet(key[0])
    assert sheet is not None
    value = sheet.cells[key[1:]].value
    assert isinstance(value, (int, float))
    return float(value)


def _is_as_saved(saved: float, value: float) -> bool:
    """Whether a saved number is the value, or the value as it is shown."""
    if abs(saved - value) <= _ROUNDED * max(abs(saved), abs(value)) + 1e-10:
        return True
    decimals = len(f"{saved:.10f}".rstrip("0").partition(".")[2])
    return abs(round(value, decimals) - saved) < 1e-9

"""Ranges in formulas that leave out the first or the last cells of the line that they take."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from functools import lru_cache

from openpyxl.formula.tokenizer import Token

from workbook_tools.books.areas import Areas, CannotEvaluate
from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.formulas.references import Area, Place
from workbook_tools.formulas.tokens import tokens_of
from workbook_tools.jobs.formula_lines import formula_at
from workbook_tools.jobs.records import CutRange
from workbook_tools.labels.label import Label
from workbook_tools.labels.nearest_text import is_position
from workbook_tools.labels.vocabulary import meaning_of
from workbook_tools.measurands import find
from workbook_tools.quantities import MASS, VOLUME, Kind

At = tuple[int, int]
FindLabel = Callable[[Sheet, int, int], Label | None]
# A range takes so many cells at least, and leaves out fewer than half as many: half of a line is
# one bank of a V, or one side.
_FEWEST = 3
_MOST_OF_A_PART = 4


def cut_ranges(book: OpenBook, label: FindLabel) -> list[CutRange]:
    """The ranges that stop before the end of a line, where no formula like it takes the rest.

    book: the whole file; label: what the book calls a cell. A line is made of the numbers of a
    column or row that bear one label, of different cylinders, journals or valves.
    """
    taken = list(_taken(book))
    found: dict[tuple[Place, Area], CutRange] = {}
    for function, (sheet, row, column), area in taken:
        target = book.sheet(area.sheet)
        if target is None or area.size < _FEWEST:
            continue
        # The formula itself may stand at the end of the line, as a mean below it.
        own = (row, column) if area.sheet == sheet.title else None
        beyond = [at for at in _beyond(target, area, label) if at != own]
        if not beyond:
            continue
        # The mean of one bank leaves the other to a formula like it; one over all shows the cut.
        alike = [
            other
            for name, _, other in taken
            if name == function and not _holds(other, area.sheet, (area.top, area.left))
        ]
        left_out = [
            at for at in beyond if not any(_holds(other, area.sheet, at) for other in alike)
        ]
        if left_out and 2 * len(left_out) < area.size:
            place = Place.at(sheet.title, row, column)
            out = tuple(Place.at(area.sheet, *at) for at in left_out)
            found[place, area] = CutRange(place, label(sheet, row, column), area.place, out)
    return [*found.values(), *_lists_with_a_gap(book, label)]


# A list added up cell by cell has so many of them, with one left out between the others.
_FEWEST_ADDED, _MOST_ADDED = 4, 40


def _lists_with_a_gap(book: OpenBook, label: FindLabel) -> Iterator[CutRange]:
    """The formulas that add up the numbers of a column and leave out one between them.

    Another formula of the sheet takes none of these either. Of weights and of volumes the one
    between the last of them and the formula below is left out too, of weights the one over them.
    """
    for sheet in book.sheets:
        formulas = [at for at, cell in sheet.cells.items() if cell.formula]
        added = [(at, _cells_added(sheet, at)) for at in formulas]
        used = {cell for _, cells in added for cell in cells}
        for at, cells in added:
            columns = {column for _, column in cells}
            if len(cells) < _FEWEST or len(columns) != 1:
                continue
            (column,) = columns
            rows = [row for row, _ in cells]
            out = {(row, column) for row in range(min(rows), max(rows) + 1)} - used
            out = out if len(cells) >= _FEWEST_ADDED else set()
            if not out and column == at[1]:
                out = (_left_below(sheet, at, cells, label) - used) or (
                    _left_above(sheet, cells, label) - used
                )
            if len(out) != 1 or not all(_is_number(sheet, one) for one in (*cells, *out)):
                continue
            area = Area(sheet.title, min(rows), column, max(rows), column)
            left_out = tuple(Place.at(sheet.title, *one) for one in out)
            yield CutRange(Place.at(sheet.title, *at), label(sheet, *at), area.place, left_out)


def _left_below(sheet: Sheet, at: At, cells: Collection[At], label: FindLabel) -> set[At]:
    """The numbers between those that a formula adds up and itself, all of one kind: weights."""
    last = max(cells)
    below = {(row, last[1]) for row in range(last[0] + 1, at[0])}
    for kind, unit in ((MASS, "g"), (VOLUME, "cc")):
        whole = [*cells, *below]
        if below and all(_is_of_kind(sheet, one, label, kind, unit) for one in whole):
            typed = kind is VOLUME or not any(sheet.cells[one].formula for one in whole)
            return below if typed else set()
    return set()


def _left_above(sheet: Sheet, cells: Collection[At], label: FindLabel) -> set[At]:
    """The number right over those that a formula adds up, all of them weights.

    Where they are typed so is it; where each is worked out, as of two rods, so is it.
    """
    row, column = min(cells)
    over = (row - 1, column)
    whole = (*cells, over)
    if len(cells) < _FEWEST_ADDED or not all(_is_number(sheet, one) for one in whole):
        return set()
    of_one_kind = len({bool(sheet.cells[one].formula) for one in whole}) == 1
    weights = all(_is_of_kind(sheet, one, label, MASS, "g") for one in whole)
    return {over} if of_one_kind and weights else set()


def _is_of_kind(sheet: Sheet, at: At, label: FindLabel, kind: Kind, unit: str) -> bool:
    """Whether a number is of a kind by the name that it has, in its unit."""
    own = label(sheet, *at) if at in sheet.cells else None
    candidates = meaning_of(f"{own.text} ({unit})").candidates if own is not None else ()
    term = find(candidates[0].measurand) if candidates else None
    return term is not None and term.kind is kind


def _cells_added(sheet: Sheet, at: tuple[int, int]) -> set[tuple[int, int]]:
    """The cells of its own sheet that a formula with a sum takes."""
    formula = sheet.cells[at].formula
    if not ("+" in formula or "SUM(" in formula.upper()):
        return set()
    one = formula_at(sheet, *at)
    areas = [a for a in one.areas if a.sheet == sheet.title] if one else []
    if any(a.size > _MOST_ADDED for a in areas):
        return set()
    return {
        (row, column)
        for area in areas
        for row in range(area.top, area.bottom + 1)
        for column in range(area.left, area.right + 1)
    }


def _holds(area: Area, sheet: str, at: tuple[int, int]) -> bool:
    return (
        area.sheet == sheet
        and area.top <= at[0] <= area.bottom
        and area.left <= at[1] <= area.right
    )


def _taken(book: OpenBook) -> Iterator[tuple[str, tuple[Sheet, int, int], Area]]:
    """Each range in a row or column, with the function that takes it and the formula's cell."""
    areas = Areas(book)
    for sheet in book.sheets:
        for (row, column), cell in sheet.cells.items():
            if not cell.formula or ":" not in cell.formula:
                continue
            for function, reference in _ranges(cell.formula):
                try:
                    area = areas.find(reference, sheet, row)
                except (CannotEvaluate, ValueError):
                    continue
                if area and (area.top == area.bottom or area.left == area.right):
                    yield function, (sheet, row, column), area


@lru_cache(maxsize=4096)
def _ranges(formula: str) -> tuple[tuple[str, str], ...]:
    """The ranges of a formula, each with the innermost function that it is given to."""
    try:
        tokens = tokens_of(formula)
    except ValueError:
        return ()
    open_ones: list[str] = []
    found: list[tuple[str, str]] = []
    for token in tokens:
        if token.subtype == Token.OPEN:
            open_ones.append(token.value.upper())
        elif token.subtype == Token.CLOSE and open_ones:
            open_ones.pop()
        elif token.subtype == Token.RANGE and ":" in token.value and open_ones:
            found.append((open_ones[-1], token.value))
    return tuple(found)


def _beyond(sheet: Sheet, area: Area, label: FindLabel) -> list[tuple[int, int]]:
    """The cells before and behind a range that belong to the line that all of its cells are of."""
    down, across = (0, 1) if area.top == area.bottom else (1, 0)
    ends = (area.top - down, area.left - across), (area.bottom + down, area.right + across)
    if not any(_is_number(sheet, end) for end in ends):
        return []
    inside = [(c.top, c.left) for c in area.cells()]
    labels = [label(sheet, *at) if _is_number(sheet, at) else None for at in inside]
    first = labels[0]
    if first is None or any(one is None or one.text != first.text for one in labels):
        return []
    positions = {one.position: at for one, at in zip(labels, inside, strict=True) if one}
    if not all(map(is_position, positions)):
        return []
    if len(positions) < len(inside):
        if len(positions) * _MOST_OF_A_PART < len(inside):
            return []
        positions = {}  # Several of each, as two valves of a cylinder, follow one another.
    return [
        *_from(sheet, inside[0], (-down, -across), first.text, positions, label),
        *_from(sheet, inside[-1], (down, across), first.text, positions, label),
    ]


def _from(
    sheet: Sheet, at: tuple[int, int], step: tuple[int, int], text: str,
    positions: Mapping[str, object], label: FindLabel,
) -> Iterator[tuple[int, int]]:  # fmt: skip
    """The cells that go on with a line from one of its ends, without a gap."""
    while True:
        at = at[0] + step[0], at[1] + step[1]
        own = label(sheet, *at) if _is_number(sheet, at) else None
        if own is None or own.text != text or own.position in positions:
            return
        if not own.position or not is_position(own.position):
            return
        yield at


def _is_number(sheet: Sheet, at: tuple[int, int]) -> bool:
    cell = sheet.cells.get(at)
    return (
        cell is not None
        and isinstance(cell.value, (int, float))
        and not isinstance(cell.value, bool)
    )

"""Constants typed where the neighbors of a cell, or that cell of like sheets, have a formula."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.formulas.references import Area, Place
from workbook_tools.jobs.formula_lines import (
    FEWEST,
    Evaluate,
    FindLabel,
    Line,
    LineFormula,
    formula_at,
    is_between,
    is_blank,
    is_of_another,
    lines,
    names_one,
    with_areas,
)
from workbook_tools.jobs.records import TypedOver


def typed_over(
    whole: OpenBook, own: OpenBook, label: FindLabel, evaluate: Evaluate
) -> Iterator[TypedOver]:
    """The typed numbers of a job that stand in a row or column of one formula.

    whole: the whole file, for the lines; own: the job's cells and those that are nobody's; label:
    what the book calls a cell; evaluate: what a formula comes to on a sheet and row, None where it
    cannot be told. A cell counts only where it lies beside formulas of one form, moved along, at
    least two, and has the label that they have, of another cylinder or journal; or right between
    them, where there are more.
    """
    seen: set[Place] = set()
    for sheet in whole.sheets:
        mine = own.sheet(sheet.title)
        for line in lines(sheet) if mine else ():
            for row, column, beside in _typed_beside(sheet, line):
                place = Place.at(sheet.title, row, column)
                if place in seen or not mine or (row, column) not in mine.cells:
                    continue
                found = _told(sheet, line, (row, column), beside, label, evaluate)
                if found is not None:
                    seen.add(place)
                    yield found
    for found in _on_like_sheets(whole, own, label, evaluate):
        if found.place not in seen:
            yield found


def _on_like_sheets(
    whole: OpenBook, own: OpenBook, label: FindLabel, evaluate: Evaluate
) -> Iterator[TypedOver]:
    """The typed numbers in whose cell other sheets of the same form have one formula.

    Only what the formula comes to here tells that the number is another.
    """
    formulas = _by_cell(whole.sheets)
    for sheet in own.sheets if formulas else ():
        for at in sorted(sheet.cells.keys() & formulas.keys()):
            cell, sister = sheet.cells[at], _sister(sheet, at, formulas[at])
            value = cell.value
            if sister is None or cell.formula or isinstance(value, bool):
                continue
            usual = sister.cells[at].formula
            result = evaluate(usual, sheet, at[0])
            if not isinstance(result, (int, float)) or not isinstance(value, (int, float)):
                continue
            if not _is_rounded(value, result):
                yield TypedOver(
                    Place.at(sheet.title, *at), label(sheet, *at), value, "=" + usual,
                    Place.at(sister.title, *at), result,
                )  # fmt: skip


def _sister(sheet: Sheet, at: tuple[int, int], others: Sequence[Sheet]) -> Sheet | None:
    """One of several sheets that have the same words and one formula of their own cells there."""
    if len({other.cells[at].formula for other in others}) != 1:
        return None
    sister = others[0]
    one = formula_at(sister, *at)
    local = one is not None and all(
        area.sheet == sister.title and not is_blank(sheet, area._replace(sheet=sheet.title))
        for area in one.areas
    )
    return sister if local and _words_at(sheet, at) == _words_at(sister, at) else None


def _is_rounded(value: float, result: float) -> bool:
    """Whether a typed number is a result with fewer digits."""
    decimals = len(f"{value:.10g}".partition(".")[2])
    return abs(value - result) <= 0.51 * 10.0**-decimals


@lru_cache(maxsize=1)
def _by_cell(
    sheets: Sequence[Sheet],
) -> Mapping[tuple[int, int], Sequence[Sheet]]:
    """The cells that have a formula on several sheets, with these."""
    found: dict[tuple[int, int], list[Sheet]] = defaultdict(list)
    for sheet in sheets if len(sheets) > FEWEST else ():
        for at, cell in sheet.cells.items():
            if cell.formula and not cell.area:
                found[at].append(sheet)
    return {at: several for at, several in found.items() if len(several) >= FEWEST}


def _words_at(sheet: Sheet, at: tuple[int, int]) -> tuple[str, str]:
    """The nearest texts left of a cell and above it."""
    left = [text for row, column, text in sheet.texts if row == at[0] and column < at[1]]
    above = [text for row, column, text in sheet.texts if column == at[1] and row < at[0]]
    return "".join(left[-1:]).casefold(), "".join(above[-1:]).casefold()


def _typed_beside(sheet: Sheet, line: Line) -> Iterator[tuple[int, int, LineFormula]]:
    """The typed numbers right before and behind the formulas of a line, each with its formula."""
    down, across = (1, 0) if line.down else (0, 1)
    for one in line.formulas if None not in line.usual else ():
        for sign in (-1, 1):
            at = one.row + sign * down, one.column + sign * across
            cell = sheet.cells.get(at)
            if cell is None or cell.formula or isinstance(cell.value, bool):
                continue
            if isinstance(cell.value, (int, float)):
                yield *at, one


def _holds_a_remark(sheet: Sheet, area: Area) -> bool:
    """Whether an area is one cell that holds a text."""
    cell = sheet.cells.get((area.top, area.left)) if area.single else None
    return area.sheet == sheet.title and cell is not None and isinstance(cell.value, str)


def _told(
    sheet: Sheet, line: Line, at: tuple[int, int], beside: LineFormula, label: FindLabel,
    evaluate: Evaluate,
) -> TypedOver | None:  # fmt: skip
    meant = {n: line.meant(n, *at) for n in range(len(line.usual))}
    areas = {n: area for n, area in meant.items() if area is not None}
    alike = [
        f for f in line.formulas if all(line.meant(n, f.row, f.column) == f.areas[n] for n in areas)
    ]
    if beside not in alike or any(is_blank(sheet, area) for area in areas.values()):
        return None
    own, here = label(sheet, *at), label(sheet, beside.row, beside.column)
    named = own is not None and names_one(own) and is_of_another(own, here) and len(alike) >= FEWEST
    if not named and not is_between(line, *at, alike):
        return None
    if any(_holds_a_remark(sheet, area) for area in areas.values()):
        return None  # "4.0305 ok" is no number to a formula: its result was typed.
    moved = {beside.at[n]: area for n, area in areas.items() if area != beside.areas[n]}
    formula = with_areas(sheet.cells[beside.row, beside.column].formula, moved)
    value = sheet.cells[at].value
    assert isinstance(value, (int, float))
    return TypedOver(
        Place.at(sheet.title, *at), own, value, "=" + formula,
        Place.at(sheet.title, beside.row, beside.column), evaluate(formula, sheet, at[0]),
    )  # fmt: skip

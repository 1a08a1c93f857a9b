"""Constants typed where the neighbors of a cell, in one line with it, have a formula."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.formula_lines import (
    FEWEST,
    Evaluate,
    FindLabel,
    Line,
    LineFormula,
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
    moved = {beside.at[n]: area for n, area in areas.items() if area != beside.areas[n]}
    formula = with_areas(sheet.cells[beside.row, beside.column].formula, moved)
    value = sheet.cells[at].value
    assert isinstance(value, (int, float))
    return TypedOver(
        Place.at(sheet.title, *at), own, value, "=" + formula,
        Place.at(sheet.title, beside.row, beside.column), evaluate(formula, sheet, at[0]),
    )  # fmt: skip

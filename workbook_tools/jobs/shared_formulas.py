"""Formulas on sheets that are of no one job: whose each of them is, by the cells that it takes."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence, Set

from openpyxl.formula.tokenizer import Token

from workbook_tools.books.areas import Areas, CannotEvaluate, cells_within
from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.books.engine import CellKey
from workbook_tools.formulas.tokens import tokens_of

_Cells = Mapping[str, Set[tuple[int, int]]]
_Found = dict[str, set[tuple[int, int]]]
# Formulas that lead from one to the next on such a sheet.
_LONGEST_CHAIN = 20


def formulas_by_job(book: OpenBook, owned: Sequence[_Cells]) -> tuple[_Found, ...]:
    """For each job the formulas that take cells of it and of no other job, by sheet.

    book: the whole file; owned: the cells of each job, by sheet. Looked at are the sheets on
    which no job has a cell; a formula that takes one of these formulas goes with it.
    """
    own = {
        (title, *at): {n}
        for n, cells in enumerate(owned)
        for title, places in cells.items()
        for at in places
    }
    free = [s for s in book.sheets if not any(s.title in cells for cells in owned)]
    areas = Areas(book)
    taken = {
        (sheet.title, *at): _taken(areas, sheet, at[0], cell.formula)
        for sheet in free
        for at, cell in sheet.cells.items()
        if cell.formula
    }
    for _ in range(_LONGEST_CHAIN):
        told = {key: set().union(*(own.get(k, ()) for k in cells)) for key, cells in taken.items()}
        if all(own.get(key, set()) == jobs for key, jobs in told.items()):
            break
        own |= told
    found: tuple[_Found, ...] = tuple(defaultdict(set) for _ in owned)
    for title, row, column in taken:
        jobs = own.get((title, row, column), set())
        if len(jobs) == 1:
            found[next(iter(jobs))][title].add((row, column))
    return found


def _taken(areas: Areas, sheet: Sheet, row: int, formula: str) -> set[CellKey]:
    """The cells with content that a formula takes."""
    found: set[CellKey] = set()
    try:
        tokens = tokens_of(formula)
    except ValueError:
        return found  # A text that is no formula takes nothing.
    for token in tokens:
        if token.type != Token.OPERAND or token.subtype != Token.RANGE:
            continue
        try:
            area = areas.find(token.value, sheet, row)
        except CannotEvaluate:
            continue
        if area is not None:
            found.update(cells_within(areas.book, area))
    return found

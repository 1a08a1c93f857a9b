"""The one formula of a line that does not go on as the others do.

One that takes a cell of another row than all of its siblings is a slip of the mouse, and its
number is wrong without looking so.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache

from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.formulas.references import Area, Place
from workbook_tools.jobs.formula_lines import (
    FEWEST,
    ONE_IN,
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
from workbook_tools.jobs.records import UnlikeFormula

# So many others must take the one of two sizes of their row for the other to be a slip.
_FEWEST_WITH_BOTH = 4
# By the number of a formula in its line and of a reference in that: what would be taken.
_Odd = Mapping[int, Mapping[int, Area]]
# A formula, what it has and what it would have in place of references, its sibling, how many.
_Strange = tuple[LineFormula, Mapping[int, str], Mapping[int, Area], LineFormula, int]


def unlike_formulas(
    whole: OpenBook, own: OpenBook, label: FindLabel, evaluate: Evaluate
) -> list[UnlikeFormula]:
    """The formulas of a job of which a reference is unlike that of all others of their line.

    whole: the whole file, for the lines; own: the job's cells and those that are nobody's; label:
    what the book calls a cell; evaluate: what a formula comes to on a sheet and row, None where it
    cannot be told. A line is made of formulas of one form in a column or row that bear one label,
    of different cylinders, journals or valves, or that stand right before and behind one another.
    """
    found: dict[Place, UnlikeFormula] = {}
    for sheet in whole.sheets:
        mine = own.sheet(sheet.title)
        if mine is None:
            continue
        told = [
            *(u for line, odd in _lines_with_odd(sheet)
              for u in _told(sheet, line, odd, label, evaluate)),
            *(_unlike(sheet, *one, label, evaluate) for one in _with_numbers(sheet)),
        ]  # fmt: skip
        for unlike in told:
            if mine.cells.get(_at(unlike.place)):
                found.setdefault(unlike.place, unlike)
    return list(found.values())


def _at(place: Place) -> tuple[int, int]:
    row, column = coordinate_to_tuple(place.address)
    return row, column


# Each job of a log asks for the same sheet.
@lru_cache(maxsize=8)
def _lines_with_odd(sheet: Sheet) -> tuple[tuple[Line, _Odd], ...]:
    """The lines of a sheet that have formulas unlike the others, with these by number."""
    at_home: set[tuple[int, int]] = set()
    found = []
    for line in lines(sheet):
        odd = _odd(line)
        if len(line.formulas) <= FEWEST or len(odd) * ONE_IN > len(line.formulas):
            continue
        found.append((line, odd))
        if None not in line.usual:
            kept = (one for n, one in enumerate(line.formulas) if n not in odd)
            at_home.update((one.row, one.column) for one in kept)
    # What goes on as the others in its row is no slip in its column.
    strange = (
        (line, {n: slots for n, slots in odd.items() if _spot(line.formulas[n]) not in at_home})
        for line, odd in found
    )
    return tuple((line, odd) for line, odd in strange if odd)


def _spot(one: LineFormula) -> tuple[int, int]:
    return one.row, one.column


def _odd(line: Line) -> _Odd:
    """The formulas of a line that are unlike it, by number: what each reference would be."""
    odd: dict[int, dict[int, Area]] = defaultdict(dict)
    for slot in range(len(line.usual)):
        for n, one in enumerate(line.formulas):
            meant = line.meant(slot, one.row, one.column)
            if meant is not None and meant != one.areas[slot]:
                odd[n][slot] = meant
    return odd


def _told(
    sheet: Sheet, line: Line, odd: _Odd, label: FindLabel, evaluate: Evaluate
) -> Iterator[UnlikeFormula]:
    alike = [one for n, one in enumerate(line.formulas) if n not in odd]
    for n, slots in odd.items():
        one = line.formulas[n]
        if any(is_blank(sheet, area) for area in slots.values()):
            continue  # Where there is nothing to take, another cell was taken on purpose.
        if any(
            _is_its_own(one, one.areas[n], area, line.down)
            and not _have_all(sheet, alike, one.areas[n], line.down)
            for n, area in slots.items()
        ):
            continue
        sibling = _sibling(sheet, line, one, alike, label)
        if sibling is not None:
            takes = {slot: _named(one.areas[slot], sheet) for slot in slots}
            yield _unlike(sheet, one, takes, slots, sibling, len(alike), label, evaluate)


def _named(area: Area, sheet: Sheet) -> str:
    """An area as a formula on a sheet names it."""
    return area.address if area.sheet == sheet.title else str(area)


def _is_its_own(one: LineFormula, takes: Area, meant: Area, down: bool) -> bool:
    """Whether a formula takes a cell of its own row, where it would take another of that.

    It stands for what was measured again, or comes from elsewhere. down: whether its line does.
    """
    if not (takes.single and meant.single):
        return False
    if down:
        return takes.top == meant.top == one.row
    return takes.left == meant.left == one.column


def _have_all(sheet: Sheet, alike: Sequence[LineFormula], takes: Area, down: bool) -> bool:
    """Whether the others of a line leave out a cell that they have as well: "found" by "final"."""
    held = [sheet.cells.get((a.row, takes.left) if down else (takes.top, a.column)) for a in alike]
    filled = [cell for cell in held if cell is not None and isinstance(cell.value, (int, float))]
    return len(alike) >= _FEWEST_WITH_BOTH and len(filled) == len(alike)


def _sibling(
    sheet: Sheet, line: Line, one: LineFormula, alike: Sequence[LineFormula], label: FindLabel
) -> LineFormula | None:
    """The nearest formula that is surely of the same line, None where nothing says so."""
    nearest = sorted(alike, key=lambda a: abs(a.row - one.row) + abs(a.column - one.column))
    own = label(sheet, one.row, one.column)
    if own is not None and names_one(own):
        same = [a for a in nearest if is_of_another(own, label(sheet, a.row, a.column))]
        if len(same) >= FEWEST:
            return same[0]
    return nearest[0] if is_between(line, one.row, one.column, alike) else None


@lru_cache(maxsize=8)
def _with_numbers(sheet: Sheet) -> tuple[_Strange, ...]:
    """The formulas between others of a line that have a number where those have a cell."""
    found = []
    for line in lines(sheet):
        down, across = (1, 0) if line.down else (0, 1)
        first = line.formulas[0]
        for before in line.formulas if None not in line.usual else ():
            at = before.row + down, before.column + across
            one = formula_at(sheet, *at)
            if one is None or len(one.parts) != len(first.parts) or one.parts == first.parts:
                continue
            numbers = {
                first.at.index(n): one.parts[n]
                for n, part in enumerate(first.parts)
                if n in first.at and one.parts[n]
            }
            rest = all(
                one.parts[n] == part for n, part in enumerate(first.parts) if n not in first.at
            )
            if not numbers or not rest or not is_between(line, *at, line.formulas):
                continue
            meant = {n: line.meant(n, *at) for n in numbers}
            slots = {n: area for n, area in meant.items() if area is not None}
            if all(_differs(sheet, numbers[n], area) for n, area in slots.items()):
                found.append((one, numbers, slots, before, len(line.formulas)))
    return tuple(found)


def _differs(sheet: Sheet, typed: str, area: Area) -> bool:
    """Whether a number in a formula is another than the one of the cell in its place."""
    cell = sheet.cells.get((area.top, area.left)) if area.single else None
    if cell is None or area.sheet != sheet.title or not isinstance(cell.value, (int, float)):
        return False
    try:
        return not math.isclose(float(typed), cell.value, rel_tol=1e-6)
    except ValueError:
        return False  # A name, or a text.


def _unlike(
    sheet: Sheet, one: LineFormula, takes: Mapping[int, str], slots: Mapping[int, Area],
    sibling: LineFormula, alike: int, label: FindLabel, evaluate: Evaluate,
) -> UnlikeFormula:  # fmt: skip
    cell = sheet.cells[one.row, one.column]
    meant = {sibling.at[slot]: area for slot, area in slots.items()}
    return UnlikeFormula(
        Place.at(sheet.title, one.row, one.column),
        label(sheet, one.row, one.column),
        cell.value,
        tuple(takes.values()),
        tuple(area.place for area in slots.values()),
        Place.at(sheet.title, sibling.row, sibling.column),
        alike,
        evaluate(with_areas(cell.formula, meant), sheet, one.row),
    )

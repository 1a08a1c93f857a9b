"""The lines of a sheet: spots that share a label, with their numbers and what they may mean."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

from workbook_tools.formulas.call_names import mentions_call
from workbook_tools.formulas.references import read_reference
from workbook_tools.formulas.tokens import tokens_of
from workbook_tools.labels.arithmetic import of_two
from workbook_tools.labels.cell_numbers import number_at
from workbook_tools.labels.computed_spots import (
    is_difference_of_two,
    is_of_its_column,
    left_by_two,
    read_as_mean,
    stands_for_readings,
)
from workbook_tools.labels.content import is_step
from workbook_tools.labels.conventions import Stated
from workbook_tools.labels.last_figures import last_figures
from workbook_tools.labels.line import InBook, Line, Option, Over
from workbook_tools.labels.line_stages import measured_before, stage_of_kept, stage_of_line
from workbook_tools.labels.line_units import unit_of_line, unit_over
from workbook_tools.labels.nominal_sizes import over_nominal
from workbook_tools.labels.options import bearing_told, options_of
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot, Told
from workbook_tools.labels.vocabulary import meaning_of, unit_in
from workbook_tools.labels.weights import weights
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find
from workbook_tools.quantities import System

# What a line is called whose head says no more.
_NO_MORE_THAN_THAT = "difference"
_VALVES = ("intake", "exhaust")


def lines_of(
    cells: SheetText, found: Sequence[Spot], stated: Stated
) -> Iterator[tuple[list[Spot], Line]]:
    """The spots of a sheet by line, each with what its words may mean."""
    groups: dict[tuple[object, ...], list[Spot]] = defaultdict(list)
    found = measured_before(found)
    by_cell = {(s.row, s.column): s for s in found if not s.inline}
    for spot in found:
        if not spot.is_computed and _is_typed_number(cells, spot):
            groups[spot.shared].append(spot)
            continue
        told = spot.told is not None and bool(spot.told.measurand)
        if not told and (read := read_as_mean(cells, spot, by_cell)) is not None:
            # The mean of several readings of one bore is its size.
            groups[spot.shared].append(read)
            continue
        if spot.is_computed and not (
            told or spot.nominal or stands_for_readings(cells, spot, found)
        ):
            left = left_by_two(cells, spot, by_cell)
            if not left and not is_difference_of_two(cells, spot):
                continue
            # "Difference" says nothing; what it is of may.
            label = left or _NO_MORE_THAN_THAT
            spot = replace(spot, label=label, headings=(), which=spot.which._replace(stage=""))
        if not told and (is_of_its_column(cells, spot) or _is_a_step(cells, spot)):
            continue
        groups[spot.shared].append(spot)
    for key, members in groups.items():
        yield from _lines_of_a_label(cells, (cells.sheet.title, *key), members, stated)


def _lines_of_a_label(
    cells: SheetText, key: tuple[object, ...], members: list[Spot], stated: Stated
) -> Iterator[tuple[list[Spot], Line]]:
    """The line of spots that share a label, or one for each row where these are two things."""
    rows = _rows_apart(members) if key[1] == "row" else ()
    if not rows or meaning_of(members[0].label).candidates:
        line = _line(cells, key, members, stated)
        if not rows or not (_may_be_several(line) or _take_other_rows(cells, members)):
            yield members, line
            return
    for row in rows:
        yield row, _line(cells, (*key, row[0].row), row, stated)


def _is_typed_number(cells: SheetText, spot: Spot) -> bool:
    """Whether a cell holds a number as it was typed, as most do: no text and no formula."""
    cell = cells.sheet.cells.get((spot.row, spot.column))
    return cell is not None and not cell.formula and isinstance(cell.value, (int, float))


def _is_a_step(cells: SheetText, spot: Spot) -> bool:
    """Whether a text says by how much a machined size is under or over the standard one."""
    cell = cells.sheet.cells.get((spot.row, spot.column))
    text = cell.value if cell and not spot.inline else None
    return isinstance(text, str) and is_step(text) and spot.which.stage == "machined"


def _may_be_several(line: Line) -> bool:
    """Whether the words of a line leave open what it measures."""
    if not line.options:
        return True
    return len(line.options) > 1 and line.options[0].weight == line.options[1].weight


def _take_other_rows(cells: SheetText, members: Sequence[Spot]) -> bool:
    """Whether formulas of two rows of one label take different rows: each is of its own two."""
    taken: dict[int, tuple[int, int]] = {}
    for spot in members:
        cell = cells.sheet.cells.get((spot.row, spot.column))
        if cell and cell.formula and spot.row not in taken and (pair := of_two(cell.formula)):
            taken[spot.row] = pair[0][0], pair[2][0]
    return len({*taken.values()}) > 1


def _rows_apart(members: Sequence[Spot]) -> Sequence[list[Spot]]:
    """Spots of one label by row, () where no two rows are of the same parts.

    "Leaves" below the mains and again below the rods are two things.
    """
    rows: dict[int, list[Spot]] = defaultdict(list)
    for spot in members:
        rows[spot.row].append(spot)
    told = [{spot.which_one for spot in row} for row in rows.values()]
    return [*rows.values()] if any(one & other for one, other in pairwise(told)) else ()


def _line(
    cells: SheetText, key: tuple[object, ...], members: Sequence[Spot], stated: Stated
) -> Line:
    first = members[0]
    by_layout = first.told or Told()
    read = [(s, *told) for s in members if (told := number_at(cells, s)) is not None]
    unit = first.unit or unit_in(first.label) or next((own for *_, own in read if own), "")
    over = unit or next((u for h in first.headings[:2] if (u := unit_over(h))), "")
    given, exact = options_of(first.label, first.headings, first.which, cells.vocabulary, over)
    options = list(given)
    if named := find(by_layout.measurand):
        options, exact = [Option(named, 0, weights().words.said + weights().words.own_word)], True
    if first.which.other:
        options = [o._replace(weight=o.weight - weights().words.odd) for o in options]
    numbers = [(s, n) for s, n, *_ in read]
    stage = stage_of_line(cells, members, numbers)
    unit = unit or unit_of_line(stated, options, first.headings, [n for _, n in numbers])
    amounts, options = _amounts(cells, numbers, options, unit, stated.system)
    if amounts:
        read = [(s, amounts.size((s.row, s.column), n), d, own) for s, n, d, own in read]
        unit = amounts.size_unit
    title, held = cells.sheet.title, cells.sheet.cells
    formulas = (held[s.row, s.column].formula for s, *_ in read if not s.inline)
    return Line(
        key=key,
        label=first.label,
        stage=stage_of_kept(first.meaning) if stage == "computed" else stage,
        values=[(spot.which_one, number) for spot, number, *_ in read],
        unit=unit,
        options=options,
        system=stated.system,
        decimals=max((digits for *_, digits, _ in read), default=0),
        exact=exact,
        by_cell=by_layout.by_cell,
        told=bearing_told(first.label, first.headings, first.which),
        typed=[n for spot, n, *_ in read if not held[spot.row, spot.column].formula],
        # A line that may be nothing is part of no formula.
        cells=frozenset([(title, s.row, s.column) for s, *_ in read] if options else ()),
        referred=_referred(next(filter(None, formulas), ""), title),
        over=amounts,
        side=next((w.side for h in first.headings if (w := which_of(h)) and w.side in _VALVES), ""),
    )


def _amounts(
    cells: SheetText, told: Sequence[tuple[Spot, float]], options: list[Option], unit: str,
    system: System | None,
) -> tuple[Over | None, list[Option]]:  # fmt: skip
    """What the numbers of a line are amounts over, or the last figures of; and what it may be."""
    figures = last_figures(cells, told, options, unit)
    if figures is None:
        return over_nominal(cells, told, options, unit, system), options
    words = weights().words
    return figures[0], [Option(figures[1], 1, words.said - words.a_step)]


@lru_cache(maxsize=4096)
def _referred(formula: str, title: str) -> frozenset[InBook]:
    """The single cells that a formula of the builder's own refers to; title: its sheet's."""
    if not formula or mentions_call(formula):
        return frozenset()
    try:
        tokens = tokens_of(formula.removeprefix("="))
    except ValueError:
        return frozenset()
    named = (read_reference(token.value) for token in tokens if token.type == token.OPERAND)
    areas = (reference.area(title) for reference in named if reference is not None)
    return frozenset(
        (area.sheet, area.top, area.left)
        for area in areas
        if area is not None and (area.top, area.left) == (area.bottom, area.right)
    )

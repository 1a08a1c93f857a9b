"""The values of a table: whether its rows or its columns say what is measured, and of which."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from workbook_tools.labels.column_heads import nominal_before
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.job_columns import is_office
from workbook_tools.labels.labeled_values import labeled_values
from workbook_tools.labels.named_heads import CRANK_PARTS
from workbook_tools.labels.names_of_rows import continues_row_above, how_surely_measures, own_texts
from workbook_tools.labels.row_whiches import texts_before, which_in_row
from workbook_tools.labels.rows_apart import (
    has_own_label,
    is_of_no_part,
    is_of_no_valve,
    is_of_one_thing,
    labels_its_values,
    of_each_cylinder,
    values_of_its_own,
)
from workbook_tools.labels.sizes import si_factor
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.table import Table, all_titles, in_column, told_once
from workbook_tools.labels.values_by_column import value_by_column
from workbook_tools.labels.values_by_row import value_by_row
from workbook_tools.labels.vocabulary import meaning_of, unit_in
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find
from workbook_tools.quantities import VOLUME


def table_values(table: Table) -> Iterator[Spot]:
    """Every value, and every empty cell beside others of its line."""
    by_rows = _by_rows(table)
    for row in table.rows:
        if by_rows and is_of_no_valve(table, row):
            yield from of_each_cylinder(table, row)
            continue
        alone = is_of_no_part(table, row) if by_rows else has_own_label(table, row)
        if labels_its_values(table, row) or alone:
            yield from labeled_values(table.cells, table.block, row, table.titles)
            continue
        if not by_rows and is_of_one_thing(table, row):
            continue
        own = [] if by_rows else values_of_its_own(table, row)
        yield from own or _below_heads(table, row, by_rows)


def _below_heads(table: Table, row: int, by_rows: bool) -> Iterator[Spot]:
    """The values of a row of the table, and its empty cells that wait for one."""
    names = texts_before(table, row, table.first)
    named = bool(names or table.index) and _is_filled(table, row, by_rows)
    for column in table.values:
        at = row, column
        filled = at in table.cells.kinds
        if filled and not table.cells.is_value(at):
            continue
        waits = named and column in _entered_columns(table) and not table.cells.is_covered(at)
        if not filled and (not waits or _is_told_elsewhere(table, row, column)):
            continue
        of_row = by_rows and not _is_counted_apart(table, column)
        spot = value_by_row(table, row, column) if of_row else value_by_column(table, row, column)
        if spot is not None and by_rows and not of_row:
            spot = replace(spot, headings=all_titles(table))
        if spot is not None:
            spot = _in_unit_of_corner(table, spot)
            nominal = nominal_before(table, row, column)
            yield replace(spot, nominal=nominal) if nominal else spot


def _is_counted_apart(table: Table, column: int) -> bool:
    """Whether a column stands beside its own count with a head, behind other values.

    "Mains | 1 | .0028" beside rows with names of their own.
    """
    counted = column - 1 in table.index and column - 1 in table.head.texts
    bare = column not in table.head.texts and column not in table.head.index
    return counted and bare and any(c < column - 1 for c in table.values)


def _in_unit_of_corner(table: Table, spot: Spot) -> Spot:
    """A value in the unit that stands where the heads of rows and columns meet, if it fits."""
    unit = _unit_of_corner(table)
    typed = table.cells.kinds.get((spot.row, spot.column)) == "measured"
    unit = unit or ("" if typed else _volume_of_title(table))
    if not unit or spot.unit or spot.first_meant is None or unit_in(spot.label):
        return spot
    # A rod's big end is weighed where grams stand there.
    meant = meaning_of(f"{spot.label} ({unit})", spot.headings).candidates
    terms = (find(candidate.measurand) for candidate in meant)
    fits = any(term is not None and si_factor(term, unit, None) for term in terms)
    return replace(spot, unit=unit) if fits else spot


@told_once
def _unit_of_corner(table: Table) -> str:
    """The unit over the names or counts of the rows, "" where another text or none stands."""
    first = min(table.telling, default=0)
    texts = (*table.head.texts.get(first, ()), *table.head.corner_units)
    # "N." over numbers says that they count, and no newtons.
    return next((t for t in texts if is_unit(t) and t.casefold().strip(" .") != "n"), "")


@told_once
def _volume_of_title(table: Table) -> str:
    """The unit of volume that the nearest title says: of a head it measures the chamber."""
    title = next(iter(table.titles), "")
    return unit_in(title) if title and meaning_of(title).unit == VOLUME.name else ""


@told_once
def _entered_columns(table: Table) -> frozenset[int]:
    """The columns with cells to be typed into."""
    return frozenset(c for c in table.values if _is_entered(table, c))


def _is_entered(table: Table, column: int) -> bool:
    """Whether cells of a column are to be typed into: below a head, and no formulas."""
    if column not in table.head.index and column not in table.head.texts:
        return False
    return {table.cells.kinds[at] for at in in_column(table, column)} != {"formula"}


def _is_told_elsewhere(table: Table, row: int, column: int) -> bool:
    """Whether an empty cell of a row waits for nothing: another column has that cylinder's.

    "Cyl 1" over "along | across", of which a deck clearance fills the first alone.
    """
    if column in _of_mains_alone(table) or _stands_above(table, row, column):
        return True
    told = table.head.which(column)
    one = told and (told.number, told.bank, told.of)
    return bool(told and told.number and told.at) and any(
        (w := table.head.which(c)) is not None and (w.number, w.bank, w.of) == one
        for c in table.values
        if c != column and table.cells.is_number((row, c))
    )


@told_once
def _of_mains_alone(table: Table) -> frozenset[int]:
    """The last numbered columns, which only rows of mains fill: a four has a fifth of them."""
    counting = {c for c in table.values if (w := table.head.which(c)) and w.number and not w.of}
    for row in table.rows if counting else ():
        texts = [t for t, _ in texts_before(table, row, table.first)]
        if not any(map(_is_of_mains, texts)):
            last = max((c for c in counting if table.cells.is_number((row, c))), default=0)
            counting = {c for c in counting if c > last}
    return frozenset(c for c in counting if any(map(table.cells.is_number, in_column(table, c))))


def _stands_above(table: Table, row: int, column: int) -> bool:
    """Whether a column is filled once for each number, in the first of its rows."""
    once = not any((r, column) in table.cells.kinds for r in table.begun_above)
    return once and row in table.begun_above


def _is_filled(table: Table, row: int, by_rows: bool) -> bool:
    """Whether a row holds numbers, so that one that is missing in it was not measured."""
    held = any(table.cells.is_number((row, at)) for at in table.values)
    return held and (by_rows or which_in_row(table, row, table.first).tells)


def _by_rows(table: Table) -> bool:
    """Whether the names of rows say what is measured, and the heads of columns which one."""
    columns = [c for c in table.values if any(table.cells.is_value(a) for a in in_column(table, c))]
    heads_tell = heads_measure = rows_tell = rows_measure = 0.0
    for column in columns:
        texts = table.head.texts.get(column, [])
        if table.head.which(column) is not None:
            heads_tell += 1 / len(columns)
        elif texts:
            said = [t for t in texts if which_of(t) is None]
            heads_measure += how_surely_measures(table, said[0], said[1:]) / len(columns)
    rows = [r for r in table.rows if not continues_row_above(table, r)]
    for row in rows:
        named = own_texts(table, row, table.first)
        own = [(t, at) for t, at in named if not is_office(table, at[1])]
        office = len(named) - len(own)
        if office > 1 or (
            office and (len(own) != 1 or not how_surely_measures(table, own[0][0], ()))
        ):
            continue  # The row of a job names its engine and who built it.
        if own:
            rows_measure += how_surely_measures(table, own[0][0], [t for t, _ in own[1:]]) / len(
                rows
            )
        elif _heads_count_bearings(table) and which_in_row(table, row, table.first).stage:
            rows_measure += 1 / len(rows)  # "Ground to" below "Pin 1", "Pin 2".
        elif which_in_row(table, row, table.first).tells:
            rows_tell += 1 / len(rows)
    across, down = heads_tell + rows_measure, heads_measure + rows_tell
    return rows_measure > 0 and across > down + 1e-9


@told_once
def _heads_count_bearings(table: Table) -> bool:
    """Whether the heads count mains or rods, and say no more."""
    told = [table.head.which(c) for c in table.values]
    return bool(told) and all(w is not None and w.number and w.of in CRANK_PARTS for w in told)


def _is_of_mains(text: str) -> bool:
    """Whether a text names first something of the mains."""
    candidates = meaning_of(text).candidates[:1]
    term = find(candidates[0].measurand) if candidates else None
    return term is not None and term.of == "main"

"""The values of a table whose rows say what is measured."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence

from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.column_heads import (
    SIDES,
    first_of_none_that_tells,
    parts_over,
    property_of_rows,
    stage_over,
)
from workbook_tools.labels.content import is_unit
from workbook_tools.labels.head import counted_part
from workbook_tools.labels.named_heads import CRANK_PARTS
from workbook_tools.labels.names_of_rows import names_of_values, own_texts
from workbook_tools.labels.options import bearing_told
from workbook_tools.labels.row_whiches import texts_before, told_apart, which_in_row, with_the_next
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.subjects import corner_texts
from workbook_tools.labels.table import Table, all_titles, in_column, told_once, unit_of
from workbook_tools.labels.vocabulary import BEARINGS, meaning_of, noun_named, stage_said
from workbook_tools.labels.which import NOTHING, TAKEN, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find

_GRADE = re.compile(r"\s*\((?:std|standard)\.?\)$", re.IGNORECASE)
_SEVERAL = 2
# How far from round and straight a journal is, by the sizes beside.
_SHAPES = ("out_of_round", "taper")
# The parts of a crankshaft that rows count.
_JOURNALS = {"main", "main_journal", "rod", "rod_journal", "pin", "journal"}


def value_by_row(table: Table, row: int, column: int) -> Spot | None:
    """A value whose row says what it is."""
    return _shape_of_a_journal(table, row, column) or _named_by_its_row(table, row, column)


def _shape_of_a_journal(table: Table, row: int, column: int) -> Spot | None:
    """A value below the head of a property, of a journal that its row only counts."""
    which = which_in_row(table, row, column)
    journal = _journal_of(table, row, which) if table.head.which(column) is None else ""
    noun = property_of_rows(table, column) or _property_beside_axes(table, column)
    if not journal or not noun:
        return None
    when = stage_over(table, column).beside(_stage_before(table, column, noun))
    return Spot(
        row, column, noun, (journal, *all_titles(table)),
        when.beside(_counted_in(table, row, which)), unit_of(table, row),
        ("property", column, table.head.rows[0], journal), (table.head.rows[-1], column),
    )  # fmt: skip


def _named_by_its_row(table: Table, row: int, column: int) -> Spot | None:
    """A value whose row names it, or of which a row above does."""
    which = which_in_row(table, row, column)
    told = table.head.which(column)
    unit = unit_of(table, row) or (told.unit if told else "") or which.unit
    own = names_of_values(table, row, column, unit)
    if not own:
        return None
    label, origin, others = own[0][0], own[0][1], own[1:]
    which = which.beside(told_apart(table, row, column, label))
    label = _as_ground(table, _as_measured(table, label, column), which)
    own = [(label, origin), *others]
    if told is None and (spot := _by_both(table, row, column, own, which, unit)):
        return spot
    if told is None and _is_of_a_list(table, row, column):
        told = NOTHING
    if told is None:
        if (pair := _pair_behind(table, row, column)) is not None:
            return pair
        headed = (c for c in table.values if c in table.head.texts or c in table.head.index)
        behind = column in table.head.texts or any(table.cells.is_number((row, c)) for c in headed)
        if behind and column not in _named_as_places(table):
            return None  # Behind the values of a row stand remarks.
        told = _named_as_places(table)[column] if behind else NOTHING
    told = _of_its_own_bearing(label, told).beside(_side_above(table, origin, which))
    corner = dict.fromkeys((*corner_texts(table, column), *table.head.corner))
    headings = (*(t for t, _ in others), *corner, *all_titles(table))
    told = with_the_next(table, row, column, label, told)
    if which.stage in TAKEN and told.stage in TAKEN:
        told = told._replace(stage="")  # Each row says it: "as received" below "Reading".
    line: tuple[object, ...] = (
        "row", label, *(t for t, _ in others), _begins_in(table), *table.titles[:1],
    )  # fmt: skip
    if _is_of_either_bearing(table, label, origin):
        line = (*line, origin[0])  # "Shells in" below the mains, and again below the pins.
    return Spot(row, column, label, headings, told.beside(which), unit, (*line, origin[1]), origin)


def _is_of_a_list(table: Table, row: int, column: int) -> bool:
    """Whether a value is of what its row names, whatever its head says.

    "On the card" beside "value", "Each" before "Qty" and "Total".
    """
    listed = table.head.is_list and column in table.head.texts
    another = listed and table.cells.is_number((row, column))
    return another or column == first_of_none_that_tells(table)


# What is square to what.
_SQUARE_TO = {"thrust": "parallel", "parallel": "thrust"}


@told_once
def _named_as_places(table: Table) -> Mapping[int, Which]:
    """The first column as a place, where its head names a part and the rows measure other things.

    "Axe pied" over the sizes along the pin, beside "perp." over those square to it.
    """
    first = min(c for c in table.values if any(map(table.cells.is_number, in_column(table, c))))
    head = next(iter(table.head.texts.get(first, ())), "")
    others = [w for c in table.values if c != first and (w := table.head.which(c)) is not None]
    square = next((_SQUARE_TO[w.at[0]] for w in others if w.at[:1] and w.at[0] in _SQUARE_TO), "")
    rows = {own[0][0] for row in table.rows if (own := own_texts(table, row, table.first))}
    measured = {c[0].measurand for text in rows if (c := meaning_of(text).candidates)}
    if not square or not meaning_of(head).candidates or len(measured) < _SEVERAL:
        return {}
    return {first: Which(at=(square,))}


def _by_both(
    table: Table, row: int, column: int, own: Sequence[tuple[str, At]], which: Which, unit: str
) -> Spot | None:
    """A value of which its row and the head of its column each say a part."""
    names, first = [t for t, _ in own], table.head.rows[0]
    if noun := property_of_rows(table, column):
        # "Clearance" in a list of work: of what each row names.
        return Spot(
            row, column, noun, (*names, *all_titles(table)),
            stage_over(table, column).beside(which), unit,
            ("property", column, first, names[0]), (table.head.rows[-1], column),
        )  # fmt: skip
    if part := parts_over(table).get(column):
        # "Height | 220.08 | 118.62" below "Block | Head"
        return Spot(
            row, column, names[0], (part, *names[1:], *all_titles(table)), which, unit,
            ("part", column, first, names[0]), own[0][1],
        )  # fmt: skip
    return None


def _as_measured(table: Table, label: str, column: int) -> str:
    """A label without the grade of its part, of a size beside its limits: "Bore (std)"."""
    plain = [t.casefold() for t in table.head.texts.get(column, ())]
    return _GRADE.sub("", label) if plain == ["size"] else label


def _as_ground(table: Table, label: str, which: Which) -> str:
    """What is ground of a row that only says which one it is: "Rod 1" below "Ground"."""
    said = which_of(label)
    only = said is not None and said.number == which.number and said.of == which.of
    heads = {text.casefold() for texts in table.head.texts.values() for text in texts}
    ground = bool(heads & words_of("ground_sizes"))
    return CRANK_PARTS[which.of] if only and ground and which.of in CRANK_PARTS else label


def _side_above(table: Table, origin: At, which: Which) -> Which:
    """The side above, where a name stands below each: "In | shim | Ex | shim"."""
    row, column = origin
    name = table.cells.text(row, column)
    if which.side or _texts_in_column(table, column)[name] != len(SIDES):
        return NOTHING
    alike = [r for r in table.rows if table.cells.text(r, column) == name]
    over = {r: which_of(table.cells.text(r - 1, column)) or NOTHING for r in alike}
    told = {w.side for w in over.values() if not w.number}
    return Which(side=over[row].side) if told == SIDES and row in over else NOTHING


def _of_its_own_bearing(label: str, told: Which) -> Which:
    """What heads of mains say over a row that is told to be of rods: the number alone."""
    own = bearing_told(label, (), NOTHING) if told.of in BEARINGS else ""
    return told._replace(of=own) if own else told


def _is_of_either_bearing(table: Table, label: str, origin: At) -> bool:
    """Whether a label may be of mains and of rods, and stands in more than one row."""
    if _texts_in_column(table, origin[1])[label] < _SEVERAL:
        return False
    measures = {find(c.measurand) for c in meaning_of(label).candidates[:2]}
    return {m.of for m in measures if m} == {*CRANK_PARTS}


def _texts_in_column(table: Table, column: int) -> Counter[str]:
    """How often each text stands in a column of the table."""
    if column not in table.kept.texts_in:
        table.kept.texts_in[column] = Counter(table.cells.text(row, column) for row in table.rows)
    return table.kept.texts_in[column]


@told_once
def _begins_in(table: Table) -> int:
    """The row of the heads, or of rows below a gap, which share no lines with others."""
    below = table.rows[0] - table.head.rows[-1] > 1 and table.rows[0] not in table.head.block.rows
    return table.rows[0] if below else table.head.rows[0]


def _pair_behind(table: Table, row: int, column: int) -> Spot | None:
    """A value right behind a label of its own, beside a table that has no heads over them."""
    heads = {*table.head.texts, *table.head.index}
    # Another list begins right behind it: "Torque | | Stretch | A | B".
    titled = column + 1 in table.names and column + 1 in heads
    if (
        column in heads
        or (column - 1 in heads and not titled)
        or table.cells.kinds.get((row, column - 1)) != "text"
    ):
        return None
    label = table.cells.text(row, column - 1)
    candidates = meaning_of(label).candidates if which_of(label) is None else ()
    if not candidates or candidates[0].cost > 2 or not table.cells.is_number((row, column)):
        return None
    behind = table.cells.text(row, column + 1)
    return Spot(
        row, column, label, all_titles(table)[-1:], NOTHING, behind if is_unit(behind) else "",
        ((row, column - 1),), (row, column - 1),
    )  # fmt: skip


def _journal_of(table: Table, row: int, which: Which) -> str:
    """The journal that a row only counts, "" where it says more: "Main Fr", "Pin 1"."""
    texts = [t for t, _ in texts_before(table, row, table.first)]
    parts = {part for t in texts if (part := meaning_of(t).part)}
    if parts - _JOURNALS or any(map(stage_said, texts)):
        return ""
    counted = (of for t in texts if (of := counted_part(t)) and _is_counted(t, which))
    return CRANK_PARTS.get(which.of or next(counted, ""), "")


def _is_counted(text: str, which: Which) -> bool:
    return bool(which.number or meaning_of(text).number)


def _counted_in(table: Table, row: int, which: Which) -> Which:
    """Which one a row is of, by a text that names a part with its number: "Pin 1"."""
    texts = (t for t, _ in texts_before(table, row, table.first))
    number = which.number or next((n for t in texts if (n := meaning_of(t).number)), 0)
    return which._replace(number=number)


def _property_beside_axes(table: Table, column: int) -> str:
    """The head of a column that names how far the sizes of two axes beside it are apart."""
    text = next(iter(table.head.texts.get(column, ())), "")
    before = [table.head.which(c) for c in (column - 2, column - 1)]
    axes = all(w is not None and w.at and not w.number for w in before)
    return text if axes and noun_named(text) in _SHAPES and not meaning_of(text).part else ""


def _stage_before(table: Table, column: int, noun: str) -> Which:
    """When the sizes before a column were taken of whose shape it tells, as its heads say."""
    told = table.head.which(column - 1) if noun_named(noun) in _SHAPES else None
    return Which(stage=told.stage) if told and told.stage in TAKEN else NOTHING

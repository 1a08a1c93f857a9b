"""The values of a table whose columns say what is measured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from workbook_tools.labels.column_heads import (
    SIDES,
    counts_journals,
    given_over,
    head_of_a_bank,
    is_a_crankpin,
    is_finish,
    labeled_before,
    only_apart,
    rings_over,
    sides_before,
    told_over,
    without_most,
)
from workbook_tools.labels.cranking import cranked
from workbook_tools.labels.named_heads import (
    is_a_ring,
    measuring_unit,
    names_a_part,
    names_a_ring,
    of_a_ring,
)
from workbook_tools.labels.names_of_rows import own_texts
from workbook_tools.labels.options import bearing_told
from workbook_tools.labels.row_whiches import as_pair, told_apart, which_in_row
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.subjects import corner_texts, subjects
from workbook_tools.labels.table import Table, all_titles, told_once, unit_of
from workbook_tools.labels.vocabulary import BEARINGS, NO_SIZES, meaning_of
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.labels.which_told import which_of

# Heads that name a ring elsewhere.
_OF_BEARINGS = ("oil",)


def value_by_column(table: Table, row: int, column: int) -> Spot | None:
    """A value whose column says what it is."""
    texts = table.head.texts.get(column)
    day = column in table.head.days
    own_count = day or column in table.head.index
    if not texts and column - 1 in table.index and not own_count:
        texts = table.head.texts.get(column - 1)
    if not texts and column not in table.head.index:
        return _instead(table, row, column)
    texts = texts or []
    own = [t for t in texts if _says_what(table, t) and not is_finish(table, t, column)]
    own = [without_most(table, row, column, own[0]), *own[1:]] if own else own
    own = ["Crankpin", *own[1:]] if own and is_a_crankpin(table, column, own[0]) else own
    place = texts[:1] if column in only_apart(table) else []
    own = [] if place else own
    rings = rings_over(table, column, texts)
    told = NOTHING if rings else told_over(table, column, texts[len(place) :])
    told = told.beside(Which(at=tuple(t.casefold() for t in place))) if place else told
    told = _of_a_bolt(table, row, column, _across(table, row, told))
    told = of_a_ring(told, texts, own)
    own = rings or own
    over = dict.fromkeys((*corner_texts(table, column), *table.head.corner))
    corner = [t for t in over if head_of_a_bank(table, t) is None]
    by_row = which_in_row(table, row, column)
    which = _of_two_valves(table, row, told).beside(by_row)
    if by_row.stage in NO_SIZES:
        which = which._replace(stage=by_row.stage)  # The least below "measured" is a limit.
    unit = told.unit or unit_of(table, row)
    # What was taken on several days is of the same.
    line: tuple[object, ...] = ("column", 0 if day else column, table.head.rows[0])
    own, unit = given_over(table, texts, own, unit)
    if not own:
        about = subjects(table, row, column, told, corner)
        before = labeled_before(table, column)
        if before and names_a_ring(before, ()) and any(names_a_ring(t, ()) for t in texts):
            about = [before, *about]  # "Scraper" behind the gap of another ring.
        ring = next((t for t in texts if names_a_ring(t, about) or is_a_ring(t)), "")
        ring = ring or next((t for t in texts if " " in t and names_a_ring(t, ())), "")
        about = [table.titles[0], *about] if place else about
        own, corner = ([ring], about) if ring else (about[:1], about[1:])
        if ring and which_of(ring) is not None:
            which = of_a_ring(told, texts, [f"{ring} ring"]).beside(by_row)
        units = [*texts, unit] if by_row.of != "cylinder" else texts
        alone = measuring_unit(units) or cranked(table, units, which.of, row, column)
        if alone and (not any(map(names_a_part, about)) or not _is_in_unit(about[0], alone)):
            own = [alone]
        if not by_row.tells and (named := _named_by_row(table, row, own)):
            own, corner = [named], [*own, *corner]
        line = (*line, *own)  # Below other titles the column measures something else.
    if not own:
        return None
    headings = (*own[1:], *corner, *all_titles(table))
    which = which.beside(Which(side=sides_before(table).get(column, "")))
    which = which.beside(told_apart(table, row, column, own[0]))
    which = as_pair(table, row, column, own[0], which)
    return Spot(
        row, column, own[0], headings, which, unit, line, (table.head.rows[-1], column),
    )  # fmt: skip


def _across(table: Table, row: int, told: Which) -> Which:
    """What heads say, A and B over counted journals for two ways across and no banks."""
    counted = which_in_row(table, row, table.first).number
    if told.bank not in ("A", "B") or told.number or not counted or not counts_journals(table):
        return told
    places = (at for at in told.at if at != "bottom")  # A "B" alone may be one.
    return told._replace(bank="", at=(*places, told.bank))


def _of_a_bolt(table: Table, row: int, column: int, told: Which) -> Which:
    """What heads say, "Bolt 2" over rows that count rods for one of a rod's, and no rod."""
    head = table.cells.text(table.head.rows[-1], column) if told.number else ""
    meaning = meaning_of(head) if head else None
    bolt = meaning is not None and meaning.part.endswith("bolt") and meaning.number
    counted = which_in_row(table, row, table.first)
    if not bolt or not counted.number or counted.of not in BEARINGS:
        return told
    return told._replace(number=0, at=(*told.at, head.casefold()))


def _of_two_valves(table: Table, row: int, told: Which) -> Which:
    """What heads say, "In 2" over rows that count cylinders for the second valve of each."""
    sided = told.number and told.side in SIDES and told.of in ("", "cylinder")
    if not sided or which_in_row(table, row, table.first).of != "cylinder":
        return told
    return told._replace(number=0, at=(*told.at, str(told.number)))


def _named_by_row(table: Table, row: int, about: Sequence[str]) -> str:
    """What a row below the head of a unit is of, "" where it names no part: "Flywheel"."""
    own = [text for text, _ in own_texts(table, row, table.first)][:1]
    found = meaning_of(own[0], tuple(about)).candidates if own else ()
    return own[0] if found and found[0].cost == 0 else ""


def _says_what(table: Table, text: str) -> bool:
    """Whether a head says what is measured; oil beside bearings is no ring, but their play."""
    said = which_of(text)
    axial = said is not None and said.at == ("parallel",) and bool(meaning_of(text).candidates)
    oil = said is not None and said.side.casefold() in _OF_BEARINGS
    if said is None and head_of_a_bank(table, text) is not None:
        return False
    return said is None or ((oil or axial) and _is_of_bearings(table))


@told_once
def _is_of_bearings(table: Table) -> bool:
    """Whether a table is about mains or rods, by its nearest title or what its rows count."""
    about = (*table.head.corner, *table.titles[:1], *corner_texts(table, table.first))
    if any(which_in_row(table, row, table.first).of in BEARINGS for row in table.rows):
        return True
    return any(bearing_told(t, (), NOTHING) in BEARINGS for t in about)


def _instead(table: Table, row: int, column: int) -> Spot | None:
    """A value without a head right of one that is struck through stands in its place."""
    withdrawn = (row, column - 1) in table.cells.sheet.struck
    if not withdrawn or not table.cells.is_number((row, column)):
        return None
    before = value_by_column(table, row, column - 1)
    return None if before is None else replace(before, column=column)


def _is_in_unit(text: str, unit: str) -> bool:
    """Whether a text names what may be measured in a unit: a valve is no volume."""
    return bool(meaning_of(f"{text} ({unit})").candidates)

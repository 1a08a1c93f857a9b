"""The values of rows that name these themselves, whatever the heads of their table say."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.column_heads import SIDES, noun_over, told_over
from workbook_tools.labels.continued_labels import goes_on
from workbook_tools.labels.labeled_values import is_of_notches, labeled_values
from workbook_tools.labels.names_of_rows import own_texts
from workbook_tools.labels.options import side_said
from workbook_tools.labels.row_whiches import texts_before, which_in_row
from workbook_tools.labels.several_values import names_of
from workbook_tools.labels.sizes import si_factor
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.table import Table, all_titles, told_once
from workbook_tools.labels.vocabulary import BEARINGS, NO_SIZES, meaning_of
from workbook_tools.labels.which import NOTHING, TAKEN, Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import find
from workbook_tools.measurands.words import Candidate
from workbook_tools.quantities import SYSTEMS

_SEVERAL = 2
# So many properties are never alike: a diameter, a clearance and a gap.
_THINGS = 3
_ALIKE = 1.01
# What a head leaves to be assumed at most, to tell that a row is of something else.
_SURE_OF_HEADS = 3


def values_of_its_own(table: Table, row: int) -> list[Spot]:
    """The values of a row that is none of those its table counts: one, perhaps with limits.

    "Crank end play | .007 | .004 | .010" below "Oil clearance | min | max" of mains.
    """
    if play := _thrust_below_mains(table, row):
        return [play]
    texts = texts_before(table, row, table.first)
    filled = [c for c in table.values if table.cells.is_number((row, c))]
    stages = {c: w.stage for c in filled if (w := table.head.which(c)) and w.stage in NO_SIZES}
    if len(texts) != 1 or len(filled) - len(stages) != 1 or not stages:
        return []
    label, origin = texts[0]
    meaning = meaning_of(label)
    surely = bool(meaning.candidates) and meaning.candidates[0].cost <= 1
    counted = any(which_in_row(table, r, table.first).number for r in table.rows if r != row)
    if not surely or meaning.unknown or which_of(label) is not None or not counted:
        return []
    return [
        Spot(
            row, c, label, all_titles(table), Which(stage=stages.get(c, "")), "",
            ("own", row, stages.get(c, "")), origin,
        )
        for c in filled
    ]  # fmt: skip


def _thrust_below_mains(table: Table, row: int) -> Spot | None:
    """The play of a crank in a row "Thrust" with one value, below those of its mains."""
    texts = texts_before(table, row, table.first)
    filled = [c for c in table.values if table.cells.is_number((row, c))]
    named = len(texts) == 1 and texts[0][0].casefold().strip(" .:") == "thrust"
    if not named or len(filled) != 1 or row != table.rows[-1]:
        return None
    above = {which_in_row(table, r, table.first).of for r in table.rows[:-1]}
    if above != {"main"}:
        return None
    return Spot(
        row, filled[0], "Thrust clearance", all_titles(table), NOTHING, "",
        ("thrust", row), texts[0][1],
    )  # fmt: skip


def is_of_one_thing(table: Table, row: int) -> bool:
    """Whether the numbers of a row are alike under heads of things that never are."""
    return row in _rows_of_one_thing(table) and len(_rows_of_one_thing(table)) * 2 <= len(
        table.rows
    )


@told_once
def _rows_of_one_thing(table: Table) -> frozenset[int]:
    """Rows whose numbers are alike; were it most, the heads would be misunderstood."""
    if len({noun for _, noun in _property_columns(table)}) < _THINGS:
        return frozenset()
    return frozenset(
        r for r in table.rows if table.cells.ask(_are_alike, r, _property_columns(table))
    )


@told_once
def _property_columns(table: Table) -> tuple[tuple[int, str], ...]:
    """The columns whose heads name a property, with it."""
    named = {c: noun for c in table.values if (noun := noun_over(table, c))}
    units = {c: told_over(table, c, table.head.texts.get(c, ())).unit for c in named}
    # Micrometers of play are as many as millimeters of a journal, and no more alike.
    ((most, _),) = Counter(units.values()).most_common(1) or (("", 0),)
    return tuple((c, noun) for c, noun in named.items() if units[c] == most)


def labels_its_values(table: Table, row: int) -> bool:
    """Whether a text among the values of a row names the one behind it, or when it was so."""
    if any(_is_stage_before_number(table, row, at) for at in table.values):
        return True
    if _goes_on(table, row):
        return True
    return any(
        table.cells.kinds.get((row, at)) == "text"
        and table.cells.is_number((row, at + 1))
        and which_of(text := table.cells.text(row, at)) is None
        and (candidates := meaning_of(text).candidates)
        and candidates[0].cost <= 2
        and not meaning_of(text).unknown
        for at in table.values
    )


def _goes_on(table: Table, row: int) -> bool:
    """Whether a text behind the first value goes on with the label: "Lash int | 14 | exh"."""
    texts = texts_before(table, row, table.first)
    first = next((c for c in table.values if table.cells.is_value((row, c))), 0)
    label = texts[0][0] if len(texts) == 1 and first else ""
    return any(
        table.cells.kinds[row, at] in ("text", "unit")
        and table.cells.is_number((row, at + 1))
        and bool(goes_on(label, table.cells.text(row, at)))
        for at in table.block.rows[row]
        if label and at > first
    )


def _is_stage_before_number(table: Table, row: int, column: int) -> bool:
    """Whether a cell says when the number behind it was so: "Runout | .02 | before | .07"."""
    if table.cells.kinds.get((row, column)) != "text" or not table.cells.is_number(
        (row, column + 1)
    ):
        return False
    said = which_of(table.cells.text(row, column))
    return said is not None and said.stage in TAKEN and not said.tells


def has_own_label(table: Table, row: int) -> bool:
    """Whether a row below heads of columns is a label with one value of its own."""
    columns = table.block.rows[row]
    values = [c for c in columns if table.cells.is_value((row, c))]
    texts = texts_before(table, row, table.first)
    about = (*table.titles, table.cells.heading)
    if len(values) == _SEVERAL and texts and names_of(texts[0][0], _SEVERAL, about):
        return True
    if not texts or which_of(texts[0][0]) is not None:
        return False
    meaning = meaning_of(texts[0][0])
    if not meaning.candidates and meaning.part and len(values) == 1 and table.index:
        return True  # A remark on a part among counted rows: "Protrusion in mm, gasket pressed".
    if not meaning.candidates or meaning.candidates[0].cost > 2:
        return False
    return len(values) == 1 or _fits_its_label_alone(table, row, meaning.candidates[0])


def _fits_its_label_alone(table: Table, row: int, named: Candidate) -> bool:
    """Whether sizes of a row are what its label surely names, and not what its heads do.

    "Sleeve standout | .002 | .0025 | .002" below "New sleeve | New piston | Clearance".
    """
    filled = tuple(c for c in table.values if table.cells.is_number((row, c)))
    heads = tuple(_first_meant(table.head.texts.get(c, ())) for c in filled)
    told = [head for head in heads if head]
    sure = named.cost <= 1 and len(told) > 1 and named.measurand not in told
    return sure and table.cells.ask(_are_of_one, row, filled, named.measurand, heads)


def is_of_no_part(table: Table, row: int) -> bool:
    """Whether a row below heads that count has values of something that these do not count."""
    return _is_of_no_bearing(table, row) or _names_two(table, row) or _says_notches(table, row)


def _names_two(table: Table, row: int) -> bool:
    """Whether a label names two sizes, which stand below the first two of more heads.

    "Tappets cold inlet / exhaust | 0.3 | 0.3" below 1 2 3 4.
    """
    counting = [c for c in table.values if (w := table.head.which(c)) and w.number]
    filled = [c for c in table.values if table.cells.is_number((row, c))]
    own = own_texts(table, row, table.first)
    if filled != counting[:_SEVERAL] or not own:
        return False
    names = names_of(own[0][0], _SEVERAL, (*table.titles, table.cells.heading))
    # Of a twin's two cylinders one cell would have both sides of each.
    sides = {side_said(name) for name in names} == SIDES
    return bool(names) and (len(counting) > _SEVERAL or sides)


def _says_notches(table: Table, row: int) -> bool:
    """Whether a row says by its notches which gasket was taken, and how thick that is."""
    columns = [c for c in table.block.rows[row] if c >= table.first]
    marked = [c for c in columns if is_of_notches(table.cells.text(row, c))]
    sized = [c for c in columns if table.cells.is_number((row, c)) and c not in marked]
    return len(sized) == 1 and bool(marked) and marked[0] < sized[0]


def _is_of_no_bearing(table: Table, row: int) -> bool:
    """Whether a row below numbered bearings has one value, of something else than these."""
    columns = [c for c in table.values if table.cells.is_value((row, c))]
    own = own_texts(table, row, table.first)
    if len(columns) != 1 or columns != table.values[:1] or len(table.values) < 2 or not own:
        return False
    told = table.head.which(columns[0])
    candidates = meaning_of(own[0][0]).candidates
    term = find(candidates[0].measurand) if candidates and candidates[0].cost <= 2 else None
    return bool(told and told.of in BEARINGS and term and term.of != told.of)


def is_of_no_valve(table: Table, row: int) -> bool:
    """Whether a row below heads of valves has a value for each cylinder, and counts them."""
    own = own_texts(table, row, table.first)
    sides = {told.side for c in table.values if (told := table.head.which(c))}
    if not own or not sides >= SIDES:
        return False
    candidates = meaning_of(own[0][0]).candidates
    term = find(candidates[0].measurand) if candidates and candidates[0].cost <= 2 else None
    return term is not None and term.of == "cylinder" and not term.which


def of_each_cylinder(table: Table, row: int) -> Iterator[Spot]:
    """The values of a row below heads of valves, counted where each cylinder has one."""
    found = list(labeled_values(table.cells, table.block, row, table.titles))
    told = {told.number for c in table.values if (told := table.head.which(c))} - {0}
    numbers = sorted(told) if len(told) == len(found) else [0] * len(found)
    for spot, number in zip(found, numbers, strict=True):
        yield replace(spot, which=spot.which._replace(number=number)) if number else spot


def _first_meant(texts: Sequence[str]) -> str:
    """What the first of some heads surely measures, "" where it is not sure."""
    candidates = meaning_of(texts[0]).candidates[:1] if texts else ()
    return candidates[0].measurand if candidates and candidates[0].cost <= _SURE_OF_HEADS else ""


def _are_of_one(
    sheet: Sheet, row: int, columns: tuple[int, ...], name: str, heads: tuple[str, ...]
) -> bool:
    """Whether the numbers of a row can be of one measurand, and not of that of each column."""
    sizes = [sheet.cells[row, c].value for c in columns]
    numbers = [n for n in sizes if isinstance(n, (int, float))]
    one, others = find(name), [find(head) if head else None for head in heads]
    if one is None or len(numbers) < len(columns):
        return False
    fits = False
    for system in SYSTEMS:
        factor = si_factor(one, "", system)
        if factor and all(one.is_possible(n * factor) for n in numbers):
            fits = True
        of_heads = (
            o is None or ((f := si_factor(o, "", system)) and o.is_possible(n * f))
            for n, o in zip(numbers, others, strict=True)
        )
        if all(of_heads):
            return False
    return fits


def _are_alike(sheet: Sheet, row: int, nouns: Sequence[tuple[int, str]]) -> bool:
    """Whether the first sizes in a row of each of several things are alike."""
    sizes: dict[str, float] = {}
    for column, noun in nouns:
        cell = sheet.cells.get((row, column))
        if cell and isinstance(cell.value, (int, float)) and cell.value:
            sizes.setdefault(noun, abs(cell.value))
    return len(sizes) >= _THINGS and max(sizes.values()) <= _ALIKE * min(sizes.values())

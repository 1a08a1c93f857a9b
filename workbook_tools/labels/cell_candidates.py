"""What a cell may be whose line was found to measure something."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple, cast

from workbook_tools.books.cells import Cell, Sheet
from workbook_tools.formulas.call_names import mentions_call
from workbook_tools.formulas.references import Place
from workbook_tools.labels.candidate import NUMBERED_APART, Candidate
from workbook_tools.labels.cell_text import read_content
from workbook_tools.labels.content import UNSIGNED, Content, Field, Value, refused
from workbook_tools.labels.label import Label
from workbook_tools.labels.line import Line
from workbook_tools.labels.nearest_text import split_unit
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.vocabulary import (
    BEARINGS,
    Match,
    Stage,
    is_one_for_all,
    meaning_of,
    stage_of,
)
from workbook_tools.labels.which import Which
from workbook_tools.measurands import Measurand, find
from workbook_tools.measurands.measurand import Of
from workbook_tools.quantities import RefusalCode

# Parts that mains and rods both have.
_OF_ANY = ("journal", "bearing", "housing")
# A row of readings is no longer than this; of a log the nearest are enough.
_MOST_NEIGHBORS = 32

# What a number is kept as whose sign its reading has settled: below the deck, and adding.
_MEASURED_AS = {"piston_protrusion": "deck_clearance", "dome_volume": "crown_volume"}


class Chosen(NamedTuple):
    """A cell with what its line was found to measure."""

    match: Match
    row: int
    column: int
    label: str
    unit: str
    which: Which
    stage: Stage
    inline: str = ""
    because: tuple[str, ...] = ()
    nominal: Value | None = None
    usual_here: bool = False


def _of_each_cylinder(match: Match, line: Line) -> Match:
    """What was chosen; the displacements of several cylinders are what each sweeps."""
    swept = find("cylinder_volume")
    numbers = {which.number for which, _ in line.values if which.number}
    if match.term.id == "displacement" and len(numbers) > 1 and swept is not None:
        return replace(match, term=swept)
    return match


_BOLTS_OF = {"main_bolt": "main", "rod_bolt": "rod"}


def chosen(spots: Iterable[Spot], line: Line) -> list[Chosen]:
    """Spots of a line with what it was found to measure."""
    match = line.chosen
    assert match is not None
    match = _of_each_cylinder(match, line)
    term = match.term
    alone = len(line.values) == 1 and line.key[1:2] == ("row",)
    for_all = alone and is_one_for_all(term)
    because = tuple(map(str, line.because))
    found = []
    for spot in spots:
        which = spot.which_one
        if term.part in _BOLTS_OF and spot.which.number == 0 and which.number:
            which = which._replace(of=_BOLTS_OF[term.part])  # Of the label: "Main cap 4".
        elif term.of == "fastener_group" and which.number and not which.of:
            which = which._replace(number=0, at=(f"step {which.number}",))
        elif for_all:
            which = which._replace(number=0)  # A number beside a table belongs to no cylinder.
        one = Chosen(
            match, spot.row, spot.column, spot.label, line.unit, which, line.stage, spot.inline,
            because,
            Value(line.over.nominal[spot.row, spot.column], line.over.size_unit)
            if line.over and (spot.row, spot.column) in line.over.nominal else None,
            line.usual_here,
        )  # fmt: skip
        found.append(one)
    return found


class Group(NamedTuple):
    """The cells whose numbers one label names, in the order of the sheet."""

    cells: list[tuple[int, int]]
    spots: list[Chosen]
    numbers: list[float]


Near = Mapping[tuple[str, str], Group]


def numbers_by_label(sheet: Sheet, spots: Iterable[Chosen]) -> Near:
    """The numbers that each label names, in the order of the sheet."""
    found: dict[tuple[str, str], Group] = {}
    for spot in spots:
        cell = sheet.cells.get((spot.row, spot.column))
        value = cell.value if cell else None
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            key = spot.match.term.id, spot.label
            group = found.get(key)
            if group is None:
                group = found[key] = Group([], [], [])
            group.cells.append((spot.row, spot.column))
            group.spots.append(spot)
            group.numbers.append(float(value))
    return found


def neighbors(spot: Chosen, near: Near) -> tuple[float, ...]:
    """The other numbers that the same label names."""
    group = near.get((spot.match.term.id, spot.label))
    if group is None:
        return ()
    at = bisect_left(group.cells, (spot.row, spot.column))
    first = max(0, at - _MOST_NEIGHBORS // 2)
    here = slice(first, first + _MOST_NEIGHBORS)
    several = zip(group.spots[here], group.numbers[here], strict=True)
    return tuple([number for other, number in several if other != spot])


_EMPTY = Cell(None)


@lru_cache(maxsize=4096)
def _label_of(text: str, unit: str) -> Label:
    return Label(split_unit(text)[0], unit=unit)


def candidates_at(sheet: Sheet, spot: Chosen, field: Field) -> Sequence[Candidate]:
    """The reading of one cell; several where the cell holds several of one cylinder."""
    term = spot.match.term
    cell = sheet.cells.get((spot.row, spot.column), _EMPTY)
    raw: object = spot.inline or cell.value
    of_call = bool(cell.formula) and mentions_call(cell.formula)
    stage = spot.stage
    if stage == "target" and isinstance(raw, str) and (limit := _one_sided(raw)) is not None:
        raw, stage = limit
    if of_call:
        content = refused(None, "")
    elif cell.formula and cell.value is None:
        content = refused(None, "its formula was never calculated")
    else:
        content = read_content(raw, field, (spot.row, spot.column) in sheet.struck, spot.nominal)
    if content.code is RefusalCode.OTHER_KIND and spot.match.how == "synonym":
        return ()  # "Piston: 10cc dish" names another thing than a diameter.
    hidden = _hidden(sheet, spot.row, spot.column)
    note = f"{content.note}; {hidden}" if content.note and hidden else content.note or hidden
    value = content.value
    reading = Candidate(
        name=_MEASURED_AS.get(term.id, term.id),
        label=_label_of(spot.label, spot.unit),
        position=f"{spot.which.bank}|{spot.which.number or ''}",
        value=value.number if value else None,
        unit=value.unit if value else "",
        place=Place.at(sheet.title, spot.row, spot.column),
        how=spot.match.how,
        kind=term.kind,
        of=_of(term, spot.which),
        content=content,
        at=_place_of(term, spot.which),
        stage=stage,
        likeness=spot.match.likeness,
        typed=not cell.formula,
        note=note,
        of_call=of_call,
        inline=bool(spot.inline),
        because=spot.because,
        last=spot.which.last,
        usual_here=spot.usual_here,
    )
    return (reading,) if content.kind != "several" else tuple(_apart(reading, content))


def _place_of(term: Measurand, which: Which) -> str:
    """Where on its part a number was taken; of what both valves have one of, on whose side."""
    sided = not term.which and term.part in _OF_BOTH_VALVES and which.side in _VALVES
    return " ".join((which.side, *which.at) if sided else which.at)


# What has no name of its own on either side, and is there for both.
_OF_BOTH_VALVES = ("pushrod", "lash_shim")
_VALVES = ("intake", "exhaust")
_ONE_SIDED = re.compile(rf"(?P<before>[^\d.,]*?)\s*(?P<size>{UNSIGNED}.*)", re.DOTALL)
_SIGNS: dict[str, Stage] = {
    "≤": "limit_high",
    "<": "limit_high",
    "≥": "limit_low",
    ">": "limit_low",
}


@lru_cache(maxsize=1024)
def _one_sided(text: str) -> tuple[str, Stage] | None:
    """The size of a limit and which end it is of, None for any other: "0.05 max", "≥ 10 bar"."""
    found = _ONE_SIDED.fullmatch(text.strip())
    if found is None:
        return None
    size, _, behind = found["size"].rpartition(" ")
    for words, limit in ((found["before"].strip(), found["size"]), (behind, size)):
        stage = _SIGNS.get(words) or (stage_of(meaning_of(words)) if words else "")
        if stage in ("limit_low", "limit_high") and limit:
            return limit, stage
    return None


def _of(term: Measurand, which: Which) -> Of:
    """What a reading is one of: rings and valves are a cylinder's, as are parts numbered so."""
    if term.part in (*_OF_ANY, *_BOLTS_OF) and which.of in BEARINGS:
        return cast(Of, which.of)
    if term.of in NUMBERED_APART:
        return term.of
    return "engine" if is_one_for_all(term) and not which.number else "cylinder"


def _apart(reading: Candidate, content: Content) -> Iterator[Candidate]:
    """Several numbers of one cell as readings of their own, where they are of one cylinder."""
    gasket = {"thickness": "gasket_thickness", "bore": "gasket_bore"}
    if len({v.unit for v in content.values}) != 1:
        yield reading
        return
    if reading.name not in gasket.values() and reading.position == "|":
        yield reading
        return
    for number, value in enumerate(content.values, 1):
        name = gasket.get(value.of, reading.name)
        at = "" if value.of in gasket else value.of or str(number)
        yield reading._replace(name=name, value=value.number, unit=value.unit, at=at)


def _hidden(sheet: Sheet, row: int, column: int) -> str:
    """What is hidden where a cell stands, in words."""
    if sheet.hidden:
        return "on a hidden sheet"
    if row in sheet.hidden_rows:
        return "in a hidden row"
    return "in a hidden column" if column in sheet.hidden_columns else ""

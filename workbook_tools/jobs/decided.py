"""Every typed number of a job, known once: what it is, of which part, how large, who says so."""

from __future__ import annotations

import datetime
import math
import re
from collections import defaultdict
from collections.abc import Callable, Container, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from statistics import fmean
from typing import TypeVar

from openpyxl.utils.cell import range_boundaries

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.engine_text import cylinders_in
from workbook_tools.jobs.formula_lines import formula_at
from workbook_tools.jobs.readings import by_calls, by_label, stage_of, unnamed
from workbook_tools.jobs.records import (
    NoReading,
    NoReadingKind,
    Reading,
    Record,
    StatedResult,
)
from workbook_tools.jobs.uses import system_of_calls, uses_by_place
from workbook_tools.labels.candidate import Candidate
from workbook_tools.labels.candidates import Candidates
from workbook_tools.labels.content import is_measured
from workbook_tools.labels.label import Label
from workbook_tools.labels.vocabulary import BEARINGS
from workbook_tools.measurands import Position, find
from workbook_tools.quantities import SYSTEMS, System

# A sheet with more numbers than this is a log of a test, not a sheet of readings.
MOST_TYPED = 4000
# What only resembles a known word is asked about, never taken.
_RANK = {"proposal": 0, "synonym": 1, "exact word": 2, "layout": 3}

FindLabel = Callable[[Sheet, int, int], Label | None]


@dataclass(frozen=True)
class Decided:
    """What the typed numbers of a job are, and what its formulas state.

    missing: empty cells that labels name; no_readings: numbers that measure nothing; system:
    the one that most of the job is in; single: whether the engine has one cylinder.
    """

    readings: tuple[Reading, ...]
    missing: tuple[Reading, ...]
    no_readings: tuple[NoReading, ...]
    stated: tuple[StatedResult, ...]
    system: System
    single: bool = False


def decide(
    cells: OpenBook,
    candidates: Candidates,
    records: Sequence[Record],
    label: FindLabel,
    fields: Container[Place] = (),
    notes: Container[Place] = (),
    engine: str = "",
) -> Decided:
    """What each typed number of a job is, by the calls that take it, then by its labels.

    cells: the job's own; label: what the book calls a cell; fields: of the job, whose numbers
    measure nothing; notes: cells whose numbers are of something else than the engine; engine: what
    the job calls its engine. What a call takes a cell for is
    the strongest evidence; a layout's word and a known label come after it, and what only
    resembles a known label is asked. Raises nothing: each number is in one of the answers.
    """
    uses = uses_by_place(records)
    usual = candidates.system or system_of_calls(records)
    named: dict[Place, list[Candidate]] = defaultdict(list)
    for candidate in candidates.readings:
        named[candidate.place].append(candidate)
    readings: list[Reading] = []
    no_readings: list[NoReading] = []
    for sheet, row, column, cell in _typed(cells, named):
        place = Place.at(sheet.title, row, column)
        mine, taken = named.get(place), uses.get(place)
        best, used = _best(mine) if mine else (), tuple(taken) if taken else ()
        dated = isinstance(cell.value, datetime.date)
        kind = None if used or (best and not dated) else _no_reading(place, cell.value, candidates)
        if not used and not best and place in fields:
            kind = kind or "note"
        if place in notes and not used and not dated:
            kind = "note"
        if kind is not None:
            no_readings.append(NoReading(place, kind, cell.value))
            continue
        called = label(sheet, row, column)
        if used:
            # What labels take for two things, as a ratio of both sides, the call names alone.
            one = best if len({c.name for c in best}) <= 1 else ()
            readings.append(by_calls(place, cell.value, called, used, one))
        elif best:
            readings += (by_label(place, cell.value, called, c, usual) for c in best)
        else:
            readings.append(unnamed(place, cell.value, called, usual))
    told = {r.place for r in readings}
    missing = _without_bearings_there_are_none_of(
        (
            by_label(c.place, None, None, c, usual)._replace(state="missing", reason="", uses=())
            for c in candidates.readings
            if c.place not in told and c.typed and _says_nothing(c)
        ),
        readings,
    )
    stated = tuple(_stated(cells, candidates, usual))
    single = _is_a_single((*readings, *stated), engine)
    if single:
        readings = [_of_the_only_one(r) for r in readings]
        stated = tuple(_of_the_only_one(s) for s in stated)
    return Decided(tuple(readings), tuple(missing), tuple(no_readings), stated, usual, single)


# A stated size is rounded; another number of cylinders would be twice as far off at least.
_AS_ONE = 0.03
_SIDES = {"L": "left", "R": "right"}
_TELL_A_SINGLE = ("bore", "stroke", "displacement")
_OF_CYLINDERS = ("cylinder", "ring", "rod")
_CC = 1e-6
# "Marlock 250 two-stroke": what it displaces in cc, as motorcycles are named by.
_SIZE_IN_NAME = re.compile(r"(?<![\d.,/])[1-9]\d{1,2}(?![\d.,/])")
# A name is rounded up, "80" of 76 cc, and stays that of an engine bored far over.
_AS_NAMED = (0.75, 1.15)
# Readings of one bore, and of no two cylinders, differ by less.
_SAME_BORE = 1.01
_Sized = TypeVar("_Sized", Reading, StatedResult)


def _is_a_single(told: Sequence[Reading | StatedResult], engine: str) -> bool:
    """Whether an engine has one cylinder.

    As its name says, or its displacement, stated or in its name, is that of one bore and stroke.
    """
    if any(one.part.number > 1 for one in told if one.part.of in _OF_CYLINDERS):
        return False
    sizes: dict[str, list[float]] = defaultdict(list)
    for one in told:
        if one.measurand not in _TELL_A_SINGLE or one.stage not in ("", "final", "machined"):
            continue
        if si := one.si:
            sizes[one.measurand].append(si)
    bores, strokes, totals = (sizes[n] for n in _TELL_A_SINGLE)
    one_size = bool(bores) and max(bores) <= _SAME_BORE * min(bores) and len(strokes) == 1
    if not (one_size and totals) and (counted := cylinders_in(engine)) is not None:
        return counted == 1
    if not one_size or len(totals) > 1:
        return False
    one_cylinder = math.pi / 4 * fmean(bores) ** 2 * strokes[0]
    if totals:
        return any(abs(total / one_cylinder - 1) <= _AS_ONE for total in totals)
    least, most = _AS_NAMED
    named = [int(number) * _CC / one_cylinder for number in _SIZE_IN_NAME.findall(engine)]
    return any(least <= share <= most for share in named)


def _of_the_only_one(sized: _Sized) -> _Sized:
    """A size of a cylinder, or of its rod, as that of the only one; its sides are no banks."""
    named = find(sized.measurand)
    part: Position = sized.part
    if named is None or named.of not in _OF_CYLINDERS or part.number:
        return sized
    at = (*part.at, _SIDES[part.bank]) if part.bank in _SIDES else part.at
    bank = "" if part.bank in _SIDES else part.bank
    return sized._replace(part=replace(part, of=part.of or "cylinder", number=1, bank=bank, at=at))


def _without_bearings_there_are_none_of(
    missing: Iterable[Reading], readings: Sequence[Reading]
) -> Iterator[Reading]:
    """Empty cells without those of mains or rods past the last of which anything is known.

    One row of heads counts mains and rods, of which an engine has not as many.
    """
    last = {of: max((r.part.number for r in readings if r.part.of == of), default=0)
            for of in BEARINGS}  # fmt: skip
    return (m for m in missing if m.part.number <= last.get(m.part.of, m.part.number))


def _says_nothing(candidate: Candidate) -> bool:
    """Whether a cell that a label names holds no number: empty, "n/a", "not yet", a remark."""
    return candidate.value is None and candidate.how != "proposal"


def _typed(
    book: OpenBook, named: dict[Place, list[Candidate]]
) -> Iterator[tuple[Sheet, int, int, Cell]]:
    """The typed cells of a job that hold a number, or that a label names and that hold digits."""
    for sheet in book.sheets:
        filled = _filled_by_arrays(sheet)
        found = [
            (sheet, row, column, cell)
            for (row, column), cell in sheet.cells.items()
            if (row, column) not in filled
            and not cell.formula
            and (
                isinstance(cell.value, float) or _has_number(sheet, row, column, cell.value, named)
            )
        ]
        if len(found) <= MOST_TYPED:
            yield from found


def _has_number(
    sheet: Sheet, row: int, column: int, value: object, named: dict[Place, list[Candidate]]
) -> bool:
    if isinstance(value, bool) or value is None:
        return False
    if isinstance(value, (int, datetime.date)):
        return True
    if not isinstance(value, str):
        return False
    if is_measured(value):
        return True
    # "Pistons flat" says a size without a digit.
    mine = named.get(Place.at(sheet.title, row, column), ())
    digits = any(c.isdigit() for c in value)
    return any(digits or (c.inline and c.value is not None) for c in mine)


def _filled_by_arrays(sheet: Sheet) -> set[tuple[int, int]]:
    """The cells that array formulas fill; only the first of each holds the formula."""
    filled = set()
    for cell in sheet.cells.values():
        if cell.area:
            left, top, right, bottom = range_boundaries(cell.area)
            if left and top and right and bottom:
                rows, columns = range(top, bottom + 1), range(left, right + 1)
                filled |= {(r, c) for r in rows for c in columns}
    return filled


def _best(candidates: Sequence[Candidate]) -> tuple[Candidate, ...]:
    """What the surest label says of a cell; several where the cell itself holds several."""
    if not candidates:
        return ()
    if len(candidates) == 1:
        return () if candidates[0].stage == "computed" else (candidates[0],)
    surest = max(candidates, key=lambda c: _RANK[c.how])
    if surest.stage == "computed":
        return ()
    same = (
        c
        for c in candidates
        if c.label == surest.label or c.content is surest.content or (c.inline and surest.inline)
    )
    return tuple(c for c in same if c.how == surest.how)


def _no_reading(place: Place, value: object, candidates: Candidates) -> NoReadingKind | None:
    """What a number is that measures nothing, None where it may be a reading."""
    if isinstance(value, datetime.date):
        return "date"
    if place in candidates.told_none:
        return "note"
    if place in candidates.counted:
        return "index"
    if place not in candidates.no_engine:
        return None
    return "price" if isinstance(value, float) and not value.is_integer() else "count"


def _stated(cells: OpenBook, candidates: Candidates, usual: System) -> Iterator[StatedResult]:
    """What the builder's own formulas give for things that labels name."""
    for candidate in candidates.readings:
        if candidate.typed or candidate.value is None or candidate.how == "proposal":
            continue
        if candidate.stage == "computed":
            continue  # A mean or a sum of others is of no one part.
        kind = candidate.kind
        system = next((s for s in SYSTEMS if kind.unit(s) == candidate.unit), usual)
        yield StatedResult(
            place=candidate.place,
            label=candidate.label,
            measurand=candidate.name,
            part=candidate.part,
            stage=stage_of(candidate),
            value=candidate.value,
            kind=kind,
            system=system,
            unit=candidate.unit,
            takes=_taken_by(cells, candidate.place),
        )


# A formula takes no more cells of a range than a part has readings, or an engine cylinders.
_MOST_TAKEN = 24


def _taken_by(cells: OpenBook, place: Place) -> frozenset[Place]:
    """The cells that the formula of a cell refers to, long ranges left out."""
    sheet = next((s for s in cells.sheets if s.title == place.sheet), None)
    here = place.area
    found = formula_at(sheet, here.top, here.left) if sheet is not None and here else None
    areas = found.areas if found is not None else ()
    return frozenset(
        Place.at(one.sheet, one.top, one.left)
        for area in areas
        if area.size <= _MOST_TAKEN
        for one in area.cells()
    )

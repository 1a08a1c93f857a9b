"""Every typed number of a job, known once: what it is, of which part, how large, who says so."""

from __future__ import annotations

import datetime
import math
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import range_boundaries

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import (
    Evidence,
    NoReading,
    NoReadingKind,
    Reading,
    ReadingState,
    Record,
    StatedResult,
    Use,
)
from workbook_tools.jobs.uses import system_of_calls, uses_by_place
from workbook_tools.labels.candidate import Candidate
from workbook_tools.labels.candidates import Candidates
from workbook_tools.labels.content import (
    CROWN_SIGN_NOT_SAID,
    DECK_SIGN_NOT_SAID,
    UNIT_NOT_SAID,
    WHICH_NOT_SAID,
    is_measured,
)
from workbook_tools.labels.label import Label
from workbook_tools.measurands import Position, Stage, find
from workbook_tools.measurands.parts import of_one_part
from workbook_tools.measurands.position import parse
from workbook_tools.quantities import (
    LENGTH,
    READING,
    SYSTEMS,
    TEXT,
    Kind,
    System,
    UnreadableText,
    from_si,
    read_text,
    unit_named,
)

# A sheet with more numbers than this is a log of a test, not a sheet of readings.
MOST_TYPED = 4000
_OPEN_REASONS = (UNIT_NOT_SAID, CROWN_SIGN_NOT_SAID, DECK_SIGN_NOT_SAID)
# What only resembles a known word is asked about, never taken.
_RANK = {"proposal": 0, "synonym": 1, "exact word": 2, "layout": 3}
_LIMITS: dict[str, Stage] = {"low": "limit_low", "high": "limit_high"}
_JUDGES = ("VERDICT", "JUDGE")

FindLabel = Callable[[Sheet, int, int], Label | None]


@dataclass(frozen=True)
class Decided:
    """What the typed numbers of a job are, and what its formulas state.

    missing: empty cells that labels name; no_readings: numbers that measure nothing; system:
    the one that most of the job is in.
    """

    readings: tuple[Reading, ...]
    missing: tuple[Reading, ...]
    no_readings: tuple[NoReading, ...]
    stated: tuple[StatedResult, ...]
    system: System


def decide(
    cells: OpenBook, candidates: Candidates, records: Sequence[Record], label: FindLabel
) -> Decided:
    """What each typed number of a job is, by the calls that take it, then by its labels.

    cells: the job's own; label: what the book calls a cell. What a call takes a cell for is
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
        place = Place(sheet.title, f"{get_column_letter(column)}{row}")
        best, used = _best(named.get(place, [])), tuple(uses.get(place, ()))
        dated = isinstance(cell.value, datetime.date)
        kind = None if used or (best and not dated) else _no_reading(place, cell.value, candidates)
        if kind is not None:
            no_readings.append(NoReading(place, kind, cell.value))
            continue
        called = label(sheet, row, column)
        if used:
            readings.append(_by_calls(place, cell.value, called, used, best))
        elif best:
            readings += (_by_label(place, cell.value, called, c, usual) for c in best)
        else:
            readings.append(_unnamed(place, cell.value, called, usual))
    told = {r.place for r in readings}
    missing = (
        _by_label(c.place, None, None, c, usual)._replace(state="missing", reason="", uses=())
        for c in candidates.readings
        if c.place not in told and c.typed and _says_nothing(c)
    )
    stated = tuple(_stated(candidates, usual))
    if _is_a_single(readings, stated):
        readings = [_of_the_only_one(r) for r in readings]
        stated = tuple(_of_the_only_one(s) for s in stated)
    return Decided(tuple(readings), tuple(missing), tuple(no_readings), stated, usual)


# A stated size is rounded; another number of cylinders would be twice as far off at least.
_AS_ONE = 0.03
_Sized = TypeVar("_Sized", Reading, StatedResult)


def _is_a_single(readings: Sequence[Reading], stated: Sequence[StatedResult]) -> bool:
    """Whether the stated displacement is that of one cylinder of the book's bore and stroke."""
    sizes: dict[str, list[float]] = defaultdict(list)
    told = [(r.measurand, r.stage, r.si) for r in readings]
    told += [(s.measurand, s.stage, s.si) for s in stated]
    for name, stage, si in told:
        if si and stage in ("", "final", "machined"):
            sizes[name].append(si)
    bores, strokes, totals = (sizes[n] for n in ("bore", "stroke", "displacement"))
    if len(bores) != 1 or len(strokes) != 1 or len(totals) != 1:
        return False
    one_cylinder = math.pi / 4 * bores[0] ** 2 * strokes[0]
    return abs(totals[0] / one_cylinder - 1) <= _AS_ONE


def _of_the_only_one(sized: _Sized) -> _Sized:
    """A size of a cylinder as that of the only one."""
    named = find(sized.measurand)
    part = sized.part
    if named is None or named.of not in ("cylinder", "ring") or part.number or part.bank:
        return sized
    return sized._replace(part=replace(part, of=part.of or "cylinder", number=1))


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
            and _has_number(sheet, row, column, cell.value, named)
        ]
        if len(found) <= MOST_TYPED:
            yield from found


def _has_number(
    sheet: Sheet, row: int, column: int, value: object, named: dict[Place, list[Candidate]]
) -> bool:
    if isinstance(value, bool) or value is None:
        return False
    if isinstance(value, (int, float, datetime.date)):
        return True
    if not isinstance(value, str):
        return False
    if is_measured(value):
        return True
    place = Place(sheet.title, f"{get_column_letter(column)}{row}")
    return place in named and any(c.isdigit() for c in value)


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
    if place in candidates.counted:
        return "index"
    if place not in candidates.no_engine:
        return None
    return "price" if isinstance(value, float) and not value.is_integer() else "count"


def _by_calls(
    place: Place,
    raw: object,
    label: Label | None,
    uses: tuple[Use, ...],
    named: Sequence[Candidate],
) -> Reading:
    """A cell that calls take: the first that says a kind tells what it is."""
    sure = next((u for u in uses if u.parameter.kind is not READING), None)
    first = sure or uses[0]
    system, kind, unit = first.system, sure.parameter.kind if sure else None, ""
    if sure:
        unit = sure.unit
    elif label and label.unit:
        kind, unit, system = _of_unit(label.unit, first.system)
    value = number_of(raw, kind or READING, system)
    candidate = named[0] if named else None
    part = part_of(candidate, label)
    state: ReadingState = "read" if value is not None else "refused"
    return Reading(
        place=place,
        label=label,
        raw=raw,
        measurand=_measurand_of(uses, candidate, part),
        part=part,
        stage=_stage_of(uses, candidate),
        value=value,
        kind=kind,
        system=system,
        unit=unit,
        state=state,
        reason="" if value is not None else _refused(raw, kind or READING, system),
        note=candidate.note if candidate else "",
        evidence=tuple(dict.fromkeys(_said_by(use) for use in uses)),
        uses=uses,
    )


def _said_by(use: Use) -> Evidence:
    words = f"{use.function} in {use.record.place} takes it as {use.parameter.name}"
    return Evidence("call", words)


def _measurand_of(uses: Sequence[Use], candidate: Candidate | None, part: Position) -> str:
    """What calls take a cell for; a label says it more exactly where it says the same thing."""
    by_call = next((m for u in uses if (m := u.parameter.measurand)), "")
    by_label = candidate.name if candidate and candidate.how != "proposal" else ""
    if candidate and not by_call and all(u.parameter.kind != candidate.kind for u in uses):
        return ""
    return of_one_part(by_call, by_label, part) if by_call else by_label


def _stage_of(uses: Sequence[Use], candidate: Candidate | None) -> Stage:
    limits = {
        _LIMITS.get(u.parameter.name) if u.record.function and u.record.function.name in _JUDGES
        else None
        for u in uses
    }  # fmt: skip
    limit = next(iter(limits)) if len(limits) == 1 else None
    if limit:
        return limit
    if candidate and candidate.stage in _LIMITS.values() and None in limits:
        return ""  # The least gap of a mock-up is a reading, where a call takes it for one.
    return _stage(candidate) if candidate else ""


def _stage(candidate: Candidate) -> Stage:
    return "" if candidate.stage == "computed" else candidate.stage


def _of_unit(unit: str, usual: System) -> tuple[Kind | None, str, System]:
    """The kind of quantity that a label's unit belongs to, and the system that uses it."""
    try:
        kind: Kind | None = unit_named(unit)[0]
    except UnreadableText:
        kind = None
    system = usual
    if kind is LENGTH:
        system = next((s for s in SYSTEMS if LENGTH.unit(s) == unit), usual)
    return kind, unit, system


def part_of(candidate: Candidate | None, label: Label | None) -> Position:
    """Which one a number is of: as its heads number it, else as its label does."""
    sure = candidate is not None and (candidate.how != "proposal" or candidate.part.number)
    if candidate is not None and sure and not candidate.in_line:
        return candidate.part
    nearest = position_of(label)
    return candidate.part if candidate and not nearest.number else nearest


def position_of(label: Label | None) -> Position:
    """Which one a label's own words say a number is of."""
    return (parse(label.position) if label else None) or Position()


def number_of(value: object, kind: Kind, system: System) -> float | None:
    """A cell's number as a bare one of its kind, None where it holds none."""
    if isinstance(value, bool) or value is None:
        return None
    if isinstance(value, (int, float)):
        return float(value)
    if not isinstance(value, str) or kind is TEXT:
        return None
    try:
        number = read_text(value, kind, system)
    except UnreadableText:
        return None
    return number if kind is READING else from_si(number, kind, system)


def _refused(raw: object, kind: Kind, system: System) -> str:
    try:
        read_text(str(raw), kind, system)
    except UnreadableText as reason:
        return str(reason)
    return ""


def _by_label(
    place: Place, raw: object, label: Label | None, candidate: Candidate, usual: System
) -> Reading:
    """A cell that a label names and no call takes."""
    kind: Kind | None = candidate.kind
    unit, value = candidate.unit, candidate.value
    system = next((s for s in SYSTEMS if candidate.kind.unit(s) == unit), usual)
    state: ReadingState = "read"
    reason = candidate.content.reason
    if candidate.how == "proposal" or candidate.far_from_usual or reason in _OPEN_REASONS:
        state = "asked"
    elif candidate.which_open and value is not None:
        state, reason = "asked", WHICH_NOT_SAID
    elif value is None:
        state = "refused"
        reason = reason or candidate.content.note or candidate.content.kind
    if value is None:
        # What was typed is still a number that others of its row can be compared with.
        kind, unit, system = _of_unit(candidate.label.unit, usual)
        value = number_of(raw, kind or READING, system)
    return Reading(
        place=place,
        label=_label(candidate, label),
        raw=raw,
        measurand=candidate.name,
        part=part_of(candidate, label),
        stage=_stage(candidate),
        value=value,
        kind=kind,
        system=system,
        unit=unit,
        state=state,
        reason=reason,
        note=candidate.note,
        evidence=_labeled_so(candidate),
    )


def _labeled_so(candidate: Candidate) -> tuple[Evidence, ...]:
    """What a label says, and what its line of numbers was weighed by."""
    said = Evidence(candidate.how, candidate.label.text)
    weighed = ", ".join(candidate.because)
    return (said, Evidence(candidate.how, weighed)) if weighed else (said,)


def _label(candidate: Candidate, nearest: Label | None) -> Label:
    """A candidate's label, with which one it is in the words of the book where these say so."""
    number = position_of(nearest).number if nearest else 0
    if nearest is None or not number:
        return candidate.label
    same = candidate.in_line or number == candidate.part.number
    return replace(candidate.label, position=nearest.position) if same else candidate.label


def _unnamed(place: Place, raw: object, label: Label | None, usual: System) -> Reading:
    """A number that neither a call nor a known label names."""
    kind, unit, system = None, "", usual
    if label is not None and label.unit:
        kind, unit, system = _of_unit(label.unit, usual)
    return Reading(
        place=place,
        label=label,
        raw=raw,
        measurand="",
        part=position_of(label),
        stage="",
        value=number_of(raw, kind or READING, system),
        kind=kind,
        system=system,
        unit=unit,
        state="not understood",
    )


def _stated(candidates: Candidates, usual: System) -> Iterator[StatedResult]:
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
            stage=_stage(candidate),
            value=candidate.value,
            kind=kind,
            system=system,
            unit=candidate.unit,
        )

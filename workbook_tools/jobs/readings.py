"""Readings of single cells: by the calls that take them, by their labels, or by neither."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import THE_ONLY_ONE, Evidence, Reading, ReadingState, Use
from workbook_tools.jobs.uses import is_mean
from workbook_tools.jobs.verdicts import is_judge
from workbook_tools.labels.candidate import Candidate
from workbook_tools.labels.content import (
    CROWN_SIGN_NOT_SAID,
    DECK_SIGN_NOT_SAID,
    UNIT_NOT_SAID,
    WHICH_NOT_SAID,
)
from workbook_tools.labels.label import Label
from workbook_tools.measurands import Position, Stage, find
from workbook_tools.measurands.parts import of_one_part
from workbook_tools.measurands.position import parse
from workbook_tools.quantities import (
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

_OPEN_REASONS = (UNIT_NOT_SAID, CROWN_SIGN_NOT_SAID, DECK_SIGN_NOT_SAID)
_LIMITS: dict[str, Stage] = {"low": "limit_low", "high": "limit_high"}


def by_calls(
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
    elif is_mean(first.record) and first.record.measurand:
        kind, unit, system = _of_unit(first.record.unit, first.system)
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
    # What a mean is the mean of is what it is taken for.
    by_call = by_call or next((u.record.measurand for u in uses if is_mean(u.record)), "")
    by_label = candidate.name if candidate and candidate.how != "proposal" else ""
    if by_call:
        return of_one_part(by_call, by_label, part)
    # A verdict or a mean takes readings of any kind, so that the label alone says what it is.
    kinds = {u.parameter.kind for u in uses} - {READING}
    if candidate and candidate.kind not in (kinds or {candidate.kind}):
        return ""
    return "" if candidate and candidate.far_from_usual else by_label


def _stage_of(uses: Sequence[Use], candidate: Candidate | None) -> Stage:
    limits = {_LIMITS.get(u.parameter.name) if is_judge(u.record) else None for u in uses}
    limit = next(iter(limits)) if len(limits) == 1 else None
    if limit:
        return limit
    if candidate and candidate.stage in _LIMITS.values() and None in limits:
        return ""  # The least gap of a mock-up is a reading, where a call takes it for one.
    return stage_of(candidate) if candidate else ""


def stage_of(candidate: Candidate) -> Stage:
    """When a candidate was taken; what is worked out of others was taken at no stage."""
    return "" if candidate.stage == "computed" else candidate.stage


def _of_unit(unit: str, usual: System) -> tuple[Kind | None, str, System]:
    """The kind of quantity that a label's unit belongs to, and the system that uses it.

    No kind where neither system has the unit for a bare number: thousandths, bar.
    """
    kind, system = _kind_and_system(unit)
    return kind, unit, system or usual


@lru_cache(maxsize=1024)
def _kind_and_system(unit: str) -> tuple[Kind | None, System | None]:
    try:
        kind = unit_named(unit)[0]
    except UnreadableText:
        return None, None
    system = next((s for s in SYSTEMS if kind.unit(s) == unit), None)
    return kind if system else None, system


def in_bare_unit(reading: Reading) -> Reading:
    """A reading in thousandths or bar in the unit of bare numbers; any other as it is."""
    if reading.kind is not None or reading.si is None:
        return reading
    term = find(reading.measurand)
    if term is None:
        return reading
    if unit_named(reading.unit)[0].si != term.kind.si:
        return reading
    number = float(f"{from_si(reading.si, term.kind, reading.system):.12g}")
    unit = term.kind.unit(reading.system)
    return reading._replace(value=number, kind=term.kind, unit=unit)


def part_of(candidate: Candidate | None, label: Label | None) -> Position:
    """Which one a number is of: as its heads number it, else as its label does."""
    sure = candidate is not None and (candidate.how != "proposal" or candidate.part.number)
    if candidate is not None and sure and not candidate.in_line:
        return candidate.part
    nearest = position_of(label)
    # A bare number over it may be a size as well, where the words of heads count otherwise.
    bare = label is not None and not any(map(str.isalpha, label.position))
    return candidate.part if candidate and (bare or not nearest.number) else nearest


def position_of(label: Label | None) -> Position:
    """Which one a label's own words say a number is of."""
    if label is None or not label.position:
        return THE_ONLY_ONE
    return parse(label.position) or THE_ONLY_ONE


def number_of(value: object, kind: Kind, system: System) -> float | None:
    """A cell's number as a bare one of its kind, None where it holds none."""
    if isinstance(value, float):
        return value
    if isinstance(value, bool) or value is None:
        return None
    if isinstance(value, int):
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


def by_label(
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
    if value is None and candidate.content.kind != "withdrawn":
        # What was typed is still a number that others of its row can be compared with.
        kind, unit, system = _of_unit(candidate.label.unit, usual)
        value = number_of(raw, kind or READING, system)
    return Reading(
        place=place,
        label=_label(candidate, label),
        raw=raw,
        measurand=candidate.name,
        part=part_of(candidate, label),
        stage=stage_of(candidate),
        value=value,
        kind=kind,
        system=system,
        unit=unit,
        state=state,
        reason=reason,
        note=candidate.note,
        evidence=_labeled_so(candidate),
        usual_here=candidate.usual_here,
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
    return candidate.label._replace(position=nearest.position) if same else candidate.label


def unnamed(place: Place, raw: object, label: Label | None, usual: System) -> Reading:
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

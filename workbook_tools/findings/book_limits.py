"""The least and the most that a book itself writes for its numbers."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from workbook_tools.findings.evidence import Evidence, Size, spot
from workbook_tools.findings.finding import named
from workbook_tools.jobs.records import Book, Reading, in_si
from workbook_tools.labels.cell_text import read_content
from workbook_tools.labels.content import Field
from workbook_tools.labels.sizes import si_of
from workbook_tools.labels.written_limits import range_in
from workbook_tools.measurands import Stage, find
from workbook_tools.measurands.words import read_label
from workbook_tools.quantities import TEMPERATURE, from_si, to_si

_JUDGED = ("", "final", "machined")
WISHED = ("target", "limit_low", "limit_high")
# How far something is from true, of which the most alone can be a limit.
FAULTS = ("out_of_round", "taper", "runout", "flatness", "bend", "twist")
_ENDS: Mapping[Stage, str] = {"limit_low": "low", "limit_high": "high"}


class OwnLimits(NamedTuple):
    """The least and the most that a book writes for one of its numbers; missed: the one missed."""

    low: Reading | None
    high: Reading | None
    missed: Reading | None


@lru_cache(maxsize=1)
def own_limits(evidence: Evidence) -> tuple[tuple[Size, OwnLimits], ...]:
    """Each size for which the book writes a least or a most, without a call that judges by it.

    Results of calls are among the sizes, those that the batch made too.
    """
    return tuple(_own_limits(evidence))


def _own_limits(evidence: Evidence) -> Iterator[tuple[Size, OwnLimits]]:
    limits = _limits(evidence)
    found: dict[str, list[tuple[Size, OwnLimits]]] = defaultdict(list)
    for size in (*evidence.sizes, *_results(evidence, limits)):
        if size.stage in _JUDGED and size.measurand in limits:
            own = _of_size(size, _own(size, limits[size.measurand]))
            if own.low or own.high:
                found[size.measurand].append((size, own))
    for sized in found.values():
        # Limits that three sizes or more all miss are of something else.
        if len(sized) < 3 or not all(own.missed for _, own in sized):
            yield from sized


def _own(size: Size, limits: Mapping[str, Sequence[Reading]]) -> Mapping[str, Sequence[Reading]]:
    """The limits that a size can be held to: of one in doubt only those of its very label."""
    if size.sure:
        return limits
    label = size.label.text if size.label else ""
    return {
        end: [r for r in found if label and r.label and r.label.text == label]
        for end, found in limits.items()
    }


def _results(evidence: Evidence, limits: Collection[str]) -> Iterator[Size]:
    for record in evidence.book.records:
        if record.measurand not in limits or record.function is None or record.state == "error":
            continue
        kind, value, system = record.function.result, record.value, record.system
        number = value if isinstance(value, float) else None
        si = in_si(number, kind, system)
        if number is not None and si is not None:
            yield Size(
                record.place, record.label, record.measurand, record.part, "", number, si, kind,
                system, record.unit, typed=False, call=record,
            )  # fmt: skip


def _of_size(size: Size, limits: Mapping[str, Sequence[Reading]]) -> OwnLimits:
    """The limits of a size, and the one that it lies outside of."""
    low, high = _nearest(limits["low"], size, min), _nearest(limits["high"], size, max)
    turn, rounded = 1.0, 0.0 if size.typed else _half_a_step(size)
    if low is not None and high is not None and size_in_si(low) > size_in_si(high):
        if max(size_in_si(low), size.si) >= 0:
            return OwnLimits(None, None, None)  # Not a least and a most, whatever their heads say.
        turn = -1.0  # A protrusion, which is kept as a clearance below zero.
    if low is not None and high is not None and stands_above(size, low):
        size = size._replace(si=-size.si)  # Its limits are as it is written.
    slack = 1e-9 + 1e-6 * abs(size.si) + rounded
    if low is not None and turn * size.si < turn * size_in_si(low) - slack:
        return OwnLimits(low, high, low)
    too_high = high is not None and turn * size.si > turn * size_in_si(high) + slack
    return OwnLimits(low, high, high if too_high else None)


def stands_above(size: Size, limit: Reading) -> bool:
    """Whether a size below zero is how far a piston stands above, and its limit is no clearance."""
    label = size.label.text if size.label else ""
    candidates = read_label(label).candidates if size.si < 0 <= size_in_si(limit) else ()
    return bool(candidates) and candidates[0].measurand == "piston_protrusion"


def _half_a_step(size: Size) -> float:
    """Half of the last digit that a size is shown with: a mean is rounded before it is judged."""
    term = find(size.measurand)
    if term is None or not size.kind.si or size.kind is TEMPERATURE:
        return 0.0
    return 0.5 * float(to_si(10.0 ** -term.shown_digits(size.system), size.kind, size.system))


def _limits(evidence: Evidence) -> Mapping[str, Mapping[str, Sequence[Reading]]]:
    """The limits that the book writes, by measurand.

    Those that calls judge by are told there; of those asked about it is not known whose they are.
    """
    found: dict[str, dict[str, list[Reading]]] = defaultdict(lambda: {"low": [], "high": []})
    by_row = _by_row(evidence)
    for reading in (*evidence.named, *ranges_as_limits(evidence.book)):
        end = _ENDS.get(reading.stage) or _end_of_a_wish(reading)
        if end is None or not reading.measurand:
            continue
        if reading.state == "read" and reading.si is not None and not reading.uses:
            if _is_of_something_else(reading):
                continue
            for name in _held_to(reading, by_row):
                found[name][end].append(reading)
    for name, ends in found.items():
        term = find(name)
        if term is not None and term.noun in FAULTS:
            # Nothing can be too round: what stands alone below "min - max" is the most.
            alone = [r for r in ends["low"] if r.si] if not ends["high"] else []
            found[name] = {"low": [], "high": [*ends["high"], *(_as_most(r) for r in alone)]}
    return found


def _is_of_something_else(limit: Reading) -> bool:
    """Whether no engine has such a size: what stands in its row for another thing is no limit."""
    term = find(limit.measurand)
    sized = term is not None and term.possible[0] > 0
    return sized and term is not None and limit.si is not None and not term.is_possible(limit.si)


def _end_of_a_wish(reading: Reading) -> str | None:
    """The end that what is wanted of a fault is: nobody wants more taper than "limit .0005"."""
    term = find(reading.measurand) if reading.stage == "target" else None
    return "high" if term is not None and term.noun in FAULTS and reading.si else None


def _by_row(evidence: Evidence) -> Mapping[tuple[str, int, str], Collection[str]]:
    """What is measured in each row under each label."""
    found: dict[tuple[str, int, str], set[str]] = defaultdict(set)
    for r in evidence.named:
        if r.stage in _JUDGED and r.state == "read" and r.label and r.measurand:
            found[r.place.sheet, spot(r.place)[0], r.label.text].add(r.measurand)
    return found


def _held_to(
    limit: Reading, by_row: Mapping[tuple[str, int, str], Collection[str]]
) -> Collection[str]:
    """What a limit is for: where one label names two things of a row, as both valves, for both."""
    label = limit.label.text if limit.label else ""
    beside = by_row.get((limit.place.sheet, spot(limit.place)[0], label), ())
    return beside if limit.measurand in beside else (limit.measurand,)


def _as_most(reading: Reading) -> Reading:
    return reading._replace(stage="limit_high")


@lru_cache(maxsize=1)
def ranges_as_limits(book: Book) -> tuple[Reading, ...]:
    """The least and the most of what the book writes as one text beside its sizes."""
    return tuple(_ranges_as_limits(book))


def _ranges_as_limits(book: Book) -> Iterator[Reading]:
    # Protrusions are kept as clearances below zero, and their limits too.
    above = {
        r.label.text
        for r in book.readings
        if r.measurand == "deck_clearance" and r.label and r.si is not None and r.si < 0
        if isinstance(r.raw, int | float) and r.raw > 0
    }
    for reading in book.readings:
        open_ones = ("refused", "asked")
        wanted = reading.stage in WISHED and reading.state in open_ones and not reading.uses
        term = find(reading.measurand) if wanted else None
        if term is None:
            continue
        field = Field(term.id, term.kind, reading.unit, reading.system)
        written = read_content(reading.raw, field)
        if written.kind != "range" and isinstance(reading.raw, str):
            written = read_content(range_in(reading.raw).limit, field)
        if written.kind != "range":
            continue
        low, high = (si_of(term, v.number, v.unit, reading.system) for v in written.values)
        if low is None or high is None:
            continue
        if reading.label and reading.label.text in above and low > 0:
            low, high = -high, -low
        ends: tuple[tuple[Stage, float], ...] = (("limit_low", low), ("limit_high", high))
        for stage, si in ends:
            yield reading._replace(
                stage=stage, state="read", reason="", kind=term.kind,
                value=from_si(si, term.kind, reading.system), unit=term.kind.unit(reading.system),
            )  # fmt: skip


def _nearest(
    limits: Sequence[Reading], size: Size, widest: Callable[..., Reading]
) -> Reading | None:
    """The limit of the same position, else the one limit that there is on the sheet.

    Of several with the size's own label, as for new parts and for worn ones, the widest.
    """
    here = [r for r in limits if r.place.sheet == size.place.sheet]
    same = [r for r in here if r.part.number == size.part.number and r.part.bank == size.part.bank]
    found = same or ([] if any(r.part.number for r in here) else here)
    if len({r.si for r in found}) == 1:
        return found[0]
    label = size.label.text if size.label else ""
    own = bool(label) and all(r.label is not None and r.label.text == label for r in found)
    return widest(found, key=lambda r: abs(size_in_si(r))) if found and own else None


def size_in_si(reading: Reading) -> float:
    """The number of a limit in SI, which only what was read has."""
    assert reading.si is not None, f"{named(reading.label, reading.place)} has no unit"
    return reading.si

"""What a book's own verdicts judge: each number with its limits, one at a time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import NamedTuple

from workbook_tools.books.places import spread
from workbook_tools.catalog import OMITTED, ArgumentError, calculate, find
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Argument, Record

VERDICT_WORDS = ("ok", "low", "high")
_READINGS_OF = {"VERDICT": "value", "JUDGE": "readings"}


class Judged(NamedTuple):
    """One number that a book judges by limits of its own.

    place: its cell, None where it has none; given: the argument that it is or is one of;
    value: as the cell holds it; verdict: "ok", "low", "high", or "" where there is none; by:
    the call that judges it.
    """

    place: Place | None
    given: Argument
    value: object
    low: Argument | None
    high: Argument | None
    verdict: str
    by: Record


def argument_of(record: Record, name: str) -> Argument | None:
    """The argument of this name, None where it was left out."""
    return next((a for a in record.arguments if a.name == name), None)


def is_verdict(record: Record) -> bool:
    """Whether a call judges one number, with which it is told."""
    return record.function is not None and record.function.name == "VERDICT"


def is_judge(record: Record) -> bool:
    """Whether a call judges numbers instead of being one."""
    return record.function is not None and record.function.name in _READINGS_OF


def judged_argument(record: Record) -> Argument | None:
    """What a call judges, None where it is no judge or was given nothing to judge."""
    name = _READINGS_OF.get(record.function.name) if record.function else None
    return argument_of(record, name) if name else None


def judged_by(record: Record, now: Mapping[Place, object] | None = None) -> Iterator[Judged]:
    """Each number that a call judges; nothing where it is no judge.

    now: what cells come to that were saved with another value; such numbers and limits are
    taken as they are now.
    """
    given = judged_argument(record)
    if given is None:
        return
    now = now or {}
    limits = tuple(argument_of(record, name) for name in ("low", "high"))
    low, high = (_as_now(limit, now) for limit in limits)
    cells = spread(given.place, given.value) if given.place else _without_cells(given.value)
    single = is_verdict(record)
    same = (low, high) == limits
    for place, saved in cells:
        value = now.get(place, saved) if place else saved
        if not single and (value is None or value == ""):
            continue
        if single and same and value is saved:
            verdict = record.value if isinstance(record.value, str) else ""
        else:
            verdict = _verdict(value, *(OMITTED if a is None else a.value for a in (low, high)))
        yield Judged(place, given, value, low, high, verdict, record)


def _as_now(given: Argument | None, now: Mapping[Place, object]) -> Argument | None:
    if given is None or given.place is None or given.place not in now:
        return given
    return given._replace(value=now[given.place])


def _without_cells(value: object) -> tuple[tuple[Place | None, object], ...]:
    """Numbers that were given in no cells: {0.002;0.003} or a call."""
    if not isinstance(value, tuple):
        return ((None, value),)
    return tuple((None, cell) for row in value for cell in row)


# Whoever looks at a book asks for the verdicts on the same numbers again.
@lru_cache(maxsize=4096, typed=True)
def _verdict(value: object, low: object, high: object) -> str:
    function = find("VERDICT")
    assert function is not None, "VERDICT is not in the catalog"
    try:
        word = calculate(function, [value, low, high]).value
    except ArgumentError:
        return ""
    return word if isinstance(word, str) else ""

"""Results far outside what the trade is used to, where the book itself names no band.

The limits start from the catalog's bands, over all uses, and are widened
until only gross departures pass them: a doubt, never a verdict. The part maker's figure
comes first.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations

from workbook_tools.findings.evidence import Evidence, told_at
from workbook_tools.findings.finding import MORE, Finding, result_named, shown
from workbook_tools.findings.practice_limits import STEPS, USUAL, Usual, may_be_older
from workbook_tools.jobs.records import Record
from workbook_tools.quantities import LENGTH, from_si, to_si


def check_practice(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each item whose results no use of an engine explains."""
    for name, usual in USUAL.items():
        for record, value in evidence.calls(name):
            taken = evidence.taken_by_call.get(id(record), {}).get(usual.size)
            size = (taken.si if taken else None) if usual.size else 0.0
            if size is not None and not _is_stated(evidence, record, usual, size):
                yield from _odd(record, value, usual, size, judged=record.place in evidence.judged)


def _is_stated(evidence: Evidence, record: Record, usual: Usual, size: float) -> bool:
    """Whether the book has a usual number for what the batch made of a new part and an old size."""
    if not record.computed_by_batch:
        return False
    low, high = usual.limits(size)
    read = [r for a in record.arguments if a.place and (r := evidence.by_place.get(a.place))]
    return any(may_be_older(one, other) for one, other in permutations(read, 2)) and any(
        s.typed and s.part.which == record.part.which and low <= s.si <= high
        for s in evidence.finished(record.measurand)
    )


def _odd(
    record: Record, value: float, usual: Usual, size: float, *, judged: bool
) -> Iterator[Finding]:
    low, high = usual.limits(size)
    si = to_si(value, LENGTH, record.system)
    if low <= si <= high:
        return
    hints = _hints(record, usual, si, low, high)
    if judged and not hints:
        return
    unit = LENGTH.unit(record.system)
    side, limit = ("below", low) if si < low else ("above", high)
    limit_shown = shown(float(f"{from_si(limit, LENGTH, record.system):.2g}"), unit)
    hint = f" It fits if {' or if '.join(hints)}." if hints else ""
    place, cells = told_at(record)
    yield Finding(
        "unusual-by-one-step" if hints else "unusual-result",
        place,
        f"{result_named(record, place)} is {value:.4g} {unit}{MORE}, far {side} what is usual for "
        f"{usual.words} in any use ({side} {limit_shown}; common practice, a starting point "
        f"only).{hint}",
        "Compare with the part maker's figure, and measure the sizes again.",
        cells,
        group=(
            "practice",
            place.sheet,
            record.label.text if record.label else str(place),
            record.name,
        ),
        explains=frozenset(cells),
        rests_on=frozenset(cells),
    )


def _hints(record: Record, usual: Usual, value: float, low: float, high: float) -> list[str]:
    """The known steps that would bring a result among the usual ones, either way."""
    return [
        step.words
        for step in STEPS[record.system] if usual.may_step and step.of in ("", usual.size)
        if any(low * 2 < value + sign * step.size < high / 1.2 for sign in (-1, 1))
    ]  # fmt: skip

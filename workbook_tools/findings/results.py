"""Results that hardly any engine has, of whatever is computed or worked out in the book.

Sizes that are typed are doubted elsewhere; here it is what comes of them, so that no ratio of
40 stands on a page beside "no findings".
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from workbook_tools.books.places import cells_of
from workbook_tools.findings.evidence import (
    Evidence,
    measurands_of,
    told_at,
    usual_range,
)
from workbook_tools.findings.finding import MORE, Finding, result_named, shown
from workbook_tools.findings.practice_limits import USUAL
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Record
from workbook_tools.quantities import Kind, from_si

# Usual ranges are from memory: only what lies this many times outside them is told.
_BEYOND = 1.5


def check_results(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each kind of result that lies far outside what engines have."""
    takes: Mapping[Place, frozenset[Place]] = {}
    for record in evidence.book.records:
        function, value = record.function, record.value
        if function is None or function.name in USUAL:
            continue
        if not isinstance(value, (int, float)) or isinstance(value, bool):
            continue
        limits = _limits(record.measurand, function.result)
        if limits is None or record.place in evidence.judged:
            continue
        bounds = [_bare(limit, function.result, record) for limit in limits]
        if value and not bounds[0] <= value <= bounds[1]:
            takes = takes or _takes(evidence.book.records)
            yield _finding(record, float(value), bounds, _behind(record, takes))


def _limits(measurand: str, kind: Kind) -> tuple[float, float] | None:
    """The widened usual range in SI, None where none is known for results of this kind."""
    usual = usual_range(measurand)
    if usual is None or any(m.kind.si != kind.si for m in measurands_of(measurand)):
        return None
    low, high = usual
    return (low / _BEYOND if low > 0 else low * _BEYOND), high * _BEYOND


def _bare(si: float, kind: Kind, record: Record) -> float:
    return from_si(si, kind, record.system) if kind.has_units else si


def _takes(records: Sequence[Record]) -> Mapping[Place, frozenset[Place]]:
    """The cells that the calls in each cell take."""
    found: dict[Place, set[Place]] = {}
    for record in records:
        if record.place.address:
            cells = (c for a in record.arguments if a.place for c in cells_of(a.place))
            found.setdefault(record.place, set()).update(cells)
    return {place: frozenset(cells) for place, cells in found.items()}


def _behind(record: Record, takes: Mapping[Place, frozenset[Place]]) -> frozenset[Place]:
    """Every cell that a result comes from, through the calls that it takes results of."""
    ahead = [c for a in record.arguments if a.place for c in cells_of(a.place)]
    behind: set[Place] = set()
    while ahead:
        cell = ahead.pop()
        if cell not in behind:
            behind.add(cell)
            ahead += takes.get(cell, ())
    return frozenset(behind)


def _finding(
    record: Record, value: float, bounds: Sequence[float], behind: frozenset[Place]
) -> Finding:
    low, high = (shown(float(f"{bound:.2g}"), record.unit) for bound in bounds)
    is_low = value < bounds[0]
    far, limit = ("far below", f"{low} at least") if is_low else ("far above", f"{high} at most")
    place, cells = told_at(record)
    number = shown(float(f"{value:.4g}"), record.unit)
    return Finding(
        "unusual-result",
        place,
        f"{result_named(record, place)} comes to {number}{MORE}, {far} what "
        f"engines have, {limit} (a wide limit without a source, to find slips by).",
        "Look at each size that it comes from, and measure again; do not build by it until then.",
        cells,
        group=("results", place.sheet, record.measurand),
        explains=frozenset({place}),
        rests_on=behind,
    )

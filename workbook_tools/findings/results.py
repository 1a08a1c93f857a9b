"""Results that hardly any engine has, of whatever is computed or worked out in the book.

Sizes that are typed are doubted elsewhere; here it is what comes of them, so that no ratio of
28 stands on a page beside "no findings".
"""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence, measurands_of, system_of
from workbook_tools.findings.finding import MORE, Finding, named, shown
from workbook_tools.findings.practice import JUDGED_BY_PRACTICE
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Record
from workbook_tools.jobs.verdicts import judged_by
from workbook_tools.quantities import from_si, to_si

# Usual ranges are from memory: only what lies this many times outside them is told.
_BEYOND = 1.5


def check_results(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each kind of result that lies far outside what engines have."""
    judged = {j.place for r in evidence.book.records for j in judged_by(r)}
    for record in evidence.book.records:
        value = record.value
        if (
            record.function is None
            or not isinstance(value, (int, float))
            or isinstance(value, bool)
        ):
            continue
        if record.function.name in JUDGED_BY_PRACTICE or record.place in judged:
            continue
        kind, measures = record.function.result, measurands_of(record.measurand)
        if not measures or any(m.kind.si != kind.si for m in measures):
            continue
        si = to_si(float(value), kind, system_of(record)) if kind.has_units else float(value)
        low, high = min(m.usual[0] for m in measures), max(m.usual[1] for m in measures)
        low = low / _BEYOND if low > 0 else low * _BEYOND
        if low <= si <= high * _BEYOND or si == 0:
            continue
        yield _finding(record, value, low if si < low else high * _BEYOND, si < low)


def _finding(record: Record, value: float, limit: float, is_low: bool) -> Finding:
    kind, system = record.function.result if record.function else None, system_of(record)
    cells = tuple(a.place for a in record.arguments if a.place)
    place = next((p for p in (record.place, *cells) if p.address), record.place)
    bound = from_si(limit, kind, system) if kind and kind.has_units else limit
    side, limit_shown = ("below" if is_low else "above"), shown(float(f"{bound:.2g}"), record.unit)
    return Finding(
        "unusual-result",
        place,
        f"{named(record.label, place)} comes to {shown(float(f'{value:.4g}'), record.unit)}{MORE}, "
        f"{side} what engines have ({side} {limit_shown}; from memory).",
        "One of the sizes that it comes from was typed or read wrong: look at each.",
        cells,
        group=("results", place.sheet, record.measurand),
        rests_on=frozenset(_cells(cells)),
    )


def _cells(places: tuple[Place, ...]) -> Iterator[Place]:
    yield from (p for p in places if p.address)

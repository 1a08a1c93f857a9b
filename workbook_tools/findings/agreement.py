"""Two cells that should agree and do not: stated and computed sizes, one item on two sheets."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from workbook_tools.findings.evidence import (
    RATIO_SLACK,
    Evidence,
    Size,
    is_stated_ratio,
    resolution,
    system_of,
)
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import JobField, Reading, Record
from workbook_tools.quantities import DISPLACEMENT, RATIO, READING, from_si, to_si

# A stated size is rounded, and so are bore and stroke beside it (0.01 in on 3 in is 0.3 %);
# a slip of one digit or one oversize is more than this.
DISPLACEMENT_SLACK = 0.02
_SIZES_SLACK = 0.005
# What stays the same through a whole job, whoever asks for it.
_CONSTANTS = ("stroke", "rod_length", "cylinder_count")


def check_agreement(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each pair of cells that should say the same and does not."""
    yield from _stated_displacement(evidence)
    yield from _stated_ratio(evidence)
    yield from _twice_entered(evidence)
    yield from _constants(evidence)
    yield from _job_numbers(evidence)


def _near(calls: Sequence[tuple[Record, float]], place: Place) -> Sequence[tuple[Record, float]]:
    """The calls on the same sheet, all of them where there is none."""
    return [c for c in calls if c[0].place.sheet == place.sheet] or calls


def _stated_displacement(evidence: Evidence) -> Iterator[Finding]:
    computed = evidence.calls("DISPLACEMENT")
    for stated in evidence.of("displacement") if computed else ():
        wanted = stated.call is not None and "_FOR_" in stated.call.name
        if not stated.typed or stated.number <= 0 or wanted:
            continue
        near = _near(computed, stated.place)
        values = [to_si(value, DISPLACEMENT, system_of(r)) for r, value in near]
        # A small engine's size in whole cubic inches is rounded by more than that alone.
        step = min(1.0, resolution([stated.number]))
        slack = max(DISPLACEMENT_SLACK, _SIZES_SLACK + step / 2 / stated.number)
        if any(abs(v / stated.si - 1) <= slack for v in values):
            continue
        record, value = near[0][0], values[0]
        system = system_of(record)
        where = "" if record.computed_by_batch else f" in {record.place.address}"
        cells = (record.place, *(a.place for a in record.arguments))
        also = tuple(dict.fromkeys(p for p in cells if p and p.address and p != stated.place))
        yield Finding(
            "stated-displacement",
            stated.place,
            f"{stated.name} is {stated.shown}, but bore, stroke and cylinders give "
            f"{from_si(value, DISPLACEMENT, system):.4g} {DISPLACEMENT.unit(system)}{where}, "
            f"{abs(value / stated.si - 1):.1%} {'more' if value > stated.si else 'less'}."
            f"{_what_would_fit(evidence, record, stated.si)}",
            "Measure bore and stroke, count the cylinders, and correct what is wrong.",
            also,
            explains=frozenset(also),
        )


def _what_would_fit(evidence: Evidence, record: Record, stated: float) -> str:
    """Whether exchanging bore and stroke, or another number of cylinders, gives the size."""
    given = {t.argument.name: t.si for t in evidence.taken if t.record is record}
    bore, stroke, count = (given.get(n, 0.0) for n in ("bore", "stroke", "cylinders"))
    if not bore or not stroke or not count:
        return ""
    fits = []
    exchanged = math.pi / 4 * stroke**2 * bore * count
    if abs(exchanged / stated - 1) <= DISPLACEMENT_SLACK:
        fits.append("with bore and stroke exchanged")
    one = math.pi / 4 * bore**2 * stroke
    cylinders = round(stated / one)
    if cylinders != count and abs(one * cylinders / stated - 1) <= DISPLACEMENT_SLACK / 2:
        fits.append(f"with {cylinders} cylinders")
    return f" It fits {' or '.join(fits)}." if fits else ""


def _stated_ratio(evidence: Evidence) -> Iterator[Finding]:
    computed = evidence.calls("COMPRESSION_RATIO")
    for reading in evidence.readings if computed else ():
        if not is_stated_ratio(reading) or reading.number <= 1:
            continue
        if reading.kind not in (None, RATIO):
            continue
        if any(u.parameter.kind is READING or "_FOR_" in u.function for u in reading.uses):
            continue
        near = _near(computed, reading.place)
        low, high = (pick(value for _, value in near) for pick in (min, max))
        if low - RATIO_SLACK <= reading.number <= high + RATIO_SLACK:
            continue
        comes = f"{low:.4g}" if high - low < 0.01 else f"{low:.4g} to {high:.4g}"
        cells = [r.place for r, _ in near if r.place.address and r.place != reading.place]
        where = f" ({cells[0].address})" if cells else ""
        yield Finding(
            "stated-ratio",
            reading.place,
            f"{reading.name} is typed as {reading.value:.4g}; computed from the volumes it is "
            f"{comes}{where}.",
            "Find out which one was measured; advertised ratios are seldom what is built.",
            tuple(cells),
            rests_on=frozenset({reading.place}),
        )


def _twice_entered(evidence: Evidence) -> Iterator[Finding]:
    """A row of readings that stands in the book twice, the same but for one of them."""
    tables: dict[tuple[str, str], list[tuple[Reading, ...]]] = {}
    for row in evidence.rows:
        label = row[0].label
        if label is not None and len(row) > 3 and len({r.label and r.label.text for r in row}) == 1:
            tables.setdefault((label.text.casefold(), label.unit), []).append(row)
    for same in tables.values():
        values = [{r.value for r in row} for row in same]
        for n, first in enumerate(same):
            for m in range(n + 1, len(same)):
                if len(values[n] & values[m]) > 1:
                    yield from _one_apart(first, same[m])


def _one_apart(first: Sequence[Reading], second: Sequence[Reading]) -> Iterator[Finding]:
    there = {r.label.position: r for r in second if r.label is not None}
    pairs = [(r, there[r.label.position]) for r in first if r.label and r.label.position in there]
    apart = [(a, b) for a, b in pairs if not math.isclose(a.number, b.number, rel_tol=1e-9)]
    alike = {a.number for a, b in pairs if math.isclose(a.number, b.number, rel_tol=1e-9)}
    if len(apart) != 1 or len(pairs) < 4 or len(alike) < 2:
        return
    one, other = apart[0]
    yield Finding(
        "entered-twice",
        other.place,
        f"{other.name} on {other.place.sheet} is {other.shown}, on {one.place.sheet} "
        f"({one.place.address}) it is {one.shown}; the other {len(pairs) - 1} readings are the "
        "same in both.",
        "Find the first record of this reading, and let one cell refer to the other.",
        (one.place,),
    )


def _constants(evidence: Evidence) -> Iterator[Finding]:
    """One size of the whole engine, entered twice under the same name and differently."""
    if len({f.text for f in evidence.book.job_numbers}) > 1:
        return  # Several jobs in one book each have their own.
    first: dict[tuple[str, str], Size] = {}
    for size in (s for name in _CONSTANTS for s in evidence.of(name) if s.typed):
        if size.label is None or size.label.position:
            continue
        known = first.setdefault((size.measurand, size.label.text.casefold()), size)
        if not math.isclose(known.si, size.si, rel_tol=1e-6):
            yield Finding(
                "entered-twice",
                size.place,
                f"{size.name} on {size.place.sheet} is {size.shown}; on {known.place.sheet} "
                f"({known.place.address}) it is {known.shown}.",
                "Correct the wrong one, and let one cell refer to the other.",
                (known.place,),
            )


def _job_numbers(evidence: Evidence) -> Iterator[Finding]:
    """A sheet with another job's number, in a book whose sheets refer to each other."""
    book = evidence.book
    linked = {
        (r.place.sheet, a.place.sheet)
        for r in book.records
        for a in r.arguments
        if a.place is not None and a.place.sheet != r.place.sheet
    }
    for n, field in enumerate(book.job_numbers[1:], 1):
        for other in book.job_numbers[:n]:
            if field.text.casefold() == other.text.casefold() or not _linked(field, other, linked):
                continue
            yield Finding(
                "job-number",
                field.place,
                f"{_sheet(field)} gives the job number {field.text}, {_sheet(other)} gives "
                f"{other.text}, and one takes numbers from the other.",
                "See whether the sheet was left from another job, and correct the number.",
                (other.place,) if other.place else (),
            )
            break


def _sheet(field: JobField) -> str:
    return f"sheet {field.place.sheet}" if field.place else "the book"


def _linked(one: JobField, other: JobField, linked: set[tuple[str, str]]) -> bool:
    if one.place is None or other.place is None:
        return False
    here, there = one.place.sheet, other.place.sheet
    return (here, there) in linked or (there, here) in linked

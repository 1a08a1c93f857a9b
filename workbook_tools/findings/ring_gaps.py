"""Ring gaps as fitted against the gap that the book works out from bore and factor."""

from __future__ import annotations

import re
from collections.abc import Iterator

from workbook_tools.books.records import Book, Reading, Record
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.measured import in_si, readings, shown, system_of
from workbook_tools.findings.plausible import find_doubts, sizes
from workbook_tools.findings.siblings import find_slips
from workbook_tools.quantities import LENGTH, READING, from_si

# A gap within these shares of the wanted one is a choice; half and double are slips. Second
# rings may be a half wider than the top ones (common practice), so that they have no most.
_LEAST, _MOST = 0.72, 1.62
_SECOND = re.compile(r"\b(?:second|2nd|oil|rails?)\b", re.IGNORECASE)


def check_ring_gaps(book: Book) -> Iterator[Finding]:
    """A finding for each measured gap that is far from the one that the book wants."""
    wanted = [
        r
        for r in book.records
        if r.function is not None
        and r.function.name == "RING_GAP"
        and isinstance(r.value, (int, float))
    ]
    if not wanted:
        return
    told = {s.reading.place for s in find_slips(book)} | {d.place for d in find_doubts(book)}
    words = sizes()["ring_gap"].label
    for reading in readings(book):
        text = reading.label.text.strip() if reading.label else ""
        if words is None or not words.fullmatch(text) or reading.place in told:
            continue
        if reading.kind not in (None, LENGTH) or any(
            u.parameter.kind is READING for u in reading.uses
        ):
            continue
        finding = _far_from_wanted(reading, text, wanted)
        if finding is not None:
            yield finding


def _far_from_wanted(reading: Reading, text: str, wanted: list[Record]) -> Finding | None:
    value = in_si(reading.number, LENGTH, reading.system)
    gaps = [in_si(float(r.value), LENGTH, system_of(r)) for r in wanted]  # type: ignore[arg-type]
    nearest = min(range(len(gaps)), key=lambda n: abs(gaps[n] - value))
    share = value / gaps[nearest]
    if value <= 0 or (share >= _LEAST and (share <= _MOST or _SECOND.search(text))):
        return None
    record = wanted[nearest]
    goal = from_si(gaps[nearest], LENGTH, reading.system)
    what = "The ring may butt when it is hot" if share < 1 else "More of the gas gets past it"
    return Finding(
        "disagreement",
        reading.place,
        f"{reading.name} is {reading.shown}, {share:.0%} of the "
        f"{shown(float(f'{goal:.4g}'), reading.unit)} that bore and factor give in "
        f"{record.place.address}. {what}.",
        "Measure the gap again, square in its own finished bore, and see whether the factor is "
        "the ring maker's.",
    )

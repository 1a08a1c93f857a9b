"""Two cells that should agree and do not: stated and computed sizes, one item on two sheets."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence

from workbook_tools.books.records import Book, JobField, Place, Reading, Record
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.measured import (
    book_system,
    in_si,
    number_of,
    parameter_of,
    readings,
    resolution,
    rows,
    system_of,
)
from workbook_tools.findings.signs import RATIO_SLACK, STATED_RATIO, by_wanted_ratio
from workbook_tools.quantities import (
    DISPLACEMENT,
    RATIO,
    READING,
    UnreadableText,
    from_si,
    unit_named,
)

# A stated size is rounded, and so are bore and stroke beside it (0.01 in on 3 in is 0.3 %);
# a slip of one digit or one oversize is more than this.
DISPLACEMENT_SLACK = 0.02
_SIZES_SLACK = 0.005
_SIZE_LABEL = re.compile(
    r"(?:engine |total |swept )?(?:displacement|engine size|capacity|swept volume|cubic inches)",
    re.IGNORECASE,
)
# What stays the same through a whole job, whoever asks for it.
_CONSTANTS = ("stroke", "rod_length", "cylinders")


def check_agreement(book: Book) -> Iterator[Finding]:
    """A finding for each pair of cells that should say the same and does not."""
    yield from _stated_displacement(book)
    yield from _stated_ratio(book)
    yield from _twice_entered(book)
    yield from _constants(book)
    yield from _job_numbers(book)


def _computed(book: Book, name: str) -> list[Record]:
    return [
        r
        for r in book.records
        if r.function is not None
        and r.function.name == name
        and isinstance(r.value, (int, float))
        and not isinstance(r.value, bool)
    ]


def _near(records: Sequence[Record], place: Place) -> list[Record]:
    """The records on the same sheet, all of them where there is none."""
    return [r for r in records if r.place.sheet == place.sheet] or list(records)


def _stated_displacement(book: Book) -> Iterator[Finding]:
    computed = _computed(book, "DISPLACEMENT")
    for reading in readings(book) if computed else ():
        stated = _displacement_in_si(reading, book)
        if stated is None:
            continue
        near = _near(computed, reading.place)
        values = [in_si(float(r.value), DISPLACEMENT, system_of(r)) for r in near]  # type: ignore[arg-type]
        # A small engine's size in whole cubic inches is rounded by more than that alone.
        step = min(1.0, resolution([reading.number]))
        slack = max(DISPLACEMENT_SLACK, _SIZES_SLACK + step / 2 / reading.number)
        if any(abs(v / stated - 1) <= slack for v in values):
            continue
        record, value = near[0], values[0]
        system = system_of(record)
        unit = DISPLACEMENT.unit(system)
        yield Finding(
            "disagreement",
            reading.place,
            f"{reading.name} is {reading.shown}, but bore, stroke and cylinders give "
            f"{from_si(value, DISPLACEMENT, system):.4g} {unit} in {record.place.address}, "
            f"{abs(value / stated - 1):.1%} {'more' if value > stated else 'less'}."
            f"{_what_would_fit(record, stated)}",
            "Measure bore and stroke, count the cylinders, and correct what is wrong.",
        )


def _displacement_in_si(reading: Reading, book: Book) -> float | None:
    """What a cell states as the engine's size, None where it states no such thing."""
    if not reading.value or reading.value < 0:
        return None
    if any(u.parameter.kind is DISPLACEMENT for u in reading.uses):
        if any("_FOR_" in u.function for u in reading.uses):
            return None
        return in_si(reading.value, DISPLACEMENT, reading.system)
    if reading.label is None or not _SIZE_LABEL.fullmatch(reading.label.text.strip()):
        return None
    if reading.label.unit:
        try:
            kind, factor = unit_named(reading.label.unit)
        except UnreadableText:
            return None
        return reading.value * factor if kind.si == DISPLACEMENT.si else None
    return in_si(reading.value, DISPLACEMENT, book_system(book))


def _what_would_fit(record: Record, stated: float) -> str:
    """Whether exchanging bore and stroke, or another number of cylinders, gives the size."""
    numbers = {}
    for argument in record.arguments:
        parameter = parameter_of(record, argument)
        if parameter is not None:
            value = number_of(argument, parameter.kind, system_of(record))
            if value is not None:
                numbers[argument.name] = in_si(value, parameter.kind, system_of(record))
    bore, stroke, count = (numbers.get(n, 0.0) for n in ("bore", "stroke", "cylinders"))
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


def _stated_ratio(book: Book) -> Iterator[Finding]:
    computed = _computed(book, "COMPRESSION_RATIO")
    explained = {place for _, place in by_wanted_ratio(book)}
    for reading in readings(book) if computed else ():
        label = reading.label
        if reading.place in explained:
            continue
        if label is None or label.position or not STATED_RATIO.fullmatch(label.text.strip()):
            continue
        if reading.kind not in (None, RATIO) or reading.number <= 1:
            continue
        if any(u.parameter.kind is READING or "_FOR_" in u.function for u in reading.uses):
            continue
        near = _near(computed, reading.place)
        values = [float(r.value) for r in near]  # type: ignore[arg-type]
        low, high = min(values), max(values)
        if low - RATIO_SLACK <= reading.number <= high + RATIO_SLACK:
            continue
        comes = f"{low:.4g}" if high - low < 0.01 else f"{low:.4g} to {high:.4g}"
        yield Finding(
            "disagreement",
            reading.place,
            f"{reading.name} is typed as {reading.value:.4g}; computed from the volumes it is "
            f"{comes} ({near[0].place.address}).",
            "Find out which one was measured; advertised ratios are seldom what is built.",
        )


def _twice_entered(book: Book) -> Iterator[Finding]:
    """A row of readings that stands in the book twice, the same but for one of them."""
    tables: dict[tuple[str, str], list[tuple[Reading, ...]]] = {}
    for row in rows(book):
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
        "disagreement",
        other.place,
        f"{other.name} on {other.place.sheet} is {other.shown}, on {one.place.sheet} "
        f"({one.place.address}) it is {one.shown}; the other {len(pairs) - 1} readings are the "
        "same in both.",
        "Find the first record of this reading, and let one cell refer to the other.",
    )


def _constants(book: Book) -> Iterator[Finding]:
    """One size of the whole engine, entered twice under the same name and differently."""
    if len({f.text for f in book.job_numbers}) > 1:
        return  # Several jobs in one book each have their own.
    first: dict[tuple[str, str], Reading] = {}
    for reading in readings(book):
        label = reading.label
        use = next((u for u in reading.uses if u.parameter.name in _CONSTANTS), None)
        if label is None or label.position or use is None:
            continue
        key = (use.parameter.name, label.text.casefold())
        known = first.setdefault(key, reading)
        values = [in_si(r.number, use.parameter.kind, r.system) for r in (known, reading)]
        if math.isclose(*values, rel_tol=1e-6):
            continue
        yield Finding(
            "disagreement",
            reading.place,
            f"{reading.name} on {reading.place.sheet} is {reading.shown}; on {known.place.sheet} "
            f"({known.place.address}) it is {known.shown}.",
            "Correct the wrong one, and let one cell refer to the other.",
        )


def _job_numbers(book: Book) -> Iterator[Finding]:
    """A sheet with another job's number, in a book whose sheets refer to each other."""
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
                "disagreement",
                field.place,
                f"{_sheet(field)} gives the job number {field.text}, {_sheet(other)} gives "
                f"{other.text}, and one takes numbers from the other.",
                "See whether the sheet was left from another job, and correct the number.",
            )
            break


def _sheet(field: JobField) -> str:
    return f"sheet {field.place.sheet}" if field.place else "the book"


def _linked(one: JobField, other: JobField, linked: set[tuple[str, str]]) -> bool:
    if one.place is None or other.place is None:
        return False
    here, there = one.place.sheet, other.place.sheet
    return (here, there) in linked or (there, here) in linked

"""A missing cylinder: a gap in a row, or fewer readings than cylinders."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from workbook_tools.books.places import spread
from workbook_tools.findings.evidence import (
    Evidence,
    measurands_of,
    number_at,
    of_what,
    spot,
)
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Book, Reading
from workbook_tools.labels.label import Label

_CYLINDER_WORDS = ("cyl", "cylinder", "cylinders")
# Items that there is one of for each cylinder, where no measurand says it.
_OF_CYLINDERS = re.compile(
    r"\b(bore|piston|skirt|chamber|deck|quench|crown|ratio|ring|gap|leak|cranking|compression)s?\b",
    re.IGNORECASE,
)


class _Row(NamedTuple):
    """One item of several cylinders or journals; measurand: "" where nothing says what it is."""

    kind: str
    measurand: str
    places: Sequence[Place]
    labels: Sequence[Label]


def check_cylinders(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each row of readings or results that leaves a cylinder or journal out."""
    told = _told_elsewhere(evidence.book)
    empty = _empty_in_ranges(evidence.book)
    count = _stated_count(evidence)
    seen = set()
    for row in (*_reading_rows(evidence, count), *_result_rows(evidence.book)):
        label = row.labels[0]
        missing = [
            n
            for n in _missing(row, count)
            if (label.text.casefold(), n) not in told and _cell_of(row, n) not in empty
        ]
        key = (row.places[0].sheet, label.text.casefold(), tuple(missing))
        if not missing or key in seen:
            continue
        seen.add(key)
        which = ", ".join(str(n) for n in missing)
        word = re.sub(r"[\d\W]+", " ", label.position).strip() or "number"
        theirs = [_cell_of(row, n) for n in missing]
        cells = [cell for cell in theirs if cell is not None and cell not in evidence.by_place]
        where = f" ({', '.join(cell.address for cell in cells)})" if cells else ""
        yield Finding(
            "missing-cylinder",
            cells[0] if cells else row.places[-1],
            f"{label.text} has {len(row.labels)} {row.kind} ({row.places[0].address} to "
            f"{row.places[-1].address}); there is none for {word} {which}{where}.",
            "Measure and enter what is missing, or say in the book why there is none.",
            tuple(cells[1:]) if cells else tuple(row.places[:-1]),
        )


def _told_elsewhere(book: Book) -> set[tuple[str, int]]:
    """Items and positions that other checks tell of: empty, unreadable or typed over.

    And those whose cell has words beside its number: "3.9055 (was 3.9049)" is there.
    """
    told = {(r.label.text.casefold(), r.part.number) for r in book.readings
            if r.label and r.part.number and r.measurand}  # fmt: skip
    for record in book.records:
        blamed = record.blamed
        labels = [record.label] if record.problem or record.missing else []
        labels += [
            a.label for a in record.arguments if a.value is None or a.problem or a.name == blamed
        ]
        for label in labels:
            number = _position_number(label.position) if label else None
            if label is not None and number is not None:
                told.add((label.text.casefold(), number))
    for typed in book.typed_over:
        number = _position_number(typed.label.position) if typed.label else None
        if typed.label and number is not None:
            told.add((typed.label.text.casefold(), number))
    return told


def _empty_in_ranges(book: Book) -> set[Place]:
    """The empty cells of ranges for which a call has no result: each is told as such."""
    return {
        cell
        for record in book.records if record.missing
        for argument in record.arguments if argument.place and argument.name == record.blamed
        for cell, value in spread(argument.place, argument.value) if value in (None, "")
    }  # fmt: skip


def _cell_of(row: _Row, number: int) -> Place | None:
    """The cell where a row has the reading of a number, by the steps between its others."""
    numbers = [_position_number(label.position) for label in row.labels]
    at = {n: spot(place) for n, place in zip(numbers, row.places, strict=True) if n is not None}
    if len(at) < 2:
        return None
    first, second = sorted(at, key=lambda n: abs(n - number))[:2]
    ahead, apart = number - first, second - first
    steps = [(b - a) * ahead / apart for a, b in zip(at[first], at[second], strict=True)]
    there = [a + step for a, step in zip(at[first], steps, strict=True)]
    if any(place != int(place) or place < 1 for place in there):
        return None
    return Place.at(row.places[0].sheet, int(there[0]), int(there[1]))


def _stated_count(evidence: Evidence) -> int:
    """How many cylinders the book says there are, 0 where it disagrees or says nothing."""
    counts = {int(t.number) for t in evidence.taken
              if t.argument.name == "cylinders" and t.number == int(t.number)}  # fmt: skip
    return counts.pop() if len(counts) == 1 else 0


@lru_cache(maxsize=4096)
def _position_number(position: str) -> int | None:
    # L1 to L4 and R1 to R4 number each bank anew.
    of_bank = re.fullmatch(r"[LRAB]\s?\d+|\d+\s?[LRAB]", position.strip())
    return None if of_bank else number_at(position)


def _missing(row: _Row, count: int) -> list[int]:
    """The positions that a row leaves out: between its own, and up to the cylinders' count."""
    numbers = [_position_number(label.position) for label in row.labels]
    here = {n for n in numbers if n is not None}
    if None in numbers or len(here) < 3:
        return []
    last = max(here)
    if count and _is_of_cylinders(row) and len(here) * 2 > count:
        last = max(last, count)
    gaps = [n for n in range(1, last + 1) if n not in here]
    # Banks that are numbered odd and even leave out every other.
    if not gaps or {b - a for a, b in pairwise(sorted(here))} == {2}:
        return []
    # A table may start anywhere and leave much out; a slip leaves out one or two.
    most = len(here) // 2 if last == count else max(1, len(here) // 3)
    return gaps if len(gaps) <= most else []


def _is_of_cylinders(row: _Row) -> bool:
    return _tells_cylinders(of_what(row.labels[0].position), row.labels[0].text, row.measurand)


@lru_cache(maxsize=4096)
def _tells_cylinders(word: str, text: str, measurand: str) -> bool:
    """Whether what a row numbers, its label or what it measures says that it is of cylinders."""
    measures = measurands_of(measurand)
    if word or not measures:
        named_so = not word and _OF_CYLINDERS.search(text) is not None
        return word in _CYLINDER_WORDS or named_so
    return all(m.of in ("cylinder", "ring") for m in measures)


def _reading_rows(evidence: Evidence, count: int) -> Iterator[_Row]:
    lone: dict[tuple[str, int, str], list[Reading]] = {}
    for reading in evidence.readings:
        label = reading.label
        if label is not None and not label.position:
            line = reading.place.sheet, spot(reading.place)[0], label.text
            lone.setdefault(line, []).append(reading)
    for row in evidence.rows:
        labels = [r.label for r in row if r.label is not None]
        if len({label.text for label in labels}) == 1 and len(labels) == len(row):
            # A cell that is typed over belongs to the results of its row.
            places = [r.place for r in row]
            beside = lone.get((places[0].sheet, spot(places[0])[0], labels[0].text), [])
            cut_off = _cut_off(places, labels, beside, count)
            found = sorted([*zip(places, labels, strict=True), *cut_off], key=lambda f: spot(f[0]))
            yield _Row("readings", row[0].measurand, *zip(*found, strict=True))


def _result_rows(book: Book) -> Iterator[_Row]:
    results: dict[tuple[str, str, str, str], list[tuple[Place, Label]]] = {}
    for record in book.records:
        if record.label is None or not record.label.position or record.name.endswith("VERDICT"):
            continue
        if record.computed_by_batch:
            continue  # From readings that have their own rows.
        key = (
            record.place.sheet, record.name, record.label.text, of_what(record.label.position),
        )  # fmt: skip
        results.setdefault(key, []).append((record.place, record.label))
    for found in results.values():
        yield _Row("results", "", *zip(*found, strict=True))


def _cut_off(
    places: Sequence[Place], labels: Sequence[Label], beside: Sequence[Reading], count: int
) -> Iterator[tuple[Place, Label]]:
    """The readings of a row whose own number is cut off from the others by an empty column.

    A lone number above a column is no head by itself; where it stands tells its number.
    """
    if not beside:
        return
    numbers = [_position_number(label.position) for label in labels]
    columns = [spot(place) for place in places]
    if None in numbers or len({row for row, _ in columns}) != 1:
        return
    starts = {column - number for (_, column), number in zip(columns, numbers, strict=True)}  # type: ignore[operator]
    if len(starts) != 1:
        return
    start, most = starts.pop(), max(count, *(n for n in numbers if n is not None))
    for reading in beside:
        number = spot(reading.place)[1] - start
        if reading.place not in places and 1 <= number <= most:
            position = re.sub(r"\d+", str(number), labels[0].position)
            yield reading.place, labels[0]._replace(position=position)

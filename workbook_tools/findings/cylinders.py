"""A missing cylinder: a gap in a row, fewer readings than cylinders, a range cut short."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from workbook_tools.books.places import cells_of
from workbook_tools.books.records import Book, Label, Place, Reading
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.measured import (
    named,
    number_at,
    of_what,
    parameter_of,
    readings,
    rows,
    spot,
)

_CYLINDER_WORDS = ("cyl", "cylinder", "cylinders")
# Items that there is one of for each cylinder, whatever numbers the row.
_OF_CYLINDERS = re.compile(
    r"\b(bore|piston|skirt|chamber|deck|quench|crown|ratio|ring|gap|leak|cranking|compression)s?\b",
    re.IGNORECASE,
)


def check_cylinders(book: Book) -> Iterator[Finding]:
    """A finding for each row of readings or results that leaves a cylinder or journal out."""
    told = _told_elsewhere(book)
    count = _stated_count(book)
    seen = set()
    for kind, places, labels in _rows(book, count):
        numbers = [_position_number(label.position) for label in labels]
        if None in numbers or len(set(numbers)) < 3:
            continue
        missing = _missing([n for n in numbers if n is not None], labels[0], count)
        missing = [n for n in missing if (labels[0].text.casefold(), n) not in told]
        key = (places[0].sheet, labels[0].text.casefold(), tuple(missing))
        if not missing or key in seen:
            continue
        seen.add(key)
        which = ", ".join(str(n) for n in missing)
        word = re.sub(r"[\d\W]+", " ", labels[0].position).strip() or "number"
        yield Finding(
            "missing reading",
            places[-1],
            f"{labels[0].text} has {len(numbers)} {kind} ({places[0].address} to "
            f"{places[-1].address}); there is none for {word.lower()} {which}.",
            "Measure and enter what is missing, or say in the book why there is none.",
        )
    yield from _cut_short(book)


def _told_elsewhere(book: Book) -> set[tuple[str, int]]:
    """Items and positions that other checks tell of: empty, unreadable or typed over.

    And those whose cell has words beside its number: "3.9055 (was 3.9049)" is there.
    """
    told = {(r.label.text.casefold(), r.part.number) for r in (*book.readings, *book.missing)
            if r.label and r.part.number and r.measurand}  # fmt: skip
    for record in book.records:
        labels = [record.label] if record.problem or record.missing else []
        labels += [a.label for a in record.arguments if a.problem or a.name == record.blamed]
        labels += [a.label for a in record.arguments if a.value is None]
        for label in labels:
            number = _position_number(label.position) if label else None
            if label is not None and number is not None:
                told.add((label.text.casefold(), number))
    for typed in book.typed_over:
        number = _position_number(typed.label.position)
        if number is not None:
            told.add((typed.label.text.casefold(), number))
    return told


def _stated_count(book: Book) -> int:
    """How many cylinders the calls are told there are, 0 where they disagree or say nothing."""
    counts = {
        int(a.value)
        for r in book.records
        for a in r.arguments
        if a.name == "cylinders" and isinstance(a.value, (int, float)) and a.value == int(a.value)
    }
    return counts.pop() if len(counts) == 1 else 0


@lru_cache(maxsize=4096)
def _position_number(position: str) -> int | None:
    # L1 to L4 and R1 to R4 number each bank anew.
    of_bank = re.fullmatch(r"[LRAB]\s?\d+|\d+\s?[LRAB]", position.strip())
    return None if of_bank else number_at(position)


def _missing(numbers: Sequence[int], label: Label, count: int) -> list[int]:
    """The positions that a row leaves out: between its own, and up to the cylinders' count."""
    here = set(numbers)
    steps = {b - a for a, b in zip(sorted(here), sorted(here)[1:], strict=False)}
    last = max(here)
    word = of_what(label.position)
    cylinders = word in _CYLINDER_WORDS or (not word and _OF_CYLINDERS.search(label.text))
    if steps == {2}:
        return []  # One bank of two that are numbered odd and even.
    if count and cylinders and len(here) * 2 > count:
        last = max(last, count)
    gaps = [n for n in range(1, last + 1) if n not in here]
    # A table may start anywhere and leave much out; a slip leaves out one or two.
    most = len(here) // 2 if last == count else max(1, len(here) // 3)
    return gaps if len(gaps) <= most else []


def _rows(book: Book, count: int) -> Iterator[tuple[str, list[Place], list[Label]]]:
    lone: dict[tuple[str, int, str], list[Reading]] = {}
    for reading in readings(book):
        label = reading.label
        if label is not None and not label.position:
            line = reading.place.sheet, spot(reading.place)[0], label.text
            lone.setdefault(line, []).append(reading)
    for row in rows(book):
        labels = [r.label for r in row if r.label is not None]
        if len({label.text for label in labels}) == 1 and len(labels) == len(row):
            # A cell that is typed over belongs to the results of its row.
            places = [r.place for r in row]
            beside = lone.get((places[0].sheet, spot(places[0])[0], labels[0].text), [])
            cut_off = _cut_off(places, labels, beside, count)
            found = sorted([*zip(places, labels, strict=True), *cut_off], key=lambda f: spot(f[0]))
            yield "readings", [p for p, _ in found], [label for _, label in found]
    results: dict[tuple[str, str, str, str], list[tuple[Place, Label]]] = {}
    for record in book.records:
        if record.label is None or not record.label.position or record.name.endswith("VERDICT"):
            continue
        if not record.place.address:
            continue  # Computed by the batch, from readings that have their own rows.
        key = (
            record.place.sheet, record.name, record.label.text, of_what(record.label.position),
        )  # fmt: skip
        results.setdefault(key, []).append((record.place, record.label))
    for found in results.values():
        yield "results", [p for p, _ in found], [label for _, label in found]


def _cut_off(
    places: Sequence[Place], labels: Sequence[Label], beside: Sequence[Reading], count: int
) -> Iterator[tuple[Place, Label]]:
    """The readings of a row whose own number is cut off from the others by an empty column.

    A lone number above a column is no head by itself; where it stands tells its number.
    """
    numbers = [_position_number(label.position) for label in labels]
    columns = [spot(place) for place in places]
    if not beside or None in numbers or len({row for row, _ in columns}) != 1:
        return
    starts = {column - number for (_, column), number in zip(columns, numbers, strict=True)}  # type: ignore[operator]
    if len(starts) != 1:
        return
    start, most = starts.pop(), max(count, *(n for n in numbers if n is not None))
    for reading in beside:
        number = spot(reading.place)[1] - start
        if reading.place not in places and 1 <= number <= most:
            position = re.sub(r"\d+", str(number), labels[0].position)
            yield reading.place, replace(labels[0], position=position)


def _cut_short(book: Book) -> Iterator[Finding]:
    """Ranges that stop one reading before the end of a row that they take the rest of."""
    by_place = {r.place: r for r in readings(book)}
    covered: dict[str, set[Place]] = {}
    blocks = []
    for record in book.records:
        for argument in record.arguments:
            parameter = parameter_of(record, argument)
            if argument.place is None or parameter is None or not parameter.block:
                continue
            cells = cells_of(argument.place)
            covered.setdefault(record.name, set()).update(cells)
            blocks.append((record, argument.place, cells))
    seen = set()
    for record, place, cells in blocks:
        if len(cells) < 3 or (place, record.name) in seen:
            continue
        seen.add((place, record.name))
        for beyond in _beyond(by_place, cells):
            if beyond.place in covered[record.name]:
                continue
            yield Finding(
                "missing reading",
                record.place,
                f"{named(record.label, record.place)} takes {place.address} and leaves out "
                f"{beyond.name}, {beyond.shown}, of the same row.",
                "Let the range reach over all readings, and count them anew.",
            )


def _beyond(by_place: dict[Place, Reading], cells: Sequence[Place]) -> Iterator[Reading]:
    """The readings right before and after a range that belong to the same row of siblings."""
    first, last = spot(cells[0]), spot(cells[-1])
    if first[0] != last[0] and first[1] != last[1]:
        return
    step = (0, 1) if first[0] == last[0] else (1, 0)
    ends = (
        (cells[0], first[0] - step[0], first[1] - step[1]),
        (cells[-1], last[0] + step[0], last[1] + step[1]),
    )
    at = {(p.sheet, *spot(p)): r for p, r in by_place.items()}
    for edge, row, column in ends:
        inside, outside = by_place.get(edge), at.get((edge.sheet, row, column))
        if inside is None or outside is None or inside.label is None or outside.label is None:
            continue
        numbers = _position_number(inside.label.position), _position_number(outside.label.position)
        if inside.label.text != outside.label.text or None in numbers:
            continue
        if of_what(inside.label.position) != of_what(outside.label.position):
            continue
        if abs(numbers[0] - numbers[1]) == 1:  # type: ignore[operator]
            yield outside

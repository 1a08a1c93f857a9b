"""What the jobs of one file have of the same thing, as in a log of a job a row."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from workbook_tools.books.places import order_of
from workbook_tools.jobs.records import Beside, Book, Reading
from workbook_tools.measurands import Stage
from workbook_tools.quantities import System

_Key = tuple[str, str, Stage]
# A column by its sheet, and what it holds of one job, in which system.
_Column = tuple[str, int]
_Held = tuple[str, str, Stage, System]


def beside(books: Sequence[Book]) -> Iterator[tuple[Beside, ...]]:
    """For each job of a file what the others have for each of its readings that stands alone."""
    own = [_alone(book) for book in books]
    values: dict[_Key, list[float]] = defaultdict(list)
    for readings in own:
        for key, si in readings.items():
            values[key].append(si)
    for ordered in values.values():
        ordered.sort()
    columns = _columns(books)
    for book, readings in zip(books, own, strict=True):
        yield tuple(_not_understood(book, columns)) + tuple(
            Beside(
                *key,
                many=len(ordered) - 1,
                least=ordered[1] if si == ordered[0] else ordered[0],
                most=ordered[-2] if si == ordered[-1] else ordered[-1],
            )
            for key, si in readings.items()
            if len(ordered := values[key]) > 1
        )


def _columns(books: Sequence[Book]) -> Mapping[_Column, Mapping[_Held, Sequence[float]]]:
    """What each column of a file's sheets holds, by what it is, in SI."""
    found: dict[_Column, dict[_Held, list[float]]] = defaultdict(lambda: defaultdict(list))
    for reading in (r for book in books for r in book.readings if r.state == "read"):
        if reading.si is not None and reading.kind is not None:
            held = reading.measurand, reading.part.which, reading.stage, reading.system
            found[_column(reading)][held].append(reading.si)
    return found


def _column(reading: Reading) -> _Column:
    sheet, _, column = order_of(reading.place)
    return sheet, column


def _not_understood(
    book: Book, columns: Mapping[_Column, Mapping[_Held, Sequence[float]]]
) -> Iterator[Beside]:
    """What a job's numbers that fit nothing would be, where their column is that of all others."""
    for reading in book.readings:
        held = columns.get(_column(reading), {}) if reading.state == "not understood" else {}
        if len(held) == 1 and book.part:
            (measurand, which, stage, system), values = next(iter(held.items()))
            least, most = min(values), max(values)
            cell = reading.place
            yield Beside(measurand, which, stage, len(values), least, most, cell, system)


def _alone(book: Book) -> dict[_Key, float]:
    """The readings of a job that are the only one of what they measure."""
    found: dict[_Key, list[Reading]] = defaultdict(list)
    for reading in book.readings:
        if reading.measurand and reading.state in ("read", "asked"):
            key = reading.measurand, reading.part.which, reading.stage
            found[key].append(reading)
    single = ((key, several[0].si) for key, several in found.items() if len(several) == 1)
    return {key: si for key, si in single if si is not None}

"""What the jobs of one file have of the same thing, as in a log of a job a row."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from workbook_tools.jobs.records import Beside, Book, Reading
from workbook_tools.measurands import Stage

_Key = tuple[str, str, Stage]


def beside(books: Sequence[Book]) -> Iterator[tuple[Beside, ...]]:
    """For each job of a file what the others have for each of its readings that stands alone."""
    own = [_alone(book) for book in books]
    values: dict[_Key, list[float]] = defaultdict(list)
    for readings in own:
        for key, si in readings.items():
            values[key].append(si)
    for ordered in values.values():
        ordered.sort()
    for readings in own:
        yield tuple(
            Beside(
                *key,
                many=len(ordered) - 1,
                least=ordered[1] if si == ordered[0] else ordered[0],
                most=ordered[-2] if si == ordered[-1] else ordered[-1],
            )
            for key, si in readings.items()
            if len(ordered := values[key]) > 1
        )


def _alone(book: Book) -> dict[_Key, float]:
    """The readings of a job that are the only one of what they measure."""
    found: dict[_Key, list[Reading]] = defaultdict(list)
    for reading in book.readings:
        if reading.measurand and reading.state in ("read", "asked"):
            key = reading.measurand, reading.part.which, reading.stage
            found[key].append(reading)
    single = ((key, several[0].si) for key, several in found.items() if len(several) == 1)
    return {key: si for key, si in single if si is not None}

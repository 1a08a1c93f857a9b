"""What kept books come to, as plain values to compare between releases."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from workbook_tools.catalog import CellError
from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.layout import layouts_of

# (book, sheet, cell, position, function, which of these there). What the batch computes of a book
# without formulas stands in no cell: only such results are told apart by their position.
Key = tuple[str, str, str, str, str, int]


def kept_results(folder: Path) -> dict[Key, list[object]]:
    """{key: [value, unit, state, saved]} of every result of the books in a folder."""
    found: dict[Key, list[object]] = {}
    paths = sorted(p for p in folder.rglob("*") if p.suffix in (".xlsx", ".ods"))
    layouts = layouts_of(paths, [folder])
    for path in paths:
        name = path.relative_to(folder).as_posix()
        seen: Counter[tuple[str, ...]] = Counter()
        for book in read_jobs(path, layouts.get(path)):
            for r in book.records:
                position = "" if r.place.address or r.label is None else r.label.position
                at = (name, r.place.sheet, r.place.address, position, r.name)
                found[*at, seen[at]] = [_plain(r.value), r.unit, r.state, _plain(r.saved)]
                seen[at] += 1
    return found


def _plain(value: object) -> object:
    if isinstance(value, tuple):
        return [_plain(part) for part in value]
    return value.text if isinstance(value, CellError) else value

"""What books hold as pandas frames: a row for each reading and result, a row for each finding."""

from __future__ import annotations

import csv
import io
import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path

import pandas as pd

from workbook_tools.batch.batch import read_builds
from workbook_tools.batch.build import Build, Wanted
from workbook_tools.batch.cache import usual_folder
from workbook_tools.labels.layout import Layout, read_layout
from workbook_tools.render.data import neutral
from workbook_tools.summary.data_rows import FINDING_COLUMNS, READING_COLUMNS

Paths = str | os.PathLike[str] | Iterable[str | os.PathLike[str]]

# Said of the build in each row, before what is said of the reading or finding.
_OF_THE_BUILD = ("path", "engine", "builder", "finished")


def readings_frame(
    paths: Paths, *, layout: str | os.PathLike[str] | None = None, processes: int = 0
) -> pd.DataFrame:
    """Every reading and result of the books in files and folders, one row each.

    paths: a book, a folder of books, or several of them; layout: a layout.toml for all of
    them, where it is not beside them; processes: as many read books at once, 0 for this one
    alone. The columns: path, engine, builder and finished (a date, NaT where the book says
    none) of the build, then those of readings.csv. value is as the book has it, in unit; si
    is the same in SI units; state tells what was read ("read") from what was computed anew
    ("same", "computed", "stale" and so on) and from what is missing. Books that cannot be read
    are listed in frame.attrs["unread"], as (path, reason). Raises NoBooks where there are no
    books, LayoutError for a layout that cannot be followed.
    """
    return _frame(paths, layout, processes, READING_COLUMNS, lambda build: build.readings_csv)


def findings_frame(
    paths: Paths, *, layout: str | os.PathLike[str] | None = None, processes: int = 0
) -> pd.DataFrame:
    """Every finding on the books in files and folders, one row each.

    Parameters, errors and the first columns are those of readings_frame, then those of
    findings.csv: code and kind, sheet and cell, the message and what settles it.
    """
    return _frame(paths, layout, processes, FINDING_COLUMNS, lambda build: build.findings_csv)


def _frame(
    paths: Paths,
    layout: str | os.PathLike[str] | None,
    processes: int,
    columns: Sequence[str],
    table: Callable[[Build], str],
) -> pd.DataFrame:
    one = isinstance(paths, (str, os.PathLike))
    named = [Path(paths)] if one else [Path(path) for path in paths]  # type: ignore[arg-type, union-attr]
    own: Layout | None = read_layout(Path(layout)) if layout is not None else None
    with read_builds(named, Wanted(own, kinds=()), jobs=processes, cache=usual_folder()) as batch:
        rows = [
            (*_of_the_build(path, build), *row)
            for n, (path, build) in enumerate(zip(batch.paths, batch.builds, strict=True))
            for row in _rows(table(batch.whole(n)))
        ]
    frame = pd.DataFrame(rows, columns=[*_OF_THE_BUILD, *columns])
    frame["finished"] = pd.to_datetime(frame["finished"], errors="coerce", format="ISO8601")
    for name in frame.columns.intersection(["value", "si"]):
        frame[name] = pd.to_numeric(frame[name], errors="coerce")
    if columns == READING_COLUMNS:
        # Of a finding it is a text: D1.
        frame["number"] = pd.to_numeric(frame["number"], errors="coerce").astype("Int64")
    frame.attrs["unread"] = [(str(path), why) for path, why in batch.unread]
    return frame


def _of_the_build(path: Path, build: Build) -> tuple[str, ...]:
    job = build.job
    return (str(path), job.engine.text, job.builder.text, job.finished.text)


def _rows(table: str) -> Iterator[list[object]]:
    """The rows of a table of a batch, texts as the book has them."""
    for row in csv.reader(io.StringIO(table), quoting=csv.QUOTE_NONNUMERIC):
        yield [_as_typed(cell) if isinstance(cell, str) else cell for cell in row]


def _as_typed(cell: str) -> str:
    return cell[1:] if cell.startswith("'") and neutral(cell[1:]) == cell else cell

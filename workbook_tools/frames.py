"""What books hold as pandas frames: a row for each reading and result, a row for each finding."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

import pandas as pd

from workbook_tools.api import AnyPath, given_layout, listed, shop_of
from workbook_tools.batch.batch import read_builds
from workbook_tools.batch.build import Build, Tables, Wanted
from workbook_tools.kept_files import usual_folder
from workbook_tools.summary.data_rows import FINDING_COLUMNS, READING_COLUMNS, Rows

# Said of the build in each row, before what is said of the reading or finding.
_OF_THE_BUILD = ("path", "engine", "builder", "finished")


def readings_frame(
    paths: AnyPath | Iterable[AnyPath],
    *,
    layout: AnyPath | None = None,
    shop: AnyPath | None = None,
    processes: int = 0,
) -> pd.DataFrame:
    """Every reading and result of the books in files and folders, one row each.

    paths: a book, a folder of books, or several of them; layout, shop: a layout.toml and a
    shop.toml for all of them, in place of those found for them; processes: as many read books
    at once, 0 for this one alone. The columns: path, engine, builder and finished (a date, NaT
    where the book says none) of the build, then those of readings.csv. value is as the book has
    it, in unit; si is the same in SI units; state tells what was read ("read") from what was
    computed anew ("same", "computed", "stale" and so on) and from what is missing. Books that
    cannot be read are listed in frame.attrs["unread"], as (path, reason). Raises NoBooks where
    there are no books, LayoutError, ShopError and TableError for settings that cannot be used.

    >>> frame = readings_frame("example_books/inch_v8.xlsx")
    >>> frame[frame["measurand"] == "stroke"][["cell", "value", "unit"]].values.tolist()
    [['B11', 3.41, 'in']]
    """
    return _frame(paths, layout, shop, processes, READING_COLUMNS, lambda tables: tables.readings)


def findings_frame(
    paths: AnyPath | Iterable[AnyPath],
    *,
    layout: AnyPath | None = None,
    shop: AnyPath | None = None,
    processes: int = 0,
) -> pd.DataFrame:
    """Every finding on the books in files and folders, one row each.

    Parameters, errors and the first columns are those of readings_frame, then those of
    findings.csv: code and kind, sheet and cell, the message and what settles it.
    """
    return _frame(paths, layout, shop, processes, FINDING_COLUMNS, lambda tables: tables.findings)


def _frame(
    paths: AnyPath | Iterable[AnyPath],
    layout: AnyPath | None,
    shop: AnyPath | None,
    processes: int,
    columns: Sequence[str],
    table: Callable[[Tables], Rows],
) -> pd.DataFrame:
    named = listed(paths)
    with shop_of(named, shop) as of_books:
        wanted = Wanted(given_layout(layout), of_books, kinds=(), rows=True)
        with read_builds(named, wanted, jobs=processes, cache=usual_folder()) as batch:
            rows = [
                (*_of_the_build(path, build), *row)
                for n, (path, build) in enumerate(zip(batch.paths, batch.builds, strict=True))
                if (tables := batch.whole(n).tables) is not None
                for row in table(tables)
            ]
    frame = pd.DataFrame(rows, columns=[*_OF_THE_BUILD, *columns])
    frame["finished"] = pd.to_datetime(frame["finished"], errors="coerce", format="ISO8601")
    for name in frame.columns.intersection(["value", "si"]):
        # TRUE in a cell is no 1.
        numbers = frame[name].where(~frame[name].map(lambda value: isinstance(value, bool)))
        frame[name] = pd.to_numeric(numbers, errors="coerce")
    if columns == READING_COLUMNS:
        # Of a finding it is a text: D1.
        frame["number"] = pd.to_numeric(frame["number"], errors="coerce").astype("Int64")
    frame.attrs["unread"] = [(str(path), why) for path, why in batch.unread]
    return frame


def _of_the_build(path: Path, build: Build) -> tuple[str, ...]:
    job = build.job
    return (str(path), job.engine.text, job.builder.text, job.finished.text)

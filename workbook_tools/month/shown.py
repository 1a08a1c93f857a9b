"""A month's tables as they are shown: each cell its text, and the value that it sorts by."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import Literal, overload

import pandas as pd

from workbook_tools.batch.row_file import RowFile
from workbook_tools.month.fit_points import FitSeries
from workbook_tools.month.tables import FIT_MEANS, Month, mean_rows

Style = Literal["text", "count", "day", "figure"]
# Of a table what a person prints; its CSV file and the worksheet have all. A month of fourteen
# builds stays within a dozen pages by it.
ROWS_IN_PRINT = 200
PRINT_ROWS = {"fits": 70, "findings": 50, "parts": 60, "signatures": 40, "unsettled": 40}
# Rows of one table that a page or a worksheet still shows well; its CSV file has all.
ROWS_SHOWN = 5_000
# Tables that are there to be looked up, and are not printed.
ON_SCREEN = ("paperwork", "fit-means")


@dataclass(frozen=True)
class ShownColumn:
    """A column: the table's own name for it, its head, and what stands in it."""

    name: str
    head: str
    style: Style = "text"


@dataclass(frozen=True, slots=True)
class ShownCell:
    """value: a number, a day, a text, or None where the book says nothing; link: or ""."""

    text: str
    value: float | int | str | datetime.date | None
    link: str = ""

    @property
    def sort(self) -> str:
        """What a page sorts by: numbers and days as they count, texts whatever their case."""
        if self.value is None:
            return ""
        if isinstance(self.value, (int, float)):
            return f"{self.value:.12g}"
        return str(self.value).casefold()


class ShownRows(Sequence[tuple[ShownCell, ...]]):
    """The rows of a table as they are shown, made whenever they are asked for.

    table: of as many rows; columns: those of them that are shown; links: the page of a build by
    its number.
    """

    def __init__(
        self, table: pd.DataFrame, columns: Sequence[ShownColumn], links: Mapping[int, str]
    ) -> None:
        self._table, self._columns, self._links = table, columns, links
        self._names = [str(name) for name in table.columns]

    def __len__(self) -> int:
        return len(self._table)

    @overload
    def __getitem__(self, at: int) -> tuple[ShownCell, ...]: ...
    @overload
    def __getitem__(self, at: slice) -> ShownRows: ...
    def __getitem__(self, at: int | slice) -> tuple[ShownCell, ...] | ShownRows:
        if isinstance(at, slice):
            return ShownRows(self._table.iloc[at], self._columns, self._links)
        return self._row(self._table.iloc[at])

    def __iter__(self) -> Iterator[tuple[ShownCell, ...]]:
        return map(self._row, self._table.itertuples(index=False, name=None))

    def _row(self, values: Iterable[object]) -> tuple[ShownCell, ...]:
        row = dict(zip(self._names, values, strict=True))
        return tuple(_cell(column, row, self._links) for column in self._columns)


@dataclass(frozen=True)
class ShownTable:
    """A table with its title, what it means, and what is said where it has no rows.

    print_rows: as many as are printed; total: how many the table has, of which rows are the
    first, 0 where they are all.
    """

    key: str
    title: str
    note: str
    nothing: str
    columns: tuple[ShownColumn, ...]
    rows: Sequence[tuple[ShownCell, ...]]
    print_rows: int = ROWS_IN_PRINT
    total: int = 0

    @property
    def printed(self) -> bool:
        """Whether it is printed at all."""
        return self.key not in ON_SCREEN

    @property
    def more(self) -> int:
        """How many rows a print leaves out."""
        return max(0, self.count - self.print_rows)

    @property
    def count(self) -> int:
        """How many rows the table has, shown or not."""
        return max(self.total, len(self.rows))

    @property
    def hidden(self) -> int:
        """How many rows stand in its CSV file alone."""
        return self.count - len(self.rows)


def _columns(*columns: str | tuple[str, str] | tuple[str, str, Style]) -> tuple[ShownColumn, ...]:
    made = []
    for column in columns:
        if isinstance(column, str):
            made.append(ShownColumn(column, column[0].upper() + column[1:]))
        else:
            name, head, *style = column
            made.append(ShownColumn(name, head, style[0] if style else "text"))
    return tuple(made)


_COUNT: Style = "count"
_BUILDS = _columns(
    "job", "customer", "engine", "engine kind", "builder", ("started", "Started", "day"),
    ("promised", "Promised", "day"), ("finished", "Finished", "day"), ("days", "Days", _COUNT),
    ("late", "Days late", _COUNT), ("hours", "Hours", _COUNT), "state",
    ("findings", "Findings", _COUNT), ("accepted", "Accepted", _COUNT),
    ("out of band", "Out of band", _COUNT), ("missing", "Missing", _COUNT),
    ("unsigned", "Unsigned", _COUNT), ("open items", "Still open"), "file",
)  # fmt: skip
_OPEN = _columns(
    "job", "customer", "engine", "builder", ("started", "Started", "day"),
    ("age", "Age, days", _COUNT), ("promised", "Promised", "day"), ("late", "Days late", _COUNT),
    ("waiting for", "Waits for"), ("findings", "Findings", _COUNT),
    ("unsigned", "Unsigned", _COUNT), ("hours", "Hours", _COUNT), "note", "file",
)  # fmt: skip
_MONTHS = _columns(
    "month", ("builds", "Finished", _COUNT), ("days", "Days, mean", _COUNT),
    ("late", "Late", _COUNT), ("hours", "Hours", _COUNT), ("findings", "Findings", _COUNT),
    ("out of band", "Out of band", _COUNT), ("missing", "Missing", _COUNT),
    ("unsigned", "Unsigned", _COUNT),
)  # fmt: skip
_POWER = _columns(
    "job", "engine kind", ("finished", "Finished", "day"), ("power", "Best power", "figure"),
    ("power unit", "Unit"), ("power at", "At rpm", _COUNT), ("torque", "Best torque", "figure"),
    ("torque unit", "Unit"), ("torque at", "At rpm", _COUNT), ("corrected", "Corrected to"), "file",
)  # fmt: skip
_FITS = _columns(
    "fit", "engine kind", ("builds", "Builds", _COUNT), ("readings", "Readings", _COUNT),
    ("mean", "Mean", "figure"), ("spread", "Standard deviation", "figure"),
    ("least", "Least", "figure"), "least in", ("largest", "Largest", "figure"),
    "largest in", "unit", ("outside", "Outside band", _COUNT),
    ("low limit", "Lower limit", "figure"), ("high limit", "Upper limit", "figure"), "noticed",
)  # fmt: skip
_FIT_MEANS = _columns(
    "fit", "engine kind", "job", "finished", ("readings", "Readings", _COUNT),
    ("least", "Least", "figure"), ("mean", "Mean", "figure"), ("largest", "Largest", "figure"),
    ("center", "Mean of builds", "figure"), ("low limit", "Lower limit", "figure"),
    ("high limit", "Upper limit", "figure"), "unit", ("outside", "Outside band", _COUNT),
    ("above", "Largest above the mean", "figure"), ("below", "Least below the mean", "figure"),
)  # fmt: skip
_FINDINGS = _columns("job", "kind", "message", ("advice", "To do"), "sheet", "cell", "file")
_PARTS = _columns("job", "customer", "part", ("the book says", "The book says"), "sheet", "cell")
_SIGNATURES = _columns(
    "job", "customer", ("line", "Line without a name"), ("empty", "Empty", _COUNT), ("of", "Of"),
    "sheet", "cells", "file",
)  # fmt: skip
_PAPERWORK = _columns("job", "standing", "parts", "signatures", "file")
_UNSETTLED = _columns("job", "what", "why", "file")
# Columns of what few books say, left out where none of a table's does.
_OPTIONAL = (
    "hours", "accepted", "open items", "low limit", "high limit", "noticed", "promised", "late",
    "note", "customer", "waiting for", "unsigned",
)  # fmt: skip


def shown_tables(month: Month, links: Mapping[int, str] | None = None) -> tuple[ShownTable, ...]:
    """The month's tables in the order in which an office reads them.

    links: the page of a build by its number in the tables, where there is one. Raises nothing.
    """
    day = month.last_day
    pages = links or {}
    several = (
        _shown(
            "months", "Month by month", month.months, _MONTHS, pages,
            "By the date on which a job was finished.", "",
        ),
    )  # fmt: skip
    return (
        *(several if month.period.is_range else ()),
        _shown(
            "builds", "Builds finished", month.builds, _BUILDS, pages,
            "By the date on which the book says the job was finished. Days: from start to finish.",
            "No book gives a date of this month as finished.",
        ),
        _shown(
            "open", "Open jobs", month.open_jobs, _OPEN, pages,
            f"Not finished by {day}; ages are counted to that day.",
            f"No job was open on {day}.",
        ),
        _shown(
            "power", "Power", month.power, _POWER, pages,
            "The best pull of each build finished, corrected where the book says to what air.",
            "No build finished in this month holds a power run that could be read.",
        ),
        _shown(
            "fits", "Fits by engine kind", month.fits, _FITS, pages,
            "Over every position of the builds finished, in one unit. Engine kind: as the shop or "
            "the book names it, else layout and size. Limits: of the builds' means, from 20 builds "
            "on (ISO 7870-2, individuals).",
            "No build finished in this month holds a fit that could be read.",
        ),
        _shown(
            "findings", "Findings", _first(month.findings), _FINDINGS, pages,
            "Of the builds finished and the jobs open. What somebody has accepted says so, and is "
            "not counted.", "Nothing was found.", len(month.findings),
        ),
        _shown(
            "parts", "Parts to order", month.parts, _PARTS, pages,
            "Each once for a job, as the books say it; what no book lists is not known here.",
            "No parts are listed as short or on order; the table Paperwork tells which have a "
            "list at all.",
        ),
        _shown(
            "signatures", "Missing signatures", month.signatures, _SIGNATURES, pages,
            "Lines for a name, initials or a mark that stand empty.",
            "No line for a signature stands empty; the table Paperwork tells which books have any.",
        ),
        _shown(
            "paperwork", "Paperwork", month.paperwork, _PAPERWORK, pages,
            "What each book says about parts and signatures. A missing list is not an empty one.",
            "No book belongs to this month.",
        ),
        _shown(
            "unsettled", "To settle", month.unsettled, _UNSETTLED, pages,
            "What could not be told from the books and was not guessed.",
            "Every date, number and unit could be read.",
        ),
    )  # fmt: skip


def _first(rows: RowFile) -> pd.DataFrame:
    return pd.DataFrame(list(islice(rows, ROWS_SHOWN)), columns=list(rows.columns))


def shown_fit_means(series: Sequence[FitSeries]) -> ShownTable:
    """One row for each build of some fits, from which their charts are drawn."""
    every = (row for one in series for row in mean_rows(one))
    rows = pd.DataFrame(list(islice(every, ROWS_SHOWN)), columns=list(FIT_MEANS))
    note = "The mean of each fit of each build, in the order in which builds were finished."
    return _shown("fit-means", "Fits by build", rows, _FIT_MEANS, {}, note, "No fits are drawn.")


def _shown(
    key: str,
    title: str,
    table: pd.DataFrame,
    columns: Sequence[ShownColumn],
    links: Mapping[int, str],
    note: str,
    nothing: str,
    total: int = 0,
) -> ShownTable:
    first = table.head(ROWS_SHOWN)
    kept = tuple(c for c in columns if c.name not in _OPTIONAL or _any_says(first[c.name]))
    most = PRINT_ROWS.get(key, ROWS_IN_PRINT)
    rows = ShownRows(first, kept, links)
    return ShownTable(key, title, note, nothing, kept, rows, most, total or len(table))


def _any_says(column: Iterable[object]) -> bool:
    """Whether any row has something in a column."""
    return any(plain(value) not in (None, "", 0) for value in column)


_FINER = ("mean", "spread", "above", "below", "center", "low limit", "high limit")


def _cell(column: ShownColumn, row: Mapping[str, object], links: Mapping[int, str]) -> ShownCell:
    value = plain(row[column.name])
    if column.style == "figure" and isinstance(value, (int, float)):
        digits = int(str(row.get("digits", 1)))
        # A mean and a deviation are finer than each reading.
        return ShownCell(f"{value:,.{digits + (column.name in _FINER)}f}", value)
    if column.style == "count" and isinstance(value, float):
        return ShownCell(f"{value:,.6g}", value)
    build = plain(row.get("build"))
    link = ""
    if column.name == "job" and isinstance(build, int):
        link = links.get(build, "")
    return ShownCell("" if value is None else str(value), value, link)


def plain(value: object) -> float | int | str | datetime.date | None:
    """What a cell of a table holds, as a plain number, day or text; None where it is empty."""
    if type(value) is str:
        return value
    if value is None or value is pd.NaT or (isinstance(value, float) and math.isnan(value)):
        return None
    if isinstance(value, (int, float, str, datetime.date)):
        return value
    # A number of an array's own type.
    item = getattr(value, "item", None)
    return plain(item()) if item else str(value)


def gist(month: Month) -> tuple[tuple[str, int], ...]:
    """(what, how many): the month in a few numbers."""
    late = sum(1 for days in month.builds["late"] if plain(days))
    findings = sum(
        int(count) for table in (month.builds, month.open_jobs) for count in table["findings"]
    )
    counts = (
        ("build finished", "builds finished", len(month.builds)),
        ("of them late", "of them late", late),
        ("job open", "jobs open", len(month.open_jobs)),
        ("finding", "findings", findings),
        ("part to order", "parts to order", len(month.parts)),
        ("signature missing", "signatures missing", int(sum(month.signatures["empty"]))),
        ("thing to settle", "things to settle", len(month.unsettled)),
        ("book without a date", "books without a date", len(month.undated)),
    )
    return tuple(
        (one if count == 1 else many, count)
        for one, many, count in counts
        if count or one != "book without a date"
    )

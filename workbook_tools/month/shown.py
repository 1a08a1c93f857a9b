"""A month's tables as they are shown: each cell its text, and the value that it sorts by."""

from __future__ import annotations

import datetime
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import pandas as pd

from workbook_tools.month.tables import Month

Style = Literal["text", "count", "day", "figure"]


@dataclass(frozen=True)
class ShownColumn:
    """A column: the table's own name for it, its head, and what stands in it."""

    name: str
    head: str
    style: Style = "text"


@dataclass(frozen=True)
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


@dataclass(frozen=True)
class ShownTable:
    """A table with its title, what it means, and what is said where it has no rows."""

    key: str
    title: str
    note: str
    nothing: str
    columns: tuple[ShownColumn, ...]
    rows: tuple[tuple[ShownCell, ...], ...]


def _columns(*columns: str | tuple[str, str] | tuple[str, str, Style]) -> tuple[ShownColumn, ...]:
    made = []
    for column in columns:
        if isinstance(column, str):
            made.append(ShownColumn(column, column[0].upper() + column[1:]))
        else:
            name, head, *style = column
            made.append(ShownColumn(name, head, style[0] if style else "text"))
    return tuple(made)


_BUILDS = _columns(
    "job", "customer", "engine", "builder", ("started", "Started", "day"),
    ("promised", "Promised", "day"), ("finished", "Finished", "day"), ("days", "Days", "count"),
    ("late", "Days late", "count"), ("findings", "Findings", "count"),
    ("out of band", "Out of band", "count"), ("missing", "Missing", "count"), "file",
)  # fmt: skip
_OPEN = _columns(
    "job", "customer", "engine", "builder", ("started", "Started", "day"),
    ("age", "Age, days", "count"), ("promised", "Promised", "day"), ("late", "Days late", "count"),
    "waiting for", ("findings", "Findings", "count"), "note", "file",
)  # fmt: skip
_FITS = _columns(
    "fit", "engine kind", ("builds", "Builds", "count"), ("readings", "Readings", "count"),
    ("mean", "Mean", "figure"), ("spread", "Standard deviation", "figure"),
    ("least", "Least", "figure"), "least in", ("largest", "Largest", "figure"),
    "largest in", "unit", ("outside", "Outside band", "count"),
)  # fmt: skip
_FINDINGS = _columns("job", "kind", "message", ("advice", "To do"), "sheet", "cell", "file")
_PARTS = _columns("job", "customer", "part", ("the book says", "The book says"), "sheet", "cell")
_SIGNATURES = _columns("job", "customer", ("line", "Line without a name"), "sheet", "cell", "file")
_PAPERWORK = _columns("job", "standing", "parts", "signatures", "file")
_UNSETTLED = _columns("job", "what", "why", "file")


def shown_tables(month: Month, links: Mapping[int, str] | None = None) -> tuple[ShownTable, ...]:
    """The month's tables in the order in which an office reads them.

    links: the page of a build by its number in the tables, where there is one. Raises nothing.
    """
    day = month.last_day
    pages = links or {}
    return (
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
            "fits", "Fits by engine kind", month.fits, _FITS, pages,
            "Over every position of the builds finished, in one unit. Engine kind: what the book "
            "writes before the first comma.",
            "No build finished in this month holds a fit that could be read.",
        ),
        _shown(
            "findings", "Findings", month.findings, _FINDINGS, pages,
            "Of the builds finished and the jobs open.", "Nothing was found.",
        ),
        _shown(
            "parts", "Parts to order", month.parts, _PARTS, pages,
            "As the books say it; parts that no book lists are not known here.",
            "No book names a part as short or to order; the table Paperwork tells which have a "
            "list at all.",
        ),
        _shown(
            "signatures", "Missing signatures", month.signatures, _SIGNATURES, pages,
            "Lines for a name or initials that stand empty.",
            "No line for a signature stands empty; the table Paperwork tells which books have any.",
        ),
        _shown(
            "paperwork", "Paperwork", month.paperwork, _PAPERWORK, pages,
            "What each book says about parts and signatures, so that silence is not taken for yes.",
            "No book belongs to this month.",
        ),
        _shown(
            "unsettled", "To settle", month.unsettled, _UNSETTLED, pages,
            "What could not be told from the books and was not guessed.",
            "Every date, number and unit could be read.",
        ),
    )  # fmt: skip


def _shown(
    key: str,
    title: str,
    table: pd.DataFrame,
    columns: Sequence[ShownColumn],
    links: Mapping[int, str],
    note: str,
    nothing: str,
) -> ShownTable:
    names = [str(name) for name in table.columns]
    records = [dict(zip(names, row, strict=True)) for row in table.itertuples(index=False)]
    rows = tuple(tuple(_cell(column, row, links) for column in columns) for row in records)
    return ShownTable(key, title, note, nothing, tuple(columns), rows)


def _cell(column: ShownColumn, row: Mapping[str, object], links: Mapping[int, str]) -> ShownCell:
    value = plain(row[column.name])
    if column.style == "figure" and isinstance(value, (int, float)):
        digits = int(str(row["digits"]))
        # A mean and a deviation are finer than each reading.
        return ShownCell(f"{value:,.{digits + (column.name in ('mean', 'spread'))}f}", value)
    build = plain(row.get("build"))
    link = ""
    if column.name == "job" and isinstance(build, int):
        link = links.get(build, "")
    return ShownCell("" if value is None else str(value), value, link)


def plain(value: object) -> float | int | str | datetime.date | None:
    """What a cell of a table holds, as a plain number, day or text; None where it is empty."""
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
    counts = (
        ("build finished", "builds finished", len(month.builds)),
        ("of them late", "of them late", late),
        ("job open", "jobs open", len(month.open_jobs)),
        ("finding", "findings", len(month.findings)),
        ("part to order", "parts to order", len(month.parts)),
        ("signature missing", "signatures missing", len(month.signatures)),
        ("thing to settle", "things to settle", len(month.unsettled)),
    )
    return tuple((one if count == 1 else many, count) for one, many, count in counts)

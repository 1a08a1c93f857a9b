"""The first page of a month: what left, what waits for what, what is missing, in few rows."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any

import pandas as pd

from workbook_tools.month.shown import ShownCell, ShownColumn, ShownTable, plain
from workbook_tools.month.tables import Month
from workbook_tools.summary.standing import WORDS

# Lines of one sheet on its side, and rows of each table that leave room for the others; the fits
# take what is left, and three at least.
_LINES, _RELEASED, _MONTHS, _OPEN, _FINDINGS, _SIGNATURES, _FEWEST_FITS = 43, 14, 14, 6, 9, 7, 3
# The longest text in a cell, so that it stands in one line.
_LONGEST, _LOOK_AT, _NARROW, _NAME = 110, 90, 60, 28
_MOST_JOBS = 3

Record = Mapping[str, object]


def glance(month: Month, links: Mapping[int, str] | None = None) -> tuple[ShownTable, ...]:
    """The tables of the first page, the worst rows of each first, and how many more there are.

    links: the page of a build by its number in the tables, where there is one. Raises nothing.
    """
    pages = links or {}
    first = _months(month) if month.period.is_range else _released(month, pages)
    still, signed, found = _open(month, pages), _signatures(month), _findings(month)
    used = _lines(first) + _lines(still) + max(_lines(signed), _lines(found))
    return first, still, signed, found, _fits(month, max(_FEWEST_FITS, _LINES - used - _AROUND))


# Lines around the rows of a table: its title, its heads, the room below.
_AROUND = 3


def _lines(table: ShownTable) -> int:
    return _AROUND + min(len(table.rows), table.print_rows) + bool(table.more)


def undated(month: Month) -> str:
    """The books without any date, in a line; "" where there are none."""
    if not month.undated:
        return ""
    names = ", ".join(sorted(month.undated)[:_MOST_JOBS])
    more = len(month.undated) - _MOST_JOBS
    rest = f" and {more} more" if more > 0 else ""
    return f"Without any date, so neither finished nor open: {names}{rest}."


def elsewhere(month: Month) -> str:
    """Where the jobs are of a month that has none, in a line; "" for a month that has some."""
    if len(month.builds) or len(month.open_jobs) or not month.elsewhere:
        return ""
    named = ", ".join(f"{name} ({count})" for name, count in month.elsewhere[-_MOST_JOBS:])
    return f"No job of these books was finished or open then; they belong to: {named}."


def _records(
    table: pd.DataFrame, key: Callable[[Record], Any] | None = None
) -> Iterator[dict[str, object]]:
    """The rows of a table by the names of its columns, one after the other, sorted by a key."""
    names = [str(name) for name in table.columns]

    def record(row: Sequence[object]) -> dict[str, object]:
        return dict(zip(names, row, strict=True))

    rows = table.itertuples(index=False, name=None)
    return map(record, rows if key is None else sorted(rows, key=lambda row: key(record(row))))


def _text(value: object, link: str = "") -> ShownCell:
    said = plain(value)
    return ShownCell("" if said is None else str(said), said, link)


def _cut(text: str, longest: int = _LONGEST) -> str:
    return text if len(text) <= longest else text[: longest - 1].rstrip(" ,;") + "…"


def _table(
    key: str,
    title: str,
    nothing: str,
    columns: Sequence[ShownColumn],
    rows: Iterable[Sequence[ShownCell]],
    most: int,
) -> ShownTable:
    """The first rows of a table, without columns in which no row at all says anything."""
    kept, first, count = {0}, [], 0
    for count, row in enumerate(rows, 1):
        kept |= {n for n, cell in enumerate(row) if cell.text}
        if count <= most:
            first.append(row)
    return ShownTable(
        f"first-{key}",
        title,
        "",
        nothing,
        tuple(columns[n] for n in sorted(kept)),
        tuple(tuple(row[n] for n in sorted(kept)) for row in first),
        most,
        count,
    )


def _link(row: Record, links: Mapping[int, str]) -> str:
    build = plain(row["build"])
    return links.get(build, "") if isinstance(build, int) else ""


def _count(row: Record, name: str) -> ShownCell:
    """A count, empty where it is none, so that what there is stands out."""
    value = plain(row[name])
    shown = f"{value:,.6g}" if isinstance(value, (int, float)) and value else ""
    return ShownCell(shown, value)


def _worst(row: Record) -> tuple[int, int, str]:
    state = str(row["state"])
    rank = WORDS.index(state) if state in WORDS else 0
    return rank, -int(str(row["findings"])), str(row["job"])


def _released(month: Month, links: Mapping[int, str]) -> ShownTable:
    peaks = {int(str(row["build"])): row for row in _records(month.power)}

    def shown(row: Record) -> tuple[ShownCell, ...]:
        peak = peaks.get(int(str(row["build"])))
        return (
            _text(row["job"], _link(row, links)), _text(_cut(str(row["customer"]), _NAME)),
            _text(row["engine kind"]), _text(row["finished"]), _count(row, "days"),
            _count(row, "late"), _count(row, "hours"), _text(row["state"]),
            _count(row, "findings"), _count(row, "unsigned"), _peak(peak, "power"),
            _peak(peak, "torque"), _text(_cut(str(row["open items"]), _NARROW)),
        )  # fmt: skip

    rows = map(shown, _records(month.builds, _worst))
    columns = (
        ShownColumn("job", "Job"), ShownColumn("customer", "Customer"),
        ShownColumn("engine kind", "Engine kind"), ShownColumn("finished", "Finished", "day"),
        ShownColumn("days", "Days", "count"), ShownColumn("late", "Days late", "count"),
        ShownColumn("hours", "Hours", "count"), ShownColumn("state", "State"),
        ShownColumn("findings", "Findings", "count"), ShownColumn("unsigned", "Unsigned", "count"),
        ShownColumn("power", "Power"), ShownColumn("torque", "Torque"),
        ShownColumn("open items", "Still open"),
    )  # fmt: skip
    nothing = "No book gives a date of this month as finished."
    return _table("released", "Finished, the worst first", nothing, columns, rows, _RELEASED)


def _peak(row: Record | None, what: str) -> ShownCell:
    value = plain(row[what]) if row else None
    if row is None or not isinstance(value, (int, float)):
        return ShownCell("", None)
    speed = plain(row[f"{what} at"])
    at = f" at {speed:,.0f}" if isinstance(speed, (int, float)) else ""
    return ShownCell(f"{value:,.0f} {row[f'{what} unit']}{at}", value)


def _months(month: Month) -> ShownTable:
    columns = (
        ShownColumn("month", "Month"), ShownColumn("builds", "Finished", "count"),
        ShownColumn("days", "Days, mean", "count"), ShownColumn("late", "Late", "count"),
        ShownColumn("hours", "Hours", "count"), ShownColumn("findings", "Findings", "count"),
        ShownColumn("out of band", "Out of band", "count"),
        ShownColumn("missing", "Missing", "count"), ShownColumn("unsigned", "Unsigned", "count"),
    )  # fmt: skip
    rows = [
        (_text(row["month"]), *(_count(row, column.name) for column in columns[1:]))
        for row in _records(month.months)
    ]
    return _table("months", "Month by month", "", columns, rows, _MONTHS)


def _open(month: Month, links: Mapping[int, str]) -> ShownTable:
    def age(row: Record) -> tuple[int, str]:
        days = plain(row["age"])
        return -int(days) if isinstance(days, (int, float)) else 1, str(row["job"])

    rows = (
        (
            _text(row["job"], _link(row, links)), _text(_cut(str(row["customer"]), _NAME)),
            _count(row, "age"), _count(row, "late"), _text(_cut(str(row["waiting for"]))),
        )
        for row in _records(month.open_jobs, age)
    )  # fmt: skip
    columns = (
        ShownColumn("job", "Job"), ShownColumn("customer", "Customer"),
        ShownColumn("age", "Age, days", "count"), ShownColumn("late", "Days late", "count"),
        ShownColumn("waiting for", "Waits for"),
    )  # fmt: skip
    nothing = f"No job was open on {month.last_day}."
    return _table("open", "Open, the oldest first", nothing, columns, rows, _OPEN)


def _signatures(month: Month) -> ShownTable:
    counted = []
    # The rows of a job stand together.
    for (job, _), some in groupby(_records(month.signatures), _job_and_file):
        listed = list(some)
        count = sum(int(str(row["empty"])) for row in listed)
        counted.append((job, count, "; ".join(_by_sheet(listed))))
    rows = (
        (_text(job), ShownCell(f"{count:,}", count), _text(_cut(where, _NARROW)))
        for job, count, where in sorted(counted, key=lambda one: (-one[1], one[0]))
    )
    columns = (
        ShownColumn("job", "Job"), ShownColumn("empty", "Empty", "count"),
        ShownColumn("line", "Where"),
    )  # fmt: skip
    nothing = "No line for a name stands empty."
    return _table("signatures", "Signatures missing", nothing, columns, rows, _SIGNATURES)


def _job_and_file(row: Record) -> tuple[str, str]:
    return str(row["job"]), str(row["file"])


def _by_sheet(rows: Sequence[Record]) -> Iterator[str]:
    sheets: dict[str, list[str]] = {}
    for row in rows:
        count = int(str(row["empty"]))
        said = f"{row['line']} ({count})" if count > 1 else str(row["line"])
        sheets.setdefault(str(row["sheet"]), []).append(said)
    for sheet, said_of in sheets.items():
        yield f"{sheet}: {', '.join(said_of)}"


def _findings(month: Month) -> ShownTable:
    jobs_of: dict[object, Counter[str]] = {}
    for values in month.findings:
        row = dict(zip(month.findings.columns, values, strict=True))
        if not row["accepted"]:
            jobs_of.setdefault(row["kind"], Counter())[str(row["job"]) or str(row["file"])] += 1
    rows = []
    for kind in _records(month.kinds):
        jobs = jobs_of[kind["kind"]]
        most = jobs.most_common(_MOST_JOBS)
        said = ", ".join(f"{job} ({count})" if count > 1 else job for job, count in most)
        more = len(jobs) - len(most)
        said += f" and {more} more" if more > 0 else ""
        rows.append((_text(kind["kind"]), _count(kind, "findings"), _text(said)))
    columns = (
        ShownColumn("kind", "Kind"), ShownColumn("findings", "Findings", "count"),
        ShownColumn("jobs", "Jobs, most first"),
    )  # fmt: skip
    return _table("findings", "Findings", "Nothing was found.", columns, rows, _FINDINGS)


def _fits(month: Month, most: int) -> ShownTable:
    def first(row: Record) -> tuple[bool, int, bool, int]:
        same = row["least"] == row["largest"]
        return not row["noticed"], -int(str(row["outside"])), same, -int(str(row["builds"]))

    rows = []
    for row in _records(month.fits, first):
        digits = int(str(row["digits"]))
        mean, least, largest = (float(str(row[name])) for name in ("mean", "least", "largest"))
        said = [str(row["noticed"])] if row["noticed"] else []
        said += (
            [f"{row['outside']} of {row['readings']} outside the band"] if row["outside"] else []
        )
        rows.append(
            (
                _text(row["fit"]), _text(row["engine kind"]), _count(row, "builds"),
                ShownCell(f"{mean:.{digits + 1}f}", mean),
                ShownCell(f"{least:.{digits}f} to {largest:.{digits}f}", least),
                _text(row["unit"]), _text(_cut("; ".join(said), _LOOK_AT)),
            )
        )  # fmt: skip
    columns = (
        ShownColumn("fit", "Fit"), ShownColumn("engine kind", "Engine kind"),
        ShownColumn("builds", "Builds", "count"), ShownColumn("mean", "Mean", "figure"),
        ShownColumn("range", "Least to largest"), ShownColumn("unit", "Unit"),
        ShownColumn("noticed", "Look at"),
    )  # fmt: skip
    nothing = "No build finished holds a fit that could be read."
    return _table("fits", "Fits, those to look at first", nothing, columns, rows, most)

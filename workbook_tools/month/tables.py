"""The tables of a month: which builds left the shop, what is open, and how the fits came out."""

from __future__ import annotations

import calendar
import datetime
import re
import sys
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

import pandas as pd

from workbook_tools.batch.build import Build
from workbook_tools.batch.row_file import RowFile
from workbook_tools.findings.copies import aside
from workbook_tools.labels.content import Field
from workbook_tools.labels.dates import read_date
from workbook_tools.quantities import System
from workbook_tools.render.html import counted
from workbook_tools.summary.data_rows import FINDING_COLUMNS, READING_COLUMNS
from workbook_tools.summary.finding_order import KINDS
from workbook_tools.summary.month_facts import FitRow, MonthFacts

Standing = Literal["finished", "open", "earlier", "later", "unsettled", "undated", "copy"]

BUILDS = (
    "job", "customer", "engine", "builder", "started", "promised", "finished", "days", "late",
    "results", "findings", "out of band", "missing", "file", "build",
)  # fmt: skip
OPEN = (
    "job", "customer", "engine", "builder", "started", "age", "promised", "late", "waiting for",
    "findings", "note", "file", "build",
)  # fmt: skip
PARTS = ("job", "customer", "part", "the book says", "sheet", "cell", "file")
SIGNATURES = ("job", "customer", "line", "sheet", "cell", "file")
PAPERWORK = ("job", "standing", "parts", "signatures", "file")
FITS = (
    "fit", "engine kind", "builds", "readings", "mean", "spread", "least", "least in",
    "largest", "largest in", "unit", "outside", "digits",
)  # fmt: skip
FIT_READINGS = ("fit", "engine kind", "job", "position", "value", "unit", "file")
UNSETTLED = ("job", "what", "why", "file")


class MonthError(ValueError):
    """A month that is not one; the message says how to write it."""


@dataclass(frozen=True)
class Month:
    """A month's tables, each with the columns named above it in this module.

    build: which of the builds given it is, counted from 0, since two may have one file name;
    name: "2026-10"; last_day: what ages count to, whatever day it is today; units: of the
    fits; readings: those of the builds finished, which are too many for memory; earlier,
    later: books finished before the month, and started after it; undated: books without any
    date, which are in no table but what is to settle; copies: those of which another counts.
    """

    name: str
    last_day: datetime.date
    units: System
    builds: pd.DataFrame
    open_jobs: pd.DataFrame
    parts: pd.DataFrame
    signatures: pd.DataFrame
    paperwork: pd.DataFrame
    fits: pd.DataFrame
    fit_readings: pd.DataFrame
    findings: pd.DataFrame
    readings: RowFile
    unsettled: pd.DataFrame
    kinds: pd.DataFrame
    earlier: int
    later: int
    undated: int = 0
    copies: int = 0

    @property
    def title(self) -> str:
        """The month in words: "October 2026"."""
        return f"{calendar.month_name[self.last_day.month]} {self.last_day.year}"


def last_day(month: str) -> datetime.date:
    """The last day of a month written as 2026-10. Raises MonthError."""
    found = re.fullmatch(r"(\d{4})-(\d{2})", month.strip())
    if not found or not 1 <= int(found[2]) <= 12 or int(found[1]) < 1900:
        raise MonthError(f"month: expected a year and a month as 2026-10, got {month!r}")
    year, number = int(found[1]), int(found[2])
    return datetime.date(year, number, calendar.monthrange(year, number)[1])


@dataclass(frozen=True)
class _Day:
    """A date of a job: the day, or why it could not be told, or neither where none is given."""

    day: datetime.date | None
    why: str = ""


@dataclass(frozen=True)
class _Dated:
    """A build with its days, where it stands in the month, and which of the builds it is.

    facts: nothing of a build that is in no table of the month; counted: of copies of one job the
    one that counts in place of this one.
    """

    at: int
    build: Build
    started: _Day
    promised: _Day
    finished: _Day
    standing: Standing
    facts: MonthFacts
    counted: Build | None = None

    @property
    def job(self) -> str:
        """The job's number, or its file where the book has none."""
        return self.build.job.number.text or self.build.file_name


def month_tables(
    month: str,
    builds: Sequence[Build],
    unreadable: Sequence[tuple[str, str]] = (),
    units: System = "inch",
    whole: Callable[[int], Build] | None = None,
) -> Month:
    """The tables of one month.

    month: as 2026-10; builds: in the order that the tables keep; unreadable: (file, reason)
    of those that could not be read; units: that the builds tell their fits in; whole: gives a
    build with what a month needs by its number, where builds are brief. Builds belong to the
    month they were finished in; jobs that were open on its last day are listed with their
    age. A date that is missing, or could be two days, is told and never guessed. Raises
    MonthError.
    """
    end = last_day(month)
    kept = RowFile(READING_COLUMNS)
    copies = dict(aside(builds))
    dated = [
        _dated(at, build, end, whole, kept, builds[copies[at]] if at in copies else None)
        for at, build in enumerate(builds)
    ]
    done = [d for d in dated if d.standing == "finished"]
    still = [d for d in dated if d.standing == "open"]
    readings, odd = _fit_readings(done)
    told = [*done, *still]
    findings = pd.DataFrame(
        [row for d in told for row in d.facts.findings],
        columns=list(FINDING_COLUMNS),
    )
    return Month(
        name=month.strip(),
        last_day=end,
        units=units,
        builds=_frame(BUILDS, map(_build_row, done)),
        open_jobs=_frame(OPEN, (_open_row(d, end) for d in still)),
        parts=_frame(PARTS, (row for d in told for row in _part_rows(d))),
        signatures=_frame(SIGNATURES, (row for d in told for row in _signature_rows(d))),
        paperwork=_frame(PAPERWORK, map(_paperwork_row, told)),
        fits=_fits(readings),
        fit_readings=readings[list(FIT_READINGS)],
        findings=findings,
        readings=kept,
        unsettled=_frame(UNSETTLED, (*_unsettled(dated), *odd, *_unread(unreadable))),
        kinds=_kinds(findings),
        earlier=sum(d.standing == "earlier" for d in dated),
        later=sum(d.standing == "later" for d in dated),
        undated=sum(d.standing == "undated" for d in dated),
        copies=len(copies),
    )


def _frame(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> pd.DataFrame:
    # Kept as objects: a missing day stays missing and a count stays a whole number.
    return pd.DataFrame(list(rows), columns=list(columns), dtype=object)


def day_of(text: str) -> tuple[datetime.date | None, str]:
    """(day, "") of a job's date; (None, why) where it cannot be told; (None, "") for none."""
    date = re.sub(r"[ T]\d{1,2}:\d{2}(?::\d{2})?(?:\.\d+)?$", "", text.strip())
    if not date:
        return None, ""
    content = read_date(date, Field())
    if content.kind == "text" and content.text:
        try:
            return datetime.date.fromisoformat(content.text), ""
        except ValueError:
            return None, f"{text!r} is no date"
    if content.kind == "refused":
        return None, f"{text!r}: {content.reason}"
    return None, ""


def _dated(
    at: int,
    build: Build,
    end: datetime.date,
    whole: Callable[[int], Build] | None,
    readings: RowFile,
    counted: Build | None,
) -> _Dated:
    started, finished = (_Day(*day_of(f.text)) for f in (build.job.started, build.job.finished))
    standing: Standing = "copy" if counted else _standing(started, finished, end)
    facts: MonthFacts | None = MonthFacts()
    if standing not in ("earlier", "later", "copy"):
        facts = (whole(at) if whole else build).month
    assert facts is not None, "read without what a month needs"
    if standing == "finished":
        readings.add(facts.readings)
    facts = replace(facts, readings=(), fits=tuple(map(_shared, facts.fits)))
    promised = _Day(*day_of(facts.promised))
    if standing == "open" and started == promised == finished == _Day(None):
        standing, facts = "undated", MonthFacts()
    return _Dated(at, build, started, promised, finished, standing, facts, counted)


def _shared(fit: FitRow) -> FitRow:
    """The same with texts that all builds of a month have in common, in memory once."""
    name, position, value, unit, outside, digits = fit
    return sys.intern(name), sys.intern(position), value, sys.intern(unit), outside, digits


def _standing(started: _Day, finished: _Day, end: datetime.date) -> Standing:
    if finished.why:
        return "unsettled"
    if finished.day is not None and finished.day <= end:
        return "finished" if finished.day >= end.replace(day=1) else "earlier"
    if started.day is not None and started.day > end:
        return "later"
    return "open"


def engine_kind(engine: str) -> str:
    """The kind of an engine: what the book writes before the first comma or bracket."""
    kind = " ".join(re.split(r"[,;(\[/]", engine, maxsplit=1)[0].split())
    return kind or "engine not named"


def _days_late(due: _Day, on: datetime.date) -> int | None:
    return max(0, (on - due.day).days) if due.day else None


def _build_row(d: _Dated) -> tuple[object, ...]:
    kinds = Counter(f.kind for f in d.build.findings)
    assert d.finished.day is not None
    taken = (d.finished.day - d.started.day).days if d.started.day else None
    job = d.build.job
    return (
        d.job, job.customer.text, job.engine.text, job.builder.text, d.started.day,
        d.promised.day, d.finished.day, taken, _days_late(d.promised, d.finished.day),
        d.build.results, len(d.build.findings), kinds["out of band"], kinds["missing reading"],
        d.build.file_name, d.at,
    )  # fmt: skip


def _open_row(d: _Dated, end: datetime.date) -> tuple[object, ...]:
    age = (end - d.started.day).days if d.started.day else None
    note = f"finished since, {d.finished.day}" if d.finished.day else ""
    if age is None:
        note = "; ".join(filter(None, (note, "no date of start, so no age")))
    job = d.build.job
    return (
        d.job, job.customer.text, job.engine.text, job.builder.text, d.started.day, age,
        d.promised.day, _days_late(d.promised, end), d.facts.waiting,
        len(d.build.findings), note, d.build.file_name, d.at,
    )  # fmt: skip


def _part_rows(d: _Dated) -> Iterator[tuple[object, ...]]:
    for row in d.facts.parts:
        yield d.job, d.build.job.customer.text, *row, d.build.file_name


def _signature_rows(d: _Dated) -> Iterator[tuple[object, ...]]:
    for row in d.facts.unsigned:
        yield d.job, d.build.job.customer.text, *row, d.build.file_name


def _paperwork_row(d: _Dated) -> tuple[object, ...]:
    """What a book says about parts and signatures, so that silence is not taken for "none"."""
    facts, missing = d.facts, len(d.facts.unsigned)
    lines = max(facts.signature_lines, missing)
    parts = f"{len(facts.parts)} to order" if facts.parts else "nothing listed as short"
    signed = f"{missing} of {counted(lines, 'line')} empty"
    return (
        d.job,
        d.standing,
        parts if facts.part_lists else "the book has no list of parts",
        signed
        if missing
        else f"{counted(lines, 'line')}, none empty"
        if lines
        else "the book has no lines for signatures",
        d.build.file_name,
    )


def _fit_readings(done: Sequence[_Dated]) -> tuple[pd.DataFrame, list[tuple[object, ...]]]:
    """Every number of every key fit, in one unit; and the fits whose unit is not told."""
    rows: list[tuple[object, ...]] = []
    odd: list[tuple[object, ...]] = []
    # One spelling of an engine's kind for all its books: the first that comes.
    names: dict[str, str] = {}
    for d in done:
        kind = engine_kind(d.build.job.engine.text)
        kind = names.setdefault(kind.casefold(), kind)
        file = d.build.file_name
        for fit, position, value, unit, outside, digits in d.facts.fits:
            rows.append((fit, kind, d.job, position, value, unit, file, outside, digits, d.at))
        odd += [(d.job, what, why, file) for what, why in d.facts.odd_fits]
    columns = [*FIT_READINGS, "outside", "digits", "build"]
    return pd.DataFrame(rows, columns=columns), odd


def _fits(readings: pd.DataFrame) -> pd.DataFrame:
    """Mean and spread of every fit by engine kind, in the order of the work on an engine."""
    rows = []
    order = {name: at for at, name in enumerate(readings["fit"].drop_duplicates())}
    pairs = {(str(fit), str(kind)) for fit, kind in readings[["fit", "engine kind"]].to_numpy()}
    for fit, kind in sorted(pairs, key=lambda pair: (order[pair[0]], pair[1].casefold())):
        group = readings[(readings["fit"] == fit) & (readings["engine kind"] == kind)]
        values = group["value"].astype(float)
        least, largest = group.iloc[values.argmin()], group.iloc[values.argmax()]
        # The sample's standard deviation; one reading has none.
        spread = float(values.std(ddof=1)) if len(values) > 1 else None
        rows.append(
            (
                fit, kind, group["build"].nunique(), len(group), float(values.mean()), spread,
                float(least["value"]), _where(least), float(largest["value"]), _where(largest),
                group["unit"].iloc[0], int(group["outside"].sum()), int(group["digits"].iloc[0]),
            )
        )  # fmt: skip
    return _frame(FITS, rows)


def _where(reading: pd.Series[Any]) -> str:
    return ", ".join(filter(None, (str(reading["job"]), str(reading["position"]))))


def _kinds(findings: pd.DataFrame) -> pd.DataFrame:
    counts = findings["kind"].value_counts()
    rows = [(kind, int(counts[kind])) for kind in KINDS if kind in counts]
    return _frame(("kind", "findings"), rows)


def _unsettled(dated: Sequence[_Dated]) -> Iterator[tuple[object, ...]]:
    """What somebody has to settle before the month's figures can be trusted."""
    for d in dated:
        file = d.build.file_name
        if d.counted:
            why = f"a copy of the job in {d.counted.file_name}, which counts in its place"
            yield d.job, "copy", why, file
            continue
        named = (("date started", d.started), ("date promised", d.promised))
        if d.finished.why:
            why = f"{d.finished.why}; in no table of the month until it is settled"
            yield d.job, "date finished", why, file
        for what, day in named:
            if day.why and d.standing in ("finished", "open", "unsettled"):
                yield d.job, what, day.why, file
        if d.standing == "undated":
            why = "no date found, neither of start nor of finish; neither open nor finished here"
            yield d.job, "dates", why, file
        if d.started.day and d.finished.day and d.finished.day < d.started.day:
            why = f"finished {d.finished.day}, before it was started, {d.started.day}"
            yield d.job, "dates", why, file
    numbers: dict[str, list[_Dated]] = {}
    for d in dated:
        if d.counted:
            continue
        if d.build.job.number.text:
            numbers.setdefault(d.build.job.number.text.casefold(), []).append(d)
        elif d.standing in ("finished", "open"):
            yield d.job, "job number", "the book gives none", d.build.file_name
    for same in numbers.values():
        if len(same) > 1 and any(d.standing in ("finished", "open") for d in same):
            files = ", ".join(d.build.file_name for d in same)
            why = f"{len(same)} books have it; perhaps one job is counted twice"
            yield same[0].job, "job number", why, files


def _unread(unreadable: Sequence[tuple[str, str]]) -> Iterator[tuple[object, ...]]:
    for file, reason in unreadable:
        yield "", "file not read", reason, file

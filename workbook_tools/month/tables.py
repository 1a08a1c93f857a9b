"""The tables of a month: which builds left the shop, what is open, and how the fits came out."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import pandas as pd

from workbook_tools.batch.build import Build
from workbook_tools.batch.row_file import RowFile
from workbook_tools.month.dated_jobs import DatedJob, Day, dated_jobs, unsettled
from workbook_tools.month.engine_kinds import Engine, engine_kinds
from workbook_tools.month.fit_points import FitSeries, Placed, fit_series
from workbook_tools.month.period import Period
from workbook_tools.quantities import System
from workbook_tools.render.html import counted
from workbook_tools.summary.data_rows import FINDING_COLUMNS, READING_COLUMNS
from workbook_tools.summary.finding_order import KINDS
from workbook_tools.summary.month_fits import fit_measurands

BUILDS = (
    "job", "customer", "engine", "engine kind", "builder", "started", "promised", "finished",
    "days", "late", "hours", "state", "results", "findings", "accepted", "out of band", "missing",
    "unsigned", "open items", "file", "build",
)  # fmt: skip
OPEN = (
    "job", "customer", "engine", "builder", "started", "age", "promised", "late", "waiting for",
    "findings", "unsigned", "hours", "note", "file", "build",
)  # fmt: skip
OPEN_ITEMS = ("job", "standing", "what is open", "who", "until", "sheet", "cell", "file")
MONTHS = (
    "month", "builds", "days", "late", "hours", "findings", "out of band", "missing", "unsigned",
)  # fmt: skip
POWER = (
    "job", "engine kind", "finished", "power", "power unit", "power at", "torque", "torque unit",
    "torque at", "corrected", "file", "build",
)  # fmt: skip
PARTS = ("job", "customer", "part", "the book says", "sheet", "cell", "file")
SIGNATURES = ("job", "customer", "line", "empty", "of", "sheet", "cells", "file")
PAPERWORK = ("job", "standing", "parts", "signatures", "file")
FITS = (
    "fit", "engine kind", "builds", "readings", "mean", "spread", "least", "least in",
    "largest", "largest in", "unit", "outside", "low limit", "high limit", "noticed", "digits",
)  # fmt: skip
FIT_MEANS = (
    "fit", "engine kind", "job", "finished", "readings", "least", "mean", "largest", "center",
    "low limit", "high limit", "unit", "outside", "above", "below", "digits",
)  # fmt: skip
FIT_READINGS = ("fit", "engine kind", "job", "position", "value", "unit", "file")
FINDINGS = (*FINDING_COLUMNS, "accepted")
UNSETTLED = ("job", "what", "why", "file")
# The columns of each table as its file has them: without what only a page needs, at the end.
HEADS = (
    BUILDS[:-1], OPEN[:-1], OPEN_ITEMS, MONTHS, POWER[:-1], PARTS, SIGNATURES, PAPERWORK,
    FITS[:-1], FIT_MEANS[:-1], FIT_READINGS, FINDINGS, UNSETTLED, READING_COLUMNS,
)  # fmt: skip


@dataclass(frozen=True)
class Month:
    """The tables of one month or several, each with the columns named above in this module.

    build: which of the builds given it is, counted from 0, since two may have one file name;
    units: of the fits and of power; series: the fits as charts need them; readings: those of
    the builds finished, which are too many for memory, as are findings and fit_readings: (fit,
    position, value, unit, outside, digits, build); kinds_of: the engine kind of a finished build;
    earlier, later: books finished before the first month, and started after the last;
    undated: files of books without any date, which are in no table but what is to settle;
    copies: how many are those of which another counts; elsewhere: of the books finished earlier
    or started later, (month as 2026-10, how many), in order.
    """

    period: Period
    units: System
    builds: pd.DataFrame
    open_jobs: pd.DataFrame
    open_items: pd.DataFrame
    months: pd.DataFrame
    power: pd.DataFrame
    parts: pd.DataFrame
    signatures: pd.DataFrame
    paperwork: pd.DataFrame
    fits: pd.DataFrame
    series: tuple[FitSeries, ...]
    fit_readings: RowFile
    findings: RowFile
    readings: RowFile
    unsettled: pd.DataFrame
    kinds: pd.DataFrame
    kinds_of: Mapping[int, str]
    files: Mapping[int, tuple[str, str]]
    earlier: int
    later: int
    undated: tuple[str, ...] = ()
    copies: int = 0
    elsewhere: tuple[tuple[str, int], ...] = ()

    @property
    def name(self) -> str:
        """As files are named after it: "2026-10"."""
        return self.period.name

    @property
    def title(self) -> str:
        """In words: "October 2026"."""
        return self.period.title

    @property
    def last_day(self) -> datetime.date:
        """What ages count to, whatever day it is today."""
        return self.period.last

    def fit_reading_rows(self) -> Iterator[tuple[object, ...]]:
        """Every number of every fit, by FIT_READINGS."""
        for fit, position, value, unit, _, _, at in self.fit_readings:
            assert isinstance(at, int)
            job, file = self.files[at]
            yield fit, self.kinds_of[at], job, position, value, unit, file


def month_tables(
    period: Period,
    builds: Sequence[Build],
    unreadable: Sequence[tuple[str, str]] = (),
    units: System = "inch",
    whole: Callable[[int], Build] | None = None,
    kinds: Mapping[str, Sequence[str]] | None = None,
) -> Month:
    """The tables of one month or several.

    builds: in the order that the tables keep; unreadable: (file, reason) of those that could
    not be read; units: that the builds tell their fits in; whole: gives a build with what a
    month needs by its number, where builds are brief; kinds: the shop's own engine kinds, each
    with words that name it. Builds belong to the month they were finished in; jobs that were
    open on the last day are listed with their age. A date that is missing, or could be two
    days, is told and never guessed. Raises OSError where readings find no room on disk.
    """
    readings = RowFile(READING_COLUMNS)
    fit_readings = RowFile((*FIT_READINGS, "build"))
    findings = RowFile(FINDINGS)
    jobs = dated_jobs(builds, period, whole, readings, fit_readings, findings)
    done = [job for job in jobs if job.standing == "finished"]
    still = [job for job in jobs if job.standing == "open"]
    told = [*done, *still]
    kinds_of = dict(
        zip(
            (job.at for job in done),
            engine_kinds([_engine(job) for job in done], kinds or {}, units),
            strict=True,
        )
    )
    series = _series(done, kinds_of)
    odd = (
        (job.job, what, why, job.told.file_name) for job in done for what, why in job.facts.odd_fits
    )
    unread = (("", "file not read", reason, file) for file, reason in unreadable)
    return Month(
        period=period,
        units=units,
        builds=_frame(BUILDS, (_build_row(job, kinds_of[job.at]) for job in done)),
        open_jobs=_frame(OPEN, (_open_row(job, period.last) for job in still)),
        open_items=_frame(OPEN_ITEMS, (row for job in told for row in _open_item_rows(job))),
        months=_frame(MONTHS, _month_rows(done, period) if period.is_range else ()),
        power=_frame(POWER, (row for job in done for row in _power_rows(job, kinds_of[job.at]))),
        parts=_frame(PARTS, (row for job in told for row in _part_rows(job))),
        signatures=_frame(SIGNATURES, (row for job in told for row in _signature_rows(job))),
        paperwork=_frame(PAPERWORK, map(_paperwork_row, told)),
        fits=_frame(FITS, map(_fit_row, series)),
        series=tuple(series),
        fit_readings=fit_readings,
        findings=findings,
        readings=readings,
        unsettled=_frame(UNSETTLED, (*unsettled(jobs), *odd, *unread)),
        kinds=_kinds(findings),
        kinds_of=kinds_of,
        files={job.at: (job.job, job.told.file_name) for job in done},
        earlier=sum(job.standing == "earlier" for job in jobs),
        later=sum(job.standing == "later" for job in jobs),
        undated=tuple(job.told.file_name for job in jobs if job.standing == "undated"),
        copies=sum(job.standing == "copy" for job in jobs),
        elsewhere=_elsewhere(jobs),
    )


def _elsewhere(jobs: Sequence[DatedJob]) -> tuple[tuple[str, int], ...]:
    """The months of the jobs that are in no table: where earlier finished, where later begun."""
    days = (
        job.finished.day if job.standing == "earlier" else job.started.day
        for job in jobs
        if job.standing in ("earlier", "later")
    )
    return tuple(sorted(Counter(f"{day:%Y-%m}" for day in days if day).items()))


def _frame(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> pd.DataFrame:
    # Kept as objects: a missing day stays missing and a count stays a whole number.
    return pd.DataFrame(list(rows), columns=list(columns), dtype=object)


def _engine(job: DatedJob) -> Engine:
    facts = job.facts
    return Engine(facts.kind, job.told.engine, facts.displacement, facts.cylinders)


def _days_late(due: Day, on: datetime.date) -> int | None:
    return max(0, (on - due.day).days) if due.day else None


def _hours(job: DatedJob) -> float | None:
    return float(job.facts.hours) if job.facts.hours else None


def _open_findings(job: DatedJob) -> int:
    """How many there are that nobody has accepted."""
    return sum(count for _, count in job.told.still)


def _build_row(job: DatedJob, kind: str) -> tuple[object, ...]:
    kinds = dict(job.told.still)
    taken = (job.finished_on - job.started.day).days if job.started.day else None
    told, facts = job.told, job.facts
    return (
        job.job, told.customer, told.engine, kind, told.builder, job.started.day,
        job.promised.day, job.finished_on, taken, _days_late(job.promised, job.finished_on),
        _hours(job), told.state, told.results, _open_findings(job), told.accepted,
        kinds.get("out of band", 0), kinds.get("missing reading", 0), len(facts.unsigned),
        "; ".join(_open_items(job)), told.file_name, job.at,
    )  # fmt: skip


def _open_row(job: DatedJob, end: datetime.date) -> tuple[object, ...]:
    age = (end - job.started.day).days if job.started.day else None
    note = f"finished since, {job.finished.day}" if job.finished.day else ""
    if age is None:
        note = "; ".join(filter(None, (note, "no date of start, so no age")))
    told, facts = job.told, job.facts
    parts = ", ".join(dict.fromkeys(str(part) for part, *_ in facts.parts))
    waiting = (facts.waiting, *_open_items(job), f"parts: {parts}" if parts else "")
    return (
        job.job, told.customer, told.engine, told.builder, job.started.day, age,
        job.promised.day, _days_late(job.promised, end), "; ".join(filter(None, waiting)),
        _open_findings(job), len(facts.unsigned), _hours(job), note, told.file_name, job.at,
    )  # fmt: skip


def _open_items(job: DatedJob) -> Iterator[str]:
    for what, who, until, *_ in job.facts.open_items:
        about = ", ".join(filter(None, (str(who), f"until {until}" if until else "")))
        yield f"{what} ({about})" if about else str(what)


def _open_item_rows(job: DatedJob) -> Iterator[tuple[object, ...]]:
    for row in job.facts.open_items:
        yield job.job, job.standing, *row, job.told.file_name


def _month_rows(done: Sequence[DatedJob], period: Period) -> Iterator[tuple[object, ...]]:
    for month in period.months:
        jobs = [job for job in done if f"{job.finished_on:%Y-%m}" == month]
        days = [(j.finished_on - j.started.day).days for j in jobs if j.started.day]
        hours = [booked for job in jobs if (booked := _hours(job)) is not None]
        kinds: Counter[str] = Counter()
        for job in jobs:
            kinds.update(dict(job.told.still))
        yield (
            month, len(jobs), round(sum(days) / len(days)) if days else None,
            sum(bool(_days_late(job.promised, job.finished_on)) for job in jobs),
            sum(hours) if hours else None, kinds.total(), kinds["out of band"],
            kinds["missing reading"], sum(len(job.facts.unsigned) for job in jobs),
        )  # fmt: skip


def _power_rows(job: DatedJob, kind: str) -> Iterator[tuple[object, ...]]:
    peaks = {peak.what: peak for peak in job.facts.peaks}
    if not peaks:
        return
    of = [
        (p.value, p.unit, p.speed) if (p := peaks.get(what)) else (None, "", None)
        for what in ("Power", "Torque")
    ]
    corrected = next(iter(peaks.values())).corrected
    yield job.job, kind, job.finished_on, *of[0], *of[1], corrected, job.told.file_name, job.at


def _part_rows(job: DatedJob) -> Iterator[tuple[object, ...]]:
    """Each part that a book names as short, once, with all that it says about it."""
    rows: dict[str, list[tuple[object, ...]]] = {}
    for row in job.facts.parts:
        rows.setdefault(" ".join(str(row[0]).casefold().split()), []).append(row)
    for (part, _, sheet, cell), *more in rows.values():
        said = "; ".join(dict.fromkeys(str(row[1]) for row in rows[_even(part)]))
        cells = ", ".join([str(cell), *(str(row[3]) for row in more)])
        yield job.job, job.told.customer, part, said, sheet, cells, job.told.file_name


def _even(part: object) -> str:
    return " ".join(str(part).casefold().split())


def _signature_rows(job: DatedJob) -> Iterator[tuple[object, ...]]:
    """The empty places under one head of a sheet together: which rows, and how many."""
    rows: dict[tuple[str, str], list[tuple[str, str]]] = {}
    for line, which, said, sheet, cell in job.facts.unsigned:
        about = " ".join(filter(None, (str(which), f"({said})" if said else "")))
        rows.setdefault((str(line), str(sheet)), []).append((about, str(cell)))
    customer, file = job.told.customer, job.told.file_name
    for (line, sheet), places in rows.items():
        of = "; ".join(filter(None, (about for about, _ in places)))
        cells = ", ".join(cell for _, cell in places)
        yield job.job, customer, line, len(places), of, sheet, cells, file


def _paperwork_row(job: DatedJob) -> tuple[object, ...]:
    """What a book says about parts and signatures, and whether it has such a list at all."""
    facts, missing = job.facts, len(job.facts.unsigned)
    lines = max(facts.signature_lines, missing)
    parts = f"{len(facts.parts)} to order" if facts.parts else "nothing listed as short"
    signed = f"{missing} of {counted(lines, 'place')} empty"
    return (
        job.job,
        job.standing,
        parts if facts.part_lists else "the book has no list of parts",
        signed
        if missing
        else f"{counted(lines, 'place')}, none empty"
        if lines
        else "the book has no place for signatures",
        job.told.file_name,
    )


def _series(done: Sequence[DatedJob], kinds_of: Mapping[int, str]) -> list[FitSeries]:
    """The fits of the builds finished, in the order in which they were."""
    ordered = sorted(done, key=lambda job: (job.finished_on, job.at))
    placed = (
        (kinds_of[job.at], Placed(job.job, job.at, job.finished_on.isoformat(), point))
        for job in ordered
        for point in job.points
    )
    return fit_series(placed, [measurand.name for measurand in fit_measurands()])


def _fit_row(series: FitSeries) -> tuple[object, ...]:
    chart, least, largest = series.control, series.least, series.largest
    return (
        series.fit, series.kind, len(series.points), series.readings, series.mean, series.deviation,
        least.point.least, _where(least.job, least.point.least_at),
        largest.point.largest, _where(largest.job, largest.point.largest_at),
        series.unit, series.outside, chart.low, chart.high, series.noticed, series.digits,
    )  # fmt: skip


def mean_rows(series: FitSeries) -> Iterator[tuple[object, ...]]:
    """One row for each build of a fit, by FIT_MEANS."""
    chart = series.control
    for job, _, day, point in series.points:
        yield (
            series.fit, series.kind, job, day, point.readings, point.least, point.mean,
            point.largest,
            chart.mean, chart.low, chart.high, point.unit, point.outside,
            point.largest - point.mean, point.mean - point.least, point.digits,
        )  # fmt: skip


def _where(job: str, position: str) -> str:
    return ", ".join(filter(None, (job, position)))


def _kinds(findings: RowFile) -> pd.DataFrame:
    at = FINDINGS.index("kind")
    counts = Counter(row[at] for row in findings if not row[-1])
    rows = [(kind, counts[kind]) for kind in KINDS if kind in counts]
    return _frame(("kind", "findings"), rows)

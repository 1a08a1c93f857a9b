"""Where each job stands in a month by its dates: finished, open, or in no table of it."""

from __future__ import annotations

import datetime
import re
import sys
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest
from typing import Literal, NamedTuple

from workbook_tools.batch.build import Build
from workbook_tools.batch.row_file import RowFile
from workbook_tools.findings.code import FindingKind
from workbook_tools.findings.copies import aside
from workbook_tools.labels.content import Field
from workbook_tools.labels.dates import read_date
from workbook_tools.month.fit_points import FitPoint, fit_points
from workbook_tools.month.period import Period
from workbook_tools.summary.month_facts import MonthFacts

Standing = Literal["finished", "open", "earlier", "later", "unsettled", "undated", "copy"]


@dataclass(frozen=True)
class Day:
    """A date of a job: the day, or why it could not be told, or neither where none is given."""

    day: datetime.date | None
    why: str = ""


class Told(NamedTuple):
    """What tables tell of a build: of its findings how many of each kind are open.

    customer, engine, builder: as the book has them; state: how it stands, in a word.
    """

    number: str
    file_name: str
    customer: str
    engine: str
    builder: str
    state: str
    results: int
    still: tuple[tuple[FindingKind, int], ...]
    accepted: int


@dataclass(frozen=True, slots=True)
class DatedJob:
    """A build with its days, where it stands in the month, and which of the builds it is.

    facts: without readings, single fits and findings, and nothing of a build that is in no table
    of the month; points: of its fits; counted: of copies of one job the file that counts in
    place of this one.
    """

    at: int
    told: Told
    started: Day
    promised: Day
    finished: Day
    standing: Standing
    facts: MonthFacts
    points: tuple[FitPoint, ...] = ()
    counted: str = ""

    @property
    def job(self) -> str:
        """The job's number, or its file where the book has none."""
        return self.told.number or self.told.file_name

    @property
    def finished_on(self) -> datetime.date:
        """The day on which a finished job was finished. Raises ValueError for any other."""
        if self.finished.day is None:
            raise ValueError(f"{self.job} is not finished")
        return self.finished.day


def dated_jobs(
    builds: Sequence[Build],
    period: Period,
    whole: Callable[[int], Build] | None,
    readings: RowFile,
    fit_readings: RowFile,
    findings: RowFile,
) -> list[DatedJob]:
    """Each build with where it stands.

    whole: gives a build with what a month needs by its number, where builds are brief;
    readings, fit_readings: take those of the builds finished, the latter with the build's
    number last; findings: takes those of the builds finished and then of those open, with who
    accepted each last. Raises OSError where there is no room for them.
    """
    of_open = RowFile(findings.columns)
    copies = dict(aside(builds))

    def dated(at: int) -> DatedJob:
        build = builds[at]
        counted = builds[copies[at]].file_name if at in copies else ""
        started, finished = (Day(*day_of(f.text)) for f in (build.job.started, build.job.finished))
        standing: Standing = "copy" if counted else _standing(started, finished, period)
        facts: MonthFacts | None = MonthFacts()
        if standing not in ("earlier", "later", "copy"):
            facts = (whole(at) if whole else build).month
        assert facts is not None, "read without what a month needs"
        promised = Day(*day_of(facts.promised))
        points: tuple[FitPoint, ...] = ()
        if standing == "finished":
            readings.add(facts.readings)
            fit_readings.add([(*fit, at) for fit in facts.fits])
            points = fit_points(facts.fits)
        if standing == "open" and started == promised == finished == Day(None):
            standing, facts = "undated", MonthFacts()
        if standing in ("finished", "open"):
            (findings if standing == "finished" else of_open).add(_finding_rows(facts))
        facts = replace(facts, readings=(), fits=(), findings=(), acceptances=())
        told = _told(build)
        return DatedJob(at, told, started, promised, finished, standing, facts, points, counted)

    jobs = [dated(at) for at in range(len(builds))]
    findings.add_all(of_open)
    return jobs


def _told(build: Build) -> Told:
    still = [finding.kind for finding in build.findings if finding.accepted is None]
    job = build.job
    return Told(
        number=job.number.text,
        file_name=build.file_name,
        customer=job.customer.text,
        # Texts that many builds have in common stand in memory once.
        engine=sys.intern(job.engine.text),
        builder=sys.intern(job.builder.text),
        state=build.standing.word,
        results=build.results,
        still=tuple(Counter(still).items()),
        accepted=len(build.findings) - len(still),
    )


def _finding_rows(facts: MonthFacts) -> Iterator[tuple[object, ...]]:
    for row, accepted in zip_longest(facts.findings, facts.acceptances, fillvalue=""):
        yield *row, accepted


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


def _standing(started: Day, finished: Day, period: Period) -> Standing:
    if finished.why:
        return "unsettled"
    if finished.day is not None and finished.day <= period.last:
        return "finished" if period.holds(finished.day) else "earlier"
    if started.day is not None and started.day > period.last:
        return "later"
    return "open"


def unsettled(jobs: Sequence[DatedJob]) -> Iterator[tuple[str, str, str, str]]:
    """(job, what, why, file) that somebody has to settle before a month can be trusted."""
    for job in jobs:
        file = job.told.file_name
        if job.counted:
            why = f"a copy of the job in {job.counted}, which counts in its place"
            yield job.job, "copy", why, file
            continue
        yield from _unsettled_dates(job, file)
    numbers: dict[str, list[DatedJob]] = {}
    for job in jobs:
        if job.counted:
            continue
        if job.told.number:
            numbers.setdefault(job.told.number.casefold(), []).append(job)
        elif job.standing in ("finished", "open"):
            yield job.job, "job number", "the book gives none", job.told.file_name
    for same in numbers.values():
        if len(same) > 1 and any(job.standing in ("finished", "open") for job in same):
            files = ", ".join(job.told.file_name for job in same)
            why = f"{len(same)} books have it; perhaps one job is counted twice"
            yield same[0].job, "job number", why, files


def _unsettled_dates(job: DatedJob, file: str) -> Iterator[tuple[str, str, str, str]]:
    if job.finished.why:
        why = f"{job.finished.why}; in no table of the month until it is settled"
        yield job.job, "date finished", why, file
    for what, day in (("date started", job.started), ("date promised", job.promised)):
        if day.why and job.standing in ("finished", "open", "unsettled"):
            yield job.job, what, day.why, file
    if job.standing == "undated":
        why = "no date found, neither of start nor of finish; neither open nor finished here"
        yield job.job, "dates", why, file
    if job.started.day and job.finished.day and job.finished.day < job.started.day:
        why = f"finished {job.finished.day}, before it was started, {job.started.day}"
        yield job.job, "dates", why, file

"""Dates of a job that contradict each other: finished before it was started."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import Finding
from workbook_tools.labels.content import Field
from workbook_tools.labels.dates import read_date


def check_job_dates(evidence: Evidence) -> Iterator[Finding]:
    """A finding where the day of finish lies before the day of start."""
    job = evidence.book.job
    started, finished = (read_date(f.text, Field()).text for f in (job.started, job.finished))
    if started and finished and finished < started and job.finished.place:
        yield Finding(
            "finished-before-started",
            job.finished.place,
            f"The job is dated finished on {finished}, before it was started on {started}.",
            "Correct the date that is wrong.",
            (job.started.place,) if job.started.place else (),
        )

"""A job that was finished before it was started."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.records import JobField


def check_dates(evidence: Evidence) -> Iterator[Finding]:
    """A finding where the date of finishing lies before the date of starting."""
    job = evidence.book.job
    started, finished = _date(job.started), _date(job.finished)
    if started is None or finished is None or finished >= started or job.finished.place is None:
        return
    yield Finding(
        "dates-reversed",
        job.finished.place,
        f"The job is dated finished {job.finished.text}, and started {job.started.text}, "
        "which is later.",
        "Correct the wrong date; day and month may have changed places.",
        (job.started.place,) if job.started.place else (),
    )


def _date(field: JobField) -> datetime.date | None:
    """A field's date, None where it is none that is whole."""
    try:
        return datetime.date.fromisoformat(field.text[:10])
    except ValueError:
        return None

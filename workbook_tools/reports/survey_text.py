"""A survey of books as plain text for the terminal."""

from __future__ import annotations

import re
from collections import defaultdict

from workbook_tools.books.candidate import Candidate
from workbook_tools.books.survey import BookSurvey, JobSurvey, Survey
from workbook_tools.reports.cells import joined

MOST_PLACES = 8
# What one message about a cylinder has that the same about another has not.
_WHICH = re.compile(r"\b(?:Cyl|Main|Rod) \w+|\([A-Z]{1,3}\d+\)")
_HOW = {
    "exact word": "by its label",
    "synonym": "by its label",
    "layout": "by the layout",
    "proposal": "NOT READ, only alike",
}


def survey_text(survey: Survey) -> str:
    """What would be read from each book, how sure that is, and what is open.

    Readings stand one line a label: name, values, unit, cells, and how they were found.
    """
    lines: list[str] = []
    for path, why in survey.left_aside:
        lines.append(f"Skipped {path}: {why}.")
    for book in survey.books:
        lines += _book_lines(book)
    count = survey.questions
    books = "1 book" if len(survey.books) == 1 else f"{len(survey.books)} books"
    asked = {0: "no open questions", 1: "1 open question"}.get(count, f"{count} open questions")
    lines.append(f"{books}, {asked}.")
    return "\n".join(lines) + "\n"


def _book_lines(book: BookSurvey) -> list[str]:
    lines = [str(book.path)]
    if book.problem:
        return [*lines, f"  NOT READ: {book.problem}", ""]
    if book.calls:
        calls = "1 call" if book.calls == 1 else f"{book.calls} calls"
        return [
            *lines,
            f"  {calls} of worksheet functions say what is what; no layout is needed.",
            "",
        ]
    for job in book.jobs:
        lines += _job_lines(job)
    return [*lines, ""]


def _job_lines(job: JobSurvey) -> list[str]:
    fields = ", ".join(
        f"{name} {field.text}" + (f" ({field.place})" if field.place else "")
        for name, field in vars(job.job).items()
        if field.text
    )
    lines = [f"  Job {job.name}" if job.name else "  Job", f"    {fields or 'no job fields found'}"]
    system = f"{job.system}, told by {job.system_from}" if job.system else "not said"
    lines.append(f"    Units: {system}")
    if not job.readings:
        lines.append("    No readings found.")
    lines += [f"    {line}" for line in _reading_lines(job.readings)]
    if job.unknown:
        named = ", ".join(f"{u.text!r} ({u.place})" for u in job.unknown[:12])
        more = f" and {len(job.unknown) - 12} more" if len(job.unknown) > 12 else ""
        lines.append(f"    Labels not known, left alone: {named}{more}")
    if job.computed:
        lines.append(f"    The batch would compute: {', '.join(job.computed)}")
    alike: dict[str, list[str]] = defaultdict(list)
    for message in job.not_computed:
        alike[_WHICH.sub("", message)].append(message)
    for first, *others in alike.values():
        more = f" (and {len(others)} more like it)" if others else ""
        lines.append(f"    Open: {first}{more}")
    for question in job.questions:
        over = len(question.places) - MOST_PLACES
        where = joined(question.places[:MOST_PLACES]) + (f" and {over} more" if over > 0 else "")
        lines.append(f"    ? {question.text}{f' ({where})' if where else ''}")
    return lines


def _reading_lines(readings: tuple[Candidate, ...]) -> list[str]:
    """A line for each set of readings that one label names in one stage."""
    groups: dict[tuple[str, str, str, str], list[Candidate]] = defaultdict(list)
    for reading in readings:
        groups[reading.name, reading.label.text, reading.stage, reading.how].append(reading)
    return [line for group in groups.values() for line in _group_lines(group)]


def _group_lines(group: list[Candidate]) -> list[str]:
    first = group[0]
    values = ", ".join(_value(r) for r in group)
    units = {r.unit for r in group if r.unit}
    unit = f" {units.pop()}" if len(units) == 1 else ""
    alike = f" {first.likeness:.0f} of 100" if first.how == "proposal" else ""
    stage = f", {first.stage}" if first.stage else ""
    lines = [
        f"{first.name}{stage}: {values}{unit}  [{_HOW[first.how]} {first.label.text!r}{alike}; "
        f"{joined(r.place for r in group)}]"
    ]
    doubts: dict[str, list[Candidate]] = defaultdict(list)
    for reading in group:
        told = "; ".join(t for t in (reading.note, reading.content.reason) if t)
        offer = f" (perhaps {reading.content.offer})" if reading.content.offer else ""
        if told:
            doubts[told + offer].append(reading)
    return lines + [f"  - {joined(r.place for r in rs)}: {told}" for told, rs in doubts.items()]


def _value(reading: Candidate) -> str:
    if reading.value is not None:
        return f"{reading.value:g}"
    if reading.content.kind == "empty":
        return "(empty)"
    return f"({reading.content.kind}: {reading.content.raw!s})"

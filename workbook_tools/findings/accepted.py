"""Findings that somebody has accepted, in a line of the book or in a file beside the books."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Acceptance
from workbook_tools.jobs.records import Book
from workbook_tools.labels.label import Label
from workbook_tools.measurands.tokens import phrase
from workbook_tools.settings.accepted import Accepted

# What nobody can accept: it is signed, entered or calculated, or it is not.
_NEVER = ("not signed", "stale result", "never calculated", "unreadable")
_CELL = re.compile(r"\$?\b([A-Z]{1,3})\$?([1-9]\d{0,6})\b")
_NUMBER = re.compile(r"-?\d+(?:[.,]\d+)?")
# A name of less than two words is that of too many things.
_FEWEST_WORDS = 2


def with_acceptances(
    book: Book, findings: Iterable[Finding], listed: Sequence[Accepted] = ()
) -> Iterator[Finding]:
    """The findings, those that are accepted with by whom, when and why.

    listed: what a file beside the books accepts. A line that names a value holds only for it.
    """
    number = book.job.number.text.casefold()
    own = [a for a in listed if a.job.casefold() == number]
    known = _known(book) if own or book.accepted else None
    for finding in findings:
        by = None
        if known is not None and finding.kind not in _NEVER:
            by = _acceptance(finding, book.accepted, own, known)
        yield _accepted(finding, by) if by else finding


def _accepted(finding: Finding, by: Acceptance) -> Finding:
    return replace(finding, accepted=by, message=f"{finding.message} Accepted by {by}.")


def _acceptance(
    finding: Finding, said: Sequence[Acceptance], listed: Sequence[Accepted], known: _Known
) -> Acceptance | None:
    """The first line of the book, or entry of a file, that accepts a finding."""
    lines = (one for one in said if _is_about(one, finding, known))
    entries = (_of_file(one) for one in listed if _names_cell(one, finding))
    return next((one for several in (lines, entries) for one in several), None)


class _Known(NamedTuple):
    """What the cells of a book are called and hold, and its sheets."""

    labels: Mapping[Place, Label]
    values: Mapping[Place, float]
    sheets: frozenset[str]


def _known(book: Book) -> _Known:
    labels: dict[Place, Label] = {}
    values: dict[Place, float] = {}
    cells = [(r.place, r.label, r.value) for r in book.records]
    cells += [(r.place, r.label, r.value) for r in book.readings]
    for place, label, value in cells:
        if label is not None:
            labels[place] = label
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            values[place] = float(value)
    return _Known(labels, values, frozenset(place.sheet for place, _, _ in cells))


def _of_file(accepted: Accepted) -> Acceptance:
    return Acceptance(None, accepted.cell, "", accepted.who, accepted.when, accepted.why)


def _names_cell(accepted: Accepted, finding: Finding) -> bool:
    sheet, _, address = accepted.cell.rpartition("!")
    place = finding.place
    if accepted.code and accepted.code != finding.code:
        return False
    return place is not None and (place.sheet.casefold(), place.address) == (
        sheet.strip("'").casefold(),
        address.replace("$", "").upper(),
    )


def _is_about(said: Acceptance, finding: Finding, known: _Known) -> bool:
    """Whether a line is about a finding: by its cell, or by what the book calls it."""
    place = finding.place
    if place is None:
        return False
    named = {s for s in known.sheets if s.casefold() in said.what.casefold()}
    if named and place.sheet not in named:
        return False
    cells = {"".join(found) for found in _CELL.findall(said.what)}
    if place.address not in cells and not _is_named(known.labels.get(place), said.what):
        return False
    return _holds_for(said.value, known.values.get(place))


def _is_named(label: Label | None, what: str) -> bool:
    """Whether a text has all words of a label, its position too."""
    if label is None:
        return False
    words = phrase(str(label))
    return len(words) >= _FEWEST_WORDS and set(words) <= set(phrase(what))


def _holds_for(value: str, now: float | None) -> bool:
    """Whether an accepted value is the one that stands in the book, as it is written."""
    found = _NUMBER.search(value)
    if found is None or now is None:
        return True
    text = found[0].replace(",", ".")
    step = 10.0 ** -len(text.partition(".")[2])
    return abs(float(text) - now) <= 0.5 * step * (1 + 1e-6)

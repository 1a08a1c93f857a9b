"""The summary of a build: everything a page says, ready to be set in type."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.metadata import version
from typing import Any, get_args

from workbook_tools.books.cells import Trouble
from workbook_tools.catalog.reference import by_section
from workbook_tools.findings.codes import FindingKind
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Book, Job, Lack, Mark, Office, Record, State
from workbook_tools.summary.build_data import build_data
from workbook_tools.summary.finding_order import (
    FindingGroup,
    counted_by_kind,
    grouped,
    sorted_findings,
)
from workbook_tools.summary.items import (
    NOT_UNDERSTOOD,
    Item,
    function_words,
    in_order,
    reading_items,
    result_items,
)
from workbook_tools.summary.rows import Row, rows

STATES: tuple[State, ...] = get_args(State)


@dataclass(frozen=True)
class Section:
    """A section of the catalog with the rows that the book has for it."""

    title: str
    rows: tuple[Row, ...]


@dataclass(frozen=True)
class Unchecked:
    """A formula that was not recomputed, or whose saved value is another: which, and why."""

    place: Place
    label: str
    formula: str
    state: str
    reason: str


@dataclass(frozen=True)
class Recomputed:
    """How many calls were recomputed and compared, and which of them are not the same.

    rest also holds the book's ordinary formulas that feed calls, where these were saved
    with another value, or had to be taken as saved.
    """

    calls: int
    counts: Mapping[State, int]
    rest: tuple[Unchecked, ...]


@dataclass(frozen=True)
class Caution:
    """A caution, and the functions used in this book that it belongs to."""

    functions: tuple[str, ...]
    text: str


@dataclass(frozen=True)
class Summary:
    """One build, in the same order for every build.

    findings: by kind, then as the book is read; sections: results by section of the
    catalog; absent: the catalog's sections that this book has nothing for; readings: the
    measurements that the results rest on, by the section they are first used in; office,
    marks: what the book says for the office, and its places for signatures; data: the build as
    `build_data` gives it.
    """

    file_name: str
    sha256: str
    calculated_by: str
    job: Job
    findings: tuple[Finding, ...]
    sections: tuple[Section, ...]
    absent: tuple[str, ...]
    readings: tuple[Section, ...]
    recomputed: Recomputed
    cautions: tuple[Caution, ...]
    troubles: tuple[Trouble, ...]
    office: Office
    marks: tuple[Mark, ...]
    data: Mapping[str, Any]
    tool_version: str

    @property
    def read_through(self) -> str:
        """What another program did before the book was read, "" where it was read as saved."""
        if not self.calculated_by:
            return ""
        if self.file_name.lower().endswith((".xls", ".xlsb")):
            return f"read through {self.calculated_by}, which opened and calculated a copy"
        return f"calculated by {self.calculated_by} before it was read"

    @property
    def coverage(self) -> str:
        """What became of the book's typed numbers, a sentence; "" where there are none."""
        told = self.data["coverage"]
        others = {
            "asked about": told["asked"],
            "refused": told["refused"],
            "not understood": len(told["not_understood"]),
            "dates, counts or prices": len(told["not_a_reading"]),
        }
        rest = ", ".join(f"{count:,} {words}" for words, count in others.items() if count)
        numbers = "1 typed number" if told["numbers"] == 1 else f"{told['numbers']:,} typed numbers"
        if not told["numbers"]:
            return ""
        return f"{told['read']:,} of {numbers} read" + (f"; {rest}." if rest else ".")

    @property
    def results(self) -> int:
        """How many calls of worksheet functions the book holds."""
        return self.recomputed.calls

    @property
    def findings_by_kind(self) -> tuple[tuple[FindingKind, int], ...]:
        """(kind, how many), only kinds that there are."""
        return counted_by_kind(self.findings)

    @property
    def finding_groups(self) -> tuple[FindingGroup, ...]:
        """The findings in their order, those that ask for the same thing told together."""
        return grouped(self.findings)


def summarize(book: Book, findings: Sequence[Finding]) -> Summary:
    """The summary of a book that was read, with what was found in it.

    Raises nothing: what a book lacks is left empty, and said.
    """
    ordered = sorted_findings(book, findings)
    flags: dict[Place, list[str]] = {}
    for finding in ordered:
        if finding.place is not None and finding.kind not in flags.get(finding.place, []):
            flags.setdefault(finding.place, []).append(finding.kind)
    titles = section_titles()
    results = _sections(result_items(book), flags, titles)
    present = {section.title for section in results}
    said = {(finding.place, finding.message.rstrip(".")) for finding in ordered}
    return Summary(
        file_name=book.file_name,
        sha256=book.sha256,
        calculated_by=book.calculated_by,
        job=book.job,
        findings=ordered,
        sections=results,
        absent=tuple(title for title in titles if title not in present),
        readings=_sections(reading_items(book), flags, titles),
        recomputed=_recomputed(book),
        cautions=_cautions(book),
        troubles=tuple(
            t
            for t in book.troubles
            if not isinstance(t, Lack) and (t.place, t.message) not in said  # Findings tell these.
        ),
        office=book.office,
        marks=book.marks,
        data=build_data(book, ordered),
        tool_version=_own_version(),
    )


@cache
def _own_version() -> str:
    return version("workbook-tools")


@cache
def section_titles() -> tuple[str, ...]:
    """The catalog's sections, in the order of the work on an engine."""
    return tuple(by_section())


def _sections(
    items: Sequence[Item], flags: Mapping[Place, Sequence[str]], titles: Sequence[str]
) -> tuple[Section, ...]:
    found = []
    for title in (*titles, NOT_UNDERSTOOD):
        own = [item for item in items if item.section == title]
        if own:
            found.append(Section(title, rows(own, flags)))
    return tuple(found)


def _recomputed(book: Book) -> Recomputed:
    states = [record.state for record in book.records]
    calls = [
        Unchecked(
            place=record.place,
            label=str(record.label) if record.label else "",
            formula=record.function.full_name if record.function else record.name,
            state=record.state,
            reason=record.problem,
        )
        for record in in_order(book)
        if record.state not in ("same", "computed")
    ]
    stale = [
        Unchecked(f.place, str(f.label) if f.label else "", f.formula, "stale", "")
        for f in book.stale_formulas
    ]
    taken = [Unchecked(place, "", "", "as saved", why) for place, why in book.not_recalculated]
    rest = (*calls, *stale, *taken)
    return Recomputed(len(states), {state: states.count(state) for state in STATES}, rest)


def _cautions(book: Book) -> tuple[Caution, ...]:
    """The cautions of the functions used, each text once, in the order of the catalog."""
    used = {name for record in book.records if (name := _function_name(record))}
    by_text: dict[str, list[str]] = {}
    for function in (f for functions in by_section().values() for f in functions):
        if function.name in used and function.caution:
            by_text.setdefault(function.caution, []).append(function_words(function.name))
    return tuple(Caution(tuple(names), text) for text, names in by_text.items())


def _function_name(record: Record) -> str:
    return record.function.name if record.function else ""

"""The summary of a build: everything a page says, ready to be set in type."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from functools import cache, cached_property
from itertools import groupby
from typing import Any, get_args

from workbook_tools import __version__
from workbook_tools.books.cells import Trouble
from workbook_tools.catalog.reference import by_section
from workbook_tools.findings.code import FindingKind
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import Acceptance, FormRow, Job, Mark, Office
from workbook_tools.jobs.records import Book, Lack, Record, State
from workbook_tools.jobs.uncertainty import uncertainties
from workbook_tools.settings.gauges import Gauge
from workbook_tools.summary.bands import own_bands
from workbook_tools.summary.build_data import build_data, required
from workbook_tools.summary.cells import joined
from workbook_tools.summary.data_rows import Rows, finding_rows, reading_rows
from workbook_tools.summary.fasteners import fastener_lines
from workbook_tools.summary.finding_order import (
    FindingGroup,
    counted_by_kind,
    grouped,
    sorted_findings,
)
from workbook_tools.summary.found_final import FoundFinal, found_against_final
from workbook_tools.summary.glance import Glance, glance
from workbook_tools.summary.item import NOT_UNDERSTOOD, Item
from workbook_tools.summary.items import (
    function_words,
    in_order,
    reading_items,
    result_items,
    with_own_bands,
)
from workbook_tools.summary.key_facts import KeyFact, fact_data, key_facts, key_measurands
from workbook_tools.summary.lists import (
    ListTable,
    accepted_list,
    changes_list,
    fasteners_list,
    found_list,
    gauges_list,
    open_items_list,
    parts_list,
)
from workbook_tools.summary.loose_items import LOOSE, loose_items
from workbook_tools.summary.people import Signed, people
from workbook_tools.summary.revision import Revision, is_released, revision, revision_data
from workbook_tools.summary.rows import Flag, Row, rows
from workbook_tools.summary.runs import RUN, PowerRun, power_run, run_items
from workbook_tools.summary.standing import Standing, numbered, standing
from workbook_tools.summary.uncertain import with_uncertainty

# The findings by which a number itself is wrong, and so whatever is made from it.
DOUBTING = frozenset(
    (
        "slipped-decimal", "wrong-unit", "thousandths", "unusual-by-one-step", "one-turn",
        "half-or-double", "wrong-sign", "deck-sign", "crown-sign", "sizes-out-of-order",
        "per-side-for-total", "rocked-for-clearance", "contradicts-its-sizes", "entered-twice",
        "copied-readings",
    )
)  # fmt: skip
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

    standing: how the build stands; findings: by kind, then as the book is read; numbers: that
    of each finding; facts: what the engine is known by; power: its power run, None without
    one; sections: results by section of the
    catalog; absent: the catalog's sections that this book has nothing for; readings: the
    measurements that the results rest on, by the section they are first used in, then the
    numbers that are in no formula of ours; office, marks: what the book says for the office,
    and its places for signatures; forms: rows of its lists of parts and gauges and of its runs;
    accepted: deviations that it says are; found: sizes as found and as finished; revision: of
    a record that is given out again, None for a first copy; data: the build as `build_data`
    gives it.
    """

    file_name: str
    sha256: str
    calculated_by: str
    job: Job
    standing: Standing
    findings: tuple[Finding, ...]
    numbers: tuple[str, ...]
    facts: tuple[KeyFact, ...]
    power: PowerRun | None
    sections: tuple[Section, ...]
    absent: tuple[str, ...]
    readings: tuple[Section, ...]
    recomputed: Recomputed
    cautions: tuple[Caution, ...]
    troubles: tuple[Trouble, ...]
    office: Office
    marks: tuple[Mark, ...]
    forms: tuple[FormRow, ...]
    accepted: tuple[Acceptance, ...]
    found: tuple[FoundFinal, ...]
    revision: Revision | None
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
        if not told["numbers"]:
            return ""
        numbers = "1 typed number" if told["numbers"] == 1 else f"{told['numbers']:,} typed numbers"
        counts = (
            (told["asked"], "asked about"),
            (told["refused"], "refused"),
            (len(told["not_a_reading"]), "dates, counts or prices"),
            (len(told["not_understood"]), "not understood, listed in the appendix"),
        )
        rest = ", ".join(f"{count:,} {words}" for count, words in counts if count)
        of_bands = "1 number" if told["judged"] == 1 else f"{told['judged']:,} numbers"
        judged = f"{of_bands} judged by a band"
        limits = f", {told['limits']:,} of them limits or wanted sizes" if told["limits"] else ""
        read = f"{told['read']:,} of {numbers} read{limits}, {judged}"
        key = key_measurands()
        asked = [
            Place(r["sheet"], r["cell"])
            for r in self.data["readings"]
            if r["state"] == "asked" and r["measurand"] in key
        ]
        open_ = f" To be settled, as they may be key facts: {joined(asked)}." if asked else ""
        return f"{read}; {rest}.{open_}" if rest else f"{read}.{open_}"

    @property
    def title(self) -> str:
        """What the page is, with the revision of a record that is given out again."""
        number, on = self.office.revision.text, self.office.revised.text
        told = " of ".join(filter(None, (f"revision {number}" if number else "", on)))
        if not told and self.revision is not None:
            told = self.revision.name
        return f"Build record, {told}" if told else "Build record"

    @property
    def changed(self) -> str:
        """What changed since the last copy: what the book says, then the counts of what did."""
        counts = self.revision.counts if self.revision else ""
        return "; ".join(filter(None, (self.office.changed.text, counts)))

    @property
    def glance(self) -> tuple[Glance, ...]:
        """The ratio, the quench and the worst clearance."""
        return glance(self.facts)

    @property
    def people(self) -> tuple[Signed, ...]:
        """Who measured, assembled, checked and released, as the book's marks say."""
        return people(self.marks)

    @property
    def lists(self) -> tuple[tuple[str, ListTable], ...]:
        """The lists besides the measurements, each with its title; only those with rows."""
        told = (
            ("Changed since the last copy", changes_list(self.revision)),
            ("Fasteners", fasteners_list(fastener_lines(self.office.fasteners))),
            ("Found against final", found_list(self.found)),
            ("Parts", parts_list(self.forms)),
            ("Gauges", gauges_list(self.forms)),
            ("Open items", open_items_list(self.office.open_items)),
            ("Outside its band and accepted", accepted_list(self.accepted)),
        )
        return tuple((title, table) for title, table in told if table.rows)

    @property
    def unlisted(self) -> str:
        """What the book has no list of, in words; "" where it has all."""
        titles = [title.lower() for title, _ in self.lists]
        return ", ".join(n for n in ("fasteners", "parts", "gauges") if n not in titles)

    @cached_property
    def reading_rows(self) -> Rows:
        """Every reading, result and missing reading, by READING_COLUMNS."""
        return reading_rows(self.data)

    @cached_property
    def finding_rows(self) -> Rows:
        """Every finding, by FINDING_COLUMNS."""
        return finding_rows(self.data)

    @property
    def fact_groups(self) -> tuple[tuple[str, tuple[KeyFact, ...]], ...]:
        """The key facts under their headings."""
        return tuple((name, tuple(some)) for name, some in groupby(self.facts, lambda f: f.group))

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
        return grouped(self.findings, self.numbers)


def summarize(
    book: Book,
    findings: Sequence[Finding],
    earlier: Mapping[str, Any] | None = None,
    gauges: Sequence[Gauge] = (),
) -> Summary:
    """The summary of a book that was read, with what was found in it.

    earlier: the data of the copy of this build before, None without one; gauges: the shop's, by
    which uncertainties are told. Raises nothing: what a book lacks is left empty, and said.
    """
    ordered = sorted_findings(book, findings)
    numbers = numbered(ordered)
    flags = _flags(ordered, numbers)
    titles = section_titles()
    own = own_bands(book)
    expanded = uncertainties(book, gauges)
    made = with_uncertainty(with_own_bands(result_items(book), own), expanded)
    results = _sections([*made], flags, titles)
    taken = (*reading_items(book), *loose_items(book), *run_items(book))
    read = with_uncertainty(with_own_bands(taken, own), expanded)
    readings = _sections([*read], flags, (*titles, LOOSE, RUN))
    present = {section.title for section in results}
    said = {(finding.place, finding.message.rstrip(".").casefold()) for finding in ordered}
    every_row = [row for section in (*results, *readings) for row in section.rows]
    power = power_run(book)
    facts = key_facts(every_row, _notes(book, power))
    counted = required(book)
    judged = sum(bool(n.verdict) for row in every_row for n in row.numbers)
    stands = standing(book, ordered, counted, key_measurands(), judged)
    data = build_data(
        book,
        tuple(zip(numbers, ordered, strict=True)),
        standing=asdict(stands),
        required=counted,
        facts=tuple(map(fact_data, facts)),
        power=power.data if power else None,
        judged=judged,
        expanded=expanded,
    )
    data["revision"] = revision_data(earlier, data, book.saved)
    return Summary(
        file_name=book.file_name,
        sha256=book.sha256,
        calculated_by=book.calculated_by,
        job=book.job,
        standing=stands,
        findings=ordered,
        numbers=numbers,
        facts=facts,
        power=power,
        sections=results,
        absent=tuple(title for title in titles if title not in present),
        readings=readings,
        recomputed=_recomputed(book),
        cautions=_cautions(book),
        troubles=tuple(
            t
            for t in book.troubles
            # Findings tell these.
            if not isinstance(t, Lack) and (t.place, t.message.casefold()) not in said
        ),
        office=book.office,
        marks=book.marks,
        forms=book.forms,
        accepted=book.accepted,
        found=found_against_final(book),
        revision=revision(data["revision"], is_released(data), every_row, facts),
        data=data,
        tool_version=__version__,
    )


def _notes(book: Book, power: PowerRun | None) -> dict[str, str]:
    """What is said beside key facts, by measurand: why this gasket, and how power is meant."""
    told = {"gasket_thickness": book.office.gasket_reason.text}
    if power is not None:
        told |= {"power": power.words, "engine_torque": power.words}
    return {name: words for name, words in told.items() if words}


def _flags(findings: Sequence[Finding], numbers: Sequence[str]) -> dict[Place, list[Flag]]:
    """The findings by the cells that they are about; a kind only at the first cell of each."""
    flags: dict[Place, list[Flag]] = {}
    for number, finding in zip(numbers, findings, strict=True):
        for place in finding.places:
            own = place == finding.place
            told = Flag(number, finding.kind if own else "", own and finding.code in DOUBTING)
            flags.setdefault(place, []).append(told)
    return flags


@cache
def section_titles() -> tuple[str, ...]:
    """The catalog's sections, in the order of the work on an engine."""
    return tuple(by_section())


def _sections(
    items: Sequence[Item], flags: Mapping[Place, Sequence[Flag]], titles: Sequence[str]
) -> tuple[Section, ...]:
    own: dict[str, list[Item]] = {}
    for item in items:
        own.setdefault(item.section, []).append(item)
    told = [title for title in (*titles, NOT_UNDERSTOOD) if title in own]
    return tuple(Section(title, rows(own[title], flags)) for title in told)


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


@cache
def _all_cautions() -> tuple[tuple[str, str], ...]:
    """Each function that has a caution, with it, in the order of the catalog."""
    every = (function for functions in by_section().values() for function in functions)
    return tuple((function.name, function.caution) for function in every if function.caution)


def _cautions(book: Book) -> tuple[Caution, ...]:
    """The cautions of the functions used, each text once, in the order of the catalog."""
    used = {name for record in book.records if (name := _function_name(record))}
    by_text: dict[str, list[str]] = {}
    for name, caution in _all_cautions():
        if name in used:
            by_text.setdefault(caution, []).append(function_words(name))
    return tuple(Caution(tuple(names), text) for text, names in by_text.items())


def _function_name(record: Record) -> str:
    return record.function.name if record.function else ""

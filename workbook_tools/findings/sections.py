"""Whole sections that the record of a finished job has to hold and does not."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

from workbook_tools.findings.evidence import WISHES, Evidence
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Book, Record
from workbook_tools.measurands.tokens import phrase
from workbook_tools.settings.finished import Scope, Section, scopes, sections
from workbook_tools.settings.shop import Required

# Sections of one part of the engine that tell that it was built.
_FEWEST_OF_PART = 2
# A book that neither says what was built nor has a place for a section is asked for it where it
# has so large a share of the others: it means to be the whole record.
_WHOLE_RECORD = 5 / 6
# What a test gives: worked out, it is only what to expect.
_ONLY_MEASURED = {"leakage", "cranking_pressure", "oil_pressure"}
# What these give is wanted and not measured.
_WANTED = ("RING_GAP",)


def check_sections(evidence: Evidence, required: Required) -> Iterator[Finding]:
    """A finding for each section that a finished job's record has to hold and does not.

    required: the shop's own lists of what that is, by scope.
    """
    book, finished = evidence.book, evidence.finished_on
    if not finished:
        return
    filled = _filled(book)
    scope, how = _scope(book, filled)
    if scope is None:
        return
    own = dict(required)
    wanted = [sections()[name] for name in own.get(scope.name, scope.sections)]
    missing = [s for s in wanted if s.name not in filled]
    whole = how == "said" or scope.name in own
    whole = whole or len(missing) <= (1 - _WHOLE_RECORD) * len(wanted)
    for section in missing:
        empty = _empty_places(book, section)
        if empty or (whole and not _waits(book, section)):
            yield _finding(section, scope, empty, finished, shop=scope.name in own)


def _filled(book: Book) -> frozenset[str]:
    """The sections of which something is in the book."""
    taken = [
        r
        for r in book.readings
        if r.value is not None and r.state == "read" and r.stage not in WISHES
    ]
    known = {r.measurand for r in taken}
    known |= {r.measurand for r in book.records if _is_result(r)} - _ONLY_MEASURED
    known |= {s.measurand for s in book.stated if s.stage not in WISHES}
    judged = {r.label.text for r in taken if r.label and not r.measurand}
    return frozenset(
        s.name
        for s in sections().values()
        if _is_filled(book, s, known) or any(_names(text, s.labels) for text in judged)
    )


@lru_cache(maxsize=8192)
def _names(text: str, labels: tuple[str, ...]) -> bool:
    """Whether a label has one of these words, one after the other."""
    words = phrase(text)
    return any(
        words[n : n + len(wanted)] == wanted
        for wanted in map(phrase, labels)
        for n in range(len(words))
    )


def _is_result(record: Record) -> bool:
    name = record.function.name if record.function else ""
    wanted = name in _WANTED or name.endswith("_BAND")
    return isinstance(record.value, (int, float)) and not wanted


def _is_filled(book: Book, section: Section, known: set[str]) -> bool:
    if section.signature:
        return bool(book.marks)  # One that is open is told by itself.
    if section.field:
        return bool(getattr(book.office, section.field).text)
    if section.torque and any(_has_figure(said) for f in book.office.fasteners for said in f.said):
        return True
    return not known.isdisjoint(section.measurands)


def _has_figure(said: tuple[str, str]) -> bool:
    """Whether a column of a table of fasteners has a step, a torque or an angle in it."""
    words = phrase(said[0])
    steps = {"torque", "step", "stage", "turn", "angle", "nm", "n", "ft", "lbf", "lb"}
    return any(c.isdigit() for c in said[1]) and not steps.isdisjoint(words)


def _scope(book: Book, filled: frozenset[str]) -> tuple[Scope | None, str]:
    """What was built, and whether the book says it or its sections show it."""
    said = _said_scope(book.office.scope.text)
    if said:
        return scopes()[said], "said"
    parts = [sections()[name].part for name in filled]
    if parts.count("bottom") >= _FEWEST_OF_PART:
        built = "complete" if len(set(parts) - {""}) > 1 else "short block"
        return scopes()[built], "shown"
    heads_alone = not parts.count("bottom") and parts.count("heads") >= _FEWEST_OF_PART
    return (scopes()["heads only"], "shown") if heads_alone else (None, "")


@lru_cache(maxsize=256)
def _said_scope(text: str) -> str:
    words = phrase(text)
    return next(
        (s.name for s in scopes().values() if any(phrase(word) == words for word in s.words)), ""
    )


def _empty_places(book: Book, section: Section) -> tuple[Place, ...]:
    """The cells that a book has for a section and leaves empty."""
    if section.torque and book.office.fasteners:
        return (book.office.fasteners[0].place,)
    empty = [r.place for r in book.missing if r.measurand in section.measurands]
    for record in book.records if not section.torque else ():
        if record.value is None and record.place.address:
            empty += _needed(record, section)
    return tuple(dict.fromkeys(empty))


def _needed(record: Record, section: Section) -> Iterator[Place]:
    """The empty cells that a result of a section, or a verdict on it, has no value without."""
    own = record.measurand in section.measurands
    for argument in record.arguments:
        if argument.place is None or argument.formula or argument.value not in (None, ""):
            continue
        if own or (argument.label and _names(argument.label.text, section.labels)):
            yield argument.place


def _waits(book: Book, section: Section) -> bool:
    """Whether results of a section only wait for others, which are told where they are missed."""
    return any(r.measurand in section.measurands and r.value is None for r in book.records)


def _finding(
    section: Section, scope: Scope, empty: Sequence[Place], finished: str, *, shop: bool
) -> Finding:
    place = empty[0] if empty else None
    where = f" (empty from {place.address} on)" if place else ""
    who = "the shop's list" if shop else "common practice; a shop.toml can say otherwise"
    built = {"complete": "a complete engine", "heads only": "heads"}.get(
        scope.name, "a short block"
    )
    return Finding(
        "missing-section",
        place,
        f"Nothing is recorded of {section.name}{where}. The record of {built} has it ({who}). "
        f"The engine is dated finished ({finished}).",
        "Enter it from the first records, or measure it before the engine leaves.",
        tuple(empty[1:]),
        explains=frozenset(empty),
    )

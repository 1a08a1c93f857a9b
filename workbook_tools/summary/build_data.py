"""A build as plain data: the contract that JSON, CSV and whoever reads them rest on."""

from __future__ import annotations

import datetime
import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields
from typing import Any

from workbook_tools import __version__
from workbook_tools.catalog import CellError
from workbook_tools.findings.book_limits import WISHED, ranges_as_limits
from workbook_tools.findings.evidence import evidence_of
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.paper_records import JobField, Mark
from workbook_tools.jobs.records import (
    Argument,
    Book,
    Question,
    Reading,
    Record,
    StatedResult,
    in_si,
)
from workbook_tools.jobs.resolution import resolutions
from workbook_tools.jobs.uncertainty import Key, Uncertainty, key_of
from workbook_tools.labels.label import Label
from workbook_tools.measurands import Position, find
from workbook_tools.quantities import System
from workbook_tools.summary.items import in_order

# Counts up with each change that a reader of the data has to know of.
SCHEMA = "workbook-tools build 3"


def build_data(
    book: Book,
    findings: Sequence[tuple[str, Finding]],
    *,
    standing: Mapping[str, Any],
    required: Mapping[str, Any],
    facts: Sequence[Mapping[str, Any]],
    power: Mapping[str, Any] | None,
    judged: int,
    expanded: Mapping[Key, Uncertainty],
) -> dict[str, Any]:
    """Everything that was read, computed and found of one build, as JSON holds it.

    A typed cell is in readings, in coverage.not_a_reading or in coverage.not_understood; a
    cell with a formula in results; what the batch derived is a result without a cell. The
    findings stand in the order given, each with its number. The revision is left to whoever
    knows the copy before. standing, required, facts, power: as data; judged: how many numbers
    have a verdict; expanded: the uncertainties that are known. Numbers that JSON
    cannot hold are null. Raises nothing.
    """
    written = resolutions(book.readings)
    return {
        "schema": SCHEMA,
        "tool": {"name": "workbook-tools", "version": __version__},
        "book": _book(book),
        "job": {f.name: _field(getattr(book.job, f.name)) for f in fields(book.job)},
        "state": standing["word"],
        "counts": {name: count for name, count in standing.items() if name != "word"},
        "facts": list(facts),
        "power": power,
        "readings": [
            _reading(r, written, expanded) for r in book.readings if r.state != "not understood"
        ],
        "results": list(_results(book, expanded)),
        "findings": [_finding(number, f) for number, f in findings],
        "signed": [_mark(mark) for mark in book.marks],
        "required": required,
        "coverage": _coverage(book, judged),
        "questions": [_question(q) for q in book.questions],
    }


def _book(book: Book) -> dict[str, str]:
    return {
        "file": book.file_name,
        "sha256": book.sha256,
        "part": book.part,
        "calculated_by": book.calculated_by,
    }


def _field(field: JobField) -> dict[str, str]:
    return {"text": field.text, **_place(field.place)}


def _place(place: Place | None) -> dict[str, str]:
    return {"sheet": place.sheet, "cell": place.address} if place else {"sheet": "", "cell": ""}


def _part(part: Position) -> dict[str, Any]:
    number = f"{part.number}-{part.last}" if part.last else part.number or None
    return {"of": part.of, "number": number, "bank": part.bank, "at": " ".join(part.at)}


def _rounded(number: float | None) -> float | None:
    """What a step or an uncertainty is to six digits: more say nothing of it."""
    return None if number is None else float(f"{number:.6g}")


def _expanded(of: Key, known: Mapping[Key, Uncertainty]) -> float | None:
    return _rounded(known[of].bare) if of in known else None


def _reading(
    reading: Reading, written: Mapping[Place, float], expanded: Mapping[Key, Uncertainty]
) -> dict[str, Any]:
    return {
        **_place(reading.place),
        "label": str(reading.label or ""),
        "measurand": reading.measurand,
        "part": _part(reading.part),
        "stage": reading.stage,
        "value": plain(reading.value if reading.value is not None else reading.raw),
        "unit": reading.unit,
        "si": plain(_si(reading)) if reading.state == "read" else None,
        "resolution": _rounded(written.get(reading.place)) if reading.state == "read" else None,
        "uncertainty": _expanded(reading.place, expanded),
        "state": reading.state,
        "reason": _reason(reading),
        "note": reading.note,
        "evidence": [{"how": e.how, "words": e.words} for e in reading.evidence],
    }


def _question(question: Question) -> dict[str, Any]:
    return {
        "kind": question.kind,
        "text": question.text,
        "cells": [str(place) for place in question.places],
        "measurand": question.guess,
        "others": list(question.others),
        "costs": list(question.costs),
        "table": question.table,
        "answer": question.answer,
        "instead": question.instead,
    }


def _si(sized: Reading | StatedResult) -> float | None:
    """A number in SI; of a percentage the share."""
    term, si = find(sized.measurand), sized.si
    return si / 100 if si is not None and term is not None and term.bare_units[0] == "%" else si


def _reason(reading: Reading) -> str:
    """Why a reading is asked or refused, "" for any other."""
    if reading.reason or reading.state == "read":
        return reading.reason
    return "what the book calls it is only like a name that is known"


def _results(book: Book, expanded: Mapping[Key, Uncertainty]) -> Iterator[dict[str, Any]]:
    """The result of each formula cell, and of each call that the batch made."""
    judged = _verdicts(book)
    told: set[Place] = set()
    for record in in_order(book):
        if record.place not in told or record.computed_by_batch:
            known = _expanded(key_of(record), expanded) if expanded else None
            yield _result(record, judged.get(record.place), known)
        if not record.computed_by_batch:
            told.add(record.place)
    for stated in book.stated:
        if stated.place not in told:
            yield _stated(stated, judged.get(stated.place))


def _result(
    record: Record, verdict: dict[str, Any] | None, expanded: float | None
) -> dict[str, Any]:
    """What a cell's outermost call gives; of a longer formula, what the whole cell comes to."""
    whole = record.gives_its_cell
    value = record.value if whole else record.recomputed
    kind = record.function.result if record.function and whole else None
    number = value if isinstance(value, (int, float)) and not isinstance(value, bool) else None
    system: System = "metric" if record.system == "metric" else "inch"
    return {
        "sheet": record.place.sheet,
        "cell": "" if record.computed_by_batch else record.place.address,
        "label": str(record.label or ""),
        "measurand": record.measurand,
        "part": _part(record.part),
        "stage": "",
        "function": record.function.full_name if record.function else record.name,
        "formula": record.formula,
        "arguments": [_argument(a) for a in record.arguments],
        "value": plain(value),
        "unit": record.unit if whole else "",
        "si": plain(in_si(number, kind, system)),
        "uncertainty": expanded,
        "saved": plain(record.saved),
        "fresh": plain(record.fresh),
        "state": record.state,
        "problem": record.problem,
        **(verdict or _NO_VERDICT),
    }


def _argument(given: Argument) -> dict[str, Any]:
    place = given.place
    return {
        "name": given.name,
        "text": given.text,
        "value": plain(given.value),
        "unit": given.unit,
        "sheet": place.sheet if place else "",
        "cell": place.address if place else "",
        "problem": given.problem,
    }


_NO_VERDICT: dict[str, Any] = {"limits": None, "verdict": ""}


def _stated(stated: StatedResult, verdict: dict[str, Any] | None) -> dict[str, Any]:
    return {
        **_place(stated.place),
        "label": str(stated.label),
        "measurand": stated.measurand,
        "part": _part(stated.part),
        "stage": stated.stage,
        "function": "",
        "formula": "",
        "arguments": [],
        "value": plain(stated.value),
        "unit": stated.unit,
        "si": plain(_si(stated)),
        "uncertainty": None,
        "saved": plain(stated.value),
        "fresh": None,
        "state": "as saved",
        "problem": "",
        **(verdict or _NO_VERDICT),
    }


def _verdicts(book: Book) -> dict[Place, dict[str, Any]]:
    """The limits and the verdict that the book's own calls give each cell."""
    found: dict[Place, dict[str, Any]] = {}
    for judged in evidence_of(book).verdicts:
        if judged.place is not None:
            low, high = (plain(a.value) if a else None for a in (judged.low, judged.high))
            limits = {"low": low, "high": high, "from": judged.by.place.address}
            found[judged.place] = {"limits": limits, "verdict": judged.verdict}
    return found


def _finding(number: str, finding: Finding) -> dict[str, Any]:
    return {
        "number": number,
        "code": finding.code,
        "kind": finding.kind,
        **_place(finding.place),
        "cells": [f"{p.sheet}!{p.address}" for p in finding.places],
        "message": finding.message,
        "advice": finding.advice,
        "accepted": finding.accepted is not None,
        "acceptance": str(finding.accepted or ""),
    }


def _mark(mark: Mark) -> dict[str, str]:
    said = "" if mark.state == "empty" else mark.said
    return {**_place(mark.place), "label": str(mark.label), "said": said, "state": mark.state}


# An empty cell for what a part came with, or for what is wanted, leaves nothing unmeasured.
_ASIDE = ("found", *WISHED)


def required(book: Book) -> dict[str, Any]:
    """How many readings the book's results and tables want, and which were not taken."""
    missing = {r.place: r for r in book.missing if r.stage not in _ASIDE}
    needed = {r.place for r in book.readings if r.uses or (r.measurand and r.stage not in WISHED)}
    empty = {
        a.place: a.label
        for record in book.records
        for a in record.arguments
        if a.place is not None and a.value is None and ":" not in a.place.address
        if not a.formula and not record.computed_by_batch
    }
    wanted = {**{place: r.label for place, r in missing.items()}, **empty}
    return {
        "wanted": len(needed) + len(wanted.keys() - needed),
        "measured": len(needed),
        "missing": [
            {**_place(place), "label": str(label or "")}
            for place, label in sorted(wanted.items())
            if place not in needed
        ],
    }


def _coverage(book: Book, judged: int) -> dict[str, Any]:
    """How many typed numbers there are, and what became of each; judged counts results too."""
    ranges = {r.place for r in ranges_as_limits(book)}
    states = {r.place: "read" if r.place in ranges else r.state for r in book.readings}
    of_state = Counter(states.values())
    counts = {s: of_state[s] for s in ("read", "asked", "refused")}
    wished = {r.place for r in book.readings if r.stage in WISHED and states[r.place] == "read"}
    not_understood = [r for r in book.readings if r.state == "not understood"]
    return {
        "numbers": len(states) + len(book.no_readings),
        **counts,
        "limits": len(wished),
        "judged": judged,
        "not_a_reading": [{**_place(n.place), "as": n.kind} for n in book.no_readings],
        "not_understood": [
            {**_place(r.place), "value": plain(r.raw), "near": _words(r.label)}
            for r in not_understood
        ],
    }


def _words(label: Label | None) -> str:
    return str(label) if label else ""


def plain(value: object) -> Any:
    """A cell's content as JSON holds it."""
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if value is None or isinstance(value, (str, int)):
        return value
    if isinstance(value, tuple):
        return [plain(part) for part in value]
    if isinstance(value, CellError):
        return value.text
    if isinstance(value, (datetime.date, datetime.time)):
        return value.isoformat()
    return str(value)

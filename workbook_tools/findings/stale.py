"""Stale results: the saved value is not what the formula gives now."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.books.places import order_of
from workbook_tools.books.recalculation import agree
from workbook_tools.catalog import CellError
from workbook_tools.findings.evidence import Evidence
from workbook_tools.findings.finding import MOST_ALSO, Finding, named
from workbook_tools.jobs.records import Book

# A formula longer than this is shown by its beginning.
_LONGEST = 40


def _shown(value: object) -> str:
    if isinstance(value, CellError):
        return value.text
    return f"{value:.6g}" if isinstance(value, (int, float)) else str(value)


def _brief(formula: str) -> str:
    return formula if len(formula) <= _LONGEST else f"{formula[:_LONGEST]}…"


def _what_follows(book: Book) -> str:
    """A sentence on the results that agree with their cells but not with the readings."""
    changed = [
        f"{r.name} in {r.place.address} then comes to {_shown(r.fresh)}, not {_shown(r.saved)}"
        for r in book.records
        if r.state == "same" and r.whole and r.fresh is not None and not agree(r.saved, r.fresh)
    ]
    if not changed:
        return ""
    more = f", and {len(changed) - 1} more results change" if len(changed) > 1 else ""
    return f" {changed[0]}{more}."


_RECALCULATE = "Open the book, recalculate it, save it, and check who changed what."


def check_stale(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each stale cell, and one for all cells that were never calculated."""
    book = evidence.book
    # Told with the first stale cell: the others are saved in the same opening of the book.
    follows = _what_follows(book)
    # What reads the same is not told to be another, as of programs that keep fewer digits.
    stale = {
        r.place: r
        for r in book.records
        if r.state == "stale" and _shown(r.saved) != _shown(r.recomputed)
    }
    for place, record in stale.items():
        yield Finding(
            "stale-result",
            place,
            f"{named(record.label, place)} was saved as {_shown(record.saved)}; recomputed from "
            f"the same cells it is {_shown(record.recomputed)}.{follows}",
            _RECALCULATE,
        )
        follows = ""
    for formula in book.stale_formulas:
        yield Finding(
            "stale-formula",
            formula.place,
            f"{named(formula.label, formula.place)} was saved as {_shown(formula.saved)}; its "
            f"formula {_brief(formula.formula)} comes to {_shown(formula.fresh)}.{follows}",
            _RECALCULATE,
        )
        follows = ""
    unsaved = {r.place for r in book.records if r.state == "not saved"}
    if unsaved:
        many = "1 result was" if len(unsaved) == 1 else f"{len(unsaved)} results were"
        yield Finding(
            "never-calculated",
            None,
            f"{many} never calculated by the program that saved the book; this summary shows "
            "what they come to.",
            "Open the book in a program that has the ENG functions, and save it.",
            tuple(sorted(unsaved, key=order_of))[:MOST_ALSO],
        )

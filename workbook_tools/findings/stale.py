"""Stale results: the saved value is not what the formula gives now."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.books.recalculation import agree
from workbook_tools.books.records import Book
from workbook_tools.catalog import CellError
from workbook_tools.findings.finding import Finding


def _shown(value: object) -> str:
    if isinstance(value, CellError):
        return value.text
    return f"{value:.6g}" if isinstance(value, (int, float)) else str(value)


def check_stale(book: Book) -> Iterator[Finding]:
    """A finding for each stale cell, and one for all cells that were never calculated."""
    seen = set()
    for record in book.records:
        if record.state != "stale" or record.place in seen:
            continue
        seen.add(record.place)
        name = f"{record.label} ({record.place.address})" if record.label else record.place.address
        yield Finding(
            "stale result",
            record.place,
            f"{name} was saved as {_shown(record.saved)}; recomputed from the same cells it is "
            f"{_shown(record.recomputed)}.",
            "Open the book, recalculate it, save it, and check who changed what.",
        )
    for formula in book.stale_formulas:
        name = (
            f"{formula.label} ({formula.place.address})"
            if formula.label
            else (formula.place.address)
        )
        follows = [
            f"{r.name} in {r.place.address} then comes to {_shown(r.fresh)}, not {_shown(r.saved)}"
            for r in book.records
            if r.state == "same" and r.whole and r.fresh is not None and not agree(r.saved, r.fresh)
        ]
        more = f" {follows[0]}" if follows else ""
        more += f", and {len(follows) - 1} more change" if len(follows) > 1 else ""
        yield Finding(
            "stale result",
            formula.place,
            f"{name} was saved as {_shown(formula.saved)}; its formula {formula.formula} comes to "
            f"{_shown(formula.fresh)}.{more}{'.' if more else ''}",
            "Open the book, recalculate it, save it, and check who changed what.",
        )
    unsaved = {r.place for r in book.records if r.state == "not saved"}
    if unsaved:
        many = "1 result was" if len(unsaved) == 1 else f"{len(unsaved)} results were"
        yield Finding(
            "stale result",
            None,
            f"{many} never calculated by the program that saved the book; this summary shows "
            "what they come to.",
            "Open the book in a program that has the ENG functions, and save it.",
        )

"""Findings on a number that is wrong, with the results of the book that are worked out from it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from workbook_tools.books.places import cells_of, order_of
from workbook_tools.findings.code import FindingKind
from workbook_tools.findings.finding import MOST_ALSO, Finding, named, words_of
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.records import Book
from workbook_tools.labels.label import Label

# What is worked out from a cell on which one of these is told is as doubtful as it.
_WRONG: tuple[FindingKind, ...] = ("disagreement", "unit slip")
# These are told at the first of two cells that are both wrong.
_OF_TWO = ("bore-and-stroke", "exchanged-in-part")
# So many results are named one by one, those of another sheet by one of them.
_MOST_NAMED = 3

Dependents = Mapping[Place, Mapping[Place, Label | None]]


def with_dependents(book: Book, findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """The findings, those on a wrong number with what the book's own formulas make of it."""
    if all(finding.kind not in _WRONG for finding in findings):
        return tuple(findings)
    by_cell = _dependents(book)
    told = frozenset(f.place for f in findings if f.place is not None)
    return tuple(_with_own(finding, by_cell, told) for finding in findings)


def _dependents(book: Book) -> Dependents:
    """Of each cell the results that are worked out from it, with what the book calls them."""
    found: dict[Place, dict[Place, Label | None]] = defaultdict(dict)
    for stated in book.stated:
        for place in stated.takes:
            found[place][stated.place] = stated.label
    for record in book.records:
        if record.computed_by_batch:
            continue
        for argument in record.arguments:
            for place in cells_of(argument.place) if argument.place else ():
                found[place][record.place] = record.label
    return found


def _with_own(finding: Finding, by_cell: Dependents, told: frozenset[Place]) -> Finding:
    if finding.place is None or finding.kind not in _WRONG:
        return finding
    known = {*finding.places, *told}
    wrong = finding.places[: 2 if finding.code in _OF_TWO else 1]
    following = {p: label for p, label in _all_of(wrong, by_cell) if p not in known}
    if not following:
        return finding
    ordered = sorted(following, key=order_of)
    here = finding.place.sheet
    shown = ordered[: _MOST_NAMED if all(place.sheet == here for place in ordered) else 1]
    names = [_named(following[place], place, here) for place in shown]
    if more := len(ordered) - len(names):
        names.append(f"{more} more")
    one = len(ordered) == 1
    return replace(
        finding,
        message=f"{finding.message} {_listed(names)} {'is' if one else 'are'} worked out from "
        f"{'it' if len(wrong) == 1 else 'them'}.",
        also=(*finding.also[: MOST_ALSO - len(shown)], *shown),
    )


def _all_of(wrong: Sequence[Place], by_cell: Dependents) -> Iterator[tuple[Place, Label | None]]:
    """What is worked out from cells, and from that, each once."""
    seen, left = {*wrong}, [*wrong]
    while left:
        for one, label in by_cell.get(left.pop(), {}).items():
            if one not in seen:
                seen.add(one)
                left.append(one)
                yield one, label


def _named(label: Label | None, place: Place, here: str) -> str:
    own = label if words_of(label) else None
    if place.sheet == here:
        return named(own, place)
    return f"{own} ({place})" if own else str(place)


def _listed(names: Iterable[str]) -> str:
    *first, last = names
    return f"{', '.join(first)} and {last}" if first else last

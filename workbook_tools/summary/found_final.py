"""As found against as finished: what was taken off or put on, where a book has both."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from workbook_tools.jobs.records import Book, Reading, StatedResult
from workbook_tools.measurands import Measurand, Position, find
from workbook_tools.quantities import System, from_si
from workbook_tools.summary.figures import Measure, figure

_FINISHED = ("final", "machined")
# Of these a change is told without a word for it: nothing is cut off a clearance.
_BETWEEN_PARTS = ("clearance", "gap", "play", "lash", "preload", "leakage", "pressure", "quench")


@dataclass(frozen=True)
class FoundFinal:
    """A size as found and as finished, of all positions that have both, in figures.

    removed: the most that any position changed by, and what that was; at: where.
    """

    name: str
    unit: str
    found: str
    final: str
    removed: str
    at: str


_Sized = Reading | StatedResult


def found_against_final(book: Book) -> tuple[FoundFinal, ...]:
    """The sizes that a book has as found and as finished, by the table of measurands.

    Raises nothing.
    """
    found: dict[str, dict[Position, list[_Sized]]] = defaultdict(lambda: defaultdict(list))
    final: dict[str, dict[Position, list[_Sized]]] = defaultdict(lambda: defaultdict(list))
    sized: tuple[_Sized, ...] = (*book.readings, *book.stated)
    for one in sized:
        known = one.measurand and one.si is not None
        if not known or (isinstance(one, Reading) and one.state != "read"):
            continue
        if one.stage == "found":
            found[one.measurand][_which(one.part)].append(one)
        elif one.stage in _FINISHED:
            final[one.measurand][_which(one.part)].append(one)
    return tuple(_compared(found, final))


def _which(part: Position) -> Position:
    """Of which part, whatever place on it: a bore is read at several."""
    return Position(part.of, part.number, part.bank, (), part.last)


def _compared(
    found: dict[str, dict[Position, list[_Sized]]], final: dict[str, dict[Position, list[_Sized]]]
) -> Iterator[FoundFinal]:
    terms = [term for name in found if name in final and (term := find(name)) is not None]
    for term in sorted(terms, key=lambda term: term.number):
        before, after = found[term.id], final[term.id]
        both = sorted(set(before) & set(after), key=lambda part: part.order)
        if both:
            system = before[both[0]][0].system
            yield _told(term, system, both, [_mean(before[p]) for p in both],
                        [_mean(after[p]) for p in both])  # fmt: skip


def _mean(sized: Sequence[_Sized]) -> float:
    values = [one.si for one in sized if one.si is not None]
    return sum(values) / len(values)


def _told(
    term: Measurand,
    system: System,
    parts: Sequence[Position],
    before: Sequence[float],
    after: Sequence[float],
) -> FoundFinal:
    of = Measure(term.kind, system, term.kind.unit(system))

    def told(si: float) -> str:
        return figure(from_si(si, term.kind, system), of)

    def extent(values: Sequence[float]) -> str:
        least, largest = told(min(values)), told(max(values))
        return least if least == largest else f"{least} to {largest}"

    changes = [b - a for a, b in zip(before, after, strict=True)]
    most = max(range(len(changes)), key=lambda n: abs(changes[n]))
    word = _word(term, changes[most])
    sign = "+" if changes[most] > 0 and not word else ""
    change = sign + told(abs(changes[most]) if word else changes[most])
    return FoundFinal(
        name=term.name,
        unit=of.unit,
        found=extent(before),
        final=extent(after),
        removed=f"{change} {word}".strip(),
        at=parts[most].short if len(parts) > 1 else "",
    )


def _word(term: Measurand, change: float) -> str:
    """What a change of a part's size is: a hole grows where metal comes off, all else shrinks."""
    if any(word in term.id for word in _BETWEEN_PARTS) or not change:
        return ""
    hole = "bore" in term.id
    return "removed" if (change > 0) == hole else "added"

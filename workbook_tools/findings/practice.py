"""Results far outside what the trade is used to, where the book itself names no band.

The limits start from the catalog's bands of common practice, over all uses, and are widened
until only gross departures pass them: a doubt, never a verdict. The part maker's figure
comes first.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from workbook_tools.books.judged import judged_by
from workbook_tools.books.records import Argument, Book, Place, Record
from workbook_tools.catalog.tables import current
from workbook_tools.findings.finding import Finding, FindingKind
from workbook_tools.findings.measured import (
    in_si,
    named,
    number_of,
    parameter_of,
    readings,
    rows,
    shown,
    system_of,
)
from workbook_tools.findings.plausible import find_doubts
from workbook_tools.findings.siblings import find_slips
from workbook_tools.quantities import LENGTH, System, from_si

# A band of common practice must be passed this many times over before it is doubted.
_BELOW, _ABOVE = 0.4, 1.6
# Coated skirts measure up to this much over the bore, per unit of bore (common practice, no
# source): a small negative clearance on paper is no fault.
_COATING = -0.0003
# The smallest cold gap between piston and head that any use is set to, in (from memory).
_LEAST_QUENCH = 0.015 * 0.0254
# What one reading is out by where it was read a turn wrong, and undersizes of shells.
_STEPS: dict[System, tuple[tuple[float, str], ...]] = {
    "inch": (
        (0.025 * 0.0254, "a size was read one turn of the micrometer out (0.025 in)"),
        (0.100 * 0.0254, "a size was read one turn of the caliper out (0.100 in)"),
        (0.010 * 0.0254, "the shells are of the next undersize (0.010 in)"),
    ),
    "metric": (
        (0.5e-3, "a size was read one turn of the micrometer out (0.5 mm)"),
        (0.25e-3, "the shells are of the next undersize (0.25 mm)"),
    ),
}


@dataclass(frozen=True)
class _Usual:
    """Gross limits of a result, per unit of a size (or absolute where size is "")."""

    size: str
    low: float
    high: float
    words: str


def _spread_of_table(table: str) -> tuple[float, float]:
    bands = [b for (name, _), b in current().bands.items() if name == table]
    lows = [b.low for b in bands if b.low is not None]
    highs = [b.high for b in bands if b.high is not None]
    return min(lows), max(highs)


def _piston() -> _Usual:
    _, high = _spread_of_table("piston clearance factor")
    return _Usual("bore", _COATING, high * _ABOVE, "a piston clearance")


def _bearing() -> _Usual:
    low, high = _spread_of_table("bearing clearance factor")
    return _Usual("journal", low * _BELOW, high * _ABOVE, "a bearing clearance")


def _gap() -> _Usual:
    low, high = _spread_of_table("ring gap factor")
    return _Usual("bore", low * _BELOW, high * _ABOVE, "a ring gap")


def _quench() -> _Usual:
    return _Usual("", _LEAST_QUENCH, float("inf"), "a cold quench")


# The two sizes of a clearance that are nearly the same.
_PAIRS = {
    "PISTON_CLEARANCE": ("bore", "piston_diameter"),
    "BEARING_CLEARANCE": ("housing_bore", "journal"),
}

_USUAL: dict[str, Callable[[], _Usual]] = {
    "PISTON_CLEARANCE": _piston,
    "BEARING_CLEARANCE": _bearing,
    "RING_GAP": _gap,
    "QUENCH": _quench,
}


@dataclass(frozen=True)
class _Odd:
    record: Record
    value: float
    usual: _Usual
    low: float
    high: float


def check_practice(book: Book) -> Iterator[Finding]:
    """A finding for each item whose results no use of an engine explains."""
    explained = {s.reading.place for s in find_slips(book)}
    explained |= {d.place for d in find_doubts(book)}
    judged = _judged(book)
    groups: dict[tuple[str, str, str], list[_Odd]] = {}
    for odd in _odd(book):
        record = odd.record
        if any(a.place in explained for a in record.arguments):
            continue
        if record.place in judged and not _steps(odd):
            continue
        label = record.label.text if record.label else record.place.address
        groups.setdefault((record.place.sheet, label, record.name), []).append(odd)
    for group in groups.values():
        yield _finding(group)
    yield from _refused(book, explained)


# What one of two mating sizes may be of what it should be.
_FACTORS: tuple[tuple[float, FindingKind, str], ...] = (
    (2.0, "disagreement", "a radius was typed for a diameter"),
    (10.0, "unit slip", "a decimal point slipped"),
    (25.4, "unit slip", "one is in inches and one in millimeters"),
)  # fmt: skip
# The same size of two cylinders is not this far apart, nor are the bores of cylinder and gasket.
_APART, _GASKET_APART = 0.01, 0.1


def _refused(book: Book, explained: set[Place]) -> Iterator[Finding]:
    """Pairs of mating sizes that a call refuses and one slip would explain."""
    for record in book.records:
        if record.value is not None or record.missing or record.function is None:
            continue
        names = _PAIRS.get(record.function.name)
        pair = [a for name in names or () for a in record.arguments if a.name == name]
        if len(pair) != 2 or any(a.place in explained for a in pair):
            continue
        slips = list(_mended(record, pair))
        if slips:
            yield _pair(book, record, pair, slips)


@dataclass(frozen=True)
class _Mend:
    """A slip that, undone in one of two mating sizes, gives a clearance that is usual."""

    wrong: Argument
    kind: FindingKind
    words: str


def _mended(record: Record, pair: Sequence[Argument]) -> Iterator[_Mend]:
    system = system_of(record)
    given = {a.name: number_of(a, LENGTH, system) or 0.0 for a in record.arguments}
    outer, inner = (in_si(given[a.name], LENGTH, system) for a in pair)
    walls = given.get("shell_wall", 0.0) + (given.get("other_wall") or given.get("shell_wall", 0.0))
    walls = in_si(walls, LENGTH, system)
    usual = _piston() if "piston_diameter" in given else _bearing()

    def fits(hole: float, shaft: float) -> bool:
        size = max(hole, shaft)
        return min(usual.low, 0.0) * size <= hole - walls - shaft <= usual.high * size

    for factor, kind, words in _FACTORS:
        for way in (factor, 1 / factor):
            if fits(outer * way, inner):
                yield _Mend(pair[0], kind, words)
            if fits(outer, inner * way):
                yield _Mend(pair[1], kind, words)
    for step, words in _STEPS[system]:
        for turn in (step, -step) if "shells" not in words else ():
            if fits(outer + turn, inner):
                yield _Mend(pair[0], "disagreement", words)
            if fits(outer, inner + turn):
                yield _Mend(pair[1], "disagreement", words)


def _pair(book: Book, record: Record, pair: Sequence[Argument], slips: Sequence[_Mend]) -> Finding:
    wrong = [s.wrong for s in slips]
    # Where either could be it, a size that agrees with its siblings is not.
    doubted = next((a for a in pair if a in wrong and not _fits_its_row(book, a)), wrong[0])
    other = pair[0] if doubted is pair[1] else pair[1]
    first, second = (
        f"{named(a.label, a.place or record.place)} is "
        f"{shown(number_of(a, LENGTH, system_of(record)) or 0.0, a.unit)}"
        for a in (doubted, other)
    )
    words = dict.fromkeys(s.words for s in slips if s.wrong is doubted)
    return Finding(
        next(s.kind for s in slips if s.wrong is doubted),
        doubted.place or record.place,
        f"{first} and {second}, too far apart for {record.name} in {record.place.address}. It "
        f"fits if {' or if '.join(words)}.",
        "Measure both, and enter diameters in one unit.",
    )


def _fits_its_row(book: Book, argument: Argument) -> bool:
    """Whether a size is near the same size of another cylinder, or near the gasket's bore."""
    value = argument.value
    if not isinstance(value, (int, float)) or not value:
        return False
    row = next((r for r in rows(book) if any(x.place == argument.place for x in r)), ())
    if any(abs(r.number / value - 1) < _APART for r in row if r.place != argument.place):
        return True
    gaskets = (
        r.number for r in readings(book) if any(u.parameter.name == "gasket_bore" for u in r.uses)
    )
    return argument.name in ("bore", "piston_diameter") and any(
        0 < gasket / value - 1 < _GASKET_APART for gasket in gaskets
    )


def _judged(book: Book) -> set[Place]:
    """The cells that the book judges by a band of its own."""
    return {
        judged.place for r in book.records for judged in judged_by(r) if judged.place is not None
    }


def _odd(book: Book) -> Iterator[_Odd]:
    for record in book.records:
        if record.function is None or record.function.name not in _USUAL:
            continue
        usual = _USUAL[record.function.name]()
        value = record.value
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            continue
        size = 1.0
        if usual.size:
            argument = next((a for a in record.arguments if a.name == usual.size), None)
            parameter = parameter_of(record, argument) if argument else None
            if argument is None or parameter is None:
                continue
            system = system_of(record)
            number = number_of(argument, parameter.kind, system)
            if number is None:
                continue
            size = in_si(number, parameter.kind, system)
        low, high = usual.low * size, usual.high * size
        si = in_si(float(value), LENGTH, system_of(record))
        if not low <= si <= high:
            yield _Odd(record, si, usual, low, high)


def _steps(odd: _Odd) -> list[str]:
    """The known steps that would bring a result among the usual ones, either way."""
    if odd.usual.size == "" or odd.record.name.endswith("RING_GAP"):
        return []
    steps = _STEPS[system_of(odd.record)]
    return [
        words
        for step, words in steps
        if ("shells" not in words or odd.usual.size == "journal")
        and any(odd.low * 2 < odd.value + sign * step < odd.high / 1.2 for sign in (-1, 1))
    ]


def _finding(group: list[_Odd]) -> Finding:
    odd = group[0]
    record = odd.record
    system = system_of(record)
    more = f" and {len(group) - 1} more like it" if len(group) > 1 else ""
    side = "below" if odd.value < odd.low else "above"
    limit = from_si(odd.low if side == "below" else odd.high, LENGTH, system)
    unit = LENGTH.unit(system)
    hints = _steps(odd)
    hint = f" It fits if {' or if '.join(hints)}." if hints else ""
    value = record.value
    text = f"{value:.4g} {unit}" if isinstance(value, float) else str(value)
    # What the batch computes stands in no cell; the first size that it comes from does.
    place = next(
        (p for p in (record.place, *(a.place for a in record.arguments)) if p and p.address),
        record.place,
    )
    return Finding(
        "disagreement" if hints else "out of band",
        place,
        f"{named(record.label, place)} is {text}{more}, far {side} what is usual for "
        f"{odd.usual.words} in any use ({side} {shown(float(f'{limit:.2g}'), unit)}; common "
        f"practice, a starting point only).{hint}",
        "Compare with the part maker's figure, and measure the sizes again.",
    )

"""Signs of deck clearance and crown volume: both readings shown where something speaks."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from workbook_tools.books.records import Argument, Book, Record
from workbook_tools.catalog import OMITTED, ArgumentError, calculate
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.measured import (
    in_si,
    named,
    number_of,
    parameter_of,
    shown,
    system_of,
)
from workbook_tools.units import LENGTH, from_si

_WORDS = {
    "deck_clearance": (
        re.compile(r"below (?:the )?deck|in (?:the )?hole|\bdown\b", re.IGNORECASE),
        re.compile(
            r"above (?:the )?deck|out of (?:the )?hole|proud|protru|stands? (?:out|up)",
            re.IGNORECASE,
        ),
    ),
    "crown_volume": (
        re.compile(r"\bdish|relief|\bbowl|pocket|\bcavity", re.IGNORECASE),
        re.compile(r"\bdome|pop-?up|\braised", re.IGNORECASE),
    ),
}
_MEANING = {
    "deck_clearance": "plus is below the deck, minus above it",
    "crown_volume": "plus is a dish or relief, minus a dome",
}
# Ratios of ordinary engines with and without boost; diesels lie above. Common practice, no
# source. A ratio outside the wide limits that the other sign brings between the narrow ones
# is doubted.
_WIDE, _NARROW = (6.2, 15.5), (7.0, 13.5)
# Below this (SI), a deck clearance may have either sign from one cylinder to the next.
_LEAST_DECK = 0.003 * 0.0254
_ADVICE = "Look which way the piston is: below deck and dish are plus, above deck and dome minus."


@dataclass(frozen=True)
class _Doubt:
    record: Record
    argument: Argument
    why: str


def check_signs(book: Book) -> Iterator[Finding]:
    """A finding for each item whose sign goes against its words, its band or the stack of sizes."""
    groups: dict[tuple[str, str, str], list[_Doubt]] = {}
    for doubt in (*_by_words(book), *_by_verdict(book), *_by_ratio(book)):
        label = doubt.argument.label.text if doubt.argument.label else ""
        group = groups.setdefault((doubt.record.place.sheet, label, doubt.argument.name), [])
        if doubt.argument.place not in [d.argument.place for d in group]:
            group.append(doubt)
    for group in groups.values():
        first = group[0]
        more = f" (and {len(group) - 1} more like it)" if len(group) > 1 else ""
        place = first.argument.place or first.record.place
        both = _both_readings(first.record, first.argument.name)
        yield Finding(
            "disagreement",
            place,
            f"{named(first.argument.label, place)} is {_value(first.argument)}{more}; {first.why}"
            f"{both}.",
            _ADVICE,
        )
    if not groups:
        yield from _by_stack(book)


def _value(argument: Argument) -> str:
    value = argument.value
    return shown(value, argument.unit) if isinstance(value, (int, float)) else str(value)


def _number(record: Record, argument: Argument) -> float | None:
    parameter = parameter_of(record, argument)
    return number_of(argument, parameter.kind, system_of(record)) if parameter else None


def _turned(record: Record, name: str) -> float | None:
    """What a call gives with the sign of one argument turned, None where it refuses that."""
    if record.function is None:
        return None
    given = {a.name: a for a in record.arguments}
    values: list[object] = []
    for parameter in record.function.parameters:
        argument = given.get(parameter.name)
        value: object = argument.value if argument else OMITTED
        if argument is not None and parameter.name == name:
            number = number_of(argument, parameter.kind, system_of(record))
            if not number:
                return None
            value = -number
        values.append(value)
    if record.function.takes_units:
        values.append(record.system)
    try:
        result = calculate(record.function, values).value
    except ArgumentError:
        return None
    return float(result) if isinstance(result, (int, float)) else None


def _both_readings(record: Record, name: str) -> str:
    turned, value = _turned(record, name), record.value
    if turned is None or not isinstance(value, (int, float)):
        return ""
    where = f"{record.name} in {record.place.address}"
    return (
        f". {where} is {value:.4g} as typed and {turned:.4g}"
        f"{' ' + record.unit if record.unit else ''} with the other sign"
    )


def _by_words(book: Book) -> Iterator[_Doubt]:
    for record in book.records:
        for argument in record.arguments:
            words = _WORDS.get(argument.name)
            if words is None or argument.label is None or argument.formula:
                continue
            plus, minus = (bool(w.search(argument.label.text)) for w in words)
            value = _number(record, argument)
            if not value or plus == minus or (value > 0) == plus:
                continue
            yield _Doubt(
                record, argument, f"its words say the other way, for {_MEANING[argument.name]}"
            )


def _by_verdict(book: Book) -> Iterator[_Doubt]:
    """Results that the book's band refuses, and would take with the other sign."""
    makers = {r.place: r for r in book.records if r.whole}
    for verdict in book.records:
        if verdict.function is None or verdict.function.name != "VERDICT":
            continue
        if verdict.value not in ("low", "high"):
            continue
        value, low, high = verdict.arguments[:3]
        record = makers.get(value.place) if value.place else None
        limits = [low.value, high.value]
        if record is None or not all(isinstance(v, (int, float)) for v in limits):
            continue
        for argument in record.arguments:
            if argument.name not in _WORDS:
                continue
            turned = _turned(record, argument.name)
            if turned is not None and limits[0] <= turned <= limits[1]:  # type: ignore[operator]
                yield _Doubt(
                    record,
                    argument,
                    "with the other sign the result would lie within the book's own band, for "
                    f"{_MEANING[argument.name]}",
                )


def _by_ratio(book: Book) -> Iterator[_Doubt]:
    for record in book.records:
        if record.function is None or record.function.name != "COMPRESSION_RATIO":
            continue
        value = record.value
        if not isinstance(value, (int, float)) or _WIDE[0] <= value <= _WIDE[1]:
            continue
        argument = next((a for a in record.arguments if a.name == "crown_volume"), None)
        turned = _turned(record, "crown_volume") if argument else None
        if argument is not None and turned is not None and _NARROW[0] <= turned <= _NARROW[1]:
            yield _Doubt(
                record, argument, f"the ratio is unusual as it is, for {_MEANING[argument.name]}"
            )


def _by_stack(book: Book) -> Iterator[Finding]:
    """Deck clearance measured one way and calculated from the sizes the other way."""
    calculated = [
        (r, in_si(float(r.value), LENGTH, system_of(r)))
        for r in book.records
        if r.function is not None
        and r.function.name == "DECK_CLEARANCE"
        and isinstance(r.value, (int, float))
    ]
    measured = {}
    for record in book.records:
        for argument in record.arguments:
            if argument.name != "deck_clearance" or argument.place is None:
                continue
            if any(argument.place == r.place for r, _ in calculated):
                continue
            value = _number(record, argument)
            if value is not None:
                measured[argument.place] = record, argument, in_si(value, LENGTH, system_of(record))
    if not calculated or not measured:
        return
    source, stack = calculated[0]
    mean = sum(v for _, _, v in measured.values()) / len(measured)
    if min(abs(stack), abs(mean)) < _LEAST_DECK or stack * mean > 0:
        return
    if abs(stack + mean) > 0.5 * min(abs(stack), abs(mean)):
        return
    record, argument, value = next(iter(measured.values()))
    system = system_of(record)
    yield Finding(
        "disagreement",
        argument.place,
        f"{named(argument.label, argument.place or record.place)} is "
        f"{shown(from_si(value, LENGTH, system), argument.unit)}, but the sizes of block, crank, "
        f"rod and piston give {shown(float(f'{source.value:.4g}'), source.unit)} in "
        f"{source.place.address}: as much, the other way{_both_readings(record, argument.name)}.",
        _ADVICE,
    )

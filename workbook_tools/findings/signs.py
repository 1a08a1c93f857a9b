"""Signs of deck clearance and crown volume: both readings shown where something speaks.

Words, the book's own band, the ratio; what decks say of each other is in decks.py.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from workbook_tools.books.judged import judged_by
from workbook_tools.books.records import Argument, Book, Place, Record
from workbook_tools.catalog import OMITTED, ArgumentError, calculate
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.measured import (
    named,
    number_of,
    parameter_of,
    readings,
    shown,
    system_of,
    words_of,
)
from workbook_tools.quantities import READING

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
# Another head or a turned sign moves a ratio by more than this; rounding by less.
RATIO_SLACK = 0.5
# A ratio is as good as the wanted one within this; few engines come nearer to their plan.
_HIT = 0.35
_WANTED_RATIO = re.compile(
    r"(?=.*\b(?:ratio|compression|cr)\b)(?=.*\b(?:target|wanted|want|goal|aim|plan|planned"
    r"|advertised|stated|ordered|desired|spec|card|offered)\b)"
    r"(?!.*\b(?:rod|stroke|rocker|dynamic|trapped|effective|boost\w*|cranking|pressure|leak\w*"
    r"|height)\b)",
    re.IGNORECASE,
)
STATED_RATIO = re.compile(r"(?:static )?(?:compression )?ratio|static compression", re.IGNORECASE)
ADVICE = "Look which way the piston is: below deck and dish are plus, above deck and dome minus."


@dataclass(frozen=True)
class Doubt:
    """An argument whose sign is doubted, and why."""

    record: Record
    argument: Argument
    why: str


def check_signs(book: Book) -> Iterator[Finding]:
    """A finding for each item whose sign goes against its words, its band or the ratio."""
    groups: dict[tuple[str, str, str], list[Doubt]] = {}
    for doubt in sign_doubts(book):
        label = doubt.argument.label.text if doubt.argument.label else ""
        group = groups.setdefault((doubt.record.place.sheet, label, doubt.argument.name), [])
        if doubt.argument.place not in [d.argument.place for d in group]:
            group.append(doubt)
    for group in groups.values():
        first = group[0]
        more = f" (and {len(group) - 1} more like it)" if len(group) > 1 else ""
        place = first.argument.place or first.record.place
        both = both_readings(first.record, first.argument.name)
        yield Finding(
            "disagreement",
            place,
            f"{named(first.argument.label, place)} is {_value(first.argument)}{more}; {first.why}"
            f"{both}.",
            ADVICE,
        )


@lru_cache(maxsize=8)
def sign_doubts(book: Book) -> tuple[Doubt, ...]:
    """Every argument whose sign its words, a band or the ratio speak against."""
    wanted = (doubt for doubt, _ in by_wanted_ratio(book))
    return (*_by_words(book), *_by_verdict(book), *_by_ratio(book), *wanted)


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


def both_readings(record: Record, name: str) -> str:
    """What a call gives with an argument as typed, and with its sign turned."""
    turned, value = _turned(record, name), record.value
    if turned is None or not isinstance(value, (int, float)):
        return ""
    where = f"{record.name} in {record.place.address}"
    return (
        f". {where} is {value:.4g} as typed and {turned:.4g}"
        f"{' ' + record.unit if record.unit else ''} with the other sign"
    )


def _by_words(book: Book) -> Iterator[Doubt]:
    for record in book.records:
        for argument in record.arguments:
            words = _WORDS.get(argument.name)
            if words is None or argument.label is None or argument.formula:
                continue
            plus, minus = (bool(w.search(argument.label.text)) for w in words)
            value = _number(record, argument)
            if not value or plus == minus or (value > 0) == plus:
                continue
            yield Doubt(
                record, argument, f"its words say the other way, for {_MEANING[argument.name]}"
            )


def _by_verdict(book: Book) -> Iterator[Doubt]:
    """Results that the book's band refuses, and would take with the other sign."""
    makers = {r.place: r for r in book.records if r.whole}
    for judged in (one for record in book.records for one in judged_by(record)):
        if judged.verdict not in ("low", "high"):
            continue
        record = makers.get(judged.place) if judged.place else None
        limits = [limit.value if limit else None for limit in (judged.low, judged.high)]
        if record is None or not all(isinstance(v, (int, float)) for v in limits):
            continue
        for argument in record.arguments:
            if argument.name not in _WORDS:
                continue
            turned = _turned(record, argument.name)
            if turned is not None and limits[0] <= turned <= limits[1]:  # type: ignore[operator]
                yield Doubt(
                    record,
                    argument,
                    "with the other sign the result would lie within the book's own band, for "
                    f"{_MEANING[argument.name]}",
                )


def _by_ratio(book: Book) -> Iterator[Doubt]:
    for record in book.records:
        if record.function is None or record.function.name != "COMPRESSION_RATIO":
            continue
        value = record.value
        if not isinstance(value, (int, float)) or _WIDE[0] <= value <= _WIDE[1]:
            continue
        argument = next((a for a in record.arguments if a.name == "crown_volume"), None)
        turned = _turned(record, "crown_volume") if argument else None
        if argument is not None and turned is not None and _NARROW[0] <= turned <= _NARROW[1]:
            yield Doubt(
                record, argument, f"the ratio is unusual as it is, for {_MEANING[argument.name]}"
            )


@lru_cache(maxsize=8)
def by_wanted_ratio(book: Book) -> tuple[tuple[Doubt, Place], ...]:
    """Crown volumes whose other sign gives the ratio that the book wants, with its cell."""
    ratios = [
        (r, a, float(r.value))
        for r in book.records
        if r.function is not None and r.function.name == "COMPRESSION_RATIO"
        if isinstance(r.value, (int, float))
        for a in r.arguments
        if a.name == "crown_volume"
    ]
    if not ratios:
        return ()
    wanted = [
        r
        for r in readings(book)
        if r.label is not None and not r.label.position and 4 < r.number < 30
        if not any(u.parameter.kind is READING for u in r.uses)
        if _WANTED_RATIO.match(words_of(r.label))
        or STATED_RATIO.fullmatch(r.label.text.strip())
        or any("_FOR_" in u.function and u.parameter.name == "compression_ratio" for u in r.uses)
    ]
    found = []
    for record, argument, ratio in ratios:
        near = [w for w in wanted if w.place.sheet == record.place.sheet] or wanted
        # Several wanted ratios are several plans; the nearest is the one that was built.
        plan = min(near, key=lambda w: abs(w.number - ratio), default=None)
        if plan is None or abs(plan.number - ratio) <= RATIO_SLACK:
            continue
        turned = _turned(record, "crown_volume")
        off = min(_HIT, abs(plan.number - ratio) / 3)
        if turned is not None and abs(turned - plan.number) <= off:
            why = (
                f"{plan.name} is {plan.number:.4g}, which the other sign comes to, for "
                f"{_MEANING[argument.name]}"
            )
            found.append((Doubt(record, argument, why), plan.place))
    # A plan that half of the cylinders come to has been built.
    return tuple(found) if len(found) * 2 > len(ratios) else ()

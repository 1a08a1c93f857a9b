"""The kind of each engine: as the shop or its book calls it, else by size and layout."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from workbook_tools.quantities import DISPLACEMENT, System, from_si

# Sizes this much above the smallest are still engines of its kind: an overbore of 0.060 in adds
# some 3 %, a longer stroke ten or more. Common practice, no source.
SAME_SIZE = 1.08
NOT_TOLD = "kind not told"

_NUMBERS: Mapping[str, int] = {
    word: number
    for number, words in {
        1: "one ein uno mono single",
        2: "two zwei deux dos due twin",
        3: "three drei trois tres tre triple",
        4: "four vier quatre cuatro quattro",
        5: "five fünf cinq cinco cinque",
        6: "six sechs seis sei",
        8: "eight acht huit ocho otto",
        10: "ten zehn",
        12: "twelve zwölf douze doce dodici",
        16: "sixteen sechzehn seize",
    }.items()
    for word in words.split()
}
_NAMES = {1: "single", 2: "twin", 3: "three", 4: "four", 5: "five", 6: "six", 8: "eight"}
_COUNT = rf"(\d{{1,2}}|{'|'.join(sorted(_NUMBERS, key=len, reverse=True))})"
_V = re.compile(rf"\bv[\s-]?{_COUNT}\b", re.IGNORECASE)
_FLAT = re.compile(
    rf"\b(?:flat|boxer|opposed)[\s-]?{_COUNT}\b|\b[hb]-?(\d{{1,2}})\b|{_COUNT}[\s-]?\w*[\s-]?boxer",
    re.IGNORECASE,
)
_LINE = re.compile(
    rf"\b(?:in-?line|straight|reihen?)[\s-]?{_COUNT}|\b[ilr]-?(\d{{1,2}})\b"
    rf"|{_COUNT}[\s-]?(?:c[yi]l\w*)?[\s-]*(?:in-?line|en ligne|en línea|in linea)",
    re.IGNORECASE,
)
_SOME = re.compile(
    rf"\b{_COUNT}[\s-]?(?:cyl|zyl|cil)\w*|\b{_COUNT}(?:zylinder|cylindres?)|\b(?:parallel )?"
    r"(single|twin|triple|four|five|six|eight|twelve)\b",
    re.IGNORECASE,
)
_SIZE = re.compile(
    r"(?P<number>\d+(?:[.,]\d+)?)[\s-]?"
    r"(?:(?P<inch>cu\.? ?in\.?|cid|ci|cubic inch(?:es)?)|(?P<cc>cc|ccm|cm3|cm³)"
    r"|(?P<liter>l|lt|ltr|lit(?:er|re|ro)s?))\b",
    re.IGNORECASE,
)
_CUBIC_INCH = 0.0254**3
_LITER = 1e-3


class Engine(NamedTuple):
    """What a book tells of its engine.

    said: the kind as the book itself names it, "" where it does not; text: the engine as the
    job's field has it; displacement: of the whole engine, m3, None where not known;
    cylinders: as many as have readings, 0 where none has.
    """

    said: str
    text: str
    displacement: float | None
    cylinders: int


@dataclass(frozen=True)
class _Form:
    """What engines of one kind have in common besides their size."""

    layout: str
    size: float | None


def engine_kinds(
    engines: Sequence[Engine], named: Mapping[str, Sequence[str]], units: System
) -> list[str]:
    """The kind of each engine, in their order.

    named: the shop's own kinds, each with words of which one stands in the engine's text;
    units: that sizes are told in. The book's own word for the kind comes first, then the
    shop's, then layout and size: engines of one layout whose sizes lie within 8 % of the
    smallest are of one kind. The same engines give the same kinds in whatever order.
    """
    kinds = [engine.said or _named(engine.text, named) for engine in engines]
    spelled: dict[str, str] = {}
    for kind in kinds:
        if kind:
            spelled[kind.casefold()] = min(kind, spelled.get(kind.casefold(), kind))
    forms = [None if kind else _form(engine) for kind, engine in zip(kinds, engines, strict=True)]
    groups = _groups(form for form in forms if form)
    return [
        spelled[kind.casefold()] if kind else _name(form, groups, units) if form else NOT_TOLD
        for kind, form in zip(kinds, forms, strict=True)
    ]


def _named(text: str, named: Mapping[str, Sequence[str]]) -> str:
    even = " ".join(text.casefold().split())
    for kind, words in named.items():
        if any(" ".join(word.casefold().split()) in even for word in words):
            return kind
    return ""


def _form(engine: Engine) -> _Form:
    size = engine.displacement if engine.displacement else _size_in(engine.text)
    return _Form(layout(engine.text) or _counted(engine.cylinders), size)


def _counted(cylinders: int) -> str:
    return f"{cylinders}-cylinder" if cylinders else ""


def layout(text: str) -> str:
    """The layout that a text tells of an engine: "V8", "inline four", "flat twin", or ""."""
    if found := _V.search(text):
        return f"V{_number(found)}"
    for pattern, word in ((_FLAT, "flat "), (_LINE, "inline "), (_SOME, "")):
        if found := pattern.search(text):
            number = _number(found)
            name = _NAMES.get(number, str(number))
            if word or number <= 2:
                return name if number == 1 else f"{word}{name}"
            return f"{number}-cylinder"
    return ""


def _number(found: re.Match[str]) -> int:
    word = next(group for group in found.groups() if group).casefold()
    return int(word) if word.isdigit() else _NUMBERS[word]


def _size_in(text: str) -> float | None:
    """The displacement that a text names, m3, None where it names none."""
    found = _SIZE.search(text)
    if found is None:
        return None
    number = float(found["number"].replace(",", "."))
    unit = _CUBIC_INCH if found["inch"] else _LITER / 1000 if found["cc"] else _LITER
    return number * unit or None


Groups = Mapping[str, Sequence[tuple[float, float]]]


def _groups(forms: Iterable[_Form]) -> Groups:
    """(smallest, largest) of each kind, by layout."""
    sizes: dict[str, set[float]] = {}
    for form in forms:
        if form.size is not None:
            sizes.setdefault(form.layout, set()).add(form.size)
    found: dict[str, list[tuple[float, float]]] = {}
    for name, some in sizes.items():
        groups: list[tuple[float, float]] = []
        for size in sorted(some):
            if groups and size <= groups[-1][0] * SAME_SIZE:
                groups[-1] = (groups[-1][0], size)
            else:
                groups.append((size, size))
        found[name] = groups
    return found


def _name(form: _Form, groups: Groups, units: System) -> str:
    if form.size is None:
        return f"{form.layout}, size not told" if form.layout else NOT_TOLD
    of = next(g for g in groups[form.layout] if g[0] <= form.size <= g[1])
    shown = dict.fromkeys(_shown(size, units) for size in of)
    size = " to ".join(shown) + (" cu in" if units == "inch" else " L")
    return f"{form.layout}, {size}" if form.layout else size


def _shown(size: float, units: System) -> str:
    if units == "inch":
        number = from_si(size, DISPLACEMENT, "inch")
        return f"{number:.0f}" if number >= 30 else f"{number:.1f}"
    liters = size / _LITER
    return f"{liters:.1f}" if liters >= 1 else f"{liters:.2f}"

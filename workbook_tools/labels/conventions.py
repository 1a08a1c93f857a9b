"""What a book states about its numbers: units, signs, decimal commas."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.labels.cell_texts import either_of
from workbook_tools.labels.layout import Form
from workbook_tools.labels.property_units import ALL_ELSE, said_in, units_of_properties
from workbook_tools.quantities import System

_STATES_UNITS = re.compile(
    r"\b(?:all|dims?|dimensions?|measure\w*|sizes?|readings?|units?|alle|maße|angaben|einheiten)\b"
    r"[^.;]{0,24}?\b(inch(?:es)?|in(?!\s+\w)|thou\w*|imperial|zoll|mm|metric|metrisch|millimet\w+)\b",
    re.IGNORECASE,
)
_IS = r"\s*(?:=|is|ist|es|è|means|:|for)?\s*(?:with )?(?:the |a )?(?:piston )?(?:is )?"
# A hyphen within a word is no sign: "leak-down".
_PLUS, _MINUS = (
    r"(?:(?<!\w)\+(?:ve\b)?|\bplus|\bpositi\w+|\bpos)" + _IS,
    r"(?:(?<!\w)[-−](?:ve\b)?|\bminus|\bnegati\w+|\bneg)" + _IS,
)
_LOW, _PROUD = either_of("piston_below"), either_of("piston_above")
_ROOM, _LUMP = either_of("crown_adds"), either_of("crown_takes")


class _Rule(NamedTuple):
    """A rule of signs as texts write it: the sign before what it means, or behind it."""

    before: re.Pattern[str]
    behind: re.Pattern[str]


def _either(plus: str, minus: str) -> _Rule:
    before = f"{_PLUS}{plus}|{_MINUS}{minus}"
    # The sign may stand behind the word: "cupola -".
    behind = rf"{plus}\s*[=:]?\s*\+|{minus}\s*[=:]?\s*[-−](?!\w)"
    return _Rule(re.compile(before, re.IGNORECASE), re.compile(behind, re.IGNORECASE))


_BELOW, _ABOVE = _either(_LOW, _PROUD), _either(_PROUD, _LOW)
_DISH, _DOME = _either(_ROOM, _LUMP), _either(_LUMP, _ROOM)
_NAMED = re.compile("|".join((_LOW, _PROUD, _ROOM, _LUMP)), re.IGNORECASE)


@dataclass(frozen=True)
class Stated:
    """What a book or the form of it states about its numbers.

    units: of properties that are in another one, by the noun: {"clearance": "thou"}.
    """

    system: System | None
    system_from: str
    deck: str
    crown: str
    comma: bool
    units: Mapping[str, str]


# What a text begins with that says what holds for all that is not told otherwise.
_UNLESS = re.compile(
    r"(?:all\s+)?(?P<unit>inch(?:es)?|in(?!\s+(?:mm|inch|metric))|mm|metric|zoll)\b[^.;]{0,6}"
    rf"\b(?:{either_of('unless')}|{either_of('throughout')})",
    re.IGNORECASE,
)


# What says that a unit holds for some numbers only.
_EXCEPT = re.compile(rf"\b{either_of('unless')}", re.IGNORECASE)


def says_unless(text: str) -> bool:
    """Whether a text says in what all numbers are that are not told otherwise."""
    return bool(_EXCEPT.search(text))


# A word that fills a row by itself speaks of all the sheet; a unit of a column does not.
_UNITS_ALONE = re.compile(r"inch(?:es)?|metric|mm|millimeters?|millimetres?", re.IGNORECASE)


def _is_alone(sheet: Sheet, row: int, column: int) -> bool:
    """Whether a row holds nothing but one text, and no number stands right below it."""
    if any(
        (row, at) in sheet.cells for at in range(max(1, column - 20), column + 20) if at != column
    ):
        return False
    below = sheet.cells.get((row + 1, column))
    return below is None or isinstance(below.value, str)


def _systems_named(sheet: Sheet) -> dict[System, str]:
    """The systems that a sheet's texts name as its own, with the cells that do."""
    found: dict[System, str] = {}
    for row, column, text in sheet.texts:
        beside = sheet.cells.get((row, column + 1))
        whole = text
        if beside is not None and isinstance(beside.value, str) and len(text) < 20:
            whole = f"{text} {beside.value}"
        if _UNITS_ALONE.fullmatch(text.strip(" .()")) and _is_alone(sheet, row, column):
            whole = f"all {text}"
        named = _system_named(whole) if len(whole) < 80 else ""
        if named:
            metric = named.lower().startswith(("mm", "met", "mil"))
            found.setdefault(
                "metric" if metric else "inch",
                str(Place.at(sheet.title, row, column)),
            )
    return found


# What may stand before an "in" that is a unit.
_IS_IN = re.compile(r"(?:\w+s|all|are|is|in|:|=|,|\(|-)\s*in$", re.IGNORECASE)
# "mm sizes, inch lash": what holds for all stands before the word for all.
_UNIT_BEFORE = re.compile(
    r"\b(inch(?:es)?|imperial|zoll|mm|metric|metrisch)[- ]"
    r"(?:sizes?|dims?|dimensions?|readings?|maße)\b",
    re.IGNORECASE,
)


# Nobody says the units in a text that is longer.
_LONGEST = 400
# "Crank register, Te Awa. inches"
_UNIT_AT_THE_END = re.compile(
    r"[^\W\d_]{3,}.*(?:[.;]|\s[–-])\s+(inches|mm|metric|imperial)\.?$", re.IGNORECASE
)


# "Gaps in thou, rest in mm"
_UNIT_OF_THE_REST = re.compile(
    rf"\b{either_of('all_else')}(?: (?:is|are|ist|sind|est|es|è))?(?: (?:in|en))?\s*[:=]?\s*"
    r"(inch(?:es)?|imperial|zoll|mm|metric|metrisch)\b",
    re.IGNORECASE,
)
# "inches, clearances thou": what all is in stands alone before what is in other units.
_UNIT_AND_MORE = re.compile(
    r"(?:everything |all )?(inch(?:es)?|imperial|zoll|mm|metric)\s*[,;]\s+", re.IGNORECASE
)

# "Bores and pistons in mm, everything else in thou"
_IN_SYSTEMS = ("mm", "in")


@lru_cache(maxsize=16384)
def _system_named(text: str) -> str:
    """The word for a system of units in a text that says which one holds, "" in any other."""
    if len(text) > _LONGEST:
        return ""
    if found := _UNIT_BEFORE.search(text):
        return found[1]
    if found := _UNLESS.match(text):
        return found["unit"]
    if found := _UNIT_AT_THE_END.search(text) or _UNIT_OF_THE_REST.search(text):
        return found[1]
    if found := _UNIT_AND_MORE.match(text):
        return found[1] if said_in(text[found.end() :]) else ""
    said = dict(said_in(text))
    if said.get("diameter") in _IN_SYSTEMS and ALL_ELSE in said:
        return said["diameter"]
    found = _STATES_UNITS.search(text)
    if found and found[1].casefold() == "in" and not _IS_IN.search(found[0]):
        return ""  # "Measured with the plug in."
    return found[1] if found else ""


def states_units(text: str) -> bool:
    """Whether a text says in what units a book or a sheet is."""
    return bool(_system_named(text) or _UNITS_ALONE.fullmatch(text.strip(" .()")))


def stated_in(book: OpenBook, form: Form) -> dict[str, Stated]:
    """What holds on each sheet: as the form says, else the sheet, else the whole book."""
    named = {sheet.title: _systems_named(sheet) for sheet in book.sheets}
    everywhere = {system: cell for found in named.values() for system, cell in found.items()}
    texts = [text for sheet in book.sheets for _, _, text in sheet.texts if len(text) < 200]
    rules = frozenset[_Rule]().union(*map(_rules_in, texts))
    deck = form.deck_sign or _rule(rules, _BELOW, _ABOVE, "positive below", "negative below")
    crown = form.crown_sign or _rule(rules, _DISH, _DOME, "positive dish", "negative dish")
    comma = form.decimal_comma or _decimal_comma(texts)
    of_book = units_of_properties(texts)
    result = {}
    system: System | None
    for sheet in book.sheets:
        if form.units:
            system, source = form.units, "the layout"
        else:
            own = named[sheet.title] or everywhere
            system, source = None, ""
            if len(own) == 1:
                system, source = next(iter(own.items()))
        units = {**of_book, **units_of_properties(text for *_, text in sheet.texts)}
        result[sheet.title] = Stated(system, source, deck, crown, comma, units)
    return result


# A number whose comma can only mark decimals, or a range that begins with one.
_COMMA = re.compile(
    r"[-+]?(?:0,\d+|\d+,(?:\d{1,2}|\d{4,}))(?:\s*[-–+±/:]\s*[-+]?\d+(?:,\d+)?)*(?:\s*[^\d.,]*)?"
)
_POINT = re.compile(r"[-+]?\d*\.\d+(?:\s*[^\d.,]*)?|\d{1,3}(?:,\d{3})+\.\d+")


def _decimal_comma(texts: list[str]) -> bool:
    """Whether numbers typed as text have decimal commas throughout: several do, none a point."""
    commas = sum(_COMMA.fullmatch(t.strip()) is not None for t in texts)
    return commas >= 3 and not any(_POINT.fullmatch(t.strip()) for t in texts)


# What each rule has, in its words or as a sign; few texts do.
_SIGN = re.compile(r"[-+−]|\b(?:plus|pos|minus|neg)", re.IGNORECASE)


@lru_cache(maxsize=16384)
def _rules_in(text: str) -> frozenset[_Rule]:
    """The sign rules that a text writes down: "+ dish, - dome", or "dish + dome -"."""
    sign, named = _SIGN.search(text), _NAMED.search(text)
    if sign is None or named is None:
        return frozenset()
    rules = (_BELOW, _ABOVE, _DISH, _DOME)
    if named.start() < sign.start() and (behind := [r for r in rules if r.behind.search(text)]):
        return frozenset(behind)
    return frozenset(rule for rule in rules if rule.before.search(text))


def _rule(
    rules: frozenset[_Rule],
    one: _Rule,
    other: _Rule,
    first: str,
    second: str,
) -> str:
    """A sign rule that the book writes down, "" where it writes none or both."""
    says_one, says_other = one in rules, other in rules
    return "" if says_one == says_other else first if says_one else second

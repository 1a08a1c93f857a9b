"""The valve that a short text names by its cylinder and its side: "1 IN", "E3", "2 EX L"."""

from __future__ import annotations

import re

from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.valve_names import SIDE_OF_WORD, valve_named
from workbook_tools.labels.which import EITHER, Which

# The words for a valve's side, and those that may be of either.
SIDES_BY_WORD = {**SIDE_OF_WORD, **dict.fromkeys(words_of("either_side"), EITHER)}
_NUMBERED_SIDE = re.compile(
    r"(?:(?P<of>cyl|zyl|cil)\.?\s*)?#?(?P<n>\d{1,2})\s*[-./]?\s*(?P<side>[^\W\d_]{1,11})\.?"
    r"|(?P<first>[ei]|[^\W\d_]{2,11})\.?\s*[-./]?\s*#?(?P<last>\d{1,2})",
    re.IGNORECASE,
)
# Its side in two languages: "cyl 1 adm/E".
_SIDE_IN_TWO_WORDS = re.compile(
    r"(?:(?:cyl|zyl|cil)\.?\s*)?#?(?P<n>\d{1,2})\s*[-./]?\s*(?P<side>[^\W\d_]+\.?\s?/\s?[^\W\d_]+\.?)",
    re.IGNORECASE,
)
# Of two intake or two exhaust valves of a cylinder the left one: "1 IN L".
_PLACES_OF_VALVES = {
    "l": "left", "lh": "left", "left": "left", "r": "right", "rh": "right", "right": "right",
    "f": "front", "front": "front", "rear": "rear", "a": "A", "b": "B",
}  # fmt: skip
_VALVE_OF_TWO = re.compile(
    rf"(?P<valve>#?\d{{1,2}}\s*[-./]?\s*[^\W\d_]{{2,7}})\.?\s(?P<place>{'|'.join(_PLACES_OF_VALVES)})"
    r"|(?P<letter>[IE]\d{1,2}|\d{1,2}[IE])(?P<of_two>[abAB])",
    re.IGNORECASE,
)
# What E and A stand for beside the word for a cylinder: Einlass and Auslass, or the other way.
_LETTERS_OF_SIDES = {
    "zyl": {"e": "intake", "a": "exhaust"},
    "cyl": {"e": "exhaust", "a": "intake"},
    "cil": {"e": "exhaust", "a": "intake"},
}
_WORD = re.compile(r"[^\W\d_]+")


def numbered_valve(text: str) -> Which | None:
    """A valve with its cylinder, and of two alike which one: "1 IN", "E3", "2 EX L"."""
    if not any(map(str.isdigit, text)):
        return None  # As most texts of a book.
    if named := valve_named(text):
        return Which(named.number, at=(named.place,), side=named.side)
    of_two = _VALVE_OF_TWO.fullmatch(text)
    if of_two and (one := numbered_valve(of_two["valve"] or of_two["letter"])):
        place = _PLACES_OF_VALVES[(of_two["place"] or of_two["of_two"]).casefold()]
        return one._replace(at=(place,)) if one.side in ("intake", "exhaust", EITHER) else None
    if told := _SIDE_IN_TWO_WORDS.fullmatch(text):
        side = side_named(told["side"])
        return Which(int(told["n"]), side=side) if side in ("intake", "exhaust") else None
    sided = _NUMBERED_SIDE.fullmatch(text)
    if sided:
        side = SIDES_BY_WORD.get((sided["side"] or sided["first"]).casefold().strip("."), "")
        if side == EITHER and sided["of"]:
            side = _LETTERS_OF_SIDES[sided["of"].casefold()][sided["side"].casefold().strip(".")]
        if side:
            return Which(int(sided["n"] or sided["last"]), side=side)
    return None


def side_named(text: str) -> str:
    """A side in the table's own word, another text as it stands.

    Beside a word that can only be the one, a letter is that word of another language: "E/adm".
    """
    whole = SIDES_BY_WORD.get(text.casefold().strip(" ."))
    sides = {SIDES_BY_WORD.get(word, "") for word in _WORD.findall(text.casefold())}
    said = sides - {EITHER}
    return whole or (next(iter(said)) if len(said) == 1 else "") or text

"""The name of one of two valves alike: cylinder, side and end, in any order: "1 adm AV"."""

from __future__ import annotations

import re
from typing import NamedTuple

from workbook_tools.labels.cell_texts import words_of

_NAME = re.compile(
    r"(?:(?:cyl|zyl|cil)\.?\s*)?(?:[^\W\d_]+\.?|#?\d{1,2})"
    r"(?:\s*[ ./–-]\s*(?:[^\W\d_]+\.?|#?\d{1,2})){2}",
    re.IGNORECASE,
)
_WORDS = re.compile(r"[^\W\d_]+|\d+")
# Which valve each word for one says.
SIDE_OF_WORD = {word: side for side in ("intake", "exhaust") for word in words_of(side)}
_PLACES = {
    word: place
    for key, places in (("front_rear", ("front", "rear")), ("left_right", ("left", "right")))
    for pair in words_of(key)
    for word, place in zip(pair.split("/"), places, strict=True)
}
_CYLINDER = ("cyl", "zyl", "cil")


class ValveName(NamedTuple):
    """The cylinder of a valve, its side, and where it stands beside the other one."""

    number: int
    side: str
    place: str


def valve_named(text: str) -> ValveName | None:
    """What a text says that is a number, a side and an end of two, and nothing else."""
    if _NAME.fullmatch(text) is None:
        return None
    words = [word for word in _WORDS.findall(text.casefold()) if word not in _CYLINDER]
    numbers = [int(word) for word in words if word.isdecimal()]
    sides = [SIDE_OF_WORD[word] for word in words if word in SIDE_OF_WORD]
    places = [_PLACES[word] for word in words if word in _PLACES and word not in SIDE_OF_WORD]
    if len(words) != 3 or not (len(numbers) == len(sides) == len(places) == 1):
        return None
    return ValveName(numbers[0], sides[0], places[0])

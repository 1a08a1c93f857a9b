"""What a book calls a cell."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

# What a label ends with that says which one: ", cyl 2", " rod 3", " 1".
_WHICH = re.compile(r"[\s,;(–-]*(?:\b[^\W\d_]{1,9}\.?\s*(?:no\.?\s*)?#?)?(?P<number>\d{1,2})\)?$")
_LETTER = re.compile(r"(?<=[^\W\d_]) [A-Z]$")
_NUMBER = re.compile(r"\d{1,2}$")


class Label(NamedTuple):
    """What the book calls a cell: the item's name, and which cylinder or journal it is of.

    text: "Deck clearance"; position: "Cyl 3", "" where there is only one; unit: as the
    label or a unit column gives it, "" where the book does not say.
    """

    text: str
    position: str = ""
    unit: str = ""

    def __str__(self) -> str:
        return _in_words(self.text, self.position)

    @property
    def name(self) -> str:
        """Its text without the number at its end that its position says too."""
        return _without_which(self.text, self.position)


@lru_cache(maxsize=8192)
def _in_words(text: str, position: str) -> str:
    same = text.casefold() == position.casefold()
    told = not position or same or _without_which(text, position) != text
    return text if told else f"{text}, {position}"


@lru_cache(maxsize=8192)
def _without_which(text: str, position: str) -> str:
    said, number = _WHICH.search(text), _NUMBER.search(position)
    if said is None or number is None or said["number"] != number[0]:
        return text
    if text.casefold() == position.casefold():
        return text
    # "Crankpin 1" is named without its number alone, "Top gap, cyl 2" without the cylinder.
    comma = re.search(r"[,;(–-]", said[0]) is not None
    named = text[: said.start()] if comma else text[: said.start("number")]
    return _LETTER.sub("", named.rstrip(" ,;(#–-")) or text

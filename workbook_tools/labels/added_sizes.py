"""The size to which a text says that so many of a small unit are added: "86.00 + hundredths"."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import NamedTuple

from workbook_tools.labels.cell_texts import either_of
from workbook_tools.labels.content import plain_number

# The small units by the name that numbers in them have, each with its list of words and with the
# decimals of a size to which so many of it are added.
SMALL_UNITS = {
    "hundredths mm": ("hundredths", 2), "um": ("thousandths", 3), "thou": ("thous", 3),
    "tenth": ("tenths", 4),
}  # fmt: skip


_SIZE = re.compile(r"\d[.,]\d\d")
_WORDS_OF_A_LABEL = 4


class AddedTo(NamedTuple):
    """A size, its decimals, and those that it has with what is added; where its words end.

    name: what stands before it, without a word for a size, where no plus stands behind it.
    """

    size: float
    decimals: int
    with_added: int
    end: int
    name: str


def _units() -> str:
    """A pattern for any small unit, each in a group named as its list of words is."""
    return "|".join(
        f"(?P<{words}>{either_of(words)})" for words, _ in reversed(SMALL_UNITS.values())
    )


@cache
def _size_word() -> re.Pattern[str]:
    words = either_of("sizes_added_to").replace("ss", "(?:ss|ß)")
    return re.compile(rf"\b{words}[\s:]*$", re.IGNORECASE)


def _added(found: re.Match[str], name: str) -> AddedTo:
    size = found["size"].rstrip(".,")
    decimals = len(size.replace(",", ".").partition(".")[2])
    with_added = next(n for words, n in SMALL_UNITS.values() if found[words])
    return AddedTo(plain_number(size), decimals, with_added, found.end(), name)


@cache
def _pattern() -> re.Pattern[str]:
    # A whole size needs its sign: "Alésage 73 + centièmes".
    whole = r"\d{2,3}(?=\s?(?:mm)?\s?\+)"
    size = rf"(?<![\w.,])(?P<size>{whole}|\d{{1,3}}[.,]\d{{0,4}})(?P<left>x{{0,3}})\s?(?:mm|in|\")?"
    behind = rf"(?P<plus>\s?\+)?[\s.…_x(–—:,;-]*(?:{_units()})\b"
    return re.compile(rf"{size}{behind}(?P<over>\s+{either_of('added')})?\)?")


@cache
def _note() -> re.Pattern[str]:
    added = either_of("added_to_it")
    return re.compile(
        rf"(?P<name>[^\W\d_][^\d]*?)(?<![\w.,])(?P<size>\d{{1,3}}[.,]\d{{2,4}})(?![\d.,]*\d)"
        rf"(?=[^\d]*?\b(?:{_units()})\b)(?=[^\d]*?(?<!\w)(?:{added})(?!\w))"
    )


@lru_cache(maxsize=4096)
def size_noted(text: str) -> tuple[str, AddedTo] | None:
    """What a note names, and the size of it to which it says that the cells below add.

    "Bores: base 4.0300, column B is the tenths over it"; None for any other text.
    """
    # A label that has its numbers behind it says it with a sign: "Bore 3.28 + thou".
    long = len(text.split()) > _WORDS_OF_A_LABEL and size_added_to(text) is None
    found = _note().search(text.casefold()) if long and _SIZE.search(text) else None
    if found is None:
        return None
    return found["name"], _added(found, found["name"])


@lru_cache(maxsize=4096)
def size_added_to(text: str) -> AddedTo | None:
    """The size to which a text says that amounts are added, None in any other text."""
    found = _pattern().search(text.lower()) if any(map(str.isdigit, text)) else None
    if found is None or not (found["plus"] or found["left"] or found["over"]):
        return None
    name = "" if found["plus"] else _size_word().sub("", text[: found.start()]).strip(" ,;:(–—-")
    return _added(found, name)

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
    """A size, its decimals, and those that it has with what is added; where its words end."""

    size: float
    decimals: int
    with_added: int
    end: int


@cache
def _pattern() -> re.Pattern[str]:
    units = "|".join(
        f"(?P<{words}>{either_of(words)})" for words, _ in reversed(SMALL_UNITS.values())
    )
    return re.compile(
        rf"(?<![\w.,])(?P<size>\d{{1,3}}[.,]\d{{1,4}})\s?(?:mm|in|\")?\s?\+[\s.…_x]*\(?(?:{units})\b\)?"
    )


@cache
def _note() -> re.Pattern[str]:
    units = "|".join(
        f"(?P<{words}>{either_of(words)})" for words, _ in reversed(SMALL_UNITS.values())
    )
    added = either_of("added_to_it")
    return re.compile(
        rf"(?P<name>[^\W\d_][^\d]*?)(?<![\w.,])(?P<size>\d{{1,3}}[.,]\d{{2,4}})(?![\d.,]*\d)"
        rf"(?=[^\d]*?\b(?:{units})\b)(?=[^\d]*?(?<!\w)(?:{added})(?!\w))"
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
    with_added = next(n for words, n in SMALL_UNITS.values() if found[words])
    decimals = len(found["size"].replace(",", ".").partition(".")[2])
    size = AddedTo(plain_number(found["size"]), decimals, with_added, found.end())
    return found["name"], size


@lru_cache(maxsize=4096)
def size_added_to(text: str) -> AddedTo | None:
    """The size to which a text says that amounts are added, None in any other text."""
    found = _pattern().search(text.casefold()) if "+" in text else None
    if found is None:
        return None
    with_added = next(n for words, n in SMALL_UNITS.values() if found[words])
    decimals = len(found["size"].replace(",", ".").partition(".")[2])
    return AddedTo(plain_number(found["size"]), decimals, with_added, found.end())

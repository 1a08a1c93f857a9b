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


# What a size is called that others are added to.
_SIZE_WORD = re.compile(
    r"\b(?:nennma(?:ß|ss)|ma(?:ß|ss)|cote|medida|misura|quota|size|nominal(?:e|maß)?)\b[\s:]*$",
    re.IGNORECASE,
)


class AddedTo(NamedTuple):
    """A size, its decimals, and those that it has with what is added; where its words end.

    name: what stands before it, without a word for a size, where no plus stands behind it.
    """

    size: float
    decimals: int
    with_added: int
    end: int
    name: str


@cache
def _pattern() -> re.Pattern[str]:
    units = "|".join(
        f"(?P<{words}>{either_of(words)})" for words, _ in reversed(SMALL_UNITS.values())
    )
    size = r"(?<![\w.,])(?P<size>\d{1,3}[.,]\d{0,4})(?P<left>x{0,3})\s?(?:mm|in|\")?"
    behind = rf"(?P<plus>\s?\+)?[\s.…_x(–—:,;-]*(?:{units})\b"
    return re.compile(rf"{size}{behind}(?P<over>\s+{either_of('added')})?\)?")


@lru_cache(maxsize=4096)
def size_added_to(text: str) -> AddedTo | None:
    """The size to which a text says that amounts are added, None in any other text."""
    found = _pattern().search(text.lower()) if any(map(str.isdigit, text)) else None
    if found is None or not (found["plus"] or found["left"] or found["over"]):
        return None
    with_added = next(n for words, n in SMALL_UNITS.values() if found[words])
    decimals = len(found["size"].replace(",", ".").partition(".")[2])
    name = "" if found["plus"] else _SIZE_WORD.sub("", text[: found.start()]).strip(" ,;:(–—-")
    return AddedTo(
        plain_number(found["size"].rstrip(".,")), decimals, with_added, found.end(), name
    )

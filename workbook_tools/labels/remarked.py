"""Whole numbers with a remark behind them, told from so many of something by what stands beside.

"430 ground 3 off" among weights is a weight; "4 bolts" and "1 cracked" are counts wherever they
stand, and "3 rough" between 2 and 4 says which one.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache

from workbook_tools.books.cells import Sheet
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.measurands.position import parse

_REMARKED = re.compile(r"(?P<number>\d{1,4})\s+[-–(]?\s*(?P<words>[^\W\d_].*)")
_TOO_LONG = 34
# A neighbor stands no further off, and so many of them show what size to expect.
_FARTHEST, _FEWEST = 3, 2
# No reading is further from all of its neighbors; one that is bad may be further.
_MOST_APART, _MOST_APART_OF_LARGE, _LARGE = 1.5, 3.0, 10
# Which one something is of, or so many of something, more often than a size.
_MOST_COUNTED = 24
_At = tuple[int, int]


@lru_cache(maxsize=4096)
def is_judged(text: str) -> bool:
    """Whether the words behind a number of two digits judge it, and count nothing: "21 ok"."""
    found = _REMARKED.fullmatch(text)
    if found is None or len(found["number"]) < 2:
        return False
    return set(_words(found["words"])) <= words_of("judgments")


def sizes_with_remarks(sheet: Sheet, kinds: Mapping[_At, str]) -> Iterator[_At]:
    """The cells with a whole number and a remark that stand in a row or column of such sizes."""
    for at, kind in kinds.items():
        if kind != "text":
            continue
        text = " ".join(str(sheet.cells[at].value).split())
        found = _REMARKED.fullmatch(text) if len(text) <= _TOO_LONG else None
        if found is None:
            continue
        number = int(found["number"])
        if _counts_things(number, found["words"]) or _names_one(number, text):
            continue
        across, down = (_beside(sheet, at, step) for step in ((0, 1), (1, 0)))
        # What stands first in its row names it: "1 EV".
        if _fits(number, down) or (-1 in across and _fits(number, across)):
            yield at


def _words(text: str) -> list[str]:
    return re.findall(r"[^\W\d_]+", text.casefold())


def _counts_things(number: int, words: str) -> bool:
    """Whether words behind a number name what it is so many of, or say of how many."""
    first = next(iter(_words(words)), "")
    few = number <= _MOST_COUNTED
    return first in words_of("counted_things") or (few and first in words_of("counted_states"))


def _names_one(number: int, text: str) -> bool:
    """Whether a text says which one and where it is: "2 Centre" over journals near two inches."""
    return number <= _MOST_COUNTED and parse(text) is not None


def _beside(sheet: Sheet, at: _At, step: _At) -> Mapping[int, float]:
    """The typed numbers nearest to a cell along its row or column, by how far they are off."""
    found, typed = {}, False
    for way in (-1, 1):
        for off in range(1, _FARTHEST + 1):
            cell = sheet.cells.get((at[0] + way * off * step[0], at[1] + way * off * step[1]))
            value = _number_of(cell.value) if cell else None
            if cell is None or value is None:
                break
            found[way * off] = value
            typed = typed or not isinstance(cell.value, str)
    return found if typed else {}


def _number_of(value: object) -> float | None:
    """A typed number, or the one that a remark stands behind; None for anything else."""
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return float(value)
    found = _REMARKED.fullmatch(value.strip()) if isinstance(value, str) else None
    return float(found["number"]) if found else None


def _fits(number: int, beside: Mapping[int, float]) -> bool:
    """Whether a number is of the size of its neighbors, and does not only count on with them."""
    if len(beside) < _FEWEST or min(beside.values()) <= 0:
        return False
    if max(beside.values()) > _MOST_APART_OF_LARGE * min(beside.values()):
        return False  # Sizes of several things.
    counts_on = all(value == number + off for off, value in beside.items())
    if counts_on and number <= _MOST_COUNTED:
        return False
    apart = _MOST_APART_OF_LARGE if number >= _LARGE else _MOST_APART
    return min(beside.values()) / apart <= number <= max(beside.values()) * apart

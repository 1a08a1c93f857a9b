"""Limits of several sides in one title: "Piston to valve (min .080 in / .100 ex)"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from workbook_tools.labels.cell_texts import either_of, words_of
from workbook_tools.labels.content import UNSIGNED
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.vocabulary import NO_SIZES, meaning_of, stage_of
from workbook_tools.labels.which import Which

_LIMIT = re.compile(
    rf"(?<![\w.,])(?P<low>{UNSIGNED})(?![^\W_])(?:\s*(?:-|–|÷|{either_of('up_to')})\s*(?P<high>{UNSIGNED}))?"
)
_POINT = re.compile(r"[.,]\d")
_WORD = re.compile(r"[^\W_]+\.?")
# A longer text is a remark.
_LONGEST = 80
# So many rows below a title the sizes begin at the latest.
_ROWS_BELOW = 4
_RINGS = ("top", "1st", "2nd", "second", "oil")
_ENDS = {"limit_low": "min", "limit_high": "max"}


class _Limit(NamedTuple):
    """A limit in a title: the word that says of which side or ring, and the limit in words."""

    of: str
    told: str


def limits_of_sides(cells: SheetText, spots: Sequence[Spot]) -> Iterator[Spot]:
    """The limits that titles name of intake and exhaust, or of two rings, as of targets.

    Each holds for the numbers below whose heads say the same side or ring.
    """
    told = {
        at: limits
        for at, text in cells.texts.items()
        if len(_POINT.findall(text)) > 1 and (limits := _limits(text))
    }
    if not told:
        return
    by_row: dict[int, list[Spot]] = {}
    for spot in spots:
        by_row.setdefault(spot.row, []).append(spot)
    for (row, column), limits in told.items():
        below = [s for r in range(row, row + 1 + _ROWS_BELOW) for s in by_row.get(r, ())]
        of = [next((s for s in below if _is_of(s, limit.of)), None) for limit in limits]
        for limit, first in zip(limits, of, strict=True) if all(of) else ():
            assert first is not None
            which = Which(stage="target", side=first.which.side, of=first.which.of)
            yield replace(first, row=row, column=column, which=which, inline=limit.told)


def _limits(text: str) -> list[_Limit]:
    """The limits of a text, each with its side before it or behind it; [] for any other text."""
    found = [*_LIMIT.finditer(text)] if len(text) <= _LONGEST else []
    if len(found) < 2 or not all(_POINT.search(one[0]) for one in found):
        return []
    edges = [0, *(one.end() for one in found)]
    parts = [text[edge : one.start()] for edge, one in zip(edges, found, strict=False)]
    before = [_WORD.findall(part) for part in parts]
    behind = [*before[1:], _WORD.findall(text[edges[-1] :])]
    for words in (
        [next((w for w in reversed(words) if _says_which(w)), "") for words in before],
        [next((w for w in words if _says_which(w)), "") for words in behind],
    ):
        ends = _ends(before)
        told = [_told(one, end) for one, end in zip(found, ends, strict=True)]
        if all(words) and len({*words}) == len(words) and all(told):
            return [_Limit(of, limit) for of, limit in zip(words, told, strict=True)]
    return []


def _ends(before: Sequence[Sequence[str]]) -> Sequence[str]:
    """Which end each limit is, said before it or before an earlier one, "" where it is not said."""
    ends: list[str] = []
    for words in before:
        own = next((e for w in words if (e := _ENDS.get(stage_of(meaning_of(w)), ""))), "")
        ends.append(own or (ends[-1] if ends else ""))
    return ends


def _told(limit: re.Match[str], end: str) -> str:
    if limit["high"]:
        return f"{limit['low']} to {limit['high']}"
    return f"{end} {limit['low']}" if end else ""


def _side(word: str) -> str:
    """The side that a word says, "" where it says none."""
    even = word.casefold().strip(".")
    return next((side for side in ("intake", "exhaust") if even in words_of(side)), "")


def _says_which(word: str) -> bool:
    return bool(_side(word)) or word.casefold().strip(".") in _RINGS


def _is_of(spot: Spot, word: str) -> bool:
    """Whether a number is of the side or the ring that a word says."""
    if spot.which.stage in NO_SIZES:
        return False
    if side := _side(word):
        return side in (spot.which.side, _side(spot.label))
    return spot.label.casefold().split()[:1] == [word.casefold().strip(".")]

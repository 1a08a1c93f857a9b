"""German compounds taken apart: Hauptlagerzapfen, and cut short with a dot, Hauptlagerz."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from workbook_tools.measurands.lexicon import Sense, rules, senses
from workbook_tools.measurands.short_forms import cut_short
from workbook_tools.measurands.table import of_part

# So many letters a word of a compound has at least, and one that is cut short.
_LEAST_IN_COMPOUND = 3
_LEAST_CUT = 2


def senses_of_compound(word: str, is_cut: bool) -> tuple[Sense, ...]:
    """The senses of a compound, () for any other word; is_cut: whether a dot ends it."""
    parts = _compound(word)
    return _joined(parts) if parts else _compound_in_short(word) if is_cut else ()


@lru_cache(maxsize=4096)
def _compound(word: str) -> tuple[str, ...]:
    """The German words that a compound is made of, the longest first; () where it is none."""
    listed = senses()["de"]
    for cut in range(len(word) - _LEAST_IN_COMPOUND, _LEAST_IN_COMPOUND - 1, -1):
        head, rest = word[:cut], word[cut:]
        if (head,) not in listed:
            continue
        for link in ("", *rules().links):
            tail = rest.removeprefix(link)
            if not rest.startswith(link) or len(tail) < _LEAST_IN_COMPOUND:
                continue
            parts = (tail,) if (tail,) in listed else _compound(tail)
            if parts:
                return (head, *parts)
    return ()


@lru_cache(maxsize=4096)
def _compound_in_short(word: str) -> tuple[Sense, ...]:
    """The senses of a German compound whose last word is cut short: Pleuellagersp."""
    for cut in range(len(word) - _LEAST_CUT, _LEAST_IN_COMPOUND - 1, -1):
        head, tail = word[:cut], word[cut:]
        parts = (head,) if (head,) in senses()["de"] else _compound(head)
        ends = cut_short((tail,), ("de",), frozenset({tail})) if parts else ()
        joined = (_together(one, end) for one in _joined(parts) for end in ends)
        if found := tuple(dict.fromkeys(one for one in joined if one is not None)):
            return found
    return ()


def _joined(parts: Sequence[str]) -> tuple[Sense, ...]:
    """The senses of a compound: those of its words that can stand together."""
    listed = senses()["de"]
    joined: list[Sense] = [Sense()]
    for part in parts:
        joined = [
            both
            for one in joined
            for other in listed[part,]
            if (both := _together(one, other)) is not None
        ]
    return tuple(sorted(joined, key=lambda one: not _is_measured(one)))


def _is_measured(one: Sense) -> bool:
    """Whether the table has what a part and a noun say together, by that name or another."""
    names = rules().means.get(f"{one.part} {one.noun}", ())
    return bool(names or of_part(one.part, one.noun)) or not (one.part and one.noun)


def _together(one: Sense, other: Sense) -> Sense | None:
    said_by_both = {}
    for slot in Sense.__dataclass_fields__:
        mine, theirs = getattr(one, slot), getattr(other, slot)
        if mine and theirs and mine != theirs:
            if slot != "part" or not (
                made := rules().combine.get(frozenset((mine, theirs)))
                or _less_context(mine, theirs)
            ):
                return None
            mine = made
        said_by_both[slot] = mine or theirs
    return Sense(**said_by_both)


def _less_context(one: str, other: str) -> str:
    """Of two parts the one that says more than where, "" where neither only says where."""
    context = rules().context
    if one in context and (other not in context or context.index(one) < context.index(other)):
        return other
    return one if other in context else ""

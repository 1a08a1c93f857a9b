"""The label that a ditto of another part, side or place repeats: "ditto rods", "dto. Auslass"."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.cell_words import is_second_ring
from workbook_tools.labels.valve_names import SIDE_OF_WORD
from workbook_tools.labels.which import TAKEN
from workbook_tools.measurands.position import counts, parse
from workbook_tools.measurands.words import read_label

# What a ditto may be of instead.
_PARTS = ("head", "cam", "crank", "small_end")
_MOST_WORDS = 3
_NUMBERED_RINGS = {1: "top", 2: "second", 3: "oil"}


def of_another(label: str, own: str) -> str:
    """A label with what a ditto of it says in the place of what it says of the same kind.

    "Main bearing clearance" for rods; "" where it says nothing of that kind, or the same.
    """
    words = label.split()
    is_of_ring = read_label(label).part == "ring" or "ring" in map(counts, words)
    kind, value = _told(own, is_of_ring)
    if not kind or len(own.split()) > _MOST_WORDS:
        return ""
    for first, last in _spans(len(words)):
        said = _told(" ".join(words[first:last]), is_of_ring)
        if said[0] == kind:
            behind = "," if words[last - 1].endswith(",") else ""
            other = [*words[:first], own.rstrip(",") + behind, *words[last:]]
            return "" if said[1] == value else " ".join(other)
    return ""


def _spans(words: int) -> Iterator[tuple[int, int]]:
    """The first word and the end of each run of words, the short ones first."""
    for length in range(1, min(words, _MOST_WORDS) + 1):
        yield from ((first, first + length) for first in range(words - length + 1))


def _ring(even: str) -> str:
    """The ring that a word alone names beside others, "" for any other word."""
    if even in words_of("top_rings"):
        return "top"
    return (
        "second"
        if even == "2" or is_second_ring(even)
        else "oil"
        if even in words_of("oil_rings")
        else ""
    )


@lru_cache(maxsize=4096)
def _told(text: str, of_ring: bool) -> tuple[str, str]:
    """What kind of thing a text tells and which one: a valve's side, a ring, a place, a part."""
    even = text.casefold().strip(" .,;:()")
    if side := SIDE_OF_WORD.get(even):
        return "side", side
    if of_ring and (ring := _ring(even)):
        return "ring", ring
    where = parse(text.strip(" ,;:()"))
    if where is not None and where.of == "ring" and where.number:
        return "ring", _NUMBERED_RINGS.get(where.number, "")
    if where is not None and not where.number and (where.at or where.bank):
        return ("at", " ".join(where.at)) if where.at else ("bank", where.bank)
    if (of := counts(even)) in ("main", "rod"):
        return "part", of or ""
    meaning = read_label(even)
    if meaning.part in _PARTS and not meaning.unknown:
        return "part", meaning.part
    only = meaning.stage in TAKEN and not (meaning.part or meaning.unknown)
    return ("stage", meaning.stage) if only else ("", "")

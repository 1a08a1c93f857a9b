"""What heads of columns name beside sizes: rings, journals, bearings, parts and units."""

from __future__ import annotations

import re
from collections.abc import Sequence

from workbook_tools.labels.content import is_unit
from workbook_tools.labels.vocabulary import BEARINGS, meaning_of
from workbook_tools.labels.which import Which
from workbook_tools.measurands import find
from workbook_tools.measurands.position import counts, parse

# One ring before the others: "Top", "2nd", "3º".
ORDINAL = re.compile(
    r"top|(?:1st|2nd|3rd|second|oil)\.?|[123](?:[ªº°.]|re|er|[èe]re|e|[èe]me)", re.IGNORECASE
)
_NUMBERED_RINGS = {"1": "top", "2": "second", "3": "oil"}
# What is ground of a crankshaft whose heads only say when: "HL 1, found, ground".
CRANK_PARTS = {"main": "Main journal", "rod": "Crankpin"}


def is_journal(text: str) -> bool:
    """Whether a head over what counts the rows names journals: "Zapfen"."""
    return meaning_of(text).part.endswith("journal")


def names_a_bearing(text: str) -> bool:
    """Whether a text names a journal or a bearing with its number, and so what is measured."""
    meaning = meaning_of(text)
    first = meaning.candidates[0] if meaning.candidates and meaning.number else None
    term = find(first.measurand) if first and first.cost <= 2 else None
    return term is not None and term.of in BEARINGS


def names_a_part(text: str) -> bool:
    """Whether a head names a part that is measured."""
    candidates = meaning_of(text).candidates
    return bool(candidates) and candidates[0].cost <= 3


def measuring_unit(texts: Sequence[str]) -> str:
    """A unit over a column that says by itself what is measured: cc, "" where none does."""
    return next((t for t in texts if is_unit(t) and meaning_of(t).candidates), "")


def is_a_ring(text: str) -> bool:
    """Whether a head names a ring by itself, whatever its table is about: "Ring 1"."""
    where = parse(text)
    if where is not None:
        return where.of == "ring" and names_a_ring(text, ())
    counted = any(counts(word) == "ring" for word in text.split())
    return counted and names_a_ring(text, ())


def of_a_ring(told: Which, texts: Sequence[str], own: Sequence[str]) -> Which:
    """What heads say: "top" and "2nd" below "Ring gaps" are rings, and no places or numbers."""
    if not own or told.side or not (told.at or told.number):
        return told
    if not names_a_ring(own[0], ()) and meaning_of(own[0]).part != "ring":
        return told
    ring = next((t for t in texts if t not in own and is_ordinal_of_rings(t)), "")
    ring = _NUMBERED_RINGS.get(ring[:1], ring)
    return told._replace(at=(), number=0, side=f"{ring} ring") if ring else told


def is_ordinal_of_rings(text: str) -> bool:
    """Whether a head is an ordinal by which a ring is known: "2nd"."""
    named = _NUMBERED_RINGS.get(text[:1], text)
    return ORDINAL.fullmatch(text) is not None and names_a_ring(f"{named} ring", ())


def names_a_ring(text: str, about: Sequence[str]) -> bool:
    """Whether a head that only says which one says which ring, by what its table is about."""
    candidates = meaning_of(text, tuple(about)).candidates
    term = find(candidates[0].measurand) if candidates and candidates[0].cost <= 2 else None
    if term is None or term.of != "ring":
        return False
    # "Side" is of any ring, and of none before the others.
    alike = [c for c in candidates if c.cost == candidates[0].cost]
    return len(alike) == 1 or any(c.measurand.partition("_")[2] != term.id.partition("_")[2]
                                  for c in alike)  # fmt: skip

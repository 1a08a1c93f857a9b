"""A candidate: what a cell may be by the words near it."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from workbook_tools import quantities
from workbook_tools.formulas.references import Place
from workbook_tools.labels.content import FAR_FROM_USUAL, Content, Field
from workbook_tools.labels.conventions import Stated
from workbook_tools.labels.label import Label
from workbook_tools.labels.layout import Form
from workbook_tools.labels.vocabulary import How, Stage
from workbook_tools.measurands import Measurand, Position, find
from workbook_tools.measurands.measurand import Of
from workbook_tools.quantities import Kind

# What is numbered apart from the cylinders; everything else is of one of these.
NUMBERED_APART: tuple[Of, ...] = ("main", "rod", "cam_bearing", "bearing")
_CROWNS = ("crown_volume", "dish_volume", "dome_volume")


class Candidate(NamedTuple):
    """What a cell may be by the words near it, and how that was found.

    name: of the vocabulary ("deck_clearance"); position: "3", "L2", "" where there is one
    for all; value: None where the cell gives none, then content says why; at: where on a
    cylinder it was taken; stage: when, or that it is a target and no reading; how: by its
    exact word, a synonym, the layout, or only proposed; likeness: of a proposal, of 100;
    which_open: whether nothing says which one of two it is of; typed: whether it was typed
    rather than worked out by a formula; note: what has to be told
    with it; inline: whether it is one of several things that the cell says; because:
    what its line was weighed by, in words; last: of a pair that shares a part its second;
    usual_here: whether the book gives limits beside its line in which most of it lies, or its
    engine is as large.
    """

    name: str
    label: Label
    position: str
    value: float | None
    unit: str
    place: Place
    how: How
    kind: Kind
    of: Of
    content: Content
    at: str = ""
    stage: Stage = ""
    likeness: float = 100.0
    typed: bool = True
    note: str = ""
    of_call: bool = False
    in_line: bool = False
    which_open: bool = False
    inline: bool = False
    because: tuple[str, ...] = ()
    last: int = 0
    usual_here: bool = False

    @property
    def part(self) -> Position:
        """Which one it is of, as a value."""
        part = part_of(self.of, self.position, self.at)
        return replace(part, last=self.last) if 0 < part.number < self.last else part

    @property
    def far_from_usual(self) -> bool:
        """Whether its size is one that hardly can be, and nobody said that it is right."""
        # What wear makes larger may have been found as large as anything.
        doubted = FAR_FROM_USUAL in self.note and self.how != "layout"
        return doubted and not (self._is_worn or self.usual_here)

    @property
    def _is_worn(self) -> bool:
        """Whether it is a clearance as found, of any size that can be at all."""
        term, value = find(self.name), self.content.value
        if self.stage != "found" or term is None or value is None or not value.unit:
            return False
        size = quantities.read_text(value.text, self.kind, "metric")
        return term.usual[1] <= _MOST_OF_WEAR and term.is_possible(size)


# Clearances, gaps and what is out of round or flat are below this (SI); sizes of parts above.
_MOST_OF_WEAR = 0.003


@lru_cache(maxsize=4096)
def part_of(of: Of, position: str, at: str = "") -> Position:
    """Which one of what: position "3", "L2", "L" or "Bank 1", at a place such as "top thrust"."""
    if position.startswith("Bank "):
        return Position("" if of == "engine" else of, 0, position[5:], tuple(at.split()))
    number = "".join(c for c in position if c.isdigit())
    bank = "".join(c for c in position if c.isalpha())[:1].upper()
    # More than this number no engine has: such a column is a log.
    counted = int(number or 0) if len(number) < 3 else 0
    return Position("" if of == "engine" else of, counted, bank, tuple(at.split()))


def field_of(term: Measurand, unit: str, stated: Stated, form: Form, from_1904: bool) -> Field:
    """What is expected in a cell that measures this; from_1904: whether days count from 1904."""
    bare = term.bare_units
    if not unit and bare[0] == bare[1] and bare[0] != "%":
        unit = bare[0]  # Grams are weighed in either system.
    if not unit and stated.system and term.noun == "finish":
        unit = term.bare_unit(stated.system)  # Nobody has a finish of half a millimeter.
    is_deck = term.id in ("deck_clearance", "piston_protrusion")
    return Field(
        meaning=term.id,
        kind=term.kind,
        unit=unit,
        system=stated.system,
        signs=stated.deck if is_deck else stated.crown if term.id in _CROWNS else "",
        day_first=form.day_first,
        decimal_comma=stated.comma,
        likely=term.usual,
        from_1904=from_1904,
        zero=term.zero,
    )

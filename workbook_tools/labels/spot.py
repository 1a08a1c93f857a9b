"""A cell that texts speak of."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import NamedTuple

from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.vocabulary import (
    BEARINGS,
    NO_SIZES,
    Stage,
    begins_with_a_letter,
    meaning_of,
    plain,
)
from workbook_tools.labels.which import Which
from workbook_tools.labels.which_told import so_many, which_of
from workbook_tools.measurands import Measurand, find
from workbook_tools.measurands.position import parse
from workbook_tools.measurands.words import Meaning
from workbook_tools.quantities import RATIO

_BRACKETS = re.compile(r"[(\[]([^()\[\]]*[^\W\d_]{3}[^()\[\]]*)[)\]]")
_LETTER = re.compile(r"\b[A-WZ]\b")


class Told(NamedTuple):
    """What the shop's layout says of a cell.

    measurand, unit: "" where it does not say; stage: None where it does not; which: whether it
    says of which one the cell is; by_cell: whether it names the cell, and not only its label.
    """

    measurand: str = ""
    unit: str = ""
    stage: Stage | None = None
    which: bool = False
    by_cell: bool = False


@dataclass(frozen=True)
class Spot:
    """A cell that texts speak of.

    label: what is measured; headings: what stands over and beside it, the nearest first;
    which: one of several alike, as the heads say; unit: of its column, row or neighbor; line:
    of the cells that share the label; origin: the label's own cell; inline: the text beside
    the label in one cell; told: what the layout says, None where it says nothing; nominal: the
    cell of a nominal size that its number may be an amount over.

    What follows from its words is worked out once, also for later books whose blocks look the
    same (kept_blocks.py).
    """

    row: int
    column: int
    label: str
    headings: tuple[str, ...]
    which: Which
    unit: str
    line: tuple[object, ...]
    origin: At
    inline: str = ""
    told: Told | None = None
    nominal: At | None = None

    @cached_property
    def meaning(self) -> Meaning:
        """What its label says below its headings."""
        return meaning_of(self.label, self.headings)

    @cached_property
    def first_meant(self) -> Measurand | None:
        """What its label says likeliest, None where it names nothing measured."""
        candidates = self.meaning.candidates
        return find(candidates[0].measurand) if candidates else None

    @cached_property
    def is_computed(self) -> bool:
        """Whether a number is a mean or a sum of others."""
        meaning, first = self.meaning, self.first_meant
        # The total clearance of a bearing is that across its diameter.
        # And that of gaskets and shims is how thick they are together.
        # And the total of a rod is what it weighs with both ends.
        whole = first is not None and (
            first.noun in ("clearance", "thickness") or first.id == "rod_mass"
        )
        across = meaning.statistic == "sum" and whole
        # A ratio is always worked out: "C.R. (calculated)" says no more than that.
        always = (
            meaning.statistic in ("computed", "sum") and first is not None and first.kind is RATIO
        )
        said = bool(meaning.statistic) and not across and not always
        return self.which.stage == "computed" or said

    @cached_property
    def shared(self) -> tuple[object, ...]:
        """What it shares with the others of its line and with no other spot of its sheet."""
        which = self.which
        # The journal of a main and that of a rod share a word, and are two things.
        of = which.of if which.of in BEARINGS else ""
        key = (*self._same_label, which.side, which.stage, which.other, of)
        return (*key, self.told) if self.told else key

    @property
    def _same_label(self) -> tuple[object, ...]:
        """What spots of one line share: labels that differ only in a number are of one line."""
        if (len(self.line) == 1 or self.line[0] == "inline") and self.meaning.number:
            # "Gap R1 cyl. 1" and "Gap R2 cyl. 1" are two lines.
            bare = re.sub(r"\d+", "", plain(self.label))
            return "numbered", bare, self.first_meant, self.headings[:1]
        return self.line

    @cached_property
    def is_before_work(self) -> bool:
        """Whether a word for front says before: "Alésage avant" of each cylinder by its number."""
        words = set(self.label.casefold().split())
        of_cylinders = self.which.number and self.which.of not in BEARINGS
        both = of_cylinders and "front" in self.meaning.at and words & words_of("before_or_front")
        return bool(both) and not self.which.stage

    @cached_property
    def which_one(self) -> Which:
        """Which one it is of, by the layout, by its heads, else by its own label."""
        if self.told and self.told.which:
            return self.which
        meaning = self.meaning
        if self.is_before_work:
            return self.which._replace(stage="found")
        bank = "" if begins_with_a_letter(self.label) else meaning.bank
        # A lone letter in a label names a valve or a bank, and no place: "Intake B".
        alone = meaning_of(_LETTER.sub(" ", self.label), self.headings) if meaning.at else None
        said = which_of(self.label)
        if said and not self.which.number and (said.last or (said.number and not meaning.number)):
            return self.which.beside(Which(said.number, said.last, of=said.of))
        if not self.which.number and (pair := self._pair_of_rods):
            return self.which.beside(pair)
        number = meaning.number and meaning_of(_without_remarks(self.label), self.headings).number
        if self.which.stage in NO_SIZES and self.line[:1] == ("column",):
            number = 0  # A limit below "Protrusion 2" is that of all rows.
        return self.which.beside(Which(number, 0, bank, alone.at if alone else ()))

    @property
    def _pair_of_rods(self) -> Which | None:
        """The two rods on one throw that a label names: "Rod side 1-2", "Side play, pair 3-4"."""
        told = _TWO_ON_A_THROW.findall(self.label)
        of_rods = self.first_meant is not None and self.first_meant.of == "rod"
        if len(told) != 1 or not of_rods:
            return None
        first, last = map(int, told[0])
        return Which(first, last, of="rod") if last == first + 1 else None


_TWO_ON_A_THROW = re.compile(r"(?<![\d.,/])([1-9]\d?) ?[-–/&] ?([1-9]\d?)(?![\d.,/])")


@lru_cache(maxsize=4096)
def _without_remarks(label: str) -> str:
    """A label without brackets that count something else: "head gasket (2 notches)"."""
    if several := so_many(label):
        return several
    return _BRACKETS.sub(lambda m: m[0] if parse(m[1]) else " ", label)

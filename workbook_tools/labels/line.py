"""A line: numbers that share a label, and what they may measure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

from workbook_tools.labels.vocabulary import Match, Stage
from workbook_tools.labels.which import Which
from workbook_tools.labels.which_told import which_of
from workbook_tools.measurands import Measurand
from workbook_tools.quantities import System

# Which one, in which bank, where on it.
At = tuple[int, str, str]
# Row and column.
_InSheet = tuple[int, int]
# Sheet, row, column.
InBook = tuple[str, int, int]


class Over(NamedTuple):
    """What the numbers of a line are amounts over.

    unit: of the amounts; size_unit: of the sizes that they make, "mm" or "in"; nominal: the
    nominal size of each cell, in that unit; per: how many size units are one unit of amounts.
    """

    unit: str
    size_unit: str
    nominal: Mapping[_InSheet, float]
    per: float

    def size(self, at: _InSheet, amount: float) -> float:
        """The size that an amount makes."""
        return float(f"{self.nominal[at] + amount * self.per:.9g}")


class Reason(NamedTuple):
    """What adds a weight to a meaning; proves: whether it is a formula that holds."""

    what: str
    weight: int
    proves: bool = False

    def __str__(self) -> str:
        """In words: "words 50", "bore - piston_diameter in 6 of 6: 35"."""
        return f"{self.what} {self.weight}"


class Weighed(NamedTuple):
    """A meaning of a line with the sum of its weights, and what it is made of."""

    term: Measurand
    weight: int
    because: tuple[Reason, ...]


class Option(NamedTuple):
    """One thing that a line may measure: by its words, with what they leave to be assumed."""

    term: Measurand
    cost: int
    weight: int


@dataclass
class Line:
    """Numbers that share a label: what they may be, and what was chosen.

    values: (which one, number as it stands) of each; unit: as stated, "" where nothing
    states one; system: whose bare units it is in; decimals: written behind the point; exact:
    whether the shop's own word names it; by_cell: whether its layout names the cells; told: the
    bearings that it is told to be of; score: the sum of what was chosen; because: what it is made
    of; typed: the numbers no formula gives; cells: where the numbers stand; referred: what the
    first of its own formulas refers to; ranked: every meaning weighed, the first has most; over:
    what its numbers as they stand are amounts over, None where they are sizes; by_size: whether
    only its sizes say its unit; usual_here: whether the book itself allows them, by limits that it
    gives or an engine as large; also: what its numbers are besides, as those of both sides; side:
    the valves that a title over it names.
    """

    key: tuple[object, ...]
    label: str
    stage: Stage
    values: list[tuple[Which, float]]
    unit: str
    options: list[Option] = field(default_factory=list)
    system: System | None = None
    decimals: int = 0
    exact: bool = False
    by_cell: bool = False
    told: str = ""
    chosen: Match | None = None
    score: int = 0
    because: tuple[Reason, ...] = ()
    typed: list[float] = field(default_factory=list)
    cells: frozenset[InBook] = frozenset()
    referred: frozenset[InBook] = frozenset()
    ranked: tuple[Weighed, ...] = ()
    over: Over | None = None
    by_size: bool = False
    usual_here: bool = False
    also: Match | None = None
    side: str = ""

    @property
    def sizes(self) -> list[float]:
        """The typed numbers, else what formulas come to."""
        return self.typed or [n for _, n in self.values]

    @property
    def proven(self) -> bool:
        """Whether a formula that holds between lines says what was chosen."""
        return any(reason.proves for reason in self.because)

    @cached_property
    def first_cell(self) -> InBook | None:
        """The first cell that its numbers stand in, None where it may be nothing."""
        return min(self.cells, default=None)

    @cached_property
    def by_place(self) -> Mapping[At, float]:
        """The number of each one."""
        return {(w.number, w.bank, " ".join(w.at)): n for w, n in self.values}

    @cached_property
    def sides(self) -> frozenset[str]:
        """The intake or exhaust that its heads or its label name, else a title over it."""
        said = {which.side for which, _ in self.values}
        words = (which_of(word.strip(",.;:()")) for word in self.label.split())
        own = (said | {w.side for w in words if w}) & {"intake", "exhaust"}
        return frozenset(own or {self.side} - {""})

    def is_of_other_side(self, term: Measurand) -> bool:
        """Whether a measurand is of the exhaust where only the intake is named, or the reverse."""
        named = self.sides & {"intake", "exhaust"}
        return bool(named) and term.which in {"intake", "exhaust"} - named

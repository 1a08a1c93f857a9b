"""The cells that a label names: the values of its row or column, as far as followed."""

from __future__ import annotations

from dataclasses import dataclass, field

from workbook_tools.labels.axes import NO_HEAD, Head
from workbook_tools.labels.content import is_measured
from workbook_tools.labels.vocabulary import Match, Stage

# How many empty cells may part a label from its value.
MOST_GAP = 4
# What is put behind values that were looked at.
_TICKS = {"y", "yes", "n", "no", "ok", "x", "ja", "nein", "✓", "✔"}


@dataclass(frozen=True)
class Spot:
    """A cell that a label names, not read yet.

    origin: the label's own cell; inline: the text beside the label in one cell.
    """

    match: Match
    row: int
    column: int
    label: str
    unit: str
    head: Head
    stage: Stage
    inline: str = ""
    origin: tuple[int, int] = (0, 0)


@dataclass
class Line:
    """The values of one row as far as they were followed: (column, head, unit) of each.

    waiting: empty cells under heads of cylinders; own: what texts before the values say.
    """

    found: list[tuple[int, Head, str]] = field(default_factory=list)
    waiting: list[tuple[int, Head]] = field(default_factory=list)
    own: Head = NO_HEAD
    unit: str = ""
    gap: int = 0
    texts: int = 0
    ended: bool = False

    def blank(self, column: int, head: Head) -> bool:
        """Take in an empty cell; whether the values end there."""
        if self.ended:
            return True
        if head.says_which and not head.stage:
            self.waiting.append((column, head))
            return False
        self.gap += 1
        return bool(self.found) or self.gap > MOST_GAP

    def told_unit(self, unit: str) -> bool:
        """Take in a unit: behind values it is theirs, and they end. Always False."""
        if self.found:
            self.found = [(c, h, u or unit) for c, h, u in self.found]
            self.ended, self.waiting = True, []
        else:
            self.unit = unit
        return False

    def ends_at(self, text: str) -> bool:
        """Whether a text ends the values: a tick behind them, a remark behind their unit."""
        ticked = bool(self.found) and text.casefold() in _TICKS
        return ticked or (self.ended and not is_measured(text))

    def take(self, column: int, head: Head) -> None:
        """Take in a value, and the empty cells before it."""
        if self.found or head.says_which:
            self.found += [(c, h, self.unit) for c, h in self.waiting]
        self.waiting = []
        self.found.append((column, head, self.unit))

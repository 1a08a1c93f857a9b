"""A number with what it measures and the unit system that it is told in."""

from __future__ import annotations

from dataclasses import dataclass

from workbook_tools.quantities.kinds import Kind, System
from workbook_tools.quantities.scales import to_si
from workbook_tools.quantities.shown import show


@dataclass(frozen=True)
class Quantity:
    """A bare number of a kind, in the unit that the system has for it: 0.038 of a length, inch."""

    number: float
    kind: Kind
    system: System

    @property
    def unit(self) -> str:
        """The unit that the number is in, "" for plain numbers."""
        return self.kind.unit(self.system)

    @property
    def si(self) -> float:
        """The quantity in SI."""
        return to_si(self.number, self.kind, self.system)

    @property
    def text(self) -> str:
        """Number and unit as a text that any worksheet function reads."""
        return f"{self.number:.12g} {self.unit}".strip()

    def __str__(self) -> str:
        return show(self.number, self.kind, self.system)

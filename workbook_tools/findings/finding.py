"""A finding: one thing that a summary has to warn about."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from workbook_tools.books.records import Place

FindingKind = Literal[
    "out of band",
    "close to the limit",
    "missing reading",
    "stale result",
    "disagreement",
    "copied reading",
    "unit slip",
    "unreadable",
]


@dataclass(frozen=True)
class Finding:
    """kind; the cell it is about, None for the whole book; one sentence; what to do.

    also: the other cells that it is about.
    """

    kind: FindingKind
    place: Place | None
    message: str
    advice: str
    also: tuple[Place, ...] = ()

    @property
    def code(self) -> str:
        """What it is called for good."""
        return self.kind.replace(" ", "-")

    @property
    def places(self) -> tuple[Place, ...]:
        """Every cell that it is about."""
        return (*((self.place,) if self.place else ()), *self.also)

"""What a book calls a cell."""

from __future__ import annotations

from typing import NamedTuple


class Label(NamedTuple):
    """What the book calls a cell: the item's name, and which cylinder or journal it is of.

    text: "Deck clearance"; position: "Cyl 3", "" where there is only one; unit: as the
    label or a unit column gives it, "" where the book does not say.
    """

    text: str
    position: str = ""
    unit: str = ""

    def __str__(self) -> str:
        return f"{self.text}, {self.position}" if self.position else self.text

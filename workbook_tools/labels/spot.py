"""A cell that texts speak of."""

from __future__ import annotations

from dataclasses import dataclass

from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.which import Which


@dataclass(frozen=True)
class Spot:
    """A cell that texts speak of.

    label: what is measured; headings: what stands over and beside it, the nearest first;
    which: one of several alike, as the heads say; unit: of its column, row or neighbor; line:
    of the cells that share the label; origin: the label's own cell; inline: the text beside
    the label in one cell.
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

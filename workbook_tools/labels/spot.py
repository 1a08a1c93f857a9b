"""A cell that texts speak of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from workbook_tools.labels.cell_kinds import At
from workbook_tools.labels.vocabulary import Stage
from workbook_tools.labels.which import Which


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
    the label in one cell; told: what the layout says, None where it says nothing.
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

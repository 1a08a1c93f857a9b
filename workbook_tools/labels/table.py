"""A table: its rows and heads, what its columns hold, and what was found of it before."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field
from functools import wraps
from typing import Any, TypeVar

from workbook_tools.labels.blocks import Block
from workbook_tools.labels.cell_kinds import At, CellKind
from workbook_tools.labels.head import Head
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.vocabulary import Stage
from workbook_tools.labels.which import Which

# Texts with the cells that they stand in.
Names = list[tuple[str, At]]


@dataclass(frozen=True)
class Kept:
    """What was found of a table and is asked for again for each of its values.

    By column: columns, their filled cells; offices, whether fields of jobs stand there; texts_in,
    how often each text does. By the columns that name or count the rows before a value: settled,
    corners, over, and by row too texts, whiches, names. told: what holds for all of the table.
    """

    columns: dict[int, list[At]] = field(default_factory=dict)
    offices: dict[int, bool] = field(default_factory=dict)
    texts_in: dict[int, Counter[str]] = field(default_factory=dict)
    settled: dict[int, Mapping[int, Which]] = field(default_factory=dict)
    corners: dict[int, list[str]] = field(default_factory=dict)
    over: dict[int, dict[int, Names]] = field(default_factory=dict)
    texts: dict[At, Names] = field(default_factory=dict)
    whiches: dict[At, Which] = field(default_factory=dict)
    names: dict[At, Names] = field(default_factory=dict)
    told: dict[Callable[..., object], Any] = field(default_factory=dict)


@dataclass(frozen=True, eq=False, kw_only=True)
class BareTable:
    """The rows below a head, whatever their columns hold."""

    cells: SheetText
    block: Block
    head: Head
    rows: Sequence[int]
    kept: Kept = field(default_factory=Kept)


@dataclass(frozen=True, eq=False, kw_only=True)
class Table(BareTable):
    """The rows below a head, by what their columns hold.

    index: columns that count the rows; again: of these those that count some rows twice;
    words_of_counts: counts with a word behind them; names: columns with texts; pistons: of these
    those that say whose rings a row measures; counted: names that say which one a row is of;
    telling: index and names; units: columns with units; values: the others, dates left out;
    first: the first of these; carried: which one rows are of by a name above them;
    begun_above: rows of what is counted in a row above; stages: of rows that say them behind
    their values; titles: over the table, the nearest first; side: the intake or exhaust that a
    title over all rows names.
    """

    index: Mapping[int, Mapping[int, Which]]
    again: Collection[int]
    words_of_counts: Collection[At]
    names: Sequence[int]
    pistons: Collection[int]
    counted: Mapping[At, Which]
    telling: Sequence[int]
    units: Sequence[int]
    values: Sequence[int]
    first: int
    carried: Mapping[int, Which]
    begun_above: Collection[int]
    stages: Mapping[int, Stage]
    titles: Sequence[str]
    side: str


_Table = TypeVar("_Table", bound=BareTable)
_Told = TypeVar("_Told")


def told_once(tell: Callable[[_Table], _Told]) -> Callable[[_Table], _Told]:
    """What a function tells of all of a table, found once for each."""

    @wraps(tell)
    def told(table: _Table) -> _Told:
        known = table.kept.told
        if tell not in known:
            known[tell] = tell(table)
        answer: _Told = known[tell]
        return answer

    return told


def told_before(table: Table, column: int) -> int:
    """How many columns before one name or count the rows: they say the same for all such."""
    return bisect_left(table.telling, column)


def in_column(table: BareTable, column: int) -> list[At]:
    """The filled cells of a column."""
    if column not in table.kept.columns:
        kinds = table.cells.kinds
        table.kept.columns[column] = [(r, column) for r in table.rows if (r, column) in kinds]
    return table.kept.columns[column]


def holds(table: BareTable, column: int, kind: CellKind) -> bool:
    """Whether most filled cells of a column are of a kind."""
    cells = in_column(table, column)
    return sum(table.cells.kinds[at] == kind for at in cells) * 2 > len(cells)


def unit_of(table: Table, row: int) -> str:
    """The unit that stands in a row, "" where none does."""
    for column in table.units:
        if table.cells.kinds.get((row, column)) == "unit":
            return table.cells.text(row, column)
    return ""


def all_titles(table: Table) -> tuple[str, ...]:
    """The titles over a table, the nearest first, and what stands over all of its sheet."""
    return (*table.titles, table.cells.heading)

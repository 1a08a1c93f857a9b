"""The table below a head: which of its columns count and name the rows, and which hold values."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.labels.blocks import Block
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.counting_columns import carry_down, index_columns, repeats
from workbook_tools.labels.head import Head
from workbook_tools.labels.row_names import (
    carried_names,
    counted_names,
    is_name,
    names_of_pistons,
    parts_each,
    stages_in,
)
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.table import BareTable, Table, holds, in_column


def table_of(
    cells: SheetText,
    block: Block,
    head: Head,
    rows: Sequence[int],
    side: str,
    titles: Sequence[str],
) -> Table:
    """The table of rows below a head, with the titles over it, the nearest first.

    side: the intake or exhaust that a title over all rows names.
    """
    table = BareTable(cells=cells, block=block, head=head, rows=rows)
    columns = _columns_below(table)
    units = [c for c in columns if holds(table, c, "unit")]
    index, words_of_counts = index_columns(table, columns)
    parted = [c for c in columns if c not in index and parts_each(table, c)]
    begun_above = carry_down(table, index, parted)
    others = [c for c in columns if c not in index and c not in units]
    names = [c for c in others if _names_rows(table, c)]
    notes = [c for c in columns if is_aside(cells, head, c)]
    cells.aside |= {at for c in notes for at in in_column(table, c)}
    dates = [c for c in columns if holds(table, c, "date") or _is_dated(table, c)]
    told = {*units, *index, *names, *notes, *dates}
    values = [c for c in columns if c not in told]
    first = values[0] if values else block.right + 1
    counted = {at: which for c in names for at, which in counted_names(table, c).items()}
    carried = {} if index else carried_names(table, names)
    return Table(
        cells=cells,
        block=block,
        head=head,
        rows=rows,
        kept=table.kept,
        index=index,
        again={c for c, told in index.items() if repeats(told.values())},
        words_of_counts=words_of_counts,
        names=names,
        pistons={c for c in names if names_of_pistons(table, c)},
        counted=counted,
        telling=sorted((*names, *index)),
        units=units,
        values=values,
        first=first,
        carried=carried,
        begun_above={*begun_above, *carried},
        stages={row: stage for c in names if c >= first for row, stage in stages_in(table, c)},
        titles=titles,
        side=side,
    )


def is_aside(cells: SheetText, head: Head, column: int) -> bool:
    """Whether a column holds remarks, part numbers or prices, and nothing measured."""
    return any(map(cells.vocabulary.is_aside, head.texts.get(column, ())[:1]))


def _columns_below(table: BareTable) -> list[int]:
    """The columns of rows below a head."""
    own = {c for row in table.rows for c in table.block.rows[row]}
    # Of heads over a wider block those count no further that stand over another one here.
    beyond = (c for c in table.head.index if c not in own)
    others = {c for c in beyond if any((row, c) in table.cells.kinds for row in table.rows)}
    return sorted({*table.head.index, *own} - others)


def _is_dated(table: BareTable, column: int) -> bool:
    """Whether the head of a column says that it holds days."""
    own = table.head.texts.get(column, ())[:1]
    named = {text.casefold().strip(" .:") for text in own} & words_of("date_heads")
    if named == {"dia"}:
        # A day in one language is a diameter in another, which has decimals.
        numbers = (at for at in in_column(table, column) if table.cells.kinds[at] == "number")
        return all(map(table.cells.is_whole, numbers))
    return bool(named)


def _names_rows(table: BareTable, column: int) -> bool:
    """Whether a column holds the names of its rows."""
    cells = in_column(table, column)
    texts = [at for at in cells if table.cells.kinds[at] in ("text", "remark")]
    volumes = [at for at in cells if texts and is_name(table, *at, table.cells.text(*at))]
    return len({*texts, *volumes}) * 2 > len(cells)

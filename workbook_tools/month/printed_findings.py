"""The findings of a month as they are printed: what asks for the same thing told together."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby

from workbook_tools.month.shown import ShownCell, ShownTable

_SAME = ("job", "kind", "advice", "sheet")


def grouped_findings(table: ShownTable) -> ShownTable:
    """The same table with one row for all findings of a job, a sheet and a kind that ask for one
    thing: the first of them, and how many more there are. Raises nothing.
    """
    at = {column.name: n for n, column in enumerate(table.columns)}

    def key(row: tuple[ShownCell, ...]) -> tuple[str, ...]:
        return tuple(row[at[name]].text for name in _SAME)

    rows = []
    for _, same in groupby(table.rows, key):
        first, *others = same
        cells = list(first)
        if others:
            said = f"{first[at['message']].text} And {len(others)} more of this kind."
            cells[at["message"]] = ShownCell(said, said)
        rows.append(tuple(cells))
    return replace(table, rows=tuple(rows))

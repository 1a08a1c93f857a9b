"""Numbers below a text that names them, where nothing stands beside: a log in one column."""

from __future__ import annotations

import re
from collections.abc import Container, Iterator

from workbook_tools.labels.cell_kinds import VALUES, At
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spot import Spot
from workbook_tools.labels.vocabulary import meaning_of, unit_in
from workbook_tools.labels.which import NOTHING, Which

# Fewer numbers may be anything.
_FEWEST = 2
# Which ones a text says are below it, in the order that they stand in.
_IN_ORDER = re.compile(
    r"[\s,]*\(?\b(?:(?P<first>\d{1,2})\s*(?:-|–|to|thru|through|bis|à|a|al|fino a)\s*\d{1,2}"
    r"|front to (?:rear|back)|von vorn nach hinten|de l'avant à l'arrière|de adelante atrás)\b\)?",
    re.IGNORECASE,
)


def number_columns(cells: SheetText, known: Container[At]) -> Iterator[Spot]:
    """The numbers below a text that names them, in rows that hold nothing else.

    known: cells that tables name. "bores, 1 to 6" over six sizes.
    """
    alone = {row: columns[0] for row, columns in _rows(cells).items() if len(columns) == 1}
    for row, column in alone.items():
        at = row, column
        if cells.kinds[at] not in ("text", "remark"):
            continue
        below: list[At] = []
        while alone.get(row + len(below) + 1) == column:
            under = row + len(below) + 1, column
            if cells.kinds[under] not in VALUES or not cells.is_number(under) or under in known:
                break
            below.append(under)
        if len(below) >= _FEWEST:
            yield from _named(cells, at, below)


def _rows(cells: SheetText) -> dict[int, list[int]]:
    rows: dict[int, list[int]] = {}
    for row, column in sorted(cells.kinds):
        rows.setdefault(row, []).append(column)
    return rows


def _named(cells: SheetText, at: At, below: list[At]) -> Iterator[Spot]:
    """The numbers below a text as what it says, counted where there are several of it."""
    text = cells.text(*at)
    label = _IN_ORDER.sub("", text).strip(" ,.:") or text
    first_clause = label.partition(",")[0]
    if not (meaning_of(label).candidates or meaning_of(first_clause).candidates):
        return
    told = _IN_ORDER.search(text)
    first = int(told["first"]) if told and told["first"] else 1
    for count, (row, column) in enumerate(below):
        which = NOTHING if len(below) < _FEWEST else Which(first + count)
        yield Spot(
            row, column, label, (cells.heading,), which, unit_in(label), ("below", *at), at
        )  # fmt: skip

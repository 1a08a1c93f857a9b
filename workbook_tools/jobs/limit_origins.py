"""Who says a limit: what a book writes beside the least and the most that it judges by."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.list_words import begins_with, is_word
from workbook_tools.jobs.paper_records import LimitOrigin
from workbook_tools.jobs.records import Reading, Record
from workbook_tools.jobs.verdicts import argument_of, is_judge

# A row of origins stands this close below its limits.
_BELOW = 4
_LONGEST = 60


def limit_origins(
    book: OpenBook, records: Iterable[Record], readings: Iterable[Reading]
) -> tuple[LimitOrigin, ...]:
    """What the book says of where each limit comes from, for limits of which it says it.

    records: calls, of which some judge by limits; readings: of which some are limits.
    """
    judges = [record for record in records if is_judge(record)]
    given = (argument_of(judge, name) for judge in judges for name in ("low", "high"))
    places = {a.place for a in given if a is not None and a.place is not None}
    places |= {r.place for r in readings if r.stage in ("limit_low", "limit_high")}
    by_sheet: dict[str, list[Place]] = defaultdict(list)
    for place in sorted(places):
        if ":" not in place.address:
            by_sheet[place.sheet].append(place)
    return tuple(
        origin
        for sheet in book.sheets
        if sheet.title in by_sheet
        for origin in _on_sheet(sheet, by_sheet[sheet.title])
    )


def _on_sheet(sheet: Sheet, limits: Sequence[Place]) -> Iterator[LimitOrigin]:
    heads = [
        (row, column)
        for row, column, text in sheet.texts
        if len(text) <= _LONGEST and (is_word(text, "origin") or begins_with(text, "origin_begins"))
    ]
    for place in limits if heads else ():
        row, column = coordinate_to_tuple(place.address)
        said = next(filter(None, (_said(sheet, head, row, column) for head in heads)), "")
        if said:
            yield LimitOrigin(place, said)


def _said(sheet: Sheet, head: tuple[int, int], row: int, column: int) -> str:
    """What a head's row says below a limit, or its column at the right of one."""
    at_row, at_column = head
    if at_column < column and row < at_row <= row + _BELOW:
        return _text(sheet, at_row, column)
    if at_row < row and column < at_column:
        return _text(sheet, row, at_column)
    return ""


def _text(sheet: Sheet, row: int, column: int) -> str:
    cell = sheet.cells.get((row, column))
    value = cell.value if cell else None
    return " ".join(value.split()) if isinstance(value, str) else ""

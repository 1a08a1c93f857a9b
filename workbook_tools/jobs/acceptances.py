"""Deviations that a book itself says are accepted: by whom, when and why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.jobs.mark_words import mark_words
from workbook_tools.jobs.marks import entry
from workbook_tools.jobs.paper_records import Acceptance, Mark
from workbook_tools.measurands.tokens import phrase

# So far to the right of it a head may stand from the one of who accepts.
_REACH = 20


def acceptances(book: OpenBook, marks: Sequence[Mark]) -> Iterator[Acceptance]:
    """The lines of tables of accepted deviations that somebody has signed.

    marks: of the same book, of which a head "Accepted by" begins such a table.
    """
    sheets = {sheet.title: sheet for sheet in book.sheets}
    for mark in marks:
        in_table = mark.place != mark.head and mark.state == "made"
        if in_table and not mark_words().accepted.isdisjoint(phrase(mark.label.text)):
            found = _line(sheets[mark.place.sheet], mark)
            if found.what:
                yield found


def _line(sheet: Sheet, mark: Mark) -> Acceptance:
    """One line of such a table, by the heads of its columns."""
    head_row, own = coordinate_to_tuple(mark.head.address)
    row, _ = coordinate_to_tuple(mark.place.address)
    said = {"what": "", "value": "", "why": "", "when": ""}
    for column in range(max(1, own - _REACH), own + _REACH):
        if column == own:
            continue
        name = _column(entry(sheet.cells.get((head_row, column))))
        if name and not said[name]:
            said[name] = entry(sheet.cells.get((row, column)))
    return Acceptance(mark.place, said["what"], said["value"], mark.said, said["when"], said["why"])


def _column(head: str) -> str:
    """What a column of such a table holds, "" for another."""
    words, known = set(phrase(head)), mark_words()
    if phrase(head) in known.dates:
        return "when"
    if words & known.why:
        return "why"
    if words & known.value:
        return "value"
    things = {word for key in known.things for word in key}
    return "what" if words & (things | known.deviation) else ""

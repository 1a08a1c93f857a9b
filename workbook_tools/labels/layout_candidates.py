"""What a shop's layout says of the cells that it names."""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.labels.candidate import Candidate, field_of
from workbook_tools.labels.cell_candidates import Chosen, candidates_at
from workbook_tools.labels.conventions import Stated
from workbook_tools.labels.layout import Cells, Form
from workbook_tools.labels.numbering import named_by_position, position_in_form
from workbook_tools.labels.sheet_text import SheetText
from workbook_tools.labels.spots import spots
from workbook_tools.labels.vocabulary import Match, Vocabulary, unit_in
from workbook_tools.labels.which import NOTHING
from workbook_tools.measurands import Measurand


def by_layout(
    book: OpenBook, vocabulary: Vocabulary, form: Form, stated: dict[str, Stated]
) -> Iterator[Candidate]:
    """The readings whose cells the layout names."""
    for name, listed in form.readings.items():
        term = vocabulary.term(name)
        assert term is not None, f"the layout was checked, yet {name} is no reading"
        for cells in listed:
            sheet = cells.sheet_in(book)
            if sheet is not None:
                yield from _cells_read(sheet, term, cells, form, stated, book)


def _cells_read(
    sheet: Sheet,
    term: Measurand,
    cells: Cells,
    form: Form,
    stated: dict[str, Stated],
    book: OpenBook,
) -> Iterator[Candidate]:
    left, top, right, bottom = cells.edges
    places = [(r, c) for r in range(top, bottom + 1) for c in range(left, right + 1)]
    by_label = {(s.row, s.column): s for s in spots(SheetText(sheet, form.vocabulary()))}
    for number, at in enumerate(places):
        known = by_label.get(at)
        which = known.which if known else NOTHING
        position = str(which.number or "") or (str(number + 1) if len(places) > 1 else "")
        if number < len(cells.cylinders):
            position = str(cells.cylinders[number])
        chosen = Chosen(
            Match(term, "layout"), *at, known.label if known else term.name,
            cells.unit or (known.unit or unit_in(known.label) if known else ""),
            which._replace(number=int(position or 0)), "",
        )  # fmt: skip
        field = field_of(term, chosen.unit, stated[sheet.title], form, book.days_from_1904)
        for reading in candidates_at(sheet, chosen, field):
            bank = "" if cells.cylinders else which.bank
            yield named_by_position(reading, position_in_form(bank, position, False, form))

"""What a sheet's labels and a shop's layout say of each cell, before anything is decided."""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import range_boundaries

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.formulas.call_names import mentions_call
from workbook_tools.formulas.references import Place
from workbook_tools.labels.axes import Head
from workbook_tools.labels.candidate import NUMBERED_APART, Candidate, field_of
from workbook_tools.labels.cell_text import read_content
from workbook_tools.labels.content import Content, refused
from workbook_tools.labels.conventions import Stated, stated_in
from workbook_tools.labels.label import Label
from workbook_tools.labels.label_search import Scan
from workbook_tools.labels.layout import NO_FORM, Cells, Form
from workbook_tools.labels.lines import Spot
from workbook_tools.labels.nearest_text import find_label, split_unit
from workbook_tools.labels.numbering import named_by_position, numbered, position_in_form
from workbook_tools.labels.sizes import settled, with_system_of_sizes
from workbook_tools.labels.vocabulary import (
    Match,
    Vocabulary,
    is_one_for_all,
    meaning_of,
    plain,
    stage_alone,
    stage_of,
)
from workbook_tools.measurands import Measurand, Position
from workbook_tools.measurands.measurand import Of
from workbook_tools.measurands.position import parse
from workbook_tools.quantities import RefusalCode, System


@dataclass(frozen=True)
class Unknown:
    """A label beside a number that the vocabulary does not know."""

    text: str
    place: Place


@dataclass(frozen=True)
class Candidates:
    """What labels say: candidates in reading order, labels not known, and the book's system.

    calls: those of cells with worksheet functions, whose values the functions tell; counted:
    the cells that only number heads, and no_engine: those under headings of counts and prices.
    """

    readings: tuple[Candidate, ...]
    unknown: tuple[Unknown, ...]
    system: System | None
    system_from: str
    calls: tuple[Candidate, ...] = ()
    counted: frozenset[Place] = frozenset()
    no_engine: frozenset[Place] = frozenset()


def _place(sheet: Sheet, row: int, column: int) -> Place:
    return Place(sheet.title, f"{get_column_letter(column)}{row}")


def propose(book: OpenBook, form: Form = NO_FORM) -> Candidates:
    """What labels or the form of the book say of its cells, in the order of the book.

    Raises nothing: what cannot be read is a candidate without a value, with the reason.
    """
    vocabulary = form.vocabulary()
    stated = stated_in(book, form)
    named: list[Candidate] = []
    unknown: list[Unknown] = []
    counted: set[Place] = set()
    no_engine: set[Place] = set()
    scans = [
        Scan(sheet, vocabulary)
        for sheet in book.sheets
        if not any(sheet.title.casefold() == s.casefold() for s in form.skip_sheets)
    ]
    by_sheet = [(scan, list(scan.spots())) for scan in scans]
    stated = with_system_of_sizes(stated, by_sheet)
    for scan, all_spots in by_sheet:
        sheet = scan.sheet
        spots = settled(all_spots, sheet, form, stated[sheet.title])
        near = _numbers_by_label(sheet, sorted(spots, key=lambda s: (s.row, s.column)))
        found = [r for s in spots for r in _read(sheet, s, near, form, stated, book)]
        unknown += [Unknown(text, _place(sheet, r, c)) for text, r, c in scan.unknown]
        counted |= {_place(sheet, r, c) for r, c in scan.counted()}
        no_engine |= {_place(sheet, r, c) for r, c in scan.no_engine()}
        aside = counted | no_engine | {c.place for c in found if c.how != "proposal"}
        by_text = list(_by_nearest_text(sheet, vocabulary, aside))
        found = numbered(found, form)
        named += found
        near = _numbers_by_label(sheet, by_text)
        named += numbered(
            [r for s in by_text for r in _read(sheet, s, near, form, stated, book)], form
        )
    by_layout = list(_by_layout(book, vocabulary, form, stated))
    given = {r.name for r in by_layout}
    named = [r for r in named if r.name not in given] + by_layout
    readings = [c for c in named if not c.of_call]
    systems = {(s.system, s.system_from) for s in stated.values() if s.system}
    system, source = next(iter(systems)) if len({s for s, _ in systems}) == 1 else (None, "")
    if system is None:
        system, source = _system_used(readings)
    return Candidates(
        tuple(dict.fromkeys(readings)),
        tuple(unknown),
        system,
        source,
        tuple(c for c in named if c.of_call),
        frozenset(counted),
        frozenset(no_engine),
    )


def _by_nearest_text(sheet: Sheet, vocabulary: Vocabulary, aside: set[Place]) -> Iterator[Spot]:
    """Typed numbers that the nearest text names for certain, where no label's search does.

    aside: cells that are named already, or that hold no readings.
    """
    for (row, column), cell in sheet.cells.items():
        number = isinstance(cell.value, (int, float)) and not isinstance(cell.value, bool)
        if not number or cell.formula or _place(sheet, row, column) in aside:
            continue
        label = find_label(sheet, row, column)
        if label is None or plain(label.text) in vocabulary.ignored:
            continue
        if not _stands_at(sheet, row, column, label.text):
            continue
        match = vocabulary.match(label.text)
        if match is None or match.how == "proposal" or vocabulary.job_field(label.text):
            continue
        where = parse(label.position) or Position()
        head = Head(str(where.number or ""), where.bank, " ".join(where.at), of=where.of)
        stage = stage_of(meaning_of(label.text)) or stage_alone(label.position)
        yield Spot(match, row, column, label.text, label.unit, head, stage)


def _stands_at(sheet: Sheet, row: int, column: int, text: str) -> bool:
    """Whether a label stands right before a cell, or over it with nothing but values between."""
    before = sheet.cells.get((row, column - 1))
    if before is not None and text in str(before.value):
        return True
    at = row - 1
    while (cell := sheet.cells.get((at, column))) is not None and not isinstance(cell.value, str):
        at -= 1
    return cell is not None and text in " ".join(str(cell.value).split())


def _system_used(readings: Iterable[Candidate]) -> tuple[System | None, str]:
    """The system that most readings are in, by their own units."""
    units = [r.unit for r in readings if r.value is not None]
    inch, metric = units.count("in") + units.count("cu in"), units.count("mm")
    if inch == metric:
        return None, ""
    return ("inch" if inch > metric else "metric"), "the units of its readings"


# A row of readings is no longer than this; of a log the nearest are enough.
_MOST_NEIGHBORS = 32
_Near = Mapping[tuple[str, str], Sequence[tuple[Spot, float]]]


def _numbers_by_label(sheet: Sheet, spots: Iterable[Spot]) -> _Near:
    """The numbers that each label names, in the order of the sheet."""
    found: dict[tuple[str, str], list[tuple[Spot, float]]] = defaultdict(list)
    for spot in spots:
        cell = sheet.cells.get((spot.row, spot.column))
        value = cell.value if cell else None
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            found[spot.match.term.id, spot.label].append((spot, float(value)))
    return found


def _neighbors(spot: Spot, near: _Near) -> tuple[float, ...]:
    """The other numbers that the same label names."""
    group = near.get((spot.match.term.id, spot.label), ())
    at = bisect_left(group, (spot.row, spot.column), key=lambda g: (g[0].row, g[0].column))
    first = max(0, at - _MOST_NEIGHBORS // 2)
    return tuple(v for other, v in group[first : first + _MOST_NEIGHBORS] if other != spot)


def _read(
    sheet: Sheet,
    spot: Spot,
    near: _Near,
    form: Form,
    stated: dict[str, Stated],
    book: OpenBook,
) -> Iterator[Candidate]:
    """The reading of one cell; several where the cell holds several of one cylinder."""
    term = spot.match.term
    cell = sheet.cells.get((spot.row, spot.column), Cell(None))
    field = field_of(term, spot.unit, stated[sheet.title], form, _neighbors(spot, near))
    field = replace(field, from_1904=book.days_from_1904)
    raw: object = spot.inline or cell.value
    of_call = mentions_call(cell.formula)
    if of_call:
        content = refused(None, "")
    elif cell.formula and cell.value is None:
        content = refused(None, "its formula was never calculated")
    else:
        content = read_content(raw, field, (spot.row, spot.column) in sheet.struck)
    if content.code is RefusalCode.OTHER_KIND and spot.match.how == "synonym":
        return  # "Piston: 10cc dish" names another thing than a diameter.
    notes = [n for n in (content.note, _hidden(sheet, spot.row, spot.column)) if n]
    value = content.value
    reading = Candidate(
        name=term.id,
        label=Label(split_unit(spot.label)[0], unit=spot.unit),
        position=f"{spot.head.bank}|{spot.head.cylinder}",
        value=value.number if value else None,
        unit=value.unit if value else "",
        place=_place(sheet, spot.row, spot.column),
        how=spot.match.how,
        kind=term.kind,
        of=_of(term, spot.head),
        content=content,
        at=spot.head.at,
        stage=spot.stage,
        likeness=spot.match.likeness,
        typed=not cell.formula,
        note="; ".join(notes),
        of_call=of_call,
    )
    yield from _apart(reading, content)


def _of(term: Measurand, head: Head) -> Of:
    """What a reading is one of: rings and valves are a cylinder's, as are parts numbered so."""
    if term.of in NUMBERED_APART:
        return term.of
    return "engine" if is_one_for_all(term) and not head.cylinder else "cylinder"


def _apart(reading: Candidate, content: Content) -> Iterator[Candidate]:
    """Several numbers of one cell as readings of their own, where they are of one cylinder."""
    gasket = {"thickness": "gasket_thickness", "bore": "gasket_bore"}
    if content.kind != "several" or len({v.unit for v in content.values}) != 1:
        yield reading
        return
    if reading.name not in gasket.values() and reading.position == "|":
        yield reading
        return
    for number, value in enumerate(content.values, 1):
        name = gasket.get(value.of, reading.name)
        at = "" if value.of in gasket else value.of or str(number)
        yield replace(reading, name=name, value=value.number, unit=value.unit, at=at)


def _hidden(sheet: Sheet, row: int, column: int) -> str:
    """What is hidden where a cell stands, in words."""
    if sheet.hidden:
        return "on a hidden sheet"
    if row in sheet.hidden_rows:
        return "in a hidden row"
    return "in a hidden column" if column in sheet.hidden_columns else ""


def _by_layout(
    book: OpenBook, vocabulary: Vocabulary, form: Form, stated: dict[str, Stated]
) -> Iterator[Candidate]:
    """The readings whose cells the layout names."""
    for name, listed in form.readings.items():
        term = vocabulary.term(name)
        assert term is not None, f"the layout was checked, yet {name} is no reading"
        for cells in listed:
            sheet = _sheet_of(book, cells)
            if sheet is not None:
                yield from _cells_read(sheet, term, cells, form, stated, book)


def _sheet_of(book: OpenBook, cells: Cells) -> Sheet | None:
    if cells.sheet:
        return book.sheet(cells.sheet)
    return next((s for s in book.sheets if not s.hidden), None)


def _cells_read(
    sheet: Sheet,
    term: Measurand,
    cells: Cells,
    form: Form,
    stated: dict[str, Stated],
    book: OpenBook,
) -> Iterator[Candidate]:
    left, top, right, bottom = range_boundaries(cells.range)
    if left is None or top is None or right is None or bottom is None:
        return
    spots = [(r, c) for r in range(top, bottom + 1) for c in range(left, right + 1)]
    scan = Scan(sheet, vocabulary=form.vocabulary())
    by_label = {(s.row, s.column): s for s in scan.spots()}
    for number, (row, column) in enumerate(spots):
        head = scan.heads.of_column(row, column).and_then(scan.heads.of_row(row, column))
        position = head.cylinder or (str(number + 1) if len(spots) > 1 else "")
        if number < len(cells.cylinders):
            position = str(cells.cylinders[number])
        known = by_label.get((row, column))
        spot = Spot(
            Match(term, "layout"), row, column, known.label if known else term.name,
            cells.unit or (known.unit if known else head.unit), replace(head, cylinder=position),
            "",
        )  # fmt: skip
        for reading in _read(sheet, spot, {}, form, stated, book):
            bank = "" if cells.cylinders else head.bank
            yield named_by_position(reading, position_in_form(bank, position, False, form))

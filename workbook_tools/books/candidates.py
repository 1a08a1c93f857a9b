"""What a sheet's labels and a shop's layout say of each cell, before anything is decided."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import range_boundaries

from workbook_tools.books.calls import mentions_call
from workbook_tools.books.cell_text import read_content
from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.books.content import FAR_FROM_USUAL, Content, Field, refused
from workbook_tools.books.heads import Head
from workbook_tools.books.labels import find_label, split_unit
from workbook_tools.books.layout import NO_FORM, Cells, Form
from workbook_tools.books.records import Label, Place
from workbook_tools.books.scan import Scan, Spot
from workbook_tools.books.stated import Stated, stated_in, system_of_sizes
from workbook_tools.books.vocabulary import (
    NO_SIZES,
    How,
    Match,
    Stage,
    Vocabulary,
    is_one_for_all,
    likeliest,
    meaning_of,
    plain,
    stage_alone,
    stage_of,
)
from workbook_tools.measurands import Measurand, Position
from workbook_tools.measurands.measurand import Of
from workbook_tools.measurands.position import parse
from workbook_tools.units import LENGTH, Kind, System

# What is numbered apart from the cylinders; everything else is of one of these.
_UNITS_OF: dict[System, str] = {"inch": "inches", "metric": "millimeters"}
_ENDS = ("front", "rear")
# Fewer numbers side by side without heads may be anything.
_LEAST_IN_LINE = 3
_CROWNS = ("crown_volume", "dish_volume", "dome_volume")
_APART: tuple[Of, ...] = ("main", "rod", "cam_bearing", "bearing")


@dataclass(frozen=True)
class Candidate:
    """What a cell may be by the words near it, and how that was found.

    name: of the vocabulary ("deck_clearance"); position: "3", "L2", "" where there is one
    for all; value: None where the cell gives none, then content says why; at: where on a
    cylinder it was taken; stage: when, or that it is a target and no reading; how: by its
    exact word, a synonym, the layout, or only proposed; likeness: of a proposal, of 100;
    which_open: whether nothing says which one of two it is of; typed: whether it was typed
    rather than worked out by a formula; note: what has to be told
    with it.
    """

    name: str
    label: Label
    position: str
    value: float | None
    unit: str
    place: Place
    how: How
    kind: Kind
    of: Of
    content: Content
    at: str = ""
    stage: Stage = ""
    likeness: float = 100.0
    typed: bool = True
    note: str = ""
    of_call: bool = False
    in_line: bool = False
    which_open: bool = False

    @property
    def part(self) -> Position:
        """Which one it is of, as a value."""
        return part_of(self.of, self.position, self.at)

    @property
    def far_from_usual(self) -> bool:
        """Whether its size is one that hardly can be, and nobody said that it is right."""
        return FAR_FROM_USUAL in self.note and self.how != "layout"


def part_of(of: Of, position: str, at: str = "") -> Position:
    """Which one of what: position "3", "L2" or "L", at a place such as "top thrust"."""
    number = "".join(c for c in position if c.isdigit())
    bank = "".join(c for c in position if c.isalpha())[:1].upper()
    # More than this number no engine has: such a column is a log.
    counted = int(number or 0) if len(number) < 3 else 0
    return Position("" if of == "engine" else of, counted, bank, tuple(at.split()))


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
    stated = _with_system_of_sizes(stated, by_sheet)
    for scan, all_spots in by_sheet:
        sheet = scan.sheet
        spots = _settled(all_spots, sheet, form, stated[sheet.title])
        found = [r for s in spots for r in _read(sheet, s, spots, form, stated, book)]
        unknown += [Unknown(text, _place(sheet, r, c)) for text, r, c in scan.unknown]
        counted |= {_place(sheet, r, c) for r, c in scan.counted()}
        no_engine |= {_place(sheet, r, c) for r, c in scan.no_engine()}
        aside = counted | no_engine | {c.place for c in found if c.how != "proposal"}
        by_text = list(_by_nearest_text(sheet, vocabulary, aside))
        found = _positions(found, form)
        named += found
        named += _positions(
            [r for s in by_text for r in _read(sheet, s, by_text, form, stated, book)], form
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


def _with_system_of_sizes(
    stated: dict[str, Stated], by_sheet: list[tuple[Scan, list[Spot]]]
) -> dict[str, Stated]:
    """What sheets state; where none states its units, with those that the sizes can only be in."""
    if any(one.system for one in stated.values()):
        return stated
    sizes = [
        (spot.match.term, float(cell.value))
        for scan, spots in by_sheet
        for spot in spots
        if spot.match.how != "proposal" and not spot.unit and spot.match.term.kind is LENGTH
        if (cell := scan.sheet.cells.get((spot.row, spot.column))) and not cell.formula
        if isinstance(cell.value, (int, float)) and not isinstance(cell.value, bool)
    ]
    system = system_of_sizes(sizes)
    if system is None:
        return stated
    source = f"its sizes, which are usual only in {_UNITS_OF[system]}"
    return {t: replace(one, system=system, system_from=source) for t, one in stated.items()}


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


def _field(
    term: Measurand, unit: str, stated: Stated, form: Form, neighbors: tuple[float, ...]
) -> Field:
    is_deck = term.id in ("deck_clearance", "piston_protrusion")
    return Field(
        meaning=term.id,
        kind=term.kind,
        unit=unit,
        system=stated.system,
        signs=stated.deck if is_deck else stated.crown if term.id in _CROWNS else "",
        day_first=form.day_first,
        decimal_comma=stated.comma,
        likely=term.usual,
        neighbors=neighbors,
        zero=term.zero,
    )


def _neighbors(sheet: Sheet, spot: Spot, spots: list[Spot]) -> tuple[float, ...]:
    """The other numbers that the same label names."""
    found = []
    for other in spots:
        if other.match.term.id == spot.match.term.id and other.label == spot.label:
            cell = sheet.cells.get((other.row, other.column))
            value = cell.value if cell else None
            if isinstance(value, (int, float)) and not isinstance(value, bool) and other != spot:
                found.append(float(value))
    return tuple(found)


def _read(
    sheet: Sheet,
    spot: Spot,
    spots: list[Spot],
    form: Form,
    stated: dict[str, Stated],
    book: OpenBook,
) -> Iterator[Candidate]:
    """The reading of one cell; several where the cell holds several of one cylinder."""
    term = spot.match.term
    cell = sheet.cells.get((spot.row, spot.column), Cell(None))
    field = _field(term, spot.unit, stated[sheet.title], form, _neighbors(sheet, spot, spots))
    field = replace(field, from_1904=book.days_from_1904)
    raw: object = spot.inline or cell.value
    of_call = mentions_call(cell.formula)
    if of_call:
        content = refused(None, "")
    elif cell.formula and cell.value is None:
        content = refused(None, "its formula was never calculated")
    else:
        content = read_content(raw, field, (spot.row, spot.column) in sheet.struck)
    if "is not a unit of" in content.reason and spot.match.how == "synonym":
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
    if term.of in _APART:
        return term.of
    return "engine" if is_one_for_all(term) and not head.cylinder else "cylinder"


def _settled(spots: list[Spot], sheet: Sheet, form: Form, stated: Stated) -> list[Spot]:
    """The spots of a sheet; where a label can mean several things, the one its sizes leave."""
    groups: dict[tuple[int, int], list[int]] = defaultdict(list)
    for index, spot in enumerate(spots):
        if len(spot.match.options) > 1:
            groups[spot.origin].append(index)
    settled = list(spots)
    for members in groups.values():
        match = _by_size([spots[i] for i in members], sheet, form, stated)
        for index in members:
            settled[index] = replace(spots[index], match=match)
    return settled


def _by_size(spots: list[Spot], sheet: Sheet, form: Form, stated: Stated) -> Match:
    """The meaning of a label that the sizes below it leave, the likeliest where several do."""
    match = spots[0].match
    numbered = {s.head.of for s in spots} & set(_APART)
    fitting = []
    for term, cost in match.options:
        if numbered and term.of in _APART and term.of not in numbered:
            continue
        usual = [_is_usual(term, spot, sheet, form, stated) for spot in spots]
        told = [one for one in usual if one is not None]
        if told and sum(told) * 2 > len(told):
            fitting.append((term, cost))
    if not fitting:
        return match
    one = likeliest(fitting)
    if one is None:
        return replace(match, term=fitting[0][0], how="proposal")
    return match if one == match.term and match.how != "proposal" else Match(one, "synonym")


def _is_usual(term: Measurand, spot: Spot, sheet: Sheet, form: Form, stated: Stated) -> bool | None:
    """Whether a spot's number is a usual size of something, None where it holds none."""
    cell = sheet.cells.get((spot.row, spot.column))
    raw = spot.inline or (cell.value if cell else None)
    if raw is None or raw == "":
        return None
    content = read_content(raw, _field(term, spot.unit, stated, form, ()))
    if content.value is None:
        return False if content.kind == "refused" else None
    return FAR_FROM_USUAL not in content.note


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


def _positions(readings: list[Candidate], form: Form) -> list[Candidate]:
    """Readings with their cylinders named: a bank only where numbers repeat on both sides."""
    groups: dict[tuple[str, str], list[int]] = defaultdict(list)
    for index, reading in enumerate(readings):
        groups[reading.name, reading.stage].append(index)
    result = list(readings)
    for members in groups.values():
        for which, counted in _from_the_front([readings[i] for i in members]):
            told = readings[members[which]]
            at = " ".join(p for p in told.at.split() if p not in _ENDS)
            note = "; ".join(n for n in (told.note, "counted from the front") if n)
            of: Of = "main" if told.of == "main" else "cylinder"
            told = replace(told, position=f"|{counted}", at=at, note=note, of=of)
            readings[members[which]] = told
        heads = [tuple(readings[i].position.split("|")) for i in members]
        numbers = {(bank, number) for bank, number in heads if number}
        repeats = len({n for _, n in numbers}) < len(numbers)
        for place, (index, (bank, number)) in enumerate(zip(members, heads, strict=True), 1):
            reading = readings[index]
            position, note = _position(bank, number, repeats, form), ""
            several = not position and len(members) > 1 and reading.stage not in NO_SIZES
            in_line = several and _in_line(readings, members, index)
            if in_line and len(members) < _LEAST_IN_LINE:
                reading = replace(reading, which_open=True)
            elif in_line:
                position, note = str(place), "numbered as they stand: no head names the cylinders"
                reading = replace(reading, in_line=True)
            result[index] = _named(reading, position, note)
    return result


def _from_the_front(members: list[Candidate]) -> Iterator[tuple[int, int]]:
    """The numbers of cylinders or mains that are named front and rear: (index, number).

    Cylinders that are only front and rear are a twin's; mains between have their numbers.
    """
    ends = {
        i: end
        for i, one in enumerate(members)
        if one.position == "|" and (end := next((e for e in _ENDS if e in one.at.split()), ""))
    }
    counted = {one.position.rpartition("|")[2] for i, one in enumerate(members) if i not in ends}
    if set(ends.values()) != set(_ENDS) or members[0].of not in ("engine", "cylinder", "main"):
        return
    between = sorted(int(number) for number in counted if number)
    if between != [*range(2, 2 + len(between))] or (members[0].of == "main" and not between):
        return
    for index, end in ends.items():
        yield index, 1 if end == "front" else len(between) + 2


def _position(bank: str, number: str, repeats: bool, form: Form) -> str:
    order = {"L": form.left, "R": form.right}.get(bank, ())
    if number and order and (repeats or int(number) <= len(order)) and bank:
        if int(number) in order and not repeats:
            return number
        return str(order[int(number) - 1]) if int(number) <= len(order) else f"{bank}{number}"
    if bank and number:
        return f"{bank}{number}" if repeats or not number.isdigit() else number
    return number or bank


def _in_line(readings: list[Candidate], members: list[int], index: int) -> bool:
    """Whether readings without heads stand in one row or column under one label."""
    mine = readings[index]
    same = [readings[i] for i in members if readings[i].label.text == mine.label.text]
    cells = [range_boundaries(r.place.address) for r in same]
    lined = len({c[0] for c in cells}) == 1 or len({c[1] for c in cells}) == 1
    return len(same) == len(members) and lined and mine.of != "engine" and not mine.at


def _named(reading: Candidate, position: str, note: str = "") -> Candidate:
    of: Of = "cylinder" if reading.of == "engine" else reading.of
    shown = part_of(of, position).short if position.isdigit() else position
    shown = " ".join(p for p in (shown, reading.at) if p)
    label = replace(reading.label, position=shown)
    notes = "; ".join(n for n in (reading.note, note) if n)
    return replace(reading, position=position, label=label, note=notes)


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
        for reading in _read(sheet, spot, [], form, stated, book):
            bank = "" if cells.cylinders else head.bank
            yield _named(reading, _position(bank, position, False, form))

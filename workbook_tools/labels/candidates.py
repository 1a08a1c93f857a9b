"""What a sheet's labels and a shop's layout say of each cell, before anything is decided."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import coordinate_to_tuple, range_boundaries

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.formulas.call_names import mentions_call
from workbook_tools.formulas.references import Place
from workbook_tools.labels.candidate import NUMBERED_APART, Candidate, field_of
from workbook_tools.labels.cell_text import read_content
from workbook_tools.labels.content import Content, is_unit, refused, with_point
from workbook_tools.labels.conventions import Stated, stated_in
from workbook_tools.labels.label import Label
from workbook_tools.labels.layout import NO_FORM, Cells, Form
from workbook_tools.labels.meanings import ODD, Line, Option, bearing_told, choose, options_of, vote
from workbook_tools.labels.nearest_text import split_unit
from workbook_tools.labels.numbering import named_by_position, numbered, position_in_form
from workbook_tools.labels.tables import Spot as TableSpot
from workbook_tools.labels.tables import Tables
from workbook_tools.labels.vocabulary import (
    NO_SIZES,
    Match,
    Stage,
    Vocabulary,
    begins_with_a_letter,
    is_one_for_all,
    meaning_of,
    plain,
    stage_of,
    unit_in,
)
from workbook_tools.labels.which import NOTHING, Which
from workbook_tools.measurands import Measurand
from workbook_tools.measurands.measurand import Of
from workbook_tools.quantities import RefusalCode, System, UnreadableText, split_quantity

_FIRST_NUMBER = re.compile(
    r"[~<>≈±']?\s*(?:(?:(?P<whole>\d+)[ -])?(?P<over>\d+)/(?P<under>[1-9]\d*)"
    r"|(?P<number>[-+−–]?(?:\d+\.?\d*|\.\d+)))"
)
_UNITS_OF: dict[System, str] = {"inch": "inches", "metric": "millimeters"}


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
    sheets = [
        Tables(sheet, vocabulary)
        for sheet in book.sheets
        if not any(sheet.title.casefold() == s.casefold() for s in form.skip_sheets)
    ]
    spots = [(tables, _spots_of(tables, vocabulary)) for tables in sheets]
    lines = [
        (tables, spot_list, line)
        for tables, found in spots
        for spot_list, line in _lines_of(tables, found, vocabulary, stated[tables.sheet.title])
    ]
    stated = _with_vote(stated, [line for _, _, line in lines])
    for tables, _, line in lines:
        line.system = stated[tables.sheet.title].system
    choose([line for _, _, line in lines], None)
    named: list[Candidate] = []
    unknown: list[Unknown] = []
    for tables, members, line in lines:
        sheet = tables.sheet
        first = members[0]
        if first.inline and (line.chosen is None or line.chosen.how == "proposal"):
            continue  # Of a sentence only what is sure is taken.
        if line.chosen is None:
            if not first.which.stage:
                unknown.append(Unknown(first.label, _place(sheet, *first.origin)))
            continue
        alone = len(line.values) == 1 and is_one_for_all(line.chosen.term)
        if alone or line.stage in NO_SIZES:  # A limit that is not there is not missing.
            members = [s for s in members if (s.row, s.column) in tables.kinds]
        taken = [_chosen(spot, line) for spot in members]
        near = _numbers_by_label(sheet, taken)
        found = [r for s in taken for r in _read(sheet, s, near, form, stated, book)]
        named += found
    named = _in_order(numbered_by_sheet(named, form), book)
    banks = _numbers_of_banks(spot for _, found in spots for spot in found)
    named = [_without_bank(candidate, banks) for candidate in named]
    counted = {_place(t.sheet, r, c) for t in sheets for r, c in t.indexes}
    no_engine = {
        _place(t.sheet, r, c)
        for t in sheets
        for (r, c), kind in t.kinds.items()
        if kind == "number" and vocabulary.is_elsewhere(t.sheet.title)
    } | {_place(t.sheet, r, c) for t in sheets for r, c in t.summed()}
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


def _spots_of(tables: Tables, vocabulary: Vocabulary) -> list[TableSpot]:
    """The spots of a sheet that can be of an engine."""
    if vocabulary.is_elsewhere(tables.sheet.title):
        return []
    summed = tables.summed()
    return [
        spot
        for spot in tables.spots()
        if (spot.row, spot.column) not in summed
        and plain(spot.label) not in vocabulary.ignored
        and not vocabulary.job_field(spot.label)
        and not any(vocabulary.is_elsewhere(h) for h in (spot.label, *spot.headings[:1]))
    ]


def _lines_of(
    tables: Tables, spots: Sequence[TableSpot], vocabulary: Vocabulary, stated: Stated
) -> Iterator[tuple[list[TableSpot], Line]]:
    """The spots by line, each with what its words may mean."""
    groups: dict[tuple[object, ...], list[TableSpot]] = defaultdict(list)
    for spot in spots:
        which = spot.which
        if which.stage == "computed" or meaning_of(spot.label, spot.headings).statistic:
            continue
        groups[(*_line_key(spot), which.side, which.stage, which.other)].append(spot)
    for key, members in groups.items():
        first = members[0]
        label_meaning = meaning_of(first.label, first.headings)
        options, exact = options_of(first.label, first.headings, first.which, vocabulary)
        if first.which.other:
            options = [replace(o, weight=o.weight - ODD) for o in options]
        stage = first.which.stage or stage_of(label_meaning) or _stage_over(first.headings)
        unit = first.unit or unit_in(first.label)
        read = [(s, *told) for s in members if (told := _number_at(tables, s)) is not None]
        unit = unit or next((own for *_, own in read if own), "")
        yield members, Line(
            (tables.sheet.title, *key), first.label, "" if stage == "computed" else stage,
            [(_which_of_spot(spot), number) for spot, number, *_ in read],
            unit or _unit_of_all(options, first.headings), options, stated.system,
            max((digits for *_, digits, _ in read), default=0), exact,
            bearing_told(first.label, first.headings, first.which),
            typed=[
                number
                for spot, number, *_ in read
                if not tables.sheet.cells[spot.row, spot.column].formula
            ],
        )  # fmt: skip


def _unit_of_all(options: Sequence[Option], headings: Sequence[str]) -> str:
    """The unit of a line that has none of its own: one in both systems, else a heading's."""
    bare = options[0].term.bare_units if options else ("", "%")
    if bare[0] and bare[0] == bare[1] and bare[0] != "%":
        return bare[0]
    return next((u for h in headings[:2] if (u := _bracketed(h))), "")


def _line_key(spot: TableSpot) -> tuple[object, ...]:
    """What spots of one line share: labels that differ only in a number are of one line."""
    if len(spot.line) == 1 or spot.line[0] == "inline":
        meaning = meaning_of(spot.label, spot.headings)
        if meaning.number:
            return "numbered", re.sub(r"\d+", "", plain(spot.label)), spot.headings[:1]
    return spot.line


def _which_of_spot(spot: TableSpot) -> Which:
    """Which one a spot is of, by its heads, else by its own label."""
    meaning = meaning_of(spot.label, spot.headings)
    bank = "" if begins_with_a_letter(spot.label) else meaning.bank
    # A lone letter in a label names a valve or a bank, and no place: "Intake B".
    at = meaning_of(_LETTER.sub(" ", spot.label), spot.headings).at if meaning.at else ()
    return spot.which.beside(Which(meaning.number, 0, bank, at))


_LETTER = re.compile(r"\b[A-Z]\b")


_STAGES_OF_BLOCKS = ("found", "machined", "final", "target")


def _stage_over(headings: Sequence[str]) -> Stage:
    """The stage that a heading gives its block; the last is the name of the sheet."""
    for number, heading in enumerate(headings, 1):
        meaning = meaning_of(heading)
        stage = stage_of(meaning)
        wanted = stage == "target" and (meaning.unknown or number == len(headings))
        if stage in _STAGES_OF_BLOCKS and not wanted:
            return stage
    return ""


def _bracketed(heading: str) -> str:
    """The unit of length that a heading ends with in brackets."""
    return unit_in(heading) if heading.endswith((")", "]")) else ""


def _number_at(tables: Tables, spot: TableSpot) -> tuple[float, int, str] | None:
    """A cell's number as it stands, its decimals and the unit behind it; None for no number."""
    cell = tables.sheet.cells.get((spot.row, spot.column))
    raw = spot.inline or (cell.value if cell else None)
    if (spot.row, spot.column) in tables.sheet.struck:
        return None
    if isinstance(raw, bool) or raw is None:
        return None
    if isinstance(raw, (int, float)):
        shown = f"{raw:.6g}" if cell and cell.formula else f"{raw:.12g}"
        return float(raw), len(shown.partition(".")[2]) if "e" not in shown else 6, ""
    if not isinstance(raw, str):
        return None
    text = with_point(" ".join(raw.split()))
    try:
        number, unit = split_quantity(text)
    except UnreadableText:
        number, unit = text, None
    if unit is not None and not is_unit(unit):
        number, unit = text, None
    found = _FIRST_NUMBER.match(number)
    if found is None:
        return None
    behind = number[found.end() :].split()
    unit = unit or next((w for w in behind[:1] if is_unit(w)), "")
    whole, over = float(found["whole"] or 0), float(found["over"] or 0)
    size = (
        whole + over / float(found["under"])
        if found["under"]
        else float(re.sub("[−–]", "-", found["number"]))
    )
    return size, len((found["number"] or "").partition(".")[2]), unit


def _with_vote(stated: dict[str, Stated], lines: Sequence[Line]) -> dict[str, Stated]:
    """What sheets state; where none states its units, with those that the sizes can only be in."""
    if all(one.system for one in stated.values()):
        return stated
    system, count = vote(lines)
    if system is None:
        return stated
    source = f"{count} sizes, which are usual only in {_UNITS_OF[system]}"
    return {
        t: one if one.system else replace(one, system=system, system_from=source)
        for t, one in stated.items()
    }


@dataclass(frozen=True)
class Chosen:
    """A cell with what its line was found to measure."""

    match: Match
    row: int
    column: int
    label: str
    unit: str
    which: Which
    stage: Stage
    inline: str = ""


def _chosen(spot: TableSpot, line: Line) -> Chosen:
    """A spot with what its line was found to measure."""
    assert line.chosen is not None
    which, term = _which_of_spot(spot), line.chosen.term
    alone = len(line.values) == 1 and line.key[1:2] == ("row",)
    if (term.of == "ring" and not spot.which.number) or (alone and is_one_for_all(term)):
        which = replace(which, number=0)  # A number beside a table belongs to no cylinder.
    return Chosen(
        line.chosen, spot.row, spot.column, spot.label, line.unit, which, line.stage, spot.inline
    )


def _numbers_of_banks(spots: Iterable[TableSpot]) -> dict[str, list[int]]:
    """The cylinders of each bank in order, where the book numbers them through."""
    found: dict[str, set[int]] = defaultdict(set)
    for spot in spots:
        if spot.which.number and spot.which.bank:
            found[spot.which.bank].add(spot.which.number)
    every = [n for numbers in found.values() for n in numbers]
    through = [b for b, numbers in found.items() if numbers - set(range(1, len(numbers) + 1))]
    if len(found) != 2 or not through:
        return {}
    last = through[0] if len(through) == 1 else ""
    own = {
        b: sorted(n for n in numbers if b != last or n > len(every) // 2)
        for b, numbers in found.items()
    }
    return own if len({n for ns in own.values() for n in ns}) == sum(map(len, own.values())) else {}


def _without_bank(candidate: Candidate, banks: Mapping[str, list[int]]) -> Candidate:
    """A candidate of the third of a bank as of the cylinder that the book counts through."""
    found = re.fullmatch(r"([LRAB])(\d+)", candidate.position)
    numbers = banks.get(found[1], []) if found else []
    if found is None or not 1 <= int(found[2]) <= len(numbers):
        return candidate
    return named_by_position(candidate, str(numbers[int(found[2]) - 1]))


def numbered_by_sheet(named: list[Candidate], form: Form) -> list[Candidate]:
    """Readings with their cylinders named, sheet by sheet."""
    groups: dict[str, list[Candidate]] = defaultdict(list)
    for candidate in named:
        groups[candidate.place.sheet].append(candidate)
    return [c for found in groups.values() for c in numbered(found, form)]


def _in_order(named: list[Candidate], book: OpenBook) -> list[Candidate]:
    order = {sheet.title: n for n, sheet in enumerate(book.sheets)}

    def key(candidate: Candidate) -> tuple[int, int, int]:
        row, column = coordinate_to_tuple(candidate.place.address)
        return order.get(candidate.place.sheet, 0), row, column

    return sorted(named, key=key)


def _system_used(readings: Iterable[Candidate]) -> tuple[System | None, str]:
    """The system that most readings are in, by their own units."""
    units = [r.unit for r in readings if r.value is not None]
    inch, metric = units.count("in") + units.count("cu in"), units.count("mm")
    if inch == metric:
        return None, ""
    return ("inch" if inch > metric else "metric"), "the units of its readings"


# A row of readings is no longer than this; of a log the nearest are enough.
_MOST_NEIGHBORS = 32
_Near = Mapping[tuple[str, str], Sequence[tuple[Chosen, float]]]


def _numbers_by_label(sheet: Sheet, spots: Iterable[Chosen]) -> _Near:
    """The numbers that each label names, in the order of the sheet."""
    found: dict[tuple[str, str], list[tuple[Chosen, float]]] = defaultdict(list)
    for spot in spots:
        cell = sheet.cells.get((spot.row, spot.column))
        value = cell.value if cell else None
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            found[spot.match.term.id, spot.label].append((spot, float(value)))
    return found


def _neighbors(spot: Chosen, near: _Near) -> tuple[float, ...]:
    """The other numbers that the same label names."""
    group = near.get((spot.match.term.id, spot.label), ())
    at = bisect_left(group, (spot.row, spot.column), key=lambda g: (g[0].row, g[0].column))
    first = max(0, at - _MOST_NEIGHBORS // 2)
    return tuple(v for other, v in group[first : first + _MOST_NEIGHBORS] if other != spot)


def _read(
    sheet: Sheet,
    spot: Chosen,
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
        name=_MEASURED_AS.get(term.id, term.id),
        label=Label(split_unit(spot.label)[0], unit=spot.unit),
        position=f"{spot.which.bank}|{spot.which.number or ''}",
        value=value.number if value else None,
        unit=value.unit if value else "",
        place=_place(sheet, spot.row, spot.column),
        how=spot.match.how,
        kind=term.kind,
        of=_of(term, spot.which),
        content=content,
        at=" ".join(spot.which.at),
        stage=spot.stage,
        likeness=spot.match.likeness,
        typed=not cell.formula,
        note="; ".join(notes),
        of_call=of_call,
        inline=bool(spot.inline),
    )
    yield from _apart(reading, content)


# What a number is kept as whose sign its reading has settled: below the deck, and adding.
_MEASURED_AS = {"piston_protrusion": "deck_clearance", "dome_volume": "crown_volume"}


def _of(term: Measurand, which: Which) -> Of:
    """What a reading is one of: rings and valves are a cylinder's, as are parts numbered so."""
    if term.of in NUMBERED_APART:
        return term.of
    return "engine" if is_one_for_all(term) and not which.number else "cylinder"


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
    by_label = {(s.row, s.column): s for s in Tables(sheet, form.vocabulary()).spots()}
    for number, at in enumerate(spots):
        known = by_label.get(at)
        which = known.which if known else NOTHING
        position = str(which.number or "") or (str(number + 1) if len(spots) > 1 else "")
        if number < len(cells.cylinders):
            position = str(cells.cylinders[number])
        chosen = Chosen(
            Match(term, "layout"), *at, known.label if known else term.name,
            cells.unit or (known.unit or unit_in(known.label) if known else ""),
            replace(which, number=int(position or 0)), "",
        )  # fmt: skip
        for reading in _read(sheet, chosen, {}, form, stated, book):
            bank = "" if cells.cylinders else which.bank
            yield named_by_position(reading, position_in_form(bank, position, False, form))

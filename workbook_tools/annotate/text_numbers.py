"""Numbers written as text that calls take: no formula reads them without an add-in."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.books.areas import CannotEvaluate
from workbook_tools.books.cells import BookError, OpenBook, Sheet
from workbook_tools.books.opening import read_cells
from workbook_tools.books.recalculation import MOST_CELLS, Recalculation, formula_cells
from workbook_tools.catalog import ArgumentError, Function, Parameter, find
from workbook_tools.formulas.calls import Call, Part, calls_in
from workbook_tools.formulas.literals import read_literal
from workbook_tools.formulas.references import Area, Place
from workbook_tools.hosts.archive import open_archive, part_elements, write_copy
from workbook_tools.hosts.markup import Edit, spliced
from workbook_tools.hosts.portable import PortableBook, portable
from workbook_tools.hosts.relations import Parts, part_now, sheet_parts
from workbook_tools.quantities import READING, TEXT, System, UnreadableText, from_si, read_text


@dataclass(frozen=True)
class TextNumber:
    """A text that calls take as a quantity.

    place: its cell, or that of the formula it stands in; number: what it is as a bare number of
    the calls that take it, None where it cannot be one: a formula gives or holds it, or calls
    take it in two units.
    """

    place: Place
    text: str
    number: float | None


def text_numbers(book: Path) -> tuple[TextNumber, ...]:
    """The texts of a book that need an add-in to be read, in the order of its cells.

    None of a book that cannot be read: whether a copy can be written is told by writing it.
    """
    try:
        cells = read_cells(book)
    except BookError:
        return ()
    found: dict[Place, TextNumber] = {}
    values = Recalculation(cells)
    for sheet, row, column, cell in formula_cells(cells):
        try:
            calls = list(calls_in(values.parts(cell.formula)))
        except ValueError:
            continue  # A text that is no formula calls nothing.
        for one in (one for call in calls for one in _taken(values, sheet, row, column, call)):
            known = found.get(one.place)
            same = known is None or known.number == one.number
            found[one.place] = one if same else TextNumber(one.place, one.text, None)
    return tuple(sorted(found.values(), key=lambda one: _order(cells, one.place)))


def _order(cells: OpenBook, place: Place) -> tuple[int, tuple[int, int]]:
    titles = [sheet.title for sheet in cells.sheets]
    return titles.index(place.sheet), coordinate_to_tuple(place.address)


def _taken(
    values: Recalculation, sheet: Sheet, row: int, column: int, call: Call
) -> Iterator[TextNumber]:
    """The texts that one call takes as quantities."""
    function = find(call.name)
    if function is None or function.sees_cell:
        return
    system = _system(values, sheet, row, call, function)
    for parameter, parts in zip(function.parameters, call.arguments, strict=False):
        if parameter.kind is TEXT or len(parts) != 1 or parts[0].call is not None:
            continue
        known, value = read_literal(parts[0].text)
        if known:
            if isinstance(value, str) and _number(value, parameter, system)[0]:
                yield TextNumber(Place.at(sheet.title, row, column), value, None)
            continue
        yield from _in_cells(values, sheet, row, parts[0], parameter, system)


def _in_cells(
    values: Recalculation, sheet: Sheet, row: int, part: Part, parameter: Parameter, system: System
) -> Iterator[TextNumber]:
    try:
        area = values.areas.find(part.text, sheet, row)
    except CannotEvaluate:
        return
    if area is None or area.size > MOST_CELLS:
        return
    for cell in area.cells():
        text, typed = _text_in(values, cell)
        can, number = _number(text, parameter, system) if text else (False, None)
        if can:
            yield TextNumber(cell.place, text, number if typed else None)


def _text_in(values: Recalculation, cell: Area) -> tuple[str, bool]:
    """The text in a cell, "" for none, and whether it was typed."""
    sheet = values.book.sheet(cell.sheet)
    held = sheet.cells.get((cell.top, cell.left)) if sheet else None
    text = held.value if held is not None and isinstance(held.value, str) else ""
    return text, held is not None and not held.formula


def _number(text: str, parameter: Parameter, system: System) -> tuple[bool, float | None]:
    """Whether a text is a quantity that a parameter takes, and which bare number it would be.

    A reading's unit is known by its text alone: as a number it would have lost it.
    """
    try:
        si = read_text(text, parameter.kind, system)
    except UnreadableText:
        return False, None
    if parameter.kind is READING and re.search(r"[^\W\d_]|[\"'°]", text):
        return True, None
    return True, float(f"{from_si(si, parameter.kind, system):.12g}")


def _system(
    values: Recalculation, sheet: Sheet, row: int, call: Call, function: Function
) -> System:
    place = len(function.parameters)
    if not function.takes_units or len(call.arguments) <= place:
        return "inch"
    try:
        word = values.evaluate(call.arguments[place], sheet, row)
    except (ArgumentError, CannotEvaluate):
        return "inch"
    return "metric" if isinstance(word, str) and word.strip().lower() == "metric" else "inch"


def portable_with_numbers(
    book: Path,
    out: Path,
    numbers: Sequence[TextNumber],
    *,
    only: bool = False,
    replace: bool = False,
) -> PortableBook:
    """Write a copy that carries the functions, with numbers in place of these texts.

    numbers: those with a number; only, replace: as for `portable`. Raises EditError as it does.
    """
    archive = open_archive(book)
    parts: Parts = {}
    titles = sheet_parts(archive, parts)
    for title in dict.fromkeys(one.place.sheet for one in numbers):
        own = {o.place.address: o.number for o in numbers if o.place.sheet == title}
        part = titles[title]
        data = part_now(archive, parts, part)
        edits = [
            Edit(cell.start, cell.end, _as_number(data[cell.start : cell.inner], number).encode())
            for cell in part_elements(archive, part, data, ("c",))
            if (number := own.get(cell.attributes.get("r", ""))) is not None
        ]
        parts[part] = spliced(data, edits)
    with tempfile.TemporaryDirectory() as folder:
        first = Path(folder) / f"numbers{out.suffix}"
        write_copy(archive, first, parts)
        return portable(first, out, only=only, replace=replace)


def _as_number(start: bytes, number: float) -> str:
    """A cell with a number, in the format that it had."""
    tag = re.sub(r"""\s+t\s*=\s*("[^"]*"|'[^']*')""", "", start.decode(), count=1)
    name = re.match(r"<([^\s>/]+)", tag)
    assert name is not None
    prefix = name[1][:-1]
    return f"{tag}<{prefix}v>{number!r}</{prefix}v></{name[1]}>"

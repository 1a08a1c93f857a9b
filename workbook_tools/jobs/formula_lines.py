"""Formulas that go down a column or along a row, and the one that does not go on as the others.

A formula copied along refers to cells that move with it, or to the same ones throughout. One that
takes a cell of another row than all of its siblings is a slip of the mouse, and its number is
wrong without looking so.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from openpyxl.formula.tokenizer import Token
from openpyxl.utils.cell import coordinate_to_tuple

from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.formulas.references import Area, Place, area_address, read_reference
from workbook_tools.formulas.tokens import tokens_of
from workbook_tools.jobs.records import UnlikeFormula
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.label import Label
from workbook_tools.labels.nearest_text import is_position

FindLabel = Callable[[Sheet, int, int], Label | None]
Evaluate = Callable[[str, Sheet, int], object]

# So many others must agree with one another; where no label says that they are of one line, more.
_FEWEST, _FEWEST_WITHOUT_LABELS = 2, 3
# One in so many may be unlike the others of a line.
_ONE_IN = 3
_Bounds = tuple[int, int, int, int]
# By the number of a formula in its line and of a reference in that: what would be taken.
_Odd = Mapping[int, Mapping[int, Area]]


class LineFormula(NamedTuple):
    """A formula in a line: where it stands, its parts, and the areas that it takes, in order.

    parts: its text with "" in place of each reference; at: which of its parts those are.
    """

    row: int
    column: int
    parts: tuple[str, ...]
    at: tuple[int, ...]
    areas: tuple[Area, ...]

    def moved(self, slot: int) -> _Bounds:
        """An area as far from the formula as it lies."""
        area = self.areas[slot]
        return (
            area.top - self.row, area.left - self.column,
            area.bottom - self.row, area.right - self.column,
        )  # fmt: skip


def line_formulas(sheet: Sheet) -> Iterator[LineFormula]:
    """The formulas of a sheet that take cells by address, reading row by row."""
    for (row, column), cell in sheet.cells.items():
        if not cell.formula or cell.area:
            continue
        found = _read(cell.formula, sheet.title)
        if found is not None:
            yield LineFormula(row, column, *found)


def _read(
    formula: str, title: str
) -> tuple[tuple[str, ...], tuple[int, ...], tuple[Area, ...]] | None:
    """A formula's parts, which of them are references, and their areas; None where it has none."""
    try:
        tokens = tokens_of(formula)
    except ValueError:
        return None
    parts, at, areas = [], [], []
    for n, token in enumerate(tokens):
        reference = None
        if token.type == Token.OPERAND and token.subtype == Token.RANGE:
            reference = read_reference(token.value)
        area = reference.area(title) if reference else None
        if area is not None:
            at.append(n)
            areas.append(area)
        parts.append("" if area is not None else token.value.strip().upper())
    return (tuple(parts), tuple(at), tuple(areas)) if areas else None


def unlike_formulas(
    whole: OpenBook, own: OpenBook, label: FindLabel, evaluate: Evaluate
) -> list[UnlikeFormula]:
    """The formulas of a job of which a reference is unlike that of all others of their line.

    whole: the whole file, for the lines; own: the job's cells and those that are nobody's; label:
    what the book calls a cell; evaluate: what a formula comes to on a sheet and row, None where it
    cannot be told. A line is made of formulas of one form in a column or row that bear one label,
    of different cylinders, journals or valves, or that stand right before and behind one another.
    """
    found: dict[Place, UnlikeFormula] = {}
    for sheet in whole.sheets:
        mine = own.sheet(sheet.title)
        for line, odd in _lines_with_odd(sheet) if mine else ():
            for unlike in _told(sheet, line, odd, label, evaluate):
                if mine and mine.cells.get(_at(unlike.place)):
                    found.setdefault(unlike.place, unlike)
    return list(found.values())


def _at(place: Place) -> tuple[int, int]:
    row, column = coordinate_to_tuple(place.address)
    return row, column


# Each job of a log asks for the same sheet.
@lru_cache(maxsize=8)
def _lines_with_odd(sheet: Sheet) -> tuple[tuple[Sequence[LineFormula], _Odd], ...]:
    """The lines of a sheet that have formulas unlike the others, with these by number."""
    at_home: set[tuple[int, int]] = set()
    lines = []
    for line in _lines(sheet):
        usual = [_usual(line, slot) for slot in range(len(line[0].areas))]
        odd = _odd(line, usual)
        if len(odd) * _ONE_IN > len(line):
            continue
        lines.append((line, odd))
        if None not in usual:
            at_home.update((one.row, one.column) for n, one in enumerate(line) if n not in odd)
    # What goes on as the others in its row is no slip in its column.
    found = []
    for line, odd in lines:
        kept = {n: s for n, s in odd.items() if (line[n].row, line[n].column) not in at_home}
        if kept:
            found.append((line, kept))
    return tuple(found)


def _lines(sheet: Sheet) -> Iterator[list[LineFormula]]:
    lines: dict[tuple[object, ...], list[LineFormula]] = defaultdict(list)
    for one in line_formulas(sheet):
        lines["column", one.column, one.parts].append(one)
        lines["row", one.row, one.parts].append(one)
    return (line for line in lines.values() if len(line) > _FEWEST)


def _odd(line: Sequence[LineFormula], usual: Sequence[_Bounds | Area | None]) -> _Odd:
    """The formulas of a line that are unlike it, by number: what each reference would be."""
    odd: dict[int, dict[int, Area]] = defaultdict(dict)
    for slot, one_way in enumerate(usual):
        for n, one in enumerate(line):
            if one_way is None:
                continue
            meant = one_way if isinstance(one_way, Area) else _moved_to(one, slot, one_way)
            if meant != one.areas[slot]:
                odd[n][slot] = meant
    return odd


def _told(
    sheet: Sheet, line: Sequence[LineFormula], odd: _Odd, label: FindLabel, evaluate: Evaluate
) -> Iterator[UnlikeFormula]:
    alike = [one for n, one in enumerate(line) if n not in odd]
    down = line[0].column == line[1].column
    for n, slots in odd.items():
        one = line[n]
        if any(_is_blank(sheet, area) for area in slots.values()):
            continue  # Where there is nothing to take, another cell was taken on purpose.
        if any(_is_its_own(one, one.areas[slot], area, down) for slot, area in slots.items()):
            continue
        sibling = _sibling(sheet, one, alike, label)
        if sibling is not None:
            yield _unlike(sheet, one, slots, sibling, len(alike), label, evaluate)


def _is_its_own(one: LineFormula, takes: Area, meant: Area, down: bool) -> bool:
    """Whether a formula takes a cell of its own row, where it would take another of that.

    It stands for what was measured again, or comes from elsewhere. down: whether its line does.
    """
    if not (takes.single and meant.single):
        return False
    if down:
        return takes.top == meant.top == one.row
    return takes.left == meant.left == one.column


def _usual(line: Sequence[LineFormula], slot: int) -> _Bounds | Area | None:
    """What a reference of a line is: so far from each formula, or the same cells throughout.

    None where more than a few differ: what goes two ways has two meanings.
    """
    ways: Counter[_Bounds | Area] = Counter(one.moved(slot) for one in line)
    ways.update(one.areas[slot] for one in line)
    usual, many = ways.most_common(1)[0]
    return usual if many >= _FEWEST and (len(line) - many) * _ONE_IN <= len(line) else None


def _moved_to(one: LineFormula, slot: int, bounds: _Bounds) -> Area:
    top, left, bottom, right = bounds
    return Area(
        one.areas[slot].sheet, one.row + top, one.column + left, one.row + bottom,
        one.column + right,
    )  # fmt: skip


def _is_blank(sheet: Sheet, area: Area) -> bool:
    """Whether an area lies outside of its sheet, or nothing stands in it."""
    if area.top < 1 or area.left < 1:
        return True
    return area.sheet == sheet.title and not any(
        (cell.top, cell.left) in sheet.cells for cell in area.cells()
    )


def _sibling(
    sheet: Sheet, one: LineFormula, alike: Sequence[LineFormula], label: FindLabel
) -> LineFormula | None:
    """The nearest formula that is surely of the same line, None where nothing says so."""
    nearest = sorted(alike, key=lambda a: abs(a.row - one.row) + abs(a.column - one.column))
    own = label(sheet, one.row, one.column)
    if own is not None and _names_one(own):
        same = [a for a in nearest if _is_of_another(own, label(sheet, a.row, a.column))]
        if len(same) >= _FEWEST:
            return same[0]
    beside = {(a.row, a.column) for a in alike}
    steps = ((1, 0),) if one.column == alike[0].column else ((0, 1),)
    between = all(
        (one.row + sign * down, one.column + sign * across) in beside
        for down, across in steps for sign in (-1, 1)
    )  # fmt: skip
    return nearest[0] if between and len(alike) >= _FEWEST_WITHOUT_LABELS else None


def _names_one(label: Label) -> bool:
    """Whether a label says which one of several a number is of."""
    if label.text.casefold() in words_of("value_heads"):
        return False  # Each row of such a list is of something else.
    return bool(label.position) and is_position(label.position)


def _is_of_another(own: Label, other: Label | None) -> bool:
    return (
        other is not None
        and own.text.casefold() == other.text.casefold()
        and own.position != other.position
        and is_position(other.position)
        and _which(own.position) == _which(other.position)
    )


def _which(position: str) -> str:
    """What a position is one of: "main" of "Main 4"."""
    return "".join(c for c in position.casefold() if not c.isdigit()).strip()


def _unlike(
    sheet: Sheet, one: LineFormula, slots: Mapping[int, Area], sibling: LineFormula, alike: int,
    label: FindLabel, evaluate: Evaluate,
) -> UnlikeFormula:  # fmt: skip
    cell = sheet.cells[one.row, one.column]
    meant = {one.at[slot]: area for slot, area in slots.items()}
    return UnlikeFormula(
        Place.at(sheet.title, one.row, one.column),
        label(sheet, one.row, one.column),
        cell.value,
        tuple(one.areas[slot].place for slot in slots),
        tuple(area.place for area in slots.values()),
        Place.at(sheet.title, sibling.row, sibling.column),
        alike,
        evaluate(_with(cell.formula, meant), sheet, one.row),
    )


def _with(formula: str, meant: Mapping[int, Area]) -> str:
    """A formula with other areas in place of some of its references."""
    tokens = [token.value for token in tokens_of(formula)]
    for at, area in meant.items():
        sheet, mark, _ = tokens[at].rpartition("!")
        own = area_address(area.top, area.left, area.bottom, area.right)
        tokens[at] = sheet + mark + own
    return "".join(tokens)

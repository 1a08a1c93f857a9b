"""Formulas of one form that go down a column or along a row: lines, and how each goes on.

A formula copied along refers to cells that move with it, or to the same ones throughout.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from openpyxl.formula.tokenizer import Token

from workbook_tools.books.cells import Sheet
from workbook_tools.formulas.references import Area, area_address, read_reference
from workbook_tools.formulas.tokens import tokens_of
from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.label import Label
from workbook_tools.labels.nearest_text import is_position

FindLabel = Callable[[Sheet, int, int], Label | None]
Evaluate = Callable[[str, Sheet, int], object]

# So many formulas must agree with one another; where no label says that they are of one line, more.
FEWEST, FEWEST_WITHOUT_LABELS = 2, 3
# One in so many may be unlike the others of a line.
ONE_IN = 3
# A formula so many steps from the last one is of another table.
_FARTHEST_STEPS = 2
Bounds = tuple[int, int, int, int]


class LineFormula(NamedTuple):
    """A formula in a line: where it stands, its parts, and the areas that it takes, in order.

    parts: its text with "" in place of each reference; at: which of its parts those are.
    """

    row: int
    column: int
    parts: tuple[str, ...]
    at: tuple[int, ...]
    areas: tuple[Area, ...]

    def moved(self, slot: int) -> Bounds:
        """An area as far from the formula as it lies."""
        area = self.areas[slot]
        return (
            area.top - self.row, area.left - self.column,
            area.bottom - self.row, area.right - self.column,
        )  # fmt: skip


def formula_at(sheet: Sheet, row: int, column: int) -> LineFormula | None:
    """The formula of a cell that takes cells by address, None where there is none."""
    cell = sheet.cells.get((row, column))
    if cell is None or not cell.formula or cell.area:
        return None
    found = _read(cell.formula, sheet.title)
    return LineFormula(row, column, *found) if found else None


@lru_cache(maxsize=16384)
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


class Line(NamedTuple):
    """Formulas of one form in a column or row; usual: what each of their references is."""

    down: bool
    formulas: Sequence[LineFormula]
    usual: Sequence[Bounds | Area | None]

    def meant(self, slot: int, row: int, column: int) -> Area | None:
        """What a reference would be in a cell of the line, None where it goes several ways."""
        usual = self.usual[slot]
        if usual is None or isinstance(usual, Area):
            return usual
        top, left, bottom, right = usual
        sheet = self.formulas[0].areas[slot].sheet
        return Area(sheet, row + top, column + left, row + bottom, column + right)


# Each job of a log asks for the same sheet, and several checks for all sheets of a book.
@lru_cache(maxsize=64)
def lines(sheet: Sheet) -> tuple[Line, ...]:
    """The lines of formulas of a sheet."""
    found: dict[tuple[bool, int, tuple[str, ...]], list[LineFormula]] = defaultdict(list)
    for at, cell in sheet.cells.items():
        one = formula_at(sheet, *at) if cell.formula else None
        if one is None:
            continue
        found[True, one.column, one.parts].append(one)
        found[False, one.row, one.parts].append(one)
    return tuple(
        Line(down, formulas, [_usual(formulas, n) for n in range(len(formulas[0].areas))])
        for (down, _, _), those in found.items()
        for formulas in _runs(those, down)
        if len(formulas) >= FEWEST
    )


def _runs(formulas: Sequence[LineFormula], down: bool) -> Iterator[list[LineFormula]]:
    """Formulas of one form, parted where another table begins: far from the last, by their step."""
    ordered = sorted(formulas, key=lambda one: one.row if down else one.column)
    spots = [one.row if down else one.column for one in ordered]
    steps = [b - a for a, b in pairwise(spots)]
    most = _FARTHEST_STEPS * min(steps, default=1)
    run = ordered[:1]
    for one, step in zip(ordered[1:], steps, strict=True):
        if step > most:
            yield run
            run = []
        run.append(one)
    yield run


def _usual(line: Sequence[LineFormula], slot: int) -> Bounds | Area | None:
    """What a reference of a line is: so far from each formula, or the same cells throughout.

    None where more than a few differ: what goes two ways has two meanings.
    """
    moved = [one.moved(slot) for one in line]
    if moved.count(moved[0]) == len(moved) >= FEWEST:
        return moved[0]
    ways: Counter[Bounds | Area] = Counter(moved)
    ways.update(one.areas[slot] for one in line)
    usual, many = ways.most_common(1)[0]
    return usual if many >= FEWEST and (len(line) - many) * ONE_IN <= len(line) else None


def is_blank(sheet: Sheet, area: Area) -> bool:
    """Whether an area lies outside of its sheet, or nothing stands in it."""
    if area.top < 1 or area.left < 1:
        return True
    return area.sheet == sheet.title and not any(
        (cell.top, cell.left) in sheet.cells for cell in area.cells()
    )


def names_one(label: Label) -> bool:
    """Whether a label says which one of several a number is of."""
    if label.text.casefold() in words_of("value_heads"):
        return False  # Each row of such a list is of something else.
    return bool(label.position) and is_position(label.position)


def is_of_another(own: Label, other: Label | None) -> bool:
    """Whether two labels name one thing of two cylinders, journals or valves."""
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


def is_between(line: Line, row: int, column: int, alike: Sequence[LineFormula]) -> bool:
    """Whether a cell stands right behind one of these formulas of a line and before another."""
    beside = {(a.row, a.column) for a in alike}
    down, across = (1, 0) if line.down else (0, 1)
    ends = ((row - down, column - across), (row + down, column + across))
    return len(alike) >= FEWEST_WITHOUT_LABELS and all(end in beside for end in ends)


def with_areas(formula: str, meant: Mapping[int, Area]) -> str:
    """A formula with other areas in place of some of its references."""
    tokens = [token.value for token in tokens_of(formula)]
    for at, area in meant.items():
        sheet, mark, _ = tokens[at].rpartition("!")
        own = area_address(area.top, area.left, area.bottom, area.right)
        tokens[at] = sheet + mark + own
    return "".join(tokens)

"""Recompute the calls in a book from the values that are saved in it.

A cell's saved value is what its book showed, so it is what a call is recomputed from. Only
where nothing usable was saved (a book written by a program that does not calculate, or
without our functions) is the cell itself computed first.
"""

from __future__ import annotations

import math
from collections import ChainMap
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from workbook_tools.books.answers import Answers, NotYet
from workbook_tools.books.areas import Areas, CannotEvaluate
from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.books.engine import CellKey
from workbook_tools.books.expressions import evaluate_by_engine, guarded
from workbook_tools.books.unsaved_cells import in_order, never_calculated
from workbook_tools.catalog import OMITTED, ArgumentError, CellError, Result, calculate
from workbook_tools.formulas.call_names import mentions_call
from workbook_tools.formulas.calls import Call, Part, known_function, parse
from workbook_tools.formulas.literals import read_literal
from workbook_tools.formulas.reasons import CannotTell, InCell, reason
from workbook_tools.formulas.references import Area, cell_address, read_reference

# A range larger than this in one argument is a slip of the mouse, not a set of readings.
MOST_CELLS = 20_000
# An answer of the engine can lead to another question, as an argument that is worked out.
_MOST_ROUNDS = 6


@dataclass
class Recalculation:
    """The values of one book's cells and calls; remembers what it has computed."""

    book: OpenBook
    areas: Areas = field(init=False)
    answers: Answers = field(default_factory=Answers, kw_only=True)
    _computed: dict[CellKey, object] = field(default_factory=dict)
    _open: list[CellKey] = field(default_factory=list)
    # While questions are gathered: cells whose value depends on one.
    _waiting: dict[CellKey, object] = field(default_factory=dict)
    _parsed: dict[str, tuple[Part, ...]] = field(default_factory=dict)
    # By sheet, row and the id of a parsed call or expression.
    _results: dict[tuple[str, int, int], Result | ArgumentError | CannotEvaluate] = field(
        default_factory=dict
    )
    _evaluated: dict[tuple[str, int, int], object] = field(default_factory=dict)
    _guards: dict[int, tuple[Call, tuple[str, ...]] | None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.areas = Areas(self.book)

    def parts(self, formula: str) -> tuple[Part, ...]:
        """A formula cut into parts, remembered. Raises ValueError where it cannot be."""
        if formula not in self._parsed:
            self._parsed[formula] = parse(formula)
        return self._parsed[formula]

    def value(self, sheet: Sheet, row: int, column: int) -> object:
        """A cell's value: as saved, or computed where nothing usable was saved."""
        cell = sheet.cells.get((row, column))
        if cell is None:
            return None
        if not cell.formula or not never_calculated(cell):
            return cell.value
        key = (sheet.title, row, column)
        if key not in self._computed and key not in self._waiting:
            if key in self._open:
                raise CannotEvaluate(_circle(self._open[self._open.index(key) :]))
            # What waits is passed over, or a long chain would be gone along for each of its cells.
            settled = ChainMap(self._computed, self._waiting) if self._waiting else self._computed
            for at in in_order(self.areas, key, settled, self._open):
                self._compute(at)
        if key in self._waiting:
            raise NotYet
        value = self._computed[key]
        if isinstance(value, CannotEvaluate):
            raise value
        return value

    def _compute(self, key: CellKey) -> None:
        """Compute a cell that has no usable value, and remember what it comes to."""
        title, row, column = key
        sheet = self.book.sheet(title)
        assert sheet is not None
        self._open.append(key)
        try:
            formula = sheet.cells[row, column].formula
            self._computed[key] = first(self.evaluate(self.parts(formula), sheet, row))
        except NotYet:
            self._waiting[key] = None
        except ArgumentError:
            self._computed[key] = CellError("#VALUE!")
        except CannotEvaluate as error:
            self._computed[key] = error
        except ValueError as error:
            self._computed[key] = CannotEvaluate(str(error))
        finally:
            self._open.pop()

    def values(self, area: Area) -> object:
        """The value of one cell, or rows of values of a range."""
        sheet = self.book.sheet(area.sheet)
        assert sheet is not None
        if area.single:
            return self.value(sheet, area.top, area.left)
        if area.size > MOST_CELLS:
            last_row, last_column = self.areas.extent(sheet)
            area = Area(
                area.sheet, area.top, area.left,
                max(area.top, min(area.bottom, last_row)),
                max(area.left, min(area.right, last_column)),
            )  # fmt: skip
            if area.size > MOST_CELLS:
                raise CannotEvaluate(f"the range {area.address} has {area.size:,} cells")
        return tuple(
            tuple(self.value(sheet, r, c) for c in range(area.left, area.right + 1))
            for r in range(area.top, area.bottom + 1)
        )

    def evaluate(self, parts: tuple[Part, ...], sheet: Sheet, row: int = 0) -> object:
        """The value of an expression: literal, reference, call, or a mix of all.

        OMITTED where there is none, as of an argument that was left blank. Raises
        ArgumentError where a call in it refuses its input, CannotEvaluate where there is no
        telling.
        """
        if not parts:
            return OMITTED
        # Parts live as long as their parsed formula, which is remembered: their id is theirs.
        key = (sheet.title, row, id(parts))
        if key not in self._evaluated:
            try:
                self._evaluated[key] = self._evaluate(parts, sheet, row)
            except (ArgumentError, CannotEvaluate):
                raise
            except RecursionError:
                raise CannotEvaluate("the formula nests too deeply to be followed") from None
            except Exception as error:
                # Whatever a formula does to what reads it, the other cells are read.
                raise CannotEvaluate(f"the formula cannot be followed ({error})") from error
        return self._evaluated[key]

    def _evaluate(self, parts: tuple[Part, ...], sheet: Sheet, row: int) -> object:
        if len(parts) == 1:
            part = parts[0]
            if part.call is not None:
                return self.call(part.call, sheet, row).value
            known, value = read_literal(part.text)
            if known:
                return value
            area = self.areas.find(part.text, sheet, row)
            if area is not None:
                return self.values(area)
        if id(parts) not in self._guards:
            self._guards[id(parts)] = guarded(parts)
        guard = self._guards[id(parts)]
        # An array in place of one value is the engine's to tell.
        if guard and not isinstance(value := self._guarded(*guard, sheet, row), tuple):
            return value
        return evaluate_by_engine(
            parts,
            lambda call: self.call(call, sheet, row).value,
            lambda text: self.areas.find(text, sheet, row),
            self.values,
            self.answers,
        )

    def _guarded(self, call: Call, references: Iterable[str], sheet: Sheet, row: int) -> object:
        """The value of a call where none of the cells is blank, else an empty text."""
        refused: ArgumentError | None = None
        try:
            value = self.call(call, sheet, row).value
        except ArgumentError as error:
            refused = error
        for text in references:
            area = self.areas.find(text, sheet, row)
            if area is None:
                raise CannotEvaluate(f"{text!r} is a name or a table that cannot be followed")
            found = self.values(area)
            lines = found if isinstance(found, tuple) else ((found,),)
            if any(cell is None or cell == "" for line in lines for cell in line):
                return ""
        if refused is not None:
            raise refused
        return value

    def ask_ahead(self, called: Iterable[tuple[Sheet, int, int, Cell]]) -> None:
        """Have the engine tell at once what it would be asked for each of these cells alone.

        called: cells with formulas. Raises nothing: what a cell lacks is told when the cell
        itself is evaluated.
        """
        waiting = list(called)
        for _ in range(_MOST_ROUNDS):
            with self.answers.gathering():
                waiting = [one for one in waiting if self._waits(*one)]
            self._waiting.clear()
            if not waiting:
                break

    def _waits(self, sheet: Sheet, row: int, _column: int, cell: Cell) -> bool:
        """Whether a formula's value depends on what is still to be asked."""
        try:
            self.evaluate(self.parts(cell.formula), sheet, row)
        except NotYet:
            return True
        except (ArgumentError, CannotEvaluate, ValueError):
            return False
        return False

    def call(self, call: Call, sheet: Sheet, row: int = 0) -> Result:
        """The result of a call. Raises ArgumentError or CannotEvaluate."""
        key = (sheet.title, row, id(call))
        if key not in self._results:
            try:
                function = known_function(call)
                if function.sees_cell:
                    return calculate(function, [self._reasons(call, sheet, row)])
                arguments = [self.evaluate(parts, sheet, row) for parts in call.arguments]
                self._results[key] = calculate(function, arguments)
            except (ArgumentError, CannotEvaluate) as error:
                self._results[key] = error
            except (ArithmeticError, LookupError, ValueError, TypeError) as error:
                self._results[key] = CannotEvaluate(f"{call.spelled} gives no result ({error})")
        result = self._results[key]
        if isinstance(result, Exception):
            raise result
        return result

    def _reasons(self, call: Call, sheet: Sheet, row: int) -> str:
        """What is to be said of the cell that a call points at."""
        parts = call.arguments[0] if call.arguments else ()
        area = self.areas.find(parts[0].text, sheet, row) if len(parts) == 1 else None
        if area is None:
            raise ArgumentError("cell", "a reference to a cell", "".join(p.text for p in parts))
        return reason(_BookSeen(self, row), area)


@dataclass(frozen=True)
class _BookSeen:
    """A book's cells for the words of a reason. row: of the cell with the call."""

    values_of: Recalculation
    row: int

    def _sheet(self, title: str) -> Sheet:
        found = self.values_of.book.sheet(title)
        assert found is not None
        return found

    def area(self, reference: str, sheet: str) -> Area | None:
        try:
            return self.values_of.areas.find(reference, self._sheet(sheet), self.row)
        except CannotEvaluate:
            return None

    def values(self, area: Area) -> object:
        try:
            return self.values_of.values(area)
        except CannotEvaluate as why:
            raise CannotTell(str(why)) from None

    def cell(self, area: Area) -> InCell:
        sheet = self._sheet(area.sheet)
        held = sheet.cells.get((area.top, area.left))
        value = self.values(area)
        if held is not None and held.formula:
            return InCell(value, held.formula)
        for (top, left), other in sheet.cells.items():
            if other.area and _area_holds(other.area, area.top, area.left):
                return InCell(value, other.formula, (area.top - top, area.left - left))
        return InCell(value)

    def worked_out(self, parts: tuple[Part, ...], sheet: str) -> object:
        try:
            return self.values_of.evaluate(parts, self._sheet(sheet), self.row)
        except CannotEvaluate as why:
            raise CannotTell(str(why)) from None


def _area_holds(address: str, row: int, column: int) -> bool:
    """Whether a range holds a cell."""
    found = read_reference(address)
    area = found.area("") if found else None
    return area is not None and area.top <= row <= area.bottom and area.left <= column <= area.right


def _circle(cells: Sequence[CellKey]) -> str:
    """What is wrong with cells that refer to each other, told from the first on the sheet."""
    start = cells.index(min(cells))
    around = [*cells[start:], *cells[: start + 1]]
    path = " → ".join(cell_address(row, column) for _, row, column in around)
    return f"the cells refer to each other in a circle: {path}"


def first(value: object) -> object:
    """The top left value, which is what a single cell shows of an array."""
    while isinstance(value, tuple):
        value = value[0] if value else CellError("#VALUE!")
    return CellError("#VALUE!") if isinstance(value, ArgumentError) else value


def agree(saved: object, recomputed: object) -> bool:
    """Whether a saved value and a recomputed one are the same to the digits that files keep."""
    if isinstance(saved, bool) or isinstance(recomputed, bool):
        return saved is recomputed
    if isinstance(saved, (int, float)) and isinstance(recomputed, (int, float)):
        return math.isclose(saved, recomputed, rel_tol=1e-9, abs_tol=1e-10)
    if isinstance(saved, str) and isinstance(recomputed, str):
        return saved.strip().casefold() == recomputed.strip().casefold()
    if isinstance(saved, CellError) and isinstance(recomputed, CellError):
        return True
    return saved == recomputed


def element(value: object, row: int, column: int) -> object:
    """The element of rows at an offset, a single row or column or value repeated."""
    if not isinstance(value, tuple):
        return value
    if not value or value == ((),):
        return ArgumentError("array", "at least one value", "none")
    line = value[min(row, len(value) - 1) if len(value) > 1 else 0]
    if not isinstance(line, tuple):
        return line
    return line[min(column, len(line) - 1) if len(line) > 1 else 0]


def formula_cells(book: OpenBook) -> Sequence[tuple[Sheet, int, int, Cell]]:
    """Every cell whose formula mentions a call, sheet by sheet, in reading order."""
    return [
        (sheet, row, column, cell)
        for sheet in book.sheets
        for (row, column), cell in sheet.cells.items()
        if cell.formula and mentions_call(cell.formula)
    ]

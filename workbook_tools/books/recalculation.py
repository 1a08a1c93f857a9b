"""Recompute the calls in a book from the values that are saved in it.

A cell's saved value is what its book showed, so it is what a call is recomputed from. Only
where nothing usable was saved (a book written by a program that does not calculate, or
without our functions) is the cell itself computed first.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import zip_longest

from openpyxl.formula.tokenizer import Token, Tokenizer
from openpyxl.utils import get_column_letter

from workbook_tools.books import engine
from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.catalog import (
    OMITTED,
    PREFIX,
    ArgumentError,
    CellError,
    Function,
    Result,
    calculate,
    entries,
    find,
)
from workbook_tools.formulas.call_names import mentions_call
from workbook_tools.formulas.calls import Call, Part, parse
from workbook_tools.formulas.references import Area, always_quoted, read_reference
from workbook_tools.formulas.tokens import tokens_of

# What programs save in a cell whose function they do not know.
_UNKNOWN_FUNCTION = ("#NAME?", "Err:508", "Err:509")
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")
# A range larger than this in one argument is a slip of the mouse, not a set of readings.
MOST_CELLS = 20_000


class CannotEvaluate(Exception):
    """An expression that has no value here; the message says why in words."""


@dataclass
class Recalculation:
    """The values of one book's cells and calls; remembers what it has computed."""

    book: OpenBook
    _computed: dict[tuple[str, int, int], object] = field(default_factory=dict)
    _open: list[tuple[str, int, int]] = field(default_factory=list)
    _extents: dict[str, tuple[int, int]] = field(default_factory=dict)
    _parsed: dict[str, tuple[Part, ...]] = field(default_factory=dict)
    _areas: dict[tuple[str, str], Area | None] = field(default_factory=dict)
    _results: dict[tuple[str, int, int], Result | ArgumentError | CannotEvaluate] = field(
        default_factory=dict
    )
    _evaluated: dict[tuple[str, int, int], object] = field(default_factory=dict)

    # -- formulas and references

    def parts(self, formula: str) -> tuple[Part, ...]:
        """A formula cut into parts, remembered. Raises ValueError where it cannot be."""
        if formula not in self._parsed:
            self._parsed[formula] = parse(formula)
        return self._parsed[formula]

    def area(self, text: str, sheet: Sheet, row: int = 0, hops: int = 8) -> Area | None:
        """The cells that a reference, name or table column stands for, None for anything else.

        row: of the cell it stands in, for a table's own row; hops: how many names may still
        stand for one another before they are given up.
        """
        key = (sheet.title, text)
        if key not in self._areas:
            area = self._find_area(text, sheet, row, hops)
            if "[" in text:
                return area
            self._areas[key] = area
        return self._areas[key]

    def _find_area(self, text: str, sheet: Sheet, row: int, hops: int) -> Area | None:
        reference = read_reference(text.strip())
        if reference is None:
            definition = sheet.names.get(text.lower()) or self.book.names.get(text.lower())
            if definition is None or hops == 0:
                return self._table_area(text, row)
            return self.area(definition.lstrip("="), sheet, row, hops - 1)
        target = self.book.sheet(reference.sheet) if reference.sheet else sheet
        if target is None:
            raise CannotEvaluate(f"there is no sheet called {reference.sheet!r}")
        return reference.area_within(target.title, *self.extent(target))

    def _table_area(self, text: str, row: int) -> Area | None:
        """The cells of Name[Column], Name[[#This Row],[Column]] or Name[[First]:[Last]]."""
        name, bracket, inside = text.strip().partition("[")
        sheet = next((s for s in self.book.sheets if name.lower() in s.tables), None)
        if sheet is None:
            return None
        table = sheet.tables[name.lower()]
        words = [w.lower() for w in re.findall(r"[^\[\],:@]+", inside)] if bracket else []
        own_row = "#this row" in words or inside.startswith(("@", "[@"))
        columns = [table.columns[w] for w in words if w in table.columns]
        if any(w.startswith("#") and w not in ("#this row", "#data") for w in words):
            return None
        if words and not columns and not own_row:
            return None
        columns = columns or list(table.columns.values())
        if own_row and not table.top <= row <= table.bottom:
            return None
        top, bottom = (row, row) if own_row else (table.top, table.bottom)
        return Area(sheet.title, top, min(columns), bottom, max(columns))

    def extent(self, sheet: Sheet) -> tuple[int, int]:
        """The last row and column of a sheet that hold anything."""
        if sheet.title not in self._extents:
            rows = [row for row, _ in sheet.cells] or [1]
            columns = [column for _, column in sheet.cells] or [1]
            self._extents[sheet.title] = max(rows), max(columns)
        return self._extents[sheet.title]

    # -- values

    def value(self, sheet: Sheet, row: int, column: int) -> object:
        """A cell's value: as saved, or computed where nothing usable was saved."""
        cell = sheet.cells.get((row, column))
        if cell is None:
            return None
        if not cell.formula or _usable(cell.value):
            return cell.value
        key = (sheet.title, row, column)
        if key not in self._computed:
            if key in self._open:
                loop = self._open[self._open.index(key) :]
                # Told from its first cell on, wherever it was entered.
                start = loop.index(min(loop))
                loop = [*loop[start:], *loop[: start + 1]]
                path = " → ".join(f"{get_column_letter(c)}{r}" for _, r, c in loop)
                raise CannotEvaluate(f"the cells refer to each other in a circle: {path}")
            for at in self._to_compute(key):
                self._compute(at)
        value = self._computed[key]
        if isinstance(value, CannotEvaluate):
            raise value
        return value

    def _compute(self, key: engine.CellKey) -> None:
        """Compute a cell that has no usable value, and remember what it comes to."""
        title, row, column = key
        sheet = self.book.sheet(title)
        assert sheet is not None
        self._open.append(key)
        try:
            formula = sheet.cells[row, column].formula
            self._computed[key] = first(self.evaluate(self.parts(formula), sheet, row))
        except ArgumentError:
            self._computed[key] = CellError("#VALUE!")
        except CannotEvaluate as error:
            self._computed[key] = error
        except ValueError as error:
            self._computed[key] = CannotEvaluate(str(error))
        finally:
            self._open.pop()

    def _to_compute(self, key: engine.CellKey) -> list[engine.CellKey]:
        """The cells to compute for a cell, itself the last, each after those that it refers to.

        A chain of such cells can be as long as a sheet, so that it is not followed by calls
        within calls.
        """
        order: list[engine.CellKey] = []
        seen = {*self._open, key}
        waiting = [(key, self._unsaved(key))]
        while waiting:
            at, needed = waiting[-1]
            following = next((k for k in needed if k not in seen), None)
            if following is None:
                order.append(at)
                waiting.pop()
            else:
                seen.add(following)
                waiting.append((following, self._unsaved(following)))
        return order

    def _unsaved(self, key: engine.CellKey) -> Iterator[engine.CellKey]:
        """The cells without a usable value that a cell's formula refers to."""
        title, row, column = key
        sheet = self.book.sheet(title)
        assert sheet is not None
        try:
            tokens = tokens_of(sheet.cells[row, column].formula)
        except ValueError:
            return
        for token in tokens:
            if token.type != Token.OPERAND or token.subtype != Token.RANGE:
                continue
            try:
                area = self.area(token.value, sheet, row)
            except (CannotEvaluate, ValueError):
                continue
            target = self.book.sheet(area.sheet) if area else None
            if area is None or target is None:
                continue
            for at in cells_within(target, area):
                cell = target.cells[at]
                found = (target.title, *at)
                if cell.formula and not _usable(cell.value) and found not in self._computed:
                    yield found

    def values(self, area: Area) -> object:
        """The value of one cell, or rows of values of a range."""
        sheet = self.book.sheet(area.sheet)
        assert sheet is not None
        if area.single:
            return self.value(sheet, area.top, area.left)
        size = (area.bottom - area.top + 1) * (area.right - area.left + 1)
        if size > MOST_CELLS:
            last_row, last_column = self.extent(sheet)
            area = Area(
                area.sheet, area.top, area.left,
                max(area.top, min(area.bottom, last_row)),
                max(area.left, min(area.right, last_column)),
            )  # fmt: skip
            size = (area.bottom - area.top + 1) * (area.right - area.left + 1)
            if size > MOST_CELLS:
                raise CannotEvaluate(f"the range {area.address} has {size:,} cells")
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
            known, value = _literal(part.text)
            if known:
                return value
            area = self.area(part.text, sheet, row)
            if area is not None:
                return self.values(area)
        return self._by_engine(parts, sheet, row)

    def call(self, call: Call, sheet: Sheet, row: int = 0) -> Result:
        """The result of a call. Raises ArgumentError or CannotEvaluate."""
        key = (sheet.title, row, id(call))
        if key not in self._results:
            try:
                function = known_function(call)
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

    def _by_engine(self, parts: tuple[Part, ...], sheet: Sheet, row: int) -> object:
        """An expression of ordinary functions around cells and calls of ours."""
        cells: dict[engine.CellKey, object] = {}
        text = ""
        refused: ArgumentError | None = None
        for part in parts:
            if part.call is None:
                text += part.text
                continue
            try:
                text += self._call_as_text(part.call, sheet, row)
            except ArgumentError as error:
                # IF and IFERROR around a call may never look at it, or blank its error.
                text += "#VALUE!"
                refused = refused or error
        expression = ""
        tokens = Tokenizer("=" + text).items
        refuse_unseen_cells(tokens, in_place=False)
        for token in tokens:
            if token.type == Token.OPERAND and token.subtype == Token.RANGE:
                expression += self._reference_for_engine(token.value, sheet, row, cells)
            else:
                expression += token.value
        try:
            value = engine.evaluate(expression, cells)
        except engine.EngineError as error:
            raise CannotEvaluate(str(error)) from None
        if refused is not None and isinstance(value, CellError):
            raise refused
        return value

    def _call_as_text(self, call: Call, sheet: Sheet, row: int) -> str:
        value = self.call(call, sheet, row).value
        if isinstance(value, str):
            return '"' + value.replace('"', '""') + '"'
        if isinstance(value, tuple):
            if any(isinstance(v, ArgumentError) for row in value for v in row):
                raise next(v for row in value for v in row if isinstance(v, ArgumentError))
            rows = ";".join(",".join(_as_text(v) for v in row) for row in value)
            return "{" + rows + "}"
        return f"({value!r})"

    def _reference_for_engine(
        self, text: str, sheet: Sheet, row: int, cells: dict[engine.CellKey, object]
    ) -> str:
        area = self.area(text, sheet, row)
        if area is None:
            raise CannotEvaluate(f"{text!r} is a name or a table that cannot be followed")
        values = self.values(area)
        rows = values if isinstance(values, tuple) else ((values,),)
        for r, line in enumerate(rows):
            for c, value in enumerate(line):
                cells[area.sheet, area.top + r, area.left + c] = value
        return f"{always_quoted(area.sheet)}!{area.address}"


# Functions that reach cells which their formula does not name.
_REACHING = ("INDIRECT", "OFFSET")
# Functions that look, without an argument, at the cell that they stand in.
_LOOKING = ("ROW", "COLUMN", "CELL", "SHEET")


def refuse_unseen_cells(tokens: Sequence[Token], *, in_place: bool) -> None:
    """Refuse an expression that depends on cells which nobody can see from its text.

    in_place: whether it is evaluated as in its own cell. Raises CannotEvaluate.
    """
    for token, following in zip_longest(tokens, tokens[1:]):
        if token.type != Token.FUNC or token.subtype != Token.OPEN:
            continue
        name = token.value[:-1].upper()
        alone = following is not None and following.subtype == Token.CLOSE
        if name in _REACHING or (name in _LOOKING and alone and not in_place):
            raise CannotEvaluate(f"{name} takes what its formula does not name")


def _as_text(value: object) -> str:
    return '"' + value.replace('"', '""') + '"' if isinstance(value, str) else repr(value)


def _usable(saved: object) -> bool:
    """Whether a formula cell's saved value is one that its program computed."""
    return saved is not None and not (
        isinstance(saved, CellError) and saved.text in _UNKNOWN_FUNCTION
    )


def never_calculated(cell: Cell) -> bool:
    """Whether a formula cell was saved without a result."""
    return not _usable(cell.value)


def first(value: object) -> object:
    """The top left value, which is what a single cell shows of an array."""
    while isinstance(value, tuple):
        value = value[0] if value else CellError("#VALUE!")
    return CellError("#VALUE!") if isinstance(value, ArgumentError) else value


def _literal(text: str) -> tuple[bool, object]:
    """(True, value) of a number, text, TRUE or FALSE; (False, None) of anything else."""
    even = text.strip()
    if _NUMBER.fullmatch(even):
        return True, float(even)
    if len(even) > 1 and even[0] == even[-1] == '"' and '"' not in even[1:-1].replace('""', ""):
        return True, even[1:-1].replace('""', '"')
    if even.upper() in ("TRUE", "FALSE"):
        return True, even.upper() == "TRUE"
    if even.startswith("{") and even.endswith("}"):
        return _array_constant(even)
    if even.endswith("%") and _NUMBER.fullmatch(even[:-1]):
        return True, float(even[:-1]) / 100
    return False, None


def _array_constant(text: str) -> tuple[bool, object]:
    """(True, rows) of an array constant such as {1,2;3,4}, (False, None) of other text."""
    rows: list[tuple[object, ...]] = []
    row: list[object] = []
    sign = ""
    for token in Tokenizer("=" + text).items:
        if token.type == Token.OP_PRE:
            sign = token.value
        elif token.type == Token.OPERAND:
            known, value = _literal(sign + token.value)
            if not known:
                return False, None
            row.append(value)
            sign = ""
        elif token.subtype == Token.ROW:
            rows.append(tuple(row))
            row = []
    rows.append(tuple(row))
    return (True, tuple(rows)) if len({len(r) for r in rows}) == 1 else (False, None)


def known_function(call: Call) -> Function:
    """The catalog's function of a call. Raises ArgumentError, with the nearest name, if none."""
    function = find(call.name)
    if function is None:
        # rapidfuzz or difflib would do; difflib needs no package.
        from difflib import get_close_matches

        near = get_close_matches(call.name, [f.name for f in entries()], n=1, cutoff=0.5)
        hint = f"the nearest is {PREFIX}.{near[0]}" if near else "see `workbook-tools functions`"
        raise ArgumentError(
            call.spelled, f"a function of the catalog ({hint})", "a name that is not in it"
        )
    return function


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


def cells_within(sheet: Sheet, area: Area) -> Iterator[tuple[int, int]]:
    """(row, column) of the cells of an area that hold anything."""
    rows = range(area.top, area.bottom + 1)
    columns = range(area.left, area.right + 1)
    if len(rows) * len(columns) > len(sheet.cells):
        yield from ((r, c) for r, c in sheet.cells if r in rows and c in columns)
    else:
        yield from ((r, c) for r in rows for c in columns if (r, c) in sheet.cells)


def formula_cells(book: OpenBook) -> Sequence[tuple[Sheet, int, int, Cell]]:
    """Every cell whose formula mentions a call, sheet by sheet, in reading order."""
    return [
        (sheet, row, column, cell)
        for sheet in book.sheets
        for (row, column), cell in sheet.cells.items()
        if cell.formula and mentions_call(cell.formula)
    ]

"""The cells of an open spreadsheet, as the words about a cell's error need to see them.

This file travels in the extension, in the folder that LibreOffice searches for Python modules.
Formulas are read as LibreOffice writes them for .xlsx files, so that all words come from the
same text in every program.
"""

from __future__ import annotations

import operator
from collections.abc import Callable
from typing import Any

from com.sun.star.table.CellContentType import EMPTY, FORMULA, TEXT
from com.sun.star.uno import Exception as UnoException
from openpyxl.formula.tokenizer import Token

from workbook_tools.catalog import CellError
from workbook_tools.formulas.call_units import units_named, with_units
from workbook_tools.formulas.calls import Part
from workbook_tools.formulas.literals import read_literal
from workbook_tools.formulas.reasons import CannotTell, InCell, reason, with_results
from workbook_tools.formulas.references import Area, read_reference
from workbook_tools.formulas.tokens import tokens_of
from workbook_tools.quantities import System

# com.sun.star.sheet.AddressConvention.XL_OOX: as .xlsx files hold formulas.
_AS_IN_XLSX = 3
# com.sun.star.sheet.CellFlags.FORMULA
_FORMULAS = 16
# The errors that LibreOffice shows by a name, by their codes (its Help, "Error Codes in Calc").
_ERRORS = {
    503: "#NUM!",
    519: "#VALUE!",
    524: "#REF!",
    525: "#NAME?",
    532: "#DIV/0!",
    32767: "#N/A",
}


def reason_of(context: Any, document: Any, cells: Any) -> str:
    """Why a cell shows an error, in words. cells: the range that a formula points at."""
    return reason(_Document(context, document), _area_of(document, cells.getRangeAddress()))


def change_units(document: Any, cells: Any) -> tuple[int, str]:
    """Write the other unit system into the calls of some cells: metric, or inch where all have it.

    cells: a range. Returns how many cells were changed, and the system.
    """
    parser = _parser(document)
    found = []
    for area in cells.queryContentCells(_FORMULAS).getRangeAddresses():
        sheet = document.Sheets.getByIndex(area.Sheet)
        for row in range(area.StartRow, area.EndRow + 1):
            for column in range(area.StartColumn, area.EndColumn + 1):
                cell = sheet.getCellByPosition(column, row)
                formula = parser.printFormula(cell.getTokens(), cell.getCellAddress())
                if not cell.getFormula().startswith("{") and (named := units_named(formula)):
                    found.append((cell, formula, set(named)))
    system: System = "inch" if all(named == {"metric"} for _, _, named in found) else "metric"
    for cell, formula, _ in found:
        new = with_units(formula, system)
        cell.setTokens(parser.parseFormula(new, cell.getCellAddress()))
    return len(found), system


def _parser(document: Any) -> Any:
    """What writes and reads formulas as .xlsx files hold them."""
    parser = document.createInstance("com.sun.star.sheet.FormulaParser")
    parser.CompileEnglish = True
    parser.FormulaConvention = _AS_IN_XLSX
    return parser


def _area_of(document: Any, address: Any) -> Area:
    title = document.Sheets.getByIndex(address.Sheet).getName()
    rows = address.StartRow + 1, address.EndRow + 1
    return Area(title, rows[0], address.StartColumn + 1, rows[1], address.EndColumn + 1)


class _Document:
    """What is seen of an open spreadsheet (Sight)."""

    def __init__(self, context: Any, document: Any) -> None:
        self.document = document
        services = context.ServiceManager
        self._functions = services.createInstanceWithContext(
            "com.sun.star.sheet.FunctionAccess", context
        )
        self._parser = _parser(document)

    def _sheet(self, title: str) -> Any:
        return self.document.Sheets.getByName(title)

    def range(self, area: Area) -> Any:
        return self._sheet(area.sheet).getCellRangeByPosition(
            area.left - 1, area.top - 1, area.right - 1, area.bottom - 1
        )

    def area(self, reference: str, sheet: str) -> Area | None:
        """The cells that a reference or a name stands for, None for anything else."""
        found = read_reference(reference)
        if found is None:
            return self._named(reference, sheet)
        title = found.sheet or sheet
        if not self.document.Sheets.hasByName(title):
            return None
        cursor = self._sheet(title).createCursor()
        cursor.gotoEndOfUsedArea(False)
        end = cursor.getRangeAddress()
        return found.area_within(title, end.EndRow + 1, end.EndColumn + 1)

    def _named(self, name: str, sheet: str) -> Area | None:
        for names in (self._sheet(sheet).NamedRanges, self.document.NamedRanges):
            if names.hasByName(name):
                cells = names.getByName(name).getReferredCells()
                return _area_of(self.document, cells.getRangeAddress()) if cells else None
        return None

    def values(self, area: Area) -> object:
        """The value of one cell, or rows of values."""
        cells = self.range(area)
        if area.single:
            return _value(cells.getCellByPosition(0, 0))
        return tuple(
            tuple(
                _value(cells.getCellByPosition(c, r)) if value is None else value
                for c, value in enumerate(row)
            )
            for r, row in enumerate(cells.getDataArray())
        )

    def cell(self, area: Area) -> InCell:
        """What stands in the single cell."""
        cell = self.range(area).getCellByPosition(0, 0)
        if cell.getType() != FORMULA:
            return InCell(_value(cell))
        first = cell
        if cell.getFormula().startswith("{"):
            cursor = self._sheet(area.sheet).createCursorByRange(cell)
            cursor.collapseToCurrentArray()
            first = cursor.getCellByPosition(0, 0)
        start = first.getCellAddress()
        formula = self._parser.printFormula(first.getTokens(), start)
        offset = area.top - 1 - start.Row, area.left - 1 - start.Column
        return InCell(_value(cell), formula.lstrip("="), offset)

    def worked_out(self, parts: tuple[Part, ...], sheet: str) -> object:
        """The value of an expression around calls. Raises CannotTell or ArgumentError."""
        text = with_results(self, parts, sheet)
        return _Expression(self, self._functions, sheet, text).value()


def _value(cell: Any) -> object:
    """What a cell shows: nothing, a number, a text, or an error."""
    kind = cell.getType()
    if kind == EMPTY:
        return None
    if kind == FORMULA:
        # While the program calculates, a cell shows three dots; its content is there already.
        code = cell.getError()
        if code:
            return CellError(_ERRORS.get(code, f"Err:{code}"))
        return cell.getDataArray()[0][0]
    return cell.getString() if kind == TEXT else cell.getValue()


_Operator = tuple[int, Callable[[Any, Any], Any]]
# How tightly each binds, and what it does.
_OPERATORS: dict[str, _Operator] = {
    "^": (5, operator.pow),
    "*": (4, operator.mul),
    "/": (4, operator.truediv),
    "+": (3, operator.add),
    "-": (3, operator.sub),
    "=": (1, operator.eq),
    "<>": (1, operator.ne),
    "<": (1, operator.lt),
    ">": (1, operator.gt),
    "<=": (1, operator.le),
    ">=": (1, operator.ge),
}


class _Spoiled(Exception):
    """A cell that an expression counts with holds this error."""


class _Expression:
    """An expression of numbers, cells, arithmetic and LibreOffice's own functions."""

    def __init__(self, seen: _Document, functions: Any, sheet: str, text: str) -> None:
        self.seen, self.functions, self.sheet = seen, functions, sheet
        self.tokens = [token for token in tokens_of(text) if token.type != Token.WSPACE]
        self.at = 0

    def value(self) -> object:
        try:
            value = self._value(self._binary(0))
        except _Spoiled as spoiled:
            return CellError(str(spoiled))
        except (ArithmeticError, TypeError, UnoException) as error:
            raise CannotTell(f"an expression in it has no value ({error})") from None
        if self._next() is not None:
            raise CannotTell(f"{self._next().value} is not understood in it")
        return value

    def _next(self) -> Any:
        return self.tokens[self.at] if self.at < len(self.tokens) else None

    def _take(self) -> Any:
        token = self._next()
        if token is None:
            raise CannotTell("it ends too soon")
        self.at += 1
        return token

    def _binary(self, weakest: int) -> Any:
        value = self._unary()
        while (token := self._next()) is not None and token.type == Token.OP_IN:
            if token.value not in _OPERATORS:
                raise CannotTell(f"{token.value} is not worked out here")
            binds, apply = _OPERATORS[token.value]
            if binds < weakest:
                break
            self._take()
            value = apply(self._number(value), self._number(self._binary(binds + 1)))
        return value

    def _value(self, value: Any) -> Any:
        if hasattr(value, "getRangeAddress"):
            return self.seen.values(_area_of(self.seen.document, value.getRangeAddress()))
        return value

    def _number(self, value: Any) -> Any:
        number = self._value(value)
        if isinstance(number, CellError):
            raise _Spoiled(str(number))
        return 0.0 if number is None else number

    def _unary(self) -> Any:
        token = self._take()
        if token.type == Token.OP_PRE:
            value = self._number(self._unary())
            return -value if token.value == "-" else value
        value = self._operand(token)
        while (after := self._next()) is not None and after.type == Token.OP_POST:
            self._take()
            value = self._number(value) / 100
        return value

    def _operand(self, token: Any) -> Any:
        if token.type == Token.OPERAND and token.subtype == Token.RANGE:
            area = self.seen.area(token.value, self.sheet)
            if area is None:
                raise CannotTell(f"{token.value} cannot be followed")
            return self.seen.range(area)
        if token.type == Token.OPERAND:
            known, value = read_literal(token.value)
            if not known:
                raise CannotTell(f"{token.value} in it cannot be read")
            return value
        if token.type == Token.PAREN and token.subtype == Token.OPEN:
            value = self._binary(0)
            self._take()
            return value
        if token.type == Token.FUNC and token.subtype == Token.OPEN:
            return self._function(token.value[:-1])
        raise CannotTell(f"{token.value} is not understood in it")

    def _function(self, name: str) -> Any:
        given: list[Any] = []
        while (token := self._next()) is not None and token.subtype != Token.CLOSE:
            if token.type == Token.SEP:
                self._take()
                continue
            given.append(self._binary(0))
        self._take()
        return self.functions.callFunction(name, tuple(given))

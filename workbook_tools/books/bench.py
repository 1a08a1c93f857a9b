"""Try a formula at the bench: without a book, or on the cells of one."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from openpyxl.formula.tokenizer import Token, Tokenizer
from openpyxl.utils import FORMULAE

from workbook_tools.books.areas import CannotEvaluate
from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.books.recalculation import Recalculation
from workbook_tools.catalog import PREFIX, ArgumentError, Result, entries, find
from workbook_tools.formulas.calls import Call, Part, known_function
from workbook_tools.quantities import TEXT
from workbook_tools.quantities.nearest import nearest

_NO_BOOK = OpenBook("", "", (Sheet("Bench", {}),), {})
_BARE_NAME = re.compile(r"(?<![\w.!])([A-Za-z][A-Za-z0-9_]*)(?=\s*\()")


@dataclass(frozen=True)
class Given:
    """One argument of a call: its parameter, as it stands in the formula, what it came to."""

    parameter: str
    text: str
    value: object


@dataclass(frozen=True)
class Tried:
    """What a formula on a book's cells came to, and from what.

    formula: as it was worked out, without "="; given: the arguments where it is one call;
    result: None where there is none, problem then says why.
    """

    formula: str
    given: tuple[Given, ...]
    result: Result | None
    problem: str = ""


def _outside_quotes(
    formula: str, change: re.Pattern[str], to: str | Callable[[re.Match[str]], str]
) -> str:
    pieces = re.split(r'("(?:[^"]|"")*"|\{[^}]*\}|\'(?:[^\']|\'\')*\')', formula)
    pieces[::2] = [change.sub(to, piece) for piece in pieces[::2]]
    return "".join(pieces)


def _with_prefix(name: re.Match[str]) -> str:
    """ENG.QUENCH for QUENCH; what every program has, as POWER, is the program's.

    Raises CannotEvaluate for what nobody has and is spelled much like one of ours.
    """
    known = name[1].upper() in FORMULAE
    ours = not known and find(name[1])
    near = "" if known or ours else nearest(name[1], [f.name for f in entries()], 0.75)
    if near:
        raise CannotEvaluate(f"there is no function {name[1]}; the nearest is {PREFIX}.{near}")
    return f"{PREFIX}.{name[1].upper()}" if ours else name[1]


def _written_out(formula: str) -> str:
    """A formula with commas between arguments, and our names with their prefix."""
    text = _outside_quotes(formula.strip().removeprefix("="), re.compile(";"), ",")
    if not text:
        raise CannotEvaluate("there is no formula")
    if text.count('"') % 2:
        raise CannotEvaluate(
            'the quotes do not pair; inside a formula an inch mark is written twice: "4.03"""'
        )
    return _outside_quotes(text, _BARE_NAME, _with_prefix)


def _parts(values: Recalculation, text: str) -> tuple[Part, ...]:
    try:
        return values.parts(text)
    except ValueError as error:
        raise CannotEvaluate(str(error)) from None


def _result(values: Recalculation, parts: tuple[Part, ...], sheet: Sheet, row: int) -> Result:
    if len(parts) == 1 and parts[0].call is not None:
        return values.call(parts[0].call, sheet, row)
    value = values.evaluate(parts, sheet, row)
    return Result(value, TEXT, "", "inch")  # type: ignore[arg-type]


def try_formula(formula: str) -> Result:
    """The result of a formula that names no cells: 'ENG.QUENCH(0.002, "38 thou")'.

    formula: with or without "=", arguments parted by commas or semicolons, our names with or
    without their prefix. Returns the value with its unit. Raises ArgumentError where a function
    refuses its input, and CannotEvaluate where the text is no formula that can be worked out.
    """
    values = Recalculation(_NO_BOOK)
    text = _written_out(formula)
    parts = _parts(values, text)
    for token in Tokenizer("=" + text).items:
        if token.type == Token.OPERAND and token.subtype == Token.RANGE:
            raise CannotEvaluate(
                f"{token.value} is a cell or a name; put a number there, or name its book"
            )
    return _result(values, parts, _NO_BOOK.sheets[0], 0)


def try_in_book(book: OpenBook, asked: str) -> Tried:
    """What a cell of a book, or a formula on its cells, comes to.

    asked: a cell, as "Build!B12", whose formula is worked out anew, or a formula as in
    try_formula; a cell without a sheet is one of the first. Raises CannotEvaluate where there
    is no such sheet or cell, or the text is no formula.
    """
    values = Recalculation(book)
    sheet, row = book.sheets[0], 0
    text = asked.strip().removeprefix("=")
    area = values.areas.find(text, sheet, row)
    if area is not None and area.single:
        named = book.sheet(area.sheet)
        cell = named.cells.get((area.top, area.left)) if named else None
        if named is None or cell is None:
            raise CannotEvaluate(f"{area} is empty")
        if not cell.formula:
            return Tried(text, (), Result(cell.value, TEXT, "", "inch"))  # type: ignore[arg-type]
        sheet, row, text = named, area.top, cell.formula
    else:
        text = _written_out(text)
    parts = _parts(values, text)
    given = _given(values, parts[0].call, sheet, row) if len(parts) == 1 else ()
    try:
        return Tried(text, given, _result(values, parts, sheet, row))
    except (ArgumentError, CannotEvaluate) as reason:
        return Tried(text, given, None, str(reason))


def _given(values: Recalculation, call: Call | None, sheet: Sheet, row: int) -> tuple[Given, ...]:
    """What each argument of a call came to, () where there is no call."""
    if call is None:
        return ()
    names = [parameter.name for parameter in known_function(call).parameters] + ["units"]
    found = []
    for name, argument in zip(names, call.arguments, strict=False):
        text = "".join(part.text for part in argument)
        try:
            value = values.evaluate(argument, sheet, row)
        except (ArgumentError, CannotEvaluate) as reason:
            value = reason
        found.append(Given(name, text, value))
    return tuple(found)


__all__ = ["ArgumentError", "CannotEvaluate", "Given", "Tried", "try_formula", "try_in_book"]

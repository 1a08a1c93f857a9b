"""Try a formula at the bench, without a book."""

from __future__ import annotations

import re

from openpyxl.formula.tokenizer import Token, Tokenizer

from workbook_tools.books.areas import CannotEvaluate
from workbook_tools.books.cells import OpenBook, Sheet
from workbook_tools.books.recalculation import Recalculation
from workbook_tools.catalog import ArgumentError, Result
from workbook_tools.quantities import TEXT


def _with_commas(formula: str) -> str:
    """Semicolons between arguments, as some programs show them, as commas."""
    pieces = re.split(r'("(?:[^"]|"")*"|\{[^}]*\})', formula)
    pieces[::2] = [piece.replace(";", ",") for piece in pieces[::2]]
    return "".join(pieces)


def try_formula(formula: str) -> Result:
    """The result of a formula that names no cells: 'ENG.QUENCH(0.002, "38 thou")'.

    formula: with or without "=", arguments parted by commas or semicolons. Returns the
    value with its unit. Raises ArgumentError where a function refuses its input, and
    CannotEvaluate where the text is no formula that can be worked out.
    """
    book = OpenBook("", "", (Sheet("Bench", {}),), {})
    values = Recalculation(book)
    sheet = book.sheets[0]
    text = _with_commas(formula.strip().removeprefix("="))
    if not text:
        raise CannotEvaluate("there is no formula")
    if text.count('"') % 2:
        raise CannotEvaluate(
            'the quotes do not pair; inside a formula an inch mark is written twice: "4.03"""'
        )
    try:
        parts = values.parts(text)
    except ValueError as error:
        raise CannotEvaluate(str(error)) from None
    for token in Tokenizer("=" + text).items:
        if token.type == Token.OPERAND and token.subtype == Token.RANGE:
            raise CannotEvaluate(f"{token.value} is a cell or a name; give a number in its place")
    if len(parts) == 1 and parts[0].call is not None:
        return values.call(parts[0].call, sheet)
    value = values.evaluate(parts, sheet)
    return Result(value, TEXT, "", "inch")  # type: ignore[arg-type]


__all__ = ["ArgumentError", "CannotEvaluate", "try_formula"]

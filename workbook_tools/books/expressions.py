"""Expressions of ordinary functions, evaluated by the engine with what they need put in."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from itertools import zip_longest

from openpyxl.formula.tokenizer import Token, Tokenizer

from workbook_tools.books.answers import Answers
from workbook_tools.books.areas import CannotEvaluate
from workbook_tools.books.engine import CellKey, EngineError
from workbook_tools.catalog import ArgumentError, CellError
from workbook_tools.formulas.calls import Call, Part
from workbook_tools.formulas.literals import literal
from workbook_tools.formulas.references import Area, always_quoted

# What a build book has before a call, so that nothing is computed of a cell not yet filled in.
_COUNTED = r"COUNTBLANK\(([^()]+)\)"
_GUARD = re.compile(rf"IF\({_COUNTED}(?:\+{_COUNTED})*=0,")
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


def with_areas(tokens: Iterable[Token], area_of: Callable[[str], Area]) -> tuple[str, list[Area]]:
    """An expression with its references spelled out for the engine, and their areas.

    area_of: the cells that a reference stands for; what it raises is not caught here.
    """
    text, areas = "", []
    for token in tokens:
        if token.type == Token.OPERAND and token.subtype == Token.RANGE:
            area = area_of(token.value)
            areas.append(area)
            text += _spelled_out(area)
        else:
            text += token.value
    return text, areas


# The same cells are named by several formulas, and in each book of a form.
@lru_cache(maxsize=4096)
def _spelled_out(area: Area) -> str:
    return f"{always_quoted(area.sheet)}!{area.address}"


def guarded(parts: tuple[Part, ...]) -> tuple[Call, tuple[str, ...]] | None:
    """The call and the references of IF(COUNTBLANK(reference)=0,call,""), None for all else.

    It needs no engine: the call's value where no cell is blank, else an empty text.
    """
    if len(parts) != 3 or parts[1].call is None or parts[2].text != ',"")':
        return None
    before = parts[0].text
    if _GUARD.fullmatch(before) is None:
        return None
    return parts[1].call, tuple(re.findall(_COUNTED, before))


def evaluate_by_engine(
    parts: Iterable[Part],
    result_of: Callable[[Call], object],
    area_of: Callable[[str], Area | None],
    values_of: Callable[[Area], object],
    answers: Answers,
) -> object:
    """The value of an expression of ordinary functions around cells and calls of ours.

    result_of: the value of a call; area_of: the cells that a reference stands for; values_of:
    the value of one cell, or rows of values; answers: what the engine said so far. Raises
    CannotEvaluate where the engine cannot tell, and ArgumentError where a call refuses its
    input and the expression comes to an error.
    """
    cells: dict[CellKey, object] = {}

    def put_in(reference: str) -> Area:
        area = area_of(reference)
        if area is None:
            raise CannotEvaluate(f"{reference!r} is a name or a table that cannot be followed")
        cells.update(_spread(area, values_of(area)))
        return area

    text, refused = _with_results(parts, result_of)
    tokens = _tokens(text)
    refuse_unseen_cells(tokens, in_place=False)
    expression, _ = with_areas(tokens, put_in)
    try:
        value = answers.value(expression, cells)
    except EngineError as error:
        raise CannotEvaluate(str(error)) from None
    if refused is not None and isinstance(value, CellError):
        raise refused
    return value


# The same expression comes again where it is gathered, answered, and recalculated.
@lru_cache(maxsize=4096)
def _tokens(expression: str) -> tuple[Token, ...]:
    return tuple(Tokenizer("=" + expression).items)


def _with_results(
    parts: Iterable[Part], result_of: Callable[[Call], object]
) -> tuple[str, ArgumentError | None]:
    """An expression with results in place of calls, and why the first call was refused."""
    text = ""
    refused: ArgumentError | None = None
    for part in parts:
        if part.call is None:
            text += part.text
            continue
        try:
            text += literal(_accepted(result_of(part.call)))
        except ArgumentError as error:
            # IF and IFERROR around a call may never look at it, or blank its error.
            text += "#VALUE!"
            refused = refused or error
    return text, refused


def _accepted(result: object) -> object:
    """A call's result. Raises ArgumentError where any element of it was refused."""
    rows = result if isinstance(result, tuple) else ()
    for value in (value for row in rows for value in row):
        if isinstance(value, ArgumentError):
            raise value
    return result


def _spread(area: Area, values: object) -> Iterable[tuple[CellKey, object]]:
    """Each cell of an area with its own value."""
    rows = values if isinstance(values, tuple) else ((values,),)
    for row, line in enumerate(rows, area.top):
        for column, value in enumerate(line, area.left):
            yield (area.sheet, row, column), value

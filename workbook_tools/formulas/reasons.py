"""Why a cell shows an error, in words: what ENG.WHY answers in every program.

Each program supplies a `Sight` of its book: what stands in cells, their formulas, what an
expression comes to. The words are made here alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple, Protocol

from openpyxl.formula.tokenizer import Token

from workbook_tools.catalog import (
    OMITTED,
    PREFIX,
    ArgumentError,
    CellError,
    Function,
    Parameter,
    Result,
    calculate,
    find,
)
from workbook_tools.formulas.calls import Call, Part, calls_in, known_function, parse
from workbook_tools.formulas.literals import literal, read_literal
from workbook_tools.formulas.references import Area
from workbook_tools.formulas.tokens import tokens_of

# A cell's error can come from a cell before it, and so on.
_FURTHEST = 6
# Cells that are named with what stands in them.
_MOST_TOLD = 6
# Characters of a formula, or of what stands in a cell, that are shown.
_LONGEST = 80


class CannotTell(Exception):
    """An expression that has no value here; the message says why in words."""


class InCell(NamedTuple):
    """What stands in a cell.

    formula: without "=", "" where it was typed; offset: from the first cell of an array formula.
    """

    value: object
    formula: str = ""
    offset: tuple[int, int] = (0, 0)


class Sight(Protocol):
    """What a program lets be seen of a book."""

    def area(self, reference: str, sheet: str) -> Area | None:
        """The cells that a reference or a name stands for, None for anything else."""

    def values(self, area: Area) -> object:
        """The value of one cell, or rows of values."""

    def cell(self, area: Area) -> InCell:
        """What stands in the single cell."""

    def worked_out(self, parts: tuple[Part, ...], sheet: str) -> object:
        """The value of an expression around calls. Raises CannotTell or ArgumentError."""


@dataclass(frozen=True)
class _Looked:
    """A cell that is looked at: its place, and what stands in it."""

    sight: Sight
    area: Area
    seen: InCell

    def named(self, area: Area) -> str:
        """Another cell as this one's formula names it: with its sheet where that is another."""
        return area.address if area.sheet == self.area.sheet else str(area)

    def refers_to(self, text: str) -> Area | None:
        """The cells that a reference in its formula stands for."""
        return self.sight.area(text, self.area.sheet)


def reason(sight: Sight, area: Area) -> str:
    """Why a cell shows an error, or, where it shows none, what its call is.

    Raises nothing.
    """
    if not area.single:
        return f"{area} is a range: point at a single cell."
    told: list[str] = []
    seen_before: set[Area] = set()
    at: Area | None = area
    while at is not None and at not in seen_before and len(told) < _FURTHEST:
        seen_before.add(at)
        here = at
        try:
            words, at = _told(_Looked(sight, here, sight.cell(here)))
        except (CannotTell, ValueError, LookupError, ArithmeticError, RecursionError) as why:
            words, at = f"its formula cannot be followed here ({why}).", None
        told.append(f"{here}: {words}")
    return " ".join(told)


def _told(cell: _Looked) -> tuple[str, Area | None]:
    """What is said of a cell, and the cell that its error comes from, where it is another."""
    value, formula = cell.seen.value, cell.seen.formula
    if not formula:
        return f"no formula; it {_holds(value)}.", None
    parts = parse(formula)
    calls = [call for call in calls_in(parts) if not _sees_cell(call)]
    whole = parts[0].call if len(parts) == 1 else None
    for call in reversed(calls):
        refused = _refusal(cell, call, whole=call is whole)
        if refused is not None:
            return refused
    if isinstance(value, CellError):
        return _error_around(cell, calls)
    if not calls:
        own = "tells about a cell" if any(calls_in(parts)) else "calls no ENG function"
        return f"no error; {_short(formula)} {own} and {_comes_to(value)}.", None
    calls_told = " ".join(_good_call(cell, call) for call in calls)
    return f"no error. {calls_told}", None


def _sees_cell(call: Call) -> bool:
    """Whether a call tells about a cell itself, which has no reason of its own."""
    function = find(call.name)
    return function is not None and function.sees_cell


def _refusal(cell: _Looked, call: Call, *, whole: bool) -> tuple[str, Area | None] | None:
    """What a call refuses, and the cell with an error that it comes from; None where it works."""
    try:
        function = known_function(call)
        result = _result(cell.sight, call, cell.area.sheet)
    except ArgumentError as error:
        return _refused_words(cell, call, error, None)
    rows = result.value if isinstance(result.value, tuple) else ((result.value,),)
    at = _index(rows, cell.seen.offset)
    places = [at] if whole and not function.result_block else list(_indices(rows))
    for row, column in places:
        element = rows[row][column]
        if isinstance(element, ArgumentError):
            return _refused_words(cell, call, element, (row, column))
    return None


def _refused_words(
    cell: _Looked, call: Call, error: ArgumentError, at: tuple[int, int] | None
) -> tuple[str, Area | None]:
    given = _given(call, error.parameter)
    start = _short(call.text)
    if given is None:
        at_fault = error.parameter in (call.spelled, f"{PREFIX}.{call.name}")
        return f"{start}: {error.why if at_fault else error}.", None
    parameter, parts = given
    text = "".join(part.text for part in parts)
    area = _single_cell(cell, parts, error.at or (None if parameter.block else _from_1(at)))
    came_from = f" from {cell.named(area)}" if area else f" from {_short(text)}" if text else ""
    words = f"{start}: {parameter.name}{came_from}: {error.why}."
    return words, _spoiled(cell, [area] if area else _referred(cell, text))


def _spoiled(cell: _Looked, areas: Iterable[Area]) -> Area | None:
    """The first of some cells that holds an error."""
    for area in areas:
        if area.single and isinstance(cell.sight.cell(area).value, CellError):
            return area
    return None


def _from_1(at: tuple[int, int] | None) -> tuple[int, int] | None:
    return (at[0] + 1, at[1] + 1) if at else None


def _given(call: Call, name: str) -> tuple[Parameter, tuple[Part, ...]] | None:
    """The parameter of this name and what stands for it; None for what is no argument."""
    function = known_function(call) if name != call.spelled else None
    for parameter, parts in zip(function.parameters if function else (), call.arguments):  # noqa: B905 - fewer may be given
        if parameter.name == name:
            return parameter, parts
    return None


def _single_cell(cell: _Looked, parts: Sequence[Part], at: tuple[int, int] | None) -> Area | None:
    """The cell of an argument, or of the element (row, column from 1) of its range."""
    if len(parts) != 1 or parts[0].call is not None:
        return None
    area = cell.refers_to(parts[0].text)
    if area is None or area.single or at is None:
        return area
    row = min(area.top + at[0] - 1, area.bottom)
    column = min(area.left + at[1] - 1, area.right)
    return Area(area.sheet, row, column, row, column)


def with_results(sight: Sight, parts: Sequence[Part], sheet: str) -> str:
    """An expression with the result of each call in it in the call's place.

    Raises ArgumentError where a call refuses its input, CannotTell where an argument has no value.
    """
    return "".join(
        part.text if part.call is None else literal(_result(sight, part.call, sheet).value)
        for part in parts
    )


def _result(sight: Sight, call: Call, sheet: str) -> Result:
    values = [_value(sight, parts, sheet) for parts in call.arguments]
    return calculate(known_function(call), values)


def _value(sight: Sight, parts: tuple[Part, ...], sheet: str) -> object:
    if not parts:
        return OMITTED
    if len(parts) == 1:
        call = parts[0].call
        if call is not None:
            return _whole(_result(sight, call, sheet).value)
        known, value = read_literal(parts[0].text)
        if known:
            return value
        area = sight.area(parts[0].text, sheet)
        if area is not None:
            return sight.values(area)
    return sight.worked_out(parts, sheet)


def _whole(value: object) -> object:
    """A result as another call takes it. Raises the ArgumentError of its first bad element."""
    rows: Any = value if isinstance(value, tuple) else ()
    for element in (element for row in rows for element in row):
        if isinstance(element, ArgumentError):
            raise element
    return value


def _index(rows: Sequence[Sequence[object]], offset: tuple[int, int]) -> tuple[int, int]:
    """The element of rows that a cell of an array formula shows."""
    row = min(offset[0], len(rows) - 1)
    return row, min(offset[1], len(rows[row]) - 1)


def _indices(rows: Sequence[Sequence[object]]) -> Iterator[tuple[int, int]]:
    for r, row in enumerate(rows):
        for c in range(len(row)):
            yield r, c


def _good_call(cell: _Looked, call: Call) -> str:
    """A call that works: what it is, what it was given, what it comes to."""
    function = known_function(call)
    result = _result(cell.sight, call, cell.area.sheet)
    rows = result.value if isinstance(result.value, tuple) else ((result.value,),)
    row, column = _index(rows, cell.seen.offset)
    given = ", ".join(_argument_words(cell, function, call, result, (row + 1, column + 1)))
    unit = f" {result.unit}" if result.unit else ""
    value = rows[row][column]
    return f"{function.full_name}: {function.summary} Given {given}, it is {_content(value)}{unit}."


def _argument_words(
    cell: _Looked, function: Function, call: Call, result: Result, at: tuple[int, int]
) -> Iterator[str]:
    for parameter, parts in zip(function.parameters, call.arguments, strict=False):
        if not parts:
            continue
        text = "".join(part.text for part in parts)
        area = _single_cell(cell, parts, None if parameter.block else at)
        from_cell = area is not None and area.single
        value = cell.sight.values(area) if area and from_cell else _argument(cell, parts)
        if isinstance(value, tuple):
            yield f"{parameter.name} = {_short(text)}"
            continue
        number = isinstance(value, (int, float))
        unit = f" {parameter.kind.unit(result.system)}".rstrip() if number else ""
        where = cell.named(area) if area and from_cell else _short(text)
        told = f" ({where})" if area or not read_literal(text)[0] else ""
        yield f"{parameter.name} = {_content(value)}{unit}{told}"


def _argument(cell: _Looked, parts: tuple[Part, ...]) -> object:
    return _value(cell.sight, parts, cell.area.sheet)


def _error_around(cell: _Looked, calls: Sequence[Call]) -> tuple[str, Area | None]:
    """An error that no call of ours gives: where it comes from, else what the cells hold."""
    value = cell.seen.value
    own = "no ENG function in it refuses its input" if calls else "it calls no ENG function"
    words = f"{value}, and {own}; look at {_short(cell.seen.formula)}."
    if str(value) == "#NAME?" or str(value) == "Err:525":
        words += " The program does not know a function or name in it, or has not calculated it."
    referred = list(_referred(cell, cell.seen.formula))
    spoiled = _spoiled(cell, referred)
    if spoiled is not None:
        return f"{value} comes from {cell.named(spoiled)}.", spoiled
    held = [
        f"{cell.named(area)} {_holds(cell.sight.cell(area).value)}"
        for area in referred[:_MOST_TOLD]
        if area.single
    ]
    return words + (f" {', '.join(held)}." if held else ""), None


def _referred(cell: _Looked, formula: str) -> Iterator[Area]:
    """The cells that a formula refers to, those of a small range one by one."""
    for token in tokens_of(formula):
        if token.type == Token.OPERAND and token.subtype == Token.RANGE:
            area = cell.refers_to(token.value)
            if area is not None and area.size <= 1000:
                yield from area.cells()


def _comes_to(value: object) -> str:
    return "is empty" if value is None else f"comes to {_content(value)}"


def _holds(value: object) -> str:
    return "is empty" if value is None or value == "" else f"holds {_content(value)}"


def _content(value: object) -> str:
    """What stands in a cell, as the words show it."""
    if value is None or value == "":
        return "nothing"
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, (int, float)):
        return f"{value:.10g}"
    if isinstance(value, str):
        return f'"{_short(value)}"'
    return str(value)


def _short(text: str) -> str:
    return text if len(text) <= _LONGEST else text[: _LONGEST - 1] + "…"

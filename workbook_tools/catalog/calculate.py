"""Call a catalog function with what stands in cells.

This is the edge that every host and the batch share: it checks the number of arguments,
reads units and texts, keeps the limits, works through ranges, and turns the result back
into the book's units.
"""

from __future__ import annotations

import math
import re
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import Any

from workbook_tools import quantities
from workbook_tools.catalog.cures import likely_cure
from workbook_tools.catalog.errors import ArgumentError, RequirementError
from workbook_tools.catalog.registry import Function, Parameter
from workbook_tools.quantities import COUNT, READING, TEXT, Kind, System, UnreadableText


class _Omitted:
    """Stands for an argument that was left out, which an empty cell is not."""

    def __repr__(self) -> str:
        return "OMITTED"


OMITTED = _Omitted()

# What a cell holds: a number, a text, TRUE or FALSE, or nothing. An error value arrives as
# the text that the program shows, wrapped so that no text can be mistaken for one.
Rows = tuple[tuple[object, ...], ...]


@dataclass(frozen=True)
class CellError:
    """An error value that stands in a cell: #VALUE!, #NAME?, Err:502."""

    text: str

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True)
class Result:
    """What a call gives: a number or text, or rows of them, and the unit of the numbers.

    Where a range was worked through, an element that could not be computed is the
    ArgumentError that says why; the others stand.
    """

    value: float | str | Rows
    kind: Kind
    unit: str
    system: System


# A list of words that is longer than this is told by its words nearest to what was typed.
_SHORT_LIST, _MOST_NEAR = 12, 6


def _kind_words(parameter: Parameter, system: System, got: object = None) -> str:
    if parameter.kind is TEXT:
        return _choice_words(parameter.choices, got)
    words = parameter.limits.words(parameter.kind, system)
    return f"{_noun(parameter.kind)} {words}".rstrip()


def _noun(kind: Kind) -> str:
    if kind is COUNT:
        return "a whole number"
    if kind in (READING, quantities.NUMBER):
        return "a number"
    return f"{_article(kind.name)} {kind.name}"


def _choice_words(choices: Sequence[str], got: object) -> str:
    """The words that a text parameter takes; of a long list those near to what came, if any."""
    if not choices:
        return "a text"
    number = isinstance(got, (int, float)) and abs(got) < 1e9
    typed = got if isinstance(got, str) else f"{got:.6g}" if number else ""
    near = _near(typed.lower(), choices) if len(choices) > _SHORT_LIST else []
    named = ", ".join(f'"{word}"' for word in near or choices)
    return f"{named} or another of the {len(choices)} words it takes" if near else f"one of {named}"


def _near(text: str, choices: Sequence[str]) -> list[str]:
    """The choices that share a word with a text or are spelled much like it, the nearest first."""
    said = re.findall(r"[a-z0-9]{3,}", text)

    def nearness(word: str) -> tuple[int, float]:
        shared = sum(any(part.startswith(one) for part in word.split()) for one in said)
        return shared, SequenceMatcher(None, text, word).ratio()

    near = {word: nearness(word) for word in choices}
    found = [word for word, (shared, ratio) in near.items() if shared or ratio > 0.75]
    return sorted(found, key=lambda word: near[word], reverse=True)[:_MOST_NEAR]


def _article(noun: str) -> str:
    return "an" if noun[0] in "aeiou" else "a"


def _size(rows: int, columns: int) -> str:
    """The size of a range in words: "2 rows and 1 column"."""
    return f"{rows} row{'s' * (rows != 1)} and {columns} column{'s' * (columns != 1)}"


def _seen(value: object) -> str:
    """A cell's content as an error message shows it."""
    if value is None or value == "":
        return "an empty cell"
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, CellError):
        return f"the error {value.text}"
    if isinstance(value, tuple):
        return f"a range of {_size(len(value), len(value[0]))}"
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return str(int(value))
    return repr(value) if isinstance(value, str) else str(value)


def _single(parameter: Parameter, value: object, system: System) -> object:
    """One cell's content as the SI value, or the word, that a parameter takes."""
    if type(value) is float and parameter.kind is not TEXT and parameter.kind is not COUNT:
        # Nearly every argument of a book: a number that needs no words.
        si = quantities.to_si(value, parameter.kind, system)
        if math.isfinite(si) and parameter.limits.hold(si) and parameter.is_possible(si):
            return si

    def refused(got: str, *, missing: bool = False) -> ArgumentError:
        expected = _kind_words(parameter, system, value)
        return ArgumentError(parameter.name, expected, got, missing=missing)

    if value is None or value == "":
        raise refused("an empty cell", missing=True)
    if isinstance(value, (CellError, bool)):
        raise refused(_seen(value))
    if isinstance(value, int) and abs(value) > sys.float_info.max:
        raise refused("a number larger than any cell can hold")
    if parameter.kind is TEXT:
        word = _word(parameter, value)
        if word is None:
            raise refused(_seen(value))
        return word
    if isinstance(value, str):
        try:
            si = quantities.read_text(value, parameter.kind, system)
        except UnreadableText as reason:
            why = str(reason)
            if _names_system(value):
                # Typed right behind the required arguments, in the place of an optional one.
                why = "units come last; keep the optional arguments' places before them, as in 1,,"
            raise refused(f"{value!r}: {why}") from None
    elif isinstance(value, (int, float)):
        si = quantities.to_si(float(value), parameter.kind, system)
    else:
        raise refused(f"{_seen(value)}, which is no number")
    whole = parameter.kind is not COUNT or (math.isfinite(si) and si.is_integer())
    if not math.isfinite(si) or not whole or not parameter.limits.hold(si):
        raise refused(_seen(value))
    if not parameter.is_possible(si):
        possible = parameter.sizes.roughly(parameter.kind, system)
        raise ArgumentError(
            parameter.name,
            f"{_noun(parameter.kind)} that an engine can have, {possible}",
            _seen(value),
            impossible=True,
            cure=likely_cure(parameter, value, si, system),
        )
    return int(si) if parameter.kind is COUNT else si


def _names_system(value: object) -> bool:
    return isinstance(value, str) and value.strip().lower() in quantities.SYSTEMS


def _word(parameter: Parameter, value: object) -> str | None:
    """The word that a text parameter takes, None where the cell holds none of its words."""
    text = value
    if parameter.choices and isinstance(value, (int, float)):
        text = f"{value:g}"  # A bolt's class such as 8.8 stands in its cell as a number.
    if not isinstance(text, str):
        return None
    word = " ".join(text.split()).lower()
    if parameter.choices:
        return word if word in parameter.choices else None
    return text


def _block(parameter: Parameter, value: object, system: System) -> Rows:
    """A whole range as rows of SI values, None where a cell is empty."""
    rows = value if isinstance(value, tuple) else ((value,),)

    def read(row: int, column: int, cell: object) -> object:
        if cell is None or cell == "":
            return None
        try:
            return _single(parameter, cell, system)
        except ArgumentError as error:
            place = f"{error.got} in row {row}, column {column} of the range"
            raise ArgumentError(
                parameter.name,
                error.expected,
                place,
                impossible=error.impossible,
                cure=error.cure,
                at=(row, column),
            ) from None

    return tuple(
        tuple(read(r, c, cell) for c, cell in enumerate(row, 1)) for r, row in enumerate(rows, 1)
    )


def _system(function: Function, arguments: Sequence[object]) -> System:
    if not function.takes_units or len(arguments) <= len(function.parameters):
        return "inch"
    value: object = arguments[-1]
    while isinstance(value, tuple) and len(value) == 1:
        value = value[0]
    if value is OMITTED:
        return "inch"
    if isinstance(value, str):
        try:
            return quantities.system_named(value)
        except UnreadableText:
            pass
    missing = value is None or value == ""
    raise ArgumentError("units", '"inch" or "metric"', _seen(value), missing=missing)


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for part in value:
            yield from _texts(part)


def _reading_unit(function: Function, given: Sequence[object], system: System) -> str:
    """The one unit that a call's readings bring with them, "" where they are bare numbers."""
    found = ""
    for parameter, value in zip(function.parameters, given, strict=True):
        if parameter.kind is not READING:
            continue
        for text in _texts(value):
            try:
                unit = quantities.reading_unit(text, system)
            except UnreadableText:
                continue  # The reading itself is refused later, with its place.
            if unit and found and unit != found:
                raise ArgumentError(
                    parameter.name, f"readings that all have the unit {found}", repr(text)
                )
            found = found or unit
    return found


def _shape(ranges: Sequence[Rows], names: Sequence[str]) -> tuple[int, int]:
    """The common shape of ranges that are worked through side by side."""
    rows = max(len(r) for r in ranges)
    columns = max(len(r[0]) for r in ranges)
    for name, block in zip(names, ranges, strict=True):
        if len(block) not in (1, rows) or len(block[0]) not in (1, columns):
            raise ArgumentError(
                name,
                f"a range of {_size(rows, columns)}, as beside it",
                _size(len(block), len(block[0])),
            )
    return rows, columns


def _at(block: Rows, row: int, column: int) -> object:
    line = block[row if len(block) > 1 else 0]
    return line[column if len(line) > 1 else 0]


def calculate(function: Function, arguments: Sequence[object]) -> Result:
    """Call a catalog function with the contents of cells.

    function: the catalog entry; arguments: one for each argument as it stands in the
    formula, `units` last where given. An argument is a float, a text, a bool, None for an
    empty cell, OMITTED, a CellError, or a range as a tuple of row tuples of these.

    Returns the result in the unit that a bare number of its kind has. Raises ArgumentError
    that names the parameter, what it expects and what came.
    """
    if len(arguments) < function.required or len(arguments) > function.most:
        count = str(function.required)
        if function.most > function.required:
            count += f" to {function.most}"
        raise ArgumentError(
            function.full_name, f"{count} arguments: {function.signature}", str(len(arguments))
        )
    system = _system(function, arguments)
    given = list(arguments[: len(function.parameters)])
    given += [OMITTED] * (len(function.parameters) - len(given))
    unboxed: list[Any] = given
    spread: list[int] = []
    if any(isinstance(v, tuple) for v in given):
        unboxed = [
            v[0][0] if isinstance(v, tuple) and len(v) == 1 == len(v[0]) and not p.block else v
            for p, v in zip(function.parameters, given, strict=True)
        ]
        spread = [
            i
            for i, (p, v) in enumerate(zip(function.parameters, unboxed, strict=True))
            if isinstance(v, tuple) and not p.block
        ]
    unit = _reading_unit(function, given, system)
    if function.result is not READING:
        unit = function.result.unit(system)
    if not spread:
        value = _finish(function, _call(function, unboxed, system), system)
        return Result(value, function.result, unit, system)
    names = [function.parameters[i].name for i in spread]
    if function.result_block:
        raise ArgumentError(names[0], "a single cell", _seen(unboxed[spread[0]]))
    rows, columns = _shape([unboxed[i] for i in spread], names)

    def element(row: int, column: int) -> object:
        cells = list(unboxed)
        for i in spread:
            cells[i] = _at(unboxed[i], row, column)
        try:
            return _finish(function, _call(function, cells, system), system)
        except ArgumentError as error:
            return error

    values = tuple(tuple(element(r, c) for c in range(columns)) for r in range(rows))
    return Result(values, function.result, unit, system)


def _call(function: Function, cells: Sequence[object], system: System) -> object:
    """One evaluation with single values and blocks, SI out."""
    ready: list[object] = []
    for parameter, cell in zip(function.parameters, cells, strict=True):
        # Told first: in the wrong units any other argument can look impossible.
        if isinstance(cell, str) and _names_system(cell) and parameter.kind is not TEXT:
            _single(parameter, cell, system)
    for parameter, cell in zip(function.parameters, cells, strict=True):
        if cell is OMITTED:
            if not parameter.optional:
                raise ArgumentError(
                    parameter.name, _kind_words(parameter, system), "nothing", missing=True
                )
            ready.append(parameter.default)
        elif parameter.block:
            ready.append(_block(parameter, cell, system))
        else:
            ready.append(_single(parameter, cell, system))
    try:
        value = function.python(*ready)
    except RequirementError as error:
        blamed = [p.name for p in function.parameters]
        if error.parameter not in blamed:
            raise
        got = error.got or _seen(cells[blamed.index(error.parameter)])
        raise ArgumentError(error.parameter, error.expected, got, missing=error.missing) from None
    except (ArithmeticError, ValueError) as error:
        if isinstance(error, ArgumentError):
            raise
        raise ArgumentError(function.full_name, "values that have a result", str(error)) from None
    return value


def _finish(function: Function, value: object, system: System) -> Any:
    """An SI result, single or rows, as bare numbers of the book's units."""
    kind = function.result

    def out(si: Any) -> Any:
        if isinstance(si, str):
            return si
        if isinstance(si, complex):
            raise ArgumentError(function.full_name, "values that have a result", str(si))
        number = quantities.from_si(float(si), kind, system)
        if not math.isfinite(number):
            raise ArgumentError(function.full_name, "a finite result", str(number))
        if abs(si) > function.most_result:
            most = quantities.from_si(function.most_result, kind, system)
            unit = f" {kind.unit(system)}".rstrip()
            raise ArgumentError(
                function.full_name,
                f"arguments that give {float(f'{most:.2g}'):.15g}{unit} at most; check the unit "
                "and the decimal point of each",
                f"{number:.6g}{unit}",
            )
        return number

    if isinstance(value, tuple):
        return tuple(tuple(out(cell) for cell in row) for row in value)
    return out(value)

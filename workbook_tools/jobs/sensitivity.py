"""How a result moves with the numbers that it comes from, through other results too.

The network of calls is worked out again with one number a little larger and a little smaller:
the sensitivity coefficients of the GUM (JCGM 100), by numerical derivatives.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from itertools import islice

from workbook_tools.books.places import spread
from workbook_tools.catalog import OMITTED, ArgumentError, Function, Parameter, calculate
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.readings import number_of
from workbook_tools.jobs.records import Argument, Record, in_si
from workbook_tools.quantities import COUNT, RATIO, READING, TEXT, Kind, System, from_si

# Calls that are the whole of a cell, by the cell.
Makers = Mapping[Place, Record]
# What is worked out from numbers by their names, None where they give nothing.
Work = Callable[[Mapping[str, float]], float | None]
# A derivative's step, as a share of the number; of a zero, and of what is next to it, the least.
_STEP, _LEAST = 1e-4, 1e-9


@dataclass(frozen=True)
class Input:
    """A number that a call takes as it stands: typed, written in the formula, or a mean.

    key: the same wherever the same cell or text is taken; number: bare; si: in SI, of a reading of
    any kind as it stands in its cell.
    """

    key: str
    record: Record
    argument: Argument
    parameter: Parameter
    number: float
    si: float


def inputs(record: Record, makers: Makers) -> dict[str, Input]:
    """The numbers at the ends of the network behind a result, each once."""
    return {one.key: one for one in _inputs(record, makers, ())}


def _inputs(record: Record, makers: Makers, behind: tuple[Record, ...]) -> Iterator[Input]:
    parameters = {p.name: p for p in record.function.parameters} if record.function else {}
    for argument in record.arguments:
        parameter = parameters.get(argument.name)
        if parameter is None or parameter.kind is TEXT:
            continue
        inner = _maker(argument, makers, (*behind, record))
        if inner is not None:
            yield from _inputs(inner, makers, (*behind, record))
            continue
        if isinstance(argument.value, tuple) and argument.place is not None:
            yield from _of_block(record, argument, parameter)
            continue
        number = number_of(argument.value, parameter.kind, record.system)
        si = _in_si(number, parameter.kind, record.system)
        if number is not None and si is not None:
            yield Input(_key(argument), record, argument, parameter, number, si)


def _of_block(record: Record, argument: Argument, parameter: Parameter) -> Iterator[Input]:
    for place, value in spread(argument.place, argument.value) if argument.place else ():
        number = number_of(value, parameter.kind, record.system)
        si = _in_si(number, parameter.kind, record.system)
        if number is not None and si is not None:
            one = argument._replace(place=place, value=value, text=str(place))
            yield Input(str(place), record, one, parameter, number, si)


def _in_si(number: float | None, kind: Kind, system: System) -> float | None:
    return number if kind is READING else in_si(number, kind, system)


def _maker(argument: Argument, makers: Makers, behind: tuple[Record, ...]) -> Record | None:
    """The call that gives an argument; none of those that it is given to."""
    found = argument.by or (makers.get(argument.place) if argument.place else None)
    return None if found is None or any(found is one for one in behind) else found


def _key(argument: Argument) -> str:
    return str(argument.place) if argument.place else argument.text


def is_exact(one: Input) -> bool:
    """Whether an input is told and not measured: a count, a rod ratio."""
    return one.parameter.kind in (COUNT, RATIO)


def again(record: Record, makers: Makers, changed: Mapping[str, float]) -> float | None:
    """A result in SI with other numbers at the ends of its network, None where it has none.

    changed: {key of an input: its other number in SI}.
    """
    return _again(record, makers, changed, ())


def _again(
    record: Record, makers: Makers, changed: Mapping[str, float], behind: tuple[Record, ...]
) -> float | None:
    function = record.function
    if function is None:
        return None
    given = {a.name: a for a in record.arguments}
    values: list[object] = []
    for parameter in function.parameters:
        argument = given.get(parameter.name)
        inner = _maker(argument, makers, (*behind, record)) if argument is not None else None
        if argument is None:
            values.append(OMITTED)
        elif inner is None or parameter.kind is TEXT:
            values.append(_value_again(record, argument, parameter, changed))
        else:
            si = _again(inner, makers, changed, (*behind, record))
            if si is None:
                return None
            # As the inner call's cell has it, which may be a mean of readings of any kind.
            kind = inner.function.result if inner.function else parameter.kind
            values.append(from_si(si, kind, inner.system))
    return _result(record, function, values)


def _result(record: Record, function: Function, values: list[object]) -> float | None:
    system = record.system
    try:
        result = calculate(function, [*values, system] if function.takes_units else values)
    except ArgumentError:
        return None
    number = result.value
    if not isinstance(number, (int, float)) or isinstance(number, bool):
        return None
    return _in_si(float(number), result.kind, system)


def _value_again(
    record: Record, argument: Argument, parameter: Parameter, changed: Mapping[str, float]
) -> object:
    """What an argument stands for, with the numbers of those of its cells that are changed."""

    def bare(key: str, value: object) -> object:
        si = changed.get(key)
        return value if si is None else from_si(si, parameter.kind, record.system)

    if argument.place is None or not isinstance(argument.value, tuple):
        return bare(_key(argument), argument.value)
    cells = iter(spread(argument.place, argument.value))
    return tuple(tuple(bare(str(p), v) for p, v in islice(cells, len(r))) for r in argument.value)


def sensitivities(record: Record, makers: Makers) -> dict[str, float]:
    """How far a result moves, in SI, for one SI unit of each of its inputs that is measured.

    An input that the result cannot be worked out beside of is left out.
    """
    values = {k: one.si for k, one in inputs(record, makers).items() if not is_exact(one)}
    return slopes(lambda changed: again(record, makers, changed), values)


def slopes(work: Work, values: Mapping[str, float]) -> dict[str, float]:
    """The derivative by each number at these values, from a little above and a little below."""
    found = {}
    for key, value in values.items():
        step = max(abs(value) * _STEP, _LEAST)
        above, below = (work({**values, key: value + s}) for s in (step, -step))
        if above is not None and below is not None:
            found[key] = (above - below) / (2 * step)
    return found

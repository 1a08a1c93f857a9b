"""How a result moves with the numbers that it comes from, through other results too.

The network of calls is worked out again with one number a little larger and a little smaller:
the sensitivity coefficients of the GUM (JCGM 100), by numerical derivatives.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from workbook_tools.catalog import OMITTED, ArgumentError, Parameter, calculate
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.readings import number_of
from workbook_tools.jobs.records import Argument, Record, in_si
from workbook_tools.quantities import TEXT, System, from_si

# Calls that are the whole of a cell, by the cell.
Makers = Mapping[Place, Record]
# A derivative's step, as a share of the number.
_STEP = 1e-4


@dataclass(frozen=True)
class Input:
    """A number that a call takes as it stands: typed, written in the formula, or a mean.

    key: the same wherever the same cell or text is taken; number: bare; si: in SI.
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
        number = number_of(argument.value, parameter.kind, _system(record))
        si = in_si(number, parameter.kind, _system(record))
        if number is not None and si is not None:
            yield Input(_key(argument), record, argument, parameter, number, si)


def _maker(argument: Argument, makers: Makers, behind: tuple[Record, ...]) -> Record | None:
    """The call that gives an argument; none of those that it is given to."""
    found = argument.by or (makers.get(argument.place) if argument.place else None)
    return None if found is None or any(found is one for one in behind) else found


def _key(argument: Argument) -> str:
    return str(argument.place) if argument.place else argument.text


def _system(record: Record) -> System:
    return "metric" if record.system == "metric" else "inch"


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
        if argument is None:
            values.append(OMITTED)
            continue
        inner = _maker(argument, makers, (*behind, record)) if parameter.kind is not TEXT else None
        si = changed.get(_key(argument))
        if inner is not None:
            si = _again(inner, makers, changed, (*behind, record))
            if si is None:
                return None
        value = argument.value
        values.append(value if si is None else from_si(si, parameter.kind, _system(record)))
    if function.takes_units:
        values.append(_system(record))
    try:
        result = calculate(function, values)
    except ArgumentError:
        return None
    number = result.value
    if not isinstance(number, (int, float)) or isinstance(number, bool):
        return None
    return in_si(float(number), result.kind, _system(record))


def sensitivities(record: Record, makers: Makers) -> dict[str, float]:
    """How far a result moves, in SI, for one SI unit of each of its inputs.

    An input that the result cannot be worked out beside of is left out.
    """
    found = {}
    for key, one in inputs(record, makers).items():
        step = max(abs(one.si) * _STEP, 1e-9)
        above, below = (again(record, makers, {key: one.si + s}) for s in (step, -step))
        if above is not None and below is not None:
            found[key] = (above - below) / (2 * step)
    return found

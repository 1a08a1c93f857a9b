"""The unit system that calls name: read it, or write another into a formula."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.catalog import find
from workbook_tools.formulas.calls import Call, Part, calls_in, parse
from workbook_tools.quantities import System


def units_named(formula: str) -> tuple[str, ...]:
    """What the calls of a formula say of their units, "" for one that says nothing.

    formula: without "=". A call of a function that takes no units is left out. Raises
    ValueError for a text that is no formula.
    """
    found = []
    for call in calls_in(parse(formula)):
        function = find(call.name)
        if function is not None and function.takes_units:
            place = len(function.parameters)
            own = call.arguments[place] if len(call.arguments) > place else ()
            found.append(_text(own).strip().strip('"').lower())
    return tuple(found)


def with_units(formula: str, system: System) -> str:
    """A formula with this unit system in each call that takes one, all else as it is.

    Inches are what a call means that says nothing: the word is taken out where it stands last.
    Raises ValueError for a text that is no formula.
    """
    return _written(parse(formula), system)


def _text(parts: Sequence[Part]) -> str:
    return "".join(part.text for part in parts)


def _written(parts: Sequence[Part], system: System) -> str:
    return "".join(_call(p.call, system) if p.call else p.text for p in parts)


def _call(call: Call, system: System) -> str:
    arguments = [_written(parts, system) for parts in call.arguments]
    function = find(call.name)
    if function is not None and function.takes_units:
        arguments = arguments[: len(function.parameters)]
        if system == "metric":
            arguments += [""] * (len(function.parameters) - len(arguments))
            arguments.append('"metric"')
        while len(arguments) > 1 and not arguments[-1]:
            arguments.pop()
    return f"{call.spelled}({','.join(arguments)})"

"""A function's example call as a builder would type it, in both systems, with what it gives.

Nothing is kept here but how it is written: the arguments are those of the example calls, and
each result is worked out when it is asked for.
"""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools import quantities
from workbook_tools.catalog.calculate import Result, calculate
from workbook_tools.catalog.example_calls import EXAMPLES
from workbook_tools.catalog.registry import Function
from workbook_tools.quantities import SYSTEMS, Kind, System


def example_arguments(function: Function, system: System = "inch") -> tuple[object, ...]:
    """The arguments of a function's example call, `units` last where it takes them.

    system: the book's. A metric book's describe the same engine. Raises KeyError for a function
    without an example.
    """
    arguments = EXAMPLES[function.name]
    if system == "metric":
        arguments = tuple(
            _in_metric(value, parameter.kind)
            for value, parameter in zip(arguments, function.parameters, strict=True)
        )
    return (*arguments, system) if function.takes_units else arguments


def worked_examples(function: Function) -> tuple[tuple[str, str], ...]:
    """(formula, what it gives) of the example call, in inch and, where it differs, in metric.

    Empty for a function that looks at a cell, which has no result by itself.
    """
    if function.sees_cell:
        return ()
    told = []
    for system in SYSTEMS if function.takes_units else SYSTEMS[:1]:
        arguments = example_arguments(function, system)
        given = calculate(function, arguments)
        # A bare number is inches where nothing else is said.
        typed = arguments[:-1] if function.takes_units and system == "inch" else arguments
        formula = f"={function.full_name}({','.join(map(_typed, typed))})"
        told.append((formula, _given(given)))
    return tuple(told)


def _in_metric(value: object, kind: Kind) -> object:
    if isinstance(value, tuple):
        return tuple(_in_metric(part, kind) for part in value)
    if not isinstance(value, (int, float)):
        return value
    # As many digits as a person would type and a file keeps, so that 2.4495 in is 62.2173 mm.
    return float(
        f"{quantities.from_si(quantities.to_si(value, kind, 'inch'), kind, 'metric'):.12g}"
    )


def _typed(value: object) -> str:
    """An argument as it stands in a formula; a range as an array of its rows."""
    if isinstance(value, tuple):
        rows = (row if isinstance(row, tuple) else (row,) for row in value)
        return "{" + ";".join(",".join(map(_typed, row)) for row in rows) + "}"
    if isinstance(value, str):
        return '"' + value.replace('"', '""') + '"'
    return "" if value is None else f"{value:.12g}"


def _given(result: Result) -> str:
    """The cells of a result, rows parted by semicolons; the unit behind a row's numbers."""
    rows = result.value if isinstance(result.value, tuple) else ((result.value,),)
    return "; ".join(_row(row, result.unit) for row in rows)


def _row(cells: Sequence[object], unit: str) -> str:
    shown = [f"{cell:.6g}" if isinstance(cell, float) else str(cell) for cell in cells]
    numbers = [n for n, cell in enumerate(cells) if isinstance(cell, float)]
    if unit and numbers:
        shown[numbers[-1]] += f" {unit}"
    return ", ".join(shown)

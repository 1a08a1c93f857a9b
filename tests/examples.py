"""One call of every worksheet function with plausible arguments, for the tests of all hosts.

The arguments are those of an inch book, every optional one but `units` included; blocks are
rows. The same call in a metric book is derived from the kinds of the parameters, so that
both describe the same engine. Values are of no engine in particular.
"""

from __future__ import annotations

from workbook_tools.catalog import Function, find
from workbook_tools.catalog.example_calls import EXAMPLES
from workbook_tools.catalog.worked_examples import example_arguments


def example(name: str, system: str = "inch") -> tuple[object, ...]:
    """The arguments of a function's example call, `units` last where it takes them.

    name: without prefix; system: the book's, "inch" or "metric".
    """
    function = find(name)
    assert function is not None, f"catalog/example_calls.py: the catalog has no {name}"
    assert name in EXAMPLES, (
        f"catalog/example_calls.py has no example of {name}: add a line to EXAMPLES with plausible "
        f"arguments in inch units for {function.signature}"
    )
    return example_arguments(function, system)


def shortest(name: str) -> tuple[object, ...]:
    """The example call with every optional argument left out."""
    function = find(name)
    return example(name)[: function.required]


def takes_options(function: Function) -> bool:
    """Whether a function has optional parameters besides `units`."""
    return function.required < len(function.parameters)

"""No function stumbles over a number that no cell can hold: it is refused in words."""

import itertools
import math

from each_case import each
from examples import EXAMPLES, example

from workbook_tools.catalog import ArgumentError, calculate, find

TOO_LARGE = (10**400, -(10**400), 10**5000, 1e308, "1e400")


def _with(arguments, at, value):
    old = arguments[at]
    new = ((value,),) if isinstance(old, tuple) else value
    return (*arguments[:at], new, *arguments[at + 1 :])


# WHY refuses nothing: it says in words what its cell holds.
@each("name", sorted(EXAMPLES.keys() - {"WHY"}))
def test_no_number_is_too_large_for_a_clear_refusal(name):
    function = find(name)
    arguments = example(name)
    for value, (at, parameter) in itertools.product(TOO_LARGE, enumerate(function.parameters)):
        try:
            result = calculate(function, _with(arguments, at, value)).value
        except ArgumentError:
            continue
        # 1e308 is a number; what is computed from it is finite or refused.
        assert value == 1e308, parameter.name
        assert isinstance(result, (str, tuple)) or math.isfinite(result), parameter.name

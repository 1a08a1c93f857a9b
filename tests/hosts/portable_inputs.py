"""Arguments of worksheet functions for the proof of their add-in-free form.

Random ones stray from the examples, a little or far, so that rules between parameters are
kept often and broken sometimes; faulty ones put one wrong thing in one place.
"""

from __future__ import annotations

import math

import numpy as np
from examples import example

from workbook_tools import quantities
from workbook_tools.catalog import OMITTED, ArgumentError, CellError, calculate
from workbook_tools.quantities import COUNT, TEXT

SKIPPED = ...  # an argument that is left out, as the engine's side writes it


def python_result(function, arguments):
    """What `calculate` gives, the ArgumentError where it refuses."""
    inside = [_as_cells(a) for a in arguments]
    try:
        return calculate(function, inside).value
    except ArgumentError as error:
        return error


def _as_cells(value):
    if value is SKIPPED:
        return OMITTED
    if isinstance(value, tuple):
        return tuple(tuple(_as_cells(cell) for cell in row) for row in value)
    if isinstance(value, str):
        return {"=1/0": CellError("#DIV/0!"), '=""': ""}.get(value, value)
    return value


def _word(random, parameter, value):
    word = str(random.choice(parameter.choices)) if parameter.choices else value
    return f" {word.upper()}" if random.random() < 0.1 else word


def _number(random, parameter, value, common):
    if parameter.kind is COUNT:
        return int(value if random.random() < 0.6 else random.integers(1, 13))
    width = (0.0005, 0.02, 0.3)[random.integers(3)]
    value = value * common * math.exp(random.uniform(-width, width))
    if parameter.limits.allow_zero and random.random() < 0.1:
        value = 0.0 if random.random() < 0.2 else value if parameter.limits.low >= 0 else -value
    return float(value)


def _block(random, parameter, rows, common):
    rows = [[_number(random, parameter, cell, common) for cell in row] for row in rows]
    if random.random() < 0.3:
        rows = [list(column) for column in zip(*rows, strict=True)]
    if random.random() < 0.1:
        rows[random.integers(len(rows))][random.integers(len(rows[0]))] = None
    return tuple(tuple(row) for row in rows)


def _varied(random, function, arguments, system):
    together = random.random() < 0.5
    kinds = {p.kind.name for p in function.parameters}
    common = {k: math.exp(random.uniform(-0.5, 0.5)) if together else 1.0 for k in sorted(kinds)}
    varied = []
    for parameter, value in zip(function.parameters, arguments, strict=False):
        if parameter.optional and random.random() < 0.25:
            varied.append(SKIPPED)
        elif parameter.block:
            varied.append(_block(random, parameter, value, common[parameter.kind.name]))
        elif parameter.kind is TEXT:
            varied.append(_word(random, parameter, value))
        else:
            varied.append(_number(random, parameter, value, common[parameter.kind.name]))
    # The last arguments left out are left out in the formula too, one time in two.
    if system == "metric" or (function.takes_units and random.random() < 0.5):
        varied.append(system)
    while varied and varied[-1] is SKIPPED:
        varied.pop()
    return varied


def random_calls(function, system, valid, seed, most=40_000):
    """[(arguments, Python's result)]: so many valid calls, and the refused ones met before.

    Refused ones are kept up to a fifth of the valid ones.
    """
    random = np.random.default_rng(seed)
    usual = example(function.name, system)
    accepted, refused = [], []
    for _ in range(most):
        arguments = _varied(random, function, usual, system)
        result = python_result(function, arguments)
        if not isinstance(result, ArgumentError):
            accepted.append((arguments, result))
            if len(accepted) == valid:
                break
        elif len(refused) < valid // 5:
            refused.append((arguments, result))
    return accepted, refused


def _beyond(parameter, system):
    """Bare numbers just outside the limits of a parameter."""
    limits, sizes, kind = parameter.limits, parameter.sizes, parameter.kind
    for limit, is_open, away in (
        (limits.low, limits.low_open, -1.0),
        (limits.high, limits.high_open, 1.0),
        (sizes.low, False, -1.0),
        (sizes.high, False, 1.0),
    ):
        if math.isfinite(limit):
            if is_open:
                yield quantities.from_si(limit, kind, system)
            yield quantities.from_si(limit + away * (abs(limit) * 1e-6 + 1e-6), kind, system)


def faulty_calls(function, system="inch"):
    """Calls with one wrong thing each; what a call of the example becomes by it."""
    good = list(example(function.name, system))
    for i, parameter in enumerate(function.parameters):
        wrong = [None, "", "by eye", True, False, "=1/0", '=""']
        if parameter.kind is TEXT:
            wrong += [7.0, "   "]
        else:
            wrong += [*_beyond(parameter, system)] + ([1.5] if parameter.kind is COUNT else [])
        for value in wrong:
            if parameter.block:
                first, *others = good[i]
                yield [*good[:i], ((value, *first[1:]), *others), *good[i + 1 :]]
            else:
                yield [*good[:i], value, *good[i + 1 :]]
        if not parameter.optional:
            yield [*good[:i], SKIPPED, *good[i + 1 :]]
    if function.takes_units:
        yield from ([*good[:-1], word] for word in ("mm", "", None, 1.0, True, "=1/0", "in ch"))
    yield [*good, 1.0]
    yield good[: function.required - 1]

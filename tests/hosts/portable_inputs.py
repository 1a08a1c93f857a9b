"""Random arguments of worksheet functions, near the examples and far enough from them."""

from __future__ import annotations

import math

from workbook_tools.units import COUNT, TEXT

OMITTED = ...


def _text(random, parameter, value):
    word = str(random.choice(parameter.choices)) if parameter.choices else value
    return f" {word.upper()}" if random.random() < 0.1 else word


def _number(random, parameter, value, common):
    if parameter.kind is COUNT:
        return int(value if random.random() < 0.5 else random.integers(1, 13))
    width = random.choice([0.0005, 0.02, 0.3])
    value = value * common * math.exp(random.uniform(-width, width))
    if parameter.limits.allow_zero and parameter.limits.low < 0 and random.random() < 0.2:
        value = -value
    return 0.0 if parameter.limits.allow_zero and random.random() < 0.03 else float(value)


def _varied(random, function, arguments):
    """The example's arguments, changed together by kind and each for itself."""
    kinds = {p.kind.name for p in function.parameters}
    wide = random.random() < 0.5
    common = {k: math.exp(random.uniform(-0.5, 0.5)) if wide else 1.0 for k in kinds}
    varied = []
    for parameter, value in zip(function.parameters, arguments, strict=False):
        factor = common[parameter.kind.name]
        if parameter.optional and random.random() < 0.25:
            varied.append(OMITTED)
        elif parameter.block:
            rows = [[_number(random, parameter, cell, factor) for cell in row] for row in value]
            if random.random() < 0.3:
                rows = [list(column) for column in zip(*rows, strict=True)]
            varied.append(tuple(tuple(row) for row in rows))
        elif parameter.kind is TEXT:
            varied.append(_text(random, parameter, value))
        else:
            varied.append(_number(random, parameter, value, factor))
    while varied and varied[-1] is OMITTED and len(arguments) == len(function.parameters):
        varied.pop()
    return varied

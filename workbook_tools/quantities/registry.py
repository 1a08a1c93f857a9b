"""The units of pint, with the few that only this trade has, in exact fractions."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Any

import pint

# A tenth of the inch shop; the camshaft's degrees, which have a dimension of their own.
_OWN = (
    "inch_tenth = thou / 10",
    "millimeter_hundredth = millimeter / 100",
    "cam_radian = [cam_angle]",
    "cam_degree = cam_radian * degree / radian",
)


@cache
def registry() -> Any:
    """The registry, whose numbers are fractions: a factor is the float nearest to the true one."""
    made: Any = pint.UnitRegistry(non_int_type=Fraction, cache_folder=None)
    for definition in _OWN:
        made.define(definition)
    return made


def factor(unit: str, si: str) -> float:
    """The factor from one pint expression to another. Raises pint.PintError without one."""
    return float(registry().Quantity(Fraction(1), unit).to(si).magnitude)


def same_dimension(unit: str, si: str) -> bool:
    """Whether two pint expressions are units of the same dimension."""
    dimension = registry().get_dimensionality
    return bool(dimension(unit) == dimension(si))

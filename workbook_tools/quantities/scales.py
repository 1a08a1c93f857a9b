"""The factors between a bare number of each kind and SI.

The factors are pint's, made once by `python -m workbook_tools.quantities.make_factors`: pint
takes longer to load than many a book to read, and no book needs it.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from importlib import resources

from workbook_tools.quantities.kinds import TEMPERATURE, TEMPERATURE_RISE, Kind, System
from workbook_tools.quantities.spellings import SPELLINGS

FACTORS_FILE = "factors.json"

ABSOLUTE = {"degF": (459.67, 5 / 9), "degC": (273.15, 1.0), "K": (0.0, 1.0)}


@cache
def factors() -> Mapping[str, Mapping[str, float]]:
    """{unit: {SI unit of a kind of the same dimension: factor}}, all as pint expressions."""
    text = resources.files(__package__).joinpath(FACTORS_FILE).read_text(encoding="utf-8")
    read: dict[str, dict[str, float]] = json.loads(text)
    return read


def is_of(unit: str, kind: Kind) -> bool:
    """Whether a unit, as a pint expression, measures this kind of quantity."""
    if kind in (TEMPERATURE, TEMPERATURE_RISE):
        return unit in ABSOLUTE
    return kind.si in factors().get(unit, {})


def unit_scale(unit: str, kind: Kind) -> tuple[float, float]:
    """(zero shift, factor) with SI = (value + shift) * factor.

    unit: a pint expression. Raises KeyError where the kind has no such unit.
    """
    if kind is TEMPERATURE:
        return ABSOLUTE[unit]
    if kind is TEMPERATURE_RISE:
        return 0.0, ABSOLUTE[unit][1]
    return 0.0, factors()[unit][kind.si]


def scale(kind: Kind, system: System) -> tuple[float, float]:
    """How a bare number of a kind becomes SI.

    Returns (shift, factor), with SI value = (number + shift) * factor; the shift is zero
    except for temperatures on a scale with an offset. Raises nothing.
    """
    return _bare_scale(kind, system) if kind.si else (0.0, 1.0)


# By the kind's name, which no other has: each number that is read or shown asks for it.
_bare_scales: dict[tuple[str, System], tuple[float, float]] = {}


def _bare_scale(kind: Kind, system: System) -> tuple[float, float]:
    key = kind.name, system
    found = _bare_scales.get(key)
    if found is None:
        found = unit_scale(SPELLINGS[kind.unit(system).lower()], kind)
        _bare_scales[key] = found
    return found


def to_si(number: float, kind: Kind, system: System) -> float:
    """A bare number of a kind, in SI."""
    if not kind.si:
        return number
    shift, factor = _bare_scale(kind, system)
    return (number + shift) * factor


def from_si(value: float, kind: Kind, system: System) -> float:
    """An SI value as the bare number that a book of this system shows."""
    if not kind.si:
        return value
    shift, factor = _bare_scale(kind, system)
    return value / factor - shift

"""What was likely meant by a number that no engine can have: another unit, a slipped point."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from workbook_tools import quantities
from workbook_tools.catalog.registry import Parameter
from workbook_tools.measurands import find, of_property
from workbook_tools.quantities import Kind, System, UnreadableText

# Units that numbers of a kind are told in, the likelier slips first.
_TOLD_IN: dict[Kind, tuple[str, ...]] = {
    quantities.LENGTH: ("thou", "mm", "in"),
    quantities.VOLUME: ("cc", "cu in"),
    quantities.DISPLACEMENT: ("L", "cu in", "cc"),
    quantities.MASS: ("lb", "kg", "g"),
    quantities.FORCE: ("lbf", "N", "kN"),
    quantities.SPRING_RATE: ("lbf/in", "N/mm"),
    quantities.TORQUE: ("lbf.in", "N.m", "lbf.ft"),
    quantities.PRESSURE: ("psi", "bar", "kPa"),
    quantities.STRESS: ("psi", "MPa", "GPa"),
    quantities.POWER: ("hp", "kW"),
    quantities.ROTATION: ("rad/s",),
}
_SHIFTS = (0.001, 1000.0, 0.1, 10.0)
_MOST_TOLD = 2


def likely_cure(parameter: Parameter, value: object, si: float, system: System) -> str:
    """What a refused number may have been meant for, in words; "" where nothing fits.

    parameter: what it was typed for; value: as it stands in the cell; si: what it was read as.
    """
    if isinstance(value, str) and value.strip().startswith("+") and 0 < si < parameter.sizes.low:
        return "an oversize? type the whole size"
    meant = {f"{meant:.4g}": text for text, meant in _meant(parameter, value, si, system)}
    told = list(meant.values())[:_MOST_TOLD]
    return f"perhaps {' or '.join(told)} was meant" if told else ""


def _meant(
    parameter: Parameter, value: object, si: float, system: System
) -> Iterator[tuple[str, float]]:
    """What may have been meant, as text and in SI; the same size once as it is likelier told."""
    low, high = _usual(parameter.measurand)
    kind, number = parameter.kind, _number(value)
    unit = kind.unit(system)
    if not isinstance(value, str):
        for shift in _SHIFTS:
            if low <= si * shift <= high and kind is not quantities.TEMPERATURE:
                bare = quantities.from_si(si * shift, kind, system)
                yield f"{bare:.6g} {unit}".rstrip(), si * shift
    for other in _TOLD_IN.get(kind, ()) if number else ():
        text = f"{number} {other}"
        meant = quantities.read_text(text, kind, "inch")
        if low <= meant <= high:
            yield text, meant


def _number(value: object) -> str:
    """The number that stands in a cell, without a unit, as text; "" where it has none alone."""
    if isinstance(value, (int, float)):
        return f"{value:.12g}"
    try:
        return quantities.split_quantity(str(value))[0]
    except UnreadableText:
        return ""


@lru_cache(maxsize=1024)
def _usual(name: str) -> tuple[float, float]:
    members = of_property(name) or tuple(one for one in (find(name),) if one)
    return min(one.usual[0] for one in members), max(one.usual[1] for one in members)

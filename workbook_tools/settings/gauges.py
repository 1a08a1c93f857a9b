"""A shop's gauges: what each measures, and the expanded uncertainty of a reading by it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from workbook_tools.measurands.table import all_measurands
from workbook_tools.quantities import UnreadableText, read_text
from workbook_tools.quantities.nearest import nearest
from workbook_tools.quantities.text import split_quantity, unit_named

_KEYS = ("measures", "uncertainty")
# Names that a message lists at most.
_MOST_TOLD = 8


@dataclass(frozen=True)
class Gauge:
    """What a gauge measures, and how well.

    name: the shop's own; measures: measurands or properties, as data names them; expanded: the
    uncertainty of one reading in SI, with a coverage factor of 2.
    """

    name: str
    measures: tuple[str, ...]
    expanded: float


def gauge_of(name: str, told: object) -> Gauge:
    """A gauge as a file tells it: measures = [...], uncertainty = "0.0001 in".

    Raises ValueError with what is wrong.
    """
    if not isinstance(told, dict) or sorted(told) != sorted(_KEYS):
        raise ValueError(
            f'expected measures and uncertainty, as {{ measures = ["bore"], uncertainty = '
            f'"0.0002 in" }}, got {_given(told)}'
        )
    measures = _measures(told)
    return Gauge(name, measures, _expanded(told, measures))


def _measures(told: Mapping[str, Any]) -> tuple[str, ...]:
    listed = told["measures"]
    if not isinstance(listed, list) or not listed or not all(isinstance(x, str) for x in listed):
        raise ValueError(f"measures: expected a list of what it measures, got {listed!r}")
    names = tuple("_".join(one.lower().split()) for one in listed)
    known = {name for m in all_measurands() for name in (m.id, m.property)}
    for name in names:
        if name not in known:
            words = name.replace("_", " ")
            raise ValueError(f"measures: {words}: no such size; {_meant(words)}")
    return names


def _meant(words: str) -> str:
    """What sizes may be meant by words that name none: those spelled alike, else that share one."""
    names = {m.id.replace("_", " ") for m in all_measurands()}
    near = nearest(words, names, 0.75)
    if near:
        return f"the nearest is {near}"
    said = words.split()
    shared = sorted(n for n in names if any(word in n.split() for word in said if len(word) > 3))
    listed = f"there are {', '.join(shared[:_MOST_TOLD])}; " if shared else ""
    return f"{listed}workbook-tools survey --names lists all"


def _given(told: object) -> str:
    return ", ".join(map(str, told)) if isinstance(told, dict) else repr(told)


def _expanded(told: Mapping[str, Any], measures: Sequence[str]) -> float:
    text = told["uncertainty"]
    expected = 'uncertainty: expected a number above 0 with its unit, as "0.0001 in"'
    try:
        number, unit = split_quantity(text if isinstance(text, str) else "")
        kind, _ = unit_named(unit or "")
        si = read_text(text, kind, "inch")
    except UnreadableText as error:
        raise ValueError(f"{expected}, got {text!r}: {error}") from error
    if not number or si <= 0:
        raise ValueError(f"{expected}, got {text!r}")
    for one in all_measurands():
        if (one.id in measures or one.property in measures) and one.kind.si != kind.si:
            raise ValueError(f"uncertainty: a {one.name.lower()} is no {kind.name}, got {text!r}")
    return si

"""The best power and torque of a build's pulls, corrected where the book says for what air."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from workbook_tools.quantities import POWER, ROTATION, TORQUE, Kind, System, from_si, to_si
from workbook_tools.summary.month_fits import named_rows, system_of
from workbook_tools.summary.rows import Row
from workbook_tools.summary.summary import Summary

_CORRECTED = re.compile(r"corr|korr|corrig|correg", re.IGNORECASE)
_LINES: Mapping[str, tuple[str, Kind]] = {
    "power": ("Power", POWER),
    "engine_torque": ("Torque", TORQUE),
}
_SPEED = "engine_speed"
_ADDRESS = re.compile(r"\$?([A-Z]+)\$?(\d+)")


class Peak(NamedTuple):
    """The largest power or torque of all pulls.

    speed: in rpm, None where the book does not tell it; corrected: to what air, "as the book
    has it" where the book corrects it itself, "" as measured.
    """

    what: str
    value: float
    unit: str
    speed: float | None
    corrected: str


class _Pull(NamedTuple):
    """One number of a pull: what it measures, its line's label, in SI, and its cell."""

    measurand: str
    label: str
    si: float
    sheet: str
    column: str
    row: str


def power_peaks(summary: Summary, units: System) -> tuple[Peak, ...]:
    """The peaks of power and of torque, as far as a build has any.

    units: that the peaks are told in. Figures that the book corrected itself come first; else
    those measured are multiplied by the book's own correction for the weather; where it has
    none they stay as measured. Raises nothing.
    """
    rows = named_rows(summary)
    pulls = list(dict.fromkeys((*_computed(summary), *_pulls(rows))))
    factor, air = _weather(summary, rows)
    found = (_peak(measurand, pulls, factor, air, units) for measurand in _LINES)
    return tuple(peak for peak in found if peak is not None)


def _pulls(rows: Sequence[tuple[str, Row]]) -> Iterator[_Pull]:
    kinds = {_SPEED: ROTATION, **{name: kind for name, (_, kind) in _LINES.items()}}
    for measurand, row in rows:
        kind = kinds.get(measurand)
        system = system_of(kind, row.unit) if kind else None
        if kind is None or system is None:
            continue
        for number in row.numbers:
            at = _ADDRESS.fullmatch(number.place.address)
            if number.value is not None and at:
                si = to_si(number.value, kind, system)
                yield _Pull(measurand, row.label, si, number.place.sheet, at[1], at[2])


def _computed(summary: Summary) -> Iterator[_Pull]:
    """What formulas of the book's own give, and what it holds that no call takes."""
    data = summary.data
    for one in (*data["results"], *data["readings"]):
        at = _ADDRESS.fullmatch(one["cell"])
        told = isinstance(one["si"], (int, float)) and one["stage"] in ("", "final")
        if (one["measurand"] in _LINES or one["measurand"] == _SPEED) and told and at:
            yield _Pull(one["measurand"], one["label"], one["si"], one["sheet"], at[1], at[2])


def _peak(
    measurand: str, pulls: Sequence[_Pull], factor: float, air: str, units: System
) -> Peak | None:
    name, kind = _LINES[measurand]
    lines = [pull for pull in pulls if pull.measurand == measurand]
    corrected = [pull for pull in lines if _CORRECTED.search(pull.label)]
    if corrected:
        lines, factor, air = corrected, 1.0, "as the book has it"
    best = max(lines, key=lambda pull: pull.si, default=None)
    if best is None:
        return None
    value = float(f"{from_si(best.si * factor, kind, units):.12g}")
    return Peak(name, value, kind.unit(units), _speed(best, pulls), air)


def _speed(best: _Pull, pulls: Sequence[_Pull]) -> float | None:
    """The speed in the same row of the same sheet, else in the same column, rpm."""
    speeds = [p for p in pulls if p.measurand == _SPEED and p.sheet == best.sheet]
    beside = [p for p in speeds if p.row == best.row] or [
        p for p in speeds if p.column == best.column
    ]
    return float(f"{from_si(beside[0].si, ROTATION, 'inch'):.9g}") if beside else None


def _weather(summary: Summary, rows: Sequence[tuple[str, Row]]) -> tuple[float, str]:
    """The book's correction for the weather, and to what air it corrects; 1 and "" without."""
    values = [n.value for name, row in rows if name == "weather_correction" for n in row.numbers]
    factor = next((value for value in values if value is not None), None)
    if factor is None:
        return 1.0, ""
    for one in summary.data["results"]:
        if one["measurand"] == "weather_correction":
            said = [a["value"] for a in one["arguments"] if isinstance(a["value"], str)]
            return factor, said[0].upper() if said else "the book's air"
    return factor, "the book's air"

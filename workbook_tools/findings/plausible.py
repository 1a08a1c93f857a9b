"""Values that no engine of this trade has, and that one known slip would mend.

The limits are in plausible.toml: gross ones, wide of every band, so that a value outside them
is doubted and never judged.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources

from workbook_tools.books.records import Book, Label, Place
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.measured import (
    in_si,
    named,
    number_of,
    parameter_of,
    readings,
    shown,
    system_of,
)
from workbook_tools.findings.siblings import find_slips
from workbook_tools.findings.units_mixed import check_units_mixed
from workbook_tools.quantities import ANGLE, LENGTH, READING, Kind, System, unit_named

# Where a slip is undone, the value must lie this far inside the limits.
_INSIDE = 1.1


@dataclass(frozen=True)
class Size:
    """The gross limits of a parameter, in SI, and what books call it where no call takes it."""

    parameter: str
    low: float
    high: float
    label: re.Pattern[str] | None = None

    def hold(self, value: float) -> bool:
        """Whether a value lies within the limits."""
        return self.low <= value <= self.high

    def hold_well(self, value: float) -> bool:
        """Whether a value lies within them with room to spare."""
        low = self.low * _INSIDE if self.low > 0 else self.low / _INSIDE
        return low <= value <= self.high / _INSIDE


@dataclass(frozen=True)
class Doubt:
    """A value outside its limits, and what it would be with a slip undone, with the slip."""

    place: Place
    label: Label | None
    size: Size
    value: float
    unit: str
    slips: tuple[tuple[float, str], ...]


@lru_cache(maxsize=1)
def sizes() -> dict[str, Size]:
    """The gross limits of parameters by name."""
    text = resources.files("workbook_tools.findings").joinpath("plausible.toml").read_text("utf-8")
    found = {}
    for row in tomllib.loads(text)["size"]:
        _, factor = unit_named(row["unit"])
        label = re.compile(row["label"], re.IGNORECASE) if "label" in row else None
        name = row["parameter"]
        found[name] = Size(name, row["low"] * factor, row["high"] * factor, label)
    return found


def _slips(kind: Kind, system: System) -> tuple[tuple[float, str], ...]:
    if kind is LENGTH:
        unit = (25.4, "millimeters were") if system == "inch" else (1 / 25.4, "inches were")
        return (
            unit,
            (1000.0, "thousandths were"),
            (10.0, "the decimal point is one place too far right and less was"),
            (0.1, "the decimal point is one place too far left and more was"),
            (0.01, "the decimal point is two places too far left and more was"),
        )
    if kind is ANGLE:
        return ((2.0, "cam degrees counted as twice as many crank degrees were"),)
    return ((10.0, "a tenth was"), (0.1, "ten times as much was"), (1000.0, "a thousandth was"))


@lru_cache(maxsize=8)
def find_doubts(book: Book) -> tuple[Doubt, ...]:
    """The cells whose values lie outside the gross limits, each once."""
    return tuple(_doubts(book))


def _doubts(book: Book) -> Iterator[Doubt]:
    seen: set[Place] = set()
    for record in book.records:
        for argument in record.arguments:
            parameter = parameter_of(record, argument)
            size = sizes().get(argument.name)
            place = argument.place or record.place
            if parameter is None or size is None or argument.formula or place in seen:
                continue
            system = system_of(record)
            value = number_of(argument, parameter.kind, system)
            if value is None:
                continue
            seen.add(place)
            yield from _doubt(
                place, argument.label, size, value, argument.unit, parameter.kind, system
            )
    for reading in readings(book):
        if any(use.parameter.kind is not READING for use in reading.uses):
            continue
        size = _size_called(reading.label.text.strip()) if reading.label else None
        if size is not None and reading.kind is LENGTH:
            yield from _doubt(
                reading.place,
                reading.label,
                size,
                reading.number,
                reading.unit,
                LENGTH,
                reading.system,
            )


@lru_cache(maxsize=1024)
def _size_called(text: str) -> Size | None:
    return next((s for s in sizes().values() if s.label and s.label.fullmatch(text)), None)


def _doubt(
    place: Place,
    label: Label | None,
    size: Size,
    value: float,
    unit: str,
    kind: Kind,
    system: System,
) -> Iterator[Doubt]:
    # Zero is a measurement never taken, or one of its own: flush, no lash.
    if not value or size.hold(in_si(value, kind, system)):
        return
    mends = tuple(
        (value / factor, words)
        for factor, words in _slips(kind, system)
        if size.hold_well(in_si(value / factor, kind, system))
    )
    if mends:
        yield Doubt(place, label, size, value, unit, mends)


def check_plausible(book: Book) -> Iterator[Finding]:
    """A finding for each item whose values only a slip of unit or decimal point explains."""
    groups: dict[tuple[str, str, str], list[Doubt]] = {}
    told = {slip.reading.place for slip in find_slips(book)}
    told |= {finding.place for finding in check_units_mixed(book) if finding.place}
    for doubt in find_doubts(book):
        if doubt.place in told:
            continue
        text = doubt.label.text if doubt.label else doubt.place.address
        groups.setdefault((doubt.place.sheet, text, doubt.slips[0][1]), []).append(doubt)
    for group in groups.values():
        first = group[0]
        more = f" and {len(group) - 1} more like it" if len(group) > 1 else ""
        fits = " or ".join(
            f"{words} meant ({shown(mended, first.unit)})" for mended, words in first.slips[:2]
        )
        yield Finding(
            "unit slip",
            first.place,
            f"{named(first.label, first.place)} is {shown(first.value, first.unit)}{more}, a "
            f"{first.size.parameter.replace('_', ' ')} that no usual engine has. It fits if "
            f"{fits}.",
            'Check the number and its unit; a metric book says "metric" in every call.',
        )

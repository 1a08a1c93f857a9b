"""Values that no engine of this trade has, and that one known slip would mend.

The limits are in plausible.toml: gross ones, wide of every band, so that a value outside them
is doubted and never judged.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources

from workbook_tools.books.records import Argument, Book, Place, Record
from workbook_tools.catalog import Parameter
from workbook_tools.findings.finding import Finding
from workbook_tools.findings.measured import (
    in_si,
    named,
    number_of,
    parameter_of,
    shown,
    system_of,
)
from workbook_tools.units import ANGLE, LENGTH, unit_named

# Where a slip is undone, the value must lie this far inside the limits.
_INSIDE = 1.1


@dataclass(frozen=True)
class Size:
    """The gross limits of a parameter, in SI."""

    low: float
    high: float

    def hold(self, value: float) -> bool:
        """Whether a value lies within the limits."""
        return self.low <= value <= self.high

    def hold_well(self, value: float) -> bool:
        """Whether a value lies within them with room to spare."""
        low = self.low * _INSIDE if self.low > 0 else self.low / _INSIDE
        return low <= value <= self.high / _INSIDE


@dataclass(frozen=True)
class Doubt:
    """A value outside its limits, and the slips that would bring it inside."""

    record: Record
    argument: Argument
    value: float
    slips: tuple[tuple[float, str], ...]


@lru_cache(maxsize=1)
def sizes() -> dict[str, Size]:
    """The gross limits of parameters by name."""
    text = resources.files("workbook_tools.findings").joinpath("plausible.toml").read_text("utf-8")
    found = {}
    for row in tomllib.loads(text)["size"]:
        _, factor = unit_named(row["unit"])
        found[row["parameter"]] = Size(row["low"] * factor, row["high"] * factor)
    return found


def _slips(parameter: Parameter, system: str) -> tuple[tuple[float, str], ...]:
    if parameter.kind is LENGTH:
        unit = (25.4, "millimeters were") if system == "inch" else (1 / 25.4, "inches were")
        return (
            unit,
            (1000.0, "thousandths were"),
            (10.0, "the decimal point is one place too far right and less was"),
            (0.1, "the decimal point is one place too far left and more was"),
            (0.01, "the decimal point is two places too far left and more was"),
        )
    if parameter.kind is ANGLE:
        return ((2.0, "cam degrees counted as twice as many crank degrees were"),)
    return ((10.0, "a tenth was"), (0.1, "ten times as much was"), (1000.0, "a thousandth was"))


def find_doubts(book: Book) -> Iterator[Doubt]:
    """The cells whose values lie outside the gross limits, each once."""
    seen: set[Place] = set()
    for record in book.records:
        for argument in record.arguments:
            parameter = parameter_of(record, argument)
            size = sizes().get(argument.name)
            if parameter is None or size is None or argument.formula or argument.place in seen:
                continue
            system = system_of(record)
            value = number_of(argument, parameter.kind, system)
            # Zero is a measurement never taken, or one of its own: flush, no lash.
            if not value or size.hold(in_si(value, parameter.kind, system)):
                continue
            if argument.place is not None:
                seen.add(argument.place)
            mends = tuple(
                (value / factor, words)
                for factor, words in _slips(parameter, system)
                if size.hold_well(in_si(value / factor, parameter.kind, system))
            )
            if mends:
                yield Doubt(record, argument, value, mends)


def check_plausible(book: Book) -> Iterator[Finding]:
    """A finding for each item whose values only a slip of unit or decimal point explains."""
    groups: dict[tuple[str, str, str], list[Doubt]] = {}
    for doubt in find_doubts(book):
        label = doubt.argument.label
        place = doubt.argument.place or doubt.record.place
        text = label.text if label else place.address
        groups.setdefault((place.sheet, text, doubt.slips[0][1]), []).append(doubt)
    for group in groups.values():
        first = group[0]
        place = first.argument.place or first.record.place
        more = f" and {len(group) - 1} more like it" if len(group) > 1 else ""
        fits = " or ".join(
            f"{words} meant ({shown(mended, first.argument.unit)})"
            for mended, words in first.slips[:2]
        )
        yield Finding(
            "unit slip",
            place,
            f"{named(first.argument.label, place)} is {shown(first.value, first.argument.unit)}"
            f"{more}, a {first.argument.name.replace('_', ' ')} that no usual engine has. It "
            f"fits if {fits}.",
            'Check the number and its unit; a metric book says "metric" in every call.',
        )

"""Kinds of number that are written at the bench: unit, digits, and what is plausible.

What is a measurand has all of it from the table of measurands; the rest is named here.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass, replace

from workbook_tools.buildbook.plan import Plan
from workbook_tools.measurands import Measurand, find, of_property
from workbook_tools.quantities import Kind, System, from_si, kinds

Range = tuple[float, float]
_LAST_DIGIT = re.compile(r"\.0+")


@dataclass(frozen=True)
class Quantity:
    """A kind of number, each pair for inch books and for metric ones.

    units; digits: number formats; plausible: readings outside are asked about, since a slip
    of the unit or of the decimal point puts them there. Not a band: nothing is judged by it.
    others: how one in another unit is typed, "" where there is none.
    """

    units: tuple[str, str]
    digits: tuple[str, str]
    plausible: tuple[Range, Range]
    others: tuple[str, str] = ("", "")

    def unit(self, plan: Plan) -> str:
        """The unit of bare numbers in this book, "" for plain numbers."""
        return plan.pick(*self.units)

    def format(self, plan: Plan, typed: bool = False) -> str:
        """The number format, with a little air on the right: LibreOffice drops indents there.

        typed: for a cell that is typed into, which shows every digit of it.
        """
        parts = plan.pick(*self.digits).split(";")
        if typed:
            if parts == ["0"]:
                return "General_ "
            # Where words follow the number, a blank in place of a digit would part them.
            more = "##" if '"' in parts[0] else "??"
            parts = [_LAST_DIGIT.sub(rf"\g<0>{more}", part) for part in parts]
        return ";".join(f"{part}_ " for part in parts)

    def other(self, plan: Plan) -> str:
        """How one in another unit than the book's is typed, "" where there is none."""
        return plan.pick(*self.others)

    def range(self, plan: Plan) -> Range:
        """Least and most that can be meant."""
        return plan.pick(*self.plausible)


_LENGTHS, _GAPS = ("25.4 mm", "1.0 in"), ("2.5 thou", "2.5 thou")
_OTHERS = {
    kinds.FORCE: ("650 N", "145 lbf"),
    kinds.TORQUE: ("95 N.m", "70 lbf.ft"),
    kinds.PRESSURE: ("7 bar", "7 bar"),
    kinds.TEMPERATURE: ("20 deg C", "68 deg F"),
}
# Lengths that are never larger, in meters, are told in thousandths of an inch.
_SMALL = 0.02


def of(name: str) -> Quantity:
    """The quantity of a measurand, or of a property that several parts have, by its name.

    Raises ValueError where the table has no such name.
    """
    members = of_property(name) or tuple(one for one in (find(name),) if one)
    if not members:
        raise ValueError(f"there is no measurand and no property {name!r}")
    kind = members[0].kind
    return Quantity(
        units=(kind.inch, kind.metric),
        digits=(_format(members, "inch"), _format(members, "metric")),
        plausible=(_plausible(members, "inch"), _plausible(members, "metric")),
        others=_others(members, kind),
    )


def _format(members: tuple[Measurand, ...], system: System) -> str:
    places = max(one.shown_digits(system) for one in members)
    # Speeds reach the thousands.
    whole = "#,##0" if members[0].kind in (kinds.ROTATION, kinds.SPEED) and not places else "0"
    shown = f"{whole}.{'0' * places}" if places else whole
    if members[0].id.endswith("_ratio") and members[0].part == "engine":
        return f'{shown}":1"'  # A compression ratio, which is said so.
    if any("plus = " in one.sign for one in members):
        return f"+{shown};-{shown};{shown}"
    return shown


def _plausible(members: tuple[Measurand, ...], system: System) -> Range:
    """What any of them can be, told in three figures and so a little wider."""
    kind = members[0].kind
    low, high = (
        from_si(pick(limits), kind, system)
        for pick, limits in (
            (min, [one.possible[0] for one in members]),
            (max, [one.possible[1] for one in members]),
        )
    )
    return _rounded(low, math.floor), _rounded(high, math.ceil)


def _rounded(number: float, outward: Callable[[float], int]) -> float:
    if not number:
        return 0.0
    step = 10.0 ** (math.floor(math.log10(abs(number))) - 2)
    # A last digit off in the 12th place is no reason to go a step further.
    return float(f"{outward(round(number / step, 9)) * step:.3g}")


def _others(members: tuple[Measurand, ...], kind: Kind) -> tuple[str, str]:
    if kind is kinds.LENGTH:
        return _GAPS if max(one.usual[1] for one in members) <= _SMALL else _LENGTHS
    return _OTHERS.get(kind, ("", ""))


def alone(quantity: Quantity) -> Quantity:
    """The same where plain arithmetic, which reads no unit, is done with it."""
    return replace(quantity, others=("", ""))


def share(name: str) -> Quantity:
    """The quantity of a measurand that is a share of one, shown in percent."""
    return replace(of(name), digits=("0 %", "0 %"))


def numbered(most: int) -> Quantity:
    """A number out of a row, from 1."""
    return _plain("", "0", 1, most)


def _plain(unit: str, digits: str, low: float, high: float) -> Quantity:
    return Quantity((unit, unit), (digits, digits), ((low, high), (low, high)))


# What is no measurand: a size or a gap of any part, a difference, a spread, a count.
SIZE = Quantity(("in", "mm"), ("0.0000", "0.000"), ((0.02, 20), (0.5, 500)), _LENGTHS)
LENGTH = Quantity(("in", "mm"), ("0.000", "0.00"), ((0.02, 40), (0.5, 1000)), _LENGTHS)
GAP = Quantity(("in", "mm"), ("0.0000", "0.000"), ((0, 0.3), (0, 8)), _GAPS)
DIFFERENCE = replace(
    GAP, plausible=((-0.3, 0.3), (-8, 8)), digits=("+0.0000;-0.0000;0.0000", "+0.000;-0.000;0.000")
)
VOLUME = _plain("cc", "0.0", 0, 5000)
MASS = _plain("g", "0.0", 0, 50_000)
COUNT = _plain("", "0", 0, 1000)
PRESSURE = replace(of("oil_pressure"), plausible=((1, 2000), (5, 15_000)))
TEMPERATURE = replace(of("air_temperature"), plausible=((-40, 140), (-40, 60)))
# A wrench is set closer than its torque is told.
TIGHTENING = replace(of("bolt_torque"), digits=("0.0", "0.0"))

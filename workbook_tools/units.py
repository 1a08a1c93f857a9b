"""Quantity kinds, the unit a bare number means, and the reading of a text with its own unit.

Inside the catalog every quantity is in SI base units. This module is the edge: it turns
what stands in a cell (38, "38 thou", "0,96 mm") into SI and back. Definitions and factors
come from pint; what is ours is the trade's spelling of units and numbers.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import cache
from typing import Any, Literal

from workbook_tools.unit_spellings import READY_FACTORS, SPELLINGS_BY_KIND
from workbook_tools.unit_spellings import SPELLINGS as SPELLINGS

System = Literal["inch", "metric"]
SYSTEMS: tuple[System, System] = ("inch", "metric")


@dataclass(frozen=True)
class Kind:
    """A kind of quantity and the unit that a bare number of it means.

    name: what people call it ("length"); si: pint expression of the unit used inside the
    catalog, "" for plain numbers and texts; inch, metric: how the unit of a bare number is
    written in each system; decimals: digits shown after the point in (inch, metric).
    """

    name: str
    si: str = ""
    inch: str = ""
    metric: str = ""
    decimals: tuple[int, int] = (4, 4)

    @property
    def has_units(self) -> bool:
        """Whether the unit system changes what a bare number of this kind means."""
        return bool(self.si)

    def unit(self, system: System) -> str:
        """The unit of a bare number, as written for people; "" where there is none."""
        return self.inch if system == "inch" else self.metric


LENGTH = Kind("length", "m", "in", "mm", (4, 3))
VOLUME = Kind("volume", "m**3", "cc", "cc", (2, 2))
DISPLACEMENT = Kind("displacement", "m**3", "cu in", "cc", (2, 1))
AREA = Kind("area", "m**2", "sq in", "sq cm", (3, 2))
SECTION_AREA = Kind("section area", "m**2", "sq in", "sq mm", (4, 2))
MASS = Kind("mass", "kg", "g", "g", (1, 1))
MASS_MOMENT = Kind("unbalance", "kg*m", "oz.in", "g.mm", (3, 1))
FORCE = Kind("force", "N", "lbf", "N", (1, 1))
SPRING_RATE = Kind("spring rate", "N/m", "lbf/in", "N/mm", (1, 2))
TORQUE = Kind("torque", "N*m", "lbf.ft", "N.m", (1, 1))
PRESSURE = Kind("pressure", "Pa", "psi", "kPa", (1, 1))
STRESS = Kind("stress", "Pa", "psi", "MPa", (0, 1))
TEMPERATURE = Kind("temperature", "K", "deg F", "deg C", (1, 1))
TEMPERATURE_RISE = Kind("temperature rise", "K", "deg F", "deg C", (1, 1))
ANGLE = Kind("angle", "rad", "deg", "deg", (2, 2))
# The camshaft turns at half the crank's speed. Its degrees have a dimension of their own, so
# that no text with a unit passes for the other kind.
CAM_ANGLE = Kind("cam angle", "cam_radian", "deg cam", "deg cam", (2, 2))
ROTATION = Kind("rotation", "rad/s", "rpm", "rpm", (0, 0))
POWER = Kind("power", "W", "hp", "kW", (1, 1))
VOLUME_FLOW = Kind("volume flow", "m**3/s", "cfm", "m3/min", (1, 3))
SPEED = Kind("speed", "m/s", "ft/min", "m/s", (0, 2))
AIR_SPEED = Kind("air speed", "m/s", "ft/s", "m/s", (1, 1))
ALTITUDE = Kind("altitude", "m", "ft", "m", (0, 0))
BAROMETER = Kind("barometric pressure", "Pa", "inHg", "kPa", (2, 2))
DENSITY = Kind("density", "kg/m**3", "lb/cu ft", "kg/m3", (4, 4))
MASS_FLOW = Kind("mass flow", "kg/s", "lb/h", "kg/h", (1, 1))
FUEL_CONSUMPTION = Kind("specific fuel consumption", "kg/J", "lb/hp.h", "g/kW.h", (3, 0))
# In turns a second, not bare 1/s: a rotation given in Hz, or a frequency in rpm, reads right.
FREQUENCY = Kind("frequency", "turn/s", "Hz", "Hz", (1, 1))
VISCOSITY = Kind("viscosity", "Pa*s", "cP", "mPa.s", (2, 2))
ACCELERATION = Kind("acceleration", "m/s**2", "ft/s2", "m/s2", (0, 0))
NUMBER = Kind("number", decimals=(4, 4))
RATIO = Kind("ratio", decimals=(2, 2))
FACTOR = Kind("factor", decimals=(4, 4))
COUNT = Kind("count", decimals=(0, 0))
TEXT = Kind("text")
# A reading of whatever kind: the number stays what it is in the book, and only a text that
# brings its own unit is converted to the unit that a bare number of its dimension has.
READING = Kind("reading")

# Kinds tried for a reading that brings its own unit: the first of its dimension, unless the
# unit is what a bare number of a later one means (MPa a stress, inHg a barometer, ft/s air).
_READING_KINDS = (
    LENGTH,
    VOLUME,
    DISPLACEMENT,
    AREA,
    SECTION_AREA,
    MASS,
    MASS_MOMENT,
    FORCE,
    SPRING_RATE,
    TORQUE,
    PRESSURE,
    STRESS,
    BAROMETER,
    ANGLE,
    CAM_ANGLE,
    ROTATION,
    FREQUENCY,
    POWER,
    VOLUME_FLOW,
    SPEED,
    AIR_SPEED,
    ALTITUDE,
    ACCELERATION,
    DENSITY,
    VISCOSITY,
    MASS_FLOW,
    FUEL_CONSUMPTION,
)


class UnreadableText(ValueError):
    """A text that is no quantity of the wanted kind; the message says why."""


@cache
def _registry() -> Any:
    # Imported late and with exact fractions: late, because a spreadsheet program loads this
    # module at start; exact, so that a factor is the float nearest to the true one.
    import pint

    registry: Any = pint.UnitRegistry(non_int_type=Fraction, cache_folder=None)
    registry.define("inch_tenth = thou / 10")
    registry.define("cam_radian = [cam_angle]")
    registry.define("cam_degree = cam_radian * degree / radian")
    return registry


@cache
def _exact_factor(unit: str, si: str) -> float:
    if (unit, si) in READY_FACTORS:
        return READY_FACTORS[unit, si]
    return registry_factor(unit, si)


def registry_factor(unit: str, si: str) -> float:
    """The factor from one pint expression to another, by exact fractions."""
    one = _registry().Quantity(Fraction(1), unit)
    return float(one.to(si).magnitude)


def _same_dimension(unit: str, si: str) -> bool:
    return (unit, si) in READY_FACTORS or _dimension(unit) == _dimension(si)


@cache
def _dimension(unit: str) -> tuple[tuple[str, Fraction], ...]:
    return tuple(sorted(_registry().get_dimensionality(unit).items()))


_ABSOLUTE = {"degF": (459.67, 5 / 9), "degC": (273.15, 1.0), "K": (0.0, 1.0)}


def _scale(unit: str, kind: Kind) -> tuple[float, float]:
    """(zero shift, factor) with SI = (value + shift) * factor."""
    if kind is TEMPERATURE:
        return _ABSOLUTE[unit]
    if kind is TEMPERATURE_RISE:
        return 0.0, _ABSOLUTE[unit][1]
    return 0.0, _exact_factor(unit, kind.si)


def scale(kind: Kind, system: System) -> tuple[float, float]:
    """How a bare number of a kind becomes SI.

    Returns (shift, factor), with SI value = (number + shift) * factor; the shift is zero
    except for temperatures on a scale with an offset. Raises nothing.
    """
    return _bare_scale(kind, system) if kind.si else (0.0, 1.0)


@cache
def _bare_scale(kind: Kind, system: System) -> tuple[float, float]:
    return _scale(SPELLINGS[kind.unit(system).lower()], kind)


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


_SPACES = re.compile(r"[\s\u00a0\u2007\u202f]+")
_NUMBER = r"[+\-\u2212]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+\-]?\d+)?"
_MIXED = re.compile(r"([+\-\u2212]?\d+)(?:-|\s)(\d+)/(\d+)")
_FRACTION = re.compile(r"([+\-\u2212]?\d+)/(\d+)")
_WHOLE_TEXT = re.compile(
    rf"(?P<number>[+\-\u2212]?\d+(?:-|\s)\d+/\d+|[+\-\u2212]?\d+/\d+|{_NUMBER})\s*"
    r"(?P<unit>(?:[^\W\d_]|[\"”″'’°:]|1/min)[^@]*)?"
)
_MOST_DIGITS = 100
_GROUPED = re.compile(r"[+\-\u2212]?\d{1,3}([.,]\d{3})+[.,]\d+(?![\d.,/])")
_LOOKS_LIKE = {"o": "0", "l": "1", "i": "1"}


def _number(text: str, unit: str | None) -> float:
    if len(text) > _MOST_DIGITS:
        raise UnreadableText("the number has more digits than any that can be kept")
    mixed = _MIXED.fullmatch(text)
    fraction = _FRACTION.fullmatch(text)
    if mixed or fraction:
        parts = [int(g.replace("\u2212", "-")) for g in (mixed or fraction).groups()]  # type: ignore[union-attr]
        whole, top, bottom = parts if mixed else [0, *parts]
        if bottom == 0:
            raise UnreadableText("the fraction has a zero below the line")
        # A fraction of an inch is halves to sixty-fourths; anything else (4.0305/4.0307,
        # 18/20) is more likely two readings, unless a unit stands behind it.
        if unit is None and (bottom not in (2, 4, 8, 16, 32, 64) or abs(top) >= bottom):
            raise UnreadableText("it may be two readings or a fraction; add a unit or split it")
        size = abs(whole) + abs(top) / bottom
        return -size if text[0] in "-\u2212" else size
    body = text.replace("\u2212", "-")
    if "," in body:
        before, after = body.lstrip("+-").split(",", 1)
        if len(after) == 3 and before not in ("", "0"):
            raise UnreadableText("the comma may group thousands or mark decimals")
        body = body.replace(",", ".")
    number = float(body)
    if math.isinf(number):
        raise UnreadableText("the number is larger than any that can be kept")
    return number


def _suggest_digits(text: str) -> str | None:
    swapped = "".join(_LOOKS_LIKE.get(c.lower(), c) for c in text)
    if swapped != text and re.search(r"\d", text) and re.fullmatch(_NUMBER, swapped):
        # "5l" is five liters, "5 l" too: only a letter with a digit behind it is doubtful.
        return swapped if re.search(r"[a-zA-Z]\d|[a-zA-Z]\.", text) else None
    return None


def _spelled_unit(text: str, kind: Kind, system: System) -> str:
    """The pint expression of a unit as spelled in a cell."""
    even = _SPACES.sub(" ", text.strip().lower().rstrip(".")).replace("·", ".").replace("*", ".")
    even = even.replace(". ", " ")
    for name in (even, even.replace(" ", ""), re.sub(r"[\s\-]", ".", even), even.rstrip("s")):
        known = SPELLINGS_BY_KIND.get((kind.name, name)) or SPELLINGS.get(name)
        if known is None:
            continue
        if known == "inch_tenth" and system == "metric":
            raise UnreadableText("a tenth is 0.0001 in in an inch shop and 0.1 mm in a metric one")
        return known
    raise UnreadableText(f"{text.strip()!r} is not a unit that is known here")


def split_quantity(text: str) -> tuple[str, str | None]:
    """The number and the unit of a text such as '38 thou' or '4.030"', both still as text.

    Raises UnreadableText, with the reason, where the text is not one number with at most
    one unit.
    """
    even = _SPACES.sub(" ", text).strip()
    swapped = _suggest_digits(even.split(" ")[0])
    if swapped:
        raise UnreadableText(f"it has a letter among the digits; perhaps {swapped}")
    found = _WHOLE_TEXT.fullmatch(even)
    if found is None:
        if _GROUPED.match(even):
            raise UnreadableText("it groups digits; write the number without grouping, as 1234.5")
        raise UnreadableText("it is not one number with at most one unit")
    return found["number"], found["unit"]


def read_text(text: str, kind: Kind, system: System) -> float:
    """The SI value of a text that holds one number and, mostly, its own unit.

    text: as typed ("38 thou", "0,05 mm", '3 5/8"', "0.038"); kind: what is wanted; system:
    what a number without a unit means. For a READING the result is not SI but the bare
    number that the same quantity would be in this system. Raises UnreadableText with the
    reason: no number, an unknown unit, another dimension, a doubtful comma.
    """
    number_text, unit_text = split_quantity(text)
    number = _number(number_text, unit_text)
    if unit_text is None:
        if "/" in number_text and kind.has_units and system == "metric":
            raise UnreadableText("a fraction is likely of an inch; add its unit")
        return to_si(number, kind, system)
    if kind in (RATIO, NUMBER, FACTOR, COUNT):
        if kind is RATIO and re.fullmatch(r"(:|to)\s*1", unit_text.strip().lower()):
            return number
        raise UnreadableText(f"a {kind.name} takes no unit")
    unit = _spelled_unit(unit_text, kind, system)
    if kind is READING:
        kind = _kind_of(unit, unit_text)
        shift, factor = _scale(unit, kind)
        return from_si((number + shift) * factor, kind, system)
    if kind in (TEMPERATURE, TEMPERATURE_RISE):
        if unit not in _ABSOLUTE:
            raise UnreadableText(f"{unit_text.strip()!r} is not a unit of {kind.name}")
    elif unit in ("degF", "degC") or not _same_dimension(unit, kind.si):
        raise UnreadableText(f"{unit_text.strip()!r} is not a unit of {kind.name}")
    shift, factor = _scale(unit, kind)
    return (number + shift) * factor


def _kind_of(unit: str, spelled: str) -> Kind:
    if unit in ("degF", "degC"):
        return TEMPERATURE
    for kind in _READING_KINDS:
        if unit in (SPELLINGS[kind.inch.lower()], SPELLINGS[kind.metric.lower()]):
            return kind
    for kind in _READING_KINDS:
        if (unit, kind.si) in READY_FACTORS:
            return kind
    for kind in _READING_KINDS:
        if _same_dimension(unit, kind.si):
            return kind
    raise UnreadableText(f"{spelled.strip()!r} is not a unit that a reading can have")


def reading_unit(text: str, system: System) -> str:
    """The bare unit that READING converts this text to ("in" for "38 thou"), "" for a number."""
    _, unit_text = split_quantity(text)
    if unit_text is None:
        return ""
    return _kind_of(_spelled_unit(unit_text, READING, system), unit_text).unit(system)


def unit_named(text: str) -> tuple[Kind, float]:
    """The kind of a unit as spelled in a table, and its factor to SI ("thou" is a length).

    Raises UnreadableText for a unit that is not known or has no zero in common with SI.
    """
    unit = _spelled_unit(text, READING, "inch")
    kind = _kind_of(unit, text)
    if kind is TEMPERATURE:
        raise UnreadableText(f"{text.strip()!r} is not a unit that a table can have")
    return kind, _exact_factor(unit, kind.si)


def system_named(text: str) -> System:
    """The unit system that a `units` argument names. Raises UnreadableText for another word."""
    word = text.strip().lower()
    if word == "inch" or word == "metric":
        return "inch" if word == "inch" else "metric"
    raise UnreadableText('units are "inch" or "metric"')


def _rounded(value: float, digits: int) -> Decimal:
    """Rounded as a spreadsheet shows it: half up, of the fifteen digits that it keeps."""
    kept = Decimal(f"{value:.15g}")
    return kept.quantize(Decimal(1).scaleb(-digits), rounding=ROUND_HALF_UP)


def _fixed(value: float, digits: int) -> str:
    """A number below 1e15 with so many digits after the point, rounded as _rounded does."""
    kept = f"{value:.15g}"
    rest = kept.partition(".")[2]
    halfway = len(rest) == digits + 1 and rest[-1] == "5"
    if halfway or abs(value) >= 1e6 or digits > 8 or "e" in kept:
        return f"{_rounded(value, digits):,f}"
    # With digits to spare and nothing halfway, the quick way gives the same.
    return f"{value:,.{digits}f}"


def show(value: float, kind: Kind, system: System) -> str:
    """A bare number with its unit, for people: 0.04 of a length in inches is '0.0400 in'."""
    digits = kind.decimals[0] if system == "inch" else kind.decimals[1]
    text = _fixed(value, digits) if abs(value) < 1e15 else f"{value:g}"
    if not text.strip("-0.,"):
        # Never show a small reading as nothing, nor what rounding left of nothing as a reading.
        nothing = abs(value) < 10.0 ** -(digits + 6)
        text = f"{0:.{digits}f}" if nothing else f"{value:.3g}"
    unit = kind.unit(system)
    return f"{text} {unit}" if unit else text


KINDS: Mapping[str, Kind] = {
    kind.name: kind for kind in list(globals().values()) if isinstance(kind, Kind)
}

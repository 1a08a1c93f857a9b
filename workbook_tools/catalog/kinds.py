"""What types of parameters and results say, and the types of what is no measurand.

A type says at once: the kind of quantity, what it measures, the limits it must keep, and
whether it is a whole block of readings. Everything measured is a float in SI base units
inside a function; a block is rows of floats, with None where nothing was measured. The types
that name a measurand are in `measured`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import tables
from workbook_tools.measurands import Measurand, find, of_property
from workbook_tools.quantities import Kind


@dataclass(frozen=True)
class Limits:
    """The values a parameter may take, in SI. An open end leaves the limit itself out."""

    low: float = -math.inf
    high: float = math.inf
    low_open: bool = False
    high_open: bool = False

    def hold(self, value: float) -> bool:
        """Whether a finite value lies within the limits."""
        above = value > self.low if self.low_open else value >= self.low
        below = value < self.high if self.high_open else value <= self.high
        return above and below

    def words(self, kind: Kind, system: quantities.System) -> str:
        """The limits as people say them, in the book's units: "above 0", "from 0 to 60 deg".

        Rounded inward, so that a limit can be typed as it is told.
        """
        low = self._told(self.low, kind, system, 1)
        high = self._told(self.high, kind, system, -1)
        unit = kind.unit(system)
        unit = f" {unit}" if unit else ""
        lower = f"above {low}" if self.low_open else f"{low} or more"
        if math.isinf(self.high):
            return "" if math.isinf(self.low) else lower
        upper = f"below {high}{unit}" if self.high_open else f"{high}{unit} at most"
        if math.isinf(self.low):
            return upper
        if self.low_open or self.high_open:
            return f"{lower} and {upper}"
        return f"from {low} to {high}{unit}"

    def roughly(self, kind: Kind, system: quantities.System) -> str:
        """The limits in two digits, for those that only mark off slips: "0.33 to 37 in"."""
        low, high = (self._told(x, kind, system, 0, 2) for x in (self.low, self.high))
        unit = f" {kind.unit(system)}".rstrip()
        if math.isinf(self.high):
            return f"{low}{unit} or more"
        return f"{high}{unit} at most" if math.isinf(self.low) else f"{low} to {high}{unit}"

    def _told(
        self, limit: float, kind: Kind, system: quantities.System, inward: int, digits: int = 6
    ) -> str:
        number = quantities.from_si(limit, kind, system)
        text = f"{number:.{digits}g}"
        if digits < 6 and abs(number) >= 100:
            text = f"{float(text):.15g}"
        at_limit = math.isinf(limit) or (self.low_open if inward > 0 else self.high_open)
        if at_limit or number == 0 or self.hold(quantities.to_si(float(text), kind, system)):
            return text
        digit = 10.0 ** (math.floor(math.log10(abs(number))) - 5)
        return f"{float(text) + inward * digit:.6g}"

    @property
    def allow_zero(self) -> bool:
        """Whether zero is a possible value, so that an empty cell can hide as one."""
        return self.hold(0.0)


@dataclass(frozen=True)
class Sizes:
    """Where a type's sizes end, in SI, in place of the table's; None where that holds."""

    low: float | None = None
    high: float | None = None


@dataclass(frozen=True)
class Choice:
    """A text parameter that takes one of these words, whatever their case."""

    words: tuple[str, ...]


@dataclass(frozen=True)
class Block:
    """Marks a parameter that takes a whole range of readings at once."""


@dataclass(frozen=True)
class CellItself:
    """Marks a parameter that is given a cell and not its value: a host tells of the cell."""


@dataclass(frozen=True)
class Note:
    """Help for every argument of a type, beside what its measurand says."""

    text: str


@dataclass(frozen=True)
class Measured:
    """Marks what a parameter or result measures.

    name: the id of a measurand, or a property that several parts have, for a function that
    holds for each of them; sizes: what an engine can have of it; heading: what it is called,
    with how it is taken ("Rod length (center to center)"); sign: sentences that say what plus
    and minus mean, or "".
    """

    name: str
    kind: Kind
    limits: Limits
    sizes: Limits
    heading: str
    sign: str


def measured(name: str) -> Measured:
    """The mark of a measurand or property, with kind, sign and limits from the table.

    The limits say whether a value can be zero or negative, the sizes what an engine can have.
    What is merely unusual is left to the doubts about a book. Raises ValueError where the
    table has neither a measurand nor a property of this name.
    """
    members = of_property(name) or tuple(one for one in (find(name),) if one)
    if not members:
        raise ValueError(f"there is no measurand and no property {name!r}")
    signs = {one.sign for one in members}
    how, sign = _sign_words(signs.pop() if len(signs) == 1 else "")
    heading = _called(name, members)
    return Measured(
        name=name,
        kind=members[0].kind,
        limits=_limits(members),
        sizes=_sizes(members),
        heading=f"{heading} ({how})" if how else heading,
        sign=sign,
    )


def _limits(members: tuple[Measurand, ...]) -> Limits:
    kind = members[0].kind
    if kind is quantities.COUNT:
        return Limits(low=1.0)
    if kind is quantities.TEMPERATURE:
        return ABOVE_ZERO
    if any(one.signed for one in members):
        return {quantities.ANGLE: TURNS, quantities.TEMPERATURE_RISE: RISE}.get(kind, ANY)
    return FROM_ZERO if any(one.zero for one in members) else ABOVE_ZERO


# So many times beyond what the table calls possible a size is refused: ships' engines and
# models have sizes that no shop sees, and a slip of unit or decimal point goes farther.
_ROOM = 3.0
# Kinds without room: their possible values do not grow with an engine's size.
_WITHOUT_ROOM = (
    quantities.ANGLE,
    quantities.CAM_ANGLE,
    quantities.COUNT,
    quantities.FACTOR,
    quantities.NUMBER,
    quantities.RATIO,
    quantities.TEMPERATURE,
    quantities.TEMPERATURE_RISE,
)


def _sizes(members: tuple[Measurand, ...]) -> Limits:
    low = min(one.possible[0] for one in members)
    high = max(one.possible[1] for one in members)
    if members[0].kind in _WITHOUT_ROOM:
        return Limits(low, high)
    low = low * _ROOM if low < 0 else low / _ROOM
    return Limits(float(f"{low:.4g}"), float(f"{high * _ROOM:.4g}"))


def _called(name: str, members: tuple[Measurand, ...]) -> str:
    """What measurands of several parts are called together: the words they all end in."""
    if len(members) == 1:
        return members[0].name if members[0].id == name else _sentence(name.replace("_", " "))
    shared: list[str] = []
    for words in zip(*(one.name.split()[::-1] for one in members), strict=False):
        if len({word.lower() for word in words}) > 1:
            break
        shared.insert(0, words[0].lower())
    return _sentence(" ".join(shared) or name.replace("_", " "))


def _sign_words(sign: str) -> tuple[str, str]:
    """How a value is taken, and in sentences what plus and minus mean."""
    how, sentences = [], []
    for clause in filter(None, sign.split("; ")):
        if "plus = " not in clause and "minus = " not in clause:
            how.append(clause)
            continue
        clause = clause.replace("plus = ", "positive: ").replace("minus = ", "negative: ")
        sentences.append(f"{_sentence(clause.replace(', negative:', '; negative:'))}.")
    return "; ".join(how), " ".join(sentences)


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


ANY = Limits()
ABOVE_ZERO = Limits(low=0.0, low_open=True)
FROM_ZERO = Limits(low=0.0)
# Beyond what any piston engine compresses, a point is in the wrong place.
COMPRESSION = Limits(low=1.0, high=50.0, low_open=True)
# A rise of a thousand kelvin melts what is measured; a larger one is a slip.
RISE = Limits(low=-1000.0, high=1000.0)
TURNS = Limits(low=-4 * math.pi, high=4 * math.pi)

# Sizes that cannot be zero.
Length = Annotated[float, quantities.LENGTH, ABOVE_ZERO]
Volume = Annotated[float, quantities.VOLUME, ABOVE_ZERO]
Displacement = Annotated[float, quantities.DISPLACEMENT, ABOVE_ZERO]
Area = Annotated[float, quantities.AREA, ABOVE_ZERO]
SectionArea = Annotated[float, quantities.SECTION_AREA, ABOVE_ZERO]
Mass = Annotated[float, quantities.MASS, ABOVE_ZERO]
Unbalance = Annotated[float, quantities.MASS_MOMENT, ABOVE_ZERO]
Force = Annotated[float, quantities.FORCE, ABOVE_ZERO]
SpringRate = Annotated[float, quantities.SPRING_RATE, ABOVE_ZERO]
Torque = Annotated[float, quantities.TORQUE, ABOVE_ZERO]
Pressure = Annotated[float, quantities.PRESSURE, ABOVE_ZERO]
Stress = Annotated[float, quantities.STRESS, ABOVE_ZERO]
Viscosity = Annotated[float, quantities.VISCOSITY, ABOVE_ZERO]
Temperature = Annotated[float, quantities.TEMPERATURE, ABOVE_ZERO]
Rotation = Annotated[float, quantities.ROTATION, ABOVE_ZERO]
Power = Annotated[float, quantities.POWER, ABOVE_ZERO]
VolumeFlow = Annotated[float, quantities.VOLUME_FLOW, ABOVE_ZERO]
Speed = Annotated[float, quantities.SPEED, ABOVE_ZERO]
Ratio = Annotated[float, quantities.RATIO, ABOVE_ZERO]
CompressionRatio = Annotated[float, quantities.RATIO, COMPRESSION]
Factor = Annotated[float, quantities.FACTOR, ABOVE_ZERO]
Efficiency = Annotated[float, quantities.FACTOR, Limits(0.0, 1.0, low_open=True)]
Count = Annotated[int, quantities.COUNT, Limits(low=1.0)]

# Quantities that may be zero or have either sign; their help says what the sign means.
LengthFromZero = Annotated[float, quantities.LENGTH, FROM_ZERO]
VolumeFromZero = Annotated[float, quantities.VOLUME, FROM_ZERO]
MassFromZero = Annotated[float, quantities.MASS, FROM_ZERO]
SignedLength = Annotated[float, quantities.LENGTH, ANY]
SignedVolume = Annotated[float, quantities.VOLUME, ANY]
TemperatureRise = Annotated[float, quantities.TEMPERATURE_RISE, RISE]
Angle = Annotated[float, quantities.ANGLE, TURNS]
SignedSpeed = Annotated[float, quantities.SPEED, ANY]
SignedForce = Annotated[float, quantities.FORCE, ANY]
Acceleration = Annotated[float, quantities.ACCELERATION, ANY]
Number = Annotated[float, quantities.NUMBER, ANY]

# A reading of any kind: a number as it stands in the book.
Reading = Annotated[float, quantities.READING, ANY]
Rows = tuple[tuple[float | None, ...], ...]
Readings = Annotated[Rows, quantities.READING, Block()]
Lengths = Annotated[Rows, quantities.LENGTH, ABOVE_ZERO, Block()]
Masses = Annotated[Rows, quantities.MASS, ABOVE_ZERO, Block()]
# Where something stands in a range, counted from 1 row by row.
Positions = Annotated[Rows, quantities.COUNT, Block()]
LengthRow = Annotated[tuple[tuple[float, ...]], quantities.LENGTH, Block()]
# One row: the lower limit, the upper limit, and the words that say who gives them.
LengthBand = Annotated[tuple[tuple[float, float, str]], quantities.LENGTH, Block()]
Text = Annotated[str, quantities.TEXT]
Material = Annotated[str, quantities.TEXT, Choice(tables.material_names())]
# What an engine is built for: the same words wherever a band is asked for.
Use = Annotated[
    str,
    quantities.TEXT,
    Choice(tables.use_names()),
    Note("What the engine is built for; `workbook-tools bands` says what each word means."),
]

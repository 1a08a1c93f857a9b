"""Kinds of quantity, and the unit that a bare number of each means in a book."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

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

    def __hash__(self) -> int:
        # No two have one name, and each number that is read or shown looks up its kind.
        return hash(self.name)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Kind) and self.name == other.name

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
LIQUID_FLOW = Kind("liquid flow", "m**3/s", "cc/min", "cc/min", (0, 0))
PUMP_FLOW = Kind("pump flow", "m**3/s", "gal/h", "l/h", (1, 1))
LIQUID_VOLUME = Kind("liquid volume", "m**3", "gal", "l", (3, 3))
HEATING_VALUE = Kind("heating value", "J/kg", "Btu/lb", "MJ/kg", (0, 2))
TEST_PRESSURE = Kind("test pressure", "Pa", "inH2O", "kPa", (1, 2))
TIME_AREA = Kind("time-area", "s*m**2", "s.sq in", "s.sq mm", (5, 3))
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
READING_KINDS = (
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
    HEATING_VALUE,
    TIME_AREA,
)

KINDS: Mapping[str, Kind] = {
    kind.name: kind for kind in list(globals().values()) if isinstance(kind, Kind)
}

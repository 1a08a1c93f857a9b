"""Two-strokes: ports by height and by angle, what they trap, squish, oil in the fuel."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import ABOVE_ZERO, Length, Limits
from workbook_tools.catalog.measured import (
    Bore,
    ChamberVolume,
    ClearanceVolume,
    CrankAngle,
    EngineSpeed,
    ExhaustPortDuration,
    PortDuration,
    PortOpening,
    Quench,
    RodLength,
    Stroke,
    TrappedRatio,
)
from workbook_tools.catalog.motion import piston_position
from workbook_tools.catalog.piston_speed import piston_velocity
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Crank, rod and piston motion"

SquishVelocity = Annotated[float, quantities.AIR_SPEED]
TimeArea = Annotated[float, quantities.TIME_AREA, ABOVE_ZERO]
LiquidVolume = Annotated[float, quantities.LIQUID_VOLUME, ABOVE_ZERO]
OilVolume = Annotated[float, quantities.VOLUME, ABOVE_ZERO]
# From racing oils at 12 to 1 to oils for 100 to 1.
PremixRatio = Annotated[float, quantities.RATIO, Limits(8.0, 200.0)]


@worksheet_function(SECTION)
def port_duration(stroke: Stroke, rod_length: RodLength, port_edge: Length) -> PortDuration:
    """Port duration: how long the piston leaves a port of the cylinder open.

    Parameters
    ----------
    port_edge
        Upper edge of the port below the piston's crown edge at top dead center, along the bore.

    Returns
    -------
    Crank angle from opening to closing, symmetrical about bottom dead center: it opens at 180
    deg less half of it after top dead center.

    Equation
    --------
    port_duration = 360 deg - 2 * t, cos(t) = (h**2 + r**2 - l**2) / (2 * h * r),
    h = r + l - port_edge, with r half the stroke and l the rod length

    Validity
    --------
    Exact for rigid parts without pin offset; a chamfered edge opens the port earlier. For the
    transfer ports as for the exhaust port.

    Source
    ------
    law of cosines in the triangle of crank and rod; Heywood, Internal Combustion Engine
    Fundamentals, equations 2.4 and 2.5
    """
    require(port_edge < stroke, "port_edge", "less than the stroke")
    require(rod_length > stroke / 2, "rod_length", "longer than half the stroke")
    throw = stroke / 2
    height = throw + rod_length - port_edge
    cosine = (height**2 + throw**2 - rod_length**2) / (2 * height * throw)
    return 2 * (math.pi - math.acos(max(min(cosine, 1.0), -1.0)))


@worksheet_function(SECTION)
def port_opening(stroke: Stroke, rod_length: RodLength, port_edge: Length) -> PortOpening:
    """Crank angle at which the piston opens a port of the cylinder.

    Parameters
    ----------
    port_edge
        Upper edge of the port below the piston's crown edge at top dead center, along the bore.

    Returns
    -------
    After top dead center. It closes as long before the next one, at 360 deg less it; back from an
    angle to the edge goes ENG.PISTON_POSITION.

    Equation
    --------
    port_opening = 180 deg - port_duration / 2, with port_duration as from ENG.PORT_DURATION

    Validity
    --------
    Exact for rigid parts without pin offset; a chamfered edge opens the port earlier.

    Source
    ------
    law of cosines in the triangle of crank and rod; Heywood, Internal Combustion Engine
    Fundamentals, equations 2.4 and 2.5
    """
    return math.pi - port_duration(stroke, rod_length, port_edge) / 2


@worksheet_function(SECTION)
def port_edge_for_duration(
    stroke: Stroke, rod_length: RodLength, port_duration: PortDuration
) -> Length:
    """Upper edge of a port for a duration wanted.

    Parameters
    ----------
    port_duration
        Crank angle from opening to closing.

    Returns
    -------
    Distance below the piston's crown edge at top dead center, along the bore: for the exhaust
    port it is the trapped stroke.

    Equation
    --------
    port_edge = r + l - r * cos(t) - sqrt(l**2 - (r * sin(t))**2), t = 180 deg - port_duration / 2,
    with r half the stroke and l the rod length

    Validity
    --------
    Exact for rigid parts without pin offset. Metal taken off a port does not come back: cut less
    and measure.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, equations 2.4 and 2.5
    """
    return piston_position(stroke, rod_length, math.pi - port_duration / 2)


@worksheet_function(SECTION)
def trapped_ratio(
    bore: Bore,
    stroke: Stroke,
    rod_length: RodLength,
    exhaust_duration: ExhaustPortDuration,
    clearance_volume: ClearanceVolume,
) -> TrappedRatio:
    """Trapped compression ratio, from the exhaust port's closing.

    Parameters
    ----------
    exhaust_duration
        Crank angle from opening to closing of the exhaust port.
    clearance_volume
        left above the piston at top dead center.

    Equation
    --------
    trapped_ratio = (clearance_volume + pi / 4 * bore**2 * port_edge) / clearance_volume, with
    port_edge as from ENG.PORT_EDGE_FOR_DURATION

    Validity
    --------
    A ratio of volumes: a tuned exhaust can push back more charge than the port's closing traps.

    Source
    ------
    common practice, no source (ratio of volumes)

    Caution
    -------
    Too high a ratio knocks and burns pistons. Fuel, ignition and the engine maker's figure come
    first.
    """
    edge = port_edge_for_duration(stroke, rod_length, exhaust_duration)
    return 1 + math.pi / 4 * bore**2 * edge / clearance_volume


@worksheet_function(SECTION)
def port_time_area(
    port_width: Length,
    port_height: Length,
    port_edge: Length,
    stroke: Stroke,
    rod_length: RodLength,
    engine_speed: EngineSpeed,
) -> TimeArea:
    """Time-area of a port: its open area summed over the time that it is open.

    Parameters
    ----------
    port_width
        Across the port, as the flow sees it; all ports of a kind together.
    port_height
        From its upper to its lower edge.
    port_edge
        Upper edge of the port below the piston's crown edge at top dead center, along the bore.

    Returns
    -------
    For one turn. Divided by the cylinder's volume it is the specific time-area.

    Equation
    --------
    port_time_area = integral over t of port_width * min(piston_position - port_edge, port_height)
    / w, from opening to closing, w the crank's speed in rad per unit of time

    Validity
    --------
    A rectangular port; round corners take some percent. No flow coefficient. It compares ports
    of one engine, and says nothing of the exhaust's tuning.

    Source
    ------
    common practice, no source (area summed over time)
    """
    opens = port_opening(stroke, rod_length, port_edge)
    steps = 720
    total = 0.0
    for step in range(steps):
        angle = opens + (math.pi - opens) * (step + 0.5) / steps
        opened = piston_position(stroke, rod_length, angle) - port_edge
        total += max(0.0, min(opened, port_height))
    mean = port_width * total / steps
    return mean * 2 * (math.pi - opens) / engine_speed


@worksheet_function(SECTION)
def squish_velocity(
    bore: Bore,
    stroke: Stroke,
    rod_length: RodLength,
    bowl_diameter: Length,
    bowl_volume: ChamberVolume,
    squish: Quench,
    engine_speed: EngineSpeed,
    crank_angle: CrankAngle,
) -> SquishVelocity:
    """Squish velocity of the gas over the bowl's edge at a crank angle.

    Parameters
    ----------
    bowl_diameter
        Round chamber in the middle of the head or piston, inside the squish band.
    bowl_volume
        of that chamber alone.
    squish
        Clearance between squish band and piston at top dead center, parallel.
    crank_angle
        From top dead center: -10 for 10 deg before it. The peak is near there; try some angles.

    Returns
    -------
    Positive inward, as before top dead center; negative outward after it.

    Equation
    --------
    squish_velocity = S * d / (4 * z) * ((bore / d)**2 - 1) * V / (pi / 4 * bore**2 * z + V), with
    S the piston's speed toward the head, d the bowl_diameter, V the bowl_volume and
    z = squish + piston_position

    Validity
    --------
    One density throughout, no leakage, no friction, no combustion: an estimate from above, by some
    10 to 20 % or more. For comparing chambers.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 8 (squish), from memory

    Caution
    -------
    A squish clearance cut too close lets the piston hit the head at speed: the maker's least
    clearance comes first.
    """
    require(bowl_diameter < bore, "bowl_diameter", "less than the bore")
    gap = squish + piston_position(stroke, rod_length, crank_angle)
    closing = -piston_velocity(stroke, rod_length, crank_angle, engine_speed)
    area = math.pi / 4 * bore**2
    band = bowl_diameter / (4 * gap) * ((bore / bowl_diameter) ** 2 - 1)
    return closing * band * bowl_volume / (area * gap + bowl_volume)


@worksheet_function("Air and power")
def premix_oil(fuel_volume: LiquidVolume, premix_ratio: PremixRatio) -> OilVolume:
    """Oil for a volume of fuel at a premix ratio.

    Parameters
    ----------
    fuel_volume
        US gallons in an inch book, liters in a metric one.
    premix_ratio
        Parts of fuel for one part of oil: 32 for 32 to 1.

    Equation
    --------
    premix_oil = fuel_volume / premix_ratio

    Source
    ------
    common practice, no source (definition of the ratio)

    Caution
    -------
    Too little oil seizes the engine: the engine and oil makers' ratios come first. More oil
    leans the mixture, as it takes the place of fuel. Mix in an approved can, outdoors, away from
    flames.
    """
    return fuel_volume / premix_ratio

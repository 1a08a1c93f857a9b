"""Speeds and accelerations of the piston, and what sets the highest of them."""

from __future__ import annotations

import math

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.measured import (
    CrankAngle,
    EngineSpeed,
    Journal,
    JournalSurfaceSpeed,
    MeanPistonSpeed,
    PeakPistonSpeed,
    PeakSpeedAngle,
    PinOffset,
    PistonAcceleration,
    PistonVelocity,
    RodLength,
    Stroke,
    TdcAcceleration,
)
from workbook_tools.catalog.motion import SECTION
from workbook_tools.catalog.registry import worksheet_function


@worksheet_function(SECTION)
def mean_piston_speed(stroke: Stroke, engine_speed: EngineSpeed) -> MeanPistonSpeed:
    """Mean piston speed: two strokes for every turn of the crank.

    Equation
    --------
    mean_piston_speed = 2 * stroke * N, with N in turns per unit of time

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, equation 2.9

    Caution
    -------
    What speed an engine can stand is set by its parts, not by this figure: keep to the limits
    of the makers of piston, rod and bolts.
    """
    return stroke * engine_speed / math.pi


@worksheet_function(SECTION)
def speed_for_piston_speed(piston_speed: MeanPistonSpeed, stroke: Stroke) -> EngineSpeed:
    """Engine speed at which the mean piston speed reaches a limit.

    Parameters
    ----------
    piston_speed
        not to be passed.

    Equation
    --------
    N = piston_speed / (2 * stroke), in turns per unit of time

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, equation 2.9, solved for the speed

    Caution
    -------
    What speed an engine can stand is set by its parts, not by this figure: keep to the limits
    of the makers of piston, rod and bolts.
    """
    return math.pi * piston_speed / stroke


@worksheet_function(SECTION)
def piston_velocity(
    stroke: Stroke,
    rod_length: RodLength,
    crank_angle: CrankAngle,
    engine_speed: EngineSpeed,
    pin_offset: PinOffset = 0.0,
) -> PistonVelocity:
    """Velocity of the piston at a crank angle.

    Parameters
    ----------
    crank_angle
        From the throw standing up the bore, which is top dead center where the pin is not offset.

    Equation
    --------
    velocity = w * r * (sin(angle) - cos(angle) * q / sqrt(l**2 - q**2)), with
    q = e - r * sin(angle), w the crank's angular speed, r half the stroke, l the rod length
    and e the pin offset

    Validity
    --------
    Exact for rigid parts without clearance at a steady speed.

    Source
    ------
    derivative of the piston position (Heywood, Internal Combustion Engine Fundamentals,
    equations 2.4 and 2.5)
    """
    throw = stroke / 2
    require(
        rod_length > throw + abs(pin_offset),
        "rod_length",
        "longer than half the stroke and the pin offset together",
    )
    lean = pin_offset - throw * math.sin(crank_angle)
    upright = math.sqrt(rod_length**2 - lean**2)
    slope = throw * (math.sin(crank_angle) - math.cos(crank_angle) * lean / upright)
    return engine_speed * slope


@worksheet_function(SECTION)
def peak_speed_angle(stroke: Stroke, rod_length: RodLength) -> PeakSpeedAngle:
    """Crank angle after top dead center at which the piston is fastest.

    Returns
    -------
    The angle on the way down; on the way up it is as far before top dead center.

    Equation
    --------
    sin(angle)**2 = t / k**2, with k = stroke / (2 * rod_length) and t the root of
    t**3 - t**2 - t + k**2 = 0 between 0 and 1:
    t = 1/3 + 4/3 * cos(acos((11 - 27 * k**2) / 16) / 3 - 2 * pi / 3)

    Validity
    --------
    Exact without pin offset.

    Source
    ------
    zero of the piston's acceleration (Heywood, Internal Combustion Engine Fundamentals,
    equations 2.4 and 2.5), the cubic solved by cosines
    """
    throw = stroke / 2
    require(rod_length > throw, "rod_length", "longer than half the stroke")
    square = (throw / rod_length) ** 2
    root = 1 / 3 + 4 / 3 * math.cos(math.acos((11 - 27 * square) / 16) / 3 - 2 * math.pi / 3)
    return math.asin(math.sqrt(root / square))


@worksheet_function(SECTION)
def peak_piston_speed(
    stroke: Stroke, rod_length: RodLength, engine_speed: EngineSpeed
) -> PeakPistonSpeed:
    """Highest speed that the piston reaches in a turn.

    Equation
    --------
    peak_piston_speed = piston_velocity at peak_speed_angle

    Validity
    --------
    Exact without pin offset, for rigid parts at a steady speed.

    Source
    ------
    derivative of the piston position (Heywood, Internal Combustion Engine Fundamentals,
    equations 2.4 and 2.5)

    Caution
    -------
    What speed an engine can stand is set by its parts, not by this figure: keep to the limits
    of the makers of piston, rod and bolts.
    """
    angle = peak_speed_angle(stroke, rod_length)
    return piston_velocity(stroke, rod_length, angle, engine_speed)


@worksheet_function(SECTION)
def piston_acceleration(
    stroke: Stroke,
    rod_length: RodLength,
    crank_angle: CrankAngle,
    engine_speed: EngineSpeed,
    pin_offset: PinOffset = 0.0,
) -> PistonAcceleration:
    """Acceleration of the piston at a crank angle.

    Parameters
    ----------
    crank_angle
        From the throw standing up the bore, which is top dead center where the pin is not offset.

    Returns
    -------
    Positive away from the head, as at top dead center; negative toward it.

    Equation
    --------
    acceleration = w**2 * r * (cos(angle) + sin(angle) * q / h + r * cos(angle)**2 * l**2 / h**3),
    with q = e - r * sin(angle), h = sqrt(l**2 - q**2), w the crank's angular speed, r half
    the stroke, l the rod length and e the pin offset

    Validity
    --------
    Exact for rigid parts without clearance at a steady speed.

    Source
    ------
    second derivative of the piston position (Heywood, Internal Combustion Engine
    Fundamentals, equations 2.4 and 2.5)
    """
    throw = stroke / 2
    require(
        rod_length > throw + abs(pin_offset),
        "rod_length",
        "longer than half the stroke and the pin offset together",
    )
    lean = pin_offset - throw * math.sin(crank_angle)
    upright = math.sqrt(rod_length**2 - lean**2)
    swing = throw * math.cos(crank_angle) ** 2 * rod_length**2 / upright**3
    bend = throw * (math.cos(crank_angle) + math.sin(crank_angle) * lean / upright + swing)
    return engine_speed**2 * bend


@worksheet_function(SECTION)
def tdc_acceleration(
    stroke: Stroke, rod_length: RodLength, engine_speed: EngineSpeed
) -> TdcAcceleration:
    """Acceleration of the piston at top dead center, the largest of the turn.

    Equation
    --------
    tdc_acceleration = w**2 * r * (1 + r / l), with w the crank's angular speed, r half the
    stroke and l the rod length

    Validity
    --------
    Exact without pin offset, for rigid parts at a steady speed.

    Source
    ------
    Khurmi & Gupta, Theory of Machines, chapter 15 (the two-term form is exact at the dead
    centers)

    Caution
    -------
    What speed an engine can stand is set by its parts, not by this figure: keep to the limits
    of the makers of piston, rod and bolts.
    """
    throw = stroke / 2
    require(rod_length > throw, "rod_length", "longer than half the stroke")
    return engine_speed**2 * throw * (1 + throw / rod_length)


@worksheet_function(SECTION)
def journal_speed(journal_diameter: Journal, engine_speed: EngineSpeed) -> JournalSurfaceSpeed:
    """Speed of a journal's surface in its bearing.

    Parameters
    ----------
    journal_diameter
        main or rod.

    Equation
    --------
    journal_speed = pi * journal_diameter * N, with N in turns per unit of time

    Validity
    --------
    Against a housing at rest; a rod that swings adds to and takes from it.

    Source
    ------
    Shigley, Mechanical Engineering Design, chapter 12 (surface speed of a journal)
    """
    return journal_diameter / 2 * engine_speed

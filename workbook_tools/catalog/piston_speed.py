"""Speeds and accelerations of the piston, and what sets the highest of them."""

from __future__ import annotations

import math

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    Acceleration,
    Angle,
    Length,
    Rotation,
    SignedLength,
    SignedSpeed,
    Speed,
)
from workbook_tools.catalog.motion import SECTION
from workbook_tools.catalog.registry import worksheet_function


@worksheet_function(SECTION)
def mean_piston_speed(stroke: Length, engine_speed: Rotation) -> Speed:
    """Mean piston speed: two strokes for every turn of the crank.

    Parameters
    ----------
    stroke
        Stroke of the crank, twice its throw.
    engine_speed
        Speed of the crankshaft.

    Equation
    --------
    mean_piston_speed = 2 * stroke * N, with N in turns per unit of time

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, equation 2.9

    Caution
    -------
    What speed an engine bears is set by its parts, not by this figure: keep to the limits
    of the makers of piston, rod and bolts.
    """
    return stroke * engine_speed / math.pi


@worksheet_function(SECTION)
def speed_for_piston_speed(piston_speed: Speed, stroke: Length) -> Rotation:
    """Engine speed at which the mean piston speed reaches a limit.

    Parameters
    ----------
    piston_speed
        Mean piston speed not to be passed.
    stroke
        Stroke of the crank, twice its throw.

    Equation
    --------
    N = piston_speed / (2 * stroke), in turns per unit of time

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, equation 2.9, solved for the speed

    Caution
    -------
    What speed an engine bears is set by its parts, not by this figure: keep to the limits
    of the makers of piston, rod and bolts.
    """
    return math.pi * piston_speed / stroke


@worksheet_function(SECTION)
def piston_velocity(
    stroke: Length,
    rod_length: Length,
    crank_angle: Angle,
    engine_speed: Rotation,
    pin_offset: SignedLength = 0.0,
) -> SignedSpeed:
    """Velocity of the piston at a crank angle.

    Parameters
    ----------
    stroke
        Stroke of the crank, twice its throw.
    rod_length
        Rod length, center to center.
    crank_angle
        From the throw standing up the bore, which is top dead center where the pin is not
        offset; positive in the direction of rotation. Type 0 for 0; an empty cell is not 0.
    engine_speed
        Speed of the crankshaft.
    pin_offset
        Piston pin (or bore) from the crank's centerline: positive toward the side that the
        crankpin moves to after top dead center, negative toward the other (the major thrust
        side). 0 if left out.

    Returns
    -------
    Positive on the way down from the head, negative on the way up.

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
def peak_speed_angle(stroke: Length, rod_length: Length) -> Angle:
    """Crank angle after top dead center at which the piston is fastest.

    Parameters
    ----------
    stroke
        Stroke of the crank, twice its throw.
    rod_length
        Rod length, center to center.

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
def peak_piston_speed(stroke: Length, rod_length: Length, engine_speed: Rotation) -> Speed:
    """Highest speed that the piston reaches in a turn.

    Parameters
    ----------
    stroke
        Stroke of the crank, twice its throw.
    rod_length
        Rod length, center to center.
    engine_speed
        Speed of the crankshaft.

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
    What speed an engine bears is set by its parts, not by this figure: keep to the limits
    of the makers of piston, rod and bolts.
    """
    angle = peak_speed_angle(stroke, rod_length)
    return piston_velocity(stroke, rod_length, angle, engine_speed)


@worksheet_function(SECTION)
def piston_acceleration(
    stroke: Length,
    rod_length: Length,
    crank_angle: Angle,
    engine_speed: Rotation,
    pin_offset: SignedLength = 0.0,
) -> Acceleration:
    """Acceleration of the piston at a crank angle.

    Parameters
    ----------
    stroke
        Stroke of the crank, twice its throw.
    rod_length
        Rod length, center to center.
    crank_angle
        From the throw standing up the bore, which is top dead center where the pin is not
        offset; positive in the direction of rotation. Type 0 for 0; an empty cell is not 0.
    engine_speed
        Speed of the crankshaft.
    pin_offset
        Piston pin (or bore) from the crank's centerline: positive toward the side that the
        crankpin moves to after top dead center, negative toward the other (the major thrust
        side). 0 if left out.

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
def tdc_acceleration(stroke: Length, rod_length: Length, engine_speed: Rotation) -> Acceleration:
    """Acceleration of the piston at top dead center, the largest of the turn.

    Parameters
    ----------
    stroke
        Stroke of the crank, twice its throw.
    rod_length
        Rod length, center to center.
    engine_speed
        Speed of the crankshaft.

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
    What speed an engine bears is set by its parts, not by this figure: keep to the limits
    of the makers of piston, rod and bolts.
    """
    throw = stroke / 2
    require(rod_length > throw, "rod_length", "longer than half the stroke")
    return engine_speed**2 * throw * (1 + throw / rod_length)


@worksheet_function(SECTION)
def journal_speed(journal_diameter: Length, engine_speed: Rotation) -> Speed:
    """Speed of a journal's surface in its bearing.

    Parameters
    ----------
    journal_diameter
        Diameter of the main or rod journal.
    engine_speed
        Speed of the crankshaft.

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

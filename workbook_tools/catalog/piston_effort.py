"""Forces from gas pressure and inertia on piston, wall, rod and crankpin, and the crank's torque.

Rigid parts in one plane, no friction and no pin offset. Forces along the bore count positive
toward the crank; a crank angle counts from top dead center.
"""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.kinds import Limits, SignedForce
from workbook_tools.catalog.measured import (
    Bore,
    CrankAngle,
    EngineSpeed,
    ReciprocatingMass,
    RodLength,
    RotatingMass,
    Stroke,
)
from workbook_tools.catalog.motion import rod_angle
from workbook_tools.catalog.piston_speed import piston_acceleration
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Crank, rod and piston motion"

# Over the crankcase's pressure: a vacuum to what breaks any engine.
GasPressure = Annotated[float, quantities.PRESSURE, Limits(-1.1e5, 5e7)]
PistonEffort = Annotated[float, quantities.FORCE, Limits(-1e8, 1e8)]
CrankTorque = Annotated[float, quantities.TORQUE, Limits()]


@worksheet_function(SECTION)
def piston_effort(
    bore: Bore,
    gas_pressure: GasPressure,
    reciprocating_mass: ReciprocatingMass,
    stroke: Stroke,
    rod_length: RodLength,
    engine_speed: EngineSpeed,
    crank_angle: CrankAngle,
) -> SignedForce:
    """Piston effort: gas force less inertia force, along the bore.

    Parameters
    ----------
    gas_pressure
        In the cylinder at this angle, over the pressure in the crankcase; negative for a vacuum.
    reciprocating_mass
        of one cylinder: piston, rings, pin and the rod's small-end part.
    crank_angle
        From top dead center.

    Returns
    -------
    Positive toward the crank; negative where the rod pulls the piston.

    Equation
    --------
    piston_effort = gas_pressure * pi / 4 * bore**2 - reciprocating_mass * a, with a the piston's
    acceleration toward the crank

    Validity
    --------
    The exact acceleration, not the two terms of many textbooks, which differ by some 0.5 %.
    Without friction, weight and pin offset. The pressure at an angle has to be measured or
    assumed: the result is no better than it.

    Source
    ------
    Khurmi & Gupta, Theory of Machines, chapter 15 (piston effort)

    Caution
    -------
    A figure for comparing builds, no proof that piston, pin or rod hold: their makers' limits of
    speed and power come first.
    """
    acceleration = piston_acceleration(stroke, rod_length, crank_angle, engine_speed)
    return gas_pressure * math.pi / 4 * bore**2 - reciprocating_mass * acceleration


@worksheet_function(SECTION)
def side_thrust(
    piston_effort: PistonEffort, stroke: Stroke, rod_length: RodLength, crank_angle: CrankAngle
) -> SignedForce:
    """Side thrust of the piston on the cylinder wall.

    Parameters
    ----------
    piston_effort
        as from ENG.PISTON_EFFORT, positive toward the crank.
    crank_angle
        From top dead center.

    Returns
    -------
    Positive toward the major thrust side, which the piston leans on in its power stroke;
    negative toward the other.

    Equation
    --------
    side_thrust = piston_effort * tan(p), sin(p) = stroke / 2 * sin(crank_angle) / rod_length

    Validity
    --------
    Statics of rigid parts in one plane, without friction and pin offset.

    Source
    ------
    Khurmi & Gupta, Theory of Machines, chapter 15 (thrust on the sides of the cylinder walls)

    Caution
    -------
    A figure for comparing builds, no proof that skirt or wall hold: their makers' limits come
    first.
    """
    return piston_effort * math.tan(rod_angle(stroke, rod_length, crank_angle))


@worksheet_function(SECTION)
def rod_thrust(
    piston_effort: PistonEffort, stroke: Stroke, rod_length: RodLength, crank_angle: CrankAngle
) -> SignedForce:
    """Force along the connecting rod, which the crankpin carries too.

    Parameters
    ----------
    piston_effort
        as from ENG.PISTON_EFFORT, positive toward the crank.
    crank_angle
        From top dead center.

    Returns
    -------
    Positive where the rod is pressed, negative where it is pulled.

    Equation
    --------
    rod_thrust = piston_effort / cos(p), sin(p) = stroke / 2 * sin(crank_angle) / rod_length

    Validity
    --------
    Statics of rigid parts. The big end's own turning mass adds to the load of the crankpin: see
    ENG.CRANKPIN_LOAD.

    Source
    ------
    Khurmi & Gupta, Theory of Machines, chapter 15 (force in the connecting rod)

    Caution
    -------
    A figure for comparing builds, no proof that a rod holds: its maker's limits of speed and
    power come first. A rod that breaks throws parts through the block.
    """
    return piston_effort / math.cos(rod_angle(stroke, rod_length, crank_angle))


@worksheet_function(SECTION)
def crankpin_load(
    piston_effort: PistonEffort,
    big_end_mass: RotatingMass,
    stroke: Stroke,
    rod_length: RodLength,
    engine_speed: EngineSpeed,
    crank_angle: CrankAngle,
) -> SignedForce:
    """Load of the crankpin: the rod's force and the turning of its big end together.

    Parameters
    ----------
    piston_effort
        as from ENG.PISTON_EFFORT, positive toward the crank.
    big_end_mass
        On one pin: the rod's big-end part with its shells, as weighed for a bobweight.
    crank_angle
        From top dead center.

    Returns
    -------
    Size of the sum of both forces, never negative.

    Equation
    --------
    crankpin_load = sqrt((Q * cos(t + p) - m * w**2 * r)**2 + (Q * sin(t + p))**2), with Q the
    rod_thrust, t the crank angle, r half the stroke and sin(p) = r * sin(t) / rod_length

    Validity
    --------
    One rod on the pin, as two masses at its ends; steady speed.

    Source
    ------
    Khurmi & Gupta, Theory of Machines, chapter 15 (forces on the crankpin, rod as two masses)

    Caution
    -------
    A figure for comparing builds, no proof that a bearing holds: the bearing and rod makers'
    limits come first.
    """
    lean = rod_angle(stroke, rod_length, crank_angle)
    along = piston_effort / math.cos(lean)
    turning = big_end_mass * engine_speed**2 * stroke / 2
    radial = along * math.cos(crank_angle + lean) - turning
    return math.sqrt(radial**2 + (along * math.sin(crank_angle + lean)) ** 2)


@worksheet_function(SECTION)
def crank_torque(
    piston_effort: PistonEffort, stroke: Stroke, rod_length: RodLength, crank_angle: CrankAngle
) -> CrankTorque:
    """Torque of one cylinder on the crank at an angle.

    Parameters
    ----------
    piston_effort
        as from ENG.PISTON_EFFORT, positive toward the crank.
    crank_angle
        From top dead center.

    Returns
    -------
    Positive where it drives the crank, negative where the crank drives the piston.

    Equation
    --------
    crank_torque = piston_effort * stroke / 2 * sin(t + p) / cos(p), with t the crank angle and
    sin(p) = stroke / 2 * sin(t) / rod_length

    Validity
    --------
    At one instant and of one cylinder; the torque that a dynamometer reads is the mean of all
    over a cycle, less friction. The rod's own turning is left out.

    Source
    ------
    Khurmi & Gupta, Theory of Machines, chapter 15 (turning moment on the crankshaft)

    Caution
    -------
    A figure for comparing builds, no proof that a crank holds: it leaves out how the crank twists
    and swings, and its maker's limits come first.
    """
    lean = rod_angle(stroke, rod_length, crank_angle)
    return piston_effort * stroke / 2 * math.sin(crank_angle + lean) / math.cos(lean)

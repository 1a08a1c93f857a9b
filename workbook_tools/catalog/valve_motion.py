"""How a valve moves, from a table of its lift: speed, acceleration, what the spring must hold."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    ABOVE_ZERO,
    ANY,
    Acceleration,
    Force,
    Limits,
    Note,
    SignedForce,
    SignedLength,
    SignedSpeed,
    measured,
)
from workbook_tools.catalog.measured import EngineSpeed, Lash, ValveLiftAtAngle
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Camshaft and valvetrain"

LiftBefore = Annotated[
    float, measured("valve_lift_at_angle"), Note("One line of the table before.")
]
LiftAfter = Annotated[float, measured("valve_lift_at_angle"), Note("One line of the table after.")]
Interval = Annotated[
    float,
    quantities.ANGLE,
    Limits(0.0, math.radians(20), low_open=True),
    Note("Crank degrees from one line of the table to the next."),
]
MovingMass = Annotated[
    float,
    quantities.MASS,
    ABOVE_ZERO,
    Note(
        "Moving mass at the valve: valve, retainer, locks, a third to a half of the spring, and "
        "the parts on the cam's side divided by the rocker ratio squared."
    ),
]
SpringLoad = Annotated[
    float, quantities.FORCE, ABOVE_ZERO, Note("At this lift, as from ENG.SPRING_LOAD.")
]
NoseAcceleration = Annotated[
    float,
    quantities.ACCELERATION,
    ANY,
    Note("Negative, over the nose, as from ENG.VALVE_ACCELERATION."),
]
FloatSpeed = Annotated[float, quantities.ROTATION, ABOVE_ZERO]


@worksheet_function(SECTION)
def valve_speed(
    lift_before: LiftBefore,
    lift_after: LiftAfter,
    interval: Interval,
    engine_speed: EngineSpeed,
) -> SignedSpeed:
    """Speed of a valve between two lifts of a table.

    Returns
    -------
    Positive while the valve opens.

    Equation
    --------
    speed = (lift_after - lift_before) / (2 * interval) * engine_speed, interval in radians of
    the crank

    Validity
    --------
    Good where the lift is smooth and its readings are fine: tables every 2 crank degrees (1 of the
    cam) to a tenth of a thousandth of an inch are usual.

    Source
    ------
    central difference, a standard formula of numerical analysis
    """
    return (lift_after - lift_before) / (2 * interval) * engine_speed


@worksheet_function(SECTION)
def valve_acceleration(
    lift_before: LiftBefore,
    lift: ValveLiftAtAngle,
    lift_after: LiftAfter,
    interval: Interval,
    engine_speed: EngineSpeed,
) -> Acceleration:
    """Acceleration of a valve, from three lifts of a table at equal steps.

    Returns
    -------
    Positive where the cam pushes, negative over the nose, where the spring must hold the valve.

    Equation
    --------
    acceleration = (lift_before - 2 * lift + lift_after) / interval**2 * engine_speed**2,
    interval in radians of the crank

    Validity
    --------
    Errors of the readings grow: half a thousandth of an inch in the lift before or after, at 2
    degrees and 7000 rpm, is some 18 000 ft/s2. Smooth a measured table first. Holds for a stiff
    train; a real one bends and vibrates.

    Source
    ------
    second difference, a standard formula of numerical analysis
    """
    return (lift_before - 2 * lift + lift_after) / interval**2 * engine_speed**2


@worksheet_function(SECTION)
def spring_force_needed(valve_mass: MovingMass, acceleration: NoseAcceleration) -> Force:
    """Spring force that keeps the valve on its cam where the lift slows.

    Equation
    --------
    force = -valve_mass * acceleration

    Validity
    --------
    A stiff train. Vibration, spring surge and friction of a real one ask for more.

    Source
    ------
    Newton's second law; what share of the spring moves, common practice, no source

    Caution
    -------
    A valve that leaves its cam meets the piston. The cam maker's springs come first.
    """
    require(acceleration < 0, "acceleration", "negative: over the nose, where the spring must hold")
    return -valve_mass * acceleration


@worksheet_function(SECTION)
def spring_margin(
    spring_load: SpringLoad, valve_mass: MovingMass, acceleration: NoseAcceleration
) -> SignedForce:
    """What a valve spring holds beyond what the motion needs.

    Returns
    -------
    Positive: the spring holds. Negative: the valve leaves its cam.

    Equation
    --------
    margin = spring_load + valve_mass * acceleration

    Validity
    --------
    A stiff train; a quarter to a half of the force needed is a common allowance for vibration and
    surge.

    Source
    ------
    Newton's second law; what share of the spring moves, common practice, no source

    Caution
    -------
    A valve that leaves its cam meets the piston. The cam maker's springs come first.
    """
    return spring_load - spring_force_needed(valve_mass, acceleration)


@worksheet_function(SECTION)
def float_speed(
    engine_speed: EngineSpeed,
    spring_load: SpringLoad,
    valve_mass: MovingMass,
    acceleration: NoseAcceleration,
) -> FloatSpeed:
    """Engine speed at which a stiff valve would leave its cam at this lift.

    Parameters
    ----------
    engine_speed
        For which the acceleration holds.

    Equation
    --------
    float_speed = engine_speed * sqrt(spring_load / (-valve_mass * acceleration))

    Validity
    --------
    The least over all lifts counts. A real train, which bends and whose spring surges, loses its
    valve well before.

    Source
    ------
    Newton's second law, acceleration with the square of speed; what share of the spring moves,
    common practice, no source

    Caution
    -------
    Not a speed to run at: a valve that leaves its cam meets the piston. The cam maker's limit
    comes first.
    """
    return engine_speed * math.sqrt(spring_load / spring_force_needed(valve_mass, acceleration))


@worksheet_function(SECTION)
def hot_lash(
    cold_lash: Lash, housing_growth: SignedLength, train_growth: SignedLength
) -> SignedLength:
    """Valve lash of the warm engine, from the cold one and what parts grow.

    Parameters
    ----------
    cold_lash
        as set cold, at the valve.
    housing_growth
        By how much the head, and with pushrods the block, grow between camshaft and valve seat:
        ENG.BLOCK_GROWTH gives it for any length, rise and material. Positive: it grows, and opens
        the lash.
    train_growth
        By how much the valve grows, and a pushrod times the rocker's ratio. Positive: it grows, and
        closes the lash.

    Returns
    -------
    Negative where the valve would be held open.

    Equation
    --------
    hot_lash = cold_lash + housing_growth - train_growth

    Validity
    --------
    Parts at even temperatures of their own. Seats and valves also wear and sink.

    Source
    ------
    common practice, no source (sum of lengths)

    Caution
    -------
    A valve held open burns. The cam and engine makers' lash comes first, and a hot check after it.
    """
    return cold_lash + housing_growth - train_growth

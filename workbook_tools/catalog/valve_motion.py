"""How a valve moves, from a table of its lift: speed, acceleration, what the spring must hold."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    ANY,
    Acceleration,
    LengthFromZero,
    Limits,
    Mass,
    SignedForce,
    SignedLength,
    SignedSpeed,
)
from workbook_tools.catalog.measured import EngineSpeed, Lash
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Camshaft and valvetrain"

Interval = Annotated[float, quantities.ANGLE, Limits(0.0, math.radians(20), low_open=True)]
SpringForce = Annotated[float, quantities.FORCE, Limits(0.0, low_open=True)]
FloatSpeed = Annotated[float, quantities.ROTATION, Limits(0.0, low_open=True)]
HotLash = Annotated[float, quantities.LENGTH, ANY]


@worksheet_function(SECTION)
def valve_speed(
    lift_before: LengthFromZero,
    lift_after: LengthFromZero,
    interval: Interval,
    engine_speed: EngineSpeed,
) -> SignedSpeed:
    """Speed of a valve between two lifts of a table.

    Parameters
    ----------
    lift_before
        Lift at the valve one step before.
    lift_after
        Lift at the valve one step after.
    interval
        Crank degrees from one line of the table to the next: this call spans two of them.

    Returns
    -------
    Positive while the valve opens.

    Equation
    --------
    speed = (lift_after - lift_before) / (2 * interval) * engine_speed, interval in radians of
    the crank

    Validity
    --------
    By central differences: good where the lift is smooth and readings have more digits than the
    difference needs. 2 crank degrees (1 of the cam) and a tenth of a thousandth are usual.

    Source
    ------
    Abramowitz & Stegun, Handbook of Mathematical Functions, 25.3.21 (central difference)
    """
    return (lift_after - lift_before) / (2 * interval) * engine_speed


@worksheet_function(SECTION)
def valve_acceleration(
    lift_before: LengthFromZero,
    lift: LengthFromZero,
    lift_after: LengthFromZero,
    interval: Interval,
    engine_speed: EngineSpeed,
) -> Acceleration:
    """Acceleration of a valve, from three lifts of a table at equal steps.

    Parameters
    ----------
    lift_before
        Lift at the valve one step before.
    lift
        Lift at the valve here.
    lift_after
        Lift at the valve one step after.
    interval
        Crank degrees from one line of the table to the next.

    Returns
    -------
    Positive where the cam pushes, negative over the nose, where the spring must hold the valve.

    Equation
    --------
    acceleration = (lift_before - 2 * lift + lift_after) / interval**2 * engine_speed**2,
    interval in radians of the crank

    Validity
    --------
    By second differences, which magnify what readings are off: half a thousandth of an inch at 2
    degrees and 7000 rpm is some 18 000 ft/s2. Smooth a measured table first. A stiff train is
    taken for granted; a real one bends and swings.

    Source
    ------
    Abramowitz & Stegun, Handbook of Mathematical Functions, 25.3.23 (second difference)
    """
    return (lift_before - 2 * lift + lift_after) / interval**2 * engine_speed**2


@worksheet_function(SECTION)
def spring_force_needed(valve_mass: Mass, acceleration: Acceleration) -> SpringForce:
    """Spring force that keeps the valve on its cam where the lift slows.

    Parameters
    ----------
    valve_mass
        Moving mass at the valve: valve, retainer, locks, a third to a half of the spring, and the
        other side of the rocker brought over by the ratio squared.
    acceleration
        Negative, over the nose, as from ENG.VALVE_ACCELERATION.

    Equation
    --------
    force = -valve_mass * acceleration

    Validity
    --------
    A stiff train. What a real one swings, surges and rubs must be held on top.

    Source
    ------
    Newton's second law

    Caution
    -------
    A valve that leaves its cam meets the piston. The cam maker's springs come first.
    """
    require(acceleration < 0, "acceleration", "negative: over the nose, where the spring must hold")
    return -valve_mass * acceleration


@worksheet_function(SECTION)
def spring_margin(
    spring_load: SpringForce, valve_mass: Mass, acceleration: Acceleration
) -> SignedForce:
    """What a valve spring holds beyond what the motion needs.

    Parameters
    ----------
    spring_load
        At this lift, as from ENG.SPRING_LOAD.
    valve_mass
        Moving mass at the valve: valve, retainer, locks, a third to a half of the spring, and the
        other side of the rocker brought over by the ratio squared.
    acceleration
        Negative, over the nose, as from ENG.VALVE_ACCELERATION.

    Returns
    -------
    Positive: the spring holds. Negative: the valve leaves its cam.

    Equation
    --------
    margin = spring_load + valve_mass * acceleration

    Validity
    --------
    A stiff train; a quarter to a half of what is needed is a common allowance for swing and surge.

    Source
    ------
    Newton's second law

    Caution
    -------
    A valve that leaves its cam meets the piston. The cam maker's springs come first.
    """
    require(acceleration < 0, "acceleration", "negative: over the nose, where the spring must hold")
    return spring_load + valve_mass * acceleration


@worksheet_function(SECTION)
def float_speed(
    engine_speed: EngineSpeed,
    spring_load: SpringForce,
    valve_mass: Mass,
    acceleration: Acceleration,
) -> FloatSpeed:
    """Engine speed at which a stiff valve would leave its cam at this lift.

    Parameters
    ----------
    engine_speed
        For which the acceleration holds.
    spring_load
        At this lift, as from ENG.SPRING_LOAD.
    valve_mass
        Moving mass at the valve: valve, retainer, locks, a third to a half of the spring, and the
        other side of the rocker brought over by the ratio squared.
    acceleration
        Negative, over the nose, as from ENG.VALVE_ACCELERATION.

    Equation
    --------
    float_speed = engine_speed * sqrt(spring_load / (-valve_mass * acceleration))

    Validity
    --------
    The least over all lifts counts. A real train, which bends and whose spring surges, loses its
    valve well before.

    Source
    ------
    Newton's second law; acceleration grows with the square of speed

    Caution
    -------
    Not a speed to run at: a valve that leaves its cam meets the piston. The cam maker's limit
    comes first.
    """
    require(acceleration < 0, "acceleration", "negative: over the nose, where the spring must hold")
    return engine_speed * math.sqrt(spring_load / (-valve_mass * acceleration))


@worksheet_function(SECTION)
def hot_lash(cold_lash: Lash, housing_growth: SignedLength, train_growth: SignedLength) -> HotLash:
    """Valve lash of the warm engine, from the cold one and what parts grow.

    Parameters
    ----------
    cold_lash
        as set cold, at the valve.
    housing_growth
        By how much head, and block where pushrods pass it, grow between camshaft and valve seat:
        ENG.BLOCK_GROWTH gives it for any length, rise and material. Positive: it grows, and opens
        the lash.
    train_growth
        By how much valve, and pushrods by the rocker's ratio, grow along the same way.
        Positive: grows, and closes the lash.

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

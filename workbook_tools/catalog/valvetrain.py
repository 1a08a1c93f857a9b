"""Valvetrain: lift at the valve, its distance from the piston, pushrods and lifters."""

from __future__ import annotations

import math

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.measured import (
    AdjusterPitch,
    AdjusterTurns,
    CrankAngle,
    Lash,
    LifterPreload,
    LobeLift,
    PushrodCheckerLength,
    PushrodLength,
    RockerRatio,
    RodLength,
    StemAngle,
    Stroke,
    ValveDrop,
    ValveLift,
    ValveLiftAtAngle,
    ValveToPiston,
)
from workbook_tools.catalog.motion import piston_position
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Camshaft and valvetrain"


@worksheet_function(SECTION)
def valve_lift(lobe_lift: LobeLift, rocker_ratio: RockerRatio, lash: Lash = 0.0) -> ValveLift:
    """Valve lift from lobe lift, rocker ratio and lash.

    Parameters
    ----------
    lobe_lift
        as the lifter makes it.
    rocker_ratio
        best as measured on this rocker; 1 where the lobe acts on the valve directly.
    lash
        at the valve, cold or hot as the lift is wanted. 0 if left out, as for hydraulic lifters;
        an empty cell is not 0.

    Returns
    -------
    Net lift at the valve.

    Equation
    --------
    valve_lift = lobe_lift * rocker_ratio - lash

    Validity
    --------
    Stiff parts. The ratio of a rocker changes through the lift, by a few hundredths.

    Source
    ------
    common practice, no source (lever)
    """
    require(rocker_ratio <= 5, "rocker_ratio", "a ratio such as 1.6, 5 at most")
    require(lash < lobe_lift * rocker_ratio, "lash", "less than the lift at the rocker")
    return lobe_lift * rocker_ratio - lash


@worksheet_function(SECTION)
def piston_to_valve(
    valve_drop: ValveDrop,
    valve_lift: ValveLiftAtAngle,
    crank_angle: CrankAngle,
    stroke: Stroke,
    rod_length: RodLength,
    stem_angle: StemAngle = 0.0,
) -> ValveToPiston:
    """Piston-to-valve clearance along the stem, at one crank angle near overlap.

    Parameters
    ----------
    valve_drop
        How far the closed valve can be pushed before it meets the piston, with the gasket as
        compressed.
    valve_lift
        at this one. Type 0 for a closed valve; an empty cell is not 0.
    crank_angle
        From the top dead center between exhaust and intake stroke: positive after it, negative
        before it.
    stem_angle
        0, a valve parallel to the bore, if left out.

    Returns
    -------
    What is left between valve and piston, measured along the stem as a dial indicator on the
    retainer reads it. Negative where they would meet.

    Equation
    --------
    piston_to_valve = valve_drop + piston_position * cos(stem_angle) - valve_lift

    Validity
    --------
    The pocket in the crown lies parallel to the valve's face: the clearance is then between
    two parallel planes that the piston parts by the cosine of its travel. A leaning valve over
    a flat crown has more. No pin offset; axial clearance only, not the radial one. Give a
    range of angles and lifts: the least is usually within some 15 crank degrees of top dead
    center, not at full lift.

    Source
    ------
    common practice, no source (clearance along the stem); position of the piston as in
    ENG.PISTON_POSITION

    Caution
    -------
    Cold, slow and without lash, belt or chain stretch, valve float or rod stretch, all of which
    take from it; a valve that meets the piston wrecks the engine. Check with clay or light
    springs on the engine itself. The cam and piston makers' least clearances come first.
    """
    piston_down = piston_position(stroke, rod_length, crank_angle)
    require(
        piston_down <= stroke / 2,
        "crank_angle",
        "an angle near the top dead center between exhaust and intake stroke, counted from there",
    )
    return valve_drop + piston_down * math.cos(stem_angle) - valve_lift


@worksheet_function(SECTION)
def pushrod_length(
    checker_length: PushrodCheckerLength,
    turns: AdjusterTurns,
    thread_pitch: AdjusterPitch,
    lifter_preload: LifterPreload = 0.0,
) -> PushrodLength:
    """Pushrod length from an adjustable checking pushrod.

    Parameters
    ----------
    checker_length
        screwed in fully.
    turns
        by which it was screwed out to zero lash, with the rocker at its right height.
    thread_pitch
        the length that one turn adds: 0.05 in for 20 threads an inch.
    lifter_preload
        wanted for a hydraulic lifter, along the pushrod. 0 if left out, for a solid one; an empty
        cell is not 0.

    Returns
    -------
    Measured in the way of the checking pushrod: over its ends, or over gauge balls.

    Equation
    --------
    pushrod_length = checker_length + turns * thread_pitch + lifter_preload

    Validity
    --------
    Length over the ends and length over gauge balls differ: order by the maker's own way of
    measuring. Gasket and lifters as they will run.

    Source
    ------
    common practice, no source (sum of lengths)
    """
    require(turns <= 100, "turns", "a number of turns, 100 at most")
    require(
        thread_pitch <= 0.005, "thread_pitch", "5 mm (0.2 in) at most, one inch over 20 threads"
    )
    return checker_length + turns * thread_pitch + lifter_preload


@worksheet_function(SECTION)
def lifter_preload(
    turns: AdjusterTurns, thread_pitch: AdjusterPitch, rocker_ratio: RockerRatio
) -> LifterPreload:
    """Lifter preload from the turns of a rocker stud's nut past zero lash.

    Parameters
    ----------
    turns
        of the nut past zero lash.
    thread_pitch
        of the stud: 0.0417 in for 24 threads an inch.

    Returns
    -------
    How far the plunger is pressed in, along the pushrod.

    Equation
    --------
    lifter_preload = turns * thread_pitch * (1 + 1 / rocker_ratio)

    Validity
    --------
    Rocker on a stud, valve closed: the rocker turns about the valve's tip, so that the
    pushrod moves more than the nut. A screw at the pushrod's end of the rocker moves it by
    turns times pitch alone.

    Source
    ------
    common practice, no source (lever about the valve's tip, small angles)

    Caution
    -------
    Too much preload holds the valve off its seat or, in a tight engine, against the piston.
    The lifter maker's figure comes first.
    """
    require(turns <= 10, "turns", "a number of turns, 10 at most")
    require(
        thread_pitch <= 0.005, "thread_pitch", "5 mm (0.2 in) at most, one inch over 24 threads"
    )
    require(
        rocker_ratio >= 0.5 and rocker_ratio <= 5, "rocker_ratio", "a ratio such as 1.6, 0.5 to 5"
    )
    return turns * thread_pitch * (1 + 1 / rocker_ratio)

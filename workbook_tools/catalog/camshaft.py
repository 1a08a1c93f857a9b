"""Camshaft timing: what the degree wheel says about opening, closing and lobes.

The wheel stands on the crankshaft and is read in crank degrees: 0 at the top dead center
between exhaust and intake stroke, counting up in the direction of rotation. Only the lobe
separation is in cam degrees, two crank degrees each, and has a kind of its own.
"""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Choice
from workbook_tools.catalog.measured import (
    CamAdvance,
    CamDuration,
    ClosingReading,
    ExhaustCenterline,
    ExhaustClosing,
    ExhaustDuration,
    ExhaustOpening,
    IntakeCenterline,
    IntakeClosing,
    IntakeDuration,
    IntakeOpening,
    LobeCenterline,
    LobeSeparation,
    OpeningReading,
    ValveOverlap,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Camshaft and valvetrain"

Valve = Annotated[str, quantities.TEXT, Choice(("intake", "exhaust"))]


def _arc(opening: float, closing: float) -> float:
    """The way that the crank turns from one place on the wheel to another, below one turn."""
    turn = 2 * math.pi
    arc = closing - opening
    arc = arc - turn * math.floor(arc / turn)
    require(
        arc > 1e-6 and arc < turn - 1e-6,
        "closing_reading",
        "another place on the wheel than the opening reading",
    )
    return arc


@worksheet_function(SECTION)
def cam_duration(opening_reading: OpeningReading, closing_reading: ClosingReading) -> CamDuration:
    """Cam duration in crank degrees, from two readings of the degree wheel.

    Parameters
    ----------
    opening_reading
        in crank degrees after top dead center in the direction of rotation. 12 before top dead
        center is 348, 708 or -12.
    closing_reading
        at the same lift, counted the same way. 44 after bottom dead center is 224. Wheels of 360
        and encoders of 720 give the same result.

    Returns
    -------
    Crank degrees from opening to closing.

    Equation
    --------
    cam_duration = closing_reading - opening_reading, turned into 0 to 360 crank degrees

    Validity
    --------
    Durations of 120 to 360 crank degrees. It holds for the lift at which both readings were
    taken: state that lift beside it. A cam card's 12 before top and 44 after bottom dead center,
    typed as 12 and 44, would read 32 and are refused.

    Source
    ------
    common practice, no source (geometry of the degree wheel)
    """
    arc = _arc(opening_reading, closing_reading)
    require(
        arc >= 120 * math.pi / 180,
        "closing_reading",
        "one that gives a duration of 120 degrees or more; 12 before top and 44 after bottom dead "
        "center are 348 and 224 on the wheel",
    )
    return arc


@worksheet_function(SECTION)
def lobe_centerline(
    valve: Valve, opening_reading: OpeningReading, closing_reading: ClosingReading
) -> LobeCenterline:
    """Lobe centerline in crank degrees, midway between two wheel readings of equal lift.

    Parameters
    ----------
    valve
        Which valve the lobe works, "intake" or "exhaust".
    opening_reading
        in crank degrees after top dead center in the direction of rotation. 12 before top dead
        center is 348, 708 or -12.
    closing_reading
        at the same lift, counted the same way. 44 after bottom dead center is 224.

    Returns
    -------
    Crank degrees after top dead center for an intake lobe, before it for an exhaust lobe.

    Equation
    --------
    lobe_centerline = opening_reading + cam_duration / 2 after top dead center, turned into
    -180 to 180; with the opposite sign for an exhaust lobe

    Validity
    --------
    The middle of the lobe is its peak only where both flanks are alike; on an asymmetric lobe
    take the readings close to full lift. Top dead center proved with a positive stop.

    Source
    ------
    common practice, no source (geometry of the degree wheel)
    """
    turn = 2 * math.pi
    middle = opening_reading + _arc(opening_reading, closing_reading) / 2
    middle = middle - turn * math.floor(middle / turn + 0.5)
    centerline = middle if valve == "intake" else -middle
    require(
        centerline > 0 and centerline < math.pi,
        "opening_reading",
        "readings in the direction of rotation, opening side first, that put an intake lobe "
        "after top dead center and an exhaust lobe before it",
    )
    require(
        centerline >= math.pi / 3 and centerline <= 160 * math.pi / 180,
        "opening_reading",
        "readings that put the lobe's middle 60 to 160 degrees from top dead center; 12 before top "
        "and 44 after bottom dead center are 348 and 224 on the wheel",
    )
    return centerline


@worksheet_function(SECTION)
def intake_opening(
    intake_duration: IntakeDuration, intake_centerline: IntakeCenterline
) -> IntakeOpening:
    """Intake opening in crank degrees before top dead center.

    Parameters
    ----------
    intake_duration
        The lift is the one that counts as open.
    intake_centerline
        as installed.

    Equation
    --------
    intake_opening = intake_duration / 2 - intake_centerline

    Validity
    --------
    Lobe with like flanks, at the lift of the duration.

    Source
    ------
    common practice, no source (geometry of the degree wheel)
    """
    return intake_duration / 2 - intake_centerline


@worksheet_function(SECTION)
def intake_closing(
    intake_duration: IntakeDuration, intake_centerline: IntakeCenterline
) -> IntakeClosing:
    """Intake closing in crank degrees after bottom dead center.

    Parameters
    ----------
    intake_duration
        The lift is the one that counts as closed.
    intake_centerline
        as installed.

    Equation
    --------
    intake_closing = intake_duration / 2 + intake_centerline - 180 crank degrees

    Validity
    --------
    Lobe with like flanks, at the lift of the duration. For a dynamic ratio use the duration
    near the seat: at a checking lift of 0.050 in the valve is still open.

    Source
    ------
    common practice, no source (geometry of the degree wheel)
    """
    return intake_duration / 2 + intake_centerline - math.pi


@worksheet_function(SECTION)
def exhaust_opening(
    exhaust_duration: ExhaustDuration, exhaust_centerline: ExhaustCenterline
) -> ExhaustOpening:
    """Exhaust opening in crank degrees before bottom dead center.

    Parameters
    ----------
    exhaust_duration
        The lift is the one that counts as open.
    exhaust_centerline
        as installed.

    Equation
    --------
    exhaust_opening = exhaust_duration / 2 + exhaust_centerline - 180 crank degrees

    Validity
    --------
    Lobe with like flanks, at the lift of the duration.

    Source
    ------
    common practice, no source (geometry of the degree wheel)
    """
    return exhaust_duration / 2 + exhaust_centerline - math.pi


@worksheet_function(SECTION)
def exhaust_closing(
    exhaust_duration: ExhaustDuration, exhaust_centerline: ExhaustCenterline
) -> ExhaustClosing:
    """Exhaust closing in crank degrees after top dead center.

    Parameters
    ----------
    exhaust_duration
        The lift is the one that counts as closed.
    exhaust_centerline
        as installed.

    Equation
    --------
    exhaust_closing = exhaust_duration / 2 - exhaust_centerline

    Validity
    --------
    Lobe with like flanks, at the lift of the duration.

    Source
    ------
    common practice, no source (geometry of the degree wheel)
    """
    return exhaust_duration / 2 - exhaust_centerline


@worksheet_function(SECTION)
def valve_overlap(intake_opening: IntakeOpening, exhaust_closing: ExhaustClosing) -> ValveOverlap:
    """Valve overlap in crank degrees: how long both valves are open.

    Parameters
    ----------
    exhaust_closing
        at the same lift.

    Returns
    -------
    Crank degrees. Negative where the exhaust valve closes before the intake valve opens.

    Equation
    --------
    valve_overlap = intake_opening + exhaust_closing

    Validity
    --------
    Both events at the same lift; overlap at 0.050 in of lift is much less than at the seat.

    Source
    ------
    common practice, no source (geometry of the degree wheel)
    """
    return intake_opening + exhaust_closing


@worksheet_function(SECTION)
def lobe_separation(
    intake_centerline: IntakeCenterline, exhaust_centerline: ExhaustCenterline
) -> LobeSeparation:
    """Lobe separation in cam degrees, from the two centerlines in crank degrees.

    Returns
    -------
    Cam degrees, as ground: half the crank degrees from peak to peak. Turning the cam does not
    change it.

    Equation
    --------
    lobe_separation = (intake_centerline + exhaust_centerline) / 2

    Validity
    --------
    One camshaft turning at half the crank's speed. With two camshafts it changes with the
    phase of either.

    Source
    ------
    common practice, no source (lobe separation in cam degrees, all else in crank degrees)
    """
    return (intake_centerline + exhaust_centerline) / 2


@worksheet_function(SECTION)
def cam_advance(lobe_separation: LobeSeparation, intake_centerline: IntakeCenterline) -> CamAdvance:
    """Cam advance in crank degrees, from the lobe separation and the intake centerline.

    Parameters
    ----------
    lobe_separation
        from the cam card or both centerlines.
    intake_centerline
        as installed.

    Returns
    -------
    Crank degrees. Positive for an advanced cam, whose events come early; negative for a
    retarded one. Half of it in cam degrees.

    Equation
    --------
    cam_advance = (exhaust_centerline - intake_centerline) / 2
    = lobe_separation - intake_centerline, since a cam that stands straight up has its
    centerlines, in crank degrees, at the number of its lobe separation in cam degrees

    Validity
    --------
    One camshaft turning at half the crank's speed.

    Source
    ------
    common practice, no source (geometry of the degree wheel)

    Caution
    -------
    Advance brings the intake valve nearer to the piston, retard the exhaust valve: measure
    piston to valve again after every change.
    """
    return lobe_separation - intake_centerline

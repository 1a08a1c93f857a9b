"""Crank, rod and piston: where the piston stands as the crank turns.

A crank angle counts from the throw standing up the bore, positive in the direction of
rotation. Without a pin offset that is top dead center.
"""

from __future__ import annotations

import math

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.measured import (
    Bore,
    ClearanceVolume,
    CrankAngle,
    PinOffset,
    PistonPosition,
    RodAngle,
    RodLength,
    RodStrokeRatio,
    Stroke,
    VolumeAtAngle,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Crank, rod and piston motion"


@worksheet_function(SECTION)
def rod_stroke_ratio(rod_length: RodLength, stroke: Stroke) -> RodStrokeRatio:
    """Rod to stroke ratio.

    Equation
    --------
    rod_stroke_ratio = rod_length / stroke

    Validity
    --------
    Half of R, the ratio of rod length to crank radius that textbooks use.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (ratio of connecting rod
    length to crank radius, here to the stroke as the trade gives it)
    """
    require(rod_length > stroke / 2, "rod_length", "longer than half the stroke")
    return rod_length / stroke


@worksheet_function(SECTION)
def piston_position(
    stroke: Stroke, rod_length: RodLength, crank_angle: CrankAngle, pin_offset: PinOffset = 0.0
) -> PistonPosition:
    """Distance of the piston below top dead center at a crank angle.

    Parameters
    ----------
    stroke
        With a pin offset the piston travels a little more.
    crank_angle
        From the throw standing up the bore, which is top dead center where the pin is not offset.

    Returns
    -------
    Zero at top dead center, positive below it.

    Equation
    --------
    position = sqrt((l + r)**2 - e**2) - r * cos(angle) - sqrt(l**2 - (e - r * sin(angle))**2),
    with r half the stroke, l the rod length and e the pin offset

    Validity
    --------
    Exact for rigid parts without clearance. With an offset, top dead center stands at
    asin(e / (l + r)).

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, equations 2.4 and 2.5 (piston position
    from the crank axis), with the offset by the theorem of Pythagoras
    """
    throw = stroke / 2
    require(
        rod_length > throw + abs(pin_offset),
        "rod_length",
        "longer than half the stroke and the pin offset together",
    )
    # What the lean of rod and offset takes from each height, written so that nothing large is
    # subtracted: top dead center without offset is exactly zero.
    top = pin_offset**2 / (
        rod_length + throw + math.sqrt((rod_length + throw) ** 2 - pin_offset**2)
    )
    lean = pin_offset - throw * math.sin(crank_angle)
    here = lean**2 / (rod_length + math.sqrt(rod_length**2 - lean**2))
    return throw * (1 - math.cos(crank_angle)) + here - top


@worksheet_function(SECTION)
def rod_angle(
    stroke: Stroke, rod_length: RodLength, crank_angle: CrankAngle, pin_offset: PinOffset = 0.0
) -> RodAngle:
    """Angle between the rod and the bore's axis at a crank angle.

    Parameters
    ----------
    crank_angle
        From the throw standing up the bore, which is top dead center where the pin is not offset.

    Equation
    --------
    sin(rod_angle) = (r * sin(angle) - e) / l, with r half the stroke, l the rod length and
    e the pin offset

    Source
    ------
    Meriam & Kraige, Engineering Mechanics: Dynamics, sample problem 5/9 (law of sines)
    """
    throw = stroke / 2
    require(
        rod_length > throw + abs(pin_offset),
        "rod_length",
        "longer than half the stroke and the pin offset together",
    )
    return math.asin((throw * math.sin(crank_angle) - pin_offset) / rod_length)


@worksheet_function(SECTION)
def cylinder_volume_at(
    bore: Bore,
    stroke: Stroke,
    rod_length: RodLength,
    crank_angle: CrankAngle,
    clearance_volume: ClearanceVolume,
    pin_offset: PinOffset = 0.0,
) -> VolumeAtAngle:
    """Volume above the piston at a crank angle.

    Parameters
    ----------
    bore
        finished.
    crank_angle
        From the throw standing up the bore, which is top dead center where the pin is not offset.
    clearance_volume
        left above the piston at top dead center: chamber, gasket, deck and crown.

    Equation
    --------
    cylinder_volume_at = clearance_volume + pi / 4 * bore**2 * piston_position

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, equations 2.4 and 2.5
    """
    position = piston_position(stroke, rod_length, crank_angle, pin_offset)
    return clearance_volume + math.pi / 4 * bore**2 * position

"""The crosshatch that a hone leaves."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.kinds import Length, Limits, Rotation
from workbook_tools.catalog.measured import Bore
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Pistons, bores, rings"

CrosshatchAngle = Annotated[
    float, quantities.ANGLE, Limits(0.0, math.pi, low_open=True, high_open=True)
]


@worksheet_function(SECTION)
def crosshatch_angle(
    bore: Bore, hone_speed: Rotation, stroke_rate: Rotation, stroke_length: Length
) -> CrosshatchAngle:
    """Angle at which the lines of a honed bore cross, from the settings of the hone.

    Parameters
    ----------
    bore
        honed.
    hone_speed
        Turns of the hone per minute.
    stroke_rate
        Strokes per minute, up and down again counted as one.
    stroke_length
        Way of the hone from one end of a stroke to the other.

    Returns
    -------
    The angle that the lines enclose to both sides of the bore's circumference: small for flat
    lines. From line to circumference it is half of it; some count from the bore's axis, 180 deg
    less this.

    Equation
    --------
    angle = 2 * atan(2 * stroke_length * stroke_rate / (pi * bore * turns of the hone per minute))

    Validity
    --------
    By the mean speed of the stroke; near its ends, where the hone turns back, lines run flatter,
    and in the middle of a stroke driven by a crank steeper.

    Source
    ------
    common practice, no source (geometry of the hone's way)

    Caution
    -------
    Too flat a crosshatch starves the rings of oil, too steep a one lets oil pass. The ring maker's
    finish and angle come first.
    """
    # Both rates are angles per time, a turn for each stroke.
    along = 2 * stroke_length * stroke_rate / (2 * math.pi)
    around = bore / 2 * hone_speed
    return 2 * math.atan(along / around)

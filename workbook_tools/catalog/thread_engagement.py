"""How much engaged thread a bolt needs, so that it breaks before its thread strips."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import ABOVE_ZERO, Length, Limits, Note
from workbook_tools.catalog.measured import ThreadPitch, ThreadStressArea
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Fasteners"

PitchDiameter = Annotated[
    float,
    quantities.LENGTH,
    ABOVE_ZERO,
    Note("Least pitch diameter of the bolt's thread, by its tolerance class."),
]
HoleMinorDiameter = Annotated[
    float,
    quantities.LENGTH,
    ABOVE_ZERO,
    Note("Largest minor diameter of the nut's or hole's thread, by its tolerance class."),
]
# From soft castings to the strongest bolts, 50 to 3000 MPa: a number in ksi is outside.
Strength = Annotated[float, quantities.STRESS, Limits(50e6, 3e9)]

# 1 / sqrt(3), as the handbook has it: the flank's slope of a 60 degree thread.
_FLANK = 0.57735


def _width(pitch: float, larger: float, smaller: float) -> float:
    """A thread where the crests of the other shear it, as a share of the pitch.

    From the crests' diameter and the thread's own pitch diameter, the larger one first.
    """
    return 1 / 2 + _FLANK * (larger - smaller) / pitch


def _require_engaged(pitch_diameter: float, hole_minor_diameter: float) -> None:
    require(
        hole_minor_diameter < pitch_diameter,
        "hole_minor_diameter",
        "less than the bolt's pitch diameter",
    )


@worksheet_function(SECTION)
def thread_engagement(
    stress_area: ThreadStressArea,
    pitch: ThreadPitch,
    pitch_diameter: PitchDiameter,
    hole_minor_diameter: HoleMinorDiameter,
) -> Length:
    """Least length of engaged thread at which the bolt breaks before its own thread strips.

    Parameters
    ----------
    stress_area
        of the bolt, as from ENG.THREAD_STRESS_AREA.

    Returns
    -------
    Of full threads: chamfers and run-outs come on top.

    Equation
    --------
    length = 2 * A / (pi * K * (1 / 2 + 0.57735 * (E - K) / pitch)), with E pitch_diameter and K
    hole_minor_diameter

    Validity
    --------
    Bolt and nut or hole of equal strength; where the hole is weaker go on with
    ENG.ENGAGEMENT_IN_WEAKER_HOLE. 60 degree threads.

    Source
    ------
    Machinery's Handbook, "Formulas for Stress Areas and Length of Engagement of Screw Threads", as
    quoted by others, not seen in the handbook

    Caution
    -------
    A stripped thread lets a head or cap go. The engine and fastener makers' lengths come first.
    """
    _require_engaged(pitch_diameter, hole_minor_diameter)
    width = _width(pitch, pitch_diameter, hole_minor_diameter)
    return 2 * stress_area / (math.pi * hole_minor_diameter * width)


@worksheet_function(SECTION)
def engagement_in_weaker_hole(
    engagement: Length,
    pitch: ThreadPitch,
    pitch_diameter: PitchDiameter,
    hole_minor_diameter: HoleMinorDiameter,
    major_diameter: Length,
    hole_pitch_diameter: Length,
    bolt_strength: Strength,
    hole_strength: Strength,
) -> Length:
    """Least length of engaged thread in a hole that is weaker than the bolt.

    Parameters
    ----------
    engagement
        For equal strengths, as from ENG.THREAD_ENGAGEMENT.
    major_diameter
        Least major diameter of the bolt's thread, by its tolerance class.
    hole_pitch_diameter
        Largest pitch diameter of the hole's thread, by its tolerance class.
    bolt_strength
        Tensile strength of the bolt.
    hole_strength
        Tensile strength of the block, head or nut.

    Returns
    -------
    No less than the engagement for equal strengths.

    Equation
    --------
    length = engagement * max(1, J), J = (A_s * bolt_strength) / (A_n * hole_strength),
    A_s = K * (1 / 2 + 0.57735 * (E - K) / pitch), A_n = D * (1 / 2 + 0.57735 * (D - F) / pitch),
    with K hole_minor_diameter, E pitch_diameter, D major_diameter and F hole_pitch_diameter

    Validity
    --------
    60 degree threads. Threads in soft castings also wear with each use, which inserts and studs
    prevent.

    Source
    ------
    Machinery's Handbook, "Formulas for Stress Areas and Length of Engagement of Screw Threads", as
    quoted by others, not seen in the handbook

    Caution
    -------
    A stripped thread lets a head or cap go. The engine and fastener makers' lengths come first.
    """
    _require_engaged(pitch_diameter, hole_minor_diameter)
    bolt = hole_minor_diameter * _width(pitch, pitch_diameter, hole_minor_diameter)
    require(
        hole_pitch_diameter < major_diameter,
        "hole_pitch_diameter",
        "less than the bolt's major diameter",
    )
    hole = major_diameter * _width(pitch, major_diameter, hole_pitch_diameter)
    share = bolt * bolt_strength / (hole * hole_strength)
    return engagement * max(1.0, share)

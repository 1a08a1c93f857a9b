"""Tightening: preload from torque and from angle."""

from __future__ import annotations

import math

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.measured import (
    BoltAngle,
    BoltBearingDiameter,
    BoltPreload,
    BoltRate,
    BoltTorque,
    FastenerDiameter,
    HeadFriction,
    JointRate,
    NutFactor,
    ThreadFriction,
    ThreadPitch,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Fasteners"


def _most_preload(diameter: float) -> float:
    """A preload that no bolt stands: some 300 ksi (2070 MPa) on the stress area of its thread."""
    # The area is some 0.58 of the diameter squared (58.0 mm2 for M10, ISO 898-1).
    return 2.07e9 * 0.58 * diameter**2


@worksheet_function(SECTION)
def nut_factor(
    diameter: FastenerDiameter,
    pitch: ThreadPitch,
    thread_friction: ThreadFriction,
    head_friction: HeadFriction,
    bearing_diameter: BoltBearingDiameter,
) -> NutFactor:
    """Nut factor (torque coefficient) from the two frictions of a bolt.

    Parameters
    ----------
    thread_friction
        a coefficient.
    head_friction
        a coefficient, of the one that turns.

    Equation
    --------
    K = (pitch / (2 * pi) + f_thread * d2 / (2 * cos(30 deg)) + f_head * d_bearing / 2) /
    diameter, with the pitch diameter d2 = diameter - 0.649519 * pitch

    Validity
    --------
    Threads of 60 degrees. Frictions scatter by a quarter and more between bolts.

    Source
    ------
    ISO 16047 (form of the equation from memory); 0.2 to 0.9 % below Shigley, Mechanical
    Engineering Design, equation 8-26, for frictions of 0.10 to 0.20, most for small threads

    Caution
    -------
    A fastener that fails can kill. The fastener maker's lubricant and torque come first.
    """
    require(pitch <= 0.3 * diameter, "pitch", "30 % of the diameter at most")
    require(bearing_diameter > diameter, "bearing_diameter", "larger than the bolt's diameter")
    pitch_diameter = diameter - 0.649519 * pitch
    in_threads = pitch / (2 * math.pi) + thread_friction * pitch_diameter / math.sqrt(3)
    return (in_threads + head_friction * bearing_diameter / 2) / diameter


@worksheet_function(SECTION)
def preload_from_torque(
    torque: BoltTorque, diameter: FastenerDiameter, nut_factor: NutFactor
) -> BoltPreload:
    """Preload of a bolt from its tightening torque.

    Parameters
    ----------
    torque
        at the wrench, while the head or nut still moves.

    Equation
    --------
    F = T / (K * d)

    Validity
    --------
    The nut factor scatters by a quarter and more; stretch tells the preload better.

    Source
    ------
    Shigley, Mechanical Engineering Design, 9th edition, equation 8-27 and Table 8-15

    Caution
    -------
    A fastener that fails can kill. The fastener maker's lubricant and torque come first.
    """
    require(nut_factor <= 1, "nut_factor", "a factor such as 0.2")
    preload = torque / (nut_factor * diameter)
    require(
        preload <= _most_preload(diameter),
        "torque",
        "one that a bolt can bear, 300 ksi (2070 MPa) on its threads at most; inch-pounds need "
        'their unit, as in "900 lbf.in"',
    )
    return preload


@worksheet_function(SECTION)
def torque_for_preload(
    preload: BoltPreload, diameter: FastenerDiameter, nut_factor: NutFactor
) -> BoltTorque:
    """Tightening torque for a wanted preload.

    Parameters
    ----------
    preload
        wanted.

    Equation
    --------
    T = K * F * d

    Validity
    --------
    The nut factor scatters by a quarter and more; stretch tells the preload better.

    Source
    ------
    Shigley, Mechanical Engineering Design, 9th edition, equation 8-27 and Table 8-15

    Caution
    -------
    A fastener that fails can kill. The fastener maker's lubricant and torque come first.
    """
    require(nut_factor <= 1, "nut_factor", "a factor such as 0.2")
    require(
        preload <= _most_preload(diameter),
        "preload",
        "one that a bolt can bear, 300 ksi (2070 MPa) on its threads at most",
    )
    return nut_factor * preload * diameter


@worksheet_function(SECTION)
def preload_from_angle(
    angle: BoltAngle, pitch: ThreadPitch, bolt_rate: BoltRate, joint_rate: JointRate = 0.0
) -> BoltPreload:
    """Preload that a tightening angle adds after the parts have seated.

    Parameters
    ----------
    angle
        after snug.
    joint_rate
        of the clamped parts. Left out: rigid, which gives the highest preload.

    Equation
    --------
    F = pitch * angle / (2 * pi) / (1 / bolt_rate + 1 / joint_rate)

    Validity
    --------
    Elastic, from a snug joint without a gap; add the preload of the snug torque. Bolts
    tightened beyond their yield take less. A bolt_rate from BOLT_RATE_WITH_ENDS is the better
    one: without the bolt's ends the preload comes out too high.

    Source
    ------
    Shigley, Mechanical Engineering Design, 9th edition, chapter 8 (turn-of-the-nut)

    Caution
    -------
    A fastener that fails can kill. The fastener maker's angle comes first.
    """
    require(pitch <= 0.008, "pitch", "8 mm (0.3 in) at most: 0.05 in for 20 threads an inch")
    joint_gives = 1 / joint_rate if joint_rate > 0 else 0.0
    return pitch * angle / (2 * math.pi) / (1 / bolt_rate + joint_gives)

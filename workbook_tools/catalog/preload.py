"""Tightening: preload from torque, stretch and angle."""

from __future__ import annotations

import math

from workbook_tools.catalog import tables
from workbook_tools.catalog.blocks import (
    length_over_square,
    require_filled,
    require_same_number,
    total,
)
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Lengths, Material
from workbook_tools.catalog.measured import (
    BoltAngle,
    BoltBearingDiameter,
    BoltPreload,
    BoltRate,
    BoltStretch,
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
    ISO 16047 (form of the equation from memory); agrees within 0.3 % with Shigley,
    Mechanical Engineering Design, equation 8-26

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
    return torque / (nut_factor * diameter)


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
    return nut_factor * preload * diameter


@worksheet_function(SECTION)
def bolt_rate(lengths: Lengths, diameters: Lengths, material: Material = "alloy steel") -> BoltRate:
    """Rate of a bolt as a spring: force for each unit of stretch, along a stepped shank.

    Parameters
    ----------
    lengths
        Length of each step between head and nut, the free thread included. One cell each.
    diameters
        Diameter of each step, in the same order; for free thread that of a round bar of its stress
        area, SQRT(4/PI()*area).
    material
        Material of the bolt. Alloy steel if left out.

    Equation
    --------
    k = E * pi / 4 / sum(length / diameter**2)

    Validity
    --------
    Elastic stretch; head and engaged threads, which give a little too, are left out.

    Source
    ------
    Hooke's law; Shigley, Mechanical Engineering Design, 9th edition, equation 8-17
    (stiffness of shank and thread in series)

    Caution
    -------
    A fastener that fails can kill. The fastener maker's stretch comes first.
    """
    require_filled(lengths, "lengths")
    require_filled(diameters, "diameters")
    require_same_number(diameters, lengths, "diameters", "one diameter for each length")
    flexibility = length_over_square(lengths, diameters)
    return tables.modulus(material) * math.pi / 4 / flexibility


@worksheet_function(SECTION)
def bolt_stretch(
    preload: BoltPreload, lengths: Lengths, diameters: Lengths, material: Material = "alloy steel"
) -> BoltStretch:
    """Stretch of a bolt with a stepped shank under a preload.

    Parameters
    ----------
    lengths
        Length of each step between head and nut, the free thread included. One cell each.
    diameters
        Diameter of each step, in the same order; for free thread that of a round bar of its stress
        area, SQRT(4/PI()*area).
    material
        Material of the bolt. Alloy steel if left out.

    Equation
    --------
    stretch = preload / E * sum(length / area)

    Validity
    --------
    Elastic stretch; head and engaged threads, which give a little too, are left out.

    Source
    ------
    Hooke's law; Shigley, Mechanical Engineering Design, 9th edition, chapter 8

    Caution
    -------
    A fastener that fails can kill. The fastener maker's stretch comes first.
    """
    stretch = preload / bolt_rate(lengths, diameters, material)
    require(
        stretch <= 0.02 * total(lengths), "preload", "one that stretches the bolt by 2 % at most"
    )
    return stretch


@worksheet_function(SECTION)
def preload_from_stretch(
    stretch: BoltStretch, lengths: Lengths, diameters: Lengths, material: Material = "alloy steel"
) -> BoltPreload:
    """Preload of a bolt from its measured stretch.

    Parameters
    ----------
    stretch
        length tightened less length free, measured with a stretch gauge.
    lengths
        Length of each step between head and nut, the free thread included. One cell each.
    diameters
        Diameter of each step, in the same order; for free thread that of a round bar of its stress
        area, SQRT(4/PI()*area).
    material
        Material of the bolt. Alloy steel if left out.

    Equation
    --------
    F = stretch * E / sum(length / area)

    Validity
    --------
    Elastic stretch only: a bolt beyond its yield stretches more than this tells.

    Source
    ------
    Hooke's law; Shigley, Mechanical Engineering Design, 9th edition, chapter 8

    Caution
    -------
    A fastener that fails can kill. The fastener maker's stretch comes first.
    """
    rate = bolt_rate(lengths, diameters, material)
    require(stretch <= 0.02 * total(lengths), "stretch", "2 % of the bolt's length at most")
    return stretch * rate


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
    tightened beyond their yield take less.

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

"""Tightening: preload from torque, stretch and angle."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import tables
from workbook_tools.catalog.blocks import (
    length_over_square,
    require_filled,
    require_same_number,
    total,
)
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    Factor,
    Force,
    Length,
    Lengths,
    Limits,
    Material,
    SpringRate,
    Torque,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Fasteners"

# More than three turns after snug is no tightening angle.
TighteningAngle = Annotated[float, quantities.ANGLE, Limits(0.0, 6 * math.pi, low_open=True)]
Friction = Annotated[float, quantities.FACTOR, Limits(0.0, 1.0, low_open=True)]


@worksheet_function(SECTION)
def nut_factor(
    diameter: Length,
    pitch: Length,
    thread_friction: Friction,
    head_friction: Friction,
    bearing_diameter: Length,
) -> Factor:
    """Nut factor (torque coefficient) from the two frictions of a bolt.

    Parameters
    ----------
    diameter
        Nominal diameter of the thread.
    pitch
        Distance from thread to thread: one inch over the threads per inch.
    thread_friction
        Coefficient of friction between the threads.
    head_friction
        Coefficient of friction under the head or nut that turns.
    bearing_diameter
        Mean diameter of the face that rubs under that head or nut.

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
def preload_from_torque(torque: Torque, diameter: Length, nut_factor: Factor) -> Force:
    """Preload of a bolt from its tightening torque.

    Parameters
    ----------
    torque
        Torque at the wrench, while the head or nut still moves.
    diameter
        Nominal diameter of the thread.
    nut_factor
        Torque coefficient for this lubricant and finish: some 0.2 dry or zinc-plated, 0.12
        and less with assembly pastes.

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
def torque_for_preload(preload: Force, diameter: Length, nut_factor: Factor) -> Torque:
    """Tightening torque for a wanted preload.

    Parameters
    ----------
    preload
        Wanted tension in the bolt.
    diameter
        Nominal diameter of the thread.
    nut_factor
        Torque coefficient for this lubricant and finish: some 0.2 dry or zinc-plated, 0.12
        and less with assembly pastes.

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
def bolt_rate(
    lengths: Lengths, diameters: Lengths, material: Material = "alloy steel"
) -> SpringRate:
    """Rate of a bolt as a spring: force for each unit of stretch, along a stepped shank.

    Parameters
    ----------
    lengths
        Length of each step between head and nut, the free thread included. One cell each.
    diameters
        Diameter of each step, in the same order; for free thread that of a round bar of its
        stress area, SQRT(4/PI()*area).
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
    preload: Force, lengths: Lengths, diameters: Lengths, material: Material = "alloy steel"
) -> Length:
    """Stretch of a bolt with a stepped shank under a preload.

    Parameters
    ----------
    preload
        Tension in the bolt.
    lengths
        Length of each step between head and nut, the free thread included. One cell each.
    diameters
        Diameter of each step, in the same order; for free thread that of a round bar of its
        stress area, SQRT(4/PI()*area).
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
    stretch: Length, lengths: Lengths, diameters: Lengths, material: Material = "alloy steel"
) -> Force:
    """Preload of a bolt from its measured stretch.

    Parameters
    ----------
    stretch
        Length tightened less length free, measured with a stretch gauge.
    lengths
        Length of each step between head and nut, the free thread included. One cell each.
    diameters
        Diameter of each step, in the same order; for free thread that of a round bar of its
        stress area, SQRT(4/PI()*area).
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
    angle: TighteningAngle, pitch: Length, bolt_rate: SpringRate, joint_rate: SpringRate = 0.0
) -> Force:
    """Preload that a tightening angle adds after the parts have seated.

    Parameters
    ----------
    angle
        Angle turned after snug.
    pitch
        Distance from thread to thread: one inch over the threads per inch.
    bolt_rate
        Rate of the bolt as a spring.
    joint_rate
        Rate of the clamped parts. Left out: rigid, which gives the highest preload.

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

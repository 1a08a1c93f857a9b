"""Bolts as springs: rate, stretch, and preload from a measured stretch."""

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
from workbook_tools.catalog.kinds import Choice, Lengths, Material
from workbook_tools.catalog.measured import (
    BoltPreload,
    BoltRate,
    BoltStretch,
    FastenerDiameter,
    ThreadPitch,
)
from workbook_tools.catalog.preload import SECTION
from workbook_tools.catalog.registry import worksheet_function

ThreadIn = Annotated[str, quantities.TEXT, Choice(("nut", "tapped hole", "bolt alone"))]


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
    Elastic, without head and engaged threads. These give as if the bolt were about one diameter
    longer, so that a real bolt is softer: by a tenth where it is long, by a third where it is
    short. BOLT_RATE_WITH_ENDS has them and is the better one.

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
    Elastic, without head and engaged threads. A real bolt stretches more for this preload: by a
    tenth where it is long, by a third where it is short. BOLT_STRETCH_WITH_ENDS has them and is
    the better one.

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
    Elastic stretch only, without head and engaged threads. It says more preload than there is,
    which is the unsafe side for the joint: a tenth too much for a long bolt, a third for a
    short one. PRELOAD_FROM_STRETCH_WITH_ENDS has them and is the better one.

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
def bolt_rate_with_ends(
    lengths: Lengths,
    diameters: Lengths,
    thread_diameter: FastenerDiameter,
    pitch: ThreadPitch,
    thread_in: ThreadIn,
    material: Material,
) -> BoltRate:
    """Rate of a bolt as a spring, with what its head and its engaged thread give.

    Parameters
    ----------
    lengths
        Length of each step between head and thread hold, the free thread included. One cell each.
    diameters
        Diameter of each step, in the same order; for free thread that of a round bar of its stress
        area, SQRT(4/PI()*area).
    thread_diameter
        of the engaged thread.
    pitch
        of the engaged thread.
    thread_in
        What holds the thread, whose own give counts: "nut" or "tapped hole" (of the bolt's own
        stiffness); "bolt alone" for what a gauge between the bolt's two ends reads.
    material
        Material of the bolt.

    Equation
    --------
    k = E * pi / 4 / (sum(length / diameter**2) + 0.5 / d + 0.5 * d / core**2 + hold / d), with d
    the thread_diameter, core = d - 1.226869 * pitch, hold 0.4 in a nut, 0.33 in a tapped hole, 0
    for the bolt alone

    Validity
    --------
    Elastic, hexagon head; a socket head counts 0.4 diameters instead of 0.5. A tapped hole in
    aluminum gives some three times as much as one in steel. The substitution lengths are means
    from tests: good to some 5 %.

    Source
    ------
    VDI 2230 Part 1 (substitution lengths of head, engaged thread, nut and tapped hole, from
    memory); Hooke's law

    Caution
    -------
    A fastener that fails can kill. The fastener maker's stretch comes first.
    """
    require_filled(lengths, "lengths")
    require_filled(diameters, "diameters")
    require_same_number(diameters, lengths, "diameters", "one diameter for each length")
    require(pitch <= 0.3 * thread_diameter, "pitch", "30 % of the diameter at most")
    core = thread_diameter - 1.226869 * pitch
    hold = 0.4 if thread_in == "nut" else 0.33 if thread_in == "tapped hole" else 0.0
    ends = (0.5 + hold) / thread_diameter + 0.5 * thread_diameter / core**2
    flexibility = length_over_square(lengths, diameters) + ends
    return tables.modulus(material) * math.pi / 4 / flexibility


@worksheet_function(SECTION)
def bolt_stretch_with_ends(
    preload: BoltPreload,
    lengths: Lengths,
    diameters: Lengths,
    thread_diameter: FastenerDiameter,
    pitch: ThreadPitch,
    thread_in: ThreadIn,
    material: Material,
) -> BoltStretch:
    """Stretch of a bolt under a preload, with what its head and its engaged thread give.

    Parameters
    ----------
    lengths
        Length of each step between head and thread hold, the free thread included. One cell each.
    diameters
        Diameter of each step, in the same order; for free thread that of a round bar of its stress
        area, SQRT(4/PI()*area).
    thread_diameter
        of the engaged thread.
    pitch
        of the engaged thread.
    thread_in
        What holds the thread, whose own give counts: "nut" or "tapped hole" (of the bolt's own
        stiffness); "bolt alone" for what a gauge between the bolt's two ends reads.
    material
        Material of the bolt.

    Equation
    --------
    stretch = preload / BOLT_RATE_WITH_ENDS

    Validity
    --------
    Elastic, hexagon head; a socket head counts 0.4 diameters instead of 0.5. A tapped hole in
    aluminum gives some three times as much as one in steel. The substitution lengths are means
    from tests: good to some 5 %.

    Source
    ------
    VDI 2230 Part 1 (substitution lengths of head, engaged thread, nut and tapped hole, from
    memory); Hooke's law

    Caution
    -------
    A fastener that fails can kill. The fastener maker's stretch comes first.
    """
    rate = bolt_rate_with_ends(lengths, diameters, thread_diameter, pitch, thread_in, material)
    stretch = preload / rate
    require(
        stretch <= 0.02 * (total(lengths) + thread_diameter),
        "preload",
        "one that stretches the bolt by 2 % at most",
    )
    return stretch


@worksheet_function(SECTION)
def preload_from_stretch_with_ends(
    stretch: BoltStretch,
    lengths: Lengths,
    diameters: Lengths,
    thread_diameter: FastenerDiameter,
    pitch: ThreadPitch,
    thread_in: ThreadIn,
    material: Material,
) -> BoltPreload:
    """Preload of a bolt from its measured stretch, with what its head and thread give.

    Parameters
    ----------
    stretch
        length tightened less length free, measured with a stretch gauge.
    lengths
        Length of each step between head and thread hold, the free thread included. One cell each.
    diameters
        Diameter of each step, in the same order; for free thread that of a round bar of its stress
        area, SQRT(4/PI()*area).
    thread_diameter
        of the engaged thread.
    pitch
        of the engaged thread.
    thread_in
        What holds the thread, whose own give counts: "nut" or "tapped hole" (of the bolt's own
        stiffness); "bolt alone" for what a gauge between the bolt's two ends reads.
    material
        Material of the bolt.

    Equation
    --------
    F = stretch * BOLT_RATE_WITH_ENDS

    Validity
    --------
    Elastic, hexagon head; a socket head counts 0.4 diameters instead of 0.5. A tapped hole in
    aluminum gives some three times as much as one in steel. The substitution lengths are means
    from tests: good to some 5 %.
    A bolt beyond its yield stretches more than this tells.

    Source
    ------
    VDI 2230 Part 1 (substitution lengths of head, engaged thread, nut and tapped hole, from
    memory); Hooke's law

    Caution
    -------
    A fastener that fails can kill. The fastener maker's stretch comes first.
    """
    rate = bolt_rate_with_ends(lengths, diameters, thread_diameter, pitch, thread_in, material)
    require(
        stretch <= 0.02 * (total(lengths) + thread_diameter),
        "stretch",
        "2 % of the bolt's length at most",
    )
    return stretch * rate

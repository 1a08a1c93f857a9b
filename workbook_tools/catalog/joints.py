"""Bolted joints: rate of the clamped parts, the bolt's share of a load, and what heat adds."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    Length,
    LengthFromZero,
    Limits,
    Material,
    SignedForce,
    TemperatureRise,
)
from workbook_tools.catalog.measured import BoltRate, JointRate
from workbook_tools.catalog.preload import SECTION
from workbook_tools.catalog.registry import worksheet_function

BoltShare = Annotated[float, quantities.FACTOR, Limits(0.0, 1.0, True, True)]


def _frustum_gives(face: float, hole: float, thickness: float, modulus: float) -> float:
    """Flexibility of a frustum of half angle 30 degrees under a load on its small face."""
    widens = 2 / math.sqrt(3) * thickness
    top = (widens + face - hole) * (face + hole)
    bottom = (widens + face + hole) * (face - hole)
    return math.log(top / bottom) / (math.pi / math.sqrt(3) * modulus * hole)


@worksheet_function(SECTION)
def joint_rate(
    hole: Length,
    face: Length,
    head_thickness: Length,
    thread_thickness: LengthFromZero,
    head_material: Material,
    thread_material: Material,
) -> JointRate:
    """Rate of the parts that a bolt clamps, as springs.

    Parameters
    ----------
    hole
        Diameter of the bolt's hole; that of the bolt for a close one.
    face
        Diameter over which head and nut (or washer) press: some 1.5 bolt diameters.
    head_thickness
        Clamped thickness of the part under the head.
    thread_thickness
        Clamped thickness of the part on the side of the nut; of a part with a tapped hole half the
        bolt's diameter, or half its thickness if that is less. Type 0 for a single part.
    head_material
        Material of the part under the head.
    thread_material
        Material of the part on the side of the thread.

    Equation
    --------
    1 / k = sum over frusta of ln((1.155 * t + D - d) * (D + d) / ((1.155 * t + D + d) * (D - d)))
    / (0.5774 * pi * E * d), with d the hole, D the small face and t the thickness of each frustum;
    they widen by 30 degrees from both faces to the middle of the grip

    Validity
    --------
    Elastic, face to face without a gasket (a soft one gives far more and sets the rate), parts wide
    enough for the frusta. A washer counts as part of what it lies on. Good to 10 to 20 percent.

    Source
    ------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 8th edition, equation 8-20 (members'
    stiffness by frusta)

    Caution
    -------
    A fastener that fails can kill. The fastener maker's figures come first.
    """
    require(face >= 1.1 * hole, "face", "at least 1.1 times the hole")
    grip = head_thickness + thread_thickness
    head_is_thick = head_thickness >= thread_thickness
    thin = thread_thickness if head_is_thick else head_thickness
    head = tables.modulus(head_material)
    thread = tables.modulus(thread_material)
    thick_modulus = head if head_is_thick else thread
    thin_modulus = thread if head_is_thick else head
    # The thicker part reaches past the middle of the grip: its rest lies where the thinner part's
    # frustum has widened.
    half = _frustum_gives(face, hole, grip / 2, thick_modulus)
    end = _frustum_gives(face, hole, thin, thin_modulus)
    widened = face + 2 / math.sqrt(3) * thin
    rest = _frustum_gives(widened, hole, grip / 2 - thin, thick_modulus)
    return 1 / (half + end + rest)


@worksheet_function(SECTION)
def bolt_share(bolt_rate: BoltRate, joint_rate: JointRate) -> BoltShare:
    """Share of a working load that the bolt feels, in a joint that stays closed.

    Returns
    -------
    Between 0 and 1: what BOLT_MARGIN and JOINT_MARGIN take.

    Equation
    --------
    share = bolt_rate / (bolt_rate + joint_rate)

    Validity
    --------
    Load along the bolt, put in under head and nut: nearer the parting line the bolt feels less.
    Joint closed; a joint that gapes puts the whole load on the bolt.

    Source
    ------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 8th edition, chapter 8 (fraction of
    external load carried by the bolt)

    Caution
    -------
    A fastener that fails can kill. The fastener maker's figures come first.
    """
    require(bolt_rate > 0, "bolt_rate", "above 0")
    require(joint_rate > 0, "joint_rate", "above 0")
    return bolt_rate / (bolt_rate + joint_rate)


@worksheet_function(SECTION)
def load_from_heat(
    bolt_rate: BoltRate,
    joint_rate: JointRate,
    grip: Length,
    bolt_rise: TemperatureRise,
    joint_rise: TemperatureRise,
    bolt_material: Material,
    joint_material: Material,
) -> SignedForce:
    """Load that heat adds to a tightened bolt, where bolt and clamped parts grow unlike.

    Parameters
    ----------
    grip
        Clamped length.
    bolt_rise
        Temperature rise of the bolt since it was tightened; negative for colder.
    joint_rise
        Temperature rise of the clamped parts; negative for colder.
    bolt_material
        Material of the bolt.
    joint_material
        Material of the clamped parts.

    Returns
    -------
    Per bolt. Positive: added to its preload. Negative: taken from it.

    Equation
    --------
    load = grip * (a_joint * joint_rise - a_bolt * bolt_rise) / (1 / bolt_rate + 1 / joint_rate)

    Validity
    --------
    Elastic, joint closed, each part at one temperature, by its mean coefficient from about 20 to
    100 deg C. Parts of several materials: work each thickness out by itself and add the loads up.

    Source
    ------
    Hibbeler, Mechanics of Materials, chapter 4 (thermal stress); linear expansion, with the
    coefficients of the material table

    Caution
    -------
    A fastener that fails can kill. The fastener maker's figures come first.
    """
    require(bolt_rate > 0, "bolt_rate", "above 0")
    require(joint_rate > 0, "joint_rate", "above 0")
    joint = tables.expansion(joint_material) * joint_rise
    bolt = tables.expansion(bolt_material) * bolt_rise
    return grip * (joint - bolt) / (1 / bolt_rate + 1 / joint_rate)

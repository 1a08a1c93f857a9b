"""Volumes above the piston and the compression ratio that they make."""

from __future__ import annotations

import math

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    CompressionRatio,
    Length,
    SignedLength,
    SignedVolume,
    Volume,
    VolumeFromZero,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Compression"


@worksheet_function(SECTION)
def gasket_volume(gasket_bore: Length, gasket_thickness: Length) -> Volume:
    """Volume inside the head gasket.

    Parameters
    ----------
    gasket_bore
        Bore of the gasket, not of the cylinder.
    gasket_thickness
        Head gasket as compressed by the torqued head, not as sold.

    Equation
    --------
    gasket_volume = pi / 4 * gasket_bore**2 * gasket_thickness

    Validity
    --------
    A round opening. For another shape measure its area.

    Source
    ------
    common practice, no source (volume of a disk)
    """
    return math.pi / 4 * gasket_bore**2 * gasket_thickness


@worksheet_function(SECTION)
def deck_volume(bore: Length, deck_clearance: SignedLength) -> SignedVolume:
    """Volume between the flat of the piston at top dead center and the deck.

    Parameters
    ----------
    bore
        Finished cylinder bore.
    deck_clearance
        Positive with the piston below the deck, negative above it. An empty cell is not a
        zero: type 0 for a piston level with the deck.

    Returns
    -------
    Positive with the piston below the deck, negative above it.

    Equation
    --------
    deck_volume = pi / 4 * bore**2 * deck_clearance

    Validity
    --------
    Leaves out the crevice round the top land.

    Source
    ------
    common practice, no source (volume of a disk)
    """
    return math.pi / 4 * bore**2 * deck_clearance


@worksheet_function(SECTION)
def compression_ratio(
    cylinder_volume: Volume,
    chamber_volume: Volume,
    gasket_volume: VolumeFromZero,
    deck_volume: SignedVolume,
    crown_volume: SignedVolume = 0.0,
) -> CompressionRatio:
    """Static compression ratio of a cylinder from its measured volumes.

    Parameters
    ----------
    cylinder_volume
        Swept volume of one cylinder, in cc.
    chamber_volume
        Combustion chamber in the head, as measured with plug and valves in place. For a
        flat head over a bowl in the piston give the bowl here and leave crown_volume out.
    gasket_volume
        Volume inside the compressed head gasket. Type 0 for a head that seals without one.
    deck_volume
        Positive with the piston below the deck, negative above it. An empty cell is not a
        zero: type 0 for a piston level with the deck.
    crown_volume
        Positive for a dish or valve reliefs, negative for a dome. 0, a flat crown, if left
        out.

    Equation
    --------
    compression_ratio = (cylinder_volume + clearance) / clearance, with
    clearance = chamber_volume + gasket_volume + deck_volume + crown_volume

    Validity
    --------
    All volumes of one cylinder. The crevice round the top land is part of none of them.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (compression ratio as
    (displaced + clearance volume) / clearance volume)

    Caution
    -------
    What ratio an engine bears hangs on fuel, chamber, cam and use; too high a ratio destroys
    pistons. Follow the makers of the parts and the fuel's rating.
    """
    clearance = chamber_volume + gasket_volume + deck_volume + crown_volume
    require(
        clearance > 0,
        "chamber_volume",
        "large enough that chamber, gasket, deck and crown together stay above 0",
    )
    return (cylinder_volume + clearance) / clearance


@worksheet_function(SECTION)
def chamber_for_ratio(
    compression_ratio: CompressionRatio,
    cylinder_volume: Volume,
    gasket_volume: VolumeFromZero,
    deck_volume: SignedVolume,
    crown_volume: SignedVolume = 0.0,
) -> Volume:
    """Chamber volume that gives a wanted compression ratio.

    Parameters
    ----------
    compression_ratio
        Wanted static compression ratio.
    cylinder_volume
        Swept volume of one cylinder, in cc.
    gasket_volume
        Volume inside the compressed head gasket. Type 0 for a head that seals without one.
    deck_volume
        Positive with the piston below the deck, negative above it. An empty cell is not a
        zero: type 0 for a piston level with the deck.
    crown_volume
        Positive for a dish or valve reliefs, negative for a dome. 0, a flat crown, if left
        out.

    Equation
    --------
    chamber_volume = cylinder_volume / (compression_ratio - 1)
    - gasket_volume - deck_volume - crown_volume

    Validity
    --------
    All volumes of one cylinder.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (compression ratio, solved
    for the chamber)

    Caution
    -------
    A smaller chamber brings valves and head nearer to the piston: measure both clearances
    again after milling.
    """
    clearance = cylinder_volume / (compression_ratio - 1)
    others = gasket_volume + deck_volume + crown_volume
    require(
        clearance > others,
        "compression_ratio",
        "a ratio that leaves room for a chamber beside gasket, deck and crown",
    )
    return clearance - others

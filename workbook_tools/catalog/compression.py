"""The static compression ratio, and what gives a wanted one."""

from __future__ import annotations

import math

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    CompressionRatio,
    Length,
    LengthFromZero,
    SignedVolume,
    Volume,
    VolumeFromZero,
)
from workbook_tools.catalog.registry import worksheet_function
from workbook_tools.catalog.volumes import SECTION, clearance_volume


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
    All volumes of one cylinder. The crevice round the top land is part of none of them: to
    count it, add it to the chamber volume.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (compression ratio as
    (displaced + clearance volume) / clearance volume)

    Caution
    -------
    What ratio an engine bears hangs on fuel, chamber, cam and use; too high a ratio destroys
    pistons. Follow the makers of the parts and the fuel's rating.
    """
    clearance = clearance_volume(chamber_volume, gasket_volume, deck_volume, crown_volume)
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


@worksheet_function(SECTION)
def dish_for_ratio(
    compression_ratio: CompressionRatio,
    cylinder_volume: Volume,
    chamber_volume: Volume,
    gasket_volume: VolumeFromZero,
    deck_volume: SignedVolume,
) -> SignedVolume:
    """Crown volume that gives a wanted compression ratio.

    Parameters
    ----------
    compression_ratio
        Wanted static compression ratio.
    cylinder_volume
        Swept volume of one cylinder, in cc.
    chamber_volume
        Combustion chamber in the head, as measured with plug and valves in place.
    gasket_volume
        Volume inside the compressed head gasket. Type 0 for a head that seals without one.
    deck_volume
        Positive with the piston below the deck, negative above it. An empty cell is not a
        zero: type 0 for a piston level with the deck.

    Returns
    -------
    Positive for a dish, negative for a dome.

    Equation
    --------
    crown_volume = cylinder_volume / (compression_ratio - 1)
    - chamber_volume - gasket_volume - deck_volume

    Validity
    --------
    All volumes of one cylinder.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (compression ratio, solved
    for the crown)

    Caution
    -------
    What can be machined into a crown is for the piston's maker to say.
    """
    return cylinder_volume / (compression_ratio - 1) - chamber_volume - gasket_volume - deck_volume


@worksheet_function(SECTION)
def gasket_for_ratio(
    compression_ratio: CompressionRatio,
    cylinder_volume: Volume,
    chamber_volume: Volume,
    deck_volume: SignedVolume,
    gasket_bore: Length,
    crown_volume: SignedVolume = 0.0,
) -> Length:
    """Compressed gasket thickness that gives a wanted compression ratio.

    Parameters
    ----------
    compression_ratio
        Wanted static compression ratio.
    cylinder_volume
        Swept volume of one cylinder, in cc.
    chamber_volume
        Combustion chamber in the head, as measured with plug and valves in place. For a
        flat head over a bowl in the piston give the bowl here and leave crown_volume out.
    deck_volume
        Positive with the piston below the deck, negative above it. An empty cell is not a
        zero: type 0 for a piston level with the deck.
    gasket_bore
        Bore of the gasket, not of the cylinder.
    crown_volume
        Positive for a dish or valve reliefs, negative for a dome. 0, a flat crown, if left
        out.

    Equation
    --------
    gasket_thickness = (cylinder_volume / (compression_ratio - 1)
    - chamber_volume - deck_volume - crown_volume) / (pi / 4 * gasket_bore**2)

    Validity
    --------
    All volumes of one cylinder; a round gasket opening.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (compression ratio, solved
    for the gasket)

    Caution
    -------
    The gasket sets the quench too: check that the piston still clears the head, and that it
    does not stand so far away that the quench is lost.
    """
    clearance = cylinder_volume / (compression_ratio - 1)
    others = chamber_volume + deck_volume + crown_volume
    require(
        clearance > others,
        "compression_ratio",
        "a ratio that leaves room for a gasket beside chamber, deck and crown",
    )
    return (clearance - others) / (math.pi / 4 * gasket_bore**2)


@worksheet_function(SECTION)
def deck_cut_for_ratio(
    compression_ratio: CompressionRatio,
    cylinder_volume: Volume,
    chamber_volume: Volume,
    gasket_volume: VolumeFromZero,
    deck_volume: SignedVolume,
    bore: Length,
    crown_volume: SignedVolume = 0.0,
) -> LengthFromZero:
    """Depth to cut off the block's deck for a wanted compression ratio.

    Parameters
    ----------
    compression_ratio
        Wanted static compression ratio.
    cylinder_volume
        Swept volume of one cylinder, in cc.
    chamber_volume
        Combustion chamber in the head, as measured with plug and valves in place. For a
        flat head over a bowl in the piston give the bowl here and leave crown_volume out.
    gasket_volume
        Volume inside the compressed head gasket. Type 0 for a head that seals without one.
    deck_volume
        Before the cut: positive with the piston below the deck, negative above it. An empty
        cell is not a zero: type 0 for a piston level with the deck.
    bore
        Finished cylinder bore.
    crown_volume
        Positive for a dish or valve reliefs, negative for a dome. 0, a flat crown, if left
        out.

    Returns
    -------
    Zero where the ratio is met as it is; a ratio below the present one is an error.

    Equation
    --------
    deck_cut = (chamber_volume + gasket_volume + deck_volume + crown_volume
    - cylinder_volume / (compression_ratio - 1)) / (pi / 4 * bore**2)

    Validity
    --------
    All volumes of one cylinder, as they are before the cut.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (compression ratio, solved
    for the deck)

    Caution
    -------
    A cut brings piston, head and valves nearer to each other: check quench and piston to
    valve clearance again, and keep to the least heights that the maker allows.
    """
    clearance = cylinder_volume / (compression_ratio - 1)
    surplus = chamber_volume + gasket_volume + deck_volume + crown_volume - clearance
    # A billionth of the clearance is no cut: it comes from the last digits of the volumes.
    require(
        surplus >= -1e-9 * clearance,
        "compression_ratio",
        "no less than the ratio there is without a cut",
    )
    return max(surplus, 0.0) / (math.pi / 4 * bore**2)

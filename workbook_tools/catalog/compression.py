"""The static compression ratio, and what gives a wanted one."""

from __future__ import annotations

import math

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import LengthRow
from workbook_tools.catalog.measured import (
    Bore,
    ChamberVolume,
    CompressionRatio,
    CrownVolume,
    CylinderVolume,
    DeckClearance,
    DeckCut,
    DeckVolume,
    GasketBore,
    GasketThickness,
    GasketVolume,
)
from workbook_tools.catalog.quench import quench
from workbook_tools.catalog.registry import worksheet_function
from workbook_tools.catalog.volumes import SECTION, clearance_volume, deck_volume


@worksheet_function(SECTION)
def compression_ratio(
    cylinder_volume: CylinderVolume,
    chamber_volume: ChamberVolume,
    gasket_volume: GasketVolume,
    deck_volume: DeckVolume,
    crown_volume: CrownVolume = 0.0,
) -> CompressionRatio:
    """Static compression ratio of a cylinder from its measured volumes.

    Parameters
    ----------
    cylinder_volume
        in cc.
    chamber_volume
        For a flat head over a bowl in the piston give the bowl here and leave crown_volume out.
    crown_volume
        0, a flat crown, if left out.

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
    How much ratio an engine can stand depends on fuel, chamber, cam and use; too high a ratio
    destroys pistons. Follow the makers of the parts and the fuel's rating.
    """
    clearance = clearance_volume(chamber_volume, gasket_volume, deck_volume, crown_volume)
    return (cylinder_volume + clearance) / clearance


@worksheet_function(SECTION)
def chamber_for_ratio(
    compression_ratio: CompressionRatio,
    cylinder_volume: CylinderVolume,
    gasket_volume: GasketVolume,
    deck_volume: DeckVolume,
    crown_volume: CrownVolume = 0.0,
) -> ChamberVolume:
    """Chamber volume that gives a wanted compression ratio.

    Parameters
    ----------
    compression_ratio
        wanted, static.
    cylinder_volume
        in cc.
    crown_volume
        0, a flat crown, if left out.

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
    cylinder_volume: CylinderVolume,
    chamber_volume: ChamberVolume,
    gasket_volume: GasketVolume,
    deck_volume: DeckVolume,
) -> CrownVolume:
    """Crown volume that gives a wanted compression ratio.

    Parameters
    ----------
    compression_ratio
        wanted, static.
    cylinder_volume
        in cc.

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
    cylinder_volume: CylinderVolume,
    chamber_volume: ChamberVolume,
    deck_volume: DeckVolume,
    gasket_bore: GasketBore,
    crown_volume: CrownVolume = 0.0,
) -> GasketThickness:
    """Compressed gasket thickness that gives a wanted compression ratio.

    Parameters
    ----------
    compression_ratio
        wanted, static.
    cylinder_volume
        in cc.
    chamber_volume
        For a flat head over a bowl in the piston give the bowl here and leave crown_volume out.
    gasket_bore
        not that of the cylinder.
    crown_volume
        0, a flat crown, if left out.

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
def gasket_with_quench(
    compression_ratio: CompressionRatio,
    cylinder_volume: CylinderVolume,
    chamber_volume: ChamberVolume,
    bore: Bore,
    deck_clearance: DeckClearance,
    gasket_bore: GasketBore,
    crown_volume: CrownVolume = 0.0,
) -> LengthRow:
    """Compressed gasket thickness that gives a wanted compression ratio, and the quench with it.

    Parameters
    ----------
    compression_ratio
        wanted, static.
    cylinder_volume
        in cc.
    chamber_volume
        For a flat head over a bowl in the piston give the bowl here and leave crown_volume out.
    bore
        finished.
    gasket_bore
        not that of the cylinder.
    crown_volume
        0, a flat crown, if left out.

    Returns
    -------
    Two cells beside each other: gasket thickness and quench.

    Equation
    --------
    gasket as from ENG.GASKET_FOR_RATIO, quench = deck_clearance + gasket

    Validity
    --------
    All volumes of one cylinder; a round gasket opening. Cold, at rest.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (compression ratio, solved
    for the gasket)

    Caution
    -------
    A piston that touches the head breaks, and a quench that is too wide is lost: keep the least
    that the engine maker allows, and order the gasket by both.
    """
    thickness = gasket_for_ratio(
        compression_ratio,
        cylinder_volume,
        chamber_volume,
        deck_volume(bore, deck_clearance),
        gasket_bore,
        crown_volume,
    )
    return ((thickness, quench(deck_clearance, thickness)),)


@worksheet_function(SECTION)
def deck_cut_for_ratio(
    compression_ratio: CompressionRatio,
    cylinder_volume: CylinderVolume,
    chamber_volume: ChamberVolume,
    gasket_volume: GasketVolume,
    deck_volume: DeckVolume,
    bore: Bore,
    crown_volume: CrownVolume = 0.0,
) -> DeckCut:
    """Depth to cut off the block's deck for a wanted compression ratio.

    Parameters
    ----------
    compression_ratio
        wanted, static.
    cylinder_volume
        in cc.
    chamber_volume
        For a flat head over a bowl in the piston give the bowl here and leave crown_volume out.
    deck_volume
        before the cut.
    bore
        finished.
    crown_volume
        0, a flat crown, if left out.

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

"""The volumes above the piston at top dead center."""

from __future__ import annotations

import math

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    Area,
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
def ring_land_volume(bore: Length, land_diameter: Length, land_height: Length) -> Volume:
    """Volume of the crevice round the top land of the piston.

    Parameters
    ----------
    bore
        Finished cylinder bore.
    land_diameter
        Diameter of the piston above the top ring, smaller than the bore.
    land_height
        From the edge of the crown down to the top ring.

    Equation
    --------
    ring_land_volume = pi / 4 * (bore**2 - land_diameter**2) * land_height

    Validity
    --------
    Cold sizes; the gaps behind the ring are not counted. The ratio as commonly given leaves
    the crevice out: to count it, add it to the chamber volume.

    Source
    ------
    common practice, no source (volume of a hollow cylinder)
    """
    require(land_diameter < bore, "land_diameter", "less than the bore")
    require(land_diameter >= 0.9 * bore, "land_diameter", "a size within 10 % of the bore")
    return math.pi / 4 * (bore**2 - land_diameter**2) * land_height


@worksheet_function(SECTION)
def clearance_volume(
    chamber_volume: Volume,
    gasket_volume: VolumeFromZero,
    deck_volume: SignedVolume,
    crown_volume: SignedVolume = 0.0,
) -> Volume:
    """Clearance volume: all that is left above the piston at top dead center.

    Parameters
    ----------
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
    clearance_volume = chamber_volume + gasket_volume + deck_volume + crown_volume

    Validity
    --------
    All volumes of one cylinder. The crevice round the top land is part of none of them.

    Source
    ------
    common practice, no source (sum of volumes)
    """
    clearance = chamber_volume + gasket_volume + deck_volume + crown_volume
    require(
        clearance > 0,
        "chamber_volume",
        "large enough that chamber, gasket, deck and crown together stay above 0",
    )
    return clearance


@worksheet_function(SECTION)
def chamber_change(milling_depth: Length, chamber_area: Area) -> Volume:
    """Volume that milling the head takes from a chamber.

    Parameters
    ----------
    milling_depth
        What is taken off the head's face.
    chamber_area
        Open area of the chamber at the face.

    Equation
    --------
    chamber_change = milling_depth * chamber_area

    Validity
    --------
    Walls that stand square to the face over the depth of the cut. Measure the chamber again
    after milling.

    Source
    ------
    common practice, no source (area times depth)

    Caution
    -------
    A cut brings piston, head and valves nearer to each other: check quench and piston to
    valve clearance again, and keep to the least heights that the maker allows.
    """
    return milling_depth * chamber_area


@worksheet_function(SECTION)
def milling_for_chamber_change(chamber_change: Volume, chamber_area: Area) -> Length:
    """Depth to mill off the head to take a wanted volume from a chamber.

    Parameters
    ----------
    chamber_change
        Volume by which the chamber is to become smaller.
    chamber_area
        Open area of the chamber at the face.

    Equation
    --------
    milling_depth = chamber_change / chamber_area

    Validity
    --------
    Walls that stand square to the face over the depth of the cut. Measure the chamber again
    after milling.

    Source
    ------
    common practice, no source (area times depth)

    Caution
    -------
    A cut brings piston, head and valves nearer to each other: check quench and piston to
    valve clearance again, and keep to the least heights that the maker allows.
    """
    return chamber_change / chamber_area

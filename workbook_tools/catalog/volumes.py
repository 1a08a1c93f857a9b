"""The volumes above the piston at top dead center."""

from __future__ import annotations

import math

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.measured import (
    Bore,
    ChamberArea,
    ChamberChange,
    ChamberVolume,
    ClearanceVolume,
    CrownVolume,
    DeckClearance,
    DeckVolume,
    GasketBore,
    GasketThickness,
    GasketVolume,
    HeadCut,
    LandDiameter,
    LandHeight,
    RingLandVolume,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Compression"


@worksheet_function(SECTION)
def gasket_volume(gasket_bore: GasketBore, gasket_thickness: GasketThickness) -> GasketVolume:
    """Volume inside the head gasket.

    Parameters
    ----------
    gasket_bore
        not that of the cylinder.

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
def deck_volume(bore: Bore, deck_clearance: DeckClearance) -> DeckVolume:
    """Volume between the flat of the piston at top dead center and the deck.

    Parameters
    ----------
    bore
        finished.

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
def ring_land_volume(
    bore: Bore, land_diameter: LandDiameter, land_height: LandHeight
) -> RingLandVolume:
    """Volume of the crevice round the top land of the piston.

    Parameters
    ----------
    bore
        finished.
    land_diameter
        above the top ring, smaller than the bore.

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
    chamber_volume: ChamberVolume,
    gasket_volume: GasketVolume,
    deck_volume: DeckVolume,
    crown_volume: CrownVolume = 0.0,
) -> ClearanceVolume:
    """Clearance volume: all that is left above the piston at top dead center.

    Parameters
    ----------
    chamber_volume
        For a flat head over a bowl in the piston give the bowl here and leave crown_volume out.
    crown_volume
        0, a flat crown, if left out.

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
def chamber_change(milling_depth: HeadCut, chamber_area: ChamberArea) -> ChamberChange:
    """Volume that milling the head takes from a chamber.

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
def milling_for_chamber_change(chamber_change: ChamberChange, chamber_area: ChamberArea) -> HeadCut:
    """Depth to mill off the head to take a wanted volume from a chamber.

    Parameters
    ----------
    chamber_change
        The chamber becomes smaller by it.

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

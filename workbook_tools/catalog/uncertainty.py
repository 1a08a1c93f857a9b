"""How well a computed ratio is known, from how well its parts were measured."""

from __future__ import annotations

import math

from workbook_tools.catalog.displacement import cylinder_volume
from workbook_tools.catalog.kinds import LengthFromZero, Ratio, VolumeFromZero
from workbook_tools.catalog.measured import (
    Bore,
    ChamberVolume,
    CrownVolume,
    DeckClearance,
    GasketBore,
    GasketThickness,
    Stroke,
)
from workbook_tools.catalog.registry import worksheet_function
from workbook_tools.catalog.volumes import SECTION, clearance_volume, deck_volume, gasket_volume


@worksheet_function(SECTION)
def ratio_uncertainty(
    bore: Bore,
    stroke: Stroke,
    chamber_volume: ChamberVolume,
    gasket_bore: GasketBore,
    gasket_thickness: GasketThickness,
    deck_clearance: DeckClearance,
    crown_volume: CrownVolume,
    bore_uncertainty: LengthFromZero,
    stroke_uncertainty: LengthFromZero,
    chamber_uncertainty: VolumeFromZero,
    gasket_bore_uncertainty: LengthFromZero,
    thickness_uncertainty: LengthFromZero,
    deck_uncertainty: LengthFromZero,
    crown_uncertainty: VolumeFromZero,
) -> Ratio:
    """Uncertainty of the compression ratio from the uncertainty of each measured size.

    Parameters
    ----------
    bore
        finished.
    gasket_bore
        not that of the cylinder.
    crown_volume
        Type 0 for a flat crown.
    bore_uncertainty
        Standard uncertainty of the bore. In this and all that follow, type 0 for a size taken as
        exact.
    stroke_uncertainty
        Standard uncertainty of the stroke.
    chamber_uncertainty
        Standard uncertainty of the chamber volume.
    gasket_bore_uncertainty
        Standard uncertainty of the gasket bore.
    thickness_uncertainty
        Standard uncertainty of the gasket thickness.
    deck_uncertainty
        Standard uncertainty of the deck clearance.
    crown_uncertainty
        Standard uncertainty of the crown volume.

    Returns
    -------
    The combined standard uncertainty of the ratio; twice it covers about 95 percent.

    Equation
    --------
    u(CR)**2 = sum over the sizes x of (dCR/dx * u(x))**2

    Validity
    --------
    Sizes measured independently of each other, with uncertainties small beside the sizes. A
    limit of +-a without more knowledge has the standard uncertainty a / sqrt(3).

    Source
    ------
    JCGM 100:2008 (GUM), 5.1.2, equation (10) (law of propagation of uncertainty)
    """
    swept = cylinder_volume(bore, stroke)
    clearance = clearance_volume(
        chamber_volume,
        gasket_volume(gasket_bore, gasket_thickness),
        deck_volume(bore, deck_clearance),
        crown_volume,
    )
    # What a unit of swept volume adds to the ratio, and what a unit of clearance takes.
    per_swept = 1 / clearance
    per_clearance = swept / clearance**2
    bore_area = math.pi / 4 * bore**2
    by_bore = math.pi / 2 * bore * (per_swept * stroke - per_clearance * deck_clearance)
    by_gasket_bore = math.pi / 2 * gasket_bore * gasket_thickness * per_clearance
    by_thickness = math.pi / 4 * gasket_bore**2 * per_clearance
    return math.sqrt(
        (by_bore * bore_uncertainty) ** 2
        + (per_swept * bore_area * stroke_uncertainty) ** 2
        + (per_clearance * chamber_uncertainty) ** 2
        + (by_gasket_bore * gasket_bore_uncertainty) ** 2
        + (by_thickness * thickness_uncertainty) ** 2
        + (per_clearance * bore_area * deck_uncertainty) ** 2
        + (per_clearance * crown_uncertainty) ** 2
    )

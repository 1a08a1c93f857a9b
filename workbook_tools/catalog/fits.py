"""Fits that are measured on both parts: bearings with their shells in, pins, guides, any hole."""

from __future__ import annotations

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Length, SignedLength
from workbook_tools.catalog.measured import (
    BearingBore,
    BearingClearance,
    GuideBore,
    Journal,
    PinBore,
    PinClearance,
    PinDiameter,
    SmallEndBore,
    SmallEndClearance,
    StemClearance,
    StemDiameter,
)
from workbook_tools.catalog.registry import worksheet_function


@worksheet_function("Bearings")
def bearing_clearance_from_bore(bearing_bore: BearingBore, journal: Journal) -> BearingClearance:
    """Bearing clearance, total, from the bore of the fitted bearing and the journal.

    Parameters
    ----------
    bearing_bore
        of a main, rod or cam bearing, measured square to the parting line.

    Returns
    -------
    Diametral clearance, not per side. Negative for an interference.

    Equation
    --------
    bearing_clearance = bearing_bore - journal

    Validity
    --------
    Both parts at the same temperature. BEARING_CLEARANCE reckons it from housing bore and shell
    walls, without what the press of the shells does.

    Source
    ------
    common practice, no source (difference of two sizes)

    Caution
    -------
    A bearing without oil film fails and can throw a rod. The engine and bearing makers'
    figures come first.
    """
    require(
        abs(bearing_bore - journal) <= 0.02 * journal,
        "journal",
        "a size within 2 % of the bearing bore",
    )
    return bearing_bore - journal


@worksheet_function("Pistons, bores, rings")
def pin_clearance_in_piston(pin_bore: PinBore, pin_diameter: PinDiameter) -> PinClearance:
    """Clearance of the piston pin in the piston, total.

    Parameters
    ----------
    pin_bore
        of the piston.

    Returns
    -------
    On the diameter, not per side.

    Equation
    --------
    pin_clearance = pin_bore - pin_diameter

    Validity
    --------
    Both parts at the same temperature. An aluminum piston opens on its pin as it warms up.

    Source
    ------
    common practice, no source (difference of two sizes)

    Caution
    -------
    A pin that is tight in the piston galls and can seize it. The piston maker's figure comes
    first.
    """
    require(
        abs(pin_bore - pin_diameter) <= 0.02 * pin_diameter,
        "pin_diameter",
        "a size within 2 % of the pin bore",
    )
    return pin_bore - pin_diameter


@worksheet_function("Pistons, bores, rings")
def pin_clearance_in_rod(
    small_end_bore: SmallEndBore, pin_diameter: PinDiameter
) -> SmallEndClearance:
    """Clearance of the piston pin in the rod's small end, total, or the fit of a pressed pin.

    Returns
    -------
    On the diameter, not per side.

    Equation
    --------
    pin_clearance = small_end_bore - pin_diameter

    Validity
    --------
    Both parts at the same temperature.

    Source
    ------
    common practice, no source (difference of two sizes)

    Caution
    -------
    A pin too loose in a pressed fit wanders into the bore; one too tight in a bushing seizes.
    The rod and piston makers' figures come first.
    """
    require(
        abs(small_end_bore - pin_diameter) <= 0.02 * pin_diameter,
        "pin_diameter",
        "a size within 2 % of the small end bore",
    )
    return small_end_bore - pin_diameter


@worksheet_function("Camshaft and valvetrain")
def valve_guide_clearance(guide_bore: GuideBore, stem_diameter: StemDiameter) -> StemClearance:
    """Clearance of a valve stem in its guide, total.

    Parameters
    ----------
    guide_bore
        as fitted and reamed or honed; worn guides are bell-mouthed: take the ends.
    stem_diameter
        where it runs in the guide.

    Returns
    -------
    On the diameter, not per side. Negative where the stem would bind.

    Equation
    --------
    valve_guide_clearance = guide_bore - stem_diameter

    Validity
    --------
    Both parts at the same temperature. A stem rocked at its tip shows about twice as much.

    Source
    ------
    common practice, no source (difference of two sizes)

    Caution
    -------
    A stem that sticks lets the valve meet the piston. The valve and guide makers' figures come
    first; an exhaust valve needs more.
    """
    require(
        abs(guide_bore - stem_diameter) <= 0.1 * stem_diameter,
        "stem_diameter",
        "a size within 10 % of the guide bore",
    )
    return guide_bore - stem_diameter


@worksheet_function("Choosing and matching")
def fit(hole: Length, shaft: Length) -> SignedLength:
    """Fit of a hole and what goes into it, on the diameter.

    Parameters
    ----------
    hole
        Inside diameter: of a bore, a hub, a counterbore.
    shaft
        Outside diameter of what goes into it: a shaft, a guide, a seat, a sleeve.

    Returns
    -------
    Positive: a clearance. Negative: an interference (press).

    Equation
    --------
    fit = hole - shaft

    Validity
    --------
    Both parts round and at the same temperature. What heat does to it depends on both materials.

    Source
    ------
    ISO 286-1 (size of the hole less that of the shaft; clearance positive, interference negative)

    Caution
    -------
    A seat, sleeve or hub that comes loose wrecks the engine; one pressed too hard cracks its
    housing. The makers' figures come first.
    """
    require(abs(hole - shaft) <= 0.1 * hole, "shaft", "a size within 10 % of the hole")
    return hole - shaft

"""Pistons and bores: clearance cold and hot, finished sizes, how far a skirt leaves its bore."""

from __future__ import annotations

from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Choice, Material, Use
from workbook_tools.catalog.measured import (
    Bore,
    BoreTemperatureRise,
    DeckClearance,
    HotPistonClearance,
    LinerLength,
    PistonClearance,
    PistonClearanceBand,
    PistonDiameter,
    PistonLength,
    PistonTemperatureRise,
    SkirtExposure,
    Stroke,
)
from workbook_tools.catalog.registry import worksheet_function
from workbook_tools.catalog.tables import BEYOND, NO_ROW, TOO_LARGE

SECTION = "Pistons, bores, rings"
_TABLE = "piston clearance factor"

PistonType = Annotated[str, quantities.TEXT, Choice(tables.words(_TABLE, "piston"))]


@worksheet_function(SECTION)
def piston_clearance(bore: Bore, piston_diameter: PistonDiameter) -> PistonClearance:
    """Piston-to-bore clearance, total, from the two diameters.

    Parameters
    ----------
    bore
        where the skirt runs, at the temperature at which the piston was measured.
    piston_diameter
        of the skirt at the height that the piston maker names, square to the pin.

    Returns
    -------
    Total clearance, not per side. Negative for an interference, as some coated skirts
    measure over the coating.

    Equation
    --------
    piston_clearance = bore - piston_diameter

    Validity
    --------
    Both parts at the same temperature.

    Source
    ------
    common practice, no source (difference of two sizes)

    Caution
    -------
    Too little clearance seizes the engine. The piston maker's figure comes first.
    """
    require(
        abs(bore - piston_diameter) <= 0.02 * bore,
        "piston_diameter",
        "a size within 2 % of the bore",
    )
    return bore - piston_diameter


@worksheet_function(SECTION)
def hot_piston_clearance(
    bore: Bore,
    piston_diameter: PistonDiameter,
    bore_rise: BoreTemperatureRise,
    piston_rise: PistonTemperatureRise,
    block_material: Material,
    piston_material: Material = "aluminum",
) -> HotPistonClearance:
    """Piston-to-bore clearance of the hot engine, total.

    Parameters
    ----------
    bore
        where the skirt runs, cold.
    piston_diameter
        of the skirt at the height that the piston maker names, cold.
    bore_rise
        Negative for colder.
    piston_rise
        of the skirt; negative for colder.
    block_material
        Material that sets the bore's size: the block's, with a dry sleeve too; with a wet sleeve
        the sleeve's.
    piston_material
        Material of the piston. Aluminum as cast if left out.

    Equation
    --------
    hot_clearance = bore * (1 + a_block * bore_rise) - piston_diameter * (1 + a_piston *
    piston_rise)

    Validity
    --------
    Free, even expansion of round parts by mean coefficients from about 20 to 100 deg C, for
    comparing materials and never a limit. A skirt is a barrel that flexes, and a fired bore is
    hotter than the coolant: fits that are proven in service come out slightly negative. A 4.03
    in bore in gray iron, bore 120 and skirt 180 deg F warmer, gives -0.0014 in for a 2618
    piston at 0.0045 in cold.

    Source
    ------
    Callister, Fundamentals of Materials Science and Engineering: An Integrated Approach,
    3rd edition, linear expansion (change of length = coefficient * length * temperature change)

    Caution
    -------
    Too little clearance seizes the engine. The piston maker's figure comes first.
    """
    require(
        abs(bore - piston_diameter) <= 0.02 * bore,
        "piston_diameter",
        "a size within 2 % of the bore",
    )
    hot_bore = bore * (1 + tables.expansion(block_material) * bore_rise)
    hot_piston = piston_diameter * (1 + tables.expansion(piston_material) * piston_rise)
    return hot_bore - hot_piston


@worksheet_function(SECTION)
def piston_size_for_clearance(bore: Bore, clearance: PistonClearance) -> PistonDiameter:
    """Skirt diameter that gives a wanted clearance in a finished bore.

    Parameters
    ----------
    bore
        finished.
    clearance
        wanted, not per side.

    Equation
    --------
    piston_diameter = bore - clearance

    Validity
    --------
    Both parts at the same temperature, the skirt at the height that the maker names.

    Source
    ------
    common practice, no source (difference of two sizes)

    Caution
    -------
    Too little clearance seizes the engine. The piston maker's figure comes first.
    """
    require(clearance <= 0.02 * bore, "clearance", "2 % of the bore at most")
    return bore - clearance


@worksheet_function(SECTION)
def hone_to_size(piston_diameter: PistonDiameter, clearance: PistonClearance) -> Bore:
    """Bore to hone to, for a measured piston and a wanted clearance.

    Parameters
    ----------
    piston_diameter
        of the skirt of the piston for this bore, at the height that the maker names.
    clearance
        wanted, not per side.

    Equation
    --------
    bore = piston_diameter + clearance

    Validity
    --------
    Both parts at the same temperature; a bore just honed is warm and reads large.

    Source
    ------
    common practice, no source (sum of two sizes)

    Caution
    -------
    Too little clearance seizes the engine. The piston maker's figure comes first.
    """
    require(clearance <= 0.02 * piston_diameter, "clearance", "2 % of the piston at most")
    return piston_diameter + clearance


@worksheet_function(SECTION)
def skirt_exposure(
    deck_clearance: DeckClearance,
    stroke: Stroke,
    piston_length: PistonLength,
    sleeve_length: LinerLength,
) -> SkirtExposure:
    """How far the skirt leaves its sleeve at bottom dead center.

    Parameters
    ----------
    sleeve_length
        or that of the bore.

    Returns
    -------
    Positive for the length of skirt below the sleeve, negative for what the skirt still
    has to go.

    Equation
    --------
    skirt_exposure = deck_clearance + stroke + piston_length - sleeve_length

    Validity
    --------
    Pin and crank on the bore's centerline, sleeve level with the deck. How much exposure a
    piston can stand depends on where its skirt ends and its pin sits: ask its maker.

    Source
    ------
    common practice, no source (sum of lengths)

    Caution
    -------
    A skirt that leaves the sleeve too far rocks, wears and can break. It limits the stroke.
    """
    return deck_clearance + stroke + piston_length - sleeve_length


@worksheet_function(SECTION)
def piston_clearance_band(bore: Bore, use: Use, piston: PistonType) -> PistonClearanceBand:
    """Band of piston-to-bore clearance for a bore, a use and a kind of piston.

    Parameters
    ----------
    bore
        finished.
    piston
        How the piston is made.

    Returns
    -------
    Three cells beside each other: low, high, and where the band comes from.

    Equation
    --------
    low = low base + bore * low factor, high = high base + bore * high factor of the table's row
    for this use and piston, or for the use that this one is like; most rows have no base

    Validity
    --------
    A starting point where the piston maker names no figure. Service is for the maker's own cast
    or hypereutectic pistons. Air cooled goes up to a bore of 125 mm: for larger ones say aircraft.
    An air-cooled two-stroke needs the upper half of the band for two-stroke: say "air cooled
    two-stroke". The third cell says whose row it is, and whether the bore lies beyond those that
    the row comes from.

    Source
    ------
    makers' service ranges for cast and hypereutectic pistons in service, stock, motorcycle, diesel,
    air cooled and two-stroke use, else common practice, no source; each row of the table names
    its origin

    Caution
    -------
    Too little clearance seizes the engine. The piston maker's figure comes first.
    """
    require(tables.has_band(_TABLE, use=use, piston=piston), "use", NO_ROW)
    row = tables.row(_TABLE, use=use, piston=piston)
    require(bore <= tables.figure(_TABLE, row, "largest"), "bore", TOO_LARGE)
    low = tables.figure(_TABLE, row, "low_base") + bore * tables.figure(_TABLE, row, "low")
    high = tables.figure(_TABLE, row, "high_base") + bore * tables.figure(_TABLE, row, "high")
    least = tables.figure(_TABLE, row, "least_size")
    most = tables.figure(_TABLE, row, "most_size")
    stands_in = tables.word(_TABLE, row, "use")
    told = tables.word(_TABLE, row, "origin")
    told = told + ("" if stands_in == use else "; as for " + stands_in)
    told = told + (BEYOND if bore < least or bore > most else "")
    return ((low, high, told),)

"""Piston rings: end gap, side clearance and back clearance."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Choice, Limits, Material, Use
from workbook_tools.catalog.measured import (
    Bore,
    BoreTemperatureRise,
    GrooveDiameter,
    GrooveWidth,
    HotRingGap,
    RingBackClearance,
    RingGap,
    RingGapBand,
    RingGapFactor,
    RingRadialThickness,
    RingSideClearance,
    RingTemperatureRise,
    RingTension,
    RingWidth,
)
from workbook_tools.catalog.registry import worksheet_function
from workbook_tools.catalog.tables import BEYOND, NO_ROW

SECTION = "Pistons, bores, rings"
_TABLE = "ring gap factor"

RingPressure = Annotated[float, quantities.STRESS, Limits(0.0, 1e8, low_open=True)]
Ring = Annotated[str, quantities.TEXT, Choice(tables.words(_TABLE, "ring"))]


@worksheet_function(SECTION)
def ring_gap_factor(use: Use, ring: Ring) -> RingGapFactor:
    """Ring gap per unit of bore, from the table of bands.

    Parameters
    ----------
    ring
        "top" or "second". Oil rails are not scaled with the bore.

    Returns
    -------
    The same number in an inch book and in a metric one: inches per inch, mm per mm.

    Equation
    --------
    ring_gap_factor = factor of the table's row for this use and ring, or for the use that this
    one is like

    Validity
    --------
    A starting point where the ring maker names no figure. Published tables agree in shape
    but not in their digits; where they contradict each other the wide figure stands: 0.0070 for
    the top ring of turbo, supercharged and nitrous race alike.

    Source
    ------
    common practice, no source; each row of the table names its origin

    Caution
    -------
    A gap too small lets the ring ends meet when hot, and the ring breaks the piston. The
    ring maker's figure for the use comes first.
    """
    require(tables.has_band(_TABLE, use=use, ring=ring), "use", NO_ROW)
    return tables.factor(_TABLE, use=use, ring=ring)


@worksheet_function(SECTION)
def ring_gap(bore: Bore, factor: RingGapFactor) -> RingGap:
    """Ring end gap for a bore, from a gap per unit of bore.

    Parameters
    ----------
    bore
        finished, of the cylinder that the ring goes into: not the standard bore.
    factor
        A plain number such as 0.0045, the same in inches and in mm.

    Returns
    -------
    The gap with the ring square in the bore.

    Equation
    --------
    ring_gap = factor * bore

    Validity
    --------
    Cold, at the bore's smallest place in the ring's travel.

    Source
    ------
    common practice, no source (the rule); Khurmi & Gupta, A Textbook of Machine Design,
    ch. 32, gives a closed gap of 0.002 to 0.004 times the bore

    Caution
    -------
    A gap too small lets the ring ends meet when hot, and the ring breaks the piston. The
    ring maker's figure for the use comes first.
    """
    require(
        factor <= 0.012,
        "factor",
        "a gap per unit of bore such as 0.0045, 0.012 at most; a gap such as 0.018 in is no factor",
    )
    return factor * bore


@worksheet_function(SECTION)
def ring_gap_band(bore: Bore, use: Use, ring: Ring) -> RingGapBand:
    """Band of ring end gap for a bore and a use.

    Parameters
    ----------
    bore
        finished, of the cylinder that the ring goes into.
    ring
        "top" or "second". Oil rails are not scaled with the bore.

    Returns
    -------
    Three cells beside each other: low, high, and where the band comes from.

    Equation
    --------
    low = low base + bore * low factor, high = high base + bore * high factor of the table's row
    for this use and ring, or for the use that this one is like; most rows have no base

    Validity
    --------
    A starting point where the ring maker names no figure. The third cell says whose row it is,
    and whether the bore lies beyond those that the row comes from. Second rings of diesels are of
    two schools, and their band is wide enough for both.

    Source
    ------
    makers' service ranges for service, stock, motorcycle, diesel, air cooled and two-stroke, else
    common practice, no source; each row of the table names its origin

    Caution
    -------
    A gap too small lets the ring ends meet when hot, and the ring breaks the piston. The
    ring maker's figure for the use comes first.
    """
    require(tables.has_band(_TABLE, use=use, ring=ring), "use", NO_ROW)
    row = tables.row(_TABLE, use=use, ring=ring)
    low = tables.figure(_TABLE, row, "low_base") + bore * tables.figure(_TABLE, row, "low")
    high = tables.figure(_TABLE, row, "high_base") + bore * tables.figure(_TABLE, row, "high")
    least = tables.figure(_TABLE, row, "least_size")
    most = tables.figure(_TABLE, row, "most_size")
    stands_in = tables.word(_TABLE, row, "use")
    told = tables.word(_TABLE, row, "origin")
    told = told + ("" if stands_in == use else "; as for " + stands_in)
    told = told + (BEYOND if bore < least or bore > most else "")
    return ((low, high, told),)


@worksheet_function(SECTION)
def ring_gap_after_hone(ring_gap: RingGap, old_bore: Bore, new_bore: Bore) -> RingGap:
    """End gap that a ring has in another bore: after honing, in another cylinder, lower down.

    Parameters
    ----------
    ring_gap
        measured in the old bore. Type 0 for ends that just touch.
    old_bore
        in which the gap was measured.
    new_bore
        in which the ring will run.

    Returns
    -------
    Negative where the ring ends would overlap.

    Equation
    --------
    new_gap = ring_gap + pi * (new_bore - old_bore)

    Validity
    --------
    Cold, ring square and touching the bore all around.

    Source
    ------
    common practice, no source (a circumference is pi times its diameter)

    Caution
    -------
    A gap too small lets the ring ends meet when hot, and the ring breaks the piston. The
    ring maker's figure for the use comes first.
    """
    require(ring_gap <= 0.05 * old_bore, "ring_gap", "a gap of 5 % of the bore at most")
    require(
        abs(new_bore - old_bore) <= 0.05 * old_bore, "new_bore", "a bore within 5 % of the old one"
    )
    return ring_gap + math.pi * (new_bore - old_bore)


@worksheet_function(SECTION)
def hot_ring_gap(
    ring_gap: RingGap,
    bore: Bore,
    bore_rise: BoreTemperatureRise,
    ring_rise: RingTemperatureRise,
    block_material: Material,
    ring_material: Material,
) -> HotRingGap:
    """End gap of the hot ring in the hot bore.

    Parameters
    ----------
    ring_gap
        measured cold. Type 0 for ends that just touch.
    bore
        finished, cold.
    bore_rise
        Negative for colder.
    ring_rise
        Negative for colder.
    block_material
        Material that sets the bore's size: the block's, with a dry sleeve too; with a wet sleeve
        the sleeve's.
    ring_material
        Material of the ring.

    Equation
    --------
    hot_gap = pi * bore * (1 + a_block * bore_rise) - (pi * bore - ring_gap) * (1 + a_ring *
    ring_rise)

    Validity
    --------
    Free, even expansion by mean coefficients from about 20 to 100 deg C; rings get hotter
    than that and grow a little more.

    Source
    ------
    Callister, Fundamentals of Materials Science and Engineering: An Integrated Approach,
    3rd edition, linear expansion (change of length = coefficient * length * temperature change)

    Caution
    -------
    A gap too small lets the ring ends meet when hot, and the ring breaks the piston. The
    ring maker's figure for the use comes first.
    """
    require(ring_gap <= 0.05 * bore, "ring_gap", "a gap of 5 % of the bore at most")
    hot_circumference = math.pi * bore * (1 + tables.expansion(block_material) * bore_rise)
    ring_length = math.pi * bore - ring_gap
    return hot_circumference - ring_length * (1 + tables.expansion(ring_material) * ring_rise)


@worksheet_function(SECTION)
def ring_side_clearance(groove_width: GrooveWidth, ring_width: RingWidth) -> RingSideClearance:
    """Ring side clearance: axial play of a ring in its groove, total.

    Parameters
    ----------
    groove_width
        of the piston.
    ring_width
        also called its height.

    Returns
    -------
    Negative for a ring that does not go into the groove.

    Equation
    --------
    ring_side_clearance = groove_width - ring_width

    Validity
    --------
    Ring and groove flat and clean.

    Source
    ------
    common practice, no source (difference of two sizes)
    """
    require(
        abs(groove_width - ring_width) <= 0.5 * groove_width,
        "ring_width",
        "a width within half of the groove's",
    )
    return groove_width - ring_width


@worksheet_function(SECTION)
def ring_back_clearance(
    bore: Bore, groove_diameter: GrooveDiameter, radial_thickness: RingRadialThickness
) -> RingBackClearance:
    """Ring back clearance: room behind a ring that touches the bore, on one side.

    Parameters
    ----------
    bore
        finished.
    groove_diameter
        of the piston.
    radial_thickness
        face to back.

    Returns
    -------
    Per side, with the piston in the middle of the bore. Negative where the ring would stand
    out and carry the piston.

    Equation
    --------
    ring_back_clearance = (bore - groove_diameter) / 2 - radial_thickness

    Validity
    --------
    Measured from the bore. A figure counted from the piston's land instead is smaller by
    half the land's clearance: ask which one a ring maker means.

    Source
    ------
    common practice, no source (difference of sizes)
    """
    require(groove_diameter < bore, "groove_diameter", "a diameter below the bore")
    return (bore - groove_diameter) / 2 - radial_thickness


@worksheet_function(SECTION)
def ring_wall_pressure(tension: RingTension, bore: Bore, ring_width: RingWidth) -> RingPressure:
    """Pressure of a ring against the bore by its own tension.

    Parameters
    ----------
    tension
        that closes the ring to the bore, pulled at its ends or by a band around it, as ring makers
        give it.
    bore
        to which it is closed.
    ring_width
        along the bore.

    Returns
    -------
    Mean around the bore, without the gas behind the ring, which adds far more at full load.

    Equation
    --------
    pressure = 2 * tension / (bore * ring_width)

    Validity
    --------
    A ring that presses evenly and with its whole width; a barrel or taper face touches with less,
    and presses harder there.

    Source
    ------
    equilibrium of half a ring

    Caution
    -------
    Too little tension lets oil and gas pass, too much scuffs the bore. The ring maker's figure
    comes first.
    """
    return 2 * tension / (bore * ring_width)

"""Piston rings: end gap, side clearance and back clearance."""

from __future__ import annotations

from typing import Annotated

from workbook_tools import units
from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Choice, Factor, Length
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Pistons, bores, rings"
_FACTORS = "ring gap factor"

RingUse = Annotated[str, units.TEXT, Choice(tables.words(_FACTORS, "use"))]
Ring = Annotated[str, units.TEXT, Choice(tables.words(_FACTORS, "ring"))]


@worksheet_function(SECTION)
def ring_gap_factor(use: RingUse, ring: Ring) -> Factor:
    """Ring gap per unit of bore, from the table of bands.

    Parameters
    ----------
    use
        What the engine is built for.
    ring
        "top" or "second". Oil rails are not scaled with the bore.

    Returns
    -------
    The same number in an inch book and in a metric one: inches per inch, mm per mm.

    Equation
    --------
    ring_gap_factor = factor of the table's row for this use and ring

    Validity
    --------
    A starting point where the ring maker names no figure. Published tables agree in shape
    but not in their digits.

    Source
    ------
    common practice, no source; each row of the table names its origin

    Caution
    -------
    A gap too small lets the ring ends meet when hot, and the ring breaks the piston. The
    ring maker's figure for the use comes first.
    """
    return tables.factor("ring gap factor", use=use, ring=ring)


@worksheet_function(SECTION)
def ring_gap(bore: Length, factor: Factor) -> Length:
    """Ring end gap for a bore, from a gap per unit of bore.

    Parameters
    ----------
    bore
        The finished bore of the cylinder that the ring goes into, not the standard bore.
    factor
        Gap per unit of bore: a plain number such as 0.0045, the same in inches and in mm.

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
    require(factor <= 0.02, "factor", "a gap per unit of bore, such as 0.0045")
    return factor * bore

"""Pistons and bores: clearance cold and hot, finished sizes, the shape of a bore."""

from __future__ import annotations

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Length, SignedLength
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Pistons, bores, rings"


@worksheet_function(SECTION)
def piston_clearance(bore: Length, piston_diameter: Length) -> SignedLength:
    """Piston-to-bore clearance, total, from the two diameters.

    Parameters
    ----------
    bore
        Bore where the skirt runs, at the temperature at which the piston was measured.
    piston_diameter
        Skirt diameter at the height that the piston maker names, square to the pin.

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
    """
    require(
        abs(bore - piston_diameter) <= 0.02 * bore,
        "piston_diameter",
        "a size within 2 % of the bore",
    )
    return bore - piston_diameter

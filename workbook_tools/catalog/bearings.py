"""Main and rod bearings: clearance cold and hot, end play, journal shape."""

from __future__ import annotations

from typing import Annotated

from workbook_tools import units
from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Choice, Factor, Length, SignedLength
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Bearings"
_FACTORS = "bearing clearance factor"

BearingUse = Annotated[str, units.TEXT, Choice(tables.words(_FACTORS, "use"))]


@worksheet_function(SECTION)
def bearing_clearance(
    housing_bore: Length, shell_wall: Length, journal: Length, other_wall: Length = 0.0
) -> SignedLength:
    """Bearing clearance, total, from housing bore, shell walls and journal.

    Parameters
    ----------
    housing_bore
        Housing without shells, caps torqued, measured square to the parting line.
    shell_wall
        Wall of one half-shell at its middle, by a ball anvil.
    journal
        Journal diameter.
    other_wall
        Wall of the other half-shell where the halves differ; left out, both are alike.

    Returns
    -------
    Diametral clearance, not per side. Negative for an interference.

    Equation
    --------
    bearing_clearance = housing_bore - shell_wall - other_wall - journal

    Validity
    --------
    All parts at the same temperature; the press of the shells is not allowed for, so a
    measurement with torqued shells in place comes first.

    Source
    ------
    common practice, no source (difference of sizes)

    Caution
    -------
    A bearing without oil film fails and can throw a rod. The engine and bearing makers'
    figures come first.
    """
    second_wall = other_wall if other_wall > 0 else shell_wall
    clearance = housing_bore - shell_wall - second_wall - journal
    require(
        abs(clearance) <= 0.02 * journal,
        "journal",
        "a size within 2 % of what housing bore and both shell walls leave",
    )
    return clearance


@worksheet_function(SECTION)
def bearing_clearance_factor(use: BearingUse) -> Factor:
    """Bearing clearance per unit of journal diameter, from the table of bands.

    Parameters
    ----------
    use
        What the engine is built for.

    Returns
    -------
    The same number in an inch book and in a metric one: inches per inch, mm per mm.

    Equation
    --------
    bearing_clearance_factor = factor of the table's row for this use

    Validity
    --------
    A starting point where no maker names a figure; the oil grade goes with it.

    Source
    ------
    common practice, no source; each row of the table names its origin

    Caution
    -------
    A bearing without oil film fails and can throw a rod. The engine and bearing makers'
    figures come first.
    """
    return tables.factor("bearing clearance factor", use=use)

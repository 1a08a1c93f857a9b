"""The standard atmosphere at an altitude."""

from __future__ import annotations

from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.kinds import Limits
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Air and power"

# The troposphere; the lowest land and the highest road lie within it.
Altitude = Annotated[float, quantities.ALTITUDE, Limits(low=-1000.0, high=11000.0)]
Barometer = Annotated[float, quantities.BAROMETER, Limits(low=0.0, low_open=True)]


@worksheet_function(SECTION)
def standard_pressure(altitude: Altitude) -> Barometer:
    """Air pressure of the standard atmosphere at an altitude.

    Parameters
    ----------
    altitude
        Above sea level; negative below it. Type 0 for sea level; an empty cell is not 0.

    Equation
    --------
    p = 101325 Pa * (1 - 0.0065 * altitude / 288.15)**5.255877, altitude in m

    Validity
    --------
    From 1,000 m below sea level to 11,000 m above it. The weather moves the real pressure
    by some percent.

    Source
    ------
    U.S. Standard Atmosphere, 1976 (the same as ISO 2533:1975 here)
    """
    pressure: float = 101325.0 * (1 - 0.0065 * altitude / 288.15) ** 5.255877
    return pressure

"""The standard atmosphere at an altitude."""

from __future__ import annotations

from workbook_tools.catalog.measured import Altitude, BarometricPressure
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Air and power"


@worksheet_function(SECTION)
def standard_pressure(altitude: Altitude) -> BarometricPressure:
    """Air pressure of the standard atmosphere at an altitude.

    Equation
    --------
    p = 101325 Pa * (1 - 0.0065 * altitude / 288.15)**5.255877, altitude in m

    Validity
    --------
    From 1,000 m below sea level to 11,000 m above it. The weather moves the real pressure
    by some percent.

    Source
    ------
    U.S. Standard Atmosphere, 1976, whose exponent g * M / (R * 0.0065) this is; ISO 2533:1975,
    with R / M rounded to 287.05287 J/(kg K), has 5.25588, which changes no digit that a
    barometer shows
    """
    pressure: float = 101325.0 * (1 - 0.0065 * altitude / 288.15) ** 5.255877
    return pressure

"""Weather: moist air, density altitude, and the correction of a measured power."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Choice
from workbook_tools.catalog.measured import (
    AirDensity,
    AirTemperature,
    BarometricPressure,
    DensityAltitude,
    RelativeHumidity,
    VaporPressure,
    WeatherCorrection,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Air and power"

Standard = Annotated[str, quantities.TEXT, Choice(("sae j1349", "iso 1585"))]


@worksheet_function(SECTION)
def vapor_pressure(
    temperature: AirTemperature, relative_humidity: RelativeHumidity
) -> VaporPressure:
    """Vapor pressure of the water in the air.

    Parameters
    ----------
    temperature
        in the shade.

    Equation
    --------
    vapor_pressure = relative_humidity * 611.21 Pa * exp((18.678 - t / 234.5) * t / (257.14 + t)),
    t in deg C

    Validity
    --------
    Over water, also below freezing, -40 to 60 deg C; within 0.1 % of IAPWS-95 between 0 and
    60 deg C, within 0.4 % below.

    Source
    ------
    Buck, New equations for computing vapor pressure and enhancement factor, J. Appl. Meteor. 20
    (1981) 1527-1532, with the constants of 1996
    """
    celsius = temperature - 273.15
    saturation = 611.21 * math.exp((18.678 - celsius / 234.5) * celsius / (257.14 + celsius))
    return relative_humidity * saturation


@worksheet_function(SECTION)
def air_density(
    barometer: BarometricPressure, temperature: AirTemperature, relative_humidity: RelativeHumidity
) -> AirDensity:
    """Air density, moisture included.

    Parameters
    ----------
    barometer
        Station pressure, not what forecasts give.
    temperature
        in the shade.

    Equation
    --------
    air_density = (barometer - v) / (287.05287 * T) + v / (461.52 * T), with v the vapor
    pressure, T in K, gas constants in J/(kg K)

    Validity
    --------
    Ideal gases; within 0.15 % of real moist air from -10 to 60 deg C and 60 kPa up.

    Source
    ------
    U.S. Standard Atmosphere, 1976 (gas constant of dry air); ideal mixture of air and water
    vapor; vapor pressure as in ENG.VAPOR_PRESSURE
    """
    vapor = vapor_pressure(temperature, relative_humidity)
    return (barometer - vapor) / (287.05287 * temperature) + vapor / (461.52 * temperature)


@worksheet_function(SECTION)
def density_altitude(
    barometer: BarometricPressure, temperature: AirTemperature, relative_humidity: RelativeHumidity
) -> DensityAltitude:
    """Density altitude: where the standard atmosphere is as thin as today's air.

    Parameters
    ----------
    barometer
        Station pressure, not what forecasts give.
    temperature
        in the shade.

    Returns
    -------
    Geopotential altitude; negative where the air is denser than at sea level.

    Equation
    --------
    density_altitude = 288.15 / 0.0065 m * (1 - (air_density / 1.225)**(1 / 4.25588)),
    air_density in kg/m3

    Validity
    --------
    Standard atmosphere below 11 km. The National Weather Service's rounded constants give 7 to
    21 ft more.

    Source
    ------
    U.S. Standard Atmosphere, 1976, and ISO 2533:1975, layer from 0 to 11 km, solved for the
    altitude
    """
    density = air_density(barometer, temperature, relative_humidity)
    exponent = 9.80665 / (287.05287 * 0.0065) - 1
    sea_level = 101325 / (287.05287 * 288.15)
    altitude: float = 288.15 / 0.0065 * (1 - (density / sea_level) ** (1 / exponent))
    return altitude


def sae_j1349(dry: float, kelvin: float) -> float:
    """Factor of SAE J1349 for dry air of a pressure in Pa and 273 + its deg C."""
    return 1.18 * (99e3 / dry) * math.sqrt(kelvin / 298) - 0.18


def iso_1585(dry: float, kelvin: float) -> float:
    """Factor of ISO 1585, spark ignition, for dry air of a pressure in Pa and 273 + its deg C."""
    factor: float = (99e3 / dry) ** 1.2 * (kelvin / 298) ** 0.6
    return factor


@worksheet_function(SECTION)
def weather_correction(
    standard: Standard,
    barometer: BarometricPressure,
    temperature: AirTemperature,
    relative_humidity: RelativeHumidity,
) -> WeatherCorrection:
    """Weather correction factor that brings a measured power to a standard's reference air.

    Parameters
    ----------
    standard
        "SAE J1349" or "ISO 1585".
    barometer
        in the test room.
    temperature
        of the air that the engine draws.
    relative_humidity
        of that air.

    Returns
    -------
    Multiply the measured power by it.

    Equation
    --------
    SAE J1349: 1.18 * (99 kPa / dry) * sqrt(T / 298) - 0.18;
    ISO 1585: (99 kPa / dry)**1.2 * (T / 298)**0.6;
    dry = barometer - vapor_pressure, T = 273 + temperature in deg C

    Validity
    --------
    Spark ignition, no boost, full throttle. Both from 15 to 35 deg C; SAE J1349 with dry air of
    90 to 105 kPa (26.6 to 31 inHg), ISO 1585 of 80 to 110 kPa (23.7 to 32.4 inHg) and a factor
    of 0.93 to 1.07. Outside the call is refused: test on another day. SAE J1349's form takes a
    mechanical efficiency of 85 %; for one of 90 % the factor lies 6 % nearer to 1.

    Source
    ------
    SAE J1349 (June 1990, revised since), as quoted by others; ISO 1585, exponents from memory;
    the limits of both, and the 85 % of SAE J1349, from memory

    Caution
    -------
    On a dynamometer an engine or a driveline can burst, burn and throw parts: guards and
    exhaust ventilation in place, nobody in line with what turns, fire extinguisher at hand,
    the dynamometer maker's rules first.
    """
    dry = barometer - vapor_pressure(temperature, relative_humidity)
    kelvin = temperature - 0.15
    require(
        kelvin >= 288 - 1e-6 and kelvin <= 308 + 1e-6,
        "temperature",
        "15 to 35 deg C (59 to 95 deg F), the range of the standard",
    )
    sae = standard == "sae j1349"
    lowest = 90e3 if sae else 80e3
    highest = 105e3 if sae else 110e3
    require(
        dry >= lowest and dry <= highest,
        "barometer",
        "a pressure that, less the vapor pressure, lies in the range of the standard "
        "(SAE J1349: 90 to 105 kPa or 26.6 to 31 inHg, "
        "ISO 1585: 80 to 110 kPa or 23.7 to 32.4 inHg)",
    )
    factor = sae_j1349(dry, kelvin) if sae else iso_1585(dry, kelvin)
    require(
        sae or (factor >= 0.93 and factor <= 1.07),
        "barometer",
        "air that gives a factor of 0.93 to 1.07, the range of ISO 1585",
    )
    return factor

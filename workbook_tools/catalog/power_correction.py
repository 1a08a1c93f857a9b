"""Correction of a measured power by forms that go beyond WEATHER_CORRECTION, each with a mark.

A factor outside the air that a standard allows is given all the same, and the cell beside it
says so: it serves to compare runs, and no power may be published with it.
"""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Block, Choice, Limits
from workbook_tools.catalog.measured import (
    AirTemperature,
    BarometricPressure,
    Displacement,
    EngineSpeed,
    FuelFlow,
    RelativeHumidity,
    StrokesPerCycle,
)
from workbook_tools.catalog.registry import worksheet_function
from workbook_tools.catalog.weather import iso_1585, sae_j1349, vapor_pressure

SECTION = "Air and power"

Form = Annotated[
    str,
    quantities.TEXT,
    Choice(("sae j1349", "iso 1585", "din 70020", "29.92 inhg 60 f")),
]
Charging = Annotated[
    str,
    quantities.TEXT,
    Choice(("natural", "boosted", "boosted, water-cooled charge")),
]
# One row: the factor, and words on whether the air lay in the range of the standard.
MarkedFactor = Annotated[tuple[tuple[float, str]], quantities.FACTOR, Block()]
BoostRatio = Annotated[float, quantities.RATIO, Limits(low=1.0, high=10.0)]

INSIDE = "in the range of the standard"
OUTSIDE = "outside the range of the standard"
NO_RANGE = "no range known"


@worksheet_function(SECTION)
def power_correction(
    form: Form,
    barometer: BarometricPressure,
    temperature: AirTemperature,
    relative_humidity: RelativeHumidity,
) -> MarkedFactor:
    """Power correction factor of a spark-ignition engine in any air, with a mark.

    Parameters
    ----------
    form
        "SAE J1349", "ISO 1585", "DIN 70020", or "29.92 inHg 60 F" for the older form that many
        dynamometers still show.
    barometer
        in the test room.
    temperature
        of the air that the engine draws.
    relative_humidity
        of that air. DIN 70020 does not use it.

    Returns
    -------
    One row of two cells: the factor to multiply the measured power by, and whether the air
    lay in the range of the standard.

    Equation
    --------
    SAE J1349: 1.18 * (99 kPa / dry) * sqrt(T / 298) - 0.18;
    ISO 1585: (99 kPa / dry)**1.2 * (T / 298)**0.6;
    DIN 70020: (101.3 kPa / barometer) * sqrt(T / 293);
    29.92 inHg 60 F: (29.92 inHg / dry) * sqrt((459.7 + F) / 519.7);
    dry = barometer - vapor_pressure, T = 273 + temperature in deg C, F in deg F

    Validity
    --------
    Full throttle; ISO 1585's form also for boosted engines. Ranges: 15 to 35 deg C; SAE J1349
    dry air of 90 to 105 kPa, ISO 1585 of 80 to 110 kPa and a factor of 0.93 to 1.07. Outside
    them the factor compares runs of one engine and is none of the standard's. The forms differ
    by some percent for the same air: the older one shows about 4 % more than SAE J1349. Name the
    form beside every corrected figure.

    Source
    ------
    SAE J1349 (June 1990) and the older form, as others quote them; DIN 70020, as German texts
    quote it; ISO 1585 and the ranges, from memory

    Caution
    -------
    On a dynamometer an engine or a driveline can burst, burn and throw parts: guards and
    exhaust ventilation in place, nobody in line with what turns, fire extinguisher at hand,
    the dynamometer maker's rules first.
    """
    dry = barometer - vapor_pressure(temperature, relative_humidity)
    kelvin = temperature - 0.15
    sae = sae_j1349(dry, kelvin)
    iso = iso_1585(dry, kelvin)
    din = (101.3e3 / barometer) * math.sqrt(kelvin / 293)
    older = (29.92 * 3386.389 / dry) * math.sqrt((1.8 * temperature + 0.03) / 519.7)
    warm = kelvin >= 288 - 1e-6 and kelvin <= 308 + 1e-6
    sae_holds = warm and dry >= 90e3 and dry <= 105e3
    iso_holds = warm and dry >= 80e3 and dry <= 110e3 and iso >= 0.93 and iso <= 1.07
    ranged = form == "sae j1349" or form == "iso 1585"
    holds = sae_holds if form == "sae j1349" else iso_holds
    factor = sae if form == "sae j1349" else iso
    factor = din if form == "din 70020" else factor
    factor = older if form == "29.92 inhg 60 f" else factor
    told = (INSIDE if holds else OUTSIDE) if ranged else NO_RANGE
    return ((factor, told),)


@worksheet_function(SECTION)
def diesel_correction(
    charging: Charging,
    barometer: BarometricPressure,
    temperature: AirTemperature,
    relative_humidity: RelativeHumidity,
    fuel_flow: FuelFlow,
    displacement: Displacement,
    engine_speed: EngineSpeed,
    boost_ratio: BoostRatio = 1.0,
    strokes: StrokesPerCycle = 4,
) -> MarkedFactor:
    """Power correction factor of a compression-ignition engine, with a mark.

    Parameters
    ----------
    charging
        "natural" also where a blower is driven by the engine; "boosted" for a turbocharger without
        cooler or with one cooled by air; "boosted, water-cooled charge".
    barometer
        in the test room.
    temperature
        of the air that the engine draws.
    relative_humidity
        of that air.
    fuel_flow
        of the whole engine, as measured at the corrected point.
    displacement
        of the whole engine.
    engine_speed
        at the corrected point.
    boost_ratio
        Absolute pressure in the manifold over that of the room; 1 if left out.
    strokes
        4 if left out.

    Returns
    -------
    One row of two cells: the factor to multiply the measured power by, and whether the air
    lay in the range of the standard.

    Equation
    --------
    factor = fa**fm; natural: fa = (99 kPa / dry) * (T / 298)**0.7;
    boosted: fa = (99 kPa / dry)**0.7 * (T / 298)**1.5;
    water-cooled charge: fa = (99 kPa / dry)**0.7 * (T / 298)**0.7;
    fm = 0.036 * qc - 1.14, 0.2 below qc = 37.2 and 1.2 above 65;
    qc = fuel per cycle in mg per liter of displacement / boost_ratio;
    dry = barometer - vapor_pressure, T = 273 + temperature in deg C

    Validity
    --------
    Full load, governed pumps. Range: 10 to 40 deg C, dry air of 80 to 110 kPa, a factor of 0.9 to
    1.1. Electronic controls that hold boost or fuel make a correction wrong: their maker says
    what applies.

    Source
    ------
    ISO 1585, compression ignition: structure and fm as an engine maker's manual quotes them;
    exponents, ends of fm and range from memory

    Caution
    -------
    On a dynamometer an engine or a driveline can burst, burn and throw parts: guards and
    exhaust ventilation in place, nobody in line with what turns, fire extinguisher at hand,
    the dynamometer maker's rules first.
    """
    require(strokes == 2 or strokes == 4, "strokes", "4 or 2")
    dry = barometer - vapor_pressure(temperature, relative_humidity)
    kelvin = temperature - 0.15
    # kg per m3 of displacement and cycle is g/l.
    per_cycle = fuel_flow * math.pi * strokes / (engine_speed * displacement)
    specific = 1000 * per_cycle / boost_ratio
    require(
        specific <= 300,
        "fuel_flow",
        "a flow of 300 mg per cycle and liter of displacement at most; check flow, displacement "
        "and speed",
    )
    engine_factor = 0.2 if specific < 37.2 else (1.2 if specific > 65 else 0.036 * specific - 1.14)
    pressure = 99e3 / dry
    heat = kelvin / 298
    natural = pressure * heat**0.7
    boosted = pressure**0.7 * heat**1.5
    cooled = pressure**0.7 * heat**0.7
    air = natural if charging == "natural" else (boosted if charging == "boosted" else cooled)
    factor = air**engine_factor
    holds = (
        kelvin >= 283 - 1e-6
        and kelvin <= 313 + 1e-6
        and dry >= 80e3
        and dry <= 110e3
        and factor >= 0.9
        and factor <= 1.1
    )
    return ((factor, INSIDE if holds else OUTSIDE),)

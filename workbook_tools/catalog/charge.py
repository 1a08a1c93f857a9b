"""The charge of a blown engine: pressure ratio, temperatures, density, the drive of a blower."""

from __future__ import annotations

from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import ABOVE_ZERO, Displacement, Efficiency, Limits
from workbook_tools.catalog.measured import (
    AirTemperature,
    BarometricPressure,
    Boost,
    StrokesPerCycle,
    VolumetricEfficiency,
)
from workbook_tools.catalog.measured import Displacement as EngineDisplacement
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Air and power"

PressureRatio = Annotated[float, quantities.RATIO, Limits(1.0, 10.0)]
Effectiveness = Annotated[float, quantities.FACTOR, Limits(0.0, 1.0)]
# From arctic air to a charge straight from a hot compressor, 200 to 600 K.
ChargeAir = Annotated[float, quantities.TEMPERATURE, Limits(200.0, 600.0)]
DensityRatio = Annotated[float, quantities.RATIO, Limits(0.1, 20.0)]
DriveRatio = Annotated[float, quantities.RATIO, ABOVE_ZERO]

# (k - 1) / k of air, k = 1.4.
_POWER = 0.4 / 1.4


@worksheet_function(SECTION)
def pressure_ratio(boost: Boost, barometric_pressure: BarometricPressure) -> PressureRatio:
    """Pressure ratio of a compressor: air pressure after it over that before it.

    Parameters
    ----------
    boost
        by the gauge, above the air around.
    barometric_pressure
        of the day, not reduced to sea level.

    Equation
    --------
    pressure_ratio = (barometric_pressure + boost) / barometric_pressure

    Validity
    --------
    Without the losses of filter, cooler and pipes, which the compressor has to make up: its own
    ratio is higher.

    Source
    ------
    definition (ratio of absolute pressures)
    """
    return 1 + boost / barometric_pressure


@worksheet_function(SECTION)
def charge_temperature(
    air_temperature: AirTemperature, pressure_ratio: PressureRatio, efficiency: Efficiency
) -> ChargeAir:
    """Temperature of the charge after a compressor.

    Parameters
    ----------
    air_temperature
        before the compressor.
    pressure_ratio
        Pressure after over pressure before, as from ENG.PRESSURE_RATIO.
    efficiency
        Isentropic efficiency at this flow and ratio, by the compressor maker's map: 0.7 for 70 %.

    Equation
    --------
    charge_temperature = T + T * (pressure_ratio**(0.4 / 1.4) - 1) / efficiency, T absolute

    Validity
    --------
    Dry air of constant specific heats, no heat lost through the housing.

    Source
    ------
    isentropic efficiency of a compressor with an ideal gas (Heywood, Internal Combustion Engine
    Fundamentals, chapter 6, from memory)

    Caution
    -------
    A hot charge knocks sooner, and knock breaks pistons. The compressor maker's map and a careful
    calibration come first.
    """
    gain: float = pressure_ratio**_POWER
    return air_temperature * (1 + (gain - 1) / efficiency)


@worksheet_function(SECTION)
def cooled_charge_temperature(
    charge_temperature: ChargeAir, coolant_temperature: ChargeAir, effectiveness: Effectiveness
) -> ChargeAir:
    """Temperature of the charge after a cooler.

    Parameters
    ----------
    charge_temperature
        Into the cooler, as from ENG.CHARGE_TEMPERATURE.
    coolant_temperature
        Of the air or water that enters the cooler on its other side.
    effectiveness
        Share of the possible cooling that the cooler reaches: 0.7 for 70 %.

    Equation
    --------
    cooled = charge_temperature - effectiveness * (charge_temperature - coolant_temperature)

    Validity
    --------
    Effectiveness falls as the charge's flow grows, and as the cooler soaks up heat.

    Source
    ------
    definition (effectiveness of a heat exchanger)
    """
    require(
        coolant_temperature <= charge_temperature,
        "coolant_temperature",
        "no warmer than the charge",
    )
    return charge_temperature - effectiveness * (charge_temperature - coolant_temperature)


@worksheet_function(SECTION)
def charge_density_ratio(
    pressure_ratio: PressureRatio, air_temperature: AirTemperature, charge_temperature: ChargeAir
) -> DensityRatio:
    """Density of the charge over that of the air around.

    Parameters
    ----------
    pressure_ratio
        Pressure in the manifold over that of the air around, as from ENG.PRESSURE_RATIO.
    air_temperature
        of the air around.
    charge_temperature
        In the manifold: after the cooler, where there is one.

    Returns
    -------
    1.5 means that the same volume holds half as much air again.

    Equation
    --------
    density_ratio = pressure_ratio * air_temperature / charge_temperature, both absolute

    Validity
    --------
    Dry ideal gas.

    Source
    ------
    ideal gas law
    """
    return pressure_ratio * air_temperature / charge_temperature


@worksheet_function(SECTION)
def blower_drive_ratio(
    displacement: EngineDisplacement,
    blower_displacement: Displacement,
    density_ratio: DensityRatio,
    volumetric_efficiency: VolumetricEfficiency,
    blower_efficiency: Efficiency,
    strokes: StrokesPerCycle = 4,
) -> DriveRatio:
    """Turns of a positive-displacement blower for each turn of the crank.

    Parameters
    ----------
    displacement
        of the whole engine.
    blower_displacement
        Of the blower in one turn of its driven shaft.
    density_ratio
        Wanted, as from ENG.CHARGE_DENSITY_RATIO.
    volumetric_efficiency
        of the engine, for the air as it is in the manifold: 0.95 for 95 %.
    blower_efficiency
        The share of its displacement that the blower moves at this speed and pressure, by its
        maker: 0.85 for 85 %.
    strokes
        4 if left out.

    Returns
    -------
    Size of the crank's pulley over that of the blower's: above 1 the blower turns faster.

    Equation
    --------
    ratio = displacement * volumetric_efficiency * density_ratio * 2 / strokes
    / (blower_displacement * blower_efficiency)

    Validity
    --------
    The engine draws the mass that the blower moves. Belt slip and blow-off valves ask for more.

    Source
    ------
    conservation of mass (flow of the engine over flow of the blower)

    Caution
    -------
    Blowers burst when overspeeded and belts whip: the maker's highest speed comes first. More
    boost than fuel and parts stand breaks pistons.
    """
    require(strokes == 2 or strokes == 4, "strokes", "4 or 2")
    drawn = displacement * volumetric_efficiency * density_ratio * 2 / strokes
    return drawn / (blower_displacement * blower_efficiency)

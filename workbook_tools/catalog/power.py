"""Power, torque and mean pressure, the fuel they take, and the spread between cylinders."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.airflow import Strokes
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    ABOVE_ZERO,
    FROM_ZERO,
    Block,
    Count,
    Displacement,
    Limits,
    Power,
    Pressure,
    Reading,
    Rotation,
    Rows,
    Torque,
)
from workbook_tools.catalog.readings import largest, require_all, smallest
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Air and power"

# From hydrogen in large engines to nitromethane, 50 to 10 000 g/kWh, in kg/J, with room for
# what is lost in turning one unit into the other.
FuelConsumption = Annotated[
    float, quantities.FUEL_CONSUMPTION, Limits(low=0.05 / 3.6000001e6, high=10.0 / 3.5999999e6)
]
MassFlow = Annotated[float, quantities.MASS_FLOW, ABOVE_ZERO]
Duty = Annotated[float, quantities.FACTOR, Limits(low=0.0, high=1.0, low_open=True)]
Share = Annotated[float, quantities.FACTOR, FROM_ZERO]
Leakages = Annotated[Rows, quantities.READING, Limits(low=0.0, high=100.0), Block()]
Pressures = Annotated[Rows, quantities.PRESSURE, ABOVE_ZERO, Block()]


@worksheet_function(SECTION)
def power(torque: Torque, engine_speed: Rotation) -> Power:
    """Power from torque and speed.

    Parameters
    ----------
    torque
        Torque at the crankshaft.
    engine_speed
        Speed of the crankshaft.

    Returns
    -------
    Mechanical horsepower of 550 ft.lbf/s in an inch book; "ps" is the metric one.

    Equation
    --------
    power = torque * 2 * pi * N, N in turns per unit of time

    Validity
    --------
    At the shaft where torque and speed are measured, in the air of that day.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (brake power)
    """
    return torque * engine_speed


@worksheet_function(SECTION)
def torque(power: Power, engine_speed: Rotation) -> Torque:
    """Torque from power and speed.

    Parameters
    ----------
    power
        Power at the crankshaft.
    engine_speed
        Speed of the crankshaft.

    Equation
    --------
    torque = power / (2 * pi * N), N in turns per unit of time

    Validity
    --------
    At the shaft where power and speed are measured, in the air of that day.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (brake power)
    """
    return power / engine_speed


@worksheet_function(SECTION)
def bmep(torque: Torque, displacement: Displacement, strokes: Strokes = 4) -> Pressure:
    """BMEP, brake mean effective pressure, from torque and displacement.

    Parameters
    ----------
    torque
        Torque at the crankshaft, of the whole engine.
    displacement
        Displacement of the whole engine.
    strokes
        Strokes of one cycle, 4 if left out, or 2.

    Equation
    --------
    bmep = strokes * pi * torque / displacement

    Validity
    --------
    A steady mean that would do the same work, not a pressure in the cylinder.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (mean effective pressure)
    """
    require(strokes == 2 or strokes == 4, "strokes", "4 or 2")
    return strokes * math.pi * torque / displacement


@worksheet_function(SECTION)
def fuel_flow(power: Power, fuel_consumption: FuelConsumption) -> MassFlow:
    """Fuel flow for a power and a specific fuel consumption.

    Parameters
    ----------
    power
        Power at the crankshaft.
    fuel_consumption
        Brake specific fuel consumption, as measured or assumed on the rich side.

    Equation
    --------
    fuel_flow = power * fuel_consumption

    Validity
    --------
    One point of running. Alcohols take far more for the same power than gasoline.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (specific fuel consumption)

    Caution
    -------
    Too little fuel burns pistons, and leaking fuel burns people. Size pump, lines and injectors
    with margin, by their makers' figures and the local codes, and measure the mixture.
    """
    return power * fuel_consumption


@worksheet_function(SECTION)
def injector_flow(fuel_flow: MassFlow, injectors: Count, duty: Duty) -> MassFlow:
    """Injector flow that is needed from each injector, held open.

    Parameters
    ----------
    fuel_flow
        Fuel flow of the whole engine.
    injectors
        Injectors that share it.
    duty
        Largest share of the time that an injector may be open: 0.8 for 80 %.

    Returns
    -------
    Static flow of one injector at the fuel pressure that the engine will have.

    Equation
    --------
    injector_flow = fuel_flow / (injectors * duty)

    Validity
    --------
    An injector is rated at its own pressure and with its own fluid: flow goes with the square
    root of pressure and, in volume, with density.

    Source
    ------
    common practice, no source (share of the flow)

    Caution
    -------
    An injector too small leans the mixture where the engine is loaded most, which burns
    pistons. The injector maker's limit of duty comes first; measure the mixture.
    """
    return fuel_flow / (injectors * duty)


@worksheet_function(SECTION)
def leakage_spread(readings: Leakages, cylinders: Count) -> Reading:
    """Leakage spread: the leakiest cylinder less the tightest.

    Parameters
    ----------
    readings
        The range of leakages, one for each cylinder, all in percent or all as fractions.
    cylinders
        How many cylinders there are. One reading too few or too many is an error.

    Returns
    -------
    In the unit of the readings. The worst cylinder is the one with the largest reading:
    MATCH(MAX(range),range,0) counts to it along the range.

    Equation
    --------
    leakage_spread = max(x1 ... xn) - min(x1 ... xn)

    Validity
    --------
    One tester, one supply pressure, the engine warm. Another tester gives other figures.

    Source
    ------
    common practice, no source (range of a set of readings)

    Caution
    -------
    Compressed air turns an engine with its piston off top dead center: hold the crank and keep
    clear of it.
    """
    require_all(readings, cylinders)
    return largest(readings) - smallest(readings)


@worksheet_function(SECTION)
def pressure_spread(readings: Pressures, cylinders: Count) -> Share:
    """Pressure spread: how far the weakest cylinder's cranking pressure lies below the best.

    Parameters
    ----------
    readings
        The range of cranking pressures, one for each cylinder, as read on the gauge.
    cylinders
        How many cylinders there are. One reading too few or too many is an error.

    Returns
    -------
    As a share of the highest: 0.1 means that the lowest is 10 % below it. The worst cylinder
    is the one with the lowest reading: MATCH(MIN(range),range,0) counts to it along the range.

    Equation
    --------
    pressure_spread = (max(x1 ... xn) - min(x1 ... xn)) / max(x1 ... xn)

    Validity
    --------
    Throttle open, all plugs out, the same strokes and battery for every cylinder.

    Source
    ------
    common practice, no source (lowest against highest)
    """
    require_all(readings, cylinders)
    return (largest(readings) - smallest(readings)) / largest(readings)

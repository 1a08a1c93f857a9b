"""Power, torque and mean pressure, the fuel they take, and the spread between cylinders."""

from __future__ import annotations

import math

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.measured import (
    Bmep,
    CrankingPressures,
    CrankingPressureSpread,
    CylinderCount,
    Displacement,
    EngineSpeed,
    EngineTorque,
    FuelConsumption,
    FuelFlow,
    InjectorCount,
    InjectorDuty,
    InjectorFlow,
    Leakages,
    LeakageSpread,
    Power,
    StrokesPerCycle,
)
from workbook_tools.catalog.readings import largest, require_all, smallest
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Air and power"


@worksheet_function(SECTION)
def power(torque: EngineTorque, engine_speed: EngineSpeed) -> Power:
    """Power from torque and speed.

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

    Caution
    -------
    On a dynamometer an engine or a driveline can burst, burn and throw parts: guards and
    exhaust ventilation in place, nobody in line with what turns, fire extinguisher at hand,
    the dynamometer maker's rules first.
    """
    return torque * engine_speed


@worksheet_function(SECTION)
def torque(power: Power, engine_speed: EngineSpeed) -> EngineTorque:
    """Torque from power and speed.

    Parameters
    ----------
    power
        at the crankshaft.

    Equation
    --------
    torque = power / (2 * pi * N), N in turns per unit of time

    Validity
    --------
    At the shaft where power and speed are measured, in the air of that day.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (brake power)

    Caution
    -------
    On a dynamometer an engine or a driveline can burst, burn and throw parts: guards and
    exhaust ventilation in place, nobody in line with what turns, fire extinguisher at hand,
    the dynamometer maker's rules first.
    """
    return power / engine_speed


@worksheet_function(SECTION)
def bmep(torque: EngineTorque, displacement: Displacement, strokes: StrokesPerCycle = 4) -> Bmep:
    """BMEP, brake mean effective pressure, from torque and displacement.

    Parameters
    ----------
    displacement
        of the whole engine.
    strokes
        4 if left out.

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
def fuel_flow(power: Power, fuel_consumption: FuelConsumption) -> FuelFlow:
    """Fuel flow for a power and a specific fuel consumption.

    Parameters
    ----------
    power
        at the crankshaft.
    fuel_consumption
        as measured or assumed on the rich side.

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
def injector_flow(
    fuel_flow: FuelFlow, injectors: InjectorCount, duty: InjectorDuty
) -> InjectorFlow:
    """Injector flow that is needed from each injector, held open.

    Parameters
    ----------
    fuel_flow
        of the whole engine.
    injectors
        which share it.
    duty
        the largest share of the time that an injector may be open: 0.8 for 80 %.

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
def leakage_spread(readings: Leakages, cylinders: CylinderCount) -> LeakageSpread:
    """Leakage spread: the leakiest cylinder less the tightest.

    Parameters
    ----------
    readings
        one for each cylinder, all in percent or all as fractions.
    cylinders
        One reading too few or too many is an error.

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
def pressure_spread(
    readings: CrankingPressures, cylinders: CylinderCount
) -> CrankingPressureSpread:
    """Pressure spread: how far the weakest cylinder's cranking pressure lies below the best.

    Parameters
    ----------
    readings
        one for each cylinder, as read.
    cylinders
        One reading too few or too many is an error.

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

    Caution
    -------
    Before cranking for this test shut off ignition and fuel: open plug holes blow fuel into
    the room, and a live coil lights it. Keep clear of belts, fan and driveline.
    """
    require_all(readings, cylinders)
    return (largest(readings) - smallest(readings)) / largest(readings)

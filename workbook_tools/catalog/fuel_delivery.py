"""Injectors and the pump that bring the fuel: their flow and how much of it an engine takes."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.fuel import SECTION, FuelDensity
from workbook_tools.catalog.kinds import ABOVE_ZERO, Limits
from workbook_tools.catalog.measured import FuelFlow, InjectorCount, InjectorDuty
from workbook_tools.catalog.registry import worksheet_function

# One injector: of a model's engine to a dragster's, 1 to 50 000 cc/min.
InjectorSize = Annotated[float, quantities.LIQUID_FLOW, Limits(1e-6 / 61, 0.05 / 59)]
# Across an injector, 0.1 to 3500 bar.
InjectorPressure = Annotated[float, quantities.PRESSURE, Limits(1e4, 3.5e8)]
PumpFlow = Annotated[float, quantities.PUMP_FLOW, ABOVE_ZERO]
Margin = Annotated[float, quantities.FACTOR, Limits(1.0, 3.0)]
PumpDuty = Annotated[float, quantities.FACTOR]


@worksheet_function(SECTION)
def injector_flow_at(
    injector_size: InjectorSize, rated_pressure: InjectorPressure, pressure: InjectorPressure
) -> InjectorSize:
    """Injector flow at another pressure.

    Parameters
    ----------
    injector_size
        Static flow of one injector at the rated pressure.
    rated_pressure
        Pressure across the injector at which it was measured.
    pressure
        Pressure across the injector as it will run: rail less manifold, above or below the room's.

    Equation
    --------
    flow = injector_size * sqrt(pressure / rated_pressure)

    Validity
    --------
    Static flow of a liquid through a fixed orifice. An injector near its limit of pressure opens
    late or not at all, and its dead time changes with pressure and voltage.

    Source
    ------
    H. N. Gupta, Fundamentals of Internal Combustion Engines, chapter 10 (nozzle flow)

    Caution
    -------
    Fuel under pressure burns and cuts: relieve it before opening a line, and keep regulator,
    hoses and injectors within their makers' pressures.
    """
    return injector_size * math.sqrt(pressure / rated_pressure)


@worksheet_function(SECTION)
def injector_size(
    fuel_flow: FuelFlow, injectors: InjectorCount, duty: InjectorDuty, fuel_density: FuelDensity
) -> InjectorSize:
    """Injector size wanted: static volume flow of each injector.

    Parameters
    ----------
    fuel_flow
        of the whole engine.
    injectors
        which share it.
    duty
        the largest share of the time that an injector may be open: 0.8 for 80 %.
    fuel_density
        as from ENG.FUEL_DENSITY.

    Returns
    -------
    At the pressure that the engine will have.

    Equation
    --------
    injector_size = fuel_flow / (injectors * duty * fuel_density)

    Validity
    --------
    Makers rate injectors with a test fluid; with fuel the flow differs by some percent.

    Source
    ------
    common practice, no source (share of the flow)

    Caution
    -------
    An injector too small leans the mixture where the engine is loaded most, which burns
    pistons. The injector maker's limit of duty comes first; measure the mixture.
    """
    return fuel_flow / (injectors * duty * fuel_density)


@worksheet_function(SECTION)
def injector_duty(
    fuel_flow: FuelFlow,
    injectors: InjectorCount,
    injector_size: InjectorSize,
    fuel_density: FuelDensity,
) -> Annotated[float, quantities.FACTOR]:
    """Injector duty: the share of the time that the injectors must be open.

    Parameters
    ----------
    fuel_flow
        of the whole engine.
    injectors
        which share it.
    injector_size
        Static flow of one injector at the pressure that the engine has.
    fuel_density
        as from ENG.FUEL_DENSITY.

    Returns
    -------
    0.8 means 80 %. Above 1 the injectors cannot bring the fuel.

    Equation
    --------
    injector_duty = fuel_flow / (injectors * injector_size * fuel_density)

    Validity
    --------
    Without the dead time in which an injector opens and closes; it takes some 1 ms of each cycle.

    Source
    ------
    common practice, no source (share of the flow)

    Caution
    -------
    An injector too small leans the mixture where the engine is loaded most, which burns
    pistons. The injector maker's limit of duty comes first; measure the mixture.
    """
    duty = fuel_flow / (injectors * injector_size * fuel_density)
    require(
        duty <= 20,
        "injector_size",
        "injectors that bring at least a twentieth of the fuel; check the units",
    )
    return duty


@worksheet_function(SECTION)
def pump_flow(fuel_flow: FuelFlow, fuel_density: FuelDensity, margin: Margin) -> PumpFlow:
    """Fuel pump flow wanted, by volume.

    Parameters
    ----------
    fuel_flow
        of the whole engine.
    fuel_density
        as from ENG.FUEL_DENSITY.
    margin
        How many times the engine's flow the pump shall bring; some 1.2 to 1.5 are usual.

    Returns
    -------
    At the pressure and voltage that the pump will have.

    Equation
    --------
    pump_flow = margin * fuel_flow / fuel_density

    Validity
    --------
    A pump's flow falls with pressure and voltage: read it from its maker's curve at both. US
    gallons in an inch book.

    Source
    ------
    common practice, no source (flow by volume, with a margin)

    Caution
    -------
    Too little fuel burns pistons, and leaking fuel burns people. Size pump, lines and filters
    with margin, by their makers' figures and the local codes.
    """
    return margin * fuel_flow / fuel_density


@worksheet_function(SECTION)
def pump_duty(fuel_flow: FuelFlow, fuel_density: FuelDensity, pump_flow: PumpFlow) -> PumpDuty:
    """Fuel pump duty: the share of the pump's flow that the engine takes.

    Parameters
    ----------
    fuel_flow
        of the whole engine.
    fuel_density
        as from ENG.FUEL_DENSITY.
    pump_flow
        By its maker's curve, at the pressure and voltage that the pump will have.

    Returns
    -------
    0.8 means 80 %. Above 1 the pump cannot bring the fuel.

    Equation
    --------
    pump_duty = fuel_flow / fuel_density / pump_flow

    Validity
    --------
    What the engine does not take returns to the tank and warms it. US gallons in an inch book.

    Source
    ------
    common practice, no source (share of a flow)

    Caution
    -------
    Too little fuel burns pistons, and leaking fuel burns people. Size pump, lines and filters
    with margin, by their makers' figures and the local codes.
    """
    return fuel_flow / fuel_density / pump_flow

"""Knock: how long the end gas holds out, and the margin in octane numbers, as an estimate."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Block, Limits, Note
from workbook_tools.catalog.measured import (
    CompressionRatio,
    EngineSpeed,
    IgnitionAdvance,
    IntakeClosing,
    RodLength,
    Stroke,
)
from workbook_tools.catalog.motion import piston_position
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Air and power"

OctaneNumber = Annotated[
    float,
    quantities.NUMBER,
    Limits(60.0, 120.0),
    Note(
        "Of the fuel: as pumps in North America show it, half the sum of research and motor number."
    ),
]
EndGasPressure = Annotated[float, quantities.PRESSURE, Limits(1e5, 3e7)]
EndGasTemperature = Annotated[float, quantities.TEMPERATURE, Limits(500.0, 1400.0)]
Delay = Annotated[float, quantities.NUMBER, Note("Milliseconds.")]
MarkedMargin = Annotated[tuple[tuple[float, str]], quantities.NUMBER, Block()]
ChargePressure = Annotated[
    float,
    quantities.PRESSURE,
    Limits(2e4, 6e5),
    Note("Absolute pressure in the cylinder as the intake valve closes: the manifold's, about."),
]
ChargeHeat = Annotated[float, quantities.TEMPERATURE, Limits(250.0, 500.0)]
BurnAngle = Annotated[
    float,
    quantities.ANGLE,
    Limits(math.radians(15 - 1e-9), math.radians(120)),
    Note("Crank angle from spark to the end of burning, 50 to 80 deg in most engines."),
]
PressureRise = Annotated[float, quantities.RATIO, Limits(1.0, 6.0)]
Polytropic = Annotated[float, quantities.FACTOR, Limits(1.2, 1.4)]

_ATMOSPHERE = 101325.0
# Douaud and Eyzat's correlation, with the pressure in atmospheres and the delay in seconds.
_FACTOR, _OCTANE_POWER, _PRESSURE_POWER, _ACTIVATION = 17.68e-3, 3.402, 1.7, 3800.0
ESTIMATE = "estimate, wrong by 5 octane numbers or more; measure knock itself"
_STEPS = 720
_USUAL_BURN = math.radians(60)


def _rate(pressure: float, temperature: float) -> float:
    """How fast an end gas of octane number 100 uses up its delay, 1/s."""
    slowed: float = (pressure / _ATMOSPHERE) ** _PRESSURE_POWER / _FACTOR
    return slowed * math.exp(-_ACTIVATION / temperature)


@worksheet_function(SECTION)
def knock_delay(
    octane_number: OctaneNumber, pressure: EndGasPressure, temperature: EndGasTemperature
) -> Delay:
    """How long unburned mixture holds out at a pressure and temperature before it knocks.

    Parameters
    ----------
    pressure
        of the unburned gas, absolute.
    temperature
        of the unburned gas.

    Returns
    -------
    In ms: at 6000 rpm the crank turns 36 deg in one.

    Equation
    --------
    delay = 17.68 ms * (octane_number / 100)**3.402 * pressure**-1.7 * exp(3800 K / temperature),
    pressure in atm

    Validity
    --------
    An estimate. Fitted to reference fuels of octane number 80 to 100 near stoichiometric, in one
    engine; alcohols, hot spots and exhaust left in the cylinder act otherwise.

    Source
    ------
    Douaud & Eyzat, SAE paper 780080 (1978); Heywood, Internal Combustion Engine Fundamentals,
    chapter 9 (both from memory)

    Caution
    -------
    Knock breaks pistons. No figure replaces listening for it on the engine with safe timing first.
    """
    octane: float = (octane_number / 100) ** _OCTANE_POWER
    slowed: float = octane / (pressure / _ATMOSPHERE) ** _PRESSURE_POWER
    return _FACTOR * 1000 * slowed * math.exp(_ACTIVATION / temperature)


@worksheet_function(SECTION)
def knock_margin(
    octane_number: OctaneNumber,
    compression_ratio: CompressionRatio,
    stroke: Stroke,
    rod_length: RodLength,
    intake_closing: IntakeClosing,
    charge_pressure: ChargePressure,
    charge_temperature: ChargeHeat,
    engine_speed: EngineSpeed,
    spark_advance: IgnitionAdvance,
    burn_duration: BurnAngle = _USUAL_BURN,
    pressure_rise: PressureRise = 3.5,
    exponent: Polytropic = 1.32,
) -> MarkedMargin:
    """Octane numbers that a fuel has beyond what the engine asks for, as an estimate.

    Parameters
    ----------
    compression_ratio
        static.
    intake_closing
        after bottom dead center, at the seat.
    charge_temperature
        In the cylinder as the intake valve closes: some 40 to 80 deg C (70 to 140 deg F) above the
        manifold's.
    spark_advance
        at this speed and load.
    burn_duration
        60 deg if left out.
    pressure_rise
        How many times its pressure without fire the cylinder has when all is burned: 3.5 if left
        out; about 2 at light load.
    exponent
        Of the compression: 1.32 if left out.

    Returns
    -------
    One row of two cells: the margin, negative where the fuel would knock, and a reminder that it is
    an estimate.

    Equation
    --------
    pressure = charge_pressure * (V at closing / V)**exponent * (1 + (pressure_rise - 1) * x), with
    x = (1 - cos(pi * turned / burn_duration)) / 2 burned since the spark;
    temperature of the unburned gas = charge_temperature * (pressure / charge_pressure)
    **((exponent - 1) / exponent);
    the octane number asked for makes the integral of dt / ENG.KNOCK_DELAY, from the intake's
    closing to 95 % burned, just 1

    Validity
    --------
    An estimate for comparing builds, wrong by 5 octane numbers or more: it knows no shape of the
    chamber, no squish, no hot valve or deposit, no mixture and no cycle that burns faster than the
    mean. Fitted to octane numbers of 80 to 100; alcohols and nitromethane act otherwise.

    Source
    ------
    Livengood & Wu, 5th Symposium on Combustion (1955); Douaud & Eyzat, SAE paper 780080 (1978);
    Heywood, Internal Combustion Engine Fundamentals, chapter 9 (all from memory)

    Caution
    -------
    Knock breaks pistons. A margin here is no leave to advance the spark, to boost or to buy a
    lesser fuel: start rich and late, listen for knock, and keep to the fuel, engine and
    turbocharger makers' limits.
    """
    require(rod_length > stroke / 2, "rod_length", "longer than half the stroke")
    starts = intake_closing - math.pi
    # By when 95 % is burned.
    ends = -spark_advance + burn_duration * math.acos(1 - 2 * 0.95) / math.pi
    gap = stroke / (compression_ratio - 1)
    closed = gap + piston_position(stroke, rod_length, starts)
    step = (ends - starts) / _STEPS
    used = 0.0
    for number in range(_STEPS):
        angle = starts + (number + 0.5) * step
        squeezed = closed / (gap + piston_position(stroke, rod_length, angle))
        turned = min(max(angle + spark_advance, 0.0), burn_duration)
        burned = (1 - math.cos(math.pi * turned / burn_duration)) / 2
        ratio = squeezed**exponent * (1 + (pressure_rise - 1) * burned)
        heat = charge_temperature * ratio ** (1 - 1 / exponent)
        used += _rate(charge_pressure * ratio, heat) * step / engine_speed
    asked = 100 * used ** (1 / _OCTANE_POWER)
    return ((octane_number - asked, ESTIMATE),)

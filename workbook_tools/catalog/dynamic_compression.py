"""What the compression ratio does: trapped charge, cranking, heat, boost, efficiency."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.altitude import standard_pressure
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Choice, Limits
from workbook_tools.catalog.measured import (
    Altitude,
    Boost,
    BoostedRatio,
    ChargeTemperature,
    CompressionRatio,
    CompressionTemperature,
    CrankingPressure,
    DynamicRatio,
    EffectiveStroke,
    IntakeClosing,
    OttoEfficiency,
    PinOffset,
    RodLength,
    Stroke,
)
from workbook_tools.catalog.motion import piston_position
from workbook_tools.catalog.registry import worksheet_function
from workbook_tools.catalog.volumes import SECTION

Exponent = Annotated[float, quantities.FACTOR, Limits(low=1.0, high=1.67)]
HeatRatio = Annotated[float, quantities.FACTOR, Limits(low=1.0, high=1.67, low_open=True)]
Efficiency = Annotated[float, quantities.FACTOR, Limits(low=0.0, high=1.0)]
BoostRule = Annotated[str, quantities.TEXT, Choice(("equal pressure", "straight"))]


@worksheet_function(SECTION)
def effective_stroke(
    stroke: Stroke,
    rod_length: RodLength,
    intake_closing: IntakeClosing,
    pin_offset: PinOffset = 0.0,
) -> EffectiveStroke:
    """Stroke that is left to compress once the intake valve has closed.

    Parameters
    ----------
    intake_closing
        in crank degrees, at the seat.

    Equation
    --------
    effective_stroke = piston_position at 180 deg + asin(e / (l - r)) + intake_closing, with
    r half the stroke, l the rod length and e the pin offset

    Validity
    --------
    The lift at which closing is read decides: a figure at 0.050 in of lift is no closing
    at the seat. Fast engines still fill after bottom dead center, so that more is trapped.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, equations 2.4 and 2.5 (piston position)
    """
    throw = stroke / 2
    require(
        rod_length > throw + abs(pin_offset),
        "rod_length",
        "longer than half the stroke and the pin offset together",
    )
    bottom = math.pi + math.asin(pin_offset / (rod_length - throw))
    return piston_position(stroke, rod_length, bottom + intake_closing, pin_offset)


@worksheet_function(SECTION)
def dynamic_ratio(
    compression_ratio: CompressionRatio,
    stroke: Stroke,
    rod_length: RodLength,
    intake_closing: IntakeClosing,
    pin_offset: PinOffset = 0.0,
) -> DynamicRatio:
    """Dynamic (trapped) compression ratio: from the closing of the intake valve.

    Parameters
    ----------
    compression_ratio
        static.
    intake_closing
        in crank degrees, at the seat.

    Equation
    --------
    dynamic_ratio = 1 + (compression_ratio - 1) * effective_stroke / stroke

    Validity
    --------
    Geometry only, with the valve's closing taken as sudden. Compare only ratios whose
    closing was read at the same lift.

    Source
    ------
    common practice, no source (volume at intake closing over clearance volume), with the
    exact piston position of Heywood, Internal Combustion Engine Fundamentals, chapter 2

    Caution
    -------
    It does not say what a fuel can stand. Knock breaks pistons: fuel, chamber, timing and a
    careful calibration decide, and the makers' figures come first.
    """
    trapped = effective_stroke(stroke, rod_length, intake_closing, pin_offset)
    return 1 + (compression_ratio - 1) * trapped / stroke


@worksheet_function(SECTION)
def closing_for_dynamic_ratio(
    dynamic_ratio: DynamicRatio,
    compression_ratio: CompressionRatio,
    stroke: Stroke,
    rod_length: RodLength,
) -> IntakeClosing:
    """Intake closing that gives a wanted dynamic (trapped) compression ratio.

    Parameters
    ----------
    dynamic_ratio
        wanted; above 1 and no more than the static one.
    compression_ratio
        static.

    Returns
    -------
    In crank degrees after bottom dead center, at the seat.

    Equation
    --------
    intake_closing = acos((l**2 - r**2 - h**2) / (2 * r * h)), with r half the stroke, l the rod
    length and h = r + l - stroke * (dynamic_ratio - 1) / (compression_ratio - 1) the way from crank
    to pin

    Validity
    --------
    Pin and crank on the bore's centerline. Geometry only, with the valve's closing taken as sudden:
    a card's figure at 0.050 in of lift is no closing at the seat.

    Source
    ------
    common practice, no source (volume at intake closing over clearance volume), with the
    exact piston position of Heywood, Internal Combustion Engine Fundamentals, chapter 2

    Caution
    -------
    It does not say what a fuel can stand. Knock breaks pistons: fuel, chamber, timing and a
    careful calibration decide, and the makers' figures come first.
    """
    throw = stroke / 2
    require(rod_length > throw, "rod_length", "longer than half the stroke")
    require(compression_ratio > 1, "compression_ratio", "above 1")
    require(
        dynamic_ratio > 1 and dynamic_ratio <= compression_ratio,
        "dynamic_ratio",
        "above 1 and no more than the static compression ratio",
    )
    trapped = stroke * (dynamic_ratio - 1) / (compression_ratio - 1)
    height = throw + rod_length - trapped
    turned = (rod_length**2 - throw**2 - height**2) / (2 * throw * height)
    # At bottom dead center the last digits may go beyond 1.
    return math.acos(turned if turned < 1 else 1.0)


@worksheet_function(SECTION)
def cranking_pressure(
    dynamic_ratio: DynamicRatio, altitude: Altitude = 0.0, exponent: Exponent = 1.2
) -> CrankingPressure:
    """Pressure that a compression gauge should show at cranking speed.

    Parameters
    ----------
    dynamic_ratio
        above 1.
    altitude
        of the shop. Sea level, 0, if left out.
    exponent
        Of the polytropic compression, 1 to 1.67. 1.2 if left out: at cranking speed heat and
        leakage hold it well below the 1.4 of air that loses none.

    Returns
    -------
    Above the air outside, as a gauge shows it.

    Equation
    --------
    cranking_pressure = p * (dynamic_ratio**exponent - 1), with p the standard air pressure
    at the altitude

    Validity
    --------
    For comparing cylinders and builds. Cranking speed, temperature, the gauge's own volume
    and its valve change the figure by a tenth and more; the exponent is from memory.

    Source
    ------
    Moran & Shapiro, Fundamentals of Engineering Thermodynamics (polytropic process), with
    the U.S. Standard Atmosphere, 1976

    Caution
    -------
    Before cranking for this test shut off ignition and fuel: open plug holes blow fuel into
    the room, and a live coil lights it. Keep clear of belts, fan and driveline.
    """
    require(dynamic_ratio > 1, "dynamic_ratio", "above 1")
    pressure_ratio: float = dynamic_ratio**exponent
    return standard_pressure(altitude) * (pressure_ratio - 1)


@worksheet_function(SECTION)
def compression_temperature(
    compression_ratio: CompressionRatio,
    start_temperature: ChargeTemperature,
    exponent: Exponent = 1.3,
) -> CompressionTemperature:
    """Temperature of the charge at the end of compression.

    Parameters
    ----------
    compression_ratio
        static, or dynamic for the charge as trapped.
    start_temperature
        Warmer than the air outside.
    exponent
        Of the polytropic compression, 1 to 1.67: 1.3 if left out, as for an air and fuel mixture in
        a running engine; 1.4 for air that loses no heat.

    Equation
    --------
    T2 = T1 * compression_ratio**(exponent - 1), absolute temperatures

    Validity
    --------
    Ideal gas with one exponent throughout. At 1.4 and a ratio of 14 it comes out hotter than
    real air that loses no heat: by 4 percent (absolute) from a start at 20 deg C, by 7 from
    100 deg C, by 10 from 150 deg C. The default is from memory (Heywood, chapter 9: 1.3 within
    0.05).

    Source
    ------
    Moran & Shapiro, Fundamentals of Engineering Thermodynamics (polytropic process of an
    ideal gas)
    """
    temperature_ratio: float = compression_ratio ** (exponent - 1)
    return start_temperature * temperature_ratio


@worksheet_function(SECTION)
def boosted_ratio(
    compression_ratio: CompressionRatio,
    boost: Boost,
    rule: BoostRule = "equal pressure",
    altitude: Altitude = 0.0,
) -> BoostedRatio:
    """Compression ratio without boost that would compare to this one with boost.

    Parameters
    ----------
    compression_ratio
        static.
    boost
        in the manifold.
    rule
        "equal pressure" (if left out): the ratio that alone reaches the same pressure at the end
        of compression. "straight": the ratio times the pressure ratio, which says by how much more
        charge is squeezed into the chamber.
    altitude
        Sea level, 0, if left out.

    Equation
    --------
    boosted_ratio = compression_ratio * (1 + boost / p)**(1 / 1.4) for "equal pressure",
    compression_ratio * (1 + boost / p) for "straight", with p the standard air pressure at
    the altitude

    Validity
    --------
    A comparison, not a ratio of volumes: the two rules differ by two full points at moderate
    boost. Neither knows charge temperature, intercooling, fuel, timing or chamber, which
    decide about knock. Give the rule beside the number.

    Source
    ------
    common practice, no source (both rules are in use); "equal pressure" follows from
    isentropic compression of an ideal gas with 1.4

    Caution
    -------
    It does not say what an engine can stand. Too much boost or ratio for the fuel breaks pistons
    in seconds: follow the makers of the parts and a careful calibration.
    """
    pressure_ratio = 1 + boost / standard_pressure(altitude)
    power = 1 / 1.4 if rule == "equal pressure" else 1.0
    gain: float = pressure_ratio**power
    return compression_ratio * gain


@worksheet_function(SECTION)
def otto_efficiency(
    compression_ratio: CompressionRatio, heat_ratio: HeatRatio = 1.4
) -> OttoEfficiency:
    """Efficiency of the ideal air-standard Otto cycle.

    Parameters
    ----------
    compression_ratio
        static.
    heat_ratio
        Ratio of specific heats, above 1 to 1.67. 1.4, cold air, if left out; hot gas has less.

    Returns
    -------
    As a fraction of 1.

    Equation
    --------
    otto_efficiency = 1 - compression_ratio**(1 - heat_ratio)

    Validity
    --------
    The upper bound of an ideal cycle; a running engine reaches about half of it. Good for
    what a change of ratio can gain.

    Source
    ------
    Moran & Shapiro, Fundamentals of Engineering Thermodynamics, chapter 9 (cold
    air-standard Otto cycle)
    """
    temperature_ratio: float = compression_ratio ** (1 - heat_ratio)
    return 1 - temperature_ratio

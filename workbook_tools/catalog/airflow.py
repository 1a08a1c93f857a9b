"""Air through an engine: flow, volumetric efficiency, speed in port and valve."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    ABOVE_ZERO,
    Area,
    Count,
    Displacement,
    Factor,
    Length,
    Limits,
    Rotation,
    Temperature,
    VolumeFlow,
)
from workbook_tools.catalog.piston_speed import mean_piston_speed
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Air and power"

Strokes = Annotated[int, quantities.COUNT, Limits(low=2.0, high=4.0)]
# Boosted engines reach several times the outside air; above 10 it is a percentage.
Filling = Annotated[float, quantities.FACTOR, Limits(low=0.0, high=10.0, low_open=True)]
FlowCoefficient = Annotated[float, quantities.FACTOR, Limits(low=0.0, high=1.0, low_open=True)]
AirSpeed = Annotated[float, quantities.AIR_SPEED, ABOVE_ZERO]


@worksheet_function(SECTION)
def airflow(
    displacement: Displacement,
    engine_speed: Rotation,
    volumetric_efficiency: Filling,
    strokes: Strokes = 4,
) -> VolumeFlow:
    """Airflow that an engine draws at a speed.

    Parameters
    ----------
    displacement
        Displacement of the whole engine.
    engine_speed
        Speed of the crankshaft.
    volumetric_efficiency
        Share of the displacement that is filled each cycle: 0.95 for 95 %.
    strokes
        Strokes of one cycle, 4 if left out, or 2.

    Returns
    -------
    Volume of air at the state that the volumetric efficiency refers to, in or before the
    intake.

    Equation
    --------
    airflow = volumetric_efficiency * displacement * 2 * N / strokes, N in turns per unit of time

    Validity
    --------
    Mean flow of the whole engine; the flow of one cylinder comes in pulses far above it.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (volumetric efficiency, solved
    for the flow)
    """
    require(strokes == 2 or strokes == 4, "strokes", "4 or 2")
    return volumetric_efficiency * displacement * engine_speed / (math.pi * strokes)


@worksheet_function(SECTION)
def volumetric_efficiency(
    airflow: VolumeFlow, displacement: Displacement, engine_speed: Rotation, strokes: Strokes = 4
) -> Factor:
    """Volumetric efficiency from a measured airflow.

    Parameters
    ----------
    airflow
        Measured volume flow of air into the engine, at the state that the result shall
        refer to.
    displacement
        Displacement of the whole engine.
    engine_speed
        Speed of the crankshaft.
    strokes
        Strokes of one cycle, 4 if left out, or 2.

    Returns
    -------
    0.95 means 95 %.

    Equation
    --------
    volumetric_efficiency = airflow * strokes / (2 * displacement * N), N in turns per unit of
    time

    Validity
    --------
    Steady running. With the air's state before the throttle it is the whole intake's figure,
    with the state in the manifold that of ports and valves.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (volumetric efficiency)
    """
    require(strokes == 2 or strokes == 4, "strokes", "4 or 2")
    filling = airflow * math.pi * strokes / (displacement * engine_speed)
    require(filling <= 10, "airflow", "a flow of 10 times what the engine displaces at most")
    return filling


@worksheet_function(SECTION)
def inlet_mach_index(
    bore: Length,
    stroke: Length,
    engine_speed: Rotation,
    valve_diameter: Length,
    valves: Count,
    flow_coefficient: FlowCoefficient,
    inlet_temperature: Temperature = 298.15,
) -> Factor:
    """Inlet Mach index: how near the intake valves come to choking a cylinder.

    Parameters
    ----------
    bore
        Cylinder bore.
    stroke
        Stroke of the crank, twice its throw.
    engine_speed
        Speed of the crankshaft.
    valve_diameter
        Head diameter of one intake valve.
    valves
        Intake valves of one cylinder, all alike.
    flow_coefficient
        Mean flow coefficient of the valve over its whole opening, referred to the area of its
        head; about 0.3 to 0.4.
    inlet_temperature
        Temperature of the air before the valve. 25 deg C (77 deg F) if left out.

    Returns
    -------
    A plain number. Volumetric efficiency falls steadily above about 0.5 to 0.6.

    Equation
    --------
    inlet_mach_index = (bore / valve_diameter)**2 * mean_piston_speed /
    (valves * flow_coefficient * a), a = sqrt(1.4 * 287.05 J/(kg K) * inlet_temperature)

    Validity
    --------
    Air as an ideal gas. A mean flow coefficient, not that of one lift on a flow bench.

    Source
    ------
    JSME Mechanical Engineering Dictionary, inlet valve Mach index (limit 0.5); C. F. Taylor,
    The Internal-Combustion Engine in Theory and Practice, volume 1, chapter 6 (limit near 0.6,
    from memory)
    """
    require(
        valves * valve_diameter**2 < bore**2,
        "valve_diameter",
        "intake valves that together have less area than the bore",
    )
    sound = math.sqrt(1.4 * 287.05 * inlet_temperature)
    piston_speed = mean_piston_speed(stroke, engine_speed)
    return (bore / valve_diameter) ** 2 * piston_speed / (valves * flow_coefficient * sound)


@worksheet_function(SECTION)
def port_velocity(
    bore: Length, stroke: Length, engine_speed: Rotation, port_area: Area
) -> AirSpeed:
    """Port velocity: mean speed of the air in a port during the intake stroke.

    Parameters
    ----------
    bore
        Cylinder bore.
    stroke
        Stroke of the crank, twice its throw.
    engine_speed
        Speed of the crankshaft.
    port_area
        Section of the port where it is measured, all ports of one cylinder together.

    Equation
    --------
    port_velocity = mean_piston_speed * pi / 4 * bore**2 / port_area

    Validity
    --------
    Mean over one stroke, as if the air followed the piston without changing its density. The
    peak is well above it, as the piston's peak speed is above its mean.

    Source
    ------
    common practice, no source (continuity)
    """
    cylinder_area = math.pi / 4 * bore**2
    require(port_area < cylinder_area, "port_area", "less than the area of the bore")
    return mean_piston_speed(stroke, engine_speed) * cylinder_area / port_area

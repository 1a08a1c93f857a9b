"""Air through an engine: flow, volumetric efficiency, speed in port and valve."""

from __future__ import annotations

import math

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Temperature
from workbook_tools.catalog.measured import (
    Airflow,
    Bore,
    Displacement,
    EngineSpeed,
    InletFlowCoefficient,
    InletMachIndex,
    IntakeValveCount,
    IntakeValveHeadDiameter,
    PortArea,
    PortVelocity,
    Stroke,
    StrokesPerCycle,
    VolumetricEfficiency,
)
from workbook_tools.catalog.piston_speed import mean_piston_speed
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Air and power"


@worksheet_function(SECTION)
def airflow(
    displacement: Displacement,
    engine_speed: EngineSpeed,
    volumetric_efficiency: VolumetricEfficiency,
    strokes: StrokesPerCycle = 4,
) -> Airflow:
    """Airflow that an engine draws at a speed.

    Parameters
    ----------
    displacement
        of the whole engine.
    volumetric_efficiency
        the share of the displacement that is filled each cycle: 0.95 for 95 %.
    strokes
        4 if left out.

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
    airflow: Airflow,
    displacement: Displacement,
    engine_speed: EngineSpeed,
    strokes: StrokesPerCycle = 4,
) -> VolumetricEfficiency:
    """Volumetric efficiency from a measured airflow.

    Parameters
    ----------
    airflow
        as measured, at the state that the result shall refer to.
    displacement
        of the whole engine.
    strokes
        4 if left out.

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
    bore: Bore,
    stroke: Stroke,
    engine_speed: EngineSpeed,
    valve_diameter: IntakeValveHeadDiameter,
    valves: IntakeValveCount,
    flow_coefficient: InletFlowCoefficient,
    inlet_temperature: Temperature = 298.15,
) -> InletMachIndex:
    """Inlet Mach index: how near the intake valves come to choking a cylinder.

    Parameters
    ----------
    valve_diameter
        of one valve.
    valves
        all alike.
    flow_coefficient
        Referred to the area of the valve's head; about 0.3 to 0.4.
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
    bore: Bore, stroke: Stroke, engine_speed: EngineSpeed, port_area: PortArea
) -> PortVelocity:
    """Port velocity: mean speed of the air in a port during the intake stroke.

    Parameters
    ----------
    port_area
        all ports of one cylinder together.

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

"""Flow bench and valve: flow at another test pressure, discharge coefficient, valve areas."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import FROM_ZERO, Area, Length, Limits, VolumeFlow
from workbook_tools.catalog.measured import (
    PartialValveLift,
    SeatAngle,
    StemDiameter,
    ValveHeadDiameter,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Air and power"

# Of a bench: 0.1 to 10 kPa, 0.4 to 40 inH2O.
TestPressure = Annotated[float, quantities.TEST_PRESSURE, Limits(100.0, 10e3)]
Density = Annotated[float, quantities.DENSITY, Limits(0.5, 2.0)]
Coefficient = Annotated[float, quantities.FACTOR]
AreaFromZero = Annotated[float, quantities.AREA, FROM_ZERO]


@worksheet_function(SECTION)
def flow_at_pressure(
    flow: VolumeFlow, test_pressure: TestPressure, other_pressure: TestPressure
) -> VolumeFlow:
    """Flow of a port at another test pressure of the flow bench.

    Parameters
    ----------
    flow
        As measured at the test pressure.
    test_pressure
        Drop across the port when it was measured.
    other_pressure
        Drop that the flow is wanted for.

    Equation
    --------
    flow_at_pressure = flow * sqrt(other_pressure / test_pressure)

    Validity
    --------
    As if the air kept its density: from 10 to 28 inH2O it says about 2.5 % too much. A port whose
    flow breaks away at the higher pressure flows less still. Compare heads at one pressure.

    Source
    ------
    common practice, no source (flow goes with the square root of the drop, Bernoulli)
    """
    return flow * math.sqrt(other_pressure / test_pressure)


@worksheet_function(SECTION)
def discharge_coefficient(
    flow: VolumeFlow, area: Area, test_pressure: TestPressure, air_density: Density
) -> Coefficient:
    """Discharge coefficient: measured flow over that of a loss-free opening of the same area.

    Parameters
    ----------
    flow
        As measured, at the density given here.
    area
        Reference area: curtain, seat, throat or valve head. Say which beside the result.
    test_pressure
        Drop across the port.
    air_density
        as from ENG.AIR_DENSITY; 0.0765 lb/cu ft (1.225 kg/m3) is the standard's at sea level.

    Equation
    --------
    discharge_coefficient = flow / (area * sqrt(2 * test_pressure / air_density))

    Validity
    --------
    As if the air kept its density, within 2 % up to 28 inH2O. Figures with different reference
    areas do not compare.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 6 (flow through valves), without
    compression of the air
    """
    coefficient = flow / (area * math.sqrt(2 * test_pressure / air_density))
    require(
        coefficient <= 1.5,
        "flow",
        "a flow that passes this area: 1.5 times that of a loss-free opening at most; check the "
        "area and the test pressure",
    )
    return coefficient


@worksheet_function(SECTION)
def curtain_area(valve_diameter: ValveHeadDiameter, valve_lift: PartialValveLift) -> AreaFromZero:
    """Curtain area of a valve: its circumference times its lift.

    Parameters
    ----------
    valve_diameter
        Diameter of the valve's head.
    valve_lift
        at which the area is wanted.

    Equation
    --------
    curtain_area = pi * valve_diameter * valve_lift

    Validity
    --------
    A reference area, larger than what the seat leaves open: see ENG.VALVE_FLOW_AREA.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 6 (valve curtain area)
    """
    require(valve_lift <= valve_diameter, "valve_lift", "no more than the valve's diameter")
    return math.pi * valve_diameter * valve_lift


@worksheet_function(SECTION)
def throat_area(port_diameter: Length, stem_diameter: StemDiameter) -> Area:
    """Throat area of a port: its round section below the seat less the valve's stem.

    Parameters
    ----------
    port_diameter
        Throat below the seat.

    Equation
    --------
    throat_area = pi / 4 * (port_diameter**2 - stem_diameter**2)

    Validity
    --------
    A round throat, without the guide's boss. A port passes no more than it, however high the lift.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, equation 6.9, from memory
    """
    require(
        stem_diameter < port_diameter / 2, "stem_diameter", "less than half of the port's diameter"
    )
    return math.pi / 4 * (port_diameter**2 - stem_diameter**2)


@worksheet_function(SECTION)
def valve_flow_area(
    valve_diameter: ValveHeadDiameter,
    seat_width: Length,
    seat_angle: SeatAngle,
    port_diameter: Length,
    stem_diameter: StemDiameter,
    valve_lift: PartialValveLift,
) -> AreaFromZero:
    """Least area that a valve leaves open at a lift, by the geometry of seat and port.

    Parameters
    ----------
    valve_diameter
        Diameter of the valve's head, where its seat face ends.
    seat_width
        Across the radius: half the difference of the face's outer and inner diameters, not along
        its slope.
    seat_angle
        Between the face and the plane of the head: 45 or 30 for most valves.
    port_diameter
        Throat below the seat.
    valve_lift
        at which the area is wanted.

    Equation
    --------
    up to L = w / (sin(b) * cos(b)): pi * L * cos(b) * (D - 2 * w + L / 2 * sin(2 * b));
    above: pi * (D - w) * sqrt((L - w * tan(b))**2 + w**2);
    never more than the ENG.THROAT_AREA;
    with L the lift, D the valve_diameter, w the seat_width, b the seat_angle

    Validity
    --------
    Geometry alone, a single cut of the seat; top and throat cuts change small lifts. The flow is
    the area times a discharge coefficient that only a bench tells.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, equations 6.7 to 6.9, from memory
    """
    require(
        2 * seat_width < valve_diameter / 2, "seat_width", "less than a quarter of the valve's head"
    )
    throat = throat_area(port_diameter, stem_diameter)
    require(port_diameter <= valve_diameter, "port_diameter", "no more than the valve's diameter")
    width = seat_width
    low = (
        math.pi
        * valve_lift
        * math.cos(seat_angle)
        * (valve_diameter - 2 * width + valve_lift / 2 * math.sin(2 * seat_angle))
    )
    rise = valve_lift - width * math.tan(seat_angle)
    high = math.pi * (valve_diameter - width) * math.sqrt(rise**2 + width**2)
    bend = width / (math.sin(seat_angle) * math.cos(seat_angle))
    curtain = low if valve_lift <= bend else high
    return min(curtain, throat)

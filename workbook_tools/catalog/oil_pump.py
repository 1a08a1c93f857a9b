"""The oil pump: what it moves in a turn, what it delivers, what the relief valve sends back."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.blocks import require_filled, total
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    ABOVE_ZERO,
    ANY,
    Block,
    Displacement,
    Efficiency,
    Length,
    Limits,
    Rows,
)
from workbook_tools.catalog.lubrication import SECTION
from workbook_tools.catalog.measured import EngineSpeed
from workbook_tools.catalog.oil_flow import OilFlow
from workbook_tools.catalog.registry import worksheet_function

PumpSpeedRatio = Annotated[float, quantities.RATIO, Limits(0.1, 5.0)]
OilFlows = Annotated[Rows, quantities.LIQUID_FLOW, ABOVE_ZERO, Block()]
SpareFlow = Annotated[float, quantities.LIQUID_FLOW, ANY]
Share = Annotated[float, quantities.FACTOR]


@worksheet_function(SECTION)
def gear_pump_displacement(
    outer_diameter: Length, root_diameter: Length, width: Length
) -> Displacement:
    """What a pump of two equal spur gears moves in one turn, from the sizes of a gear.

    Parameters
    ----------
    outer_diameter
        Over the tips of a gear's teeth.
    root_diameter
        Across the roots between its teeth.
    width
        Of the gears along their shafts.

    Equation
    --------
    displacement = pi / 4 * (outer_diameter**2 - root_diameter**2) * width

    Validity
    --------
    As if teeth and the gaps between them were of one size; the clearance between tip and root
    makes it a few percent too large. For pumps of an inner and an outer rotor use the maker's
    figure.

    Source
    ------
    Esposito, Fluid Power with Applications, chapter on gear pumps (from memory)

    Caution
    -------
    Too little oil ruins bearings in seconds. The pump maker's figure comes first.
    """
    require(root_diameter < outer_diameter, "root_diameter", "less than the outer diameter")
    return math.pi / 4 * (outer_diameter**2 - root_diameter**2) * width


@worksheet_function(SECTION)
def oil_pump_delivery(
    pump_displacement: Displacement,
    engine_speed: EngineSpeed,
    speed_ratio: PumpSpeedRatio,
    efficiency: Efficiency,
) -> OilFlow:
    """Oil that a pump delivers at an engine speed, including what the relief valve sends back.

    Parameters
    ----------
    pump_displacement
        In one turn of the pump.
    speed_ratio
        Turns of the pump for each of the crank: 0.5 where the camshaft drives it.
    efficiency
        The share of its displacement that it delivers at this pressure: 0.9 for 90 %.

    Equation
    --------
    delivery = pump_displacement * engine_speed * speed_ratio * efficiency, speed in turns per unit
    of time

    Validity
    --------
    Up to the speed at which its inlet no longer fills it. A worn pump delivers less, and hot oil
    leaks past its gears more.

    Source
    ------
    common practice, no source (volume in a turn by turns in a unit of time)

    Caution
    -------
    Too little oil ruins bearings in seconds. The engine maker's pressure comes first.
    """
    return pump_displacement * engine_speed / (2 * math.pi) * speed_ratio * efficiency


@worksheet_function(SECTION)
def relief_flow(pump_delivery: OilFlow, oil_flows: OilFlows) -> SpareFlow:
    """Oil that the relief valve sends back: the pump's delivery less what the engine takes.

    Parameters
    ----------
    pump_delivery
        As from ENG.OIL_PUMP_DELIVERY.
    oil_flows
        All that leave the system at this speed and pressure, one cell each or their sum: of each
        bearing as from ENG.PRESSURE_FED_FLOW, and of lifters, rockers, jets. No cell may be empty.

    Returns
    -------
    Positive: the relief valve opens and holds the pressure. Negative: the pump brings less than the
    engine takes, and the pressure falls below what the flows were worked out for.

    Equation
    --------
    relief_flow = pump_delivery - sum of oil_flows

    Validity
    --------
    At one speed, temperature and pressure. Estimates of flows add up their errors.

    Source
    ------
    conservation of volume (what goes in comes out)

    Caution
    -------
    Too little oil ruins bearings in seconds. The engine maker's pressure comes first.
    """
    require_filled(oil_flows, "oil_flows")
    return pump_delivery - total(oil_flows)


@worksheet_function(SECTION)
def oil_flow_share(oil_flows: OilFlows, pump_delivery: OilFlow) -> Share:
    """The share of a pump's delivery that some clearances take.

    Parameters
    ----------
    oil_flows
        Of the clearances asked for, one cell each or their sum: of all mains, of all rods. No cell
        may be empty.
    pump_delivery
        As from ENG.OIL_PUMP_DELIVERY.

    Returns
    -------
    0.4 means 40 %. Above 1 the pump cannot hold the pressure that the flows were worked out for.

    Equation
    --------
    share = sum of oil_flows / pump_delivery

    Validity
    --------
    At one speed, temperature and pressure: flow through a clearance grows with its third power and
    with heat, so work it out hot and at idle too.

    Source
    ------
    common practice, no source (share of a flow)

    Caution
    -------
    Too little oil ruins bearings in seconds. The engine maker's pressure comes first.
    """
    require_filled(oil_flows, "oil_flows")
    return total(oil_flows) / pump_delivery

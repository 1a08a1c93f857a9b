"""Torque of all cylinders together through a cycle, from the pressure in one of them."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.blocks import require_filled
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Block, Limits, Note, Rows
from workbook_tools.catalog.measured import (
    Bore,
    CrankAngle,
    CylinderCount,
    EngineSpeed,
    ReciprocatingMass,
    RodLength,
    Stroke,
    StrokesPerCycle,
)
from workbook_tools.catalog.piston_effort import (
    SECTION,
    CrankTorque,
    crank_torque,
    piston_effort,
)
from workbook_tools.catalog.readings import taken
from workbook_tools.catalog.registry import worksheet_function

GasPressures = Annotated[
    Rows,
    quantities.PRESSURE,
    Limits(-1.1e5, 5e7),
    Block(),
    Note(
        "At equal steps of the crank through a whole cycle, the first at the top dead center of "
        "firing, over the crankcase's pressure: 72 cells for every 10 deg of a four-stroke. The "
        "last is one step before the cycle ends."
    ),
]


def _require_a_cycle(gas_pressures: Rows, strokes: int) -> None:
    require(strokes == 2 or strokes == 4, "strokes", "4 or 2")
    require_filled(gas_pressures, "gas_pressures")
    require(
        len(taken(gas_pressures)) >= 36,
        "gas_pressures",
        "36 pressures or more, at equal steps through a whole cycle",
    )


def _pressure_at(pressures: tuple[float, ...], turned: float) -> float:
    """The pressure at a share of the cycle, on the line between its neighbors."""
    place = turned % 1 * len(pressures)
    before = int(place) % len(pressures)
    after = (before + 1) % len(pressures)
    return pressures[before] + (place - int(place)) * (pressures[after] - pressures[before])


@worksheet_function(SECTION)
def cycle_torque(
    gas_pressures: GasPressures,
    bore: Bore,
    stroke: Stroke,
    rod_length: RodLength,
    reciprocating_mass: ReciprocatingMass,
    engine_speed: EngineSpeed,
    cylinders: CylinderCount,
    crank_angle: CrankAngle,
    strokes: StrokesPerCycle = 4,
) -> CrankTorque:
    """Torque of all cylinders on the crank at an angle, fired evenly.

    Parameters
    ----------
    reciprocating_mass
        of one cylinder: piston, rings, pin and the rod's small-end part.
    cylinders
        which fire at equal distances.
    crank_angle
        From the firing top dead center of one of them. A range of angles gives the torque through
        the cycle.
    strokes
        4 if left out.

    Returns
    -------
    Positive where it drives the crank, negative where the crank drives the pistons.

    Equation
    --------
    the sum over the cylinders of ENG.CRANK_TORQUE with ENG.PISTON_EFFORT, each a cycle divided by
    cylinders later than the one before; between the cells of gas_pressures on a straight line

    Validity
    --------
    Steady speed, equal cylinders, no friction, no pin offset; the rods' own turning and the twist
    of the crank are left out. No better than the pressures, which have to be measured or assumed.

    Source
    ------
    Khurmi & Gupta, Theory of Machines, chapter 16 (turning moment diagrams, cylinders added up;
    from memory)

    Caution
    -------
    A figure for comparing builds, no proof that a crank holds: it leaves out how the crank twists
    and swings, and its maker's limits come first.
    """
    _require_a_cycle(gas_pressures, strokes)
    pressures = taken(gas_pressures)
    cycle = strokes * math.pi
    torque = 0.0
    for cylinder in range(cylinders):
        angle = crank_angle - cycle * cylinder / cylinders
        effort = piston_effort(
            bore,
            _pressure_at(pressures, angle / cycle),
            reciprocating_mass,
            stroke,
            rod_length,
            engine_speed,
            angle,
        )
        torque += crank_torque(effort, stroke, rod_length, angle)
    return torque


@worksheet_function(SECTION)
def mean_cycle_torque(
    gas_pressures: GasPressures,
    bore: Bore,
    stroke: Stroke,
    rod_length: RodLength,
    cylinders: CylinderCount,
    strokes: StrokesPerCycle = 4,
) -> CrankTorque:
    """Mean torque of the gas on the crank over a cycle, of all cylinders.

    Parameters
    ----------
    cylinders
        of the whole engine.
    strokes
        4 if left out.

    Returns
    -------
    Positive where the gas drives the crank, negative where the crank drives the pistons.

    Equation
    --------
    the mean over the cells of gas_pressures of pressure * area * stroke / 2 * sin(t + p) / cos(p),
    times cylinders, as for ENG.CRANK_TORQUE

    Validity
    --------
    Indicated torque: what a dynamometer reads is less by friction and by what drives pumps and
    camshafts. Inertia adds nothing to the mean. With steps of 10 deg it may differ by a percent.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (indicated work of a cycle; from
    memory)
    """
    _require_a_cycle(gas_pressures, strokes)
    pressures = taken(gas_pressures)
    step = strokes * math.pi / len(pressures)
    area = math.pi / 4 * bore**2
    torques = [
        crank_torque(pressure * area, stroke, rod_length, number * step)
        for number, pressure in enumerate(pressures)
    ]
    return cylinders * sum(torques) / len(torques)

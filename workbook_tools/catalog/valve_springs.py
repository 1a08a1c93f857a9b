"""Valve springs: rate, load, room to coil bind, shims and surge."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Choice, Limits
from workbook_tools.catalog.measured import (
    CoilBindHeight,
    CoilBindMargin,
    PartialValveLift,
    ShearModulus,
    SpringActiveCoils,
    SpringHeight,
    SpringMass,
    SpringMeanDiameter,
    SpringOpenHeight,
    SpringOpenLoad,
    SpringRate,
    SpringSeatLoad,
    SpringShim,
    SpringSurge,
    SpringTotalCoils,
    SpringWireDiameter,
    ValveLift,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Camshaft and valvetrain"
_WIRES = "spring wire shear modulus"

Wire = Annotated[str, quantities.TEXT, Choice(tables.words(_WIRES, "wire"))]
Coils = Annotated[float, quantities.NUMBER, Limits(low=0.0, high=100.0, low_open=True)]


@worksheet_function(SECTION)
def spring_rate(
    installed_load: SpringSeatLoad,
    installed_height: SpringHeight,
    open_load: SpringOpenLoad,
    open_height: SpringOpenHeight,
) -> SpringRate:
    """Spring rate from two readings on a spring tester.

    Parameters
    ----------
    installed_load
        at the installed height.
    installed_height
        the taller of the two.
    open_load
        at the open height, above the installed load.
    open_height
        the shorter height, well clear of coil bind.

    Equation
    --------
    spring_rate = (open_load - installed_load) / (installed_height - open_height)

    Validity
    --------
    Mean rate between the two heights. A conical or stepped spring has no single rate.

    Source
    ------
    common practice, no source (definition of a rate)

    Caution
    -------
    A valve spring that slips out of its tester or compressor flies like a shot: seat it
    squarely, keep face and hands out of its line, wear eye protection.
    """
    require(open_height < installed_height, "open_height", "less than the installed height")
    require(open_load > installed_load, "open_load", "more than the installed load")
    return (open_load - installed_load) / (installed_height - open_height)


@worksheet_function(SECTION)
def shear_modulus(wire: Wire) -> ShearModulus:
    """Shear modulus of a spring wire, from the table of bands.

    Parameters
    ----------
    wire
        What the spring is wound from.

    Equation
    --------
    shear_modulus = factor of the table's row for this wire

    Validity
    --------
    Room temperature; heavier wire of one kind is a percent or two lower.

    Source
    ------
    Shigley, Mechanical Engineering Design, table of spring wire moduli (chapter 10), from
    memory; each row of the table names its origin
    """
    return tables.factor("spring wire shear modulus", wire=wire)


@worksheet_function(SECTION)
def spring_rate_from_wire(
    wire_diameter: SpringWireDiameter,
    mean_diameter: SpringMeanDiameter,
    active_coils: SpringActiveCoils,
    shear_modulus: ShearModulus,
) -> SpringRate:
    """Spring rate from wire, coil diameter, active coils and the wire's shear modulus.

    Parameters
    ----------
    wire_diameter
        of round wire.
    mean_diameter
        Outside diameter less one wire diameter.
    shear_modulus
        as from ENG.SHEAR_MODULUS.

    Equation
    --------
    spring_rate = wire_diameter**4 * shear_modulus / (8 * mean_diameter**3 * active_coils)

    Validity
    --------
    One spring of round wire and even pitch, not a beehive or cone. Springs one inside the
    other: add their rates.

    Source
    ------
    Wentzell, Machine Design, chapter 8; Shigley, Mechanical Engineering Design, chapter 10
    (helical compression springs)
    """
    require(mean_diameter > 2 * wire_diameter, "mean_diameter", "more than twice the wire diameter")
    require(
        shear_modulus >= 20e9 and shear_modulus <= 120e9,
        "shear_modulus",
        "that of a spring wire, such as 11500000 psi or 79000 MPa",
    )
    return wire_diameter**4 * shear_modulus / (8 * mean_diameter**3 * active_coils)


@worksheet_function(SECTION)
def spring_load(
    installed_load: SpringSeatLoad, spring_rate: SpringRate, valve_lift: PartialValveLift
) -> SpringOpenLoad:
    """Spring load with the valve lifted.

    Parameters
    ----------
    installed_load
        at the installed height. A force, though it is often called seat pressure.
    spring_rate
        over the lift.
    valve_lift
        Type 0 for a closed valve.

    Equation
    --------
    spring_load = installed_load + spring_rate * valve_lift

    Validity
    --------
    At rest, short of coil bind, springs of one rate.

    Source
    ------
    common practice, no source (linear spring)

    Caution
    -------
    Too little load lets a valve float into the piston, too much wears the cam. The cam maker's
    loads come first.
    """
    return installed_load + spring_rate * valve_lift


@worksheet_function(SECTION)
def coil_bind_margin(
    installed_height: SpringHeight, coil_bind_height: CoilBindHeight, valve_lift: ValveLift
) -> CoilBindMargin:
    """Coil bind margin: what the spring could still be pressed at full lift.

    Parameters
    ----------
    installed_height
        shims in place.
    coil_bind_height
        with the coils pressed together, as measured.
    valve_lift
        at full lift. Type 0 for a closed valve.

    Returns
    -------
    For the whole spring, not for each gap between coils. Negative where the coils would bind
    before full lift.

    Equation
    --------
    coil_bind_margin = installed_height - valve_lift - coil_bind_height

    Validity
    --------
    At rest. Springs one inside the other have one margin each: take the smallest.

    Source
    ------
    common practice, no source (difference of lengths)

    Caution
    -------
    Coils that bind break springs, lifters, rockers or pushrods and can drop a valve. The spring
    and cam makers' least margins come first.
    """
    require(coil_bind_height < installed_height, "coil_bind_height", "less than installed_height")
    return installed_height - valve_lift - coil_bind_height


@worksheet_function(SECTION)
def spring_shim(measured_height: SpringHeight, wanted_height: SpringHeight) -> SpringShim:
    """Spring shim that brings a measured installed height to the one wanted.

    Parameters
    ----------
    measured_height
        without the shim, with this retainer and these locks.
    wanted_height
        wanted, no taller than the measured one.

    Returns
    -------
    Total thickness of shim under the spring.

    Equation
    --------
    spring_shim = measured_height - wanted_height

    Validity
    --------
    A shim only shortens. A height too short already needs a deeper seat or other locks.

    Source
    ------
    common practice, no source (difference of lengths)

    Caution
    -------
    A shim takes its thickness from the coil bind margin: work that out again.
    """
    require(
        wanted_height <= measured_height,
        "wanted_height",
        "no more than the measured height, since a shim cannot make the spring taller",
    )
    return measured_height - wanted_height


@worksheet_function(SECTION)
def spring_surge(
    spring_rate: SpringRate,
    spring_mass: SpringMass,
    active_coils: SpringActiveCoils,
    total_coils: SpringTotalCoils,
) -> SpringSurge:
    """Spring surge: the lowest natural frequency of a spring held at both ends.

    Parameters
    ----------
    spring_rate
        of this spring alone.
    spring_mass
        of this spring alone, as weighed.
    total_coils
        dead ends included.

    Returns
    -------
    Cycles each second, whatever the unit system.

    Equation
    --------
    spring_surge = sqrt(spring_rate / active_mass) / 2,
    active_mass = spring_mass * active_coils / total_coils

    Validity
    --------
    One spring of even pitch between two flat ends. Dampers, springs that rub inside each other
    and beehives are not covered. The valve moves once in two turns of the crank; Shigley asks
    for 15 to 20 times the frequency of the motion (from memory), which few valve springs reach.

    Source
    ------
    Shigley, Mechanical Engineering Design, chapter 10 (critical frequency of helical springs,
    both ends on plates)

    Caution
    -------
    A spring that surges loses load and can float the valve or break. Engine speed is limited by
    the cam and spring makers' figures, not by this one.
    """
    require(active_coils <= total_coils, "active_coils", "no more than the total coils")
    return math.sqrt(spring_rate / (spring_mass * active_coils / total_coils)) / 2

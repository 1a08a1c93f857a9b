"""Balance of rotating and reciprocating parts."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import tables
from workbook_tools.catalog.blocks import require_filled, spread, total
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Choice, Masses, MassFromZero, Material
from workbook_tools.catalog.measured import (
    BalanceDrillDepth,
    BalanceDrillDiameter,
    BalanceFactor,
    BalanceGrade,
    BalanceRadius,
    Bobweight,
    CrankAngle,
    CrankMass,
    CrankUnbalance,
    DrillPointAngle,
    EngineSpeed,
    OilAllowance,
    PermissibleUnbalance,
    ReciprocatingForce,
    ReciprocatingMass,
    RodLength,
    RodsPerJournal,
    SlugDiameter,
    SlugGain,
    SlugLength,
    SlugMass,
    Stroke,
    UnbalanceForce,
    UnbalanceMass,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Balance"

Order = Annotated[str, quantities.TEXT, Choice(("both", "first", "second"))]


@worksheet_function(SECTION)
def bobweight(
    rotating: Masses,
    reciprocating: Masses,
    factor: BalanceFactor,
    rods_per_journal: RodsPerJournal = 2,
    oil: OilAllowance = 0.0,
) -> Bobweight:
    """Bobweight for one crank journal.

    Parameters
    ----------
    rotating
        What turns with one rod, one cell each or their sum: big end, pair of shells.
    reciprocating
        What moves with one piston, one cell each or their sum: piston, pin, ring set, locks
        (both), small end.
    factor
        0.5 in 90-degree V engines with two rods on a journal. Type 0 for engines whose
        reciprocating parts balance each other.
    rods_per_journal
        2 if left out.
    oil
        what the journal carries around in all. 0 if left out.

    Equation
    --------
    bobweight = rods * (sum of rotating + factor * sum of reciprocating) + oil

    Validity
    --------
    The factor belongs to the engine's layout and the crank's design: ask the crank's maker.

    Source
    ------
    Bevan, The Theory of Machines, chapter 14 (rotating mass and a fraction of the
    reciprocating mass, at the crank radius); half for the 90-degree V: the sum of two
    first-order forces at right angles turns with the crank

    Caution
    -------
    A crank balanced to a wrong bobweight shakes the engine apart. The crank maker's card
    comes first.
    """
    require_filled(rotating, "rotating")
    require_filled(reciprocating, "reciprocating")
    return rods_per_journal * (total(rotating) + factor * total(reciprocating)) + oil


@worksheet_function(SECTION)
def unbalance(mass: UnbalanceMass, radius: BalanceRadius) -> CrankUnbalance:
    """Unbalance: a mass times its distance from the axis.

    Parameters
    ----------
    mass
        or what is missing.
    radius
        of the mass's center.

    Equation
    --------
    U = mass * radius

    Validity
    --------
    In one plane. Unbalances at other angles add up as vectors do, not as numbers.

    Source
    ------
    ISO 21940-11:2016 (unbalance as mass times radius)
    """
    return mass * radius


@worksheet_function(SECTION)
def permissible_unbalance(
    mass: CrankMass, service_speed: EngineSpeed, grade: BalanceGrade
) -> PermissibleUnbalance:
    """Residual unbalance that a balance quality grade permits, for the whole rotor.

    Parameters
    ----------
    mass
        with its bobweights.
    service_speed
        the highest in service.
    grade
        Its number, in mm/s: 16 for G 16.

    Returns
    -------
    For both correction planes together; a crank balanced in two even planes takes half in
    each.

    Equation
    --------
    U = grade * mass / omega, with grade in mm/s

    Validity
    --------
    Rigid rotors. The standard lists G 16 for crank drives inherently balanced and rigidly
    mounted, G 40 elastically mounted, G 6.3 for general machinery.

    Source
    ------
    ISO 21940-11:2016 (formerly ISO 1940-1), permissible residual unbalance

    Caution
    -------
    A limit of quality, not of safety. The engine maker's figure comes first.
    """
    require(grade <= 4000, "grade", "a grade of 4000 at most, the coarsest of the standard")
    return grade / 1000 * mass / service_speed


@worksheet_function(SECTION)
def unbalance_force(unbalance: CrankUnbalance, engine_speed: EngineSpeed) -> UnbalanceForce:
    """Force with which an unbalance pulls as it turns.

    Parameters
    ----------
    unbalance
        Mass times radius.

    Equation
    --------
    force = U * omega**2

    Validity
    --------
    A rotor that does not bend, at a steady speed.

    Source
    ------
    Newton's second law for a mass on a circle

    Caution
    -------
    The force grows with the square of the speed: four times at twice the speed.
    """
    return unbalance * engine_speed**2


@worksheet_function(SECTION)
def drill_depth(
    unbalance: CrankUnbalance,
    radius: BalanceRadius,
    drill_diameter: BalanceDrillDiameter,
    material: Material = "alloy steel",
    point_angle: DrillPointAngle = 2.059488517353309,
) -> BalanceDrillDepth:
    """Depth of a hole, drilled toward the axis, that takes an unbalance away.

    Parameters
    ----------
    unbalance
        Mass times radius.
    radius
        of the drilled surface.
    material
        Material that is drilled away. Alloy steel if left out.
    point_angle
        included: 118 deg if left out, 180 for a flat bottom.

    Returns
    -------
    Depth to full diameter; the point goes deeper.

    Equation
    --------
    depth = a - sqrt(a**2 + h / 3 * (2 * radius - h / 2) - 2 * U / (density * area)), with
    a = radius - h / 3 and h the height of the drill's point

    Validity
    --------
    A radial hole from a surface square to it. Exact for cylinder and cone.

    Source
    ------
    first moment of a cylinder and a cone about the axis (statics, any textbook)

    Caution
    -------
    Keep clear of journals, oil ways and fillets, and of the depth at which a counterweight
    cracks or a slug can come loose: the crank's maker comes first.
    """
    area = math.pi / 4 * drill_diameter**2
    tip = drill_diameter / 2 / math.tan(point_angle / 2)
    taken = unbalance / (tables.density(material) * area)
    reach = radius - tip / 3
    tip_alone = tip / 3 * (radius - tip / 4)
    require(taken >= tip_alone, "drill_diameter", "a smaller drill: its point alone takes too much")
    square = reach**2 - 2 * (taken - tip_alone)
    require(square >= 0, "drill_diameter", "a larger drill, or several holes: none is deep enough")
    return reach - math.sqrt(square)


@worksheet_function(SECTION)
def slug_mass(diameter: SlugDiameter, length: SlugLength, material: Material) -> SlugMass:
    """Mass of a round slug of heavy metal.

    Parameters
    ----------
    material
        Material of the slug: "heavy metal" is a tungsten alloy.

    Returns
    -------
    The slug's own mass, as the scale shows it.

    Equation
    --------
    mass = density * pi / 4 * diameter**2 * length

    Validity
    --------
    A solid slug without chamfers; alloys of one name differ by some percent. Weigh it.

    Source
    ------
    density = mass / volume; the table of materials names the source of each density
    """
    return tables.density(material) * math.pi / 4 * diameter**2 * length


@worksheet_function(SECTION)
def slug_gain(
    diameter: SlugDiameter,
    length: SlugLength,
    material: Material,
    crank_material: Material = "alloy steel",
) -> SlugGain:
    """Mass that a slug adds to a counterweight, less the metal drilled out for it.

    Parameters
    ----------
    diameter
        and that of its hole.
    length
        and that of its hole.
    material
        Material of the slug: "heavy metal" is a tungsten alloy.
    crank_material
        Material of the crank. Alloy steel if left out.

    Equation
    --------
    gain = (slug density - crank density) * pi / 4 * diameter**2 * length

    Validity
    --------
    A hole that the slug fills from end to end.

    Source
    ------
    density = mass / volume; the table of materials names the source of each density

    Caution
    -------
    A slug pressed in radially is held by its fit alone and can fly out: bores along the
    crank's axis, and the crank maker's instructions, come first.
    """
    added = slug_mass(diameter, length, material) - slug_mass(diameter, length, crank_material)
    require(added > 0, "material", "a material heavier than the crank's")
    return added


@worksheet_function(SECTION)
def mass_spread(masses: Masses) -> MassFromZero:
    """Spread of a matched set: the heaviest part less the lightest.

    Parameters
    ----------
    masses
        One cell for each part. No cell may be empty.

    Equation
    --------
    spread = largest - smallest

    Validity
    --------
    Clean, dry parts on one scale; rods weighed at each end on their own.

    Source
    ------
    common practice, no source (range of a set of readings)
    """
    require_filled(masses, "masses")
    return spread(masses)


@worksheet_function(SECTION)
def reciprocating_force(
    reciprocating_mass: ReciprocatingMass,
    stroke: Stroke,
    rod_length: RodLength,
    engine_speed: EngineSpeed,
    crank_angle: CrankAngle,
    order: Order = "both",
) -> ReciprocatingForce:
    """Inertia force of one cylinder's reciprocating parts, of first and second order.

    Parameters
    ----------
    reciprocating_mass
        Piston, pin, rings, locks and small end of one cylinder.
    order
        "first" (once a turn), "second" (twice a turn), or "both" if left out.

    Returns
    -------
    Along the bore, on the engine.

    Equation
    --------
    F = m * r * omega**2 * (cos(angle) + r / l * cos(2 * angle)), first and second term

    Validity
    --------
    Without pin offset. The two orders are exact together at the dead centers; in between
    higher orders are left out.

    Source
    ------
    Khurmi & Gupta, Theory of Machines, chapter 15 (inertia force of the reciprocating
    parts); Bevan, The Theory of Machines, chapter 14 (primary and secondary force)
    """
    throw = stroke / 2
    require(rod_length > throw, "rod_length", "longer than half the stroke")
    whole = reciprocating_mass * throw * engine_speed**2
    first = whole * math.cos(crank_angle)
    second = whole * throw / rod_length * math.cos(2 * crank_angle)
    return first if order == "first" else second if order == "second" else first + second

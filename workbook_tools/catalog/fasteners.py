"""Bolts under load: proof load, load of rod bolts, margins."""

from __future__ import annotations

from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Choice, Limits, MassFromZero, Text
from workbook_tools.catalog.measured import (
    BoltMargin,
    BoltPreload,
    EngineSpeed,
    JointMargin,
    ProofLoad,
    ReciprocatingMass,
    RodBoltCount,
    RodBoltLoad,
    RodLength,
    Stroke,
    WorkingLoad,
)
from workbook_tools.catalog.registry import worksheet_function
from workbook_tools.catalog.threads import INCH, read_thread, thread_stress_area

SECTION = "Fasteners"

Grade = Annotated[str, quantities.TEXT, Choice(tables.words("proof stress", "grade"))]
# The largest bolts that a class or grade is for, where that is not the largest of all.
_LARGEST = {"9.8": 0.016, "grade 2": 0.75 * INCH}
Share = Annotated[float, quantities.FACTOR, Limits(low=0.0, high=1.0)]


@worksheet_function(SECTION)
def proof_load(thread: Text, grade: Grade) -> ProofLoad:
    """Proof load of a bolt: what it carries without taking a set.

    Parameters
    ----------
    thread
        A text: "7/16-20", "#10-32", "M10x1.25", or "M10" for the coarse pitch. In a cell, begin
        1/2-20 with an apostrophe, or the program may take it for a date.
    grade
        Property class (8.8, 10.9, 12.9 and others) or grade ("grade 5", "grade 8") as marked on
        the head.

    Equation
    --------
    proof load = stress area * proof stress of the grade

    Validity
    --------
    Full-shank bolts up to 1 1/2 in (39 mm) by the standards, 3/4 in for grade 2 and 16 mm
    for class 9.8. Bolts of other makes have their own figures: a shop can add them to its
    table.

    Source
    ------
    ISO 898-1:2013, mechanical properties of bolts; SAE J429, mechanical properties of grades;
    both as reproduced by others

    Caution
    -------
    A fastener that fails can kill. Use this to check a figure, never instead of the
    fastener maker's torque, stretch or angle.
    """
    found = read_thread(thread)
    require(found.diameter <= 0.039, "thread", "a thread of 39 mm (1 1/2 in) at most")
    largest = _LARGEST.get(grade, 0.039)
    shown = f"{largest / INCH:g} in" if grade.startswith("grade") else f"{largest * 1000:g} mm"
    require(
        found.diameter <= largest * (1 + 1e-9),
        "thread",
        f"a thread of {shown} at most, which {grade} is for",
    )
    step = INCH if grade.startswith("grade") else 0.016
    large = found.diameter > step and tables.has_band("proof stress", grade=grade, size="large")
    size = "large" if large else "any"
    return thread_stress_area(thread) * tables.low("proof stress", grade=grade, size=size)


@worksheet_function(SECTION)
def rod_bolt_load(
    reciprocating_mass: ReciprocatingMass,
    stroke: Stroke,
    rod_length: RodLength,
    engine_speed: EngineSpeed,
    bolts: RodBoltCount = 2,
    rotating_mass: MassFromZero = 0.0,
) -> RodBoltLoad:
    """Load that inertia puts on each rod bolt at top dead center between exhaust and intake.

    Parameters
    ----------
    reciprocating_mass
        Piston, pin, rings, locks and small end of one cylinder.
    engine_speed
        the highest it ever reaches.
    bolts
        which share the load. 2 if left out.
    rotating_mass
        Big end without its cap, which the bolts must turn around too. 0 if left out.

    Equation
    --------
    load = r * omega**2 * (m_reciprocating * (1 + r / l) + m_rotating) / bolts

    Validity
    --------
    Bolts loaded evenly along their axis, no gas pressure. A joint that gapes bends its
    bolts and loads them far more.

    Source
    ------
    Khurmi & Gupta, Theory of Machines, chapter 15 (inertia force of the reciprocating
    parts, exact at the dead center)

    Caution
    -------
    A rod bolt that fails destroys the engine and can kill. The rod and bolt makers' limits
    of speed and mass come first.
    """
    throw = stroke / 2
    require(rod_length > throw, "rod_length", "longer than half the stroke")
    pull = reciprocating_mass * (1 + throw / rod_length) + rotating_mass
    return throw * engine_speed**2 * pull / bolts


@worksheet_function(SECTION)
def bolt_margin(
    proof_load: ProofLoad, preload: BoltPreload, working_load: WorkingLoad, bolt_share: Share = 1.0
) -> BoltMargin:
    """Margin of a tightened bolt against its proof load.

    Parameters
    ----------
    preload
        left by tightening.
    working_load
        which is that on the joint.
    bolt_share
        Share of the working load that the bolt feels: its rate over that of bolt and joint
        together. 1, the whole load, if left out.

    Returns
    -------
    Above 1 the bolt stays below its proof load.

    Equation
    --------
    margin = proof_load / (preload + bolt_share * working_load)

    Validity
    --------
    Steady load along the bolt's axis; says nothing of fatigue.

    Source
    ------
    Shigley, Mechanical Engineering Design, 9th edition, chapter 8 (yielding factor of a
    bolted joint in tension)

    Caution
    -------
    A fastener that fails can kill. The fastener maker's figures come first.
    """
    return proof_load / (preload + bolt_share * working_load)


@worksheet_function(SECTION)
def joint_margin(
    preload: BoltPreload, working_load: WorkingLoad, bolt_share: Share = 0.0
) -> JointMargin:
    """Margin of a bolted joint against gaping: preload over what the load takes from it.

    Parameters
    ----------
    preload
        left by tightening.
    working_load
        which is that on the joint.
    bolt_share
        Share of the working load that the bolt feels. 0, so that the whole load takes clamping
        from the joint, if left out.

    Returns
    -------
    Above 1 the joint stays closed.

    Equation
    --------
    margin = preload / ((1 - bolt_share) * working_load)

    Validity
    --------
    Steady load along the bolt's axis; says nothing of fatigue.

    Source
    ------
    Shigley, Mechanical Engineering Design, 9th edition, chapter 8 (load factor against joint
    separation)

    Caution
    -------
    A fastener that fails can kill. The fastener maker's figures come first.
    """
    require(bolt_share < 1, "bolt_share", "below 1")
    return preload / ((1 - bolt_share) * working_load)

"""How a whole engine shakes: forces and couples of any layout, correction in two planes."""

from __future__ import annotations

import cmath
import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.blocks import require_filled, require_same_number
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    ANY,
    FROM_ZERO,
    TURNS,
    Block,
    Choice,
    Note,
    Rows,
    SignedLength,
    Unbalance,
)
from workbook_tools.catalog.measured import (
    BalanceFactor,
    BalanceRadius,
    EngineSpeed,
    ReciprocatingMass,
    RodLength,
    Stroke,
)
from workbook_tools.catalog.readings import taken
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Balance"

OrderOfTurn = Annotated[
    str,
    quantities.TEXT,
    Choice(("first", "second")),
    Note('"first" (once a turn) or "second" (twice a turn).'),
]
CrankAngles = Annotated[
    Rows,
    quantities.ANGLE,
    TURNS,
    Block(),
    Note(
        "Of each cylinder's crankpin around the crank, positive the way the crank turns: "
        "0, 180, 180, 0 for an inline four."
    ),
]
BankAngles = Annotated[
    Rows,
    quantities.ANGLE,
    TURNS,
    Block(),
    Note(
        "Of each cylinder's axis from one line common to all, in the same order, positive the way "
        "the crank turns: 0 for all of an inline engine, -45 and 45 for the banks of a V of 90 deg."
    ),
]
AlongCrank = Annotated[Rows, quantities.LENGTH, ANY, Block()]
ShakingForce = Annotated[float, quantities.FORCE, FROM_ZERO]
ShakingCouple = Annotated[float, quantities.TORQUE, FROM_ZERO]
SignedMass = Annotated[float, quantities.MASS, ANY]
SignedUnbalance = Annotated[float, quantities.MASS_MOMENT, ANY]

# Angles typed in whole degrees may miss a layout by so much of all forces together.
_CANCELED = 0.01
# Forces that cancel leave less than this share of one cylinder's, by rounding alone.
_NOTHING = 1e-12


@worksheet_function(SECTION)
def shaking_force(
    crank_angles: CrankAngles,
    bank_angles: BankAngles,
    reciprocating_mass: ReciprocatingMass,
    stroke: Stroke,
    rod_length: RodLength,
    engine_speed: EngineSpeed,
    order: OrderOfTurn,
) -> ShakingForce:
    """Largest force with which all pistons together shake the engine, of first or second order.

    Parameters
    ----------
    reciprocating_mass
        Piston, pin, rings, locks and small end of one cylinder, the same for all.

    Returns
    -------
    The largest over a turn, in whatever direction; 0 where the layout cancels it.

    Equation
    --------
    the largest length, over a turn a, of the sum of m * r * omega**2 * cos(a + c - b) along each
    axis, with c crank and b bank angle; second order with twice the angle and times r / l

    Validity
    --------
    Equal parts in all cylinders; without pin offset and higher orders. Rotating parts are left out:
    the crank's counterweights balance them.

    Source
    ------
    Bevan, The Theory of Machines, chapter 14 (primary and secondary forces of several cylinders)
    """
    _require_cylinders(crank_angles, bank_angles)
    whole = _one_cylinder(reciprocating_mass, stroke, rod_length, engine_speed, order)
    return whole * _largest(crank_angles, bank_angles, _even(crank_angles), order)


@worksheet_function(SECTION)
def shaking_couple(
    crank_angles: CrankAngles,
    bank_angles: BankAngles,
    positions: AlongCrank,
    reciprocating_mass: ReciprocatingMass,
    stroke: Stroke,
    rod_length: RodLength,
    engine_speed: EngineSpeed,
    order: OrderOfTurn,
) -> ShakingCouple:
    """Largest couple with which all pistons together rock the engine, of first or second order.

    Parameters
    ----------
    positions
        Of each cylinder along the crank, from any point, in the same order. The couple is taken
        about their mean. Positive and negative are opposite directions along the crank.
    reciprocating_mass
        Piston, pin, rings, locks and small end of one cylinder, the same for all.

    Returns
    -------
    The largest over a turn, about whatever axis; 0 where the layout cancels it.

    Equation
    --------
    as for ENG.SHAKING_FORCE, each force times its position from the mean of all

    Validity
    --------
    Equal parts in all cylinders; without pin offset and higher orders. Counterweights can cancel a
    couple of first order only where it keeps its size and turns with the crank, as in a cross-plane
    V8.

    Source
    ------
    Bevan, The Theory of Machines, chapter 14 (primary and secondary couples of several cylinders)
    """
    _require_cylinders(crank_angles, bank_angles)
    arms = _arms(positions, crank_angles)
    whole = _one_cylinder(reciprocating_mass, stroke, rod_length, engine_speed, order)
    return whole * _largest(crank_angles, bank_angles, arms, order)


@worksheet_function(SECTION)
def balance_factor(crank_angles: CrankAngles, positions: AlongCrank) -> BalanceFactor:
    """The balance factor for a layout's bobweights, by which the engine shakes least.

    Parameters
    ----------
    positions
        Of each cylinder's crankpin along the crank, from any point, in the same order. Positive and
        negative are opposite directions along the crank.

    Returns
    -------
    0.5 where the pins' forces or couples leave a rest that turns with the crank: single, V-twin,
    inline three and five, V6, cross-plane V8. 0 where they cancel: inline four and six, flat-plane
    V8, V12.

    Equation
    --------
    0 where both sum of exp(i * c) and sum of z * exp(i * c) over the cylinders are zero, with c the
    crank angle and z the position from the mean of all; else 0.5

    Validity
    --------
    First order, the whole engine on soft mounts: half of each reciprocating mass turns with its pin
    and half against it, whatever the banks' angle, and counterweights can cancel what turns with
    the crank alone. It leaves out how the crank bends between its mains, for which makers choose
    other factors.

    Source
    ------
    Bevan, The Theory of Machines, chapter 14 (direct and reverse cranks; from memory)

    Caution
    -------
    A crank balanced to a wrong bobweight shakes the engine apart. The crank maker's card comes
    first.
    """
    require_filled(crank_angles, "crank_angles")
    arms = _arms(positions, crank_angles)
    pins = [cmath.exp(1j * angle) for angle in taken(crank_angles)]
    force = abs(sum(pins))
    couple = abs(sum(arm * pin for arm, pin in zip(arms, pins, strict=True)))
    rest = force > _CANCELED * len(pins) or couple > _CANCELED * sum(map(abs, arms))
    return 0.5 if rest else 0.0


@worksheet_function(SECTION)
def plane_correction(
    unbalance: Unbalance, position: SignedLength, plane: SignedLength, other_plane: SignedLength
) -> SignedUnbalance:
    """What to correct in one of two planes for an unbalance that lies elsewhere along a shaft.

    Parameters
    ----------
    unbalance
        Mass times its distance from the axis, as from ENG.UNBALANCE.
    position
        Of the unbalance along the shaft, from any point. Positive and negative are opposite
        directions along it.
    plane
        Position of the plane asked for, from the same point, positive and negative as before.
    other_plane
        Position of the other plane, from the same point, positive and negative as before.

    Returns
    -------
    Positive: remove material at the unbalance's angle, or add it opposite. Negative: the other way
    round, where the unbalance lies outside both planes.

    Equation
    --------
    correction = unbalance * (other_plane - position) / (other_plane - plane)

    Validity
    --------
    A shaft that is stiff at its speed. Both planes corrected, force and couple are gone.

    Source
    ------
    Bevan, The Theory of Machines, chapter 14 (one mass balanced in two planes)

    Caution
    -------
    Take or add metal only where the part's maker allows it: a counterweight or flywheel drilled in
    the wrong place can burst.
    """
    require(plane != other_plane, "other_plane", "another place than the first plane's")
    return unbalance * (other_plane - position) / (other_plane - plane)


@worksheet_function(SECTION)
def external_balance_mass(
    unbalance: Unbalance,
    position: SignedLength,
    plane: SignedLength,
    other_plane: SignedLength,
    radius: BalanceRadius,
) -> SignedMass:
    """Mass on a damper, flexplate or flywheel that balances what a crank lacks within.

    Parameters
    ----------
    unbalance
        Of the crank with its bobweights, mass times distance from the axis, as from ENG.UNBALANCE.
    position
        Of that unbalance along the crank, from any point. Positive and negative are opposite
        directions along it.
    plane
        Position of the part that the mass is for, from the same point, positive and negative as
        before.
    other_plane
        Position of the part at the crank's other end, from the same point, positive and negative as
        before.
    radius
        at which the mass's center will be.

    Returns
    -------
    Positive: add it opposite the unbalance. Negative: add it at the unbalance's angle, where the
    unbalance lies outside both planes.

    Equation
    --------
    mass = correction / radius, with correction as from ENG.PLANE_CORRECTION

    Validity
    --------
    A crank that is stiff at its speed. The other part takes the rest: ask for it with plane and
    other_plane exchanged.

    Source
    ------
    Bevan, The Theory of Machines, chapter 14 (one mass balanced in two planes)

    Caution
    -------
    Damper, flexplate and flywheel of an externally balanced engine belong to its crank: with those
    of another one it shakes itself apart. A flywheel drilled or welded in the wrong place can
    burst: its maker's rules come first.
    """
    return plane_correction(unbalance, position, plane, other_plane) / radius


def _require_cylinders(crank_angles: Rows, bank_angles: Rows) -> None:
    require_filled(crank_angles, "crank_angles")
    require_filled(bank_angles, "bank_angles")
    require_same_number(bank_angles, crank_angles, "bank_angles", "as many as crank angles")


def _arms(positions: Rows, crank_angles: Rows) -> tuple[float, ...]:
    """How far each cylinder is from the middle of all, along the crank."""
    require_filled(positions, "positions")
    require_same_number(positions, crank_angles, "positions", "as many as crank angles")
    along = taken(positions)
    middle = sum(along) / len(along)
    return tuple(z - middle for z in along)


def _even(crank_angles: Rows) -> tuple[float, ...]:
    return tuple(1.0 for _ in taken(crank_angles))


def _one_cylinder(
    mass: float, stroke: float, rod_length: float, engine_speed: float, order: str
) -> float:
    throw = stroke / 2
    require(rod_length > throw, "rod_length", "longer than half the stroke")
    first = mass * throw * engine_speed**2
    return first if order == "first" else first * throw / rod_length


def _largest(
    crank_angles: Rows, bank_angles: Rows, weights: tuple[float, ...], order: str
) -> float:
    """The largest length over a turn of the weighted sum of the cylinders' unit forces."""
    times = 1 if order == "first" else 2
    across = upward = 0j
    for crank, bank, weight in zip(taken(crank_angles), taken(bank_angles), weights, strict=True):
        turning = weight * cmath.exp(1j * times * (crank - bank))
        across += turning * math.sin(bank)
        upward += turning * math.cos(bank)
    # Both components swing at one frequency: their sum runs along an ellipse.
    squares = abs(across) ** 2 + abs(upward) ** 2
    area = (across * upward.conjugate()).imag
    largest = math.sqrt((squares + math.sqrt(max(squares**2 - 4 * area**2, 0.0))) / 2)
    scale = max(map(abs, weights), default=0.0)
    return largest if largest > _NOTHING * scale * len(weights) else 0.0

"""The plane of a deck from its heights at the four corners: tilt, twist, height at a cylinder."""

from __future__ import annotations

from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import FROM_ZERO, Length, Note, SignedLength, measured
from workbook_tools.catalog.measured import DeckHeight, DeckTiltAcross, DeckTiltAlong
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Deck and quench"

FrontIntake = Annotated[
    float,
    measured("deck_height"),
    Note("At the front, on the side of the intake, from the crank's centerline."),
]
FrontExhaust = Annotated[
    float, measured("deck_height"), Note("At the front, on the side of the exhaust.")
]
RearIntake = Annotated[
    float, measured("deck_height"), Note("At the rear, on the side of the intake.")
]
RearExhaust = Annotated[
    float, measured("deck_height"), Note("At the rear, on the side of the exhaust.")
]
AlongDeck = Annotated[float, quantities.LENGTH, FROM_ZERO]


def _require_one_deck(first: float, second: float, third: float, fourth: float) -> None:
    """Refuse heights that cannot all be of one deck."""
    mean = (first + second + third + fourth) / 4
    farthest = max(abs(first - mean), abs(second - mean), abs(third - mean), abs(fourth - mean))
    require(
        farthest <= 0.01 * mean,
        "rear_exhaust",
        "heights of one deck, within 1 % of their mean at all corners",
    )


@worksheet_function(SECTION)
def deck_tilt_along(
    front_intake: FrontIntake,
    front_exhaust: FrontExhaust,
    rear_intake: RearIntake,
    rear_exhaust: RearExhaust,
) -> DeckTiltAlong:
    """How far a deck rises along the crank, from its heights at the four corners.

    Equation
    --------
    tilt = (rear_intake + rear_exhaust) / 2 - (front_intake + front_exhaust) / 2: the rise of the
    plane that fits the four corners best

    Validity
    --------
    Over the distance between the front and rear corners, measured alike. The crank's centerline is
    the datum, by a bar in the main housings.

    Source
    ------
    least squares plane through the corners of a rectangle

    Caution
    -------
    Decks are cut parallel to the crank by the lowest corner: check that the least height that the
    engine maker allows is left, and quench and valve clearance after it.
    """
    _require_one_deck(front_intake, front_exhaust, rear_intake, rear_exhaust)
    return (rear_intake + rear_exhaust) / 2 - (front_intake + front_exhaust) / 2


@worksheet_function(SECTION)
def deck_tilt_across(
    front_intake: FrontIntake,
    front_exhaust: FrontExhaust,
    rear_intake: RearIntake,
    rear_exhaust: RearExhaust,
) -> DeckTiltAcross:
    """How far a deck rises across the bores, from its heights at the four corners.

    Equation
    --------
    tilt = (front_exhaust + rear_exhaust) / 2 - (front_intake + rear_intake) / 2: the rise of the
    plane that fits the four corners best

    Validity
    --------
    Over the distance between the corners of both sides, measured alike. A deck that leans this
    way is not square to its bores: the piston meets the head on one side first.

    Source
    ------
    least squares plane through the corners of a rectangle

    Caution
    -------
    Decks are cut square to the bores by the lowest corner: check that the least height that the
    engine maker allows is left, and quench and valve clearance after it.
    """
    _require_one_deck(front_intake, front_exhaust, rear_intake, rear_exhaust)
    return (front_exhaust + rear_exhaust) / 2 - (front_intake + rear_intake) / 2


@worksheet_function(SECTION)
def deck_twist(
    front_intake: FrontIntake,
    front_exhaust: FrontExhaust,
    rear_intake: RearIntake,
    rear_exhaust: RearExhaust,
) -> SignedLength:
    """How far a corner of a deck lies off the plane of the other three.

    Returns
    -------
    Zero for a plane. Positive: the rear exhaust corner stands above the plane of the others.
    Negative: below it.

    Equation
    --------
    twist = rear_exhaust - rear_intake - front_exhaust + front_intake

    Validity
    --------
    Each corner lies a quarter of it off the plane that fits all four best. Corners alone: a deck
    can be hollow between them, which a straightedge shows.

    Source
    ------
    plane through three corners of a rectangle
    """
    _require_one_deck(front_intake, front_exhaust, rear_intake, rear_exhaust)
    return rear_exhaust - rear_intake - front_exhaust + front_intake


@worksheet_function(SECTION)
def deck_height_at(
    front_intake: FrontIntake,
    front_exhaust: FrontExhaust,
    rear_intake: RearIntake,
    rear_exhaust: RearExhaust,
    corner_distance: Length,
    distance: AlongDeck,
) -> DeckHeight:
    """Deck height at a cylinder, from the heights at the four corners.

    Parameters
    ----------
    corner_distance
        Between the places at the front and at the rear where the heights were measured.
    distance
        From the front ones to the cylinder's axis, along the crank; 0 at the front ones.

    Equation
    --------
    height = front + (rear - front) * distance / corner_distance, with front and rear the means of
    both sides

    Validity
    --------
    Midway between both sides, on a deck that is flat between its corners. ENG.DECK_CLEARANCE takes
    the result.

    Source
    ------
    least squares plane through the corners of a rectangle
    """
    _require_one_deck(front_intake, front_exhaust, rear_intake, rear_exhaust)
    require(
        distance <= corner_distance, "distance", "no more than from the front corners to the rear"
    )
    front = (front_intake + front_exhaust) / 2
    rear = (rear_intake + rear_exhaust) / 2
    return front + (rear - front) * distance / corner_distance

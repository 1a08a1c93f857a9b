"""Deck clearance and quench: how near the piston comes to the head, cold and warm."""

from __future__ import annotations

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Length, SignedLength
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Deck and quench"


@worksheet_function(SECTION)
def deck_clearance(
    deck_height: Length, stroke: Length, rod_length: Length, compression_height: Length
) -> SignedLength:
    """Deck clearance from the sizes of block, crank, rod and piston.

    Parameters
    ----------
    deck_height
        Crank centerline to deck, measured square to the deck.
    stroke
        Stroke of the crank, twice its throw.
    rod_length
        Rod length, center to center.
    compression_height
        Piston pin center to the flat of the crown.

    Returns
    -------
    Positive with the piston below the deck at top dead center, negative above it.

    Equation
    --------
    deck_clearance = deck_height - (stroke / 2 + rod_length + compression_height)

    Validity
    --------
    Pin and crank on the bore's centerline. After a block has been surfaced, measure.

    Source
    ------
    common practice, no source (sum of lengths)
    """
    require(rod_length > stroke / 2, "rod_length", "longer than half the stroke")
    return deck_height - (stroke / 2 + rod_length + compression_height)


@worksheet_function(SECTION)
def quench(deck_clearance: SignedLength, gasket_thickness: Length) -> SignedLength:
    """Quench: the cold gap from the flat of the piston to the head at top dead center.

    Parameters
    ----------
    deck_clearance
        Positive with the piston below the deck, negative above it. An empty cell is not a
        zero: type 0 for a piston level with the deck.
    gasket_thickness
        Head gasket as compressed by the torqued head, not as sold.

    Returns
    -------
    Negative where the piston would meet the head.

    Equation
    --------
    quench = deck_clearance + gasket_thickness

    Validity
    --------
    Flat heads and crowns; a recessed or proud head face adds its own depth.

    Source
    ------
    common practice, no source (sum of lengths)

    Caution
    -------
    Cold and at rest. Heat, rod stretch and bearing clearance take from it: too little and
    the piston meets the head. The piston and rod makers' figures come first.
    """
    return deck_clearance + gasket_thickness

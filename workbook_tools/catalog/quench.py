"""Deck clearance and quench: how near the piston comes to the head, cold and warm."""

from __future__ import annotations

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Length, Rows
from workbook_tools.catalog.measured import (
    BearingTakeUp,
    CompressionHeight,
    DeckClearance,
    DeckCut,
    DeckGrowth,
    DeckHeight,
    GasketThickness,
    GasketThicknesses,
    HotDeckClearance,
    HotQuench,
    Quench,
    RodLength,
    RodStretch,
    RunningQuench,
    Stroke,
)
from workbook_tools.catalog.readings import number, taken
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Deck and quench"


@worksheet_function(SECTION)
def deck_clearance(
    deck_height: DeckHeight,
    stroke: Stroke,
    rod_length: RodLength,
    compression_height: CompressionHeight,
) -> DeckClearance:
    """Deck clearance from the sizes of block, crank, rod and piston.

    Parameters
    ----------
    deck_height
        from the crank's centerline, square to the deck.

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
def compression_height_for_deck(
    deck_clearance: DeckClearance, deck_height: DeckHeight, stroke: Stroke, rod_length: RodLength
) -> CompressionHeight:
    """Compression height to order a piston with, for a wanted deck clearance.

    Parameters
    ----------
    deck_clearance
        wanted.
    deck_height
        from the crank's centerline, square to the deck; as it will be after surfacing.

    Equation
    --------
    compression_height = deck_height - stroke / 2 - rod_length - deck_clearance

    Validity
    --------
    Pin and crank on the bore's centerline. Take the deck of the lowest cylinder and the longest
    throw and rod: a piston can be cut, a deck too low cannot be raised.

    Source
    ------
    common practice, no source (sum of lengths)

    Caution
    -------
    A piston that meets the head wrecks the engine. Check the quench too, and mock the engine up.
    """
    require(rod_length > stroke / 2, "rod_length", "longer than half the stroke")
    height = deck_height - stroke / 2 - rod_length - deck_clearance
    require(height > 0, "deck_height", "more than half the stroke, rod and deck clearance together")
    return height


@worksheet_function(SECTION)
def quench(deck_clearance: DeckClearance, gasket_thickness: GasketThickness) -> Quench:
    """Quench: the cold gap from the flat of the piston to the head at top dead center.

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


@worksheet_function(SECTION)
def hot_deck_clearance(deck_clearance: DeckClearance, deck_growth: DeckGrowth) -> HotDeckClearance:
    """Deck clearance of the warm engine, at rest.

    Parameters
    ----------
    deck_clearance
        measured cold.
    deck_growth
        as from ENG.DECK_GROWTH_BY_PARTS.

    Equation
    --------
    hot_deck_clearance = deck_clearance + deck_growth

    Source
    ------
    common practice, no source (sum of lengths)
    """
    return deck_clearance + deck_growth


@worksheet_function(SECTION)
def gasket_for_quench(
    quench: Length, deck_clearance: DeckClearance, deck_growth: DeckGrowth = 0.0
) -> GasketThickness:
    """Compressed gasket thickness that gives a wanted quench.

    Parameters
    ----------
    quench
        Wanted quench: warm where deck_growth is given, cold where it is left out.
    deck_clearance
        measured cold.
    deck_growth
        as from ENG.DECK_GROWTH_BY_PARTS. 0 if left out.

    Equation
    --------
    gasket_thickness = quench - deck_clearance - deck_growth

    Validity
    --------
    At rest. What rod stretch and bearing clearance take must be in the wanted quench.

    Source
    ------
    common practice, no source (sum of lengths)

    Caution
    -------
    Check the cylinder with the least deck clearance, and the cold quench too: the engine
    also starts cold. The piston and rod makers' least clearance comes first.
    """
    require(
        quench > deck_clearance + deck_growth,
        "quench",
        "more than deck clearance and growth leave without a gasket",
    )
    return quench - deck_clearance - deck_growth


@worksheet_function(SECTION)
def hot_quench(
    deck_clearance: DeckClearance, gasket_thickness: GasketThickness, deck_growth: DeckGrowth
) -> HotQuench:
    """Quench of the warm engine, at rest.

    Parameters
    ----------
    deck_clearance
        measured cold.
    deck_growth
        as from ENG.DECK_GROWTH_BY_PARTS.

    Returns
    -------
    Negative where the piston would meet the head.

    Equation
    --------
    hot_quench = deck_clearance + gasket_thickness + deck_growth

    Source
    ------
    common practice, no source (sum of lengths)

    Caution
    -------
    At rest: rod stretch and bearing clearance take from it. Too little and the piston meets
    the head. The piston and rod makers' least clearance comes first.
    """
    return deck_clearance + gasket_thickness + deck_growth


@worksheet_function(SECTION)
def running_quench(
    hot_quench: HotQuench, rod_stretch: RodStretch, take_up: BearingTakeUp = 0.0
) -> RunningQuench:
    """Quench of the warm engine at speed, at top dead center of the exhaust stroke.

    Parameters
    ----------
    hot_quench
        Negative where the piston would meet the head.
    take_up
        How much further the clearances of bearings and pin let the piston rise than where the deck
        clearance was measured, with the tilt of a rocking piston. 0 if left out.

    Returns
    -------
    Negative where the piston would meet the head.

    Equation
    --------
    running_quench = hot_quench - rod_stretch - take_up

    Source
    ------
    common practice, no source (sum of lengths)

    Caution
    -------
    An estimate; crank and block bend too. The piston and rod makers' least clearance comes
    first.
    """
    return hot_quench - rod_stretch - take_up


@worksheet_function(SECTION)
def deck_cut_for_quench(
    quench: Length,
    deck_clearance: DeckClearance,
    gasket_thickness: GasketThickness,
    deck_growth: DeckGrowth = 0.0,
) -> DeckCut:
    """Depth to cut off the block's deck for a wanted quench.

    Parameters
    ----------
    quench
        Wanted quench: warm where deck_growth is given, cold where it is left out.
    deck_clearance
        measured cold.
    deck_growth
        as from ENG.DECK_GROWTH_BY_PARTS. 0 if left out.

    Returns
    -------
    Zero where the quench is met as it is; more quench than there is now is an error.

    Equation
    --------
    deck_cut = deck_clearance + gasket_thickness + deck_growth - quench

    Source
    ------
    common practice, no source (sum of lengths)

    Caution
    -------
    Cut for the cylinder with the least deck clearance, and keep to the least deck height
    that the maker allows. A cut also raises the compression ratio and brings the valves
    nearer to the pistons.
    """
    cut = deck_clearance + gasket_thickness + deck_growth - quench
    # A nanometer is no cut: it comes from the last digits of the lengths.
    require(cut >= -1e-9, "quench", "no more than the quench there is without a cut")
    return max(cut, 0.0)


def thickness_nearest(shelf: Rows, wanted: float, least: float) -> float:
    """The thickness nearest to the wanted one that is at least the least; 0 where none is."""
    # A nanometer short is none: it comes from the last digits of the lengths.
    safe = [thickness for thickness in taken(shelf) if thickness >= least - 1e-9]
    # Of two as near, to the nanometer, the thicker one is the safer.
    return min(safe, key=lambda t: (round(abs(t - wanted), 9), -t), default=0.0)


@worksheet_function(SECTION)
def nearest_gasket(
    quench: Length,
    deck_clearance: DeckClearance,
    deck_growth: DeckGrowth,
    thicknesses: GasketThicknesses,
    least_quench: Length,
) -> GasketThickness:
    """Thickness to order: the gasket that brings the quench nearest to the wanted one.

    Parameters
    ----------
    quench
        Wanted quench of the warm engine.
    deck_clearance
        measured cold.
    deck_growth
        as from ENG.DECK_GROWTH_BY_PARTS. Type 0 to judge the engine cold.
    thicknesses
        of each that is to be had. Empty cells are passed over.
    least_quench
        Least quench allowed, cold as well as warm.

    Returns
    -------
    Of two that are as near, the thicker one. An error if none leaves the least quench.

    Equation
    --------
    the thickness with the least |deck_clearance + deck_growth + thickness - quench| among
    those with deck_clearance + min(deck_growth, 0) + thickness >= least_quench

    Source
    ------
    common practice, no source (sum of lengths)

    Caution
    -------
    For the cylinder with the least deck clearance. The least quench must leave room for rod
    stretch and bearing clearance at speed: the piston and rod makers' figure comes first.
    """
    require(number(thicknesses) > 0, "thicknesses", "at least one thickness", missing=True)
    least = least_quench - deck_clearance - min(deck_growth, 0.0)
    nearest = thickness_nearest(thicknesses, quench - deck_clearance - deck_growth, least)
    require(
        nearest > 0,
        "thicknesses",
        "one that leaves the least quench, cold as well as warm",
        "none thick enough",
    )
    return nearest

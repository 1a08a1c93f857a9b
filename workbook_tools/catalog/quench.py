"""Deck clearance and quench: how near the piston comes to the head, cold and warm."""

from __future__ import annotations

from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Length, Material, SignedLength, TemperatureRise
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


@worksheet_function(SECTION)
def deck_growth(
    deck_height: Length,
    stroke: Length,
    rod_length: Length,
    compression_height: Length,
    temperature_rise: TemperatureRise,
    block_material: Material,
    crank_material: Material = "alloy steel",
    rod_material: Material = "alloy steel",
    piston_material: Material = "aluminum",
    piston_extra_rise: TemperatureRise = 0.0,
) -> SignedLength:
    """How much deck clearance grows from cold to warm: the block against crank, rod, piston.

    Parameters
    ----------
    deck_height
        Crank centerline to deck, cold.
    stroke
        Stroke of the crank, twice its throw.
    rod_length
        Rod length, center to center.
    compression_height
        Piston pin center to the flat of the crown.
    temperature_rise
        How much warmer block, crank and rod are than when measured; negative for colder.
    block_material
        Material of the block between crank and deck.
    crank_material
        Material of the crank. Alloy steel if left out.
    rod_material
        Material of the rod. Alloy steel if left out.
    piston_material
        Material of the piston. Aluminum if left out.
    piston_extra_rise
        How much more than the rest the piston warms up, on top of temperature_rise. 0 if
        left out: everything at one temperature.

    Returns
    -------
    Positive where the clearance opens as the engine warms up, negative where it closes.

    Equation
    --------
    deck_growth = a_block * deck_height * rise - a_crank * stroke / 2 * rise
    - a_rod * rod_length * rise - a_piston * compression_height * (rise + extra rise)

    Validity
    --------
    Free, even expansion of each part by its mean coefficient from about 20 to 100 deg C.
    Studs, iron caps and uneven temperatures hold a block back.

    Source
    ------
    linear expansion, with the coefficients of the material table, each with its source

    Caution
    -------
    An estimate. Measure one engine cold and warm before trusting it to a few thousandths.
    """
    assembly = (
        tables.expansion(crank_material) * stroke / 2 * temperature_rise
        + tables.expansion(rod_material) * rod_length * temperature_rise
        + tables.expansion(piston_material)
        * compression_height
        * (temperature_rise + piston_extra_rise)
    )
    return tables.expansion(block_material) * deck_height * temperature_rise - assembly


@worksheet_function(SECTION)
def hot_deck_clearance(deck_clearance: SignedLength, deck_growth: SignedLength) -> SignedLength:
    """Deck clearance of the warm engine, at rest.

    Parameters
    ----------
    deck_clearance
        Measured cold: positive with the piston below the deck, negative above it. An empty
        cell is not a zero: type 0 for a piston level with the deck.
    deck_growth
        How much the clearance opens from cold to warm; negative where it closes.

    Returns
    -------
    Positive with the piston below the deck, negative above it.

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
    quench: Length, deck_clearance: SignedLength, deck_growth: SignedLength = 0.0
) -> Length:
    """Compressed gasket thickness that gives a wanted quench.

    Parameters
    ----------
    quench
        Wanted quench: warm where deck_growth is given, cold where it is left out.
    deck_clearance
        Measured cold: positive with the piston below the deck, negative above it. An empty
        cell is not a zero: type 0 for a piston level with the deck.
    deck_growth
        How much the clearance opens from cold to warm; negative where it closes. 0 if left
        out.

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

"""Heat and speed: how block, crank, rod and piston change the deck clearance."""

from __future__ import annotations

from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Material
from workbook_tools.catalog.measured import (
    AssemblyGrowth,
    BlockGrowth,
    BlockTemperatureRise,
    CompressionHeight,
    DeckGrowth,
    DeckHeight,
    EngineSpeed,
    EngineTemperatureRise,
    PistonExtraRise,
    PistonTemperatureRise,
    ReciprocatingMass,
    RodArea,
    RodLength,
    RodStretch,
    RodTemperatureRise,
    Stroke,
)
from workbook_tools.catalog.piston_speed import tdc_acceleration
from workbook_tools.catalog.quench import SECTION
from workbook_tools.catalog.registry import worksheet_function


@worksheet_function(SECTION)
def block_growth(
    deck_height: DeckHeight, temperature_rise: BlockTemperatureRise, block_material: Material
) -> BlockGrowth:
    """How much the block grows between crank and deck as it warms up.

    Parameters
    ----------
    deck_height
        from the crank's centerline, cold.
    temperature_rise
        Negative for colder.
    block_material
        Material of the block between crank and deck.

    Equation
    --------
    block_growth = a_block * deck_height * temperature_rise

    Validity
    --------
    Free, even expansion by the mean coefficient from about 20 to 100 deg C.

    Source
    ------
    linear expansion, with the coefficients of the material table, each with its source
    """
    return tables.expansion(block_material) * deck_height * temperature_rise


@worksheet_function(SECTION)
def assembly_growth(
    stroke: Stroke,
    rod_length: RodLength,
    compression_height: CompressionHeight,
    temperature_rise: EngineTemperatureRise,
    crank_material: Material = "alloy steel",
    rod_material: Material = "alloy steel",
    piston_material: Material = "aluminum",
    piston_extra_rise: PistonExtraRise = 0.0,
) -> AssemblyGrowth:
    """How much crank throw, rod and piston together grow as they warm up.

    Parameters
    ----------
    temperature_rise
        of crank and rod; negative for colder.
    crank_material
        Material of the crank. Alloy steel if left out.
    rod_material
        Material of the rod. Alloy steel if left out.
    piston_material
        Material of the piston. Aluminum if left out.
    piston_extra_rise
        on top of temperature_rise. 0 if left out: everything at one temperature.

    Equation
    --------
    assembly_growth = a_crank * stroke / 2 * rise + a_rod * rod_length * rise
    + a_piston * compression_height * (rise + extra rise)

    Validity
    --------
    Free, even expansion of each part by its mean coefficient from about 20 to 100 deg C. With
    one rise for all it says too little: crank and rod run as hot as the oil, the piston
    hotter. DECK_GROWTH_BY_PARTS has a rise for each.

    Source
    ------
    linear expansion, with the coefficients of the material table, each with its source
    """
    crank = tables.expansion(crank_material) * stroke / 2
    rod = tables.expansion(rod_material) * rod_length
    piston = tables.expansion(piston_material) * compression_height
    return (crank + rod) * temperature_rise + piston * (temperature_rise + piston_extra_rise)


@worksheet_function(SECTION)
def deck_growth(
    deck_height: DeckHeight,
    stroke: Stroke,
    rod_length: RodLength,
    compression_height: CompressionHeight,
    temperature_rise: EngineTemperatureRise,
    block_material: Material,
    crank_material: Material = "alloy steel",
    rod_material: Material = "alloy steel",
    piston_material: Material = "aluminum",
    piston_extra_rise: PistonExtraRise = 0.0,
) -> DeckGrowth:
    """How much deck clearance grows from cold to warm: the block against crank, rod, piston.

    Parameters
    ----------
    deck_height
        from the crank's centerline, cold.
    temperature_rise
        of block, crank and rod; negative for colder.
    block_material
        Material of the block between crank and deck.
    crank_material
        Material of the crank. Alloy steel if left out.
    rod_material
        Material of the rod. Alloy steel if left out.
    piston_material
        Material of the piston. Aluminum if left out.
    piston_extra_rise
        on top of temperature_rise. 0 if left out: everything at one temperature.

    Returns
    -------
    Negative in an iron block, which grows less than crank, rod and piston: there the
    clearance closes.

    Equation
    --------
    deck_growth = block_growth - assembly_growth

    Validity
    --------
    Free, even expansion of each part by its mean coefficient from about 20 to 100 deg C.
    Studs, iron caps and uneven temperatures hold a block back. One rise for block, crank and
    rod is the unsafe end: it can say 0.003 in too much, and the gasket then comes out as much
    too thin. DECK_GROWTH_BY_PARTS has a rise for each and is the better one.

    Source
    ------
    linear expansion, with the coefficients of the material table, each with its source

    Caution
    -------
    An estimate. Measure one engine cold and warm before trusting it to a few thousandths.
    """
    assembly = assembly_growth(
        stroke,
        rod_length,
        compression_height,
        temperature_rise,
        crank_material,
        rod_material,
        piston_material,
        piston_extra_rise,
    )
    return block_growth(deck_height, temperature_rise, block_material) - assembly


@worksheet_function(SECTION)
def deck_growth_by_parts(
    deck_height: DeckHeight,
    stroke: Stroke,
    rod_length: RodLength,
    compression_height: CompressionHeight,
    block_rise: BlockTemperatureRise,
    rod_rise: RodTemperatureRise,
    piston_rise: PistonTemperatureRise,
    block_material: Material,
    crank_material: Material,
    rod_material: Material,
    piston_material: Material,
) -> DeckGrowth:
    """How much deck clearance grows from cold to warm, each part at a temperature of its own.

    Parameters
    ----------
    deck_height
        from the crank's centerline, cold.
    block_rise
        Usual from a shop at 70 deg F: 100 to 130 deg F (55 to 70 deg C). A rise, not the
        temperature.
    rod_rise
        Usual: 130 to 180 deg F (70 to 100 deg C), as hot as the oil. A rise, not the temperature.
    piston_rise
        between pin and crown. Usual: 200 to 350 deg F (110 to 190 deg C). A rise, not the
        temperature.
    block_material
        Material of the block between crank and deck.
    crank_material
        Material of the crank.
    rod_material
        Material of the rod.
    piston_material
        Material of the piston.

    Returns
    -------
    Negative in an iron block, which grows less than crank, rod and piston: there the
    clearance closes.

    Equation
    --------
    deck_growth = a_block * deck_height * block_rise - a_crank * stroke / 2 * rod_rise
    - a_rod * rod_length * rod_rise - a_piston * compression_height * piston_rise

    Validity
    --------
    An estimate: free, even expansion of each part by its mean coefficient from about 20 to 100
    deg C, at rises that nobody measures. Studs, iron caps and uneven temperatures hold a block
    back.

    Source
    ------
    linear expansion, with the coefficients of the material table, each with its source; the
    usual rises: common practice, no source

    Caution
    -------
    Reckon with the hottest piston and rod and the coolest block that the engine will see: that
    end asks for the thicker gasket. Measure one engine cold and warm before trusting it to a
    few thousandths.
    """
    crank = tables.expansion(crank_material) * stroke / 2
    rod = tables.expansion(rod_material) * rod_length
    piston = tables.expansion(piston_material) * compression_height * piston_rise
    block = block_growth(deck_height, block_rise, block_material)
    return block - (crank + rod) * rod_rise - piston


@worksheet_function(SECTION)
def rod_stretch(
    reciprocating_mass: ReciprocatingMass,
    stroke: Stroke,
    rod_length: RodLength,
    engine_speed: EngineSpeed,
    rod_area: RodArea,
    rod_material: Material = "alloy steel",
) -> RodStretch:
    """How much inertia stretches the rod at top dead center of the exhaust stroke.

    Parameters
    ----------
    reciprocating_mass
        Piston, pin, rings, locks and small end of one cylinder.
    rod_material
        Material of the rod. Alloy steel if left out.

    Equation
    --------
    rod_stretch = reciprocating_mass * tdc_acceleration * rod_length / (rod_area * E)

    Validity
    --------
    A beam of one section over the whole length, stretched by the reciprocating mass alone.
    The beam's own mass and the bending of big end and piston add to it.

    Source
    ------
    Shigley, Mechanical Engineering Design, chapter 4 (a bar in tension), with the modulus of
    the material table

    Caution
    -------
    An estimate of one part of what a running engine takes from its quench. The rod and
    piston makers' least clearance comes first.
    """
    force = reciprocating_mass * tdc_acceleration(stroke, rod_length, engine_speed)
    strain = force / (rod_area * tables.modulus(rod_material))
    require(strain <= 0.01, "rod_area", "a section that this load stretches by 1 % at most")
    return strain * rod_length

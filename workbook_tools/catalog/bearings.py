"""Main and rod bearings: clearance cold and hot, end play, journal shape."""

from __future__ import annotations

from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Factor, LengthFromZero, Material, Use
from workbook_tools.catalog.measured import (
    BearingClearance,
    BearingClearanceBand,
    EndPlay,
    HotBearingClearance,
    HousingBore,
    HousingTemperatureRise,
    Journal,
    JournalTemperatureRise,
    RodBigEndWidth,
    RodJournalWidth,
    RodSideClearance,
    RodsPerJournal,
    ShellWall,
    ShellWallBand,
    ShellWalls,
    ThrustBearingWidth,
    ThrustWidth,
)
from workbook_tools.catalog.readings import taken
from workbook_tools.catalog.registry import worksheet_function
from workbook_tools.catalog.tables import BEYOND, NO_ROW

SECTION = "Bearings"
_TABLE = "bearing clearance factor"
# Sizes and clearances nearer than this are equal: a hundredth of a micrometer.
_ROUNDING = 1e-8


@worksheet_function(SECTION)
def bearing_clearance(
    housing_bore: HousingBore, shell_wall: ShellWall, journal: Journal, other_wall: ShellWall = 0.0
) -> BearingClearance:
    """Bearing clearance, total, from housing bore, shell walls and journal.

    Parameters
    ----------
    housing_bore
        without shells, caps torqued, measured square to the parting line.
    shell_wall
        By a ball anvil.
    other_wall
        of the other half where the halves differ; left out, both are alike.

    Returns
    -------
    Diametral clearance, not per side. Negative for an interference.

    Equation
    --------
    bearing_clearance = housing_bore - shell_wall - other_wall - journal

    Validity
    --------
    All parts at the same temperature; the press of the shells is not allowed for, so a
    measurement with torqued shells in place comes first.

    Source
    ------
    common practice, no source (difference of sizes)

    Caution
    -------
    A bearing without oil film fails and can throw a rod. The engine and bearing makers'
    figures come first.
    """
    second_wall = other_wall if other_wall > 0 else shell_wall
    clearance = housing_bore - shell_wall - second_wall - journal
    require(
        abs(clearance) <= 0.02 * journal,
        "journal",
        "a size within 2 % of what housing bore and both shell walls leave",
    )
    return clearance


@worksheet_function(SECTION)
def bearing_clearance_factor(use: Use) -> Factor:
    """Bearing clearance per unit of journal diameter, from the table of bands.

    Parameters
    ----------
    use
        "aluminum block" is for mains measured cold, never for rods.

    Returns
    -------
    The same number in an inch book and in a metric one: inches per inch, mm per mm.

    Equation
    --------
    bearing_clearance_factor = factor of the table's row for this use, or for the use that this
    one is like

    Validity
    --------
    A starting point where no maker names a figure; the oil grade goes with it. Plain bearings.

    Source
    ------
    common practice, no source; each row of the table names its origin

    Caution
    -------
    A bearing without oil film fails and can throw a rod. The engine and bearing makers'
    figures come first.
    """
    require(tables.has_band(_TABLE, use=use), "use", NO_ROW)
    return tables.factor(_TABLE, use=use)


@worksheet_function(SECTION)
def bearing_band(journal: Journal, use: Use) -> BearingClearanceBand:
    """Band of bearing clearance, total, for a journal and a use.

    Parameters
    ----------
    use
        "aluminum block" is for mains measured cold, never for rods.

    Returns
    -------
    Three cells beside each other: low, high, and where the band comes from.

    Equation
    --------
    low = low base + journal * low factor, high = high base + journal * high factor of the table's
    row for this use, or for the use that this one is like; most rows have no base

    Validity
    --------
    A starting point where no maker names a figure; the oil grade goes with it. Plain bearings,
    mains and rods alike, but "aluminum block" only for mains: a rod's bore hardly grows beside
    its journal. The third cell says whose row it is, and whether the journal lies beyond those
    that the row comes from.

    Source
    ------
    makers' service ranges for service, stock, motorcycle and diesel, else common practice, no
    source; each row of the table names its origin

    Caution
    -------
    A bearing without oil film fails and can throw a rod. The engine and bearing makers'
    figures come first.
    """
    require(tables.has_band(_TABLE, use=use), "use", NO_ROW)
    row = tables.row(_TABLE, use=use)
    low = tables.figure(_TABLE, row, "low_base") + journal * tables.figure(_TABLE, row, "low")
    high = tables.figure(_TABLE, row, "high_base") + journal * tables.figure(_TABLE, row, "high")
    least = tables.figure(_TABLE, row, "least_size")
    most = tables.figure(_TABLE, row, "most_size")
    stands_in = tables.word(_TABLE, row, "use")
    told = tables.word(_TABLE, row, "origin")
    told = told + ("" if stands_in == use else "; as for " + stands_in)
    told = told + (BEYOND if journal < least or journal > most else "")
    return ((low, high, told),)


@worksheet_function(SECTION)
def hot_bearing_clearance(
    housing_bore: HousingBore,
    shell_wall: ShellWall,
    journal: Journal,
    housing_rise: HousingTemperatureRise,
    journal_rise: JournalTemperatureRise,
    housing_material: Material,
    journal_material: Material = "alloy steel",
    shell_material: Material = "steel",
    other_wall: ShellWall = 0.0,
) -> HotBearingClearance:
    """Bearing clearance of the hot engine, total.

    Parameters
    ----------
    housing_bore
        without shells, caps torqued, cold.
    shell_wall
        cold.
    journal
        cold.
    housing_rise
        of housing and shells; negative for colder.
    journal_rise
        Negative for colder.
    housing_material
        Material of the housing: of the block for mains, of the rod for rod bearings.
    journal_material
        Material of the crank. Alloy steel if left out.
    shell_material
        Material of the shells' backs. Steel if left out.
    other_wall
        of the other half where the halves differ; left out, both are alike.

    Returns
    -------
    Diametral clearance, not per side. Negative for an interference.

    Equation
    --------
    hot_clearance = housing_bore * (1 + a_housing * housing_rise) - (shell_wall + other_wall)
    * (1 + a_shell * housing_rise) - journal * (1 + a_journal * journal_rise)

    Validity
    --------
    Free, even expansion. Steel-backed shells, studs and iron caps hold an aluminum housing
    back, so that it opens less than this: an upper bound there.

    Source
    ------
    Callister, Fundamentals of Materials Science and Engineering: An Integrated Approach,
    3rd edition, linear expansion (change of length = coefficient * length * temperature change)

    Caution
    -------
    A bearing without oil film fails and can throw a rod. The engine and bearing makers'
    figures come first.
    """
    cold = bearing_clearance(housing_bore, shell_wall, journal, other_wall)
    second_wall = other_wall if other_wall > 0 else shell_wall
    housing_growth = tables.expansion(housing_material) * housing_bore * housing_rise
    shell_growth = tables.expansion(shell_material) * (shell_wall + second_wall) * housing_rise
    journal_growth = tables.expansion(journal_material) * journal * journal_rise
    return cold + housing_growth - shell_growth - journal_growth


@worksheet_function(SECTION)
def shell_for_clearance(
    housing_bore: HousingBore,
    journal: Journal,
    clearance: BearingClearance,
    shell_walls: ShellWalls,
    most_difference: LengthFromZero = 12.7e-6,
) -> ShellWallBand:
    """Half-shells on the shelf that bring a bearing nearest to its wanted clearance.

    Parameters
    ----------
    housing_bore
        without shells, caps torqued.
    clearance
        wanted, on the diameter.
    shell_walls
        for each size on the shelf, one cell each. Empty cells are left out.
    most_difference
        How much the two halves may differ in wall. 0.0005 in (0.0127 mm) if left out; 0 for equal
        halves.

    Returns
    -------
    Three cells beside each other: thinner wall, thicker wall, the clearance they give. Of
    pairs equally near the one whose halves differ less.

    Equation
    --------
    least | housing_bore - thinner - thicker - journal - clearance |, with thicker - thinner
    no more than most_difference and a clearance above 0

    Validity
    --------
    All parts at the same temperature. Which half goes up is for the bearing maker to say.

    Source
    ------
    common practice, no source (halves mixed by at most 0.0005 in)

    Caution
    -------
    A bearing without oil film fails and can throw a rod. The engine and bearing makers'
    figures come first.
    """
    require(clearance <= 0.02 * journal, "clearance", "2 % of the journal at most")
    sizes = sorted(set(taken(shell_walls)))
    require(bool(sizes), "shell_walls", "at least one wall", "an empty range", missing=True)
    pairs = [
        (thin, thick)
        for i, thin in enumerate(sizes)
        for thick in sizes[i:]
        if thick - thin <= most_difference + _ROUNDING and housing_bore - thin - thick - journal > 0
    ]
    require(bool(pairs), "shell_walls", "walls that leave room for an oil film", "none")

    def miss(pair: tuple[float, float]) -> tuple[float, float]:
        left = housing_bore - pair[0] - pair[1] - journal
        return (round(abs(left - clearance) / _ROUNDING), pair[1] - pair[0])

    thin, thick = min(pairs, key=miss)
    return ((thin, thick, bearing_clearance(housing_bore, thin, journal, thick)),)


@worksheet_function(SECTION)
def end_play(journal_width: ThrustWidth, bearing_width: ThrustBearingWidth) -> EndPlay:
    """End play of a crank, from its thrust journal and its thrust bearing.

    Parameters
    ----------
    journal_width
        between the thrust faces of the crank.
    bearing_width
        fitted.

    Returns
    -------
    Total play, both directions together. Negative for a bearing too wide.

    Equation
    --------
    end_play = journal_width - bearing_width

    Validity
    --------
    A check before assembly; what the dial indicator shows on the fitted crank counts.

    Source
    ------
    common practice, no source (difference of two sizes)

    Caution
    -------
    Too little seizes the thrust bearing, too much lets the crank strike the block or its
    rods. The engine maker's figure comes first.
    """
    require(
        abs(journal_width - bearing_width) <= 0.1 * journal_width,
        "bearing_width",
        "a width near that of the journal",
    )
    return journal_width - bearing_width


@worksheet_function(SECTION)
def rod_side_clearance(
    journal_width: RodJournalWidth, rod_width: RodBigEndWidth, rods_per_journal: RodsPerJournal = 1
) -> RodSideClearance:
    """Side clearance of the rods on one crank journal, all rods together.

    Parameters
    ----------
    journal_width
        between the cheeks of the crank.
    rod_width
        of one rod.
    rods_per_journal
        2 in most V engines. 1 if left out.

    Returns
    -------
    Total play. Negative for rods too wide.

    Equation
    --------
    rod_side_clearance = journal_width - rods_per_journal * rod_width

    Validity
    --------
    Rods of equal width. Aluminum rods widen more than the crank as they warm up.

    Source
    ------
    common practice, no source (difference of sizes)

    Caution
    -------
    Too little and the rods bind: the rod maker's least figure comes first.
    """
    require(
        abs(journal_width - rods_per_journal * rod_width) <= 0.2 * journal_width,
        "rod_width",
        "a width that fills the journal with this number of rods",
    )
    return journal_width - rods_per_journal * rod_width

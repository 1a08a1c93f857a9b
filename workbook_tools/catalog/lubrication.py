"""Oil under load: unit load, Sommerfeld number, film of a journal bearing, relief valve."""

from __future__ import annotations

import math

from workbook_tools.catalog import film_table
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.measured import (
    BearingClearance,
    BearingLength,
    BearingLoad,
    BearingUnitLoad,
    FilmEccentricity,
    FilmThickness,
    HotBearingClearance,
    Journal,
    JournalSpeed,
    OilViscosity,
    ReliefPlungerDiameter,
    ReliefPressure,
    ReliefShimThickness,
    ReliefSpringLoad,
    ReliefSpringRate,
    SommerfeldNumber,
    SteadyBearingLoad,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Bearings"


@worksheet_function(SECTION)
def bearing_unit_load(
    load: BearingLoad, journal: Journal, bearing_length: BearingLength
) -> BearingUnitLoad:
    """Unit load of a plain bearing: load over projected area.

    Parameters
    ----------
    bearing_length
        without grooves and chamfers.

    Equation
    --------
    P = W / (L * D)

    Validity
    --------
    A mean over the projected area. The oil's highest pressure is two times as much where the
    journal runs nearly centered, five times at eccentricity 0.90, eight times at 0.97.

    Source
    ------
    Shigley, Mechanical Engineering Design, 9th edition, chapter 12 (nominal bearing pressure)

    Caution
    -------
    What a shell can carry depends on its material and backing: the bearing maker's figure
    comes first.
    """
    return load / (journal * bearing_length)


@worksheet_function(SECTION)
def sommerfeld_number(
    load: SteadyBearingLoad,
    journal: Journal,
    bearing_length: BearingLength,
    clearance: BearingClearance,
    viscosity: OilViscosity,
    journal_speed: JournalSpeed,
) -> SommerfeldNumber:
    """Sommerfeld number (bearing characteristic number) of a journal bearing.

    Parameters
    ----------
    clearance
        on the diameter.

    Returns
    -------
    Plain number. Small for a thin film, large for a thick one.

    Equation
    --------
    S = (r / c)**2 * viscosity * N / P, with r / c journal radius over radial clearance, N in
    turns per second, P the unit load

    Validity
    --------
    Raimondi and Boyd's definition. ISO 7902's So is 1 / (2 * pi * S).

    Source
    ------
    Shigley, Mechanical Engineering Design, 9th edition, equation 12-7
    """
    require(clearance <= 0.02 * journal, "clearance", "2 % of the journal at most")
    unit_load = bearing_unit_load(load, journal, bearing_length)
    turns = journal_speed / (2 * math.pi)
    return (journal / clearance) ** 2 * viscosity * turns / unit_load


@worksheet_function(SECTION)
def film_eccentricity(
    load: SteadyBearingLoad,
    journal: Journal,
    bearing_length: BearingLength,
    clearance: HotBearingClearance,
    viscosity: OilViscosity,
    journal_speed: JournalSpeed,
) -> FilmEccentricity:
    """How far off center a steadily loaded journal runs: 0 in the middle, 1 at the shell.

    Parameters
    ----------
    bearing_length
        no longer than the journal's diameter.

    Returns
    -------
    Journal offset over radial clearance.

    Equation
    --------
    the eccentricity at which Raimondi and Boyd's table has the bearing's Sommerfeld number;
    between its points the table is interpolated by how far it exceeds the short bearing's
    S * (L / D)**2 = (1 - e**2)**2 / (pi * e * sqrt(pi**2 * (1 - e**2) + 16 * e**2))

    Validity
    --------
    Full round bearing without grooves, rigid and in line, length up to the diameter, one
    viscosity, smooth flow, steady load; eccentricity up to 0.97, where the table ends. An
    engine's load turns and beats: good for comparing clearances and oils at a mean load, not
    for judging a bearing. The peak load of combustion or inertia is not for it: a film outlives
    that by being squeezed, which this leaves out.

    Source
    ------
    Raimondi & Boyd, ASLE Transactions 1 (1958), pages 159-209, part III (table; most of its
    values from memory, all within 3.5 % of a numerical solution of Reynolds' equation)

    Caution
    -------
    An estimate. The engine and bearing makers' figures for clearance and oil come first.
    """
    slenderness = bearing_length / journal
    require(slenderness <= 1, "bearing_length", "no longer than the journal's diameter")
    wanted = sommerfeld_number(load, journal, bearing_length, clearance, viscosity, journal_speed)
    last = film_table.MOST_ECCENTRIC
    number = film_table.sommerfeld_by_eccentricity(slenderness)
    require(
        wanted >= number(last),
        "load",
        "a steady load that leaves a film with this viscosity, speed and clearance (peak loads "
        f"are not for it); the journal would run beyond eccentricity {last}",
    )
    low, high = 0.0, last
    while high - low > 1e-12:
        middle = (low + high) / 2
        if number(middle) > wanted:
            low = middle
        else:
            high = middle
    return high


@worksheet_function(SECTION)
def film_thickness(
    load: SteadyBearingLoad,
    journal: Journal,
    bearing_length: BearingLength,
    clearance: HotBearingClearance,
    viscosity: OilViscosity,
    journal_speed: JournalSpeed,
) -> FilmThickness:
    """Least oil film of a steadily loaded journal.

    Parameters
    ----------
    bearing_length
        no longer than the journal's diameter.

    Equation
    --------
    film = clearance / 2 * (1 - eccentricity), with the eccentricity of FILM_ECCENTRICITY

    Validity
    --------
    As for FILM_ECCENTRICITY: steady load and no peak load, plain round bearing, up to
    eccentricity 0.97.

    Source
    ------
    Raimondi & Boyd, ASLE Transactions 1 (1958), pages 159-209, part III

    Caution
    -------
    An estimate. The engine and bearing makers' figures for clearance and oil come first.
    """
    eccentricity = film_eccentricity(
        load, journal, bearing_length, clearance, viscosity, journal_speed
    )
    return clearance / 2 * (1 - eccentricity)


@worksheet_function(SECTION)
def relief_pressure(
    spring_load: ReliefSpringLoad, plunger_diameter: ReliefPlungerDiameter
) -> ReliefPressure:
    """Oil pressure at which a relief valve starts to open.

    Parameters
    ----------
    spring_load
        as fitted, valve shut.
    plunger_diameter
        on which the oil acts.

    Equation
    --------
    pressure = spring_load / (pi / 4 * plunger_diameter**2)

    Validity
    --------
    Start of opening; passing the pump's flow takes more. Drain side at no pressure.

    Source
    ------
    Pascal's law (pressure = force / area)

    Caution
    -------
    Too little pressure starves bearings, too much bursts filters and shears drives: the
    engine maker's figure comes first.
    """
    return spring_load / (math.pi / 4 * plunger_diameter**2)


@worksheet_function(SECTION)
def relief_shim(
    pressure: ReliefPressure,
    wanted_pressure: ReliefPressure,
    spring_rate: ReliefSpringRate,
    plunger_diameter: ReliefPlungerDiameter,
) -> ReliefShimThickness:
    """Shim under a relief spring that brings the opening pressure to a wanted one.

    Parameters
    ----------
    pressure
        as it is.
    wanted_pressure
        wanted.
    plunger_diameter
        on which the oil acts.

    Equation
    --------
    shim = (wanted_pressure - pressure) * pi / 4 * plunger_diameter**2 / spring_rate

    Validity
    --------
    Within the spring's straight range; check that plunger and coils still have travel.

    Source
    ------
    Pascal's law and Hooke's law

    Caution
    -------
    Too little pressure starves bearings, too much bursts filters and shears drives: the
    engine maker's figure comes first.
    """
    return (wanted_pressure - pressure) * math.pi / 4 * plunger_diameter**2 / spring_rate

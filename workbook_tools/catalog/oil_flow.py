"""Oil through bearings: what clearance passes, how warm it leaves."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import film_table
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    ABOVE_ZERO,
    Length,
    Limits,
    measured,
)
from workbook_tools.catalog.lubrication import SECTION, film_eccentricity
from workbook_tools.catalog.measured import (
    BearingLength,
    HotBearingClearance,
    Journal,
    JournalSpeed,
    OilPressure,
    OilViscosity,
    SteadyBearingLoad,
)
from workbook_tools.catalog.registry import worksheet_function

OilFlow = Annotated[float, quantities.LIQUID_FLOW, ABOVE_ZERO]
Eccentricity = Annotated[float, measured("film_eccentricity"), Limits(0.0, 0.99)]
HeatCapacity = Annotated[float, quantities.NUMBER, Limits(1000.0, 3000.0)]
OilDensity = Annotated[float, quantities.DENSITY, Limits(700.0, 1000.0)]
Rise = Annotated[float, quantities.TEMPERATURE_RISE, Limits(0.0, 500.0)]


@worksheet_function(SECTION)
def bearing_oil_flow(
    load: SteadyBearingLoad,
    journal: Journal,
    bearing_length: BearingLength,
    clearance: HotBearingClearance,
    viscosity: OilViscosity,
    journal_speed: JournalSpeed,
) -> OilFlow:
    """Oil that leaves the ends of a steadily loaded bearing because its film pumps it out.

    Parameters
    ----------
    bearing_length
        from a quarter of the journal's diameter to all of it.

    Returns
    -------
    What the oil pump has to bring to this bearing. Its feed pressure adds to it: see
    ENG.PRESSURE_FED_FLOW.

    Equation
    --------
    flow = (Q / (r * c * N * l)) * (Qs / Q) * r * c * N * l, both by Raimondi and Boyd's table at
    the eccentricity of ENG.FILM_ECCENTRICITY

    Validity
    --------
    As for ENG.FILM_ECCENTRICITY: steady load, plain round bearing without grooves. In an engine an
    estimate for comparing clearances and oils.

    Source
    ------
    Raimondi & Boyd, ASLE Transactions 1 (1958), pages 159-209, part III (table, from memory)

    Caution
    -------
    An estimate. The engine and bearing makers' figures for clearance and oil come first.
    """
    slenderness = _slenderness_in_table(journal, bearing_length)
    eccentricity = film_eccentricity(
        load, journal, bearing_length, clearance, viscosity, journal_speed
    )
    turns = journal_speed / (2 * math.pi)
    flow = film_table.flow(eccentricity, slenderness) * journal * clearance / 4
    return flow * film_table.side_flow(eccentricity, slenderness) * turns * bearing_length


@worksheet_function(SECTION)
def bearing_temperature_rise(
    load: SteadyBearingLoad,
    journal: Journal,
    bearing_length: BearingLength,
    clearance: HotBearingClearance,
    viscosity: OilViscosity,
    journal_speed: JournalSpeed,
    oil_density: OilDensity = 860.0,
    heat_capacity: HeatCapacity = 1760.0,
) -> Rise:
    """By how much the oil warms on its way through a steadily loaded bearing.

    Parameters
    ----------
    bearing_length
        from a quarter of the journal's diameter to all of it.
    viscosity
        At the mean temperature of the film, that of the oil at the inlet plus half this rise:
        repeat the call with it until it stays.
    oil_density
        860 kg/m3 if left out.
    heat_capacity
        In J/(kg.K), in every book: 1760 if left out.

    Equation
    --------
    rise = 4 * pi * P * F / (density * heat_capacity * Q * (1 - S / 2)), with P the unit load, F
    friction (r / c) * f, Q flow and S side flow by Raimondi and Boyd's table at the eccentricity
    of ENG.FILM_ECCENTRICITY

    Validity
    --------
    All heat goes with the oil, none into shaft and housing: a high estimate. As for
    ENG.FILM_ECCENTRICITY: steady load, plain round bearing without grooves, no feed pressure.

    Source
    ------
    Raimondi & Boyd, ASLE Transactions 1 (1958), pages 159-209, part III (table, from memory);
    Shigley, Mechanical Engineering Design, chapter 12 (from memory)

    Caution
    -------
    An estimate. The engine and bearing makers' figures for clearance and oil come first.
    """
    slenderness = _slenderness_in_table(journal, bearing_length)
    eccentricity = film_eccentricity(
        load, journal, bearing_length, clearance, viscosity, journal_speed
    )
    require(
        eccentricity >= film_table.LEAST_ECCENTRIC,
        "load",
        "a load that brings the journal off center by "
        f"{film_table.LEAST_ECCENTRIC} of the radial clearance or more",
    )
    pressure = load / (journal * bearing_length)
    flow = film_table.flow(eccentricity, slenderness)
    side = film_table.side_flow(eccentricity, slenderness)
    heat = 4 * math.pi * pressure * film_table.friction(eccentricity, slenderness)
    return heat / (oil_density * heat_capacity * flow * (1 - side / 2))


@worksheet_function(SECTION)
def pressure_fed_flow(
    journal: Journal,
    land_length: Length,
    clearance: HotBearingClearance,
    eccentricity: Eccentricity,
    pressure: OilPressure,
    viscosity: OilViscosity,
) -> OilFlow:
    """Oil that its feed pressure drives through a bearing with a groove all around.

    Parameters
    ----------
    land_length
        Along the journal, of each of the two lands beside the groove: about half the bearing's
        length.
    eccentricity
        As from ENG.FILM_ECCENTRICITY for one land.
    pressure
        in the groove.

    Returns
    -------
    Out of both ends together. It grows with the third power of clearance.

    Equation
    --------
    flow = pi * pressure * r * c**3 / (3 * viscosity * land_length) * (1 + 1.5 * eccentricity**2),
    c the radial clearance

    Validity
    --------
    Smooth flow through lands that are long against the clearance, groove all around.

    Source
    ------
    laminar flow through a slot, summed around the journal; Shigley, Mechanical Engineering Design,
    chapter 12 (pressure-fed bearings; from memory)

    Caution
    -------
    An estimate. The engine and bearing makers' figures for clearance and oil come first.
    """
    radial = clearance / 2
    centered = math.pi * pressure * journal / 2 * radial**3 / (3 * viscosity * land_length)
    return centered * (1 + 1.5 * eccentricity**2)


def _slenderness_in_table(journal: float, bearing_length: float) -> float:
    """Length over diameter of a bearing, refused where it is shorter than the table's."""
    require(
        bearing_length >= film_table.SHORTEST * journal,
        "bearing_length",
        f"{film_table.SHORTEST} of the journal's diameter or more",
    )
    return bearing_length / journal

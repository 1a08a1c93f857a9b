"""Oil through bearings: what clearance passes, how warm it leaves, what a pump delivers."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import ABOVE_ZERO, Displacement, Limits, Pressure
from workbook_tools.catalog.lubrication import SECTION, between_rows, film_eccentricity
from workbook_tools.catalog.measured import (
    BearingLength,
    BearingLoad,
    EngineSpeed,
    HotBearingClearance,
    Journal,
    OilViscosity,
)
from workbook_tools.catalog.registry import worksheet_function

OilFlow = Annotated[float, quantities.LIQUID_FLOW, ABOVE_ZERO]
Eccentricity = Annotated[float, quantities.RATIO, Limits(0.0, 0.99)]
HeatCapacity = Annotated[float, quantities.NUMBER, Limits(1000.0, 3000.0)]
OilDensity = Annotated[float, quantities.DENSITY, Limits(700.0, 1000.0)]
Rise = Annotated[float, quantities.TEMPERATURE_RISE, Limits(0.0, 500.0)]
PumpSpeedRatio = Annotated[float, quantities.RATIO, Limits(0.1, 5.0)]
Efficiency = Annotated[float, quantities.FACTOR, Limits(0.0, 1.0, low_open=True)]

# By eccentricity (rows) and length over diameter (columns 1/4, 1/2, 1): friction (r/c) * f, flow
# Q / (r c N l) and side flow Qs / Q of the full bearing. Raimondi & Boyd, ASLE Transactions 1
# (1958), part III.
_FRICTION = {
    0.1: (322.0, 85.6, 26.4),
    0.2: (153.0, 40.9, 12.8),
    0.4: (61.1, 17.0, 5.79),
    0.6: (26.7, 8.10, 3.22),
    0.8: (8.80, 3.26, 1.70),
    0.9: (3.50, 1.60, 1.05),
    0.97: (0.922, 0.610, 0.514),
}
_FLOW = {
    0.1: (3.45, 3.43, 3.37),
    0.2: (3.76, 3.72, 3.59),
    0.4: (4.37, 4.29, 3.99),
    0.6: (4.99, 4.85, 4.33),
    0.8: (5.60, 5.41, 4.62),
    0.9: (5.91, 5.69, 4.74),
    0.97: (6.12, 5.88, 4.82),
}
_SIDE_FLOW = {
    0.1: (0.180, 0.173, 0.150),
    0.2: (0.330, 0.318, 0.280),
    0.4: (0.567, 0.552, 0.497),
    0.6: (0.746, 0.730, 0.680),
    0.8: (0.884, 0.874, 0.842),
    0.9: (0.945, 0.939, 0.919),
    0.97: (0.984, 0.980, 0.973),
}


@worksheet_function(SECTION)
def bearing_oil_flow(
    load: BearingLoad,
    journal: Journal,
    bearing_length: BearingLength,
    clearance: HotBearingClearance,
    viscosity: OilViscosity,
    journal_speed: EngineSpeed,
) -> OilFlow:
    """Oil that leaves the ends of a steadily loaded bearing because its film pumps it out.

    Parameters
    ----------
    load
        steady, not the peak.
    bearing_length
        from a quarter of the journal's diameter to all of it.
    clearance
        as hot as it runs.
    journal_speed
        which is that of the journal in its bearing.

    Returns
    -------
    What the oil pump has to bring to this bearing, without what its feed pressure adds:
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
    slenderness = bearing_length / journal
    require(slenderness >= 0.25, "bearing_length", "a quarter of the journal's diameter or more")
    eccentricity = film_eccentricity(
        load, journal, bearing_length, clearance, viscosity, journal_speed
    )
    turns = journal_speed / (2 * math.pi)
    flow = between_rows(_FLOW, eccentricity, slenderness) * journal * clearance / 4
    return flow * between_rows(_SIDE_FLOW, eccentricity, slenderness) * turns * bearing_length


@worksheet_function(SECTION)
def bearing_temperature_rise(
    load: BearingLoad,
    journal: Journal,
    bearing_length: BearingLength,
    clearance: HotBearingClearance,
    viscosity: OilViscosity,
    journal_speed: EngineSpeed,
    oil_density: OilDensity = 860.0,
    heat_capacity: HeatCapacity = 1760.0,
) -> Rise:
    """By how much the oil warms on its way through a steadily loaded bearing.

    Parameters
    ----------
    load
        steady, not the peak.
    bearing_length
        from a quarter of the journal's diameter to all of it.
    clearance
        as hot as it runs.
    viscosity
        At the mean temperature in the film: inlet and half this rise. Try again with it.
    journal_speed
        which is that of the journal in its bearing.
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
    Shigley, Mechanical Engineering Design, 9th edition, section 12-9

    Caution
    -------
    An estimate. The engine and bearing makers' figures for clearance and oil come first.
    """
    slenderness = bearing_length / journal
    require(slenderness >= 0.25, "bearing_length", "a quarter of the journal's diameter or more")
    eccentricity = film_eccentricity(
        load, journal, bearing_length, clearance, viscosity, journal_speed
    )
    require(
        eccentricity >= min(_FRICTION),
        "load",
        f"a load that brings the journal off center by {min(_FRICTION)} of the clearance or more",
    )
    pressure = load / (journal * bearing_length)
    friction = math.exp(
        between_rows(
            {row: tuple(map(math.log, values)) for row, values in _FRICTION.items()},
            eccentricity,
            slenderness,
        )
    )
    flow = between_rows(_FLOW, eccentricity, slenderness)
    side = between_rows(_SIDE_FLOW, eccentricity, slenderness)
    heat = 4 * math.pi * pressure * friction
    return heat / (oil_density * heat_capacity * flow * (1 - side / 2))


@worksheet_function(SECTION)
def pressure_fed_flow(
    journal: Journal,
    land_length: BearingLength,
    clearance: HotBearingClearance,
    eccentricity: Eccentricity,
    pressure: Pressure,
    viscosity: OilViscosity,
) -> OilFlow:
    """Oil that its feed pressure drives through a bearing with a groove all around.

    Parameters
    ----------
    land_length
        Of each of the two lands beside the groove.
    clearance
        as hot as it runs.
    eccentricity
        As from ENG.FILM_ECCENTRICITY for one land: 0 in the middle, 1 at the shell.
    pressure
        Of the oil in the groove.

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
    Shigley, Mechanical Engineering Design, 9th edition, equation 12-22

    Caution
    -------
    An estimate. The engine and bearing makers' figures for clearance and oil come first.
    """
    radial = clearance / 2
    centered = math.pi * pressure * journal / 2 * radial**3 / (3 * viscosity * land_length)
    return centered * (1 + 1.5 * eccentricity**2)


@worksheet_function(SECTION)
def oil_pump_delivery(
    pump_displacement: Displacement,
    engine_speed: EngineSpeed,
    speed_ratio: PumpSpeedRatio,
    efficiency: Efficiency,
) -> OilFlow:
    """Oil that a pump delivers at an engine speed, what the relief valve sends back included.

    Parameters
    ----------
    pump_displacement
        In one turn of the pump.
    speed_ratio
        Turns of the pump for each of the crank: 0.5 where the camshaft drives it.
    efficiency
        The share of its displacement that it delivers at this pressure: 0.9 for 90 %.

    Equation
    --------
    delivery = pump_displacement * engine_speed * speed_ratio * efficiency, speed in turns per unit
    of time

    Validity
    --------
    Until the pump's inlet cannot fill it any more; a worn or warm pump delivers less.

    Source
    ------
    common practice, no source (volume in a turn by turns in a unit of time)

    Caution
    -------
    Too little oil takes bearings in seconds. The engine maker's pressure comes first.
    """
    return pump_displacement * engine_speed / (2 * math.pi) * speed_ratio * efficiency

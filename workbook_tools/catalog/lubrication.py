"""Oil under load: unit load, Sommerfeld number, film of a journal bearing, relief valve."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence

from workbook_tools.catalog.errors import require
from workbook_tools.catalog.measured import (
    BearingClearance,
    BearingLength,
    BearingLoad,
    BearingUnitLoad,
    EngineSpeed,
    FilmEccentricity,
    FilmThickness,
    HotBearingClearance,
    Journal,
    OilViscosity,
    ReliefPlungerDiameter,
    ReliefPressure,
    ReliefShimThickness,
    ReliefSpringLoad,
    ReliefSpringRate,
    SommerfeldNumber,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Bearings"


# Sommerfeld number of the full journal bearing by eccentricity (rows) and length over diameter
# (columns): Raimondi & Boyd, ASLE Transactions 1 (1958), part III.
_LENGTHS = (0.25, 0.5, 1.0)
_TABLE = {
    0.1: (16.2, 4.31, 1.33),
    0.2: (7.57, 2.03, 0.631),
    0.4: (2.83, 0.779, 0.264),
    0.6: (1.07, 0.319, 0.121),
    0.8: (0.261, 0.0923, 0.0446),
    0.9: (0.0736, 0.0313, 0.0188),
    0.97: (0.0101, 0.00609, 0.00474),
}


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
    load: BearingLoad,
    journal: Journal,
    bearing_length: BearingLength,
    clearance: BearingClearance,
    viscosity: OilViscosity,
    journal_speed: EngineSpeed,
) -> SommerfeldNumber:
    """Sommerfeld number (bearing characteristic number) of a journal bearing.

    Parameters
    ----------
    load
        steady, not the peak.
    clearance
        on the diameter.
    journal_speed
        which is that of the journal in its bearing.

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


def _short_bearing(eccentricity: float, slenderness: float) -> float:
    """Sommerfeld number of Ocvirk's short bearing, half Sommerfeld condition."""
    rest = 1 - eccentricity**2
    root = math.sqrt(math.pi**2 * rest + 16 * eccentricity**2)
    return rest**2 / (math.pi * eccentricity * root * slenderness**2)


def _on_line(x: float, xs: Sequence[float], ys: Sequence[float]) -> float:
    """The value at x of the line through neighboring points; the end lines go on outward."""
    right = min(max(bisect_right(xs, x), 1), len(xs) - 1)
    share = (x - xs[right - 1]) / (xs[right] - xs[right - 1])
    return ys[right - 1] + share * (ys[right] - ys[right - 1])


# How far a table value exceeds the short bearing's grows with the square of the length; what
# remains is nearly a power of length and of least film, hence straight in logarithms.
_FILMS = [-math.log(1 - row) for row in _TABLE]
_LOG_LENGTHS = [math.log(length) for length in _LENGTHS]
_EXCESS = [
    [
        math.log((number / _short_bearing(row, length) - 1) / length**2)
        for length, number in zip(_LENGTHS, numbers, strict=True)
    ]
    for row, numbers in _TABLE.items()
]


def _sommerfeld_by_eccentricity(slenderness: float) -> Callable[[float], float]:
    """The Sommerfeld number at an eccentricity, between the table's points, for one length."""
    length = math.log(slenderness)
    excess = [_on_line(length, _LOG_LENGTHS, row) for row in _EXCESS]

    def number(eccentricity: float) -> float:
        inner = max(-math.log(1 - eccentricity), _FILMS[0])
        power = math.exp(_on_line(inner, _FILMS, excess))
        return _short_bearing(eccentricity, slenderness) * (1 + power * slenderness**2)

    return number


def between_rows(
    table: Mapping[float, Sequence[float]], eccentricity: float, slenderness: float
) -> float:
    """What a table by eccentricity and length over diameter has between its points."""
    length = math.log(slenderness)
    rows = [_on_line(length, _LOG_LENGTHS, row) for row in table.values()]
    return _on_line(eccentricity, list(table), rows)


@worksheet_function(SECTION)
def film_eccentricity(
    load: BearingLoad,
    journal: Journal,
    bearing_length: BearingLength,
    clearance: HotBearingClearance,
    viscosity: OilViscosity,
    journal_speed: EngineSpeed,
) -> FilmEccentricity:
    """How far off center a steadily loaded journal runs: 0 in the middle, 1 at the shell.

    Parameters
    ----------
    load
        steady, not the peak.
    bearing_length
        no longer than the journal's diameter.
    clearance
        as hot as it runs.
    journal_speed
        which is that of the journal in its bearing.

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
    last = max(_TABLE)
    number = _sommerfeld_by_eccentricity(slenderness)
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
    load: BearingLoad,
    journal: Journal,
    bearing_length: BearingLength,
    clearance: HotBearingClearance,
    viscosity: OilViscosity,
    journal_speed: EngineSpeed,
) -> FilmThickness:
    """Least oil film of a steadily loaded journal.

    Parameters
    ----------
    load
        steady, not the peak.
    bearing_length
        no longer than the journal's diameter.
    clearance
        as hot as it runs.
    journal_speed
        which is that of the journal in its bearing.

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

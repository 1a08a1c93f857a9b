"""Fuels: their density, the air that they need, their heat."""

from __future__ import annotations

from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import tables
from workbook_tools.catalog.kinds import ABOVE_ZERO, Choice, Limits, Note
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Air and power"
_RATIO = "stoichiometric ratio"

_FUELS = Choice(tables.words(_RATIO, "fuel"))
Fuel = Annotated[
    str,
    quantities.TEXT,
    _FUELS,
    Note("The fuel, or the first of two. LPG is propane, butane or a blend of both."),
]
SecondFuel = Annotated[
    str, quantities.TEXT, _FUELS, Note("What is blended in; ethanol if left out.")
]
SecondShare = Annotated[
    float,
    quantities.FACTOR,
    Limits(0.0, 1.0),
    Note(
        "Share of the second fuel by volume: 0.85 for E85 as it is named; what a pump sells can "
        "hold 0.51 to 0.83. 0 if left out."
    ),
]
# From nitromethane far too rich to hydrogen far too lean.
AirFuelRatio = Annotated[float, quantities.RATIO, Limits(0.3, 100.0)]
Lambda = Annotated[float, quantities.FACTOR, Limits(0.2, 10.0)]
HeatingValue = Annotated[float, quantities.HEATING_VALUE, ABOVE_ZERO]
FuelDensity = Annotated[float, quantities.DENSITY, ABOVE_ZERO]


def _mean_by_mass(table: str, fuel: str, second_fuel: str, second_share: float) -> float:
    """A figure of a blend, whose parts count by their mass; the share is by volume."""
    first = tables.factor("fuel density", fuel=fuel) * (1 - second_share)
    second = tables.factor("fuel density", fuel=second_fuel) * second_share
    figures = first * tables.factor(table, fuel=fuel) + second * tables.factor(
        table, fuel=second_fuel
    )
    return figures / (first + second)


@worksheet_function(SECTION)
def fuel_density(
    fuel: Fuel, second_fuel: SecondFuel = "ethanol", second_share: SecondShare = 0.0
) -> FuelDensity:
    """Density of a fuel or of a blend of two.

    Equation
    --------
    fuel_density = (1 - share) * density + share * second_density

    Validity
    --------
    Liquids at about 15 deg C, LPG under its own pressure; gasoline and diesel vary by some 4 %.
    Volumes are taken to add up. Measure with a hydrometer where it matters.

    Source
    ------
    US Department of Energy, Alternative Fuels Data Center, Properties of Fuels; butane and
    nitromethane from memory; each row of the table names its origin

    Caution
    -------
    Fuels burn and are poisonous, methanol with a flame hard to see, and nitromethane can explode.
    Their makers' safety data come first.
    """
    first = tables.factor("fuel density", fuel=fuel)
    second = tables.factor("fuel density", fuel=second_fuel)
    return (1 - second_share) * first + second_share * second


@worksheet_function(SECTION)
def stoichiometric_ratio(
    fuel: Fuel, second_fuel: SecondFuel = "ethanol", second_share: SecondShare = 0.0
) -> AirFuelRatio:
    """Stoichiometric air-fuel ratio, by mass, of a fuel or of a blend of two.

    Returns
    -------
    Mass of dry air for each mass of fuel, with nothing left over.

    Equation
    --------
    of CcHhOoNn: (c + h / 4 - o / 2) / 0.2095 * 28.9647 / (12.011 * c + 1.008 * h + 15.999 * o +
    14.007 * n); of a blend: the mean of both, weighted by mass

    Validity
    --------
    Gasoline as CH1.87, diesel as CH1.80; pump fuels lie within some 1.5 % of these. The ratio of
    complete combustion, not that of best power, which is richer.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 3 (combustion stoichiometry); each
    row of the table names its origin

    Caution
    -------
    A mixture too lean burns pistons, and one for another fuel is far off: measure the mixture
    under load. Fuels burn and are poisonous, methanol with a flame hard to see, and nitromethane
    can explode. Their makers' safety data come first.
    """
    return _mean_by_mass(_RATIO, fuel, second_fuel, second_share)


@worksheet_function(SECTION)
def fuel_heating_value(
    fuel: Fuel, second_fuel: SecondFuel = "ethanol", second_share: SecondShare = 0.0
) -> HeatingValue:
    """Lower heating value of a fuel or of a blend of two.

    Returns
    -------
    Heat of each mass of fuel, its water leaving as vapor.

    Equation
    --------
    of CcHhOoNn: (393.51 * c + 241.83 * h / 2 + formation enthalpy) / molar mass, in kJ/mol and
    g/mol; gasoline and diesel as measured; of a blend: the mean of both, weighted by mass

    Validity
    --------
    Gasoline and diesel vary by some 2 %. Heat of the fuel alone: what an engine makes of it hangs
    on the air it draws. Tables of hobby fuels give up to 11.3 MJ/kg for nitromethane, which its
    enthalpy of formation does not bear out.

    Source
    ------
    US Department of Energy, Alternative Fuels Data Center, Properties of Fuels (gasoline,
    diesel); enthalpies of formation as in the CRC Handbook of Chemistry and Physics, from memory

    Caution
    -------
    More heat for each mass of air breaks parts that held before: nitromethane above all, which can
    also explode. The fuel and engine makers' limits come first.
    """
    return _mean_by_mass("fuel heating value", fuel, second_fuel, second_share)


@worksheet_function(SECTION)
def lambda_from_ratio(air_fuel_ratio: AirFuelRatio, stoichiometric_ratio: AirFuelRatio) -> Lambda:
    """Lambda from a measured air-fuel ratio.

    Parameters
    ----------
    air_fuel_ratio
        by mass, as measured with this fuel.
    stoichiometric_ratio
        of the same fuel, as from ENG.STOICHIOMETRIC_RATIO; of a gauge's own scale, where the
        ratio was read from a gauge.

    Returns
    -------
    1 is stoichiometric, below 1 rich, above 1 lean.

    Equation
    --------
    lambda = air_fuel_ratio / stoichiometric_ratio

    Validity
    --------
    An oxygen sensor's gauge shows lambda times the ratio that it was set for, often 14.7 or
    14.6, whatever the fuel: divide its reading by that number. A misfire reads lean.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 3 (relative air/fuel ratio)

    Caution
    -------
    A mixture too lean burns pistons. Read it under load, warm, with a sensor that is known good.
    """
    return air_fuel_ratio / stoichiometric_ratio

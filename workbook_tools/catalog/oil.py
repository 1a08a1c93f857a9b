"""Oil: its viscosity at a temperature."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Limits, Note
from workbook_tools.catalog.measured import OilViscosity
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Bearings"

# Below 2 cSt the standard adds terms; above it is a grease.
Centistokes = Annotated[
    float,
    quantities.NUMBER,
    Limits(2.0, 1e6),
    Note("Kinematic viscosity in cSt (mm2/s), a plain number, 2 to 1 000 000."),
]
KinematicViscosity = Annotated[
    float, quantities.NUMBER, Note("Kinematic viscosity in cSt (mm2/s), a plain number.")
]
OilTemperature = Annotated[
    float,
    quantities.TEMPERATURE,
    Limits(233.15 - 1e-6, 473.15 + 1e-6),
    Note("Type 0 for 0 degrees; an empty cell is not 0."),
]
OilDensity = Annotated[
    float,
    quantities.DENSITY,
    Limits(600.0, 1100.0),
    Note(
        "Of the oil at this temperature. Engine oils have some 870 kg/m3 (54 lb/cu ft) at 15 deg C "
        "(59 deg F), and lose 0.65 kg/m3 for each deg C more: 815 kg/m3 (51 lb/cu ft) at 100 deg C."
    ),
]


@worksheet_function(SECTION)
def kinematic_viscosity(
    first_viscosity: Centistokes,
    first_temperature: OilTemperature,
    second_viscosity: Centistokes,
    second_temperature: OilTemperature,
    temperature: OilTemperature,
) -> KinematicViscosity:
    """Kinematic viscosity of an oil at a temperature, from its viscosity at two others.

    Parameters
    ----------
    first_viscosity
        As on the oil's data sheet, usually at 40 deg C (104 deg F).
    first_temperature
        At which that holds.
    second_viscosity
        Likewise, usually at 100 deg C (212 deg F).
    second_temperature
        At which that holds.
    temperature
        At which the viscosity is wanted.

    Equation
    --------
    log10(log10(v + 0.7)) = A - B * log10(T), with v in cSt and T in K; A and B from the two points

    Validity
    --------
    Oils without much polymer, above 2 cSt. An estimate outside the two temperatures, and for a
    multigrade oil in a bearing, whose shear thins it by a fifth and more. A new oil's figure: fuel
    in it thins it, soot and age thicken it.

    Source
    ------
    ASTM D341 (Walther's equation; from memory)

    Caution
    -------
    An estimate. The engine and oil makers' figures come first.
    """
    require(
        abs(second_temperature - first_temperature) >= 10,
        "second_temperature",
        "10 deg C (18 deg F) or more from the first",
    )
    require(
        (second_viscosity - first_viscosity) * (second_temperature - first_temperature) < 0,
        "second_viscosity",
        "thinner at the higher temperature",
    )
    first = math.log10(math.log10(first_viscosity + 0.7))
    second = math.log10(math.log10(second_viscosity + 0.7))
    run = math.log10(second_temperature / first_temperature)
    slope = (first - second) / run
    wanted = first - slope * math.log10(temperature / first_temperature)
    viscosity = 10 ** (10**wanted) - 0.7
    require(viscosity >= 2, "temperature", "one at which the oil still has 2 cSt")
    return viscosity


@worksheet_function(SECTION)
def dynamic_viscosity(kinematic_viscosity: Centistokes, density: OilDensity) -> OilViscosity:
    """Dynamic viscosity of an oil, as bearings feel it, from its kinematic viscosity.

    Equation
    --------
    viscosity = kinematic viscosity * density: 1 cSt of an oil of 850 kg/m3 is 0.85 cP

    Validity
    --------
    At one temperature and slow shear. FILM_THICKNESS and its like take the result.

    Source
    ------
    definition of the kinematic viscosity, ISO 80000-4 (from memory)
    """
    return kinematic_viscosity * 1e-6 * density

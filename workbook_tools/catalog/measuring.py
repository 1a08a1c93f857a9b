"""Measuring: a size brought to the reference temperature, its uncertainty, and what it proves."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import (
    Length,
    LengthFromZero,
    Limits,
    Material,
    Note,
    Reading,
    Text,
)
from workbook_tools.catalog.readings import SECTION
from workbook_tools.catalog.registry import worksheet_function

# ISO 1: sizes hold at 20 deg C, 68 deg F.
_REFERENCE = 293.15
# From a part out of the cold box to one out of the oven, -200 to 300 deg C.
PartTemperature = Annotated[
    float,
    quantities.TEMPERATURE,
    Limits(73.15 - 1e-6, 573.15 + 1e-6),
    Note("Type 0 for 0 degrees; an empty cell is not 0."),
]


@worksheet_function(SECTION)
def size_at_reference(
    size: Length,
    part_temperature: PartTemperature,
    material: Material,
    gauge_temperature: PartTemperature = _REFERENCE,
    gauge_material: Material = "steel",
) -> Length:
    """Size of a part at 20 deg C (68 deg F), from one measured warm or cold.

    Parameters
    ----------
    size
        As read.
    part_temperature
        Of the part while it was measured.
    material
        Material of the part.
    gauge_temperature
        Of the gauge, or of the standard that it was set by beside the part. 20 deg C (68 deg F) if
        left out: a gauge that was right at its temperature.
    gauge_material
        Material of the gauge or standard. Steel if left out.

    Equation
    --------
    size at 20 deg C = size * (1 + a_gauge * (gauge_temperature - 20 deg C))
    / (1 + a_part * (part_temperature - 20 deg C))

    Validity
    --------
    Part and gauge each at one temperature, by mean coefficients from about 20 to 100 deg C. A part
    straight from the washer or the hone has no one temperature: let it soak. A steel part and a
    steel gauge at one temperature need no correction.

    Source
    ------
    ISO 1 (reference temperature 20 deg C, from memory); linear expansion, with the coefficients
    of the material table, each with its source
    """
    gauge = 1 + tables.expansion(gauge_material) * (gauge_temperature - _REFERENCE)
    part = 1 + tables.expansion(material) * (part_temperature - _REFERENCE)
    return size * gauge / part


@worksheet_function(SECTION)
def clearance_uncertainty(
    hole_uncertainty: LengthFromZero, shaft_uncertainty: LengthFromZero
) -> LengthFromZero:
    """Uncertainty of a clearance, from those of the two sizes that it is the difference of.

    Parameters
    ----------
    hole_uncertainty
        Expanded uncertainty of the hole's size (k = 2, about 95 percent). Type 0 for a size taken
        as exact.
    shaft_uncertainty
        Expanded uncertainty of the shaft's size, likewise.

    Returns
    -------
    Expanded uncertainty of the clearance, k = 2: the clearance is known within plus or minus this.

    Equation
    --------
    U**2 = U_hole**2 + U_shaft**2

    Validity
    --------
    Both sizes measured independently. What both gauges share (one standard, one temperature
    that is off) does not count where it cancels. For a gauge known to within +-a and no more,
    U = 2 * a / sqrt(3).

    Source
    ------
    JCGM 100:2008 (GUM), 5.1.2, equation (10), and 6.2.1 (expanded uncertainty)
    """
    return math.sqrt(hole_uncertainty**2 + shaft_uncertainty**2)


@worksheet_function(SECTION)
def guarded_verdict(value: Reading, low: Reading, high: Reading, uncertainty: Reading) -> Text:
    """Whether a value is proven to lie within its band, or outside it, with its uncertainty.

    Parameters
    ----------
    value
        The value to judge, of any kind.
    low
        Lower limit, in the same unit. Type 0 for a limit of 0; an empty cell is not 0.
    high
        Upper limit, in the same unit.
    uncertainty
        Expanded uncertainty of the value (k = 2), in the same unit, 0 or more.

    Returns
    -------
    "ok", "low" or "high" where that is proven; "cannot tell" where a limit lies within the
    uncertainty of the value: measure better, or decide by who has to prove it.

    Equation
    --------
    "ok" if low + uncertainty <= value <= high - uncertainty; "low" if value <= low - uncertainty;
    "high" if value >= high + uncertainty; else "cannot tell"

    Validity
    --------
    Whoever delivers proves with it that a part is right, whoever receives that it is not. Where the
    uncertainty is more than half the band's width, nothing can be proven ok. A value within a
    billionth of a guarded limit counts as on it. VERDICT compares without uncertainty.

    Source
    ------
    ISO 14253-1, decision rules for verifying conformity or nonconformity (as retold by others);
    its edition of 2017 has a one-sided 1.65 standard uncertainties where this takes k = 2

    Caution
    -------
    A verdict is as good as its band. The part maker's limits come first.
    """
    require(low <= high, "low", "no more than the upper limit")
    require(uncertainty >= 0, "uncertainty", "0 or more")
    slack = 1e-9 * max(abs(low), abs(high))
    inside = value >= low + uncertainty - slack and value <= high - uncertainty + slack
    under = value < low and value <= low - uncertainty + slack
    over = value > high and value >= high + uncertainty - slack
    return "ok" if inside else "low" if under else "high" if over else "cannot tell"

"""Oils by their grade: what SAE J300 and ISO 3448 allow, viscosity index, viscosity of a grade."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Block, Choice, Limits, Note
from workbook_tools.catalog.oil import (
    SECTION,
    Centistokes,
    KinematicViscosity,
    OilTemperature,
    kinematic_viscosity,
)
from workbook_tools.catalog.registry import worksheet_function

_GRADES = "oil grade"
_AT_40, _AT_100 = 313.15, 373.15  # K

Grade = Annotated[
    str,
    quantities.TEXT,
    Choice(tables.words(_GRADES, "grade")),
    Note('Of a multigrade oil the second: "SAE 30" for 10W-30.'),
]
ViscosityLimits = Annotated[tuple[tuple[float, float, str]], quantities.NUMBER, Block()]
ViscosityIndex = Annotated[float, quantities.NUMBER, Limits(0.0, 400.0)]

# ASTM D2270, appendix: from each viscosity at 100 deg C upward, at 40 deg C that of the reference
# oils of index 0 and of index 100 as a * Y**2 + b * Y + c, from memory; a test holds them to the
# standard's table.
_REFERENCE_OILS = {
    2.0: ((1.14673, 1.7576, -0.109), (0.84155, 1.5521, -0.077)),
    3.8: ((3.38095, -15.4952, 33.196), (0.78571, 1.7929, -0.183)),
    4.4: ((2.5, -7.2143, 13.812), (0.82143, 1.5679, 0.119)),
    5.0: ((0.101, 16.635, -45.469), (0.04985, 9.1613, -18.557)),
    6.4: ((3.35714, -23.5643, 78.466), (0.22619, 7.7369, -16.656)),
    7.0: ((0.01191, 21.475, -72.87), (0.79762, -0.7321, 14.61)),
    7.7: ((0.41858, 16.1558, -56.04), (0.05794, 10.5156, -28.24)),
    9.0: ((0.88779, 7.5527, -16.6), (0.26665, 6.7015, -10.81)),
    12.0: ((0.7672, 10.7972, -38.18), (0.20073, 8.4658, -22.49)),
    15.0: ((0.97305, 5.3135, -2.2), (0.28889, 5.9741, -4.93)),
    18.0: ((0.97256, 5.25, -0.98), (0.24504, 7.416, -16.73)),
    22.0: ((0.91413, 7.4759, -21.82), (0.20323, 9.1267, -34.23)),
    28.0: ((0.87031, 9.7157, -50.77), (0.18411, 10.1015, -46.75)),
    40.0: ((0.84703, 12.6752, -133.31), (0.17029, 11.4866, -80.62)),
    55.0: ((0.85921, 11.1009, -83.19), (0.1713, 11.368, -76.94)),
    70.0: ((0.83531, 14.6731, -216.246), (0.16841, 11.8493, -96.947)),
}
# What the index multiplies above 100, in the same standard.
_STEP = 0.00715


def _reference(hot: float, index: int) -> float:
    """At 40 deg C the viscosity of the reference oil of index 0 or 100 that is as thin hot."""
    start = max(least for least in _REFERENCE_OILS if least <= hot)
    square, linear, rest = _REFERENCE_OILS[start][index // 100]
    return square * hot**2 + linear * hot + rest


def _cold(hot: float, index: float) -> float:
    """Viscosity at 40 deg C of an oil with an index and a viscosity at 100 deg C."""
    hundred = _reference(hot, 100)
    if index <= 100:
        zero = _reference(hot, 0)
        return zero - index / 100 * (zero - hundred)
    return float(hundred / hot ** math.log10(1 + _STEP * (index - 100)))


def _hot(cold: float, index: float) -> float:
    """Viscosity at 100 deg C of an oil with an index and a viscosity at 40 deg C."""
    low, high = 2.0, cold
    while high - low > 1e-9 * high:
        middle = (low + high) / 2
        if _cold(middle, index) < cold:
            low = middle
        else:
            high = middle
    return (low + high) / 2


@worksheet_function(SECTION)
def viscosity_limits(grade: Grade) -> ViscosityLimits:
    """Kinematic viscosity that an oil of a grade may have when new.

    Parameters
    ----------
    grade
        "SAE 8" to "SAE 60" of engine oils, or "ISO VG 10" to "ISO VG 460" of other oils.

    Returns
    -------
    Three cells beside each other: least and most in cSt (mm2/s), and at which temperature, by
    which standard.

    Equation
    --------
    SAE: the standard's limits at 100 deg C; ISO VG: the grade's number at 40 deg C, less and more
    10 %

    Validity
    --------
    New oil at slow shear. An SAE grade's upper limit is the next one's lower: an oil there has
    the higher grade. The W of a multigrade oil says what it does in the cold, and has limits of its
    own.

    Source
    ------
    SAE J300 (2015), as others quote it; ISO 3448, from memory; each row of the table names its
    origin

    Caution
    -------
    The engine maker's grade comes first: too thin an oil wears bearings, too thick a one starves
    them when cold.
    """
    row = tables.row(_GRADES, grade=grade)
    least = tables.figure(_GRADES, row, "low")
    most = tables.figure(_GRADES, row, "high")
    return ((least, most, tables.word(_GRADES, row, "origin")),)


@worksheet_function(SECTION)
def viscosity_index(viscosity_at_40: Centistokes, viscosity_at_100: Centistokes) -> ViscosityIndex:
    """Viscosity index of an oil: how little it thins as it warms.

    Parameters
    ----------
    viscosity_at_40
        At 40 deg C (104 deg F).
    viscosity_at_100
        At 100 deg C (212 deg F).

    Returns
    -------
    Some 95 to 105 for a plain mineral oil, 120 to 200 for multigrade and synthetic ones.

    Equation
    --------
    up to 100: 100 * (L - v40) / (L - H); above: (10**N - 1) / 0.00715 + 100,
    N = log(H / v40) / log(v100), with L and H the viscosities at 40 deg C of the oils of index 0
    and 100 that have the same v100, by the standard's equations of second degree

    Validity
    --------
    From 2 cSt at 100 deg C; index 0 to 400. The equations keep to the standard's table of L and H
    within 0.1 %.

    Source
    ------
    ASTM D2270 (from memory)
    """
    require(
        viscosity_at_100 < viscosity_at_40, "viscosity_at_100", "thinner than at 40 deg C (104 F)"
    )
    hundred = _reference(viscosity_at_100, 100)
    if viscosity_at_40 > hundred:
        zero = _reference(viscosity_at_100, 0)
        index = 100 * (zero - viscosity_at_40) / (zero - hundred)
    else:
        power = math.log(hundred / viscosity_at_40) / math.log(viscosity_at_100)
        index = (10**power - 1) / _STEP + 100
    require(0 <= index <= 400, "viscosity_at_40", "viscosities that give an index from 0 to 400")
    return index


@worksheet_function(SECTION)
def grade_viscosity(
    grade: Grade, viscosity_index: ViscosityIndex, temperature: OilTemperature
) -> KinematicViscosity:
    """Kinematic viscosity at a temperature of an oil of which only grade and index are known.

    Parameters
    ----------
    grade
        "SAE 8" to "SAE 60" of engine oils, or "ISO VG 10" to "ISO VG 460" of other oils.
    viscosity_index
        As on the oil's data sheet, or as from ENG.VISCOSITY_INDEX: about 100 for a plain mineral
        oil, 130 to 170 for a multigrade one.
    temperature
        At which the viscosity is wanted.

    Equation
    --------
    at 100 deg C (SAE) or 40 deg C (ISO VG) the middle of the grade's limits; at the other of the
    two what gives the viscosity index by ASTM D2270; between and beyond them as
    ENG.KINEMATIC_VISCOSITY

    Validity
    --------
    The middle of a grade: an oil may lie 15 % away from it, for SAE 60 less, and 10 % for an ISO
    VG. With two viscosities from a data sheet ENG.KINEMATIC_VISCOSITY is nearer. A multigrade
    oil thins in a bearing by a fifth and more.

    Source
    ------
    SAE J300 (2015), as others quote it; ISO 3448, ASTM D2270 and ASTM D341, from memory

    Caution
    -------
    An estimate. The engine and oil makers' figures come first.
    """
    middle = (tables.low(_GRADES, grade=grade) + tables.high(_GRADES, grade=grade)) / 2
    cold = _cold(middle, viscosity_index)
    hot = middle
    if grade.startswith("iso"):
        cold, hot = middle, _hot(middle, viscosity_index)
    require(hot >= 2, "viscosity_index", "one that leaves the oil 2 cSt at 100 deg C")
    return kinematic_viscosity(cold, _AT_40, hot, _AT_100, temperature)

"""Murphy & Koop 2005, Q. J. R. Meteorol. Soc. 131: vapor pressure over supercooled water.

The equation is from memory; at 0.01 to 40 deg C it agrees with IAPWS-95 within 0.01 %.
"""

import math

import pytest
from CoolProp.CoolProp import PropsSI
from sources import from_memory

SOURCE = from_memory(
    "Murphy & Koop 2005, Q. J. R. Meteorol. Soc. 131", "equation for supercooled water"
)


def saturation(kelvin):
    """Vapor pressure over water in Pa, 123 to 332 K."""
    bend = math.tanh(0.0415 * (kelvin - 218.8))
    return math.exp(
        54.842763
        - 6763.22 / kelvin
        - 4.210 * math.log(kelvin)
        + 0.000367 * kelvin
        + bend * (53.878 - 1331.22 / kelvin - 9.44523 * math.log(kelvin) + 0.014025 * kelvin)
    )


@pytest.mark.parametrize("celsius", [0.01, 20, 40])
def test_the_equation_is_remembered_right(celsius):
    expected = PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water")
    assert saturation(celsius + 273.15) == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize(
    ("celsius", "within"), [(-40, 4e-3), (-30, 1.5e-3), (-20, 1e-3), (-10, 1e-3), (-1, 1e-3)]
)
def test_air_below_freezing(agree, eng, celsius, within):
    got = eng("VAPOR_PRESSURE", celsius, 1, "metric") * 1000
    agree("VAPOR_PRESSURE", SOURCE, saturation(celsius + 273.15), got, rel=within)

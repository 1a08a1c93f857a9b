"""Heywood, Internal Combustion Engine Fundamentals, chapter 2: power, mean pressure, fuel.

The constants were checked by exact unit definitions; the equation numbers are from memory.
"""

import pytest
from scipy import constants
from sources import from_memory

BOOK = "Heywood, Internal Combustion Engine Fundamentals"
SOURCE = from_memory(BOOK, "constants of equations 2.19 and 2.20")


@pytest.mark.parametrize(("strokes", "per_cycle"), [(4, 2), (2, 1)])
def test_mean_pressure_in_psi(agree, eng, strokes, per_cycle):
    # mep[psi] = 75.4 nR T[lbf.ft] / V[cu in] and P[hp] nR 396 000 / (V[cu in] N[rpm]).
    expected = 75.4 * per_cycle * 400 / 350
    agree("BMEP", SOURCE, expected, eng("BMEP", 400, 350, strokes), rel=1e-4)
    horsepower = eng("POWER", 400, 6000)
    expected = horsepower * per_cycle * 396000 / (350 * 6000)
    agree("BMEP", SOURCE, expected, eng("BMEP", 400, 350, strokes), rel=1e-9)


def test_mean_pressure_in_kilopascal(agree, eng):
    # 200 N.m at 6000 rpm are 125.6637 kW: mep[kPa] = P nR 1000 / (V[dm3] N[rev/s]).
    expected = 125.66370614 * 2 * 1000 / (2.0 * 100)
    agree("BMEP", SOURCE, expected, eng("BMEP", 200, 2000, 4, "metric"))


def test_power_by_exact_definitions(agree, eng):
    # hp = T N / 5252.113122 and kW = T N / 9549.296586.
    source = from_memory("1959 yard and pound", "horsepower of 550 ft.lbf/s")
    watts = 400 * constants.lbf * constants.foot * 6000 * 2 * constants.pi / 60
    agree("POWER", source, watts / constants.hp, eng("POWER", 400, 6000))
    agree("POWER", source, 400 * 6000 / 5252.113122, eng("POWER", 400, 6000))
    agree("TORQUE", source, 400, eng("TORQUE", watts / constants.hp, 6000))
    agree("POWER", source, 200 * 6000 / 9549.296586, eng("POWER", 200, 6000, "metric"))

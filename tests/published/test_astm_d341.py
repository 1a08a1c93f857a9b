"""ASTM D341: the straight line of an oil on the viscosity-temperature chart."""

import math

import pytest
from sources import from_memory

from workbook_tools.catalog import ArgumentError

SOURCE = from_memory("ASTM D341", "worked table of 32 cSt at 40 deg C and 5.4 cSt at 100 deg C")


def test_an_oil_at_80_degrees(agree, eng):
    # Constants 9.5259 and 3.7449, which come to 8.5 cSt.
    got = eng("KINEMATIC_VISCOSITY", 32, 40, 5.4, 100, 80, "metric")
    agree("KINEMATIC_VISCOSITY", SOURCE, 8.5, got, abs=0.05)
    by_constants = 10**10 ** (9.5259 - 3.7449 * math.log10(80 + 273)) - 0.7
    agree("KINEMATIC_VISCOSITY", SOURCE, by_constants, got, rel=2e-3)


def test_a_centistoke_of_a_known_density(agree, eng):
    source = from_memory("ISO 80000-4", "kinematic viscosity: dynamic viscosity over density")
    got = eng("DYNAMIC_VISCOSITY", 12, 850, "metric")
    agree("DYNAMIC_VISCOSITY", source, 10.2, got, rel=1e-9)
    # The same oil in an inch book.
    assert eng("DYNAMIC_VISCOSITY", 12, "850 kg/m3") == pytest.approx(got)


@pytest.mark.parametrize(
    ("points", "at", "thin"),
    [((68, 8.7), 120, 5.688), ((100, 11.1), 150, 4.136), ((115, 15.5), 60, 50.43)],
)
def test_worked_by_hand(eng, points, at, thin):
    got = eng("KINEMATIC_VISCOSITY", points[0], 40, points[1], 100, at, "metric")
    assert got == pytest.approx(thin, rel=2e-4)


@pytest.mark.parametrize(
    ("arguments", "parameter"),
    [
        ((68, 40, 8.7, 45, 120), "second_temperature"),
        ((68, 40, 80, 100, 120), "second_viscosity"),
        ((1.5, 40, 1.2, 100, 120), "first_viscosity"),
        ((30, 40, 3, 100, 190), "temperature"),
        ((30, 40, 3, 100, 700), "temperature"),
    ],
)
def test_what_is_refused(eng, arguments, parameter):
    with pytest.raises(ArgumentError) as refused:
        eng("KINEMATIC_VISCOSITY", *arguments, "metric")
    assert refused.value.parameter == parameter


def test_the_same_oil_in_fahrenheit(eng):
    metric = eng("KINEMATIC_VISCOSITY", 100, 40, 11.1, 100, 110, "metric")
    assert eng("KINEMATIC_VISCOSITY", 100, 104, 11.1, 212, 230) == pytest.approx(metric)

"""Knock: a correlation from memory, its integral by another method."""

import math

import pytest
from scipy import integrate, optimize
from sources import from_memory, independent

from workbook_tools.catalog import ArgumentError

DOUAUD = from_memory("Douaud & Eyzat, SAE paper 780080 (1978)", "correlation, worked out by hand")
INTEGRAL = independent("octane number that makes the integral one", integrate.quad, optimize.brentq)


@pytest.mark.parametrize(
    ("octane", "atm", "kelvin", "ms"),
    [(100, 40, 800, 3.8626), (95, 40, 800, 3.2441), (90, 40, 800, 2.6991), (95, 60, 850, 1.2314),
     (95, 30, 750, 7.2613)],
)  # fmt: skip
def test_delays(agree, eng, octane, atm, kelvin, ms):
    got = eng("KNOCK_DELAY", octane, f"{atm} atm", f"{kelvin} K")
    agree("KNOCK_DELAY", DOUAUD, ms, got, rel=2e-5)


# Ratio, intake closing and spark in degrees, kPa, deg C, rpm.
ENGINES = [(9.5, 50, 28, 95, 90, 2000), (11.0, 62, 34, 98, 80, 5500), (8.5, 40, 18, 170, 95, 3500)]
# Burning in degrees, pressure rise, exponent; the last are those of a call without them.
BURNS = [(55, 3.2, 1.33), (60, 3.5, 1.32)]


@pytest.mark.parametrize(("burn", "rise", "exponent"), BURNS)
@pytest.mark.parametrize(("ratio", "closing", "spark", "kpa", "celsius", "rpm"), ENGINES)
def test_margin(agree, eng, ratio, closing, spark, kpa, celsius, rpm, burn, rise, exponent):
    stroke, rod = 86.0, 145.0
    radians = math.radians

    def volume(turn):
        pin = stroke / 2 * math.sin(turn)
        down = stroke / 2 * (1 - math.cos(turn)) + rod - math.sqrt(rod**2 - pin**2)
        return stroke / (ratio - 1) + down

    start, fire = radians(closing - 180), -radians(spark)
    end = fire + optimize.brentq(
        lambda t: math.sin(math.pi * t / radians(burn) / 2) ** 2 - 0.95, 0, radians(burn)
    )

    def used(turn, octane):
        burned = math.sin(math.pi * max(turn - fire, 0) / radians(burn) / 2) ** 2
        over = (volume(start) / volume(turn)) ** exponent * (1 + (rise - 1) * burned)
        kelvin = (celsius + 273.15) * over ** ((exponent - 1) / exponent)
        delay = eng("KNOCK_DELAY", octane, f"{kpa * over} kPa", f"{kelvin} K")
        return 1 / (delay / 1000) / (rpm * math.pi / 30)

    # Where gas is still too cool for the correlation nothing of the delay is used up.
    warm = next(
        t for t in (start + i * (end - start) / 200 for i in range(200))
        if (celsius + 273.15) * (volume(start) / volume(t)) ** (exponent - 1) > 505
        and kpa * (volume(start) / volume(t)) ** exponent > 105
    )  # fmt: skip
    asked = optimize.brentq(
        lambda on: integrate.quad(used, warm, end, args=(on,), points=[fire], epsrel=1e-6)[0] - 1,
        60, 119.9, xtol=1e-4,
    )  # fmt: skip
    ((got, told),) = eng(
        "KNOCK_MARGIN", 95, ratio, stroke, rod, closing, kpa, celsius, rpm, spark, burn, rise,
        exponent, "metric",
    )  # fmt: skip
    agree("KNOCK_MARGIN", INTEGRAL, 95 - asked, got, abs=0.15)
    if burn == 60:
        ((left_out, _),) = eng(
            "KNOCK_MARGIN", 95, ratio, f"{stroke} mm", f"{rod} mm", closing, f"{kpa} kPa",
            f"{celsius} deg C", rpm, spark,
        )  # fmt: skip
        agree("KNOCK_MARGIN", INTEGRAL, 95 - asked, left_out, abs=0.15)
    assert told.startswith("estimate, wrong by 5 octane numbers or more")


def test_what_every_tuner_knows(eng):
    def margin(**changed):
        one = {"octane": 93, "ratio": 10, "closing": 60, "kpa": 98, "celsius": 80, "rpm": 3000,
               "spark": 28} | changed  # fmt: skip
        return eng(
            "KNOCK_MARGIN", one["octane"], one["ratio"], 86, 145, one["closing"], one["kpa"],
            one["celsius"], one["rpm"], one["spark"], 60, 3.5, 1.32, "metric",
        )[0][0]  # fmt: skip

    usual = margin()
    assert margin(octane=98) == pytest.approx(usual + 5)
    for better in ({"ratio": 9}, {"spark": 20}, {"celsius": 60}, {"rpm": 6000}, {"closing": 75}):
        assert margin(**better) > usual
    assert margin(kpa=150) < usual - 10


@pytest.mark.parametrize(
    ("name", "arguments", "parameter"),
    [
        ("KNOCK_DELAY", (50, 600, 1000), "octane_number"),
        ("KNOCK_DELAY", (93, 600, 100), "temperature"),
        ("KNOCK_MARGIN", (93, 10, 3.5, 1.7, 60, 14, 170, 3000, 28), "rod_length"),
        ("KNOCK_MARGIN", (93, 10, 3.5, 6, 60, 14, 170, 3000, 90), "spark_advance"),
    ],
)
def test_what_is_refused(eng, name, arguments, parameter):
    with pytest.raises(ArgumentError) as refused:
        eng(name, *arguments)
    assert refused.value.parameter == parameter

"""Oils by grade and index: the standard's table, a public page, fluids by a property library."""

import math

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from each_case import each
from fluids.core import nu_mu_converter
from sources import from_memory, independent, open_data, printed

from workbook_tools.catalog import ArgumentError

TABLE = open_data("ASTM D2270, table of L and H as kept by the open library chemicals 1.5.2", "MIT")
# v100, L and H of index 0 and 100 at 40 deg C, in cSt.
ROWS = (
    (2.0, 7.994, 6.394),
    (3.0, 15.49, 12.15),
    (4.0, 25.32, 19.56),
    (5.0, 40.23, 28.49),
    (6.0, 57.97, 38.19),
    (7.0, 78, 48.57),
    (8.5, 111.5, 65.32),
    (10.0, 147.7, 82.87),
    (12.0, 201.9, 108),
    (14.5, 279.6, 142.4),
    (17.0, 369.4, 180.2),
    (20.0, 493.2, 229.5),
    (25.0, 736.5, 320.9),
    (32.0, 1151, 464.9),
    (45.0, 2152, 780.9),
    (60.0, 3676, 1222),
)
J300 = printed(
    "SAE Viscosity Grades for Engine Oils, a public page on SAE J300 (January 2015)",
    "article 51",
)


@each(("hot", "zero", "hundred"), ROWS)
def test_oils_between_those_of_index_0_and_100(agree, eng, hot, zero, hundred):
    for share in (0.02, 0.3, 0.8):
        got = eng("VISCOSITY_INDEX", zero - share * (zero - hundred), hot)
        agree("VISCOSITY_INDEX", TABLE, 100 * share, got, abs=0.6)


@pytest.mark.parametrize(
    ("cold", "hot", "index"), [(73.30, 8.86, 92), (22.83, 5.05, 156), (53.47, 7.80, 111)]
)
def test_examples(agree, eng, cold, hot, index):
    source = from_memory("ASTM D2270", "examples, the first as an open library prints it")
    agree("VISCOSITY_INDEX", source, index, eng("VISCOSITY_INDEX", cold, hot), abs=0.6)


# What that library's own viscosity_index gives, recorded: cSt at 40 and 100 deg C, index.
RESULTS = open_data(
    "ASTM D2270, results of viscosity_index of the open library chemicals 1.5.2", "MIT"
)


@pytest.mark.parametrize(
    ("cold", "hot", "index"),
    [(22.83, 5.05, 156.42), (46, 7.6, 131.77), (68, 10.8, 148.80), (90, 14.5, 167.76),
     (110, 19, 194.37)],
)  # fmt: skip
def test_indexes_above_100(agree, eng, cold, hot, index):
    got = eng("VISCOSITY_INDEX", cold, hot)
    agree("VISCOSITY_INDEX", RESULTS, index, got, abs=0.3)


@pytest.mark.parametrize(
    ("grade", "index", "celsius", "expected"),
    [
        ("SAE 20", 60, 40, 77.36), ("SAE 20", 170, 40, 42.01), ("SAE 30", 95, 40, 97.78),
        ("SAE 30", 130, 40, 76.77), ("SAE 40", 60, 40, 195.12), ("SAE 50", 170, 40, 127.49),
        ("ISO VG 32", 80, 100, 5.103), ("ISO VG 68", 140, 100, 10.409),
        ("ISO VG 150", 80, 100, 13.374), ("ISO VG 150", 140, 100, 18.634),
    ],
)  # fmt: skip
def test_grades_of_any_index(agree, eng, grade, index, celsius, expected):
    # At the other temperature than the grade's own, searched with that library.
    got = eng("GRADE_VISCOSITY", grade, index, celsius, "metric")
    agree("GRADE_VISCOSITY", RESULTS, expected, got, rel=3e-3)


def test_there_and_back(eng):
    # What the index gives at 40 deg C has the index again, and so has an ISO grade at 100.
    for grade, hot in (("SAE 20", 8.1), ("SAE 30", 10.9), ("SAE 50", 19.1)):
        for index in (80, 100, 165):
            cold = eng("GRADE_VISCOSITY", grade, index, 40, "metric")
            assert eng("VISCOSITY_INDEX", cold, hot) == pytest.approx(index, abs=1e-6)
    for number in (32, 68, 150):
        hot = eng("GRADE_VISCOSITY", f"iso vg {number}", 120, 100, "metric")
        assert eng("VISCOSITY_INDEX", number, hot) == pytest.approx(120, abs=1e-6)


@each("number", [32, 46, 68, 100, 220])
@each("celsius", [40, 60, 100, 120])
def test_iso_grades_of_index_100(agree, eng, number, celsius):
    # Where the table has this H, and from there the straight line of the viscosity chart.
    hot = float(np.interp(number, [row[2] for row in ROWS], [row[0] for row in ROWS]))
    chart = np.log10(np.log10(np.array([number, hot]) + 0.7))
    line = np.polyfit(np.log10([313.15, 373.15]), chart, 1)
    expected = 10**10 ** np.polyval(line, math.log10(celsius + 273.15)) - 0.7
    source = independent("between rows of the standard's table", np.interp, np.polyfit)
    got = eng("GRADE_VISCOSITY", f"ISO VG {number}", 100, celsius, "metric")
    agree("GRADE_VISCOSITY", source, float(expected), got, rel=0.012)


@pytest.mark.parametrize(
    ("grade", "least", "below"),
    [
        ("SAE 8", 4.0, 6.1),
        ("SAE 12", 5.0, 7.1),
        ("SAE 16", 6.1, 8.2),
        ("SAE 20", 6.9, 9.3),
        ("SAE 30", 9.3, 12.5),
        ("SAE 40", 12.5, 16.3),
        ("SAE 50", 16.3, 21.9),
        ("SAE 60", 21.9, 26.1),
    ],
)
def test_limits_of_engine_oils(agree, eng, grade, least, below):
    ((low, high, told),) = eng("VISCOSITY_LIMITS", grade)
    agree("VISCOSITY_LIMITS", J300, least, low)
    agree("VISCOSITY_LIMITS", J300, below, high)
    assert told.startswith("SAE J300 (2015) at 100 deg C")
    # The middle of the grade, whatever the index.
    assert eng("GRADE_VISCOSITY", grade, 140, 212) == pytest.approx((least + below) / 2)


def test_limits_of_other_oils(agree, eng):
    ((low, high, told),) = eng("VISCOSITY_LIMITS", "iso vg 46")
    source = from_memory("ISO 3448", "number of the grade at 40 deg C, less and more 10 %")
    agree("VISCOSITY_LIMITS", source, 41.4, low)
    agree("VISCOSITY_LIMITS", source, 50.6, high)
    assert told == "ISO 3448 at 40 deg C, from memory"


FLUIDS = ["INCOMP::T66", "INCOMP::PNF", "INCOMP::TX22", "INCOMP::S800"]


def centistokes(fluid, celsius):
    at = ("T", celsius + 273.15, "P", 1e5, fluid)
    return PropsSI("V", *at) / PropsSI("D", *at) * 1e6


@pytest.mark.parametrize("fluid", FLUIDS)
@pytest.mark.parametrize("celsius", [55, 70, 85])
def test_thin_oils_between_two_temperatures(agree, eng, fluid, celsius):
    # Oils for carrying heat, from 32 to 8 cSt at 40 deg C, as measured for a property library.
    source = independent("viscosity of thermal oils", PropsSI)
    ends = (centistokes(fluid, 40), 40, centistokes(fluid, 100), 100)
    got = eng("KINEMATIC_VISCOSITY", *ends, celsius, "metric")
    agree("KINEMATIC_VISCOSITY", source, centistokes(fluid, celsius), got, rel=0.05)


def test_kinematic_to_dynamic(agree, eng):
    source = independent("a library's converter of viscosities", nu_mu_converter)
    got = eng("DYNAMIC_VISCOSITY", 12, 850, "metric")
    agree("DYNAMIC_VISCOSITY", source, nu_mu_converter(850, nu=12e-6) * 1000, got)


@pytest.mark.parametrize(
    ("name", "arguments", "parameter"),
    [
        ("VISCOSITY_INDEX", (8, 9), "viscosity_at_100"),
        ("VISCOSITY_INDEX", (900, 9), "viscosity_at_40"),
        ("VISCOSITY_LIMITS", ("SAE 35",), "grade"),
        ("GRADE_VISCOSITY", ("ISO VG 10", 20, 300), "temperature"),
        ("GRADE_VISCOSITY", ("SAE 30", 500, 212), "viscosity_index"),
    ],
)
def test_what_is_refused(eng, name, arguments, parameter):
    with pytest.raises(ArgumentError) as refused:
        eng(name, *arguments)
    assert refused.value.parameter == parameter

"""Jindal, Machine Design: a tightened joint, journal bearings."""

import pytest
from sources import COMPANIONS, printed

BOOK = "Jindal, Machine Design"


def of(place):
    return printed(BOOK, place, COMPANIONS)


def test_example_9_6(agree, eng):
    # M20, area 245 mm2, preload 120 kN, load 30 kN, share 0.35, nut factor 0.18: torque
    # 432 N.m, bolt stress under load 532.65 MPa.
    source = of("Ex. 9-6, p. 269")
    torque = eng("TORQUE_FOR_PRELOAD", 120000, 20, 0.18, "metric")
    agree("TORQUE_FOR_PRELOAD", source, 432, torque)
    back = eng("PRELOAD_FROM_TORQUE", 432, 20, 0.18, "metric")
    agree("PRELOAD_FROM_TORQUE", source, 120000, back)
    agree("THREAD_STRESS_AREA", source, 245, eng("THREAD_STRESS_AREA", "M20", "metric"), abs=0.5)
    # The margin against a proof load of 600 MPa on that area.
    margin = eng("BOLT_MARGIN", 600 * 245, 120000, 30000, 0.35, "metric")
    agree("BOLT_MARGIN", source, 600 / 532.65, margin, rel=1e-5)


def test_example_17_4(agree, eng):
    # 60 by 60 mm, 3000 N, 30 mPa.s, radial clearance 0.06 mm, 1440 rpm: S 0.216, film 0.032
    # mm by a straight line between the table's S 0.121 and 0.264; the curve bends there.
    source = of("Ex. 17-4, p. 483")
    bearing = (3000, 60, 60, 0.12, 30, 1440, "metric")
    unit_load = eng("BEARING_UNIT_LOAD", 3000, 60, 60, "metric")
    agree("BEARING_UNIT_LOAD", source, 3000 / 3600, unit_load)
    agree("SOMMERFELD_NUMBER", source, 0.216, eng("SOMMERFELD_NUMBER", *bearing), abs=5e-4)
    agree("FILM_THICKNESS", source, 0.032, eng("FILM_THICKNESS", *bearing), rel=0.04)


def test_example_17_2(agree, eng):
    # 60 by 60 mm, 6000 N, radial clearance 0.04 mm, 1260 rpm, film 0.008 mm: S 0.0446, hence
    # 6.293 mPa.s.
    source = of("Ex. 17-2, p. 482")
    bearing = (6000, 60, 60, 0.08, 6.293, 1260, "metric")
    agree("SOMMERFELD_NUMBER", source, 0.0446, eng("SOMMERFELD_NUMBER", *bearing), rel=1e-3)
    agree("FILM_THICKNESS", source, 0.008, eng("FILM_THICKNESS", *bearing), rel=1e-3)


@pytest.mark.parametrize(("film", "number"), [(0.6, 0.264), (0.4, 0.121), (0.2, 0.0446)])
def test_raimondi_and_boyd_s_rows_as_printed_here(agree, eng, film, number):
    # Film over radial clearance at a Sommerfeld number, length as the diameter. The viscosity
    # that makes the number: 1 in both, 1 N on 1 m2, one turn a second, clearance 1/1000.
    got = eng("FILM_ECCENTRICITY", 1e6, 1000, 1000, 1, number * 1000, 60, "metric")
    agree("FILM_ECCENTRICITY", of("ch. 17, pp. 482-484, Raimondi & Boyd"), 1 - film, got, abs=1e-9)

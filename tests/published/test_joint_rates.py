"""Rates of clamped parts: Mechanical Engineering Design's problems, and frusta by integration."""

import math

import numpy as np
import pytest
from scipy.integrate import quad
from sources import COMPANIONS, from_memory, independent, printed

from workbook_tools.catalog import tables

BOOK = "Budynas & Nisbett, Mechanical Engineering Design, 8e, solutions to the problems"


def test_problem_8_22(agree, eng):
    # M12, 20 mm of steel on 25 mm of iron, washer face 18 mm; rates in MN/m, of which kN/mm.
    source = printed(BOOK, "Problem 8-22")
    joint = eng("JOINT_RATE", 12, 18, 20, 25, "steel", "gray iron", "metric")
    agree("JOINT_RATE", source, 1379e3, joint, rel=5e-4)
    agree("BOLT_SHARE", source, 0.253, eng("BOLT_SHARE", 466.8e3, joint, "metric"), rel=1e-3)


def test_problem_8_25_with_a_cap_screw(agree, eng):
    # 1/2 in, 0.595 in of steel, tapped into iron: half a diameter of it counts. 30 and 14.5 Mpsi.
    # The book lets the middle frustum begin at 1.018 in, where 30 degrees give 1.039.
    source = printed(BOOK, "Problem 8-25")
    joint = eng("JOINT_RATE", 0.5, 0.75, 0.595, 0.25, "steel", "gray iron")
    agree("JOINT_RATE", source, 12.87e6, joint, rel=7e-3)
    got = eng("BOLT_SHARE", 0.1419 * 30e6 / 0.845, joint)
    agree("BOLT_SHARE", source, 0.281, got, rel=7e-3)


@pytest.mark.parametrize(
    ("lower", "rate"), [("gray iron", 9.378e6), ("steel", 14.64e6)], ids=["unlike", "steel"]
)
def test_example_8_2(agree, eng, lower, rate):
    source = from_memory("Budynas & Nisbett, Mechanical Engineering Design, 9e", "Example 8-2")
    got = eng("JOINT_RATE", 0.5, 0.75, 0.595, 0.75, "steel", lower)
    agree("JOINT_RATE", source, rate, got, rel=2e-3)


@pytest.mark.parametrize(
    ("hole", "face", "head", "thread", "over", "under"),
    [
        (11.5, 18, 48, 6, "aluminum", "gray iron"),
        (9, 15, 14, 22, "alloy steel", "alloy steel"),
        (10.5, 17, 60, 0, "gray iron", "gray iron"),
        (8.4, 13, 12, 12, "aluminum 2618", "steel"),
    ],
)
def test_layer_by_layer(agree, eng, hole, face, head, thread, over, under):
    grip = head + thread

    def give(depth):
        # The pressed ring grows from both faces to the middle, 30 degrees to each side.
        reach = face + 2 * min(depth, grip - depth) * math.tan(math.radians(30))
        area = math.pi / 4 * (reach**2 - hole**2)
        return 1 / (tables.modulus(over if depth < head else under) / 1e6 * area)

    shortened = quad(give, 0, grip, points=[grip / 2, head], limit=200)[0]
    source = independent("flexibility of thin layers piled up", quad)
    got = eng("JOINT_RATE", hole, face, head, thread, over, under, "metric")
    agree("JOINT_RATE", source, 1 / shortened, got, rel=1e-7)


def test_hibbeler_bolt_in_a_tube(agree, eng):
    # 400 mm2 of steel in 600 mm2 of aluminum 2014, 150 mm long, 200 and 73.1 GPa, 12 and 23
    # millionths, from 15 to 80 deg C. The rises are those at which our materials grow as these.
    source = printed("Hibbeler, Mechanics of Materials", "Example 4.12, p. 154", COMPANIONS)
    bolt = 65 * 12e-6 / tables.expansion("steel")
    tube = 65 * 23e-6 / tables.expansion("aluminum")
    rates = (400 * 200e3 / 150, 600 * 73.1e3 / 150)
    got = eng("LOAD_FROM_HEAT", *rates, 150, bolt, tube, "steel", "aluminum", "metric")
    agree("LOAD_FROM_HEAT", source, 20300, got, rel=3e-3)


@pytest.mark.parametrize(("bolt_rise", "joint_rise"), [(110, 130), (-45, -45), (90, 20)])
def test_springs_that_have_grown(agree, eng, bolt_rise, joint_rise):
    bolt, joint, grip = 320e6, 1150e6, 0.092
    free = [grip * tables.expansion("alloy steel") * bolt_rise,
            grip * tables.expansion("aluminum") * joint_rise]  # fmt: skip
    # Unknown: the tension more, what the bolt stretches and the joint yields; both end alike.
    equations = [[1, -bolt, 0], [1, 0, -joint], [0, 1, 1]]
    load = np.linalg.solve(equations, [0, 0, free[1] - free[0]])[0]
    rates = (bolt / 1000, joint / 1000)
    got = eng(
        "LOAD_FROM_HEAT", *rates, 92, bolt_rise, joint_rise, "alloy steel", "aluminum", "metric"
    )
    source = independent("bolt and joint as springs", np.linalg.solve)
    agree("LOAD_FROM_HEAT", source, float(load), got)
    # A pull on both: what the bolt takes of it.
    stretched = np.linalg.solve([[bolt + joint]], [1000.0])[0]
    got = eng("BOLT_SHARE", *rates, "metric")
    agree("BOLT_SHARE", source, float(bolt * stretched) / 1000, got)

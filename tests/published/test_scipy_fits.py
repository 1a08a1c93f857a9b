"""Clearances as how far a part moves until it touches, by scipy's linear programs and roots.

Each part is placed by its faces; whatever it may do without cutting into its neighbor is a
constraint, and the clearance is the longest way that these leave.
"""

import math

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq, linprog
from sources import independent

PLAY = independent("parts moved apart until they touch", linprog)
JOURNAL = independent("journal moved from shell to shell", brentq)
COILS = independent("coils pressed together", brentq)


def farthest(objective, rows, limits):
    """The largest value of an objective under rows of constraints, any sign of the unknowns."""
    result = linprog(-np.array(objective), A_ub=rows, b_ub=limits, bounds=(None, None))
    assert result.status == 0
    return -result.fun


@pytest.mark.parametrize(("between", "width"), [(30.18, 29.96), (24.05, 23.93), (51.3, 51.0)])
def test_end_play_of_a_crank(agree, eng, between, width):
    # The bearing stands from 0 to its width; the crank's two cheeks stand off on either side.
    # Unknown: the left cheek in two places, pushed to one end and to the other.
    rows = [[1, 0], [0, 1], [-1, 0], [0, -1]]
    limits = [0, 0, between - width, between - width]
    got = eng("END_PLAY", between, width, "metric")
    agree("END_PLAY", PLAY, farthest([1, -1], rows, limits), got, rel=1e-9)


@pytest.mark.parametrize("rods", [1, 2, 3])
def test_side_clearance_of_rods_on_one_journal(agree, eng, rods):
    between, width = 24.05 * rods + 0.4, 24.05
    # Unknown: each rod's left face; the room that opens after the last one is largest when all
    # are pushed to the first cheek.
    first = [-1.0] + [0.0] * (rods - 1)
    rows, limits = [first], [0.0]
    for number in range(rods - 1):
        row = [0.0] * rods
        row[number], row[number + 1] = 1, -1
        rows.append(row)
        limits.append(-width)
    last = [0.0] * (rods - 1) + [1.0]
    rows.append(last)
    limits.append(between - width)
    room = between - width + farthest([-value for value in last], rows, limits)
    got = eng("ROD_SIDE_CLEARANCE", between, width, rods, "metric")
    agree("ROD_SIDE_CLEARANCE", PLAY, room, got, rel=1e-9)
    if rods == 1:
        got = eng("ROD_SIDE_CLEARANCE", between / 25.4, width / 25.4)
        agree("ROD_SIDE_CLEARANCE", PLAY, room / 25.4, got, rel=1e-9)


@pytest.mark.parametrize(("groove", "ring"), [(1.535, 1.478), (2.03, 1.985), (1.26, 1.19)])
def test_ring_lifted_from_one_side_of_its_groove_to_the_other(agree, eng, groove, ring):
    rows = [[1, 0], [0, 1], [-1, 0], [0, -1]]
    limits = [groove - ring, groove - ring, 0, 0]
    got = eng("RING_SIDE_CLEARANCE", groove, ring, "metric")
    agree("RING_SIDE_CLEARANCE", PLAY, farthest([1, -1], rows, limits), got, rel=1e-9)


@pytest.mark.parametrize(
    ("housing", "upper", "journal", "lower"),
    [(57.34, 2.012, 53.27, 2.012), (57.34, 2.004, 53.27, 2.019), (2.311, 0.0714, 2.1658, 0.0719)],
)
def test_bearing_clearance_is_the_journal_s_way_up_and_down(
    agree, eng, housing, upper, journal, lower
):
    around = np.linspace(0, 2 * math.pi, 14401)
    inside = housing / 2 - np.where(np.sin(around) >= 0, upper, lower)
    surface = inside * np.exp(1j * around)

    def room(height):
        return np.abs(surface - 1j * height).min() - journal / 2

    # Up to the upper shell, and down to the lower one.
    way = brentq(room, 0, upper, xtol=1e-13) - brentq(room, -lower, 0, xtol=1e-13)
    units = "metric" if housing > 10 else "inch"
    got = eng("BEARING_CLEARANCE", housing, upper, journal, lower, units)
    agree("BEARING_CLEARANCE", JOURNAL, way, got, abs=1e-9)


@pytest.mark.parametrize(
    ("name", "hole", "shaft"),
    [
        ("BEARING_CLEARANCE_FROM_BORE", 53.328, 53.271),
        ("PIN_CLEARANCE_IN_PISTON", 23.556, 23.548),
        ("PIN_CLEARANCE_IN_ROD", 23.565, 23.548),
        ("VALVE_GUIDE_CLEARANCE", 8.722, 8.684),
        ("FIT", 41.275, 41.021),
    ],
)
def test_a_fit_is_the_shaft_s_way_across_its_hole(agree, eng, name, hole, shaft):
    surface = hole / 2 * np.exp(1j * np.linspace(0, 2 * math.pi, 14401))

    def room(height):
        return np.abs(surface - 1j * height).min() - shaft / 2

    way = brentq(room, 0, hole / 2, xtol=1e-13) - brentq(room, -hole / 2, 0, xtol=1e-13)
    agree(name, JOURNAL, way, eng(name, hole, shaft, "metric"), abs=1e-9)


@pytest.mark.parametrize(
    ("installed", "wire", "coils", "lift"), [(41.3, 4.3, 6.2, 11.4), (34.0, 3.1, 7.5, 8.2)]
)
def test_coil_bind(agree, eng, installed, wire, coils, lift):
    # Coils lie evenly between the first and the last; they touch where their centers are one
    # wire apart.
    def between(height):
        return (height - wire) / (coils - 1) - wire

    bound = brentq(between, wire, 3 * installed, xtol=1e-13)
    got = eng("COIL_BIND_MARGIN", installed, wire * coils, lift, "metric")
    agree("COIL_BIND_MARGIN", COILS, installed - lift - bound, got, abs=1e-9)


@pytest.mark.parametrize(("free", "rate"), [(52.0, 31.5), (47.4, 24.0)])
def test_shim_brings_a_spring_to_its_wanted_load(agree, eng, free, rate):
    # Spring in a pocket that is too deep: the shim under which it carries the load that it has
    # at the height wanted, and the load that the shim adds to it.
    measured, wanted = 41.9, 40.6
    load = rate * (free - wanted)
    shim = brentq(lambda thick: rate * (free - (measured - thick)) - load, 0, 10, xtol=1e-13)
    source = independent("shim searched for the load", brentq)
    got = eng("SPRING_SHIM", measured, wanted, "metric")
    agree("SPRING_SHIM", source, shim, got, abs=1e-9)
    # Load as the work done over the lift, its slope at the end.
    before = rate * (free - measured)
    got = eng("SPRING_LOAD", before, rate, shim, "metric")
    agree("SPRING_LOAD", source, load, got, rel=1e-9)


@pytest.mark.parametrize(("turns", "pitch"), [(4, 0.050), (6.5, 1 / 24), (2.25, 0.05)])
def test_length_of_a_checking_pushrod_by_its_helix(agree, eng, turns, pitch):
    # How far the end has come out, followed along the thread.
    screwed = quad(lambda angle: pitch / (2 * math.pi), 0, 2 * math.pi * turns)[0]
    source = independent("advance along the thread's helix", quad)
    got = eng("PUSHROD_LENGTH", 7.31, turns, pitch, 0.035)
    agree("PUSHROD_LENGTH", source, 7.31 + screwed + 0.035, got, rel=1e-9)

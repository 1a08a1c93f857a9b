"""Oil through bearings: Reynolds' equation on a grid, speeds across a gap, a textbook's bearing."""

import math

import numpy as np
import pytest
import scipy.sparse.linalg
from published.test_reynolds_equation import (
    bearing_with,
    film_of,
    pressures_of,
    side_flow_of,
    sommerfeld_number,
)
from scipy import integrate, linalg, optimize
from sources import arithmetic, from_memory, independent

from workbook_tools.catalog import ArgumentError

GRID = independent("Reynolds' equation on a grid", scipy.sparse.linalg.spsolve)
SHIGLEY = from_memory("Shigley, Mechanical Engineering Design", "Ex. 12-1 to 12-4")


@pytest.mark.parametrize("slenderness", [0.25, 0.5, 1.0])
@pytest.mark.parametrize("eccentricity", [0.3, 0.6, 0.85])
def test_oil_that_leaves_the_ends(agree, eng, eccentricity, slenderness):
    number = sommerfeld_number(eccentricity, slenderness)
    expected = side_flow_of(eccentricity, slenderness)
    # 1 m across, clearance 1 mm, 1 turn a second: r * c * N * l in m3/s, told in cc/min.
    unit = 0.5 * 0.0005 * 1 * slenderness * 60e6
    got = eng("BEARING_OIL_FLOW", *bearing_with(number, slenderness))
    agree("BEARING_OIL_FLOW", GRID, expected * unit, got, rel=0.03)


def heat_over_flow(eccentricity, slenderness):
    """Rise of the oil over the unit load, by the grid's pressures.

    Friction's work on the journal over what flows through where the gap is widest, of which the
    side flow leaves half warmed.
    """
    pressure, angles, _, step, rise = pressures_of(eccentricity, slenderness, around=480)
    weights = np.full(pressure.shape[1], rise)
    weights[0] /= 2
    line = 2 * pressure @ weights
    load = math.hypot(line @ np.cos(angles), line @ np.sin(angles)) * step
    around = np.concatenate([[0], angles, [2 * math.pi]])
    height = 1 + eccentricity * np.cos(around)
    closed = np.vstack([0 * pressure[:1], pressure, 0 * pressure[:1]])
    slope = np.gradient(closed, step, axis=0)
    # Shear by speed all around, empty stretches of the gap too, and shear by pressure.
    sheared = integrate.trapezoid(1 / height, around) * 2 * slenderness
    pushed = 6 * step * float((height[:, None] * slope @ weights).sum())
    friction = (sheared + pushed) / (6 * load)
    widest = (4 * closed[1] - closed[2]) / (2 * step)
    entering = (
        math.pi / slenderness * float(height[0] * slenderness - height[0] ** 3 * (widest @ weights))
    )
    leaves = film_of(eccentricity, slenderness, around=480)[2]
    return 4 * math.pi * friction / (entering - leaves / 2)


@pytest.mark.parametrize("slenderness", [0.25, 0.5, 1.0])
@pytest.mark.parametrize("eccentricity", [0.25, 0.5, 0.7, 0.88])
def test_how_much_the_oil_warms(agree, eng, eccentricity, slenderness):
    number = sommerfeld_number(eccentricity, slenderness)
    bearing = bearing_with(number, slenderness)
    unit_load = bearing[0] / slenderness  # Pa, on 1 m across.
    expected = unit_load * heat_over_flow(eccentricity, slenderness) / (860 * 1760)
    got = eng("BEARING_TEMPERATURE_RISE", *bearing[:-1], 860, 1760, "metric")
    agree("BEARING_TEMPERATURE_RISE", GRID, expected, got, rel=0.02)


def test_a_rod_bearing(agree, eng):
    # 54 by 19 mm, diametral clearance 0.05 mm, 8 mPa.s, 6000 rpm, 8 kN, on the grid's film.
    bearing = (8000, 54, 19, 0.05, 8, 6000)
    slenderness = 19 / 54
    number = (54 / 0.05) ** 2 * 0.008 * 100 / (8000 / (0.054 * 0.019))
    runs = optimize.brentq(
        lambda e: sommerfeld_number(e, slenderness) - number, 0.5, 0.95, xtol=1e-4
    )
    side = side_flow_of(runs, slenderness) * 0.027 * 25e-6 * 100 * 0.019
    got = eng("BEARING_OIL_FLOW", *bearing, "metric")
    agree("BEARING_OIL_FLOW", GRID, side * 60e6, got, rel=0.02)
    rise = 8000 / (0.054 * 0.019) * heat_over_flow(runs, slenderness) / (860 * 1760)
    left_out = eng(
        "BEARING_TEMPERATURE_RISE", "8000 N", "54 mm", "19 mm", "0.05 mm", "8 mPa.s", 6000
    )
    agree("BEARING_TEMPERATURE_RISE", GRID, rise, left_out / 1.8, rel=0.02)


# 500 lbf on a journal of 1.5 by 1.5 in at 30 turns a second, radial clearance 0.0015 in, 4 ureyn.
BEARING = (500, 1.5, 1.5, 0.003, "0.02758 Pa.s", 1800)


def test_the_flow_of_a_textbooks_bearing(agree, eng):
    # Side flow 0.142 cubic inches a second.
    flow = eng("BEARING_OIL_FLOW", *BEARING)
    agree("BEARING_OIL_FLOW", SHIGLEY, 0.142 * 16.387064 * 60, flow, rel=0.02)


def test_the_temperature_rise_of_a_textbooks_bearing(agree, eng):
    # 9.70 * rise / P = 3.50 / (4.28 * (1 - 0.655 / 2)), with 0.0311 lb/cu in and 0.42 Btu/lb.F.
    rise = 222.2 / 9.70 * 3.50 / (4.28 * (1 - 0.655 / 2))
    got = eng("BEARING_TEMPERATURE_RISE", *BEARING, 0.0311 * 1728, 0.42 * 4186.8)
    agree("BEARING_TEMPERATURE_RISE", SHIGLEY, rise, got, rel=0.02)


def test_a_lightly_loaded_bearing_has_no_rise_to_tell(eng):
    with pytest.raises(ArgumentError, match="off center by 0\\.1"):
        eng("BEARING_TEMPERATURE_RISE", 1, *BEARING[1:])
    assert eng("BEARING_OIL_FLOW", 1, *BEARING[1:]) > 0


@pytest.mark.parametrize("eccentricity", [0.0, 0.4, 0.8])
def test_oil_that_its_pressure_drives_through_two_lands(agree, eng, eccentricity):
    # Journal 62 mm, lands of 9 mm, clearance 0.06 mm, 400 kPa, 8 mPa.s. In each strip of the gap
    # the oil's speeds at 99 heights are solved for: viscosity * u'' = -400 kPa / 9 mm, 0 at walls.
    def strip(t):
        gap = 0.00003 * (1 + eccentricity * math.cos(t))
        bands = np.array([[-1.0] * 99, [2.0] * 99, [-1.0] * 99])
        push = np.full(99, 400e3 / 0.009 / 0.008 * (gap / 100) ** 2)
        return linalg.solve_banded((1, 1), bands, push).sum() * gap / 100 * 0.031

    flow = 2 * integrate.quad(strip, 0, 2 * math.pi)[0]
    got = eng("PRESSURE_FED_FLOW", 62, 9, 0.06, eccentricity, 400, 8, "metric")
    source = independent("speeds of the oil across the gap", linalg.solve_banded, integrate.quad)
    agree("PRESSURE_FED_FLOW", source, flow * 60e6, got, rel=2e-4)


def test_twice_the_clearance_passes_eight_times_the_oil(eng):
    one, two = (eng("PRESSURE_FED_FLOW", 2.45, 0.4, c, 0.5, 60, 8) for c in (0.0015, 0.003))
    assert two == pytest.approx(8 * one)


def test_what_a_pump_delivers(agree, eng):
    # 18 cc a turn at 3000 turns a minute, nine tenths of it.
    got = eng("OIL_PUMP_DELIVERY", 18, 6000, 0.5, 0.9, "metric")
    agree("OIL_PUMP_DELIVERY", arithmetic(), 18 * 3000 * 0.9, got)

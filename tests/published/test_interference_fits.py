"""Interference fits: textbooks' worked rings, and both rings' equilibrium solved by scipy."""

import numpy as np
import pytest
from scipy.integrate import solve_bvp
from sources import COMPANIONS, independent, printed

from workbook_tools.catalog import tables

BORESI = "Boresi & Schmidt, Advanced Mechanics of Materials"
BHAVIKATTI = "Bhavikatti, Strength of Materials"
RINGS = independent("equilibrium of both rings as a boundary value problem", solve_bvp)
STEEL = tables.modulus("steel") / 1e9


def test_boresi_shrink_fit(agree, eng):
    # Radii 10, 25 and 50 mm, 0.072 mm on the radius, E 200 GPa: of one material the pressure
    # grows with its modulus alone. The notebook rounds a constant, which takes 0.02 %.
    source = printed(BORESI, "Example 11.3, p. 398", COMPANIONS)
    pressure = eng("FIT_PRESSURE", 0.144, 50, 100, 20, "steel", "steel", "metric")
    agree("FIT_PRESSURE", source, 188.97, pressure * 200 / STEEL, rel=3e-4)
    agree("HUB_STRESS", source, 314.94, eng("HUB_STRESS", 188.97, 50, 100, "metric"), rel=1e-4)
    got = eng("SHAFT_STRESS", 188.97, 50, 20, "metric")
    agree("SHAFT_STRESS", source, -449.92, got, rel=1e-4)
    # 0.025 mm of clearance on the radius, expansion 11.7e-6, which is steel's in our table.
    rise = eng("HUB_RISE_TO_ASSEMBLE", 0.144, 0.05, 50, "steel", "steel", 0, "metric")
    agree("HUB_RISE_TO_ASSEMBLE", source, 331.6, rise, rel=1e-4)
    # The inner part chilled by as much, and a hub heated so that nothing is left of the fit.
    chill = eng("SHAFT_RISE_TO_ASSEMBLE", 0.144, 0.05, 50, "steel", "steel", 0, "metric")
    agree("SHAFT_RISE_TO_ASSEMBLE", source, -331.6, chill, rel=1e-4)
    hot = eng("HOT_INTERFERENCE", 0.144, 50, 331.6, 0, "steel", "steel", "metric")
    agree("HOT_INTERFERENCE", source, -0.05, hot, abs=2e-5)


@pytest.mark.parametrize(
    ("place", "radii", "difference", "pressure"),
    [
        ("Example 8.16, p. 348", (100, 125, 150), 0.189, 30.0),
        ("Example 8.17, p. 350", (150, 200, 250), 0.1, 12.3),
    ],
)
def test_bhavikatti_compound_tubes(agree, eng, place, radii, difference, pressure):
    inside, fit, outside = (2 * radius for radius in radii)
    got = eng("FIT_PRESSURE", 2 * difference, fit, outside, inside, "steel", "steel", "metric")
    source = printed(BHAVIKATTI, place, COMPANIONS)
    agree("FIT_PRESSURE", source, pressure, got * 200 / STEEL, rel=3e-3)


def solved(interference, diameter, outside, inside, hub, shaft):
    """Pressure, hub's and shaft's largest hoop stress in MPa, from equilibrium and Hooke's law.

    Both rings run over the same 0 to 1; each has its displacement (in mm, times 1000) and its
    radial stress.
    """
    spans = [(inside / 2, diameter / 2), (diameter / 2, outside / 2)]
    stuff = [(tables.modulus(name) / 1e6, tables.poisson(name)) for name in (shaft, hub)]

    def hoop(part, radius, moved, radial):
        modulus, poisson = stuff[part]
        return modulus * moved / 1000 / radius + poisson * radial

    def slopes(t, y):
        rows = []
        for part, (low, high) in enumerate(spans):
            radius = low + t * (high - low)
            moved, radial = y[2 * part], y[2 * part + 1]
            around = hoop(part, radius, moved, radial)
            modulus, poisson = stuff[part]
            rows.append((high - low) * (radial - poisson * around) / modulus * 1000)
            rows.append((high - low) * (around - radial) / radius)
        return np.vstack(rows)

    def ends(left, right):
        # Free inside and outside; one pressure where they meet, and no gap there.
        gap = left[2] - right[0] - 1000 * interference / 2
        return np.array([left[1], right[3], right[1] - left[3], gap])

    found = solve_bvp(slopes, ends, np.linspace(0, 1, 101), np.zeros((4, 101)), tol=1e-8)
    assert found.success
    left, right = found.sol(0), found.sol(1)
    return -right[1], hoop(1, diameter / 2, left[2], left[3]), hoop(0, inside / 2, left[0], 0)


@pytest.mark.parametrize(
    ("interference", "diameter", "outside", "inside", "hub", "shaft"),
    [
        (0.10, 36, 60, 29, "aluminum a356", "gray iron"),  # A seat.
        (0.06, 13, 24, 8, "gray iron", "bearing bronze"),  # A guide.
        (0.05, 105, 118, 100, "aluminum", "ductile iron"),  # A liner.
        (0.08, 26, 38, 23, "alloy steel", "aluminum bronze"),  # A bushing.
        (0.045, 32, 60, 12, "ductile iron", "steel"),  # A hub on a bored snout.
    ],
)
def test_two_rings_in_equilibrium(agree, eng, interference, diameter, outside, inside, hub, shaft):
    pressure, tension, squeeze = solved(interference, diameter, outside, inside, hub, shaft)
    sizes = (interference, diameter, outside, inside)
    got = eng("FIT_PRESSURE", *sizes, hub, shaft, "metric")
    agree("FIT_PRESSURE", RINGS, pressure, got, rel=1e-6)
    agree("HUB_STRESS", RINGS, tension, eng("HUB_STRESS", got, *sizes[1:3], "metric"), rel=1e-6)
    stress = eng("SHAFT_STRESS", got, diameter, inside, "metric")
    agree("SHAFT_STRESS", RINGS, squeeze, stress, rel=1e-6)

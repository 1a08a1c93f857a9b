"""Whole engines: worked examples of two textbooks, and the exact motion of every layout by FFT."""

import math

import numpy as np
import pytest
from each_case import each
from scipy.optimize import minimize_scalar
from sources import COMPANIONS, independent, printed

from workbook_tools.catalog import ArgumentError

BEVAN = "Bevan, The Theory of Machines, ch. 14"
SARKAR = "Sarkar, Theory of Machines"
EXACT = independent("Fourier orders of the exact motion of all pistons", np.fft.rfft, np.fft.irfft)

# Crank angles, bank angles, places along the crank in spacings.
LAYOUTS = {
    "in line 2": ((0, 180), (0, 0), (0, 1)),
    "in line 3": ((0, 120, 240), (0,) * 3, (0, 1, 2)),
    "in line 4": ((0, 180, 180, 0), (0,) * 4, (0, 1, 2, 3)),
    "in line 5": ((0, 144, 216, 288, 72), (0,) * 5, (0, 1, 2, 3, 4)),
    "in line 6": ((0, 120, 240, 240, 120, 0), (0,) * 6, (0, 1, 2, 3, 4, 5)),
    "V2 of 90": ((0, 0), (-45, 45), (0, 0)),
    "V2 of 60": ((0, 0), (-30, 30), (0, 0)),
    "flat twin": ((0, 180), (-90, 90), (0, 1)),
    "V6 of 90": ((0, 0, 120, 120, 240, 240), (-45, 45) * 3, (0, 0, 1, 1, 2, 2)),
    "V8 cross-plane": ((0, 0, 90, 90, 270, 270, 180, 180), (-45, 45) * 4, (0, 0, 1, 1, 2, 2, 3, 3)),
    "V8 flat-plane": ((0, 0, 180, 180, 180, 180, 0, 0), (-45, 45) * 4, (0, 0, 1, 1, 2, 2, 3, 3)),
}
# 1 kg, stroke 200 mm, rod 1000 mm, 100 rad/s.
PARTS = (1000, 200, 1000, 6000 / (2 * math.pi))


def rows(numbers):
    return (tuple(map(float, numbers)),)


def over_a_turn(layout, order, arms):
    """The largest force of one order, in N, from where all pistons are at each half degree."""
    cranks, banks, _ = (np.radians(part) for part in LAYOUTS[layout])
    turn = np.radians(np.arange(0, 360, 0.5))[:, None] + cranks - banks
    place = 0.1 * np.cos(turn) + np.sqrt(1 - (0.1 * np.sin(turn)) ** 2)
    moments = place * np.asarray(arms)
    orders = np.fft.rfft(np.stack([moments @ np.sin(banks), moments @ np.cos(banks)]), axis=1)
    wanted = 1 if order == "first" else 2
    orders[:, np.arange(orders.shape[1]) != wanted] = 0
    force = np.fft.irfft(orders, axis=1) * (wanted * 100) ** 2
    return float(np.linalg.norm(force, axis=0).max())


@each("order", ["first", "second"])
@each("layout", LAYOUTS)
def test_every_layout(agree, eng, layout, order):
    cranks, banks, places = LAYOUTS[layout]
    given = (rows(cranks), rows(banks))
    expected = over_a_turn(layout, order, [1] * len(cranks))
    force = eng("SHAKING_FORCE", *given, *PARTS, order, "metric")
    # The exact motion has a quarter percent more of the second order with this rod.
    rel = 1e-4 if order == "first" else 3e-3
    agree("SHAKING_FORCE", EXACT, expected, force, rel=rel, abs=1e-8)
    arms = np.asarray(places, float)
    expected = over_a_turn(layout, order, arms - arms.mean())
    meters = rows(1000 * arms)
    couple = eng("SHAKING_COUPLE", *given, meters, *PARTS, order, "metric")
    agree("SHAKING_COUPLE", EXACT, expected, couple, rel=rel, abs=1e-8)


def test_what_cancels_is_zero(eng):
    cranks, banks, _ = LAYOUTS["in line 4"]
    assert eng("SHAKING_FORCE", rows(cranks), rows(banks), *PARTS, "first", "metric") == 0
    assert eng("SHAKING_FORCE", rows(cranks), rows(banks), *PARTS, "second", "metric") > 0


def test_three_cylinders_in_a_fan(agree, eng):
    # 4 lb, stroke 5 in, rod 9 in at 1500 rpm, axes at 120 degrees on one pin: 266.07 lbf.
    given = (rows((0, 0, 0)), rows((0, 120, 240)))
    force = eng("SHAKING_FORCE", *given, "4 lb", 5, 9, 1500, "second")
    source = printed(BEVAN, "Ex. 12, p. 517", COMPANIONS)
    agree("SHAKING_FORCE", source, 266.07, force, rel=1.5e-3)


def test_four_in_line_with_cranks_at_90_degrees(agree, eng):
    # 1.5 kg, crank 60 mm, rod 240 mm, 1800 rpm, spacing 150 mm: 675 and 479.66 N.m.
    given = (rows((0, 180, 270, 90)), rows((0,) * 4), rows((0, 150, 300, 450)))
    source = printed(SARKAR, "Ill. 12.8, p. 320", COMPANIONS)
    for order, expected, rel in (("first", 675, 6e-3), ("second", 479.66, 1e-3)):
        got = eng("SHAKING_COUPLE", *given, 1500, 120, 240, 1800, order, "metric")
        agree("SHAKING_COUPLE", source, expected, got, rel=rel)


@pytest.mark.parametrize(("position", "near", "far"), [(-10, 144, -24), (10, 96, 24)])
def test_one_mass_in_two_planes(agree, eng, position, near, far):
    # 200 lb at 9 in, balanced at 15 in in planes 50 in apart, 10 in outside them or between.
    whole = eng("UNBALANCE", "200 lb", 9)
    source = printed(BEVAN, "Ex. 1, p. 491", COMPANIONS)
    for planes, pounds in (((0, 50), near), ((50, 0), far)):
        got = eng("PLANE_CORRECTION", whole, position, *planes)
        sign = math.copysign(1, pounds)
        expected = sign * eng("UNBALANCE", f"{abs(pounds)} lb", 15)
        agree("PLANE_CORRECTION", source, expected, got)


@pytest.mark.parametrize(
    ("name", "arguments", "parameter"),
    [
        ("SHAKING_FORCE", (rows((0, 180)), rows((0,)), *PARTS, "first"), "bank_angles"),
        ("SHAKING_COUPLE", (rows((0, 1)), rows((0, 0)), rows((0,)), *PARTS, "first"), "positions"),
        ("SHAKING_FORCE", (((0.0, None),), rows((0, 0)), *PARTS, "first"), "crank_angles"),
        ("PLANE_CORRECTION", (1, 4, 2, 2), "other_plane"),
    ],
)
def test_what_is_refused(eng, name, arguments, parameter):
    with pytest.raises(ArgumentError) as refused:
        eng(name, *arguments, "metric")
    assert refused.value.parameter == parameter


SINGLE = {"single": ((0,), (0,), (0,))}
# In the trade: half for singles, Vs of 90 degrees, threes; nothing for inline fours and sixes.
HALVES = {
    "single", "in line 2", "in line 3", "in line 5", "V2 of 90", "V2 of 60", "flat twin",
    "V6 of 90", "V8 cross-plane",
}  # fmt: skip


@pytest.mark.parametrize("layout", [*LAYOUTS, *SINGLE])
def test_the_factor_that_shakes_least(agree, eng, layout):
    # Bobweights of every factor at the pins beside the pistons' own forces, over a turn: the
    # factor with the least of forces (or, where they cancel, of couples) is searched for.
    cranks, banks, places = map(np.asarray, (LAYOUTS | SINGLE)[layout])
    turn = np.radians(np.arange(0, 360, 2))[:, None]
    pins, axes = turn + np.radians(cranks), np.radians(banks)
    along = np.stack([np.sin(axes), np.cos(axes)])
    pistons = along[:, None, :] * np.cos(pins - axes)
    turning = np.stack([np.sin(pins), np.cos(pins)])

    def shaking(factor, arms):
        rest = ((pistons - factor * turning) * arms).sum(axis=2)
        return float(np.linalg.norm(rest, axis=0).max())

    def least(arms):
        flat = abs(shaking(0, arms) - shaking(1, arms)) < 1e-9 and shaking(0.5, arms) > (
            shaking(0, arms) - 1e-9
        )
        found = minimize_scalar(shaking, args=(arms,), bounds=(0, 1), method="bounded").x
        return None if flat else found

    arms = places - places.mean()
    wanted = [least(a) for a in (np.ones(len(cranks)), arms)]
    expected = next((x for x in wanted if x is not None), 0.0)
    source = independent("least shaking searched over all factors", minimize_scalar)
    got = eng("BALANCE_FACTOR", rows(cranks), rows(places), "metric")
    agree("BALANCE_FACTOR", source, float(expected), got, abs=1e-4)
    assert (got == 0.5) == (layout in HALVES)


def test_a_factor_needs_every_pin(eng):
    with pytest.raises(ArgumentError, match="positions: expected as many as crank angles"):
        eng("BALANCE_FACTOR", rows((0, 180)), rows((0, 1, 2)))


@pytest.mark.parametrize(("at", "planes"), [(120, (0, 610)), (700, (-20, 590)), (-60, (0, 600))])
def test_masses_at_both_ends_of_a_crank(agree, eng, at, planes):
    # 2500 g.mm; forces and moments of both masses, turning together, leave nothing.
    ends = np.array([[1.0, 1.0], planes])
    damper, flywheel = np.linalg.solve(ends, 2500 * np.array([1.0, at])) / (72, 140)
    source = independent("forces and moments in equilibrium", np.linalg.solve)
    got = eng("EXTERNAL_BALANCE_MASS", 2500, at, *planes, 72, "metric")
    agree("EXTERNAL_BALANCE_MASS", source, float(damper), got)
    got = eng("EXTERNAL_BALANCE_MASS", 2500, at, *planes[::-1], 140, "metric")
    agree("EXTERNAL_BALANCE_MASS", source, float(flywheel), got)

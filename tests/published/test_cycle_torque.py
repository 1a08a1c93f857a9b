"""Torque through a cycle: work of the gas around the indicator diagram, energy of the pistons."""

import math

import numpy as np
import pytest
from scipy import integrate, interpolate
from sources import independent

from workbook_tools.catalog import ArgumentError

BORE, STROKE, ROD, MASS = 0.086, 0.086, 0.145, 0.52
POUND_FOOT = 1.3558179483  # N.m
AREA = math.pi / 4 * BORE**2
WORK = independent("work around the indicator diagram", integrate.trapezoid)
ENERGY = independent("work of the gas and energy of the pistons", np.gradient)


def down(turn):
    """The piston below top dead center, in m."""
    return (
        STROKE / 2 * (1 - np.cos(turn)) + ROD - np.sqrt(ROD**2 - (STROKE / 2 * np.sin(turn)) ** 2)
    )


def pressures(steps, strokes=4):
    """A cycle's gas over the crankcase's pressure, kPa: compressed, burned, let out."""
    turn = np.arange(steps) / steps * strokes * math.pi
    closed = AREA * (down(turn) + STROKE / 9)
    full = AREA * (STROKE + STROKE / 9)
    squeezed = 100 * (full / closed) ** 1.3
    fired = 350 * (full / closed) ** 1.3
    expands, compresses = turn < math.pi, turn > (strokes - 1) * math.pi
    return np.where(expands, fired, np.where(compresses, squeezed, 100)) - 100


@pytest.mark.parametrize("strokes", [2, 4])
@pytest.mark.parametrize("cylinders", [1, 4, 8])
def test_mean_of_the_gas(agree, eng, strokes, cylinders):
    steps = 180 * strokes
    gas = pressures(steps, strokes)
    turn = np.arange(steps + 1) / steps * strokes * math.pi
    work = integrate.trapezoid(np.append(gas, gas[0]) * 1000, AREA * down(turn))
    expected = cylinders * work / (strokes * math.pi)
    got = eng(
        "MEAN_CYCLE_TORQUE", (tuple(gas),), BORE * 1e3, STROKE * 1e3, ROD * 1e3, cylinders,
        strokes, "metric",
    )  # fmt: skip
    agree("MEAN_CYCLE_TORQUE", WORK, float(expected), got, rel=2e-3)
    if strokes == 4:
        sizes = (BORE * 1e3, STROKE * 1e3, ROD * 1e3)
        texts = tuple(f"{pressure} kPa" for pressure in gas)
        left_out = eng("MEAN_CYCLE_TORQUE", (texts,), *(f"{x} mm" for x in sizes), cylinders)
        agree("MEAN_CYCLE_TORQUE", WORK, float(expected), left_out * POUND_FOOT, rel=2e-3)


@pytest.mark.parametrize(("cylinders", "strokes"), [(1, 4), (3, 4), (4, 4), (2, 2)])
@pytest.mark.parametrize("degrees", [15, 77, 200, 355, 610])
def test_torque_at_an_angle(agree, eng, cylinders, strokes, degrees):
    rpm = 4500
    speed = rpm * math.pi / 30
    gas = pressures(180 * strokes, strokes)
    cycle = strokes * math.pi
    places = np.append(np.arange(gas.size) / gas.size, 1) * cycle
    line = interpolate.make_interp_spline(places, np.append(gas, gas[0]), k=1)
    turn = np.linspace(-1e-3, 1e-3, 5) + math.radians(degrees)
    torque = 0.0
    for number in range(cylinders):
        own = turn - number * cycle / cylinders
        # Work that the gas does, less what the piston's speed takes up.
        gained = line(own[2] % cycle) * 1000 * AREA * np.gradient(down(own), own)
        kinetic = MASS / 2 * (np.gradient(down(own), own) * speed) ** 2
        torque += float((gained - np.gradient(kinetic, own))[2])
    got = eng(
        "CYCLE_TORQUE", (tuple(gas),), BORE * 1e3, STROKE * 1e3, ROD * 1e3, MASS * 1e3, rpm,
        cylinders, degrees, strokes, "metric",
    )  # fmt: skip
    agree("CYCLE_TORQUE", ENERGY, torque, got, rel=1e-4, abs=0.01)
    if strokes == 4:
        left_out = eng(
            "CYCLE_TORQUE", (tuple(f"{pressure} kPa" for pressure in gas),), f"{BORE * 1e3} mm",
            f"{STROKE * 1e3} mm", f"{ROD * 1e3} mm", MASS * 1e3, rpm, cylinders, degrees,
        )  # fmt: skip
        agree("CYCLE_TORQUE", ENERGY, torque, left_out * POUND_FOOT, rel=1e-4, abs=0.01)


def test_the_mean_through_the_cycle_is_that_of_the_gas(eng):
    gas = (tuple(pressures(720)),)
    sizes = (BORE * 1e3, STROKE * 1e3, ROD * 1e3)
    through = [
        eng("CYCLE_TORQUE", gas, *sizes, MASS * 1e3, 4500, 4, degrees, 4, "metric")
        for degrees in range(0, 180, 3)
    ]
    mean = eng("MEAN_CYCLE_TORQUE", gas, *sizes, 4, 4, "metric")
    assert np.mean(through) == pytest.approx(mean, rel=4e-3)
    assert max(through) > 2 * mean


@pytest.mark.parametrize(
    ("block", "strokes", "parameter"),
    [
        (((100,) * 20,), 4, "gas_pressures"),
        (((100,) * 35 + ("",),), 4, "gas_pressures"),
        (((100,) * 36,), 3, "strokes"),
    ],
)
def test_what_is_refused(eng, block, strokes, parameter):
    with pytest.raises(ArgumentError) as refused:
        eng("MEAN_CYCLE_TORQUE", block, 86, 86, 145, 4, strokes, "metric")
    assert refused.value.parameter == parameter

"""Short equations of air, valves and verdicts by another way than their own."""

import itertools
import math

import numpy as np
import pandas as pd
import pytest
import scipy.linalg
import scipy.optimize
import sympy
from CoolProp.CoolProp import PropsSI
from scipy import integrate, stats
from sources import independent
from sympy.physics import mechanics

BAR = 1e5
WATER_COLUMN = 249.08891  # Pa in an inch of water


def kelvin(celsius):
    return celsius + 273.15


def test_curtain_and_throat_as_surfaces(agree, eng):
    # Both summed up in small pieces: around and up, across without the stem.
    source = independent("area summed over the surface", integrate.dblquad)
    curtain = integrate.dblquad(lambda _, __: 45 / 2, 0, 2 * math.pi, 0, 11)[0] / 100
    agree("CURTAIN_AREA", source, curtain, eng("CURTAIN_AREA", 45, 11, "metric"), rel=1e-8)
    throat = integrate.dblquad(lambda r, _: r, 0, 2 * math.pi, 3.5, 20)[0] / 100
    agree("THROAT_AREA", source, throat, eng("THROAT_AREA", 40, 7, "metric"), rel=1e-8)


def ideal_flow(drop):
    """Real air that goes through a perfect nozzle from a still room, m3/s of it for 1 m2."""
    at = ("T", kelvin(20), "P", 101325, "Air")
    entropy = PropsSI("S", *at)
    below = ("S", entropy, "P", 101325 - drop, "Air")
    speed = math.sqrt(2 * (PropsSI("H", *at) - PropsSI("H", *below)))
    return speed * PropsSI("D", *below) / PropsSI("D", *at)


@pytest.mark.parametrize(("first", "other"), [(10, 28), (25, 28), (28, 10), (3, 5)])
def test_flow_at_another_pressure(agree, eng, first, other):
    # The help says that from 10 to 28 inH2O it tells 2.5 % too much.
    source = independent("real air in a perfect nozzle", PropsSI)
    ratio = ideal_flow(other * WATER_COLUMN) / ideal_flow(first * WATER_COLUMN)
    got = eng("FLOW_AT_PRESSURE", 180, first, other)
    agree("FLOW_AT_PRESSURE", source, 180 * ratio, got, rel=0.028)
    assert got == pytest.approx(180 * ratio, rel=2e-3 * abs(other - first))


@pytest.mark.parametrize(("boost", "strokes"), [(0.5, 4), (1.1, 4), (0.4, 2)])
def test_a_blower_whose_mass_the_engine_draws(agree, eng, boost, strokes):
    # The drive at which what the blower takes from the room goes into the engine, real air.
    room = PropsSI("D", "T", kelvin(25), "P", BAR, "Air")
    charge = PropsSI("D", "T", kelvin(60), "P", BAR * (1 + boost), "Air")

    def left(drive):
        moved = 100 * drive * 2.3e-3 * 0.85 * room
        cycles = 100 * 2 / strokes
        return moved - cycles * 5.6e-3 * 0.95 * charge

    expected = scipy.optimize.brentq(left, 0.01, 20)
    source = independent("masses in and out by search, real air", scipy.optimize.brentq, PropsSI)
    ratio = charge / room
    got = eng("BLOWER_DRIVE_RATIO", 5600, 2300, ratio, 0.95, 0.85, strokes, "metric")
    agree("BLOWER_DRIVE_RATIO", source, expected, got, rel=1e-8)


def test_a_wave_on_a_grid(agree, eng):
    # A pulse of pressure starts at the closed end, turns its sign at the open one and is back.
    places, length, speed = 2000, 0.42, 540.0
    now = np.zeros(places)
    now[0], before = 1.0, np.zeros(places)
    step = length / places / speed
    for number in itertools.count(1):
        # By steps in which the wave runs from place to place the grid is exact.
        left, right = np.roll(now, 1), np.roll(now, -1)
        left[0], right[-1] = now[0], -now[-1]
        now, before = left + right - before if number > 1 else (left + right) / 2, now
        if now[0] < -0.4:
            break
    degrees = math.degrees(number * step * 6000 * math.pi / 30)
    source = independent("wave on a grid in steps of time", np.roll)
    got = eng("TUNED_LENGTH", speed, 6000, degrees, "metric")
    agree("TUNED_LENGTH", source, length * 1000, got, rel=2e-3)


def test_the_length_of_a_stopped_pipe_for_a_tone(agree, eng):
    speed, tone, places = 343.0, 250.0, 400
    matrix = 2 * np.eye(places) - np.eye(places, k=1) - np.eye(places, k=-1)
    matrix[0, 0] = 1
    lowest = scipy.linalg.eigh(matrix, eigvals_only=True, subset_by_index=[0, 0])[0]
    # Frequency goes with one over the length: speed * sqrt(lowest) * places / (2 * pi * length).
    expected = speed * math.sqrt(lowest) * places / (2 * math.pi * tone)
    source = independent("wave equation on a grid", scipy.linalg.eigh)
    got = eng("QUARTER_WAVE_LENGTH", tone, speed, "metric")
    agree("QUARTER_WAVE_LENGTH", source, expected * 1000, got, rel=3e-3)


@pytest.mark.parametrize(("tone", "speed"), [(60.0, 343.0), (45.0, 520.0)])
def test_the_neck_of_a_volume_for_a_tone(agree, eng, tone, speed):
    # Exact for waves in the neck: k * tan(k * length) = area / volume.
    area, volume = 3e-4, 5e-3
    wave = 2 * math.pi * tone / speed
    expected = scipy.optimize.brentq(
        lambda long: wave * math.tan(wave * long) - area / volume, 1e-6, 0.5 * math.pi / 2 / wave
    )
    source = independent("wave in the neck of a volume", scipy.optimize.brentq)
    got = eng("HELMHOLTZ_LENGTH", area * 1e4, volume * 1e6, tone, speed, "metric")
    agree("HELMHOLTZ_LENGTH", source, expected * 1000, got, rel=0.03)


@pytest.mark.parametrize(("grams", "nose", "load"), [(130, -9000, 1400), (85, -15000, 1000)])
def test_the_spring_that_holds_a_valve(agree, eng, grams, nose, load):
    # Lagrange's equation of a valve on a moving cam; the cam's push is what the motion leaves.
    t, mass, force, push = sympy.symbols("t mass force push")
    lift = mechanics.dynamicsymbols("lift")
    frame, point = mechanics.ReferenceFrame("N"), mechanics.Point("valve")
    point.set_vel(frame, lift.diff(t) * frame.x)
    valve = mechanics.Particle("valve", point, mass)
    energy = mechanics.Lagrangian(frame, valve)
    forces = [(point, (push - force) * frame.x)]
    motion = mechanics.LagrangesMethod(energy, [lift], forcelist=forces, frame=frame)
    equation = motion.form_lagranges_equations()[0]
    values = {lift.diff(t, 2): nose, mass: grams / 1000}
    source = independent("Lagrange's equation solved for the cam's push", sympy.solve)
    needed = sympy.solve(equation.subs(values).subs(push, 0), force)[0]
    got = eng("SPRING_FORCE_NEEDED", grams, nose, "metric")
    agree("SPRING_FORCE_NEEDED", source, float(needed), got)
    left = sympy.solve(equation.subs(values).subs(force, load), push)[0]
    agree("SPRING_MARGIN", source, float(left), eng("SPRING_MARGIN", load, grams, nose, "metric"))


@pytest.mark.parametrize("ratio", [11.0, 14.6, 17.5])
def test_lambda_by_the_atoms_of_the_exhaust(agree, eng, ratio):
    # Fuel CH1.87 burned in dry air: carbon, hydrogen, oxygen and nitrogen go into CO2, H2O, N2 and
    # oxygen left over (below nothing where it is missing).
    fuel = 12.011 + 1.87 * 1.008
    moles = ratio * fuel / 28.9647
    oxygen, rest = 0.2095 * moles, 0.7905 * moles
    atoms = np.array([[1, 0, 0, 0], [0, 2, 0, 0], [2, 1, 2, 0], [0, 0, 0, 2]], dtype=float)
    _, _, over, _ = np.linalg.solve(atoms, np.array([1, 1.87, 2 * oxygen, 2 * rest]))
    source = independent("balance of the exhaust's atoms", np.linalg.solve)
    needed = eng("STOICHIOMETRIC_RATIO", "gasoline")
    got = eng("LAMBDA_FROM_RATIO", ratio, needed)
    agree("LAMBDA_FROM_RATIO", source, float(oxygen / (oxygen - over)), got, rel=1e-3)


@pytest.mark.parametrize("value", [0.0345, 0.035, 0.041, 0.045, 0.0451])
def test_verdicts_as_intervals(agree, eng, value):
    cut = pd.cut([value], [-np.inf, 0.035 - 1e-12, 0.045 + 1e-12, np.inf], labels=False)
    word = ("low", "ok", "high")[int(cut[0])]
    source = independent("which interval holds a value", pd.cut)
    agree("VERDICT", source, word, eng("VERDICT", value, 0.035, 0.045))


@pytest.mark.parametrize(
    "readings",
    [(21, 24, 20, 30, 23), (21, 24, 19, 25, 23), (21, 24, 22, 25, 31), (19, 24, 22, 25, 31)],
)
def test_all_of_a_row_as_intervals(agree, eng, readings):
    cut = pd.cut(list(readings), [0, 19.999, 30.001, 99], labels=["low", "ok", "high"])
    found = [word for word in ("low", "high") if word in set(cut)]
    source = independent("which interval holds each value", pd.cut)
    got = eng("JUDGE", (readings,), 5, 20, 30)
    agree("JUDGE", source, " and ".join(found) or "ok", got)


@pytest.mark.parametrize("value", [8.7, 8.79, 8.81, 9.1, 9.19, 9.21, 10, 10.79, 10.81, 11.19, 11.3])
def test_a_guarded_verdict_by_the_chance_that_it_is_right(agree, eng, value):
    # Where the value spreads normally by U / 2 the guard band leaves 2.3 % of a wrong verdict.
    true = stats.norm(value, 0.1)
    low, high = true.cdf(9), true.sf(11)
    sure = stats.norm.cdf(2)
    word = "ok" if max(low, high) <= 1 - sure else "low" if low >= sure else "cannot tell"
    word = "high" if high >= sure else word
    source = independent("chance of a wrong verdict", stats.norm.cdf)
    agree("GUARDED_VERDICT", source, word, eng("GUARDED_VERDICT", value, 9, 11, 0.2, "metric"))

"""Charge of a blown engine, waves in pipes: a textbook, real air by CoolProp, waves solved for."""

import math

import numpy as np
import pytest
import scipy.integrate
import scipy.linalg
import scipy.optimize
from CoolProp.CoolProp import PropsSI
from sources import COMPANIONS, arithmetic, independent, printed

from workbook_tools.catalog import ArgumentError

GUPTA = printed(
    "H. N. Gupta, Fundamentals of Internal Combustion Engines", "Ex. 15.5, p. 482", COMPANIONS
)
REAL_AIR = independent("properties of real air", PropsSI)
BAR = 1e5


def kelvin(celsius):
    return celsius + 273.15


def test_a_supercharger_whose_charge_is_cooled(agree, eng):
    # 4.5 l at 4000 rpm, 1.5 times filled with air of 290 K and 1 bar; ratio 1.8 at 0.90, cooled
    # to 330 K: 5.14 kJ/s go into the cooler's water.
    hot = eng("CHARGE_TEMPERATURE", "290 K", 1.8, 0.9, "metric")
    mass = 1.5 * 4.5e-3 * 4000 / 120 * BAR / (287 * 290)
    agree("CHARGE_TEMPERATURE", GUPTA, 5.14, mass * 1.005 * (kelvin(hot) - 330), rel=2e-3)


@pytest.mark.parametrize("size", [0.5, 1.2, 3.0])
def test_a_charge_that_cools_along_its_cooler(agree, eng, size):
    # Each step along the tubes takes heat by the difference to air that stays at 30 deg C; as much
    # size (in transfer units) reaches 1 - exp(-size) of the possible cooling.
    along = scipy.integrate.solve_ivp(lambda _, t: -size * (t - 30), (0, 1), [140], rtol=1e-9)
    source = independent("cooling along the tubes", scipy.integrate.solve_ivp)
    got = eng("COOLED_CHARGE_TEMPERATURE", 140, 30, 1 - math.exp(-size), "metric")
    agree("COOLED_CHARGE_TEMPERATURE", source, float(along.y[0, -1]), got, rel=1e-6)


@pytest.mark.parametrize(("celsius", "ratio", "efficiency"), [(25, 2, 0.7), (40, 1.5, 0.62)])
def test_real_air_in_a_compressor(agree, eng, celsius, ratio, efficiency):
    before = PropsSI("H", "T", kelvin(celsius), "P", BAR, "Air")
    entropy = PropsSI("S", "T", kelvin(celsius), "P", BAR, "Air")
    ideal = PropsSI("H", "S", entropy, "P", ratio * BAR, "Air")
    after = PropsSI("T", "H", before + (ideal - before) / efficiency, "P", ratio * BAR, "Air")
    hot = eng("CHARGE_TEMPERATURE", celsius, ratio, efficiency, "metric")
    agree("CHARGE_TEMPERATURE", REAL_AIR, after, kelvin(hot), rel=2e-3)
    denser = PropsSI("D", "T", after, "P", ratio * BAR, "Air") / PropsSI(
        "D", "T", kelvin(celsius), "P", BAR, "Air"
    )
    got = eng("CHARGE_DENSITY_RATIO", ratio, celsius, after - 273.15, "metric")
    agree("CHARGE_DENSITY_RATIO", REAL_AIR, denser, got, rel=2e-3)


def test_a_boost_gauge_and_the_drive_of_a_blower(agree, eng):
    # 10 psi over 14.696 psi; 5.7 l, two turns a filling, through a blower of 2.3 l a turn.
    source = arithmetic()
    agree("PRESSURE_RATIO", source, 1.680, eng("PRESSURE_RATIO", 10, 29.92), rel=1e-3)
    whole = eng("BLOWER_DRIVE_RATIO", 5700, 2300, 1.4, 0.95, 0.85, 4, "metric")
    per_turn = 5700 / 2 * 0.95 * 1.4
    agree("BLOWER_DRIVE_RATIO", source, per_turn, whole * 2300 * 0.85)


@pytest.mark.parametrize("celsius", [-20, 20, 120])
def test_sound_in_real_air(agree, eng, celsius):
    speed = PropsSI("A", "T", kelvin(celsius), "P", 101325, "Air")
    got = eng("SPEED_OF_SOUND", celsius, 1.4, "metric")
    agree("SPEED_OF_SOUND", REAL_AIR, speed, got, rel=3e-3)


def test_sound_in_hot_gas_takes_its_own_ratio_of_heats(agree, eng):
    heat = [PropsSI(name, "T", 900, "P", 101325, "Air") for name in ("CPMASS", "CVMASS", "A")]
    got = eng("SPEED_OF_SOUND", "900 K", heat[0] / heat[1], "metric")
    agree("SPEED_OF_SOUND", REAL_AIR, heat[2], got, rel=2e-3)


def test_the_lowest_tone_of_a_stopped_pipe(agree, eng):
    # The wave equation on 400 places: no slope at the closed end, no pressure at the open one.
    places, length, speed = 400, 0.3, 343.0
    step = length / places
    matrix = 2 * np.eye(places) - np.eye(places, k=1) - np.eye(places, k=-1)
    matrix[0, 0] = 1
    lowest = scipy.linalg.eigh(matrix / step**2, eigvals_only=True, subset_by_index=[0, 0])[0]
    source = independent("wave equation on a grid", scipy.linalg.eigh)
    got = eng("QUARTER_WAVE_FREQUENCY", 300, speed, "metric")
    agree(
        "QUARTER_WAVE_FREQUENCY", source, speed * math.sqrt(lowest) / (2 * math.pi), got, rel=3e-3
    )


def test_a_volume_that_breathes_through_a_short_neck(agree, eng):
    # Exact for a neck in which waves run: k * tan(k * length) = area / volume. Short against the
    # wave the neck is a plug of air.
    area, length, volume, speed = 3e-4, 0.05, 5e-3, 343.0
    wave = scipy.optimize.brentq(
        lambda k: k * math.tan(k * length) - area / volume, 1e-6, 0.9 * math.pi / 2 / length
    )
    source = independent("wave in the neck of a volume", scipy.optimize.brentq)
    got = eng("HELMHOLTZ_FREQUENCY", area * 1e4, length * 1e3, volume * 1e6, speed, "metric")
    agree("HELMHOLTZ_FREQUENCY", source, speed * wave / (2 * math.pi), got, rel=2e-3)


def test_a_wave_there_and_back(agree, eng):
    # 120 degrees at 6000 rpm are a three hundredth of a second.
    got = eng("TUNED_LENGTH", 540, 6000, 120, "metric")
    agree("TUNED_LENGTH", arithmetic(), 540 / 300 / 2 * 1000, got)


@pytest.mark.parametrize(
    ("name", "arguments", "parameter"),
    [
        ("CHARGE_TEMPERATURE", (80, 0.9, 0.7), "pressure_ratio"),
        ("CHARGE_TEMPERATURE", (80, 1.7, 70), "efficiency"),
        ("COOLED_CHARGE_TEMPERATURE", (90, 120, 0.7), "coolant_temperature"),
        ("BLOWER_DRIVE_RATIO", (350, 174, 1.4, 0.95, 0.85, 3), "strokes"),
        ("SPEED_OF_SOUND", (900, 1), "heat_ratio"),
        ("TUNED_LENGTH", (20, 6500, 120), "speed_of_sound"),
    ],
)
def test_what_is_refused(eng, name, arguments, parameter):
    with pytest.raises(ArgumentError) as refused:
        eng(name, *arguments)
    assert refused.value.parameter == parameter

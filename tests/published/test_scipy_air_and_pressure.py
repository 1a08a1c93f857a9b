"""Air, gas pressure and oil pressure followed through a turn or over a face, summed up by scipy."""

import math

import pint
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq
from sources import independent

UNIT = pint.UnitRegistry()
DRAWN = independent("air drawn by the moving pistons, summed up over a minute", quad)
PASSED = independent("air in the port, averaged over the stroke", quad)
WORK = independent("work of the gas on the piston over a cycle", quad)
PRESSED = independent("pressure summed up over the plunger's face", quad, brentq)


def rising(stroke, rod):
    """Way of the piston for each radian of the crank, from its place by circle and line."""

    def place(angle):
        return stroke / 2 * math.cos(angle) + math.sqrt(
            rod**2 - (stroke / 2 * math.sin(angle)) ** 2
        )

    step = 1e-5
    return lambda angle: (place(angle - step) - place(angle + step)) / (2 * step)


@pytest.mark.parametrize(("strokes", "turns"), [(4, 2), (2, 1)])
def test_air_of_a_minute(agree, eng, strokes, turns):
    # Six of 91.7 by 78.4 mm, rods 139 mm, 5800 rpm, filled to 88 %.
    bore, stroke, rod, cylinders, rpm = 9.17, 7.84, 13.9, 6, 5800
    area = math.pi / 4 * bore**2
    one = quad(lambda a: area * rising(stroke, rod)(a), 0, math.pi)[0]
    liters = 0.88 * one * cylinders * (rpm / turns) / 1000
    size = eng("DISPLACEMENT", 10 * bore, 10 * stroke, cylinders, "metric")
    got = eng("AIRFLOW", size, rpm, 0.88, strokes, "metric")
    agree("AIRFLOW", DRAWN, liters / 1000, got, rel=1e-7)
    inches = UNIT.Quantity(size, "cm**3").to("inch**3").magnitude
    feet = UNIT.Quantity(liters, "L").to("ft**3").magnitude
    # Four strokes need not be said.
    said = () if strokes == 4 else (strokes,)
    agree("AIRFLOW", DRAWN, feet, eng("AIRFLOW", inches, rpm, 0.88, *said), rel=1e-7)
    got = eng("VOLUMETRIC_EFFICIENCY", feet, inches, rpm, *said)
    agree("VOLUMETRIC_EFFICIENCY", DRAWN, 0.88, got, rel=1e-7)


@pytest.mark.parametrize(("rpm", "port"), [(6500, 12.8), (9200, 7.4)])
def test_air_in_a_port_follows_the_piston(agree, eng, rpm, port):
    bore, stroke, rod = 9.17, 7.84, 13.9
    omega = rpm * math.pi / 30

    def speed(angle):
        return rising(stroke, rod)(angle) * omega * math.pi / 4 * bore**2 / port / 100

    mean = quad(speed, 0, math.pi)[0] / math.pi
    got = eng("PORT_VELOCITY", 10 * bore, 10 * stroke, rpm, port, "metric")
    agree("PORT_VELOCITY", PASSED, mean, got, rel=1e-7)


@pytest.mark.parametrize(("strokes", "turns"), [(4, 2), (2, 1)])
@pytest.mark.parametrize("bar", [8.5, 13.0])
def test_mean_pressure_does_the_work_of_a_cycle(agree, eng, strokes, turns, bar):
    # A constant pressure on each of six pistons over its working stroke, nothing else.
    bore, stroke, rod, cylinders = 0.0917, 0.0784, 0.139, 6
    force = bar * 1e5 * math.pi / 4 * bore**2
    work = cylinders * quad(lambda a: force * rising(stroke, rod)(a), 0, math.pi)[0]
    torque = work / (2 * math.pi * turns)
    size = eng("DISPLACEMENT", 1000 * bore, 1000 * stroke, cylinders, "metric")
    got = eng("BMEP", torque, size, strokes, "metric")
    agree("BMEP", WORK, 100 * bar, got, rel=1e-7)
    if strokes == 4:
        got = eng("BMEP", f"{torque} N.m", f"{size} cc") * 6.894757293168
        agree("BMEP", WORK, 100 * bar, got, rel=1e-7)


def opening(spring, diameter):
    """Pressure at which a plunger's face, summed up ring by ring, carries the spring."""
    face = quad(lambda r: 2 * math.pi * r, 0, diameter / 2)[0]
    return brentq(lambda pressure: pressure * face - spring, 0, 1e9, xtol=1e-9)


@pytest.mark.parametrize(("newtons", "diameter"), [(47.0, 12.7), (93.0, 15.9)])
def test_relief_valve_opens(agree, eng, newtons, diameter):
    kilopascal = opening(newtons, diameter / 1000) / 1000
    got = eng("RELIEF_PRESSURE", newtons, diameter, "metric")
    agree("RELIEF_PRESSURE", PRESSED, kilopascal, got, rel=1e-9)
    pounds = UNIT.Quantity(newtons, "N").to("lbf").magnitude
    psi = UNIT.Quantity(kilopascal, "kPa").to("psi").magnitude
    agree("RELIEF_PRESSURE", PRESSED, psi, eng("RELIEF_PRESSURE", pounds, diameter / 25.4))


@pytest.mark.parametrize(("now", "wanted"), [(380, 450), (450, 380)])
def test_shim_under_the_relief_spring(agree, eng, now, wanted):
    # 3.5 N/mm on a plunger of 12.7 mm: the shim at which the valve opens where it is wanted.
    rate, diameter = 3500.0, 0.0127
    before = brentq(lambda spring: opening(spring, diameter) - 1000 * now, 1, 500, xtol=1e-9)
    shim = brentq(
        lambda thick: opening(before + rate * thick, diameter) - 1000 * wanted, -0.01, 0.01,
        xtol=1e-12,
    )  # fmt: skip
    got = eng("RELIEF_SHIM", now, wanted, 3.5, 12.7, "metric")
    agree("RELIEF_SHIM", PRESSED, 1000 * shim, got, abs=1e-6)

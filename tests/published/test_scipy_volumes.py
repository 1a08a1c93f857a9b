"""Volumes in cc by integration over the cross-section with scipy, lengths converted by pint."""

import math

import pint
import pytest
from scipy.integrate import quad
from sources import independent

SOURCE = independent("integration over the cross-section, lengths by pint", quad, pint.UnitRegistry)
UNIT = pint.UnitRegistry()


def cc(area, low, high, unit):
    """Volume of a body of this cross-section at each height, in cc."""
    volume = quad(area, low, high)[0] * UNIT(unit) ** 3
    return volume.to("cm**3").magnitude


def disk(diameter):
    # Strips across the circle, without the formula of its area.
    return 2 * quad(lambda x: math.sqrt(diameter**2 / 4 - x**2), -diameter / 2, diameter / 2)[0]


@pytest.mark.parametrize(
    ("system", "unit", "bore", "height"),
    [
        ("inch", "inch", 4.030, 0.040),
        ("metric", "mm", 86.0, 1.2),
        ("inch", "inch", 3.5, 0.005),
        ("metric", "mm", 89.0, 0.127),
    ],
)
def test_disks(agree, eng, system, unit, bore, height):
    expected = cc(lambda z: disk(bore), 0, height, unit)
    agree("GASKET_VOLUME", SOURCE, expected, eng("GASKET_VOLUME", bore, height, system), rel=1e-6)
    agree("DECK_VOLUME", SOURCE, expected, eng("DECK_VOLUME", bore, height, system), rel=1e-6)
    agree("DECK_VOLUME", SOURCE, -expected, eng("DECK_VOLUME", bore, -height, system), rel=1e-6)
    stroke = 90 * height
    expected = cc(lambda z: disk(bore), 0, stroke, unit)
    swept = eng("CYLINDER_VOLUME", bore, stroke, system)
    agree("CYLINDER_VOLUME", SOURCE, expected, swept, rel=1e-6)


@pytest.mark.parametrize(
    ("system", "unit", "bore", "land", "height"),
    [("inch", "inch", 4.030, 4.000, 0.300), ("metric", "mm", 86.0, 85.4, 6.0)],
)
def test_crevice(agree, eng, system, unit, bore, land, height):
    # Rings of growing radius from the land to the bore.
    ring = quad(lambda r: 2 * math.pi * r, land / 2, bore / 2)[0]
    expected = cc(lambda z: ring, 0, height, unit)
    got = eng("RING_LAND_VOLUME", bore, land, height, system)
    agree("RING_LAND_VOLUME", SOURCE, expected, got, rel=1e-9)


def test_milling_of_a_round_chamber(agree, eng):
    # A chamber of 3.4 in open diameter with straight walls, milled by 0.020 in.
    area = disk(3.4)
    expected = cc(lambda z: area, 0, 0.020, "inch")
    agree("CHAMBER_CHANGE", SOURCE, expected, eng("CHAMBER_CHANGE", 0.020, area), rel=1e-9)
    got = eng("MILLING_FOR_CHAMBER_CHANGE", expected, area)
    agree("MILLING_FOR_CHAMBER_CHANGE", SOURCE, 0.020, got, rel=1e-9)
    square_cm = area * 2.54**2
    got = eng("CHAMBER_CHANGE", 0.508, square_cm, "metric")
    agree("CHAMBER_CHANGE", SOURCE, expected, got, rel=1e-9)

"""Ratio and volumes of a cylinder summed up slice by slice, and what gives a ratio by search.

The gas is followed from the roof of the chamber to the crown, one slice after another, at top
and at bottom dead center. What gives a wanted ratio is found by halving; nothing here solves
the ratio for anything.
"""

import math
from dataclasses import dataclass, replace

import pint
import pytest
from each_case import each
from scipy.integrate import quad
from scipy.optimize import brentq
from sources import independent

SUMMED = independent("gas summed up slice by slice", quad)
FOUND = independent("gas summed up slice by slice, searched for the ratio", quad, brentq)
TURNED = independent("pin found on its line, gas above it summed up", brentq, quad)
INCH = pint.UnitRegistry().Quantity(1, "inch").to("cm").magnitude


def disk(diameter):
    """Area of a circle by strips, no closed form."""
    half = diameter / 2
    return 4 * quad(lambda x: math.sqrt(half**2 - x**2), 0, half, epsabs=1e-13)[0]


@dataclass(frozen=True)
class Cylinder:
    """Sizes in cm, volumes in cc: chamber, gasket, deck clearance and crown over a bore."""

    bore: float
    stroke: float
    chamber: float
    gasket_bore: float
    gasket: float
    deck: float
    crown: float

    def gas(self, down):
        """Volume over the crown, that far below its top."""
        slices = ((disk(self.gasket_bore), self.gasket), (disk(self.bore), self.deck + down))
        flat = sum(quad(lambda _, area=area: area, 0, height)[0] for area, height in slices)
        return self.chamber + self.crown + flat

    @property
    def ratio(self):
        return self.gas(self.stroke) / self.gas(0)


# A short-stroke single, a four with pistons above the deck and domes, a long-stroke six.
ENGINES = [
    Cylinder(7.15, 5.06, 17.2, 7.3, 0.062, 0.021, 0.8),
    Cylinder(8.83, 9.37, 57.5, 9.0, 0.107, -0.013, -4.6),
    Cylinder(10.43, 13.21, 96.4, 10.6, 0.124, 0.046, 11.3),
]


def volumes(eng, it):
    """Swept, gasket's and deck's volume by the catalog, from inches."""
    return (
        eng("CYLINDER_VOLUME", it.bore / INCH, it.stroke / INCH),
        eng("GASKET_VOLUME", it.gasket_bore / INCH, it.gasket / INCH),
        eng("DECK_VOLUME", it.bore / INCH, it.deck / INCH),
    )


@pytest.mark.parametrize("it", ENGINES)
def test_ratio_and_clearance_volume(agree, eng, it):
    swept, gasket, deck = volumes(eng, it)
    agree("CYLINDER_VOLUME", SUMMED, it.gas(it.stroke) - it.gas(0), swept, rel=1e-8)
    got = eng("CLEARANCE_VOLUME", it.chamber, gasket, deck, it.crown)
    agree("CLEARANCE_VOLUME", SUMMED, it.gas(0), got, rel=1e-8)
    got = eng("COMPRESSION_RATIO", swept, it.chamber, gasket, deck, it.crown)
    agree("COMPRESSION_RATIO", SUMMED, it.ratio, got, rel=1e-8)


@pytest.mark.parametrize("more", [-0.7, 0.6])
@pytest.mark.parametrize("it", ENGINES)
def test_what_gives_a_ratio(agree, eng, it, more):
    wanted = it.ratio + more
    swept, gasket, deck = volumes(eng, it)

    def found(part, low, high):
        return brentq(lambda x: replace(it, **{part: x}).ratio - wanted, low, high, xtol=1e-12)

    got = eng("CHAMBER_FOR_RATIO", wanted, swept, gasket, deck, it.crown)
    agree("CHAMBER_FOR_RATIO", FOUND, found("chamber", 1, 400), got, rel=1e-7)
    got = eng("DISH_FOR_RATIO", wanted, swept, it.chamber, gasket, deck)
    agree("DISH_FOR_RATIO", FOUND, found("crown", it.crown - 15, 60), got, abs=1e-6)
    if more < 0:
        args = (swept, it.chamber, deck, it.gasket_bore / INCH, it.crown)
        got = eng("GASKET_FOR_RATIO", wanted, *args) * INCH
        agree("GASKET_FOR_RATIO", FOUND, found("gasket", 0.001, 1), got, rel=1e-7)
    else:
        cut = it.deck - found("deck", it.deck - 0.1, it.deck)
        args = (swept, it.chamber, gasket, deck, it.bore / INCH, it.crown)
        got = eng("DECK_CUT_FOR_RATIO", wanted, *args) * INCH
        agree("DECK_CUT_FOR_RATIO", FOUND, cut, got, rel=1e-6)


@each("angle", [0, 1, 30, 77, 90, 120, 179, 180, 270, 400, 720])
@each("offset", [0.0, 0.12])
def test_cylinder_volume_at_an_angle(agree, eng, angle, offset):
    it, rod = ENGINES[1], 15.4
    throw = it.stroke / 2

    def pin(turned):
        x, y = throw * math.sin(turned), throw * math.cos(turned)
        reach = (x - offset) / rod
        return brentq(
            lambda h: math.hypot(h - y, x - offset) - rod,
            y + rod * math.sqrt(1 - reach**2) - 1, y + rod + 1, xtol=1e-13,
        )  # fmt: skip

    # The highest pin, where rod and throw stand in line.
    top = pin(math.asin(offset / (throw + rod)))
    sizes = (10 * it.bore, 10 * it.stroke, 10 * rod, angle, it.gas(0), 10 * offset, "metric")
    got = eng("CYLINDER_VOLUME_AT", *sizes)
    agree("CYLINDER_VOLUME_AT", TURNED, it.gas(top - pin(math.radians(angle))), got, rel=1e-7)


@pytest.mark.parametrize("rod", [112.0, 137.5, 220.0])
def test_rod_ratio_sets_the_greatest_lean_of_the_rod(agree, eng, rod):
    # The rod leans most where the crankpin is farthest from the bore's axis: by search.
    stroke = 81.3

    def lean(degrees):
        beside = stroke / 2 * math.sin(math.radians(degrees))
        return brentq(lambda a: rod * math.sin(a) - beside, 0, math.pi / 2, xtol=1e-13)

    widest = max(lean(degrees) for degrees in range(60, 121))
    got = eng("ROD_STROKE_RATIO", rod, stroke, "metric")
    source = independent("greatest lean of the rod, searched", brentq)
    agree("ROD_STROKE_RATIO", source, 1 / (2 * math.sin(widest)), got, rel=1e-9)

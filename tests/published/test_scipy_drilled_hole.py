"""Drilled holes by scipy's numerical integration: what a drill takes from a counterweight."""

import math

import pytest
from scipy import integrate, optimize
from sources import from_memory, independent

from workbook_tools.catalog import tables

SOURCE = independent("first moment of the drilled hole", integrate.quad)


@pytest.mark.parametrize(
    ("grams_mm", "radius", "drill", "point", "material"),
    [
        (1000, 80, 12.7, 118, "alloy steel"),
        (300, 75, 8, 135, "alloy steel"),
        (2500, 90, 16, 180, "ductile iron"),
    ],
)
def test_hole_takes_the_unbalance_away(agree, eng, grams_mm, radius, drill, point, material):
    depth = eng("DRILL_DEPTH", grams_mm, radius, drill, material, point, "metric")
    tip = drill / 2 / math.tan(math.radians(point / 2))

    def moment(below):
        across = drill / 2 if below <= depth else drill / 2 * (depth + tip - below) / tip
        return math.pi * across**2 * (radius - below)

    density = tables.density(material) * 1e-6  # g/mm3
    got = density * sum(
        integrate.quad(moment, low, high)[0] for low, high in ((0, depth), (depth, depth + tip))
    )
    agree("DRILL_DEPTH", SOURCE, grams_mm, got)
    # Drilled on beyond the axis the hole would take the same again: the shallow one is meant.
    assert 0 < depth < radius / 2


def test_drill_of_118_degrees_in_steel_if_left_out(agree, eng):
    # 1 oz.in at 3 in with a half-inch drill: the depth at which the hole's moment is that.
    radius, drill, grams_mm, density = 76.2, 12.7, 28.349523125 * 25.4, 7.85e-3
    tip = drill / 2 / math.tan(math.radians(59))

    def left(depth):
        def moment(below):
            across = drill / 2 * min(1, (depth + tip - below) / tip)
            return density * math.pi * across**2 * (radius - below)

        ends = ((0, depth), (depth, depth + tip))
        return grams_mm - sum(integrate.quad(moment, *end)[0] for end in ends)

    expected = optimize.brentq(left, 0, radius / 2) / 25.4
    source = independent("depth of the drilled hole", optimize.brentq)
    agree("DRILL_DEPTH", source, expected, eng("DRILL_DEPTH", 1, 3, 0.5))


@pytest.mark.parametrize("crank", ["alloy steel", "ductile iron"])
def test_slug_by_strips(agree, eng, crank):
    # Strips across the slug's face, of one length; what it gains is against the crank's own.
    strips = integrate.quad(lambda x: 2 * math.sqrt(12.7**2 - x**2), -12.7, 12.7)[0]
    source = independent("slug summed up strip by strip", integrate.quad)
    slug, metal = (strips * 31.5 * tables.density(m) * 1e-6 for m in ("heavy metal", crank))
    got = eng("SLUG_MASS", 25.4, 31.5, "heavy metal", "metric")
    agree("SLUG_MASS", source, slug, got, rel=1e-7)
    got = eng("SLUG_GAIN", 25.4, 31.5, "heavy metal", crank, "metric")
    agree("SLUG_GAIN", source, slug - metal, got, rel=1e-7)


def test_slug_of_tungsten_alloy(agree, eng):
    # ASTM B777 class 1, from memory: 17.0 g/cm3.
    volume = math.pi / 4 * 2.54**2 * 3.0
    source = from_memory("ASTM B777", "class 1")
    slug = eng("SLUG_MASS", 25.4, 30, "heavy metal", "metric")
    agree("SLUG_MASS", source, 17.0 * volume, slug)
    # Steel 7.85 g/cm3, the round figure of any handbook.
    gain = eng("SLUG_GAIN", 25.4, 30, "heavy metal", "steel", "metric")
    agree("SLUG_GAIN", source, (17.0 - 7.85) * volume, gain)
